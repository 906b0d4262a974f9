"""Judging an event's result at any second: pure, no gas, a few milliseconds."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass, field
from functools import lru_cache
from weakref import WeakKeyDictionary

from firstfire.engine.events import EVENTS
from firstfire.engine.moment import Moment
from firstfire.engine.records import Temperatures, Way
from firstfire.engine.working import recorded
from firstfire.formulas.normal import RARE
from firstfire.parts.all import REPORTED, judged_during, ways
from firstfire.runs.bout import Bout
from firstfire.runs.ensemble import Ensemble
from firstfire.runs.moments import judged_peak, loads_at, moment, temperatures
from firstfire.runs.reads import reads
from firstfire.runs.run import EventResult
from firstfire.runs.spread import Spread
from firstfire.verdict.facts.margin import Dependence, Margin, Word
from firstfire.verdict.facts.spans import Bend, Span, bend, span
from firstfire.verdict.numbers import FAR

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
        found += judge_bout(result, bout, doubt_of(result, number), at_seconds)
    return sorted(found, key=lambda margin: margin.least)


@dataclass(frozen=True)
class Doubt:
    """What is known of how far a bout's factors may be off: slopes, and engines drawn."""

    spread: Spread = field(default_factory=lambda: Spread((), {}, ()))
    ensemble: Ensemble | None = None
    centre: Mapping[str, float] = field(default_factory=dict)
    """Factors of the engine at its centre, at the second that those drawn were judged."""

    def span(self, way: str) -> Span:
        """The span of a way that is judged: the same at whatever second it is asked."""
        return span(self.spread, self.ensemble, way, self.centre.get(way, math.nan))

    def bend(self, way: str) -> Bend:
        """How a way's factor lies over its first-order sum."""
        return bend(self.spread, self.ensemble, way, self.centre.get(way, math.nan))


_NO_SLOPES = Spread((), {}, ())
_CENTRES: WeakKeyDictionary[Ensemble, dict[str, float]] = WeakKeyDictionary()


def doubt_of(result: EventResult, number: int) -> Doubt:
    """What is known of how far the factors of one of an event's bouts may be off."""
    spread = result.spreads[number] if result.spreads else _NO_SLOPES
    if not result.ensembles:
        return Doubt(spread)
    drawn = result.ensembles[number]
    if drawn not in _CENTRES:
        _CENTRES[drawn] = _centre(result, result.bouts[number])
    return Doubt(spread, drawn, _CENTRES[drawn])


def _centre(result: EventResult, bout: Bout) -> dict[str, float]:
    """Factors of the ways judged, at the second that engines drawn are judged."""
    return {
        way.id: way.factor for at in first_moments(result, bout) for way in ways(at) if way.judged
    }


def first_moments(result: EventResult, bout: Bout) -> list[Moment]:
    """Each cylinder at the second that an event is judged."""
    seconds = min(EVENTS[bout.point.event].judged_at, bout.horizon)
    return _moments(result, bout, seconds, _peaks(bout, seconds), _warmth(bout, seconds))


def read_in(results: Sequence[EventResult]) -> dict[tuple[str, str], tuple[str, ...]]:
    """Paths of the engine file that each way to fail reads, by event and the way's id.

    Parameters
    ----------
    results
        Of the events; of each, every operating point's reading counts.
    """
    found: dict[tuple[str, str], dict[str, None]] = {}
    for result in results:
        for bout in result.bouts:
            for at in first_moments(result, bout):
                for way, paths in reads(at).items():
                    found.setdefault((result.event, way), {}).update(dict.fromkeys(paths))
    return {way: tuple(paths) for way, paths in found.items()}


class Opened:
    """Ways of some events with their numbers put in and their workings.

    Parameters
    ----------
    results
        Of the events.
    """

    def __init__(self, results: Sequence[EventResult]) -> None:
        self._bouts = {
            (result.event, bout.point.name): (result, bout)
            for result in results
            for bout in result.bouts
        }
        self._moments: dict[tuple[str, str, float], list[Moment]] = {}

    def way(self, margin: Margin) -> Way:
        """The way of a margin as it was judged, opened; unchanged where it wasn't judged."""
        if not margin.way.judged:
            return margin.way
        base, _, number = margin.way.id.partition("#")
        at = self._at(margin)[int(number or 1) - 1]
        return next(judge(at) for judge in judged_during(at.event) if judge.failure.id == base)

    def _at(self, margin: Margin) -> list[Moment]:
        key = (margin.event, margin.point, margin.at_seconds)
        if key not in self._moments:
            result, bout = self._bouts[key[:2]]
            seconds = min(margin.at_seconds, bout.horizon)
            there = _moments(result, bout, seconds, _peaks(bout, seconds), _warmth(bout, seconds))
            self._moments[key] = [recorded(at) for at in there]
        return self._moments[key]


def judge_bout(result: EventResult, bout: Bout, doubt: Doubt, at_seconds: float) -> list[Margin]:
    """Every way to fail of one bout at one second.

    How far a factor may be off is what it is at the second that the event is judged.
    """
    seconds = min(at_seconds, bout.horizon)
    peaks, warmth = _peaks(bout, seconds), _warmth(bout, seconds)
    found = [way for at in _moments(result, bout, seconds, peaks, warmth) for way in ways(at)]
    asked = {way.id for way in found if way.hazard and _low(way, doubt) >= 1}
    rare: dict[str, float] = {}
    if asked:
        for at in _moments(result, bout, seconds, _rare(bout, peaks), warmth):
            rare |= {way.id: way.factor for way in _hazards(at, asked)}
    return [_margin(way, bout, seconds, doubt, rare.get(way.id, math.nan)) for way in found]


def _low(way: Way, doubt: Doubt) -> float:
    """The factor's 5 % end; not a number where the way isn't judged."""
    return way.factor * math.exp(doubt.span(way.id).low) if way.judged else math.nan


def _peaks(bout: Bout, seconds: float) -> list[float]:
    """Each cylinder's peak that is judged."""
    return [judged_peak(bout, row, seconds) for row in range(len(bout.gases))]


def _warmth(bout: Bout, seconds: float) -> list[Temperatures]:
    """How warm each cylinder's parts are."""
    return [temperatures(bout, row, seconds) for row in range(len(bout.gases))]


def _rare(bout: Bout, peaks: Sequence[float]) -> list[float]:
    """The 1-in-1000 cycle's peaks; a cranking cycle is what it is."""
    if EVENTS[bout.point.event].peak == "mean":
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


def _margin(way: Way, bout: Bout, seconds: float, doubt: Doubt, rare: float) -> Margin:
    reported = way.id.partition("#")[0] in REPORTED
    place = (way, bout.point.event, bout.point.name, seconds)
    if not way.judged:
        return Margin(*place, None, None, None, "not judged", None, (), reported=reported)
    spread, found = doubt.spread, doubt.span(way.id)
    # an engine as it is written down is one of those like it
    low, high = (
        way.factor * math.exp(min(found.low, 0.0)),
        _end_told(way.factor, way.factor * math.exp(max(found.high, 0.0))),
    )
    least = rare * math.exp(-RARE * spread.strength_deviation(way.id))
    return Margin(
        *place,
        factor=way.factor,
        factor_low=low,
        factor_high=high,
        word=word(way, low, least),
        survival=found.survival(way.factor),
        depends_on=_dependences(spread.telling.get(way.id, ())),
        reported=reported,
    )


def _end_told(factor: float, high: float) -> float:
    """An upper end that is told: where next to nothing is asked of some engines it has none."""
    return max(factor, min(high, FAR))


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


@lru_cache(maxsize=4096)
def _dependences(told: tuple[tuple[str, float], ...]) -> tuple[Dependence, ...]:
    """What moves a way most: the same at every second of a bout."""
    return tuple(Dependence(*one) for one in told[:_MOST_TOLD])
