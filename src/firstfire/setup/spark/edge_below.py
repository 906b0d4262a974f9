"""Below which speed a clock fires too far from what was asked, so that an edge has to."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.point import operating_point
from firstfire.runs.walls import cold
from firstfire.setup.spark.motion import sparks_while

Stop = Callable[[], bool]
TOO_FAR = math.radians(3.0)
"""Error that is still let go. Common practice, no source."""
_RPM = math.pi / 30
_TRIED = tuple(rpm * _RPM for rpm in (200, 300, 400, 500, 600, 800, 1000, 1200, 1500, 2000, 2500))


@dataclass(frozen=True)
class ClockError:
    """What the clock makes of the start angle, without fuel.

    Attributes
    ----------
    speed
        Mean, rad/s.
    early
        By how much the spark comes too early, rad; infinite where the shaft would stop.
    """

    speed: float
    early: float


@dataclass(frozen=True)
class EdgeBelow:
    """Where to change over from edge to clock.

    Attributes
    ----------
    speed
        From here on the clock is good to :data:`TOO_FAR`, rad/s; infinite: nowhere that was tried.
    errors
        At each speed tried.
    """

    speed: float
    errors: tuple[ClockError, ...]


def edge_below(plain: PlainEngine, stop: Stop | None = None) -> EdgeBelow:
    """Where an edge has to fire an engine, and the clock may.

    The shaft slows into each compression on its own: a starter that stays on holds it up, so
    that cranked hard the clock errs less.
    """
    clocked = _clocked(plain)
    errors = tuple(_error(clocked, speed, stop) for speed in _TRIED)
    good = [one.speed for one in errors if abs(one.early) <= TOO_FAR]
    last_bad = max((one.speed for one in errors if abs(one.early) > TOO_FAR), default=0.0)
    return EdgeBelow(min((s for s in good if s > last_bad), default=math.inf), errors)


def _clocked(plain: PlainEngine) -> PlainEngine:
    """The same with a sensor, timed by the clock for its start angle at every speed."""
    asked = plain.spark.start_angle
    spark = plain.spark.model_copy(
        update={"source": "sensor", "timed_by": "clock", "running_angle": asked,
                "advance_table": None, "limit_speed": None, "latency": 0.0}
    )  # fmt: skip
    return plain.model_copy(update={"spark": spark})


def _error(plain: PlainEngine, speed: float, stop: Stop | None) -> ClockError:
    point = operating_point(
        plain, "cranking", "", speed, cold(plain), None, with_peaks=False, stop=stop
    )
    worst = 0.0
    for top in firing_angles(plain):
        sparks = sparks_while(plain, point, top=top)
        if sparks is None or not len(sparks.advance):
            return ClockError(speed, math.inf)
        errors = np.asarray(sparks.advance[-2:] - sparks.asked[-2:])
        worst = max(worst, float(errors[np.argmax(np.abs(errors))]), key=abs)
    return ClockError(speed, worst)
