"""The speed that an engine reaches by itself with its throttle open and nothing to drive."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.runs.point import OperatingPoint, operating_point, spark_angle
from firstfire.runs.root import Bracket, near_root
from firstfire.runs.walls import assumed_warm

_RPM = math.pi / 30
FASTEST = 8000 * _RPM
"""Beyond it waves in the pipes matter, which the gas side has not, rad/s."""
# Share of the friction that may be left over, and of the speed that the search may be off.
_ENOUGH, _NARROW = 0.05, 0.02


@dataclass(frozen=True)
class FreeSpeed:
    """How fast an engine runs with nothing to drive.

    Attributes
    ----------
    speed
        rad/s: where it is judged.
    why
        What stops it there: ``friction``, ``limiter``, or ``beyond`` where it would go on.
    nearest
        The point nearest to it that was run on the way.
    """

    speed: float
    why: str
    nearest: OperatingPoint


def highest(plain: PlainEngine) -> float:
    """Speed that a free rev is followed to, rad/s: its limiter's, or what the gas side covers."""
    spark = plain.spark
    if spark.limit_speed is None or spark.limited_by == "nothing":
        return FASTEST
    return min(spark.limit_speed, FASTEST)


def free_speed(
    plain: PlainEngine,
    known: Sequence[OperatingPoint] = (),
    stop: Callable[[], bool] | None = None,
) -> FreeSpeed:
    """The speed of no brake torque at open throttle, or where something else ends it.

    Parameters
    ----------
    plain
        Plain numbers.
    known
        Full-throttle points of this engine: started from, and their torques used.
    stop
        Asked at least every 0.1 s.

    Raises
    ------
    OutsideValidity
        Where it doesn't turn itself even at its lowest full-throttle speed.
    """
    top, limited = highest(plain), highest(plain) < FASTEST
    run = {point.speed: point for point in known}
    walls = assumed_warm(plain)

    def asked(speed: float) -> float:
        if speed not in run:
            near = min(run.values(), key=lambda p: abs(p.speed - speed), default=None)
            run[speed] = operating_point(
                plain, "free_rev", "free rev", speed, walls,
                spark_angle(plain, speed, starting=False),
                start=near.fired.cycle.state if near else None,
                guess=near.fired.burns if near and not near.misfires else None,
                with_peaks=False, stop=stop,
            )  # fmt: skip
        return run[speed].brake_torque

    below = sorted({s for s in (*run, *plain.use.full_throttle_speeds) if s < top}, reverse=True)
    low = next((s for s in below if asked(s) > 0), None)
    if low is None:
        raise OutsideValidity(
            "At open throttle it gives no torque at any of its full-throttle speeds: it doesn't "
            "rev by itself."
        )
    if asked(top) >= 0:
        return FreeSpeed(top, "limiter" if limited else "beyond", run[top])
    small = _ENOUGH * run[top].friction.mean_torque
    found = near_root(
        asked, Bracket(low, top, asked(low), asked(top)), small=small, narrow=_NARROW, most=5
    )
    speed = found.low if abs(found.at_low) < abs(found.at_high) else found.high
    return FreeSpeed(speed, "friction", run[speed])
