"""Lift of a cam-worked valve: up, a dwell at the top if wanted, and down again, once a cam turn.

The flanks follow the 3-4-5 polynomial. :func:`cam_phase` alone gives the progress along the
flank, for use with any other law of :mod:`firstfire.formulas.cam_law`. Angles are of the cam
(half the crank's), unwrapped: any number of turns either way. Each function uses only
:mod:`math`, calls none of the others and does not raise, so that it can be compiled.

References
----------
R. L. Norton, *Cam Design and Manufacturing Handbook*, 2nd ed., Industrial Press 2009, chapter 3.
"""

from __future__ import annotations

import math


def cam_phase(
    cam_angle: float, opens: float, duration: float, dwell: float = 0.0
) -> tuple[float, float]:
    """Progress along the flank, 0 closed to 1 fully open, and its derivative by cam angle, 1/rad.

    Parameters
    ----------
    cam_angle
        rad.
    opens
        Cam angle at which the valve begins to open, rad.
    duration
        Cam angle from opening to closing, rad, up to 2π.
    dwell
        Part of the duration spent fully open, 0 to below 1.

    Examples
    --------
    >>> cam_phase(0.5, 0.0, 2.0)
    (0.5, 1.0)
    """
    into = (cam_angle - opens) % (2.0 * math.pi)
    if into >= duration:
        return 0.0, 0.0
    flank = 0.5 * duration * (1.0 - dwell)
    if into < flank:
        return into / flank, 1.0 / flank
    left = duration - into
    if left < flank:
        return left / flank, -1.0 / flank
    return 1.0, 0.0


def valve_lift(
    cam_angle: float, opens: float, duration: float, lift: float, dwell: float = 0.0
) -> float:
    """Lift of the valve, m, with 3-4-5 flanks.

    Parameters
    ----------
    cam_angle, opens, duration, dwell
        As in :func:`cam_phase`.
    lift
        Full lift, m.

    Examples
    --------
    >>> round(1e3 * valve_lift(math.radians(60), 0.0, math.radians(120), 5e-3), 6)
    5.0
    """
    into = (cam_angle - opens) % (2.0 * math.pi)
    if into >= duration:
        return 0.0
    x = min(min(into, duration - into) / (0.5 * duration * (1.0 - dwell)), 1.0)
    return lift * x * x * x * (10.0 - x * (15.0 - 6.0 * x))


def valve_lift_slope(
    cam_angle: float, opens: float, duration: float, lift: float, dwell: float = 0.0
) -> float:
    """Derivative of :func:`valve_lift` by cam angle, m/rad."""
    into = (cam_angle - opens) % (2.0 * math.pi)
    if into >= duration:
        return 0.0
    flank = 0.5 * duration * (1.0 - dwell)
    x = min(min(into, duration - into) / flank, 1.0)
    slope = lift * 30.0 * x * x * (1.0 - x) ** 2 / flank
    return slope if into < 0.5 * duration else -slope


def valve_lift_curvature(
    cam_angle: float, opens: float, duration: float, lift: float, dwell: float = 0.0
) -> float:
    """Second derivative of :func:`valve_lift` by cam angle, m/rad².

    Times the square of the cam speed it is the acceleration of the valve.
    """
    into = (cam_angle - opens) % (2.0 * math.pi)
    if into >= duration:
        return 0.0
    flank = 0.5 * duration * (1.0 - dwell)
    x = min(min(into, duration - into) / flank, 1.0)
    return lift * 60.0 * x * (1.0 - x) * (1.0 - 2.0 * x) / (flank * flank)
