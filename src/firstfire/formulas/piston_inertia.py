"""Inertia of the moving masses: lumping the rod, and the harmonics of the piston's motion.

References
----------
J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, chapter
on dynamics of
reciprocating engines; the harmonics are the binomial series of the exact slider-crank.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_within


class LumpedRod(NamedTuple):
    """A rod replaced by a mass at each end, kg."""

    reciprocating: float
    rotating: float


def lump_rod(mass: float, length: float, centre_from_big_end: float) -> LumpedRod:
    """Two masses with the rod's mass and centre of mass, at the pin and at the crank.

    Parameters
    ----------
    mass, length
        kg and m between centres.
    centre_from_big_end
        Distance of the centre of mass from the big end, m.

    Raises
    ------
    OutsideValidity
        If the centre of mass is not between the two ends.

    Examples
    --------
    >>> [round(mass, 4) for mass in lump_rod(0.060, 0.070, 0.021)]
    [0.018, 0.042]
    """
    if not 0.0 <= centre_from_big_end <= length:
        raise OutsideValidity("The centre of mass of the rod must lie between its two ends.")
    small_end = mass * centre_from_big_end / length
    return LumpedRod(small_end, mass - small_end)


def inertia_force(mass: float, curvature: float, slope: float, speed: float, gain: float) -> float:
    """Inertia force of a reciprocating mass, N, positive outwards (away from the crank).

    Parameters
    ----------
    mass
        kg.
    curvature, slope
        Second and first derivative of the height by crank angle, m/rad² and m/rad
        (:func:`firstfire.formulas.slider_crank.piston_motion`).
    speed, gain
        Crank speed, rad/s, and its rate of change, rad/s².

    Examples
    --------
    >>> round(inertia_force(0.150, -0.028828, 0.0, 100 * math.pi, 0.0), 1)
    426.8
    """
    return -mass * (curvature * speed**2 + slope * gain)


def harmonics(throw: float, rod: float, orders: int = 3, points: int = 256) -> tuple[float, ...]:
    """Amplitudes of the even harmonics of piston acceleration over ``r ω²``: 2nd, 4th, 6th ...

    The first harmonic is exactly 1. Found by summing the exact acceleration over one turn, which
    converges faster than any power of `points`.

    Parameters
    ----------
    throw, rod
        m; a centred bore.
    orders
        How many even harmonics.
    points
        Angles in a turn.

    Raises
    ------
    OutsideValidity
        If throw over rod is not between 0 and 0.95.

    Examples
    --------
    >>> [round(a, 5) for a in harmonics(0.0225, 0.080)]
    [0.28703, -0.00591, 0.00014]
    """
    ratio = throw / rod
    require_within(1e-6, 0.95, because="the rod must be longer than the throw", throw_to_rod=ratio)
    amplitudes = []
    for order in range(2, 2 * orders + 1, 2):
        total = 0.0
        for i in range(points):
            angle = 2.0 * math.pi * i / points
            total += _acceleration(angle, ratio) * math.cos(order * angle)
        amplitudes.append(2.0 * total / points)
    return tuple(amplitudes)


def second_harmonic_series(throw: float, rod: float) -> float:
    """Second harmonic by the first three terms of its series: ``λ + λ³/4 + 15 λ⁵/128``.

    Examples
    --------
    >>> round(second_harmonic_series(0.0225, 0.080), 5)
    0.28702
    """
    ratio = throw / rod
    return ratio + 0.25 * ratio**3 + 15.0 / 128.0 * ratio**5


def _acceleration(angle: float, ratio: float) -> float:
    sine, cosine = math.sin(angle), math.cos(angle)
    rest = math.sqrt(1.0 - (ratio * sine) ** 2)
    return cosine + ratio * (cosine**2 - sine**2) / rest + ratio**3 * (sine * cosine) ** 2 / rest**3
