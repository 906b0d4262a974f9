"""A parallel key between shaft and hub: shear, bearing, and the length it needs."""

from __future__ import annotations

from firstfire.formulas.validity import require_positive


def surface_force(torque: float, shaft_diameter: float) -> float:
    """Force on the key at the surface of the shaft, N: F = 2T/d.

    Parameters
    ----------
    torque
        Torque T, N·m.
    shaft_diameter
        Shaft diameter d, m.

    Raises
    ------
    OutsideValidity
        If the diameter is not above zero.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed.,
    Example 7-6.

    Examples
    --------
    >>> round(surface_force(8.0, 15e-3), 1)
    1066.7
    """
    require_positive(shaft_diameter=shaft_diameter)
    return 2 * torque / shaft_diameter


def shear_stress(torque: float, shaft_diameter: float, width: float, length: float) -> float:
    """Shear stress through the key, Pa: τ = F/(w L).

    Parameters
    ----------
    torque, shaft_diameter
        Torque, N·m, and shaft diameter, m.
    width, length
        Width w and length L of the key, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Example 7-6.

    Examples
    --------
    >>> round(shear_stress(8.0, 15e-3, 5e-3, 20e-3) / 1e6, 2)
    10.67
    """
    require_positive(width=width, length=length)
    return surface_force(torque, shaft_diameter) / (width * length)


def bearing_stress(torque: float, shaft_diameter: float, height: float, length: float) -> float:
    """Bearing stress on half the key's height, Pa: σ = 2F/(h L).

    The same stress presses on the wall of the keyway, where a plastic hub crushes.

    Parameters
    ----------
    torque, shaft_diameter
        Torque, N·m, and shaft diameter, m.
    height, length
        Whole height h and length L of the key, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Example 7-6.

    Examples
    --------
    >>> round(bearing_stress(8.0, 15e-3, 5e-3, 20e-3) / 1e6, 2)
    21.33
    """
    require_positive(height=height, length=length)
    return surface_force(torque, shaft_diameter) / (height / 2 * length)
