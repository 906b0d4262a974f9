"""How unevenly an engine turns within a cycle, from the torque of its gas, and its sparks then."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq

from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.sensor_edges import SURE, Sensor
from firstfire.formulas.sparks_along import Sparks, sparks_along
from firstfire.runs.point import OperatingPoint
from firstfire.runs.sparked import coil_of, spark_timing
from firstfire.runs.spun import starter_line

Floats = NDArray[np.float64]
_SLOWEST = np.pi
"""A shaft that gets slower than this is taken to stop there, rad/s: half a turn a second."""


def uneven(plain: PlainEngine, point: OperatingPoint) -> tuple[Floats, Floats] | None:
    """Angles of a cycle and the shaft's speed there, rad and rad/s; None: it all but stops.

    Energy goes to and from the shaft by the torque of the gas about its mean; rods and pistons
    as a mean, no starter helps: ``ω² = c + 2 ∫(T - T̄)dθ/J``, with c such that its mean in time is
    the point's speed.
    """
    curves = point.fired.cycle.curves
    angle, torque = curves.angle - curves.angle[0], curves.gas_torque
    inside = np.concatenate([[0.0], np.cumsum(0.5 * (torque[1:] + torque[:-1]) * np.diff(angle))])
    inside -= inside[-1] * angle / angle[-1]
    square = 2.0 * (inside - inside.min()) / starter_line(plain).inertia

    def too_fast(slowest: float) -> float:
        mean = float(angle[-1]) / _lasts(angle, np.sqrt(square + slowest**2))
        return mean - point.speed

    if too_fast(_SLOWEST) >= 0.0:
        return None
    slowest = float(brentq(too_fast, _SLOWEST, point.speed * (1.0 + 1e-9)))
    return curves.angle, np.sqrt(square + slowest**2)


def _lasts(angle: Floats, speed: Floats) -> float:
    return float((2.0 * np.diff(angle) / (speed[1:] + speed[:-1])).sum())


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
