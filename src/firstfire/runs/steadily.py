"""Turned by its starter until each cycle is as the one before: how fast, and with what trigger."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field, replace

import numpy as np

from firstfire.cycle.records import ShaftSpec
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.comes_over import comes_over
from firstfire.runs.decompression import Decompression
from firstfire.runs.spun import PAST_TOP, Spun, Turning, on_its_shaft, starter_line, turned_on
from firstfire.runs.stalled import Stalled
from firstfire.runs.walls import cold

_CYCLE = 4 * math.pi
_AT_ONCE, _ROUNDS = 3, 6
"""Cycles between two looks at how fast it turns, and looks at the most."""
_SETTLED = 0.01
_SLOWEST = math.pi
"""A starter that turns no faster than this doesn't turn it, rad/s: what the gas side covers."""


@dataclass(frozen=True)
class Steadily:
    """How a starter keeps an engine turning.

    Attributes
    ----------
    shaft
        What turns it, its trigger let back if it would run faster than asked.
    speed
        Just past the first firing top of a cycle, rad/s.
    at_top
        At the slowest firing top, rad/s.
    last
        The last cycle, every step.
    """

    shaft: ShaftSpec
    speed: float
    at_top: float
    last: Spun = field(repr=False)

    def quicker(self, times: float) -> Steadily:
        """The same with a starter that happens to turn so many times quicker."""
        shaft = replace(
            self.shaft,
            starter_stall=self.shaft.starter_stall * times,
            starter_free=self.shaft.starter_free * times,
        )
        return replace(self, shaft=shaft, speed=self.speed * times, at_top=self.at_top * times)


def steadily(plain: PlainEngine, stop: Callable[[], bool] | None = None) -> Steadily | None:
    """How the starter keeps an engine turning that it has brought to it from a stand.

    None where it stands: by the law of `firstfire.runs.comes_over`, or once what let compression
    off is shut.

    Parameters
    ----------
    plain
        Plain numbers.
    stop
        Asked at least every 0.1 s.
    """
    return kept_turning(plain, stop) if comes_over(plain, stop=stop) else None


def kept_turning(plain: PlainEngine, stop: Callable[[], bool] | None = None) -> Steadily | None:
    """How the starter keeps an engine turning that turns as fast as asked; None: it stands.

    Its rings are loose, and what let compression off is shut.

    Parameters
    ----------
    plain
        Plain numbers.
    stop
        Asked at least every 0.1 s.
    """
    asked, full = plain.use.cranking_speed, starter_line(plain)
    shaft, start = full, min(firing_angles(plain)) + PAST_TOP
    if full.starter_free < _SLOWEST:
        return None
    turning = on_its_shaft(plain, cold(plain), shaft, start, speed=asked)
    Decompression(plain, turning.spec, turning.engines, acts=False)
    before, stalled = 0.0, Stalled()
    for _ in range(_ROUNDS):
        start += _AT_ONCE * _CYCLE
        latest = turning.seconds + _AT_ONCE * _CYCLE / _SLOWEST
        turning, spun = turned_on(turning, latest, until_angle=start, stop=stop)
        stalled.feel(spun.speed, let_off=False)
        if turning.seconds >= latest or not stalled.over:
            return None
        last = Spun(*(getattr(spun, name)[spun.angle >= start - _CYCLE] for name in _ALL))
        mean = heard(shaft, last)
        near = asked if mean > asked or shaft is not full else before
        if abs(mean - near) < _SETTLED * mean:
            break
        before = mean
        free = min(shaft.starter_free * asked / mean, full.starter_free)
        if free < full.starter_free:
            # More than was asked for: the trigger is let back, which lowers what it runs to.
            shaft = replace(shaft, starter_free=free)
            turning = _let_back(turning, shaft)
    return Steadily(shaft, float(last.speed[-1]), slowest_top(plain, last), last)


_ALL = tuple(Spun.__dataclass_fields__)


def heard(shaft: ShaftSpec, spun: Spun) -> float:
    """Mean speed of the starter, as the crank would have it, rad/s: what a hand on it hears."""
    if shaft.rotor == 0.0:
        return spun.mean_speed
    return float(np.trapezoid(spun.rotor, spun.time) / (spun.time[-1] - spun.time[0]))


def _let_back(turning: Turning, shaft: ShaftSpec) -> Turning:
    engines = turning.engines.copy()
    engines[0]["shaft"]["starter_free"] = shaft.starter_free
    return replace(turning, engines=engines)


def slowest_top(plain: PlainEngine, spun: Spun) -> float:
    """Speed at the slowest firing top passed, rad/s; the mean where none was."""
    tops = [
        float(np.interp(at, spun.angle, spun.speed))
        for top in firing_angles(plain)
        for at in np.arange(spun.angle[0] + (top - spun.angle[0]) % _CYCLE, spun.angle[-1], _CYCLE)
    ]
    return min(tops, default=spun.mean_speed)
