"""Cam laws: how a follower rises, as dimensionless rise, velocity, acceleration and jerk.

Each law gives the four for a progress from 0 to 1 through a rise of 1: the displacement and its
first three derivatives by progress. Divide the derivatives by the duration of the rise (once,
twice, three times) and multiply by the lift. A fall is the law run backwards. Outside 0 to 1 the
follower dwells, and the three derivatives are 0.

References
----------
R. L. Norton, *Cam Design and Manufacturing Handbook*, 2nd ed., Industrial Press 2009, chapter 3.
"""

from __future__ import annotations

import math
from collections.abc import Callable

RiseLaw = Callable[[float], tuple[float, float, float, float]]
"""A cam law: progress in, (rise, velocity, acceleration, jerk) out."""


def polynomial_345(progress: float) -> tuple[float, float, float, float]:
    """The 3-4-5 polynomial: ``10 x³ - 15 x⁴ + 6 x⁵``; acceleration starts and ends at 0.

    Examples
    --------
    >>> polynomial_345(0.5)[:2]
    (0.5, 1.875)
    """
    if progress <= 0.0:
        return 0.0, 0.0, 0.0, 0.0
    if progress >= 1.0:
        return 1.0, 0.0, 0.0, 0.0
    x = progress
    rise = x * x * x * (10.0 - x * (15.0 - 6.0 * x))
    velocity = 30.0 * x * x * (1.0 - x) ** 2
    acceleration = 60.0 * x * (1.0 - x) * (1.0 - 2.0 * x)
    jerk = 60.0 * (1.0 - 6.0 * x * (1.0 - x))
    return rise, velocity, acceleration, jerk


def polynomial_4567(progress: float) -> tuple[float, float, float, float]:
    """The 4-5-6-7 polynomial: ``35 x⁴ - 84 x⁵ + 70 x⁶ - 20 x⁷``; jerk too starts and ends at 0.

    Examples
    --------
    >>> polynomial_4567(0.5)[:2]
    (0.5, 2.1875)
    """
    if progress <= 0.0:
        return 0.0, 0.0, 0.0, 0.0
    if progress >= 1.0:
        return 1.0, 0.0, 0.0, 0.0
    x = progress
    both = x * (1.0 - x)
    rise = x**4 * (35.0 - x * (84.0 - x * (70.0 - 20.0 * x)))
    velocity = 140.0 * both**3
    acceleration = 420.0 * both * both * (1.0 - 2.0 * x)
    jerk = 840.0 * both * (1.0 - 5.0 * both)
    return rise, velocity, acceleration, jerk


def cycloidal(progress: float) -> tuple[float, float, float, float]:
    """The cycloidal law: ``x - sin(2 π x)/(2 π)``.

    Examples
    --------
    >>> round(cycloidal(0.25)[2], 4)
    6.2832
    """
    if progress <= 0.0:
        return 0.0, 0.0, 0.0, 0.0
    if progress >= 1.0:
        return 1.0, 0.0, 0.0, 0.0
    phase = 2.0 * math.pi * progress
    sine, cosine = math.sin(phase), math.cos(phase)
    rise = progress - sine / (2.0 * math.pi)
    return rise, 1.0 - cosine, 2.0 * math.pi * sine, 4.0 * math.pi**2 * cosine


def harmonic(progress: float) -> tuple[float, float, float, float]:
    """The simple harmonic law: ``(1 - cos π x)/2``; acceleration jumps at both ends.

    Examples
    --------
    >>> round(harmonic(0.5)[1], 4)
    1.5708
    """
    if progress <= 0.0:
        return 0.0, 0.0, 0.0, 0.0
    if progress >= 1.0:
        return 1.0, 0.0, 0.0, 0.0
    phase = math.pi * progress
    sine, cosine = math.sin(phase), math.cos(phase)
    rise = 0.5 * (1.0 - cosine)
    return rise, 0.5 * math.pi * sine, 0.5 * math.pi**2 * cosine, -0.5 * math.pi**3 * sine


def modified_trapezoid(progress: float) -> tuple[float, float, float, float]:
    """The modified trapezoidal law: flat acceleration with sine-shaped shoulders; least peak.

    Examples
    --------
    >>> round(modified_trapezoid(0.25)[2], 4)
    4.8881
    """
    if progress <= 0.0:
        return 0.0, 0.0, 0.0, 0.0
    if progress >= 1.0:
        return 1.0, 0.0, 0.0, 0.0
    # The second half is the first turned by half a turn about the middle.
    turned = progress > 0.5
    x = 1.0 - progress if turned else progress
    peak = 8.0 * math.pi / (2.0 + math.pi)
    wave = 4.0 * math.pi
    if x < 0.125:
        sine, cosine = math.sin(wave * x), math.cos(wave * x)
        rise = peak / wave * (x - sine / wave)
        velocity = peak / wave * (1.0 - cosine)
        acceleration = peak * sine
        jerk = peak * wave * cosine
    elif x < 0.375:
        into = x - 0.125
        rise = peak / wave * (0.125 - 1.0 / wave + into) + 0.5 * peak * into * into
        velocity = peak / wave + peak * into
        acceleration = peak
        jerk = 0.0
    else:
        into = x - 0.375
        sine, cosine = math.sin(wave * into), math.cos(wave * into)
        rise = peak / wave * (0.375 - 1.0 / wave) + 0.03125 * peak
        rise += (peak / wave + 0.25 * peak) * into + peak / wave**2 * (1.0 - cosine)
        velocity = peak / wave + 0.25 * peak + peak / wave * sine
        acceleration = peak * cosine
        jerk = -peak * wave * sine
    if turned:
        return 1.0 - rise, velocity, -acceleration, jerk
    return rise, velocity, acceleration, jerk


def modified_sine(progress: float) -> tuple[float, float, float, float]:
    """The modified sine law: quick sine ends about a slow middle; low peak velocity.

    Examples
    --------
    >>> round(modified_sine(0.5)[1], 4)
    1.7596
    """
    if progress <= 0.0:
        return 0.0, 0.0, 0.0, 0.0
    if progress >= 1.0:
        return 1.0, 0.0, 0.0, 0.0
    turned = progress > 0.5
    x = 1.0 - progress if turned else progress
    level = math.pi / (4.0 + math.pi)
    wave = 4.0 * math.pi
    peak = wave * level
    if x < 0.125:
        sine, cosine = math.sin(wave * x), math.cos(wave * x)
        rise = level * (x - sine / wave)
        velocity = level * (1.0 - cosine)
        acceleration = peak * sine
        jerk = peak * wave * cosine
    else:
        phase = (wave * x + math.pi) / 3.0
        sine, cosine = math.sin(phase), math.cos(phase)
        rise = level * (2.0 / math.pi + x - 9.0 / wave * sine)
        velocity = level * (1.0 - 3.0 * cosine)
        acceleration = peak * sine
        jerk = peak * wave / 3.0 * cosine
    if turned:
        return 1.0 - rise, velocity, -acceleration, jerk
    return rise, velocity, acceleration, jerk
