"""A helical compression spring of round wire: rate, stress, solid length, surge, bowing out."""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_positive, require_within


def spring_index(mean_diameter: float, wire_diameter: float) -> float:
    """Spring index C = D/d, 3 to 20: below it cannot be wound, above it tangles.

    Parameters
    ----------
    mean_diameter, wire_diameter
        Mean coil diameter D and wire d, m.

    Raises
    ------
    OutsideValidity
        If C is outside 3 to 20.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed.,
    section 10-1 (4 to 12 preferred).

    Examples
    --------
    >>> round(spring_index(28.5e-3, 2.5e-3), 3)
    11.4
    """
    require_positive(wire_diameter=wire_diameter)
    index = mean_diameter / wire_diameter
    require_within(3.0, 20.0, because="such springs are not wound", spring_index=index)
    return index


def rate(
    wire_diameter: float, mean_diameter: float, active_coils: float, shear_modulus: float
) -> float:
    """Spring rate, N/m: k = d⁴ G/(8 D³ N).

    Parameters
    ----------
    wire_diameter, mean_diameter
        Wire d and mean coil diameter D, m.
    active_coils
        Active coils N.
    shear_modulus
        Shear modulus G, Pa; 79.3 to 81 GPa for steel wire.

    Raises
    ------
    OutsideValidity
        If the index is outside 3 to 20, or a quantity is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 10-9.

    Examples
    --------
    >>> round(rate(2.5e-3, 28.5e-3, 13, 81.0e9) / 1e3, 3)
    1.314
    """
    spring_index(mean_diameter, wire_diameter)
    require_positive(active_coils=active_coils, shear_modulus=shear_modulus)
    return wire_diameter**4 * shear_modulus / (8 * mean_diameter**3 * active_coils)


def wahl_factor(index: float) -> float:
    """Stress factor for curvature and direct shear: K_W = (4C - 1)/(4C - 4) + 0.615/C.

    Parameters
    ----------
    index
        Spring index C, 3 to 20.

    Raises
    ------
    OutsideValidity
        If C is outside 3 to 20.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 10-4.

    Examples
    --------
    >>> round(wahl_factor(8), 4)
    1.184
    """
    require_within(3.0, 20.0, because="such springs are not wound", spring_index=index)
    return (4 * index - 1) / (4 * index - 4) + 0.615 / index


def bergstrasser_factor(index: float) -> float:
    """Stress factor for curvature and direct shear: K_B = (4C + 2)/(4C - 3).

    Parameters
    ----------
    index
        Spring index C, 3 to 20.

    Raises
    ------
    OutsideValidity
        If C is outside 3 to 20.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 10-5.

    Examples
    --------
    >>> round(bergstrasser_factor(11.4), 3)
    1.117
    """
    require_within(3.0, 20.0, because="such springs are not wound", spring_index=index)
    return (4 * index + 2) / (4 * index - 3)


def shear_stress(
    force: float, wire_diameter: float, mean_diameter: float, stress_factor: float
) -> float:
    """Largest shear stress in the wire, Pa: τ = K 8 F D/(π d³).

    Parameters
    ----------
    force
        Spring force F, N.
    wire_diameter, mean_diameter
        Wire d and mean coil diameter D, m.
    stress_factor
        `bergstrasser_factor` or `wahl_factor` of the spring.

    Raises
    ------
    OutsideValidity
        If the index is outside 3 to 20.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 10-7.

    Examples
    --------
    >>> round(shear_stress(20.0, 1.2e-3, 9e-3, wahl_factor(7.5)) / 1e6, 1)
    317.6
    """
    spring_index(mean_diameter, wire_diameter)
    return stress_factor * 8 * force * mean_diameter / (math.pi * wire_diameter**3)


def force_at_stress(
    stress: float, wire_diameter: float, mean_diameter: float, stress_factor: float
) -> float:
    """Force that brings the wire to a shear stress, N: F = π d³ τ/(8 K D).

    Parameters
    ----------
    stress
        Shear stress τ, Pa.
    wire_diameter, mean_diameter, stress_factor
        As `shear_stress`.

    Raises
    ------
    OutsideValidity
        If the index is outside 3 to 20.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 10-7 turned round.

    Examples
    --------
    >>> round(force_at_stress(0.45 * 1936e6, 2.5e-3, 28.5e-3, bergstrasser_factor(11.4)), 1)
    167.9
    """
    return stress / shear_stress(1.0, wire_diameter, mean_diameter, stress_factor)


def solid_length(wire_diameter: float, total_coils: float, *, ground: bool = True) -> float:
    """Length with all coils touching, m: d N_t with ground ends, d (N_t + 1) with rough ones.

    Parameters
    ----------
    wire_diameter
        Wire d, m.
    total_coils
        Total coils N_t, active and dead.
    ground
        Whether the ends are ground flat.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Table 10-1.

    Examples
    --------
    >>> solid_length(2.5e-3, 14)
    0.035
    """
    require_positive(wire_diameter=wire_diameter, total_coils=total_coils)
    return wire_diameter * (total_coils if ground else total_coils + 1)


def critical_free_length(mean_diameter: float, end_condition: float = 0.5) -> float:
    """Free length above which a steel spring can bow out, m: L₀ = 2.63 D/α.

    Parameters
    ----------
    mean_diameter
        Mean coil diameter D, m.
    end_condition
        α: 0.5 between flat parallel faces, 0.707 one end pivoted, 1 both, 2 one end free.

    Raises
    ------
    OutsideValidity
        If α is outside 0.5 to 2.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 10-13, Table 10-2.

    Examples
    --------
    >>> round(critical_free_length(28.5e-3) * 1e3, 1)
    149.9
    """
    require_positive(mean_diameter=mean_diameter)
    require_within(0.5, 2.0, because="no spring end is held so", end_condition=end_condition)
    return 2.63 * mean_diameter / end_condition


def active_mass(
    wire_diameter: float, mean_diameter: float, active_coils: float, density: float
) -> float:
    """Mass of the active coils, kg: m = ρ π² d² D N/4.

    Parameters
    ----------
    wire_diameter, mean_diameter
        Wire d and mean coil diameter D, m.
    active_coils
        Active coils N.
    density
        Density ρ, kg/m³.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 10-26.

    Examples
    --------
    >>> round(active_mass(1.2e-3, 9e-3, 5.5, 7850) * 1e3, 3)
    1.381
    """
    require_positive(wire_diameter=wire_diameter, mean_diameter=mean_diameter)
    require_positive(active_coils=active_coils, density=density)
    return density * math.pi**2 * wire_diameter**2 * mean_diameter * active_coils / 4


def surge_frequency(rate: float, active_mass: float, *, one_end_free: bool = False) -> float:
    """Lowest frequency at which the coils surge by themselves, Hz.

    f = ½√(k/m) between flat faces, ¼√(k/m) with one end free. Keep it 15 to 20 times the
    working frequency.

    Parameters
    ----------
    rate, active_mass
        Spring rate k, N/m, and `active_mass` m, kg.
    one_end_free
        Whether one end is not held against a face.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 10-25 and section 10-7.

    Examples
    --------
    >>> round(surge_frequency(5126.0, 1.381e-3), 1)
    963.3
    """
    require_positive(rate=rate, active_mass=active_mass)
    return (0.25 if one_end_free else 0.5) * math.sqrt(rate / active_mass)
