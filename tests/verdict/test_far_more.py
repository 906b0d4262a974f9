"""What is beyond a thousand times its need is said in words, and nothing is divided by nothing."""

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest
from tests.parts.moments import engine, moment

from firstfire.engine.records import Raise
from firstfire.engine.resolve import resolve
from firstfire.parts.valves import EXHAUST_FLOATS
from firstfire.verdict.compare.words import judged_words
from firstfire.verdict.explain.words import sentence, span_text
from firstfire.verdict.facts import raising
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.numbers import FAR_MORE, life
from firstfire.verdict.words.ledger import line
from firstfire.verdict.words.sentences import factor_words

WREN = "engines/wren.toml"


def margin(factor):
    way = EXHAUST_FLOATS.way(moment(WREN), demand=1.0, capacity=factor, governs="spring")
    place = (way, "full_throttle", "full throttle 3000 rpm", 1.0)
    return Margin(*place, factor, factor / 2, factor * 2, "holds", 1.0, ())


@pytest.mark.parametrize("factor", [1001.0, 3e12, math.inf])
def test_beyond_a_thousand_no_figure_is_told(factor):
    told, plain = margin(factor), resolve(engine(WREN))
    assert line(told, plain).span == FAR_MORE
    assert FAR_MORE in judged_words(told)
    for text in (sentence(plain, told), span_text(told)):
        assert FAR_MORE in text.lower() or "nothing is asked" in text or not text
        assert "99+" not in text


def test_an_end_far_beyond_is_told_by_no_figure():
    """A fit that may come out loose: it read *8.8, 0.7 to 1100000*."""
    told = replace(margin(8.8), factor_low=0.7, factor_high=1.1e6)
    assert factor_words(told) == "factor 8.8, 0.7 to over 99"


def test_within_a_thousand_the_figures_stand():
    told, plain = margin(40.0), resolve(engine(WREN))
    assert line(told, plain).span == "40 (20–80)"
    assert "Factor 40 (20–80)" in sentence(plain, told)


def test_a_life_beyond_a_million_hours_is_no_number():
    assert life(2e6) == FAR_MORE
    assert life(math.inf) == FAR_MORE
    assert "900" in life(900.0)


def tried_when(monkeypatch, ways_after):
    """What a change comes to when these are the ways after it; nothing is run."""
    plain = resolve(engine(WREN))
    for name in ("judged_peak", "loads_at", "moment"):
        monkeypatch.setattr(raising, name, lambda *_: None)
    monkeypatch.setattr(raising, "ways", lambda _: ways_after)
    again = SimpleNamespace(horizon=1.0, gases=[None])
    change = Raise("Fit another", {"valves.exhaust.mass": "9 g"}, "lap_valves")
    return raising._judged(engine(WREN), margin(0.5), change, (again, plain))


def test_a_change_after_which_it_can_not_be_judged_is_no_help(monkeypatch):
    """It had counted as a failure that the change takes away: *it no longer applies*."""
    untold = EXHAUST_FLOATS.unjudged(moment(WREN), "its row tells no such number")
    assert tried_when(monkeypatch, (untold,)) is None
    gone = tried_when(monkeypatch, ())
    assert gone is not None
    assert gone.factor_after == 1e6
