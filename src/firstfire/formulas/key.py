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


def length_for_shear(
    torque: float, shaft_diameter: float, width: float, shear_strength: float, design_factor: float
) -> float:
    """Length at which the key just holds in shear, m: L = n F/(w τ_y).

    Parameters
    ----------
    torque, shaft_diameter, width
        Torque, N·m, shaft diameter and key width, m.
    shear_strength
        Shear yield strength τ_y of the key, Pa.
    design_factor
        Design factor n.

    Raises
    ------
    OutsideValidity
        If a size or strength is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Example 7-6.

    Examples
    --------
    >>> round(length_for_shear(8.0, 15e-3, 5e-3, 100e6, 2.0) * 1e3, 2)
    4.27
    """
    require_positive(width=width, shear_strength=shear_strength, design_factor=design_factor)
    return design_factor * surface_force(torque, shaft_diameter) / (width * shear_strength)


def length_for_bearing(
    torque: float, shaft_diameter: float, height: float, strength: float, design_factor: float
) -> float:
    """Length at which key and keyway just hold in bearing, m: L = 2 n F/(h σ_y).

    Parameters
    ----------
    torque, shaft_diameter, height
        Torque, N·m, shaft diameter and whole key height, m.
    strength
        Compressive yield strength σ_y of the weaker of key, shaft and hub, Pa.
    design_factor
        Design factor n.

    Raises
    ------
    OutsideValidity
        If a size or strength is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Example 7-6.

    Examples
    --------
    >>> round(length_for_bearing(8.0, 15e-3, 5e-3, 60e6, 1.0) * 1e3, 2)
    7.11
    """
    require_positive(height=height, strength=strength, design_factor=design_factor)
    return design_factor * surface_force(torque, shaft_diameter) / (height / 2 * strength)
