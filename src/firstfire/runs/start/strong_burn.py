"""What a strong combustion asks of an engine, while it starts and at open throttle."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from firstfire.cycle.build import widening_along
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import spark_gap
from firstfire.formulas.normal import NINETY
from firstfire.runs.cranking import Cranked
from firstfire.runs.start.asked import Asked, Lived
from firstfire.runs.start.going import at_speed
from firstfire.runs.start.life import Life

Stop = Callable[[], bool]

_STRONG_AT = tuple(rpm * math.pi / 30 for rpm in (750, 1400, 2000, 2800))


@dataclass(frozen=True)
class Strong:
    """What a strong combustion asks of it, while it starts and at open throttle.

    Attributes
    ----------
    pressure
        Highest peak, Pa.
    torque
        Most that its gas turns a throw with, N·m.
    volts
        That its plug's gap asks for at the start spark, V; None outside what is known of gaps.
    """

    pressure: float
    torque: float
    volts: float | None


def strong_burn(
    plain: PlainEngine, asked: Asked, turned: Cranked, stop: Stop | None = None
) -> Strong:
    """What its strong combustions reach, 1 in 20 of them.

    Parameters
    ----------
    plain
        Plain numbers.
    asked
        How it is started.
    turned
        How its starter turns it.
    stop
        Asked at least every 0.1 s.
    """
    life = Life(plain, replace(asked, seed=None, strong=NINETY, in_time=False), turned.shaft)
    lived = life.lived(stop)
    spun, air = lived.spun, plain.surroundings.air_pressure
    count = len(plain.cylinders)
    turning = [
        float(((spun.pressure[:, row] - air) * widening_along(life.engines, spun.angle, row)).max())
        for row in range(count)
    ]
    quick = replace(asked, seed=None, strong=NINETY)
    running = [at_speed(plain, quick, speed, stop).peak for speed in _STRONG_AT]
    return Strong(
        pressure=max(float(spun.pressure[:, :count].max()), *running),
        torque=max(turning),
        volts=_volts(plain, lived),
    )


def _volts(plain: PlainEngine, lived: Lived) -> float | None:
    """What the plug's gap asks for at the first spark."""
    first = next(iter(lived.sparks), None)
    if first is None:
        return None
    at = int(np.searchsorted(lived.spun.time, first.seconds))
    pressure = float(lived.spun.pressure[min(at, len(lived.spun.time) - 1), first.cylinder])
    warm = plain.surroundings.air_temperature
    warm *= (pressure / plain.surroundings.air_pressure) ** (0.3 / 1.3)
    gap = plain.cylinders[first.cylinder].plug.gap
    try:
        return spark_gap.breakdown_voltage(gap, pressure, warm)
    except ValueError:
        return None
