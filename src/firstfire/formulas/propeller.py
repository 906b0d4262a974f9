"""A propeller or fan turned on the spot: the torque it takes."""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_positive

POWER_BY_PITCH = 0.08
"""Power coefficient of a propeller on the spot over its pitch by diameter."""


def static_torque(speed: float, diameter: float, pitch: float, air_density: float) -> float:
    """Torque that a propeller takes on the spot, N·m: ``C_P ρ n² D⁵ / 2π``.

    Parameters
    ----------
    speed
        rad/s, 0 or more.
    diameter, pitch
        m. Pitch by diameter from 0.3 to 1; two blades.
    air_density
        kg/m³.

    Returns
    -------
    float
        N·m, half to half as much again: blades differ.

    Raises
    ------
    OutsideValidity
        For sizes not above 0.

    References
    ----------
    J. B. Brandt, M. S. Selig, *Propeller Performance Data at Low Reynolds Numbers*, AIAA 2011-1255:
    static power coefficients of two-bladed model propellers are 0.03 to 0.06 at a pitch of 0.5 to
    0.7 diameters; the line through them is ours, from memory.

    Examples
    --------
    >>> round(static_torque(3000 * math.pi / 30, 0.3, 0.15, 1.2), 4)
    0.0464
    """
    require_positive(diameter=diameter, air_density=air_density)
    turns = max(speed, 0.0) / (2 * math.pi)
    coefficient = POWER_BY_PITCH * pitch / diameter
    return coefficient * air_density * turns**2 * diameter**5 / (2 * math.pi)
