"""Fuels by their atoms: air they need, heat they give, and what a blend of two is.

A fuel is CxHyOz; fractions of atoms such as CH1.87 do as well, since all answers are by mass.
Air is dry, with 0.20946 oxygen by mole and 28.966 kg/kmol.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, section 3.4; heats of
formation of the products as in CODATA (J. D. Cox and others, 1989).
"""

from __future__ import annotations

from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_positive, require_within

CARBON, HYDROGEN, OXYGEN = 12.011e-3, 1.008e-3, 15.999e-3
"""Molar masses, kg/mol."""

AIR_MOLAR_MASS = 28.966e-3
"""Molar mass of dry air, kg/mol."""

AIR_OXYGEN = 0.20946
"""Mole fraction of oxygen in dry air."""

FORMATION_CARBON_DIOXIDE = -393.51e3
"""Heat of formation of CO2 at 25 °C, J/mol."""

FORMATION_STEAM = -241.826e3
"""Heat of formation of water vapour at 25 °C, J/mol."""


class Atoms(NamedTuple):
    """Atoms of carbon, hydrogen and oxygen in a fuel molecule (or per carbon atom)."""

    carbon: float
    hydrogen: float
    oxygen: float = 0.0


class Fuel(NamedTuple):
    """A fuel as far as mixing needs it.

    Attributes
    ----------
    density
        Liquid, kg/m³.
    air_fuel_ratio
        Stoichiometric, by mass.
    heating_value
        Lower, J/kg.
    oxygen
        Mass fraction of oxygen.
    """

    density: float
    air_fuel_ratio: float
    heating_value: float
    oxygen: float


def molar_mass(atoms: Atoms) -> float:
    """Molar mass, kg/mol.

    Examples
    --------
    >>> round(1e3 * molar_mass(Atoms(8, 18)), 3)
    114.232
    """
    return atoms.carbon * CARBON + atoms.hydrogen * HYDROGEN + atoms.oxygen * OXYGEN


def oxygen_demand(atoms: Atoms) -> float:
    """Moles of O2 that burn one mole of fuel to CO2 and H2O."""
    return atoms.carbon + 0.25 * atoms.hydrogen - 0.5 * atoms.oxygen


def air_fuel_ratio(atoms: Atoms) -> float:
    """Stoichiometric air-fuel ratio by mass.

    Raises
    ------
    OutsideValidity
        For a formula that needs no air.

    Examples
    --------
    >>> round(air_fuel_ratio(Atoms(1, 1.87)), 3)
    14.604
    """
    demand = oxygen_demand(atoms)
    if demand <= 0.0:
        raise OutsideValidity("A substance that takes up no oxygen is no fuel.")
    return demand / AIR_OXYGEN * AIR_MOLAR_MASS / molar_mass(atoms)


def oxygen_fraction(atoms: Atoms) -> float:
    """Mass fraction of oxygen in the fuel."""
    return atoms.oxygen * OXYGEN / molar_mass(atoms)


def lower_heating_value(atoms: Atoms, formation: float) -> float:
    """Lower heating value at 25 °C, J/kg, from the fuel's heat of formation, J/mol.

    The heat of formation of the liquid gives the value of the liquid, that of the vapour the
    vapour's.

    Examples
    --------
    Propane vapour:

    >>> round(lower_heating_value(Atoms(3, 8), -104.7e3) / 1e6, 2)
    46.33
    """
    burned = atoms.carbon * FORMATION_CARBON_DIOXIDE + 0.5 * atoms.hydrogen * FORMATION_STEAM
    return (formation - burned) / molar_mass(atoms)


def blend(first: Fuel, second: Fuel, second_by_volume: float) -> tuple[float, Fuel]:
    """A blend of two liquids: mass fraction of the second, and the blend as a fuel.

    Volumes are taken to add, which alcohols in petrol do within some tenths of a per cent.

    Parameters
    ----------
    first, second
        The two fuels.
    second_by_volume
        Volume of the second over volume of both, 0 to 1.

    Raises
    ------
    OutsideValidity
        For a fraction outside 0 to 1.

    Examples
    --------
    Petrol with a tenth of ethanol:

    >>> petrol = Fuel(745.0, 14.604, 43.5e6, 0.0)
    >>> ethanol = Fuel(789.3, 9.005, 26.8e6, 0.3473)
    >>> share, e10 = blend(petrol, ethanol, 0.10)
    >>> round(share, 4), round(e10.air_fuel_ratio, 2), round(e10.heating_value / 1e6, 2)
    (0.1053, 14.01, 41.74)
    """
    require_within(0.0, 1.0, because="it is a fraction", second_by_volume=second_by_volume)
    density = second_by_volume * second.density + (1.0 - second_by_volume) * first.density
    share = second_by_volume * second.density / density
    rest = 1.0 - share
    mixed = Fuel(
        density,
        share * second.air_fuel_ratio + rest * first.air_fuel_ratio,
        share * second.heating_value + rest * first.heating_value,
        share * second.oxygen + rest * first.oxygen,
    )
    return share, mixed


def equivalence_ratio(atoms: Atoms, vapour_fraction: float) -> float:
    """Equivalence ratio of fuel vapour in air, from its mole (volume) fraction in the mixture.

    Raises
    ------
    OutsideValidity
        For a fraction not between 0 and 1.

    Examples
    --------
    The lower limit of propane, 2.1 % by volume:

    >>> round(equivalence_ratio(Atoms(3, 8), 0.021), 2)
    0.51
    """
    require_within(1e-9, 1.0 - 1e-9, because="it is a fraction", vapour_fraction=vapour_fraction)
    return vapour_fraction / (1.0 - vapour_fraction) * oxygen_demand(atoms) / AIR_OXYGEN


def vapour_fraction(atoms: Atoms, phi: float) -> float:
    """Mole fraction of fuel vapour in a mixture with air; inverse of :func:`equivalence_ratio`.

    Examples
    --------
    >>> round(vapour_fraction(Atoms(8, 18), 1.0), 5)
    0.01648
    """
    require_positive(phi=phi)
    air_per_fuel = oxygen_demand(atoms) / AIR_OXYGEN / phi
    return 1.0 / (1.0 + air_per_fuel)


def charge_density(atoms: Atoms, phi: float, pressure: float, temperature: float) -> float:
    """Density of fuel vapour and air as a perfect gas, kg/m³.

    Examples
    --------
    >>> round(charge_density(Atoms(8, 18), 1.0, 1e5, 298.15), 4)
    1.2252
    """
    fuel = vapour_fraction(atoms, phi)
    mass = fuel * molar_mass(atoms) + (1.0 - fuel) * AIR_MOLAR_MASS
    return pressure * mass / (8.314462618 * temperature)
