"""What judging leaves out on its way changes no judgement: asked the long way, it says the same."""

import math
from dataclasses import replace

import pytest

from firstfire.engine.events import EVENTS
from firstfire.parts.all import ways
from firstfire.runs.moments import judged_peak, loads_at, moment
from firstfire.verdict.facts.judge import judge, word
from firstfire.verdict.facts.spans import span

RARE = 3.0902


def asked(result, seconds, *, rare=False):
    """Every way of every cylinder at the judged or at the 1-in-1000 cycle."""
    bout = result.bouts[0]
    rows = range(len(bout.gases))
    under = [judged_peak(bout, row, seconds) for row in rows]
    if rare and bout.point.event != "cranking":
        under = [max(p, q.rare) for p, q in zip(under, bout.point.peaks, strict=True)]
    felt = loads_at(bout, result.engine, under)
    here = [moment(bout, result.engine, row, seconds, under, felt) for row in rows]
    return {way.id: way for at in here for way in ways(at)}


def forgetful(result):
    """The same result, of whose engines drawn nothing is remembered."""
    return replace(result, ensembles=tuple(replace(drawn) for drawn in result.ensembles))


def the_long_way(result, seconds):
    """Every way at the judged and at the 1-in-1000 cycle, nothing remembered or left out.

    How far a factor may be off is that of the second at which the event is judged.
    """
    bout, spread = result.bouts[0], result.spreads[0]
    least = asked(result, seconds, rare=True)
    then_asked = asked(result, min(EVENTS[result.event].judged_at, bout.horizon)).values()
    centre = {way.id: way.factor for way in then_asked if way.judged}
    for way in asked(result, seconds).values():
        if not way.judged:
            yield way.id, (None, None, None, "not judged", None)
            continue
        slopes = spread.slopes.get(way.id, ())
        drawn = forgetful(result).ensembles[0]
        found = span(spread, drawn, way.id, centre.get(way.id, math.nan))
        strength = math.sqrt(sum(slopes[at] ** 2 for at in spread.strength))
        low, high = (way.factor * math.exp(end) for end in (found.low, found.high))
        high = min(high, max(1000.0, way.factor))  # beyond it no figure is told
        said = word(way, low, least[way.id].factor * math.exp(-RARE * strength))
        yield way.id, (way.factor, low, high, said, found.survival(way.factor))


@pytest.mark.parametrize("seconds", [0.0, 1.0, 30.0, 900.0])
@pytest.mark.parametrize("event", ["cranking", "first_fire", "idle", "full_throttle", "free_rev"])
def test_judged_the_long_way(events, event, seconds):
    result = events[event]
    found = {m.way.id: m for m in judge(result, seconds)}
    told = dict(the_long_way(result, min(seconds, result.bouts[0].horizon)))
    assert told.keys() == found.keys()
    for name, (factor, low, high, said, sure) in told.items():
        margin = found[name]
        assert margin.word == said, name
        if factor is None:
            assert margin.factor is None
        else:
            got = (margin.factor, margin.factor_low, margin.factor_high, margin.survival)
            assert got == pytest.approx((factor, low, high, sure), rel=1e-9, abs=1e-12), name


def test_judging_twice_is_judging_once(events):
    full = events["full_throttle"]
    assert judge(full, 7.3) == judge(full, 7.3)
    judge(full, 40.0)
    assert judge(full, 7.3) == judge(full, 7.3)


def test_what_was_asked_before_changes_no_answer(events):
    """Late seconds asked first, of engines drawn that nothing was asked of yet."""
    full = events["full_throttle"]
    one, other = forgetful(full), forgetful(full)
    late_first = {at: judge(one, at) for at in (600.0, 30.0, 1.0)}
    early_first = {at: judge(other, at) for at in (1.0, 30.0, 600.0)}
    assert late_first == early_first
