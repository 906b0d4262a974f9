"""A shaft pressed into a hub: pressure from interference, stresses, and what makes it slip."""

from __future__ import annotations

from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.formulas.validity import (
    require_not_negative,
    require_ordered,
    require_positive,
    require_within,
)


def contact_pressure(
    interference: float,
    diameter: float,
    *,
    hub_outer_diameter: float,
    hub_modulus: float,
    hub_poisson: float,
    shaft_modulus: float,
    shaft_poisson: float,
    shaft_bore: float = 0.0,
) -> float:
    """Pressure between shaft and hub, Pa; zero where there is no interference.

    p = δ / (d [((D² + d²)/(D² - d²) + ν_h)/E_h + ((d² + b²)/(d² - b²) - ν_s)/E_s])

    Parameters
    ----------
    interference
        Interference δ on diameter (shaft minus bore), m; zero or less is a loose fit.
    diameter
        Nominal interface diameter d, m.
    hub_outer_diameter, shaft_bore
        Outside D of the hub and bore b of the shaft (0 for a solid one), m.
    hub_modulus, hub_poisson, shaft_modulus, shaft_poisson
        Young's modulus, Pa, and Poisson's ratio of each. For a plastic that has crept, give
        its creep modulus.

    Raises
    ------
    OutsideValidity
        If the diameters are not in order, or the interference is over 5 % of the diameter,
        where small-strain elasticity ends. The hub must also stay below `hub_yield_pressure`.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 3-56.

    Examples
    --------
    A 12 mm steel pin in a printed hub of 30 mm with 0.10 mm interference:

    >>> p = contact_pressure(0.10e-3, 12e-3, hub_outer_diameter=30e-3, hub_modulus=2.0e9,
    ...                      hub_poisson=0.38, shaft_modulus=206e9, shaft_poisson=0.29)
    >>> round(p / 1e6, 3)
    9.428
    """
    require_not_negative(shaft_bore=shaft_bore)
    require_ordered(shaft_bore=shaft_bore, diameter=diameter, hub_outer_diameter=hub_outer_diameter)
    require_positive(hub_modulus=hub_modulus, shaft_modulus=shaft_modulus)
    pressed = math.most(interference, 0.0)
    require_within(
        0.0,
        0.05,
        because="beyond it the hub no longer answers with small elastic strain",
        interference_over_diameter=pressed / diameter,
    )
    hub = (_hoop_per_pressure(diameter, hub_outer_diameter) + hub_poisson) / hub_modulus
    hub = found("hub_gives", hub, "1/Pa", "what the hub gives way")
    shaft = (_hoop_per_pressure(shaft_bore, diameter) - shaft_poisson) / shaft_modulus
    shaft = found("pin_gives", shaft, "1/Pa", "what the pin gives way")
    return pressed / (diameter * (hub + shaft))


def hub_hoop_stress(pressure: float, diameter: float, hub_outer_diameter: float) -> float:
    """Hoop stress at the bore of the hub, Pa, tension positive.

    σ = p (D² + d²)/(D² - d²)

    Parameters
    ----------
    pressure
        Contact pressure p, Pa.
    diameter, hub_outer_diameter
        Interface d and outside D, m.

    Raises
    ------
    OutsideValidity
        If the outside is not larger than the interface.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 3-58 (7-45 in the design chapter).

    Examples
    --------
    >>> round(hub_hoop_stress(9.428e6, 12e-3, 30e-3) / 1e6, 2)
    13.02
    """
    require_ordered(diameter=diameter, hub_outer_diameter=hub_outer_diameter)
    return pressure * _hoop_per_pressure(diameter, hub_outer_diameter)


def hub_yield_pressure(diameter: float, hub_outer_diameter: float, yield_strength: float) -> float:
    """Contact pressure at which the hub's bore begins to yield, Pa.

    p = σ_y (1 - (d/D)²)/2, largest-shear (Tresca) rule: hoop plus pressure reach σ_y.

    Parameters
    ----------
    diameter, hub_outer_diameter
        Interface d and outside D, m.
    yield_strength
        Yield or tensile strength σ_y of the hub, Pa.

    Raises
    ------
    OutsideValidity
        If the outside is not larger than the interface.

    References
    ----------
    Lamé with Tresca; S. Timoshenko, *Strength of Materials*, part II, thick cylinders.

    Examples
    --------
    >>> round(hub_yield_pressure(12e-3, 30e-3, 45e6) / 1e6, 2)
    18.9
    """
    require_ordered(diameter=diameter, hub_outer_diameter=hub_outer_diameter)
    return yield_strength * (1 - (diameter / hub_outer_diameter) ** 2) / 2


def slip_torque(pressure: float, diameter: float, length: float, friction: float) -> float:
    """Torque at which the joint slips, N·m.

    T = μ p π d² L / 2

    Parameters
    ----------
    pressure
        Contact pressure p, Pa.
    diameter, length
        Interface diameter d and engaged length L, m.
    friction
        Coefficient of friction μ.

    Raises
    ------
    OutsideValidity
        If pressure, size or friction is negative.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 7-49 (equation number from memory).

    Examples
    --------
    >>> round(slip_torque(9.428e6, 12e-3, 20e-3, 0.20), 2)
    8.53
    """
    return slip_force(pressure, diameter, length, friction) * diameter / 2


def slip_force(pressure: float, diameter: float, length: float, friction: float) -> float:
    """Axial force at which the joint slides, N: F = μ p π d L.

    Parameters
    ----------
    pressure, diameter, length, friction
        As `slip_torque`.

    Raises
    ------
    OutsideValidity
        If pressure, size or friction is negative.

    References
    ----------
    *Shigley's*, 9th ed., section 7-8.

    Examples
    --------
    >>> round(slip_force(9.428e6, 12e-3, 20e-3, 0.20))
    1422
    """
    require_not_negative(pressure=pressure, diameter=diameter, length=length, friction=friction)
    return friction * pressure * math.pi * diameter * length


def _hoop_per_pressure(inner: float, outer: float) -> float:
    if inner == 0:
        return 1.0
    return (outer**2 + inner**2) / (outer**2 - inner**2)


def rocking_pressure(moment: float, diameter: float, length: float) -> float:
    """Pressure that a rocking moment adds and takes away at the ends of the joint, Pa.

    p_b = 12 M / (π d L²). Where it passes the contact pressure the joint opens and frets.

    Parameters
    ----------
    moment
        Bending moment M across the joint, N·m.
    diameter, length
        Interface diameter d and engaged length L, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    References
    ----------
    Equilibrium, the pressure changing as a cosine round the joint and linearly along it. The
    press-fit handbooks give 4.5 in place of 3.82 (from memory).

    Examples
    --------
    >>> round(rocking_pressure(10.0, 12e-3, 20e-3) / 1e6, 2)
    7.96
    """
    require_positive(diameter=diameter, length=length)
    return 12 * abs(moment) / (math.pi * diameter * length**2)
