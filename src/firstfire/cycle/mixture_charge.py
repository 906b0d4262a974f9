"""Gas that keeps its molecules: fresh charge, and products as if nothing dissociated.

For ideal cycles, starting states and checks; the stepper has its own tables.
"""

from __future__ import annotations

import math

import numpy as np

from firstfire.cycle.species import DRY_AIR, UNIVERSAL_GAS_CONSTANT
from firstfire.cycle.thermo_data import (
    Vapour,
    air,
    blend,
    fuel_vapour,
    molar_enthalpy,
    molecule,
)
from firstfire.engine.fuel import Fuel
from firstfire.errors import OutsideValidity


def fresh_charge(fuel: str | Fuel, equivalence_ratio: float, water: float = 0.0) -> Vapour:
    """Air and fuel vapour, unburned.

    Parameters
    ----------
    fuel
        What `fuel_vapour` knows.
    equivalence_ratio
        Fuel/air over stoichiometric fuel/air; 0 is air alone.
    water
        Mole fraction of steam in the air.

    Examples
    --------
    >>> round(fresh_charge("iso-octane", 1.0).gas_constant, 2)
    273.76
    """
    vapour = fuel_vapour(fuel)
    moles = equivalence_ratio * (1.0 - water) * DRY_AIR["O2"] / vapour.oxygen_need
    return blend("fresh charge", {air(water): 1.0, vapour: moles}, "air and fuel vapour")


def complete_products(fuel: str, equivalence_ratio: float) -> Vapour:
    """CO2, H2O, N2, Ar and the oxygen left over, as if hot gas did not dissociate.

    Raises
    ------
    OutsideValidity
        For rich mixture, where it is equilibrium that decides what the oxygen goes to.
    """
    if equivalence_ratio > 1.0:
        raise OutsideValidity("Complete products are defined for lean and stoichiometric mixtures.")
    vapour = fuel_vapour(fuel)
    moles = equivalence_ratio * DRY_AIR["O2"] / vapour.oxygen_need
    amounts = {
        "CO2": DRY_AIR["CO2"] + moles * vapour.atoms["C"],
        "H2O": moles * vapour.atoms["H"] / 2,
        "O2": DRY_AIR["O2"] * (1.0 - equivalence_ratio),
        "N2": DRY_AIR["N2"],
        "Ar": DRY_AIR["Ar"],
    }
    return blend("complete products", {molecule(m): n for m, n in amounts.items()}, "element sums")


def heat_capacity(gas: Vapour, temperature: float) -> float:
    """Heat capacity at constant pressure, J/(kg K), 200 to 6000 K.

    Examples
    --------
    >>> round(heat_capacity(air(), 300.0), 1)
    1004.8
    """
    a = gas.coefficients[int(temperature > 1000.0)]
    return float(gas.gas_constant * (a[:5] @ temperature ** np.arange(5)))


def heat_capacity_ratio(gas: Vapour, temperature: float) -> float:
    """Ratio of the heat capacities, cp/(cp - R)."""
    cp = heat_capacity(gas, temperature)
    return cp / (cp - gas.gas_constant)


def enthalpy(gas: Vapour, temperature: float) -> float:
    """Enthalpy with heats of formation, J/kg."""
    return molar_enthalpy(gas, temperature) / gas.molar_mass


def internal_energy(gas: Vapour, temperature: float) -> float:
    """Internal energy with heats of formation, J/kg."""
    return enthalpy(gas, temperature) - gas.gas_constant * temperature


def thermal_entropy(gas: Vapour, temperature: float) -> float:
    """Entropy at 1 bar less that of mixing, J/(kg K): for differences at one composition."""
    a = gas.coefficients[int(temperature > 1000.0)]
    powers = temperature ** np.arange(1, 5) / np.arange(1, 5)
    s = a[0] * math.log(temperature) + a[1:5] @ powers + a[6]
    return float(UNIVERSAL_GAS_CONSTANT / gas.molar_mass * s)


def temperature_at_energy(gas: Vapour, energy: float, guess: float = 1500.0) -> float:
    """Temperature, K, at which the gas has this internal energy, J/kg."""
    temperature = guess
    for _ in range(60):
        slope = heat_capacity(gas, temperature) - gas.gas_constant
        step = (energy - internal_energy(gas, temperature)) / slope
        temperature += max(step, -temperature / 2)
        if abs(step) < 1e-10 * temperature:
            break
    return temperature


def compress(gas: Vapour, temperature: float, pressure: float, ratio: float) -> tuple[float, float]:
    """Temperature, K, and pressure, Pa, after isentropic compression to 1/`ratio` of the volume.

    Examples
    --------
    >>> hot, squeezed = compress(air(), 300.0, 1e5, 8.0)
    >>> round(hot, 1), round(squeezed / 1e5, 2)
    (672.7, 17.94)
    """
    gas_constant = gas.gas_constant
    start = thermal_entropy(gas, temperature) - gas_constant * math.log(temperature)
    hot = temperature * ratio**0.35
    for _ in range(60):
        # s(T) - R ln p, with p = p1 ratio T/T1
        gap = thermal_entropy(gas, hot) - gas_constant * math.log(hot * ratio) - start
        step = -gap * hot / (heat_capacity(gas, hot) - gas_constant)
        hot += max(step, -hot / 2)
        if abs(step) < 1e-11 * hot:
            break
    return hot, pressure * ratio * hot / temperature
