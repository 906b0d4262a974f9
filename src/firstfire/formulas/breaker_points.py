"""Breaker points on their lobe: how fast the arm still follows, and what a changed gap shifts.

The lobe rises by the 3-4-5 polynomial, which :mod:`firstfire.formulas.cam_law` has.

References
----------
R. L. Norton, *Cam Design and Manufacturing Handbook*, 2nd ed., Industrial Press 2009, 3-4-5
polynomial: greatest acceleration 5.7735 h/β², and as large a deceleration (from memory).
"""

from __future__ import annotations

import math

from firstfire.formulas.cam_law import polynomial_345
from firstfire.formulas.validity import require_positive, require_within

_HARDEST = 10.0 / math.sqrt(3.0)
"""Greatest second derivative of the 3-4-5 polynomial over its unit rise and length."""
_HALVINGS = 60


def bounce_speed(force: float, mass: float, rise: float, ramp: float) -> float:
    """Speed of the lobe above which its arm flies off it, rad/s.

    The spring has to slow the arm over the second half of the rise:
    ``F = m · 5.7735 h ω²/β²``. What bounces as the points shut comes on top.

    Parameters
    ----------
    force
        Of the spring on the heel, N.
    mass
        Of the arm as if at its heel, kg.
    rise
        Of the lobe, m.
    ramp
        Angle of the lobe over which it rises, rad.

    Examples
    --------
    6 N, 3 g, 0.35 mm within 30°:

    >>> round(bounce_speed(6.0, 3e-3, 0.35e-3, math.radians(30)) * 30 / math.pi)
    4974
    """
    require_positive(force=force, mass=mass, rise=rise, ramp=ramp)
    return ramp * math.sqrt(force / (mass * _HARDEST * rise))


def risen_at(height: float, rise: float, ramp: float) -> float:
    """Angle into its ramp at which a lobe has risen so far, rad.

    Parameters
    ----------
    height
        m.
    rise, ramp
        As `bounce_speed` takes them.

    Raises
    ------
    OutsideValidity
        Where the lobe doesn't rise so far: points with as much clearance would not open.

    Examples
    --------
    0.15 mm of 0.5 mm, on a ramp of 30°:

    >>> round(math.degrees(risen_at(0.15e-3, 0.5e-3, math.radians(30))), 2)
    11.69
    """
    require_positive(rise=rise, ramp=ramp)
    share = height / rise
    require_within(0.0, 0.999, because="points open where the lobe rises", height_over_rise=share)
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if polynomial_345(middle)[0] < share else (low, middle)
    return ramp * high


def opening_shift(less: float, gap: float, rise: float, ramp: float) -> float:
    """Angle of the lobe by which points open later whose gap is narrower by so much, rad.

    What the lobe rises beyond the gap is the heel's clearance, which it takes up first.

    Parameters
    ----------
    less
        By worn heel, play or a gap that was set narrower, m.
    gap
        Before, m.
    rise, ramp
        As `bounce_speed` takes them.

    Raises
    ------
    OutsideValidity
        Where they would not open at all.

    Examples
    --------
    0.05 mm less of a gap of 0.35 mm, on a lobe that rises by 0.5 mm within 30°:

    >>> round(math.degrees(opening_shift(0.05e-3, 0.35e-3, 0.5e-3, math.radians(30))), 2)
    1.69
    """
    clear = rise - gap
    return risen_at(clear + less, rise, ramp) - risen_at(clear, rise, ramp)
