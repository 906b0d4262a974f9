"""Where a piston is over an array of crank angles, and how it is thrown. Exact, any offset."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from firstfire.engine.description import CylinderParts
from firstfire.engine.records import Array
from firstfire.formulas import slider_crank


@dataclass(frozen=True)
class Motion:
    """Of one piston over an array of crank angles; the arrays of `slider_crank`, spelled out.

    Attributes
    ----------
    inline
        Crank angle from where throw and bore axis are parallel, rad.
    height, slope, curvature
        Of the piston pin above the crank axis along the bore, and its first two derivatives
        by crank angle: m, m/rad, m/rad².
    lean
        Angle of the rod to the bore, rad; positive after top centre.
    """

    inline: Array
    height: Array
    slope: Array
    curvature: Array
    lean: Array


def piston_motion(parts: CylinderParts, angle: Array) -> Motion:
    """Motion of a cylinder's piston at crank angles after its own top centre.

    Parameters
    ----------
    parts
        The cylinder: its stroke (twice the throw), rod length and offset are used.
    angle
        rad, any shape, forwards or backwards.

    Raises
    ------
    OutsideValidity
        If the rod cannot follow the crank all the way round.

    References
    ----------
    J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, offset
    slider-crank; the scalar form is :func:`firstfire.formulas.slider_crank.piston_motion`.
    """
    throw, rod, offset = mechanism(parts)
    slider_crank.slider_crank_range(throw, rod, offset)
    inline = angle + slider_crank.top_centre_angle(throw, rod, offset)
    sine, cosine = np.sin(inline), np.cos(inline)
    across = throw * sine - offset
    along = np.sqrt(rod**2 - across**2)
    across_slope = throw * cosine
    leaning = across * across_slope / along
    return Motion(
        inline=inline,
        height=across_slope + along,
        slope=-throw * sine - leaning,
        curvature=-across_slope - (across_slope**2 - across * throw * sine + leaning**2) / along,
        lean=np.arcsin(across / rod),
    )


def mechanism(parts: CylinderParts) -> tuple[float, float, float]:
    """Throw, rod length and bore offset, m."""
    return parts.cylinder.stroke / 2, parts.rod.length, parts.cylinder.offset
