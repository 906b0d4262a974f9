"""What judging leaves out on its way changes no judgement: asked the long way, it says the same."""

import math
from statistics import NormalDist

import pytest

from firstfire.parts.all import ways
from firstfire.runs.moments import judged_peak, loads_at, moment
from firstfire.verdict.judge import judge, word

NINETY, RARE = 1.6449, 3.0902


def the_long_way(result, bout, spread, seconds):
    """Every way at the judged and at the 1-in-1000 cycle, nothing remembered or left out."""
    rows = range(len(bout.gases))
    peaks = [judged_peak(bout, row, seconds) for row in rows]
    rare = peaks
    if bout.point.event != "cranking":
        rare = [max(p, q.rare) for p, q in zip(peaks, bout.point.peaks, strict=True)]

    def asked(under):
        felt = loads_at(bout, result.engine, under)
        here = [moment(bout, result.engine, row, seconds, under, felt) for row in rows]
        return {way.id: way for at in here for way in ways(at)}

    least = asked(rare)
    for way in asked(peaks).values():
        if not way.judged:
            yield way.id, (None, None, None, "not judged", None)
            continue
        slopes = spread.slopes.get(way.id, ())
        size = math.sqrt(sum(s * s for s in slopes))
        strength = math.sqrt(sum(slopes[at] ** 2 for at in spread.strength))
        low, high = (way.factor * math.exp(sign * NINETY * size) for sign in (-1, 1))
        said = word(way, low, least[way.id].factor * math.exp(-RARE * strength))
        sure = 1.0 if way.factor >= 1 else 0.0
        if size > 0 and 0 < way.factor < math.inf:
            sure = NormalDist().cdf(math.log(way.factor) / size)
        yield way.id, (way.factor, low, high, said, sure)


@pytest.mark.parametrize("seconds", [0.0, 1.0, 30.0, 900.0])
@pytest.mark.parametrize("event", ["cranking", "first_fire", "idle", "full_throttle", "free_rev"])
def test_judged_the_long_way(events, event, seconds):
    result = events[event]
    found = {m.way.id: m for m in judge(result, seconds)}
    bout, spread = result.bouts[0], result.spreads[0]
    told = dict(the_long_way(result, bout, spread, min(seconds, bout.horizon)))
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
