"""What the card says of a kick, and how far an upper end is told, from round numbers."""

from __future__ import annotations

import math
from types import SimpleNamespace as Some

import pytest

from firstfire.verdict.facts import judge, raising
from firstfire.verdict.words.card import _spark


def said(kick, degrees=12.0):
    spark = Some(start_angle=math.radians(degrees))
    return _spark(Some(plain=Some(spark=spark), kick=kick)).value


def margin(factor, low=math.nan, high=math.nan):
    return Some(factor=factor, factor_low=low, factor_high=high, way=Some(why_not="it is not lit"))


def test_the_card_tells_how_far_a_start_is_from_a_kick():
    assert (
        said(margin(2.46, 1.14, 7.31))
        == "12° before top; has 2.5 (1.1–7.3) times what takes it over"
    )
    assert said(margin(0.62, 0.4, 0.91)) == (
        "12° before top; kicks: has 0.62 (0.4–0.91) of what takes it over"
    )
    assert (
        said(margin(43.0, 11.0, 1000.0))
        == "12° before top; has 43 (11–99+) times what takes it over"
    )
    assert said(margin(2e4, 1.1, 2e4)) == "12° before top; energy to get over: far more than needed"


def test_the_card_tells_what_is_not_known_of_a_kick():
    assert said(None) == "12° before top; margin to a kick: not asked"
    assert said(margin(None), -5.0) == "5° after top; margin to a kick: not judged"


@pytest.mark.parametrize(
    ("factor", "high", "told"), [(43.0, 2e10, 1000.0), (43.0, 50.0, 50.0), (2e3, 3e10, 2e3)]
)
def test_no_upper_end_is_told_beyond_a_thousand(factor, high, told):
    assert judge._end_told(factor, high) == told


def test_a_change_after_which_a_margin_cannot_be_judged_is_no_help():
    """The same way at another point, or another way, is another margin."""
    own = Some(way=Some(id="crank.kick_back"), point="here")

    def after(way, point, factor):
        return Some(margins=[Some(way=Some(id=way), point=point, factor=factor)])

    assert raising._lost(own, after("crank.kick_back", "here", None))
    assert not raising._lost(own, after("crank.kick_back", "here", 2.0))
    assert not raising._lost(own, after("crank.kick_back", "there", None))
    assert not raising._lost(own, after("rod.tear", "here", None))
