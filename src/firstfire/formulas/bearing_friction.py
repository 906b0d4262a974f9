"""Friction torque of rolling bearings: a part from the load and a part from the grease or oil.

References
----------
T. A. Harris, *Rolling Bearing Analysis*, 4th ed., Wiley 2001, chapter on friction, after A.
Palmgren (form and constants from memory).
"""

from __future__ import annotations

import math

DEEP_GROOVE_LOAD = (0.0005, 0.55)
"""Palmgren's z and y for single-row deep-groove ball bearings (0.0004 to 0.0006)."""

LUBRICATION_GREASE = 1.4
"""Palmgren's f0 of a deep-groove bearing in grease, once run in (0.75 to 2; fresh: double)."""


def viscous_torque(
    speed: float, mean_diameter: float, kinematic_viscosity: float, lubrication: float
) -> float:
    """Friction torque from the lubricant, N m.

    ``1e-7 f0 (ν n)^(2/3) d_m³`` N mm with ν in cSt, n in rpm, d_m in mm; below ν n = 2000 it
    stays at ``160e-7 f0 d_m³``.

    Parameters
    ----------
    speed
        Shaft speed, rad/s.
    mean_diameter
        m.
    kinematic_viscosity
        Of the oil, or of the grease's base oil, at its temperature, m²/s.
    lubrication
        Palmgren's f0.

    Examples
    --------
    >>> round(1e3 * viscous_torque(100 * math.pi, 0.025, 100e-6, 1.4), 2)
    9.8
    """
    product = 1e6 * kinematic_viscosity * abs(speed) * 30.0 / math.pi
    churning: float = 160.0 if product < 2000.0 else product ** (2.0 / 3.0)
    return 1e-3 * 1e-7 * lubrication * churning * (1e3 * mean_diameter) ** 3
