"""How factors sink while an event is held."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.records import Way
from firstfire.runs.run import EventResult
from firstfire.verdict.facts.judge import doubt_of, judge_bout

_SECONDS = (
    0.25, 0.5, 1.0, 2.0, 3.0, 4.5, 6.5, 9.0, 12.0, 16.0, 21.0, 28.0, 36.0, 48.0, 65.0, 90.0, 130.0,
    200.0, 350.0, 600.0,
)  # fmt: skip
"""Into the event: close at first, while walls warm fast."""


@dataclass(frozen=True)
class Fading:
    """Factors of one way to fail against seconds into a run."""

    way: Way
    seconds: tuple[float, ...]
    factors: tuple[float, ...]

    @property
    def lowest(self) -> float:
        """Of all seconds."""
        return min(self.factors)

    @property
    def crossing(self) -> float | None:
        """First of the seconds at which it is below 1."""
        below = (s for s, f in zip(self.seconds, self.factors, strict=True) if f < 1)
        return next(below, None)


def fading(event: EventResult, number: int, most: int) -> list[Fading]:
    """The ways that fall below 1 soonest or come lowest, each of its worst cylinder.

    Parameters
    ----------
    event, number
        A held event, and which of its bouts.
    most
        How many are told.
    """
    bout, doubt = event.bouts[number], doubt_of(event, number)
    seconds = tuple(s for s in _SECONDS if s <= bout.horizon)
    if not event.spreads or not seconds:
        return []
    rows: dict[str, list[float]] = {}
    ways: dict[str, Way] = {}
    for second in seconds:
        for margin in judge_bout(event, bout, doubt, second):
            if margin.factor is not None and not margin.reported:
                rows.setdefault(margin.way.id, []).append(margin.factor)
                ways[margin.way.id] = margin.way
    each = [
        Fading(ways[way], seconds, tuple(factors))
        for way, factors in rows.items()
        if len(factors) == len(seconds)
    ]
    worst: dict[str, Fading] = {}
    for one in sorted(each, key=_urgency):
        worst.setdefault(one.way.id.partition("#")[0], one)
    return list(worst.values())[:most]


def _urgency(one: Fading) -> tuple[float, float]:
    """What comes below 1 soonest first, then what comes lowest."""
    return (math.inf if one.crossing is None else one.crossing, one.lowest)
