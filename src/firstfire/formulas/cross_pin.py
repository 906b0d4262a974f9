"""A pin through shaft and hub, or set lengthwise in their joint: what shears and what crushes."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_ordered, require_positive


def shear_stress(torque: float, shaft_diameter: float, pin_diameter: float) -> float:
    """Shear stress in a cross pin, cut at both sides of the shaft, Pa: τ = 4T/(π d_p² d).

    Parameters
    ----------
    torque
        Torque T, N·m.
    shaft_diameter, pin_diameter
        Shaft d and pin d_p, m.

    Raises
    ------
    OutsideValidity
        If the pin is not thinner than the shaft.

    References
    ----------
    Equilibrium; the form of H. Wittel and others, *Roloff/Matek Maschinenelemente* (from memory).

    Examples
    --------
    >>> round(shear_stress(10.0, 12e-3, 4e-3) / 1e6, 1)
    66.3
    """
    require_ordered(zero=0.0, pin_diameter=pin_diameter, shaft_diameter=shaft_diameter)
    return 4 * abs(torque) / (math.pi * pin_diameter**2 * shaft_diameter)


def shaft_bearing_stress(torque: float, shaft_diameter: float, pin_diameter: float) -> float:
    """Largest bearing stress of the pin on its hole in the shaft, Pa: p = 6T/(d_p d²).

    The pressure rises linearly from the axis to the surface.

    Parameters
    ----------
    torque, shaft_diameter, pin_diameter
        As `shear_stress`.

    Raises
    ------
    OutsideValidity
        If the pin is not thinner than the shaft.

    References
    ----------
    As `shear_stress`.

    Examples
    --------
    >>> round(shaft_bearing_stress(10.0, 12e-3, 4e-3) / 1e6, 1)
    104.2
    """
    require_ordered(zero=0.0, pin_diameter=pin_diameter, shaft_diameter=shaft_diameter)
    return 6 * abs(torque) / (pin_diameter * shaft_diameter**2)


def hub_bearing_stress(
    torque: float, shaft_diameter: float, pin_diameter: float, hub_wall: float
) -> float:
    """Mean bearing stress of the pin on its holes in the hub, Pa: p = T/(d_p s (d + s)).

    Parameters
    ----------
    torque, shaft_diameter, pin_diameter
        As `shear_stress`.
    hub_wall
        Wall s of the hub that the pin passes on each side, m.

    Raises
    ------
    OutsideValidity
        If the pin is not thinner than the shaft, or the wall not above zero.

    References
    ----------
    As `shear_stress`.

    Examples
    --------
    >>> round(hub_bearing_stress(10.0, 12e-3, 4e-3, 9e-3) / 1e6, 1)
    13.2
    """
    require_ordered(zero=0.0, pin_diameter=pin_diameter, shaft_diameter=shaft_diameter)
    require_positive(hub_wall=hub_wall)
    return abs(torque) / (pin_diameter * hub_wall * (shaft_diameter + hub_wall))


def lengthwise_bearing_stress(
    torque: float, shaft_diameter: float, pin_diameter: float, length: float
) -> float:
    """Bearing stress of a pin set lengthwise half in the shaft, Pa: p = 4T/(d d_p L).

    Its shear through the pin, 2T/(d d_p L), is half of that.

    Parameters
    ----------
    torque, shaft_diameter, pin_diameter
        As `shear_stress`.
    length
        Engaged length L, m.

    Raises
    ------
    OutsideValidity
        If the pin is not thinner than the shaft, or the length not above zero.

    References
    ----------
    As `shear_stress`: a round key.

    Examples
    --------
    >>> round(lengthwise_bearing_stress(10.0, 12e-3, 4e-3, 20e-3) / 1e6, 1)
    41.7
    """
    require_ordered(zero=0.0, pin_diameter=pin_diameter, shaft_diameter=shaft_diameter)
    require_positive(length=length)
    return 4 * abs(torque) / (shaft_diameter * pin_diameter * length)
