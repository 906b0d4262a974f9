"""Where a piston is over an array of crank angles, and how it is thrown. Exact, any offset."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import mechanism
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

    @cached_property
    def lean_tangent(self) -> Array:
        """Side force over force along the bore."""
        return np.asarray(np.tan(self.lean), dtype=np.float64)

    @cached_property
    def lean_cosine(self) -> Array:
        """Force along the bore over force in the rod."""
        return np.asarray(np.cos(self.lean), dtype=np.float64)

    @cached_property
    def crank(self) -> NDArray[np.complex128]:
        """Direction of the throw: real along the bore."""
        return np.asarray(np.exp(1j * self.inline), dtype=np.complex128)


#: Half-degree steps over 720°: an even number of them, as Simpson's rule wants.
_POINTS = 1441


def shaft_angles() -> Array:
    """Angles that all of a shaft is reckoned at, rad: 0 to 4π in half degrees, both ends."""
    return np.linspace(0.0, 4 * math.pi, _POINTS)


@lru_cache(maxsize=32)
def own_angles(phase: float) -> Array:
    """`shaft_angles` as a cylinder sees them that fires at `phase`, rad; not to be written to."""
    angle: Array = np.mod(shaft_angles() - phase + 2 * math.pi, 4 * math.pi) - 2 * math.pi
    angle.flags.writeable = False
    return angle


@lru_cache(maxsize=32)
def motion_over_cycle(throw: float, rod: float, offset: float, phase: float) -> Motion:
    """`motion` at `own_angles`: the same whatever the gas does, so reckoned once."""
    return motion(throw, rod, offset, own_angles(phase))


def piston_motion(parts: CylinderParts, angle: Array) -> Motion:
    """Motion of a cylinder's piston at crank angles after its own top centre.

    Parameters
    ----------
    parts
        The cylinder: its stroke, rod length and offset are used.
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
    return motion(*mechanism(parts), angle)


def motion(throw: float, rod: float, offset: float, angle: Array) -> Motion:
    """`piston_motion` of a mechanism given by its lengths, m."""
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
