"""Burned gas at a known state, burned from a known charge, and expanded: plain SI in and out."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.compile import kernel_entry
from firstfire.cycle.equilibrium import burned_amounts, equilibrium_at, standard_state
from firstfire.cycle.mixture_charge import enthalpy, fresh_charge, internal_energy
from firstfire.cycle.species import SPECIES
from firstfire.cycle.thermo_data import product_coefficients
from firstfire.engine.fuel import Fuel
from firstfire.errors import OutsideValidity

COLDEST, HOTTEST = 200.0, 4000.0
LOWEST_PRESSURE, HIGHEST_PRESSURE = 1.0e3, 8.0e7

ENTHALPY: Final = 0
ENERGY: Final = 1
ENTROPY: Final = 2


@dataclass(frozen=True)
class BurnedGas:
    """Burned gas in chemical equilibrium.

    Attributes
    ----------
    temperature, pressure
        K, Pa.
    gas_constant
        J/(kg K).
    enthalpy, internal_energy, entropy
        J/kg with heats of formation; J/(kg K).
    heat_capacity
        dh/dT at constant pressure with the equilibrium shifting, J/(kg K).
    isentropic_exponent
        -(d ln p / d ln v) at constant entropy with the equilibrium shifting: n_s.
    frozen_heat_capacity_ratio
        cp/cv with every molecule kept.
    mole_fractions
        Of each molecule of `SPECIES`.
    amounts
        mol/kg of carbon, hydrogen, spare oxygen atoms, nitrogen atoms and argon.
    """

    temperature: float
    pressure: float
    gas_constant: float
    enthalpy: float
    internal_energy: float
    entropy: float
    heat_capacity: float
    isentropic_exponent: float
    frozen_heat_capacity_ratio: float
    mole_fractions: dict[str, float]
    amounts: tuple[float, ...]

    @property
    def specific_volume(self) -> float:
        """Volume of a kilogram, m³/kg."""
        return self.gas_constant * self.temperature / self.pressure


@kernel_entry
def solve_state(
    coefficients: NDArray[np.float64],
    amounts: NDArray[np.float64],
    kind: int,
    target: float,
    volume_held: bool,
    held: float,
    guess: float,
) -> tuple[float, float]:
    """Temperature, K, and pressure, Pa, of given enthalpy, energy or entropy at held p or v.

    Newton in ln T and ln p, from `guess`, K. NaN where it does not settle in 80 rounds.

    Parameters
    ----------
    coefficients, amounts
        As for `equilibrium_at`.
    kind, target
        `ENTHALPY` or `ENERGY`, J/kg, or `ENTROPY`, J/(kg K).
    volume_held, held
        Whether `held` is a specific volume, m³/kg, or else a pressure, Pa.
    """
    fractions = np.empty(12)
    t = guess
    p = 290.0 * t / held if volume_held else held
    for _ in range(80):
        h, s, gas, h_t, h_p, gas_t, gas_p = equilibrium_at(coefficients, amounts, t, p, fractions)
        if kind == ENTROPY:
            error, by_t, by_p = s - target, h_t, -(gas + t * gas_t)
        else:
            error, by_t, by_p = h - target, t * h_t, p * h_p
            if kind == ENERGY:
                error -= gas * t
                by_t -= t * (gas + t * gas_t)
                by_p -= p * t * gas_p
        if volume_held:
            gap = math.log(gas * t / (p * held))
            gap_t, gap_p = 1 + t * gas_t / gas, p * gas_p / gas - 1
        else:
            gap, gap_t, gap_p = math.log(p / held), 0.0, 1.0
        determinant = by_t * gap_p - by_p * gap_t
        step_t = (by_p * gap - error * gap_p) / determinant
        step_p = (gap_t * error - gap * by_t) / determinant
        short = min(1.0, 0.3 / (abs(step_t) + 1e-300), 0.6 / (abs(step_p) + 1e-300))
        t *= math.exp(short * step_t)
        p *= math.exp(short * step_p)
        if abs(step_t) + abs(step_p) < 1e-9:
            return t, p
    return math.nan, math.nan


def _state(amounts: NDArray[np.float64], temperature: float, pressure: float) -> BurnedGas:
    if not (COLDEST <= temperature <= HOTTEST and LOWEST_PRESSURE <= pressure <= HIGHEST_PRESSURE):
        raise OutsideValidity(
            f"Burned gas is known from {COLDEST:g} to {HOTTEST:g} K and {LOWEST_PRESSURE:g} to "
            f"{HIGHEST_PRESSURE:g} Pa; this is {temperature:g} K and {pressure:g} Pa."
        )
    coefficients = product_coefficients()
    fractions, standard = np.empty(12), np.empty((3, 12))
    h, s, gas, h_t, _, gas_t, gas_p = equilibrium_at(
        coefficients, amounts, temperature, pressure, fractions
    )
    standard_state(coefficients, temperature, standard)
    frozen = float(fractions @ standard[0])
    # d ln v / d ln p at constant entropy is that at constant T and what the change of T adds.
    at_constant_t = pressure * gas_p / gas - 1.0
    by_t = 1.0 + temperature * gas_t / gas
    return BurnedGas(
        temperature=temperature,
        pressure=pressure,
        gas_constant=gas,
        enthalpy=h,
        internal_energy=h - gas * temperature,
        entropy=s,
        heat_capacity=h_t,
        isentropic_exponent=-1.0 / (at_constant_t + by_t * by_t * gas / h_t),
        frozen_heat_capacity_ratio=frozen / (frozen - 1.0),
        mole_fractions=dict(zip(SPECIES, fractions.tolist(), strict=True)),
        amounts=tuple(amounts.tolist()),
    )


def _solved(
    amounts: NDArray[np.float64],
    kind: int,
    target: float,
    volume_held: bool,
    held: float,
    guess: float,
) -> BurnedGas:
    temperature, pressure = solve_state(
        product_coefficients(), amounts, kind, target, volume_held, held, guess
    )
    return _state(amounts, temperature, pressure)


def burned_gas(
    fuel: str, equivalence_ratio: float, temperature: float, pressure: float
) -> BurnedGas:
    """Burned gas of a fuel and mixture at known temperature, K, and pressure, Pa.

    Raises
    ------
    CatalogError
        Where there is no such fuel.
    OutsideValidity
        Outside equivalence ratios 0.2 to 2, 200 to 4000 K, 1 kPa to 80 MPa.

    Examples
    --------
    >>> round(burned_gas("iso-octane", 1.0, 2270.9, 1e5).mole_fractions["CO"], 4)
    0.0135
    """
    return _state(burned_amounts(fuel, equivalence_ratio), temperature, pressure)


def burn_at_constant_pressure(
    fuel: str, equivalence_ratio: float, temperature: float, pressure: float
) -> BurnedGas:
    """Burned gas of a vapour charge that burned at constant pressure without losing heat.

    Parameters
    ----------
    fuel, equivalence_ratio
        As for `burned_gas`.
    temperature, pressure
        Of the charge before, K, Pa.

    Examples
    --------
    >>> round(burn_at_constant_pressure("iso-octane", 1.0, 298.15, 1e5).temperature)
    2271
    """
    start = enthalpy(fresh_charge(fuel, equivalence_ratio), temperature)
    amounts = burned_amounts(fuel, equivalence_ratio)
    return _solved(amounts, ENTHALPY, start, False, pressure, 2300.0)


def burn_at_constant_volume(
    fuel: str | Fuel,
    equivalence_ratio: float,
    temperature: float,
    pressure: float,
    water: float = 0.0,
) -> BurnedGas:
    """Burned gas of a vapour charge that burned at constant volume without losing heat.

    Parameters
    ----------
    fuel, equivalence_ratio
        As for `burned_gas`.
    temperature, pressure
        Of the charge before, K, Pa.
    water
        Mole fraction of steam in the air.
    """
    charge = fresh_charge(fuel, equivalence_ratio, water)
    volume = charge.gas_constant * temperature / pressure
    start = internal_energy(charge, temperature)
    amounts = burned_amounts(fuel, equivalence_ratio, water)
    return _solved(amounts, ENERGY, start, True, volume, 2600.0)


def expand_to_volume(gas: BurnedGas, specific_volume: float) -> BurnedGas:
    """The gas brought to a specific volume, m³/kg, at constant entropy, equilibrium shifting."""
    guess = gas.temperature * (gas.specific_volume / specific_volume) ** 0.2
    return _solved(np.array(gas.amounts), ENTROPY, gas.entropy, True, specific_volume, guess)


def expand_to_pressure(gas: BurnedGas, pressure: float) -> BurnedGas:
    """The gas brought to a pressure, Pa, at constant entropy, equilibrium shifting."""
    guess = gas.temperature * (pressure / gas.pressure) ** 0.16
    return _solved(np.array(gas.amounts), ENTROPY, gas.entropy, False, pressure, guess)
