"""Thermodynamic data of air, burned gas and fuel vapours, read once from the files beside."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.species import (
    ATOMIC_WEIGHTS,
    DRY_AIR,
    REFERENCE_TEMPERATURE,
    SPECIES,
    UNIVERSAL_GAS_CONSTANT,
)
from firstfire.engine.fuel import Fuel
from firstfire.errors import CatalogError

Coefficients = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Vapour:
    """A gas of fixed composition: a molecule, or a blend taken as one mean molecule.

    Attributes
    ----------
    name
        As the data files call it.
    atoms
        Atoms a (mean) molecule: ``{"C": 8.0, "H": 18.0}``.
    coefficients
        Shape (2, 7): NASA polynomial below and above 1000 K. A blend's seventh holds no entropy of
        mixing, which stays constant while the composition does.
    source
        Where the data are from.
    """

    name: str
    atoms: dict[str, float]
    coefficients: Coefficients
    source: str

    @property
    def molar_mass(self) -> float:
        """Mass of a mole, kg/mol."""
        return sum(ATOMIC_WEIGHTS[atom] * count for atom, count in self.atoms.items())

    @property
    def gas_constant(self) -> float:
        """Gas constant, J/(kg K)."""
        return UNIVERSAL_GAS_CONSTANT / self.molar_mass

    @property
    def oxygen_need(self) -> float:
        """Moles of O2 that burn a mole to CO2 and H2O."""
        atoms = self.atoms
        return atoms.get("C", 0.0) + atoms.get("H", 0.0) / 4 - atoms.get("O", 0.0) / 2

    @property
    def stoichiometric_air_fuel_ratio(self) -> float:
        """Kilograms of dry air that just burn a kilogram; only the air's O2 counts.

        Examples
        --------
        >>> round(fuel_vapour("iso-octane").stoichiometric_air_fuel_ratio, 3)
        15.132
        """
        return self.oxygen_need / DRY_AIR["O2"] * air().molar_mass / self.molar_mass

    def air_fuel_ratio(self, water: float) -> float:
        """Kilograms of air that just burn a kilogram, `water` of its moles being steam."""
        dry = 1.0 - water
        heavier = air(water).molar_mass / air().molar_mass
        return self.stoichiometric_air_fuel_ratio * heavier / dry

    @property
    def lower_heating_value(self) -> float:
        """Heat of burning the vapour at 298.15 K with the water left as vapour, J/kg.

        Examples
        --------
        >>> round(fuel_vapour("propane").lower_heating_value / 1e6, 2)
        46.33
        """
        products = self.atoms.get("C", 0.0) * molar_enthalpy(molecule("CO2"))
        products += self.atoms.get("H", 0.0) / 2 * molar_enthalpy(molecule("H2O"))
        reactants = molar_enthalpy(self) + self.oxygen_need * molar_enthalpy(molecule("O2"))
        return (reactants - products) / self.molar_mass


def molar_enthalpy(vapour: Vapour, temperature: float = REFERENCE_TEMPERATURE) -> float:
    """Enthalpy with heat of formation, J/mol, from temperature in K, 200 to 6000.

    Examples
    --------
    >>> round(molar_enthalpy(molecule("CO2")) / 1e3, 1)
    -393.5
    """
    a = vapour.coefficients[int(temperature > 1000.0)]
    powers = temperature ** np.arange(5) / np.arange(1, 6)
    return float(UNIVERSAL_GAS_CONSTANT * (temperature * (a[:5] @ powers) + a[5]))


def _table(name: str) -> dict[str, Any]:
    return tomllib.loads((resources.files("firstfire.cycle") / name).read_text("utf-8"))


@cache
def _molecules() -> dict[str, Vapour]:
    table = _table("nasa7.toml")
    return {
        name: Vapour(
            name,
            {atom: float(count) for atom, count in row["elements"].items()},
            np.array([row["low"], row["high"]]),
            row["source"],
        )
        for name, row in table["species"].items()
    }


def molecule(name: str) -> Vapour:
    """One molecule of the data file, by its name there.

    Raises
    ------
    CatalogError
        Where the file has no such molecule.
    """
    found = _molecules().get(name)
    if found is None:
        raise CatalogError(f'There is no gas data for "{name}".')
    return found


def blend(name: str, moles: dict[Vapour, float], source: str) -> Vapour:
    """Gases mixed by mole, taken as one mean molecule."""
    total = sum(moles.values())
    atoms: dict[str, float] = {}
    coefficients = np.zeros((2, 7))
    for part, amount in moles.items():
        coefficients += part.coefficients * (amount / total)
        for atom, count in part.atoms.items():
            atoms[atom] = atoms.get(atom, 0.0) + count * amount / total
    return Vapour(name, atoms, coefficients, source)


@cache
def air(water: float = 0.0) -> Vapour:
    """Air as one mean molecule, `water` of its moles being steam.

    Examples
    --------
    >>> round(air().gas_constant, 2)
    287.04
    """
    parts = {molecule(name): fraction * (1.0 - water) for name, fraction in DRY_AIR.items()}
    if water > 0.0:
        parts[molecule("H2O")] = water
    return blend("air", parts, "dry air by mole: 0.20946 O2, 0.78084 N2, 0.00934 Ar, 0.00036 CO2")


@cache
def product_coefficients() -> Coefficients:
    """NASA polynomials of the burned-gas molecules: shape (12, 2, 7), below and above 1000 K."""
    return np.stack([molecule(name).coefficients for name in SPECIES])


@cache
def product_molar_masses() -> NDArray[np.float64]:
    """Molar masses of the burned-gas molecules, kg/mol, in the order of `SPECIES`."""
    return np.array([molecule(name).molar_mass for name in SPECIES])


def fuel_names() -> tuple[str, ...]:
    """Names of the fuels that gas data are kept for."""
    return tuple(_table("fuel_blends.toml"))


def fuel_vapour(fuel: str | Fuel) -> Vapour:
    """Vapour of a fuel: of the data files by name, or as a row of the catalog says it is.

    Hyphens, spaces and capitals of a name don't matter. Of a row, the heat capacity is that of
    the gases it is reckoned with, a kilogram of it; atoms and heating value are its own.

    Raises
    ------
    CatalogError
        Where there is no such fuel; the message lists those there are.

    Examples
    --------
    >>> fuel_vapour("Iso-Octane").atoms
    {'C': 8.0, 'H': 18.0}
    """
    if isinstance(fuel, Fuel):
        return _as_said(fuel)
    return _named(fuel.strip().lower().replace("-", "_").replace(" ", "_"))


@cache
def _named(name: str) -> Vapour:
    blends = _table("fuel_blends.toml")
    if name not in blends:
        raise CatalogError(f'There is no fuel "{name}". There are: {", ".join(blends)}.')
    row = blends[name]
    if "moles" in row:
        return blend(name, {molecule(part): n for part, n in row["moles"].items()}, row["source"])
    return _by_mass(name, row["mass"].items(), row["source"])


def _by_mass(name: str, shares: Iterable[tuple[str, float]], source: str) -> Vapour:
    parts = {_named(part): share for part, share in shares}
    return blend(name, {part: share / part.molar_mass for part, share in parts.items()}, source)


@cache
def _as_said(fuel: Fuel) -> Vapour:
    base = _by_mass(fuel.key, fuel.vapours, "a row of the catalog")
    atoms = {"C": fuel.carbon, "H": fuel.hydrogen, "O": fuel.oxygen}
    said = Vapour(fuel.key, {a: n for a, n in atoms.items() if n > 0.0}, base.coefficients, "")
    scaled = base.coefficients * (said.molar_mass / base.molar_mass)
    raw = Vapour(fuel.key, said.atoms, scaled, base.source)
    # The sixth coefficient is the heat of formation over R.
    lacking = (fuel.heating_value - raw.lower_heating_value) * raw.molar_mass
    formed = scaled.copy()
    formed[:, 5] += lacking / UNIVERSAL_GAS_CONSTANT
    return Vapour(fuel.key, said.atoms, formed, base.source)
