"""Cranked by its starter from a stand: how fast, how unevenly, and what a gauge would read."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from firstfire.cycle.records import ShaftSpec
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.comes_over import comes_over
from firstfire.runs.from_a_stand import turned_from_a_stand
from firstfire.runs.spun import GAUGE, PAST_TOP, Spun, Turning, on_its_shaft, starter_line
from firstfire.runs.stalled import Stalled
from firstfire.runs.steadily import heard
from firstfire.runs.walls import cold

_LAST = 1.0
_TRIED = 3.0
_SETTLED, _ROUNDS = 0.01, 6
OILED = 0.3
"""Share of the rings' leak that a spoonful of oil leaves: common practice, no source."""


@dataclass(frozen=True)
class Cranked:
    """What a starter makes of an engine from a stand.

    Attributes
    ----------
    mean_speed, least_speed
        Of the last second, rad/s.
    gauge, gauge_oiled
        What a compression gauge on cylinder 1 shows above the air around, dry and with oil on the
        rings, Pa.
    over
        Whether it comes over its tops, with its trigger held down.
    spun
        Every step.
    shaft
        What turned it, its trigger let back if it would run faster than asked.
    """

    mean_speed: float
    least_speed: float
    gauge: float
    gauge_oiled: float
    over: bool
    spun: Spun
    shaft: ShaftSpec


def cranked(
    plain: PlainEngine,
    seconds: float = 5.0,
    stop: Callable[[], bool] | None = None,
    shaft: ShaftSpec | None = None,
) -> Cranked:
    """Turn an engine over from a stand, without fuel, by its own starter.

    It begins where a person turns it back to, just past a firing top, so that the starter has a
    run-up. A trigger is let back where it would turn faster than is asked for.

    Parameters
    ----------
    plain
        Plain numbers.
    seconds
        For how long, s.
    stop
        Asked at least every 0.1 s.
    shaft
        What turns it with its trigger held down; None: its starter's own line.
    """
    full = shaft or starter_line(plain)
    shaft = driven(plain, stop, full)
    spun = _spun(plain, shaft, seconds, stop)[1]
    late = spun.since(spun.time[-1] - _LAST)
    way = math.copysign(1.0, shaft.starter_free)
    return Cranked(
        mean_speed=late.mean_speed,
        least_speed=way * float((way * late.speed).min()),
        gauge=gauge_reading(plain, shaft, seconds, stop),
        gauge_oiled=gauge_reading(_oiled(plain), shaft, seconds, stop),
        over=comes_over(plain, full, stop),
        spun=spun,
        shaft=shaft,
    )


def driven(
    plain: PlainEngine,
    stop: Callable[[], bool] | None = None,
    shaft: ShaftSpec | None = None,
) -> ShaftSpec:
    """What turns an engine, its trigger let back where it would turn faster than is asked for.

    It is not let back so far that the engine stands.

    Parameters
    ----------
    plain
        Plain numbers.
    stop
        Asked at least every 0.1 s.
    shaft
        What turns it with its trigger held down; None: its starter's own line.
    """
    shaft = before = shaft or starter_line(plain)
    way = math.copysign(1.0, shaft.starter_free)
    for _ in range(_ROUNDS):
        stalled = Stalled(way)
        spun = _spun(plain, shaft, _TRIED, stop, stalled=stalled)[1]
        if stalled.stood:
            return before
        mean = way * heard(shaft, spun.since(spun.time[-1] - _LAST))
        if mean <= plain.use.cranking_speed * (1 + _SETTLED):
            break
        before = shaft
        shaft = replace(shaft, starter_free=shaft.starter_free * plain.use.cranking_speed / mean)
    return shaft


def gauge_reading(
    plain: PlainEngine,
    shaft: ShaftSpec,
    seconds: float,
    stop: Callable[[], bool] | None = None,
    cylinder: int = 0,
) -> float:
    """What a gauge with a check valve shows in the place of a plug, above the air around, Pa.

    Parameters
    ----------
    plain, shaft, seconds, stop
        As `cranked` has them.
    cylinder
        Counted from 0.
    """
    ended = _spun(plain, shaft, seconds, stop, gauge=cylinder)[0]
    return ended.pressure_in(GAUGE) - plain.surroundings.air_pressure


def _spun(
    plain: PlainEngine,
    shaft: ShaftSpec,
    seconds: float,
    stop: Callable[[], bool] | None,
    gauge: int | None = None,
    stalled: Stalled | None = None,
) -> tuple[Turning, Spun]:
    start = min(firing_angles(plain)) + PAST_TOP
    turning = on_its_shaft(plain, cold(plain), shaft, start, gauge=gauge)
    return turned_from_a_stand(plain, turning, seconds, stop, stalled=stalled)


def _oiled(plain: PlainEngine) -> PlainEngine:
    """The same with oil on its rings."""
    each = [
        parts.model_copy(
            update={"leak": parts.leak.model_copy(update={"ring": OILED * parts.leak.ring})}
        )
        for parts in plain.cylinders
    ]
    return plain.model_copy(update={"cylinders": tuple(each)})
