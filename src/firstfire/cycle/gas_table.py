"""The working table of one fuel and mixture, filled from equilibrium in some milliseconds."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from numba import njit
from numpy.typing import NDArray

from firstfire.cycle.equilibrium import equilibrium_at
from firstfire.cycle.mixture import (
    LOG_PRESSURE_LOWEST,
    LOG_PRESSURE_STEP,
    PRESSURE_CELLS,
    TABLE_CELLS,
    TABLE_COLDEST,
    TABLE_STEP,
    GasTables,
)
from firstfire.cycle.species import DRY_AIR, UNIVERSAL_GAS_CONSTANT
from firstfire.cycle.thermo_data import Vapour, air, fuel_vapour, product_coefficients
from firstfire.errors import OutsideValidity

LEANEST, RICHEST = 0.2, 2.0


def burned_amounts(fuel: str, equivalence_ratio: float) -> NDArray[np.float64]:
    """mol/kg of carbon, hydrogen, spare oxygen atoms, nitrogen atoms and argon in burned gas.

    Parameters
    ----------
    fuel
        A name that `fuel_vapour` knows.
    equivalence_ratio
        Fuel/air over stoichiometric fuel/air, 0.2 to 2.

    Raises
    ------
    OutsideValidity
        Outside that range, where burned gas holds molecules that are not reckoned with (soot,
        methane), or hardly burns at all.
    """
    if not LEANEST <= equivalence_ratio <= RICHEST:
        raise OutsideValidity(
            f"Burned gas is known for equivalence ratios {LEANEST} to {RICHEST:g}; "
            f"this is {equivalence_ratio:g}."
        )
    vapour = fuel_vapour(fuel)
    moles = equivalence_ratio * DRY_AIR["O2"] / vapour.oxygen_need  # to a mole of air
    amounts = [
        DRY_AIR["CO2"] + moles * vapour.atoms["C"],
        moles * vapour.atoms["H"],
        2 * DRY_AIR["O2"] * (1 - equivalence_ratio),
        2 * DRY_AIR["N2"],
        DRY_AIR["Ar"],
    ]
    return np.array(amounts) / (air().molar_mass + moles * vapour.molar_mass)


@njit(cache=True, error_model="numpy")
def _fill(
    coefficients: NDArray[np.float64], amounts: NDArray[np.float64], nodes: NDArray[np.float64]
) -> None:
    """Fill the nodes with h and R and their derivatives, scaled by the steps of the table."""
    fractions = np.empty(12)
    apart = 1e-3  # in ln p, to difference the derivative by temperature
    for i in range(TABLE_CELLS + 1):
        temperature = TABLE_COLDEST + TABLE_STEP * i
        for j in range(PRESSURE_CELLS + 1):
            log_p = LOG_PRESSURE_LOWEST + LOG_PRESSURE_STEP * j
            for side in range(3):
                p = math.exp(log_p + apart * (side - 1))
                h, _, gas, h_t, h_p, gas_t, gas_p = equilibrium_at(
                    coefficients, amounts, temperature, p, fractions
                )
                if side == 1:
                    nodes[i, j, 0], nodes[i, j, 1] = h, h_t * TABLE_STEP
                    nodes[i, j, 2] = h_p * p * LOG_PRESSURE_STEP
                    nodes[i, j, 4], nodes[i, j, 5] = gas, gas_t * TABLE_STEP
                    nodes[i, j, 6] = gas_p * p * LOG_PRESSURE_STEP
                else:
                    weight = (side - 1) / (2 * apart) * TABLE_STEP * LOG_PRESSURE_STEP
                    nodes[i, j, 3] += weight * h_t
                    nodes[i, j, 7] += weight * gas_t


def _fresh(vapour: Vapour) -> NDArray[np.float64]:
    """h and dh/dT times the step at each node of temperature: shape (69, 2)."""
    t = TABLE_COLDEST + TABLE_STEP * np.arange(TABLE_CELLS + 1.0)
    a = vapour.coefficients[(t > 1000.0).astype(int)].T
    cp = sum(a[n] * t**n for n in range(5))
    h = sum(a[n] * t ** (n + 1) / (n + 1) for n in range(5)) + a[5]
    return np.stack([h, cp * TABLE_STEP], axis=1) * vapour.gas_constant


@lru_cache(maxsize=64)
def _tables(fuel: str, equivalence_ratio: float) -> GasTables:
    vapour = fuel_vapour(fuel)
    nodes = np.zeros((TABLE_CELLS + 1, PRESSURE_CELLS + 1, 8))
    _fill(product_coefficients(), burned_amounts(fuel, equivalence_ratio), nodes)
    return GasTables(
        fresh=np.ascontiguousarray(np.hstack([_fresh(air()), _fresh(vapour)])),
        burned=nodes,
        gas_constant_air=air().gas_constant,
        gas_constant_fuel=UNIVERSAL_GAS_CONSTANT / vapour.molar_mass,
        equivalence_ratio=equivalence_ratio,
        stoichiometric_air_fuel_ratio=vapour.stoichiometric_air_fuel_ratio,
        lower_heating_value=vapour.lower_heating_value,
        fuel_molar_mass=vapour.molar_mass,
    )


def gas_tables(fuel: str, equivalence_ratio: float) -> GasTables:
    """Gas tables of a fuel burned at one mixture; kept, so that asking again costs nothing.

    Parameters
    ----------
    fuel
        Any spelling that `fuel_vapour` takes.
    equivalence_ratio
        Fuel/air over stoichiometric fuel/air, 0.2 to 2.

    Raises
    ------
    CatalogError
        Where there is no such fuel.
    OutsideValidity
        Where the mixture is leaner or richer than the chemistry holds for.

    Examples
    --------
    >>> round(gas_tables("petrol", 1.0).stoichiometric_air_fuel_ratio, 2)
    14.6
    """
    return _tables(fuel_vapour(fuel).name, round(float(equivalence_ratio), 6))
