"""Slider-crank: where the piston is, how fast and how hard it is thrown. Exact.

The crank angle is measured from the in-line position, where crank throw and bore axis are
parallel; for a centred bore that is top dead centre. A positive offset puts the bore axis to
the side towards which the crankpin moves after top dead centre.

All functions hold for any angle, forwards or backwards, while ``rod > throw + |offset|``
(:func:`slider_crank_range` says so in words). They use only :mod:`math` and none calls
another that a compiled caller would need, so that each can be compiled by itself.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, Eq. 2.5, for the
centred bore; the offset form is plane geometry (J. J. Uicker, G. R. Pennock, J. E. Shigley,
*Theory of Machines and Mechanisms*, offset slider-crank).
"""

from __future__ import annotations

import math

from firstfire.errors import OutsideValidity


def piston_height(crank_angle: float, throw: float, rod: float, offset: float) -> float:
    """Height of the piston pin above the crank axis, along the bore, m.

    Parameters
    ----------
    crank_angle
        From the in-line position, rad.
    throw, rod, offset
        Crank radius, rod length between centres, and bore offset, m.

    Examples
    --------
    >>> round(1e3 * (piston_height(0.0, 0.0225, 0.080, 0.0)
    ...              - piston_height(math.pi / 2, 0.0225, 0.080, 0.0)), 5)
    25.72924
    """
    across = throw * math.sin(crank_angle) - offset
    return throw * math.cos(crank_angle) + math.sqrt(rod * rod - across * across)


def piston_height_slope(crank_angle: float, throw: float, rod: float, offset: float) -> float:
    """First derivative of :func:`piston_height` by crank angle, m/rad.

    Negative on the way down. Times the crank speed (rad/s) it is the speed upwards.
    """
    sine, cosine = math.sin(crank_angle), math.cos(crank_angle)
    across = throw * sine - offset
    along = math.sqrt(rod * rod - across * across)
    return -throw * sine - across * throw * cosine / along


def piston_height_curvature(crank_angle: float, throw: float, rod: float, offset: float) -> float:
    """Second derivative of :func:`piston_height` by crank angle, m/rad².

    Times the square of the crank speed it is the acceleration upwards at steady speed.

    Examples
    --------
    >>> round(piston_height_curvature(0.0, 0.0225, 0.080, 0.0) * (100 * math.pi) ** 2, 2)
    -2845.22
    """
    sine, cosine = math.sin(crank_angle), math.cos(crank_angle)
    across = throw * sine - offset
    along = math.sqrt(rod * rod - across * across)
    across_slope = throw * cosine
    lean = across * across_slope / along
    return -throw * cosine - (across_slope**2 - across * throw * sine + lean**2) / along


def pin_motion(
    sine: float, cosine: float, throw: float, rod: float, offset: float
) -> tuple[float, float, float]:
    """Height, slope and curvature of the pin by sine and cosine of the crank angle, SI.

    The same numbers as the three functions above for one root.
    """
    across = throw * sine - offset
    square = rod * rod - across * across
    along = math.sqrt(square)
    across_slope = throw * cosine
    # Over the square times the root, not over the root: it need not wait for the root.
    lean = across * across_slope / square * along
    height = throw * cosine + along
    slope = -throw * sine - lean
    curvature = -throw * cosine - (across_slope**2 - across * throw * sine + lean**2) / along
    return height, slope, curvature


def rod_angle(crank_angle: float, throw: float, rod: float, offset: float) -> float:
    """Angle of the connecting rod to the bore axis, rad; positive after top dead centre."""
    return math.asin((throw * math.sin(crank_angle) - offset) / rod)


def top_centre_angle(throw: float, rod: float, offset: float) -> float:
    """Crank angle of top dead centre after the in-line position, rad.

    Examples
    --------
    >>> round(math.degrees(top_centre_angle(0.0225, 0.080, 0.003)), 4)
    1.6772
    """
    return math.asin(offset / (rod + throw))


def bottom_centre_angle(throw: float, rod: float, offset: float) -> float:
    """Crank angle of bottom dead centre after the in-line position, rad.

    Examples
    --------
    >>> round(math.degrees(bottom_centre_angle(0.0225, 0.080, 0.003)), 4)
    182.9907
    """
    return math.pi + math.asin(offset / (rod - throw))


def top_height(throw: float, rod: float, offset: float) -> float:
    """Height of the pin above the crank axis at top dead centre, m."""
    return math.sqrt((rod + throw) ** 2 - offset * offset)


def stroke(throw: float, rod: float, offset: float) -> float:
    """Distance between the two dead centres, m: twice the throw only for a centred bore.

    Examples
    --------
    >>> round(1e3 * stroke(0.0225, 0.080, 0.003), 4)
    45.0344
    """
    return math.sqrt((rod + throw) ** 2 - offset**2) - math.sqrt((rod - throw) ** 2 - offset**2)


def throw_for_stroke(stroke_length: float, rod: float, offset: float) -> float:
    """Crank radius that gives a wanted stroke with a given rod and offset, m.

    Closed form: with ``s`` the stroke, ``r² = s²/4 · (1 − e²/(l² − s²/4))``, found by squaring
    :func:`stroke` twice.

    Examples
    --------
    >>> round(1e3 * throw_for_stroke(0.0450344, 0.080, 0.003), 4)
    22.5
    """
    half = 0.5 * stroke_length
    return half * math.sqrt(1.0 - offset**2 / (rod**2 - half**2))


def piston_travel(
    crank_angle_from_top_centre: float, throw: float, rod: float, offset: float
) -> float:
    """Distance of the piston below top dead centre, m; angle counted from that dead centre."""
    angle = crank_angle_from_top_centre + top_centre_angle(throw, rod, offset)
    return top_height(throw, rod, offset) - piston_height(angle, throw, rod, offset)


def slider_crank_range(throw: float, rod: float, offset: float) -> None:
    """Refuse a mechanism that cannot turn all the way round.

    Raises
    ------
    OutsideValidity
        If ``rod`` is not longer than ``throw + |offset|``.
    """
    if throw <= 0.0 or rod <= throw + abs(offset):
        raise OutsideValidity(
            f"A rod of {1e3 * rod:.4g} mm cannot follow a crank of {1e3 * throw:.4g} mm throw "
            f"with {1e3 * abs(offset):.4g} mm offset: it must be longer than both together."
        )
