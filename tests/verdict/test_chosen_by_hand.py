"""What is chosen and what makes a span, from numbers small enough to be worked out by hand."""

from __future__ import annotations

import math
from pathlib import Path
from types import SimpleNamespace as Some

import pytest

import firstfire as ff
from firstfire.engine.records import Raise
from firstfire.verdict.explain.opening import _makers
from firstfire.verdict.facts.margin import Dependence
from firstfire.verdict.facts.raising import raised_by, work
from firstfire.verdict.improve.improve import _best

WREN = ff.read(Path(__file__).resolve().parents[2] / "engines" / "wren.toml")
NINETY = 1.6449


def margin(low: float, high: float, *slopes: tuple[str, float]):
    return Some(
        factor_low=low, factor_high=high, depends_on=[Dependence(path, e) for path, e in slopes]
    )


def test_shares_of_a_span_are_squares_of_slopes_over_its_variance():
    """A span of e^(2 · 1.6449 · 0.5) has a deviation of 0.5: slopes of 0.4 and 0.2 make 64 and 16
    of 100 parts of its variance, all else 20."""
    high = math.exp(2 * NINETY * 0.5)
    made = list(
        _makers(WREN, margin(1.0, high, ("doubt.wall_heat", 0.4), ("doubt.burn_duration", -0.2)))
    )
    assert [maker.share for maker in made] == pytest.approx([0.64, 0.16, 0.20], abs=1e-3)
    assert made[-1].words == "all else together"


def test_where_makers_alone_come_to_more_than_the_span_they_share_it():
    """Slopes of 0.6 and 0.8 alone make a variance of 1, more than the span's 0.25."""
    high = math.exp(2 * NINETY * 0.5)
    made = list(_makers(WREN, margin(1.0, high, ("doubt.wall_heat", 0.6), ("doubt.flow", 0.8))))
    assert [maker.share for maker in made] == pytest.approx([0.36, 0.64], abs=1e-6)


def test_a_change_is_chosen_by_what_it_gains_an_hour():
    """Of two that gain alike, the one of less work; of like work, the one that gains more."""
    little = Raise("Turn the screws less", {"head.fasteners.torque": "2 N*m"}, "retighten")
    much = Raise("Print the body anew", {"body.outside_diameter": "70 mm"}, "reprint_body")
    now = Some(score=0.30)
    hours = [work(raised_by(WREN, change, math.nan, "")) for change in (little, much)]
    assert hours[0] < hours[1]
    asked = [(None, much), (None, little)]
    alike = [Some(score=0.50), Some(score=0.50)]
    assert _best(WREN, now, asked, alike)[0] == 1
    dearer = 0.30 + 0.20 * hours[1] / hours[0]
    assert _best(WREN, now, asked, [Some(score=1.05 * dearer), alike[1]])[0] == 0
    assert _best(WREN, now, asked, [Some(score=0.95 * dearer), alike[1]])[0] == 1
    assert _best(WREN, now, asked, [None, Some(score=0.30)]) is None
