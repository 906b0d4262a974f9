"""What lies between the rows of a record that has values and slopes: a cubic in each step.

It meets both values and both slopes of its step, so that angle and speed of a turning shaft
agree all along. It is exact for a cubic; else its error falls as the fourth power of the step.

References
----------
F. B. Hildebrand, *Introduction to Numerical Analysis*, 2nd ed., Dover 1987, osculating
interpolation (Hermite's formula; from memory).
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from firstfire.errors import OutsideValidity

Floats = NDArray[np.float64]


class Cubics(NamedTuple):
    """``c0 + c1 s + c2 s² + c3 s³`` in each step, its share s from 0 to 1.

    Attributes
    ----------
    c0, c1, c2, c3
        In the unit of the value, shape (steps,).
    """

    c0: Floats
    c1: Floats
    c2: Floats
    c3: Floats


def cubics(time: Floats, value: Floats, slope: Floats) -> Cubics:
    """The cubics of all steps of a record.

    Parameters
    ----------
    time
        s, not falling, shape (rows,).
    value, slope
        Any unit, and that unit a second, (rows,).

    Raises
    ------
    OutsideValidity
        With fewer than two rows, rows of other lengths, or a time that goes back.

    Examples
    --------
    >>> t = np.array([0.0, 2.0])
    >>> [float(c[0]) for c in cubics(t, t**3, 3 * t**2)]
    [0.0, 0.0, 0.0, 8.0]
    """
    if len(time) < 2 or not len(time) == len(value) == len(slope):
        raise OutsideValidity("A record needs two rows or more, of time, value and slope alike.")
    step = np.diff(time)
    if not np.all(step >= 0.0):
        raise OutsideValidity("The time of this record goes back, or is no number.")
    rise, first, last = np.diff(value), slope[:-1] * step, slope[1:] * step
    return Cubics(value[:-1], first, 3.0 * rise - 2.0 * first - last, first + last - 2.0 * rise)


def along(cubic: Cubics, share: Floats) -> Floats:
    """Values at a share of each step."""
    value: Floats = cubic.c0 + share * (cubic.c1 + share * (cubic.c2 + share * cubic.c3))
    return value


def chosen(cubic: Cubics, step: NDArray[np.intp]) -> Cubics:
    """The cubics of some steps, by their numbers."""
    return Cubics(*(part[step] for part in cubic))


def interpolated(at: Floats, time: Floats, value: Floats, slope: Floats) -> Floats:
    """Values at any times within a record.

    Parameters
    ----------
    at
        s, any shape.
    time, value, slope
        As :func:`cubics` has them.

    Raises
    ------
    OutsideValidity
        As :func:`cubics`, or where a time asked for lies outside of the record.

    Examples
    --------
    >>> t = np.array([0.0, 1.0, 3.0])
    >>> interpolated(np.array([0.5, 2.0]), t, t**3, 3 * t**2)
    array([0.125, 8.   ])
    """
    cubic, asked = cubics(time, value, slope), np.asarray(at, dtype=np.float64)
    if asked.size and not (asked.min() >= time[0] and asked.max() <= time[-1]):
        raise OutsideValidity("A time asked for lies outside of the record.")
    step = np.clip(np.searchsorted(time, asked, side="right") - 1, 0, len(time) - 2)
    length = time[step + 1] - time[step]
    share = (asked - time[step]) / np.where(length > 0.0, length, 1.0)
    return along(chosen(cubic, step), share)


def turning_shares(cubic: Cubics) -> Floats:
    """Where within its step each cubic turns round: two shares a step, (steps, 2).

    What lies outside of the step is put at its nearer end, and what there isn't at its end, so
    that between 0, these two and 1 each cubic goes one way.

    Examples
    --------
    A ball thrown up at 1 m/s that comes back to the hand:

    >>> ball = cubics(np.array([0.0, 2.0]), np.zeros(2), np.array([1.0, -1.0]))
    >>> turning_shares(ball)
    array([[0.5, 1. ]])
    """
    square, half, flat = 3.0 * cubic.c3, cubic.c2, cubic.c1
    inside = half**2 - square * flat
    # The root that adds two numbers of one sign first, the other from the product of both.
    sum_of_signs = -(half + np.copysign(np.sqrt(np.maximum(inside, 0.0)), half))
    with np.errstate(divide="ignore", invalid="ignore"):
        roots = np.stack([sum_of_signs / square, flat / sum_of_signs], axis=1)
    roots[inside < 0.0] = 1.0
    roots[np.isnan(roots)] = 1.0
    shares: Floats = np.sort(np.clip(roots, 0.0, 1.0), axis=1)
    return shares
