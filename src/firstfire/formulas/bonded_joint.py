"""Glue between a pin and a hub, or between sheets: mean shear and the peaks at its ends."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.formulas import mathematics as math
from firstfire.formulas.validity import require_ordered, require_positive


class EndPeaks(NamedTuple):
    """Shear stress of a glue film at its two ends, Pa.

    Attributes
    ----------
    entering
        Where the load enters the first part (the pin).
    leaving
        Where it leaves the second part (the hub).
    """

    entering: float
    leaving: float


def mean_torsion_shear(torque: float, diameter: float, length: float) -> float:
    """Mean shear of a film round a pin in torsion, Pa: τ = 2T/(π d² L).

    Parameters
    ----------
    torque
        Torque T, N·m.
    diameter, length
        Pin diameter d and bonded length L, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    References
    ----------
    Equilibrium.

    Examples
    --------
    >>> round(mean_torsion_shear(10.0, 12e-3, 20e-3) / 1e6, 3)
    2.21
    """
    require_positive(diameter=diameter, length=length)
    return 2 * abs(torque) / (math.pi * diameter**2 * length)


def torsion_peaks(
    torque: float,
    diameter: float,
    length: float,
    *,
    hub_outer_diameter: float,
    pin_shear_modulus: float,
    hub_shear_modulus: float,
    film_thickness: float,
    film_shear_modulus: float,
) -> EndPeaks:
    """Peak shear at both ends of a film, torque in at one end of the pin, out of the hub's other.

    k² = (G_a 2π r³/h)(1/G₁J₁ + 1/G₂J₂); the film's shear follows cosh and sinh of kx.

    Parameters
    ----------
    torque
        Torque T, N·m.
    diameter, length, hub_outer_diameter
        Pin diameter, bonded length and outside of the hub, m.
    pin_shear_modulus, hub_shear_modulus, film_shear_modulus
        Shear moduli, Pa.
    film_thickness
        Film thickness h, m.

    Returns
    -------
    EndPeaks
        Elastic peaks, Pa. A tough film yields at its ends and shares the load out again, so
        that the truth lies between these and `mean_torsion_shear`.

    Raises
    ------
    OutsideValidity
        If sizes are out of order or a property is not above zero.

    References
    ----------
    O. Volkersen, *Luftfahrtforschung* 15 (1938) 41, for lap joints (from memory);
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 9-7.

    Examples
    --------
    A 12 mm steel pin glued into a printed hub of 30 mm, 10 N·m:

    >>> peaks = torsion_peaks(10.0, 12e-3, 20e-3, hub_outer_diameter=30e-3,
    ...     pin_shear_modulus=79.3e9, hub_shear_modulus=0.75e9, film_thickness=0.1e-3,
    ...     film_shear_modulus=1.0e9)
    >>> round(peaks.entering / 1e6, 2), round(peaks.leaving / 1e6, 2)
    (6.6, 18.32)
    """
    require_ordered(zero=0.0, diameter=diameter, hub_outer_diameter=hub_outer_diameter)
    require_positive(pin_shear_modulus=pin_shear_modulus, hub_shear_modulus=hub_shear_modulus)
    pin = 32 / (math.pi * diameter**4 * pin_shear_modulus)
    hub = 32 / (math.pi * (hub_outer_diameter**4 - diameter**4) * hub_shear_modulus)
    spread = 2 * math.pi * (diameter / 2) ** 3
    ratios = _peak_ratios(length, spread, (film_thickness, film_shear_modulus), (pin, hub))
    mean = mean_torsion_shear(torque, diameter, length)
    return EndPeaks(mean * ratios.entering, mean * ratios.leaving)


def axial_peaks(
    force: float,
    diameter: float,
    length: float,
    *,
    hub_outer_diameter: float,
    pin_modulus: float,
    hub_modulus: float,
    film_thickness: float,
    film_shear_modulus: float,
) -> EndPeaks:
    """Peak shear at both ends of a film round a pin that is pulled out of its hub, Pa.

    k² = (G_a 2π r/h)(1/E₁A₁ + 1/E₂A₂)

    Parameters
    ----------
    force
        Pull, N, in at one end of the pin and out at the hub's other end.
    diameter, length, hub_outer_diameter
        Pin diameter, bonded length and outside of the hub, m.
    pin_modulus, hub_modulus, film_shear_modulus
        Young's moduli of pin and hub, shear modulus of the film, Pa.
    film_thickness
        Film thickness h, m.

    Raises
    ------
    OutsideValidity
        If sizes are out of order or a property is not above zero.

    References
    ----------
    As `torsion_peaks`.

    Examples
    --------
    >>> peaks = axial_peaks(1000.0, 12e-3, 20e-3, hub_outer_diameter=30e-3, pin_modulus=206e9,
    ...     hub_modulus=2.0e9, film_thickness=0.1e-3, film_shear_modulus=1.0e9)
    >>> peaks.leaving > peaks.entering
    True
    """
    require_ordered(zero=0.0, diameter=diameter, hub_outer_diameter=hub_outer_diameter)
    require_positive(pin_modulus=pin_modulus, hub_modulus=hub_modulus, length=length)
    pin = 4 / (math.pi * diameter**2 * pin_modulus)
    hub = 4 / (math.pi * (hub_outer_diameter**2 - diameter**2) * hub_modulus)
    film = (film_thickness, film_shear_modulus)
    ratios = _peak_ratios(length, math.pi * diameter, film, (pin, hub))
    mean = abs(force) / (math.pi * diameter * length)
    return EndPeaks(mean * ratios.entering, mean * ratios.leaving)


def lap_peaks(
    force: float,
    overlap: float,
    width: float,
    *,
    first_stiffness: float,
    second_stiffness: float,
    film_thickness: float,
    film_shear_modulus: float,
) -> EndPeaks:
    """Peak shear at both ends of a lap joint of two sheets, without peel, Pa.

    For equal sheets peak/mean = (ωl/2) coth(ωl/2), ω² = 2 G_a/(E t h).

    Parameters
    ----------
    force
        Pull through the joint, N.
    overlap, width
        Overlap l along the pull and width across it, m.
    first_stiffness, second_stiffness
        Young's modulus times thickness E t of each sheet, N/m.
    film_thickness, film_shear_modulus
        Film thickness h, m, and shear modulus G_a, Pa.

    Raises
    ------
    OutsideValidity
        If a size or property is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 9-7, in Volkersen's form for unequal sheets.

    Examples
    --------
    >>> peaks = lap_peaks(1000.0, 25e-3, 20e-3, first_stiffness=69e9 * 2e-3,
    ...     second_stiffness=69e9 * 2e-3, film_thickness=0.2e-3, film_shear_modulus=1.2e9)
    >>> round(peaks.entering / (1000.0 / (25e-3 * 20e-3)), 3)
    3.691
    """
    require_positive(width=width, overlap=overlap)
    require_positive(first_stiffness=first_stiffness, second_stiffness=second_stiffness)
    film = (film_thickness, film_shear_modulus)
    compliances = (1 / first_stiffness, 1 / second_stiffness)
    ratios = _peak_ratios(overlap, 1.0, film, compliances)
    mean = abs(force) / (overlap * width)
    return EndPeaks(mean * ratios.entering, mean * ratios.leaving)


def _peak_ratios(
    length: float, spread: float, film: tuple[float, float], compliances: tuple[float, float]
) -> EndPeaks:
    """Peak over mean at both ends, from T₁'' = k² (T₁ - β T), T₁ falling from T to 0.

    `spread` turns shear strain of the film into load a unit length; `compliances` are strain
    or twist a unit load of the two parts.
    """
    thickness, shear_modulus = film
    require_positive(length=length, film_thickness=thickness, film_shear_modulus=shear_modulus)
    first, second = compliances
    total = first + second
    run = length * math.sqrt(shear_modulus * spread / thickness * total)
    coth = 1 / math.tanh(run)
    # exp(-kL) form of 1/sinh: no overflow on long joints
    csch = 2 * math.exp(-run) / -math.expm1(-2 * run)
    return EndPeaks(
        entering=run * (first / total * coth + second / total * csch),
        leaving=run * (second / total * coth + first / total * csch),
    )
