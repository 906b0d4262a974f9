"""A spherical flame about a plug in a flat chamber: how much it encloses, how large its front is.

The chamber is a disc of the cylinder's bore between head and piston, both flat. The flame is that
part of a sphere about the plug which lies inside. Cut in planes at right angles to the bore's
axis, the sphere gives circles and the chamber one disc; circle and disc share a lens whose area
and arc are known in closed form. The volume is the integral of the lens along the axis, and the
front that of the arc: a sphere's zone has the area ``2π R dz`` (Archimedes), so that
``A_f = R ∫ arc angle dz``. Where the circle lies wholly within the bore, or wholly around it, the
integral too is in closed form; in between it is a Gauss sum, right to 1e-6 of the greatest.

Real chambers are hemispheres, wedges and bathtubs, and real flames are torn and carried along by
the flow. Of a flat chamber the shape is as good as any published one.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, section 14.4.2 and
Fig. 14-8 (the sphere about the plug and what its front is used for; from memory). The geometry is
plane and solid geometry: circular segments, and Archimedes on the sphere's zone.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from firstfire.formulas.validity import require_not_negative, require_positive, require_within

Floats = NDArray[np.float64]

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(16)
_TRIES = 60


def enflamed_volume(
    radius: float, bore: float, offset: float, depth: float, height: float
) -> float:
    """Volume of the chamber within the flame, m³.

    Parameters
    ----------
    radius
        Of the flame, m.
    bore
        Diameter of the chamber, m.
    offset
        Distance of the plug from the bore's axis, m; at most half the bore.
    depth
        Distance of the plug's gap below the head's face, m; at most `height`.
    height
        Distance between head and piston, m.

    Raises
    ------
    OutsideValidity
        If the plug is not in the chamber, or a size is not positive.

    Examples
    --------
    Half a sphere, below a plug in the head's face:

    >>> round(1e9 * enflamed_volume(5e-3, 44e-3, 0.0, 0.0, 8e-3), 3)
    261.799
    """
    _require_plug_inside(bore, offset, depth, height)
    require_not_negative(radius=radius)
    return float(_volume_and_front(radius, bore, offset, depth, height)[0])


def front_area(radius: float, bore: float, offset: float, depth: float, height: float) -> float:
    """Area of the flame's front, the part of its sphere inside the chamber, m².

    Arguments and refusals as of :func:`enflamed_volume`, whose slope by the radius it is.

    Examples
    --------
    >>> round(1e6 * front_area(5e-3, 44e-3, 0.0, 0.0, 8e-3), 3)
    157.08
    """
    _require_plug_inside(bore, offset, depth, height)
    require_not_negative(radius=radius)
    return float(_volume_and_front(radius, bore, offset, depth, height)[1])


def greatest_radius(bore: float, offset: float, depth: float, height: float) -> float:
    """Distance from the plug to the chamber's farthest corner, m.

    Examples
    --------
    >>> round(1e3 * greatest_radius(44e-3, 8e-3, 2e-3, 42e-3), 6)
    50.0
    """
    _require_plug_inside(bore, offset, depth, height)
    return math.hypot(0.5 * bore + offset, max(depth, height - depth))


def front_area_table(
    bore: float, offset: float, depth: float, heights: ArrayLike, shares: ArrayLike
) -> Floats:
    """Front area by the chamber's height and by the share of its volume behind the front, m².

    Near nothing the area goes with the share's power of 2/3, so that shares for a table should
    lie the closer the smaller they are (as ``linspace(0, 1)³``).

    Parameters
    ----------
    bore, offset, depth
        As of :func:`enflamed_volume`, m.
    heights
        Distances between head and piston, m, shape (h,); none below `depth`.
    shares
        Shares of the chamber's volume, 0 to 1, shape (s,).

    Returns
    -------
    ndarray
        Shape (h, s). Zero where the share is 0 or 1.

    Raises
    ------
    OutsideValidity
        If the plug is not in the chamber, or a share is not one.

    Examples
    --------
    >>> (1e6 * front_area_table(44e-3, 0.0, 0.0, [8e-3, 40e-3], [0.0, 0.02, 1.0])).round(1)
    array([[  0. , 149.6,   0. ],
           [  0. , 437.4,   0. ]])
    """
    tall, part = np.asarray(heights, np.float64), np.asarray(shares, np.float64)
    for height in tall:
        _require_plug_inside(bore, offset, depth, float(height))
    for share in part:
        require_within(0.0, 1.0, because="a share of a volume is", share=float(share))
    area = np.zeros((len(tall), len(part)))
    within = (part > 0.0) & (part < 1.0)
    radius = _radii(bore, offset, depth, tall[:, None], part[None, within])
    area[:, within] = _volume_and_front(radius, bore, offset, depth, tall[:, None])[1]
    return area


def _radii(bore: float, offset: float, depth: float, height: Floats, share: Floats) -> Floats:
    """Radii at which the flame holds a share of the chamber: Newton's steps within a bracket.

    The few that lie near a corner take many steps; what is found is left out of them.
    """
    tall, part = (one.ravel() for one in np.broadcast_arrays(height, share))
    room = 0.25 * math.pi * bore**2 * tall
    wanted = part * room
    high = np.hypot(0.5 * bore + offset, np.maximum(depth, tall - depth))
    low = np.zeros_like(high)
    radius = np.minimum(np.cbrt(3.0 * wanted / (2.0 * math.pi)), 0.5 * high)
    left = np.arange(radius.size)
    for _ in range(_TRIES):
        now = radius[left]
        volume, area = _volume_and_front(now, bore, offset, depth, tall[left])
        over = volume - wanted[left]
        apart = np.abs(over) > 1e-12 * room[left]
        if not apart.any():
            break
        left, now, over, area = left[apart], now[apart], over[apart], area[apart]
        low[left], high[left] = (
            np.where(over < 0.0, now, low[left]),
            np.where(over < 0.0, high[left], now),
        )
        step = now - over / np.maximum(area, 1e-300)
        within = (step > low[left]) & (step < high[left])
        radius[left] = np.where(within, step, 0.5 * (low[left] + high[left]))
    return radius.reshape(np.broadcast_shapes(height.shape, share.shape))


def _volume_and_front(
    radius: ArrayLike, bore: float, offset: float, depth: float, height: ArrayLike
) -> tuple[Floats, Floats]:
    """Volume and front of flames of one plug, for radii and heights of one shape."""
    large, tall = np.asarray(radius, np.float64), np.asarray(height, np.float64)
    up = _one_side(large, depth + 0.0 * tall, 0.5 * bore, offset)
    down = _one_side(large, tall - depth, 0.5 * bore, offset)
    return up[0] + down[0], up[1] + down[1]


def _one_side(radius: Floats, reach: Floats, wall: float, offset: float) -> tuple[Floats, Floats]:
    """Volume and front on one side of the plug's plane, out to a flat wall at `reach`."""
    square = radius**2
    whole_from = np.sqrt(np.maximum(square - (wall - offset) ** 2, 0.0))
    none_until = np.sqrt(np.maximum(square - (wall + offset) ** 2, 0.0))
    top = np.minimum(radius, reach)
    start, end = np.minimum(none_until, top), np.minimum(whole_from, top)
    lens, arc = _lens_and_arc_summed(square, none_until, whole_from, end, wall, offset)
    circles = square * (top - end) - (top**3 - end**3) / 3.0
    volume = math.pi * (wall**2 * start + circles) + lens
    return volume, radius * (2.0 * math.pi * (top - end) + arc)


def _lens_and_arc_summed(
    square: Floats, first: Floats, last: Floats, end: Floats, wall: float, offset: float
) -> tuple[Floats, Floats]:
    """Integrals of lens and arc angle over the planes where the circle crosses the bore.

    The planes lie from `first` to `last`, of which those up to `end` are in the chamber. At both
    borders the arc bends off like a root; by an angle in place of the distance it is smooth.
    """
    width = last - first
    share = np.clip((end - first) / np.where(width > 0.0, width, 1.0), 0.0, 1.0)
    half = 0.5 * np.arccos(1.0 - 2.0 * share)[..., None]
    angle = half * (1.0 + _NODES)
    away = first[..., None] + 0.5 * width[..., None] * (1.0 - np.cos(angle))
    weight = _WEIGHTS * half * 0.5 * width[..., None] * np.sin(angle)
    lens, arc = _lens_and_arc(np.maximum(square[..., None] - away**2, 0.0), wall, offset)
    return np.sum(weight * lens, axis=-1), np.sum(weight * arc, axis=-1)


def _lens_and_arc(square: Floats, wall: float, offset: float) -> tuple[Floats, Floats]:
    """Area that a circle shares with the bore's disc, and the angle of its arc inside.

    Both are of a circle that crosses the disc's edge; by the square of its radius.
    """
    reach = np.sqrt(square)
    least = 1e-300  # where the plug is on the axis no circle crosses, and nothing is asked
    inner = (offset**2 + square - wall**2) / np.maximum(2.0 * offset * reach, least)
    outer = (offset**2 + wall**2 - square) / max(2.0 * offset * wall, least)
    inside = np.arccos(np.clip(inner, -1.0, 1.0))
    behind = np.arccos(np.clip(outer, -1.0, 1.0))
    kite = (square - (wall - offset) ** 2) * ((wall + offset) ** 2 - square)
    area = square * inside + wall**2 * behind - 0.5 * np.sqrt(np.maximum(kite, 0.0))
    return np.maximum(area, 0.0), 2.0 * inside


def _require_plug_inside(bore: float, offset: float, depth: float, height: float) -> None:
    require_positive(bore=bore, height=height)
    require_within(0.0, 0.5 * bore, because="the plug is inside the bore", plug_offset=offset)
    require_within(0.0, height, because="the plug is between head and piston", plug_depth=depth)
