"""Mean effective pressure of a four-stroke: torque and power of an engine made free of its size.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, Eq. 2.19 and 2.20.
"""

from __future__ import annotations

import math


def swept_volume(bore: float, stroke: float, cylinders: int = 1) -> float:
    """Displacement, m³, from bore and stroke, m.

    Examples
    --------
    >>> round(1e6 * swept_volume(0.068, 0.045), 2)
    163.43
    """
    return 0.25 * math.pi * bore**2 * stroke * cylinders


def mean_effective_pressure(torque: float, displacement: float) -> float:
    """Mean effective pressure, Pa, of a mean torque, N m: ``4 π M/V``.

    Brake torque gives bmep, indicated torque imep, friction torque fmep.

    Examples
    --------
    >>> round(mean_effective_pressure(9.6, 163.43e-6) / 1e5, 2)
    7.38
    """
    return 4.0 * math.pi * torque / displacement


def torque(mean_pressure: float, displacement: float) -> float:
    """Mean torque, N m, of a mean effective pressure, Pa."""
    return mean_pressure * displacement / (4.0 * math.pi)


def power(mean_pressure: float, displacement: float, speed: float) -> float:
    """Power, W, of a mean effective pressure, Pa, at a crank speed, rad/s.

    Examples
    --------
    >>> round(power(6.5274e5, 163.43e-6, 120 * math.pi))
    3200
    """
    return torque(mean_pressure, displacement) * speed


def mean_effective_pressure_of_power(
    shaft_power: float, displacement: float, speed: float
) -> float:
    """Mean effective pressure, Pa, of a power, W, at a crank speed, rad/s: ``2 P/(n V)``.

    Examples
    --------
    >>> round(mean_effective_pressure_of_power(3200.0, 163.43e-6, 120 * math.pi) / 1e5, 2)
    6.53
    """
    return mean_effective_pressure(shaft_power / speed, displacement)


def mean_effective_pressure_of_work(work: float, displacement: float) -> float:
    """Mean effective pressure, Pa, of the work of one cycle, J."""
    return work / displacement


def mean_piston_speed(stroke: float, speed: float) -> float:
    """Mean piston speed, m/s, from stroke, m, and crank speed, rad/s: twice the stroke a turn.

    Examples
    --------
    >>> round(mean_piston_speed(0.045, 100 * math.pi), 3)
    4.5
    """
    return stroke * speed / math.pi
