"""Judging an event's result at any second: pure, no gas, a few milliseconds."""

from __future__ import annotations

import math
from collections.abc import Sequence, Set
from functools import lru_cache

import numpy as np

from firstfire.engine.moment import Moment
from firstfire.engine.records import Temperatures, Way
from firstfire.parts.all import REPORTED, ways
from firstfire.runs.bout import Bout
from firstfire.runs.moments import judged_peak, loads_at, moment, temperatures
from firstfire.runs.readers import judged_during
from firstfire.runs.run import EventResult
from firstfire.runs.spread import Spread
from firstfire.verdict.margin import Dependence, Margin, Word

_NINETY = 1.6449
_RARE = 3.0902  # 1 in 1000
_DRAWS = 20_000
_MOST_TOLD = 6


def judge(result: EventResult, at_seconds: float) -> list[Margin]:
    """Every way to fail of an event at one second of it, worst first.

    Parameters
    ----------
    result
        From `run`.
    at_seconds
        Into the event; beyond its horizon the last second is taken.
    """
    found = []
    for number, bout in enumerate(result.bouts):
        spread = result.spreads[number] if result.spreads else Spread((), {}, ())
        found += judge_bout(result, bout, spread, at_seconds)
    return sorted(found, key=lambda margin: margin.rank)


def judge_bout(result: EventResult, bout: Bout, spread: Spread, at_seconds: float) -> list[Margin]:
    """Every way to fail of one bout at one second."""
    seconds = min(at_seconds, bout.horizon)
    peaks = [judged_peak(bout, row, seconds) for row in range(len(bout.gases))]
    warmth = [temperatures(bout, row, seconds) for row in range(len(bout.gases))]
    found = [way for at in _moments(result, bout, seconds, peaks, warmth) for way in ways(at)]
    asked = {way.id for way in found if way.hazard and _low(way, spread) >= 1}
    rare: dict[str, float] = {}
    if asked:
        for at in _moments(result, bout, seconds, _rare(bout, peaks), warmth):
            rare |= {way.id: way.factor for way in _hazards(at, asked)}
    return [_margin(way, bout, seconds, spread, rare.get(way.id, math.nan)) for way in found]


def _low(way: Way, spread: Spread) -> float:
    """The factor's 5 % end; not a number where the way isn't judged."""
    return way.factor * math.exp(-_NINETY * spread.deviation(way.id))


def _rare(bout: Bout, peaks: Sequence[float]) -> list[float]:
    """The 1-in-1000 cycle's peaks; a cranking cycle is what it is."""
    if bout.point.event == "cranking":
        return list(peaks)
    return [max(p, q.rare) for p, q in zip(peaks, bout.point.peaks, strict=True)]


def _moments(
    result: EventResult,
    bout: Bout,
    seconds: float,
    peaks: Sequence[float],
    warmth: Sequence[Temperatures],
) -> list[Moment]:
    """Each cylinder under its peak."""
    felt = loads_at(bout, result.engine, peaks)
    return [
        moment(bout, result.engine, row, seconds, peaks, felt, warm)
        for row, warm in enumerate(warmth)
    ]


def _hazards(at: Moment, asked: Set[str]) -> list[Way]:
    """What throws, bursts or burns, of those that hold but for the rare cycle."""
    return [
        judge(at)
        for judge in judged_during(at.event)
        if judge.failure.hazard and judge.failure.numbered(at) in asked and judge.applies(at)
    ]


def _margin(way: Way, bout: Bout, seconds: float, spread: Spread, rare: float) -> Margin:
    reported = way.id.partition("#")[0] in REPORTED
    place = (way, bout.point.event, bout.point.name, seconds)
    if not way.judged:
        return Margin(*place, None, None, None, "not judged", None, (), reported=reported)
    size, low = spread.deviation(way.id), _low(way, spread)
    high = way.factor * math.exp(_NINETY * size)
    least = rare * math.exp(-_RARE * spread.strength_deviation(way.id))
    return Margin(
        *place,
        factor=way.factor,
        factor_low=low,
        factor_high=high,
        word=word(way, low, least),
        survival=_survival(way.factor, size),
        depends_on=_dependences(spread.telling.get(way.id, ())),
        reported=reported,
    )


def word(way: Way, low: float, least: float) -> Word:
    """What a factor comes to.

    What throws, bursts or burns holds only if it also holds at the 1-in-1000 cycle with its
    strength at its 1-in-1000 low end (`least`).
    """
    if way.factor < 1:
        return "fails"
    if low < 1 or (way.hazard and not least >= 1):
        return "marginal"
    return "holds"


def _survival(factor: float, size: float) -> float:
    if not math.isfinite(factor):
        return 1.0
    if factor <= 0:
        return 0.0
    if size <= 0:
        return 1.0 if factor >= 1 else 0.0
    return 0.5 * math.erfc(-math.log(factor) / size / math.sqrt(2))


@lru_cache(maxsize=4096)
def _dependences(told: tuple[tuple[str, float], ...]) -> tuple[Dependence, ...]:
    """What moves a way most: the same at every second of a bout."""
    return tuple(Dependence(*one) for one in told[:_MOST_TOLD])


def joint_odds(results: Sequence[EventResult], margins: Sequence[Margin]) -> float:
    """Probability that nothing judged breaks, all unknowns drawn together.

    Margins of one engine share its unknowns, so their survivals are never multiplied: each draw
    moves every factor by the same unknowns.
    """
    by_point = {
        bout.point.name: spread
        for result in results
        for bout, spread in zip(result.bouts, result.spreads, strict=False)
    }
    names = sorted({name for spread in by_point.values() for name in spread.names})
    place = {name: at for at, name in enumerate(names)}
    counted = [m for m in margins if m.factor is not None and not m.reported]
    if not counted:
        return 1.0
    slopes = np.zeros((len(counted), len(names)))
    logs = np.zeros(len(counted))
    for row, margin in enumerate(counted):
        factor = margin.factor or 0.0
        logs[row] = math.log(factor) if 0 < factor < math.inf else (60.0 if factor else -60.0)
        spread = by_point.get(margin.point, Spread((), {}, ()))
        for name, slope in zip(spread.names, spread.slopes.get(margin.way.id, ()), strict=False):
            slopes[row, place[name]] = slope
    draws = np.random.default_rng(20).standard_normal((_DRAWS, len(names)))
    return float(np.mean(np.all(logs + draws @ slopes.T >= 0, axis=1)))
