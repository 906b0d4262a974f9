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

LUBRICATION_OIL_MIST = 1.0
"""The same in oil mist."""


def load_torque(load: float, static_rating: float, mean_diameter: float) -> float:
    """Friction torque from the load, N m: ``z (P/C0)^y P d_m``.

    Parameters
    ----------
    load, static_rating
        Radial load and static rating C0 of the bearing, N.
    mean_diameter
        Half of bore plus outside diameter, m.

    Examples
    --------
    A 6202 (15 x 35 mm, C0 3.75 kN) under 500 N:

    >>> round(1e3 * load_torque(500.0, 3750.0, 0.025), 2)
    2.06
    """
    z, y = DEEP_GROOVE_LOAD
    factor: float = z * (abs(load) / static_rating) ** y
    return factor * abs(load) * mean_diameter


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


def simple_torque(load: float, bore: float, coefficient: float = 0.0015) -> float:
    """Friction torque by the makers' rule of thumb, N m: ``μ P d/2``; normal loads and speeds.

    Examples
    --------
    >>> round(1e3 * simple_torque(500.0, 0.015), 2)
    5.62
    """
    return 0.5 * coefficient * abs(load) * bore
