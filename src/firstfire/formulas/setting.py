"""Setting an engine by its marks: what an angle is on a rim, what a tooth is worth, where top is.

Angles are of the crank, rad, unless said otherwise; lengths m.

References
----------
Plane geometry. Finding top dead centre by a piston stop and halving both readings is common
practice of engine building (no source).
"""

from __future__ import annotations

import math

from firstfire.formulas.firing import CYCLE, TURN
from firstfire.formulas.slider_crank import piston_travel, stroke
from firstfire.formulas.validity import require_not_negative, require_positive, require_within

_HALVINGS = 60


def rim_length(angle: float, diameter: float) -> float:
    """Length of an arc of a rim, m: half the diameter times its angle.

    Examples
    --------
    >>> round(1e3 * rim_length(math.radians(10), 110e-3), 3)
    9.599
    """
    require_positive(diameter=diameter)
    return 0.5 * diameter * angle


def tooth_angle(teeth_cam: float) -> float:
    """What one tooth at the cam's wheel is worth at the crank, rad: 720° over its teeth.

    Examples
    --------
    >>> round(math.degrees(tooth_angle(36)), 6)
    20.0
    """
    require_positive(teeth_cam=teeth_cam)
    return CYCLE / teeth_cam


def overlap(opens_before_top: float, closes_after_top: float) -> float:
    """Crank angle over which both valves are off their seats, rad; negative where neither is.

    Examples
    --------
    >>> round(math.degrees(overlap(math.radians(10), math.radians(15))), 6)
    25.0
    """
    return opens_before_top + closes_after_top


def top_between(first: float, second: float) -> float:
    """Top dead centre midway between two readings at a piston stop, rad, 0 to below 2π.

    The way from the first reading to the second, in the direction in which readings rise, leads
    over top dead centre: one turns forwards off the stop... to the stop from the other side. Of
    the two middles, half a turn apart, it is the one in the shorter arc, since a stop touches the
    piston near its top.

    Parameters
    ----------
    first, second
        Readings on a degree wheel that may stand anywhere, rad.

    Raises
    ------
    OutsideValidity
        Where the readings are the same or half a turn apart: neither says where top is.

    Examples
    --------
    >>> round(math.degrees(top_between(math.radians(330), math.radians(38))), 6)
    4.0
    """
    apart = (second - first) % TURN
    shorter = min(apart, TURN - apart)
    require_within(
        1e-6, math.pi - 1e-6, because="a stop is met on both sides of top", readings_apart=shorter
    )
    start = first if apart <= math.pi else second
    return (start + 0.5 * shorter) % TURN


def angle_at_travel(travel: float, throw: float, rod: float, offset: float) -> float:
    """Crank angle after top dead centre at which the piston is so far below its top, rad.

    Parameters
    ----------
    travel
        From 0 to the stroke, m.
    throw, rod, offset
        Of the slider-crank, m.

    Raises
    ------
    OutsideValidity
        For a travel that the piston doesn't reach.

    Examples
    --------
    >>> round(math.degrees(angle_at_travel(10e-3, 0.0225, 0.080, 0.0)), 3)
    50.235
    """
    require_not_negative(travel=travel)
    require_within(
        0.0, stroke(throw, rod, offset), because="the piston goes no further", travel=travel
    )
    low, high = 0.0, math.pi
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        if piston_travel(middle, throw, rod, offset) < travel:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)
