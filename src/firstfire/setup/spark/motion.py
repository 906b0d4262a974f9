"""How unevenly an engine turns within a cycle, from the torque of its gas, and its sparks then."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.sensor_edges import SURE, Sensor
from firstfire.formulas.sparks_along import Sparks, sparks_along
from firstfire.runs.point import OperatingPoint
from firstfire.runs.sparked import coil_of, spark_timing
from firstfire.runs.spun import starter_line

Floats = NDArray[np.float64]
_CYCLE = 4.0 * np.pi


def uneven(plain: PlainEngine, point: OperatingPoint) -> tuple[Floats, Floats] | None:
    """Angles of a cycle and the shaft's speed there, rad and rad/s; None: it would stop.

    Energy goes to and from the shaft by the torque of the gas about its mean; rods and pistons
    as a mean, no starter helps. ``ω² = ω̄² + 2 ∫(T - T̄)dθ/J``.
    """
    curves = point.fired.cycle.curves
    angle, torque = curves.angle - curves.angle[0], curves.gas_torque
    steps = np.diff(angle)
    inside = np.concatenate([[0.0], np.cumsum(0.5 * (torque[1:] + torque[:-1]) * steps)])
    inside -= inside[-1] * angle / angle[-1]
    mean = float(np.trapezoid(inside, angle) / angle[-1])
    square = point.speed**2 + 2.0 * (inside - mean) / starter_line(plain).inertia
    if square.min() <= 0.0:
        return None
    return curves.angle, np.sqrt(square)


def turned(angle: Floats, speed: Floats, cycles: int) -> tuple[Floats, Floats, Floats]:
    """Time, angle and speed of a cycle that repeats."""
    steps = np.diff(angle)
    took = np.concatenate([[0.0], np.cumsum(2.0 * steps / (speed[1:] + speed[:-1]))])
    kept = np.concatenate([[True], steps > 1e-12])
    angle, speed, took = angle[kept], speed[kept], took[kept]
    whole = [
        np.concatenate([[part[0]], *([part[1:] + n * long for n in range(cycles)])])
        for part, long in ((took, took[-1]), (angle, angle[-1] - angle[0]), (speed, 0.0))
    ]
    return whole[0], whole[1], whole[2]  # fmt: skip


def sparks_while(
    plain: PlainEngine, point: OperatingPoint, *, cycles: int = 6, top: float = 0.0,
    sensor: Sensor = SURE, seed: int = 0,
) -> Sparks | None:  # fmt: skip
    """Sparks of one cylinder at a held mean speed; None where it would stop."""
    found = uneven(plain, point)
    if found is None:
        return None
    time, angle, speed = turned(*found, cycles)
    return sparks_along(
        time, angle, speed, spark_timing(plain), coil_of(plain), top=top, sensor=sensor, seed=seed
    )
