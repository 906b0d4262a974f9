"""Properties of burned gas in chemical equilibrium at given temperature and pressure, compiled.

References
----------
S. Gordon, B. J. McBride, Computer Program for Calculation of Complex Chemical Equilibrium
Compositions, NASA RP-1311, part I (1994), chapter 2.5, for the derivatives; from memory.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.compile import kernel, kernel_entry
from firstfire.cycle.equilibrium_balances import SPARE_OXYGEN, equilibrium_moles
from firstfire.cycle.species import (
    AR,
    DRY_AIR,
    STANDARD_PRESSURE,
    UNIVERSAL_GAS_CONSTANT,
)
from firstfire.cycle.thermo_data import Coefficients, air, fuel_vapour
from firstfire.engine.fuel import Fuel
from firstfire.errors import OutsideValidity

LEANEST, RICHEST = 0.2, 2.0

# Atoms of carbon, hydrogen, nitrogen and spare oxygen in each molecule, in the order of SPECIES.
_CONTENT = np.array(
    [
        [0.0, 0.0, 0.0, 1.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0],
        [0.0, 0.0, 0.0, 0.0, 2.0, 0.0, 2.0, 1.0, 1.0, 0.0, 0.0, 0.0],
        [0.0, 2.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 1.0],
        [2.0, 0.0, 0.0, 0.0, 0.0, -1.0, -1.0, 0.5, -0.5, 1.0, 1.0, 0.0],
    ]
)


def burned_amounts(
    fuel: str | Fuel, equivalence_ratio: float, water: float = 0.0
) -> NDArray[np.float64]:
    """mol/kg of carbon, hydrogen, spare oxygen atoms, nitrogen atoms and argon in burned gas.

    Parameters
    ----------
    fuel
        What `fuel_vapour` knows.
    equivalence_ratio
        Fuel/air over stoichiometric fuel/air, 0.2 to 2.
    water
        Mole fraction of steam in the air.

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
    dry = 1.0 - water  # of a mole of air
    moles = equivalence_ratio * dry * DRY_AIR["O2"] / vapour.oxygen_need
    amounts = [
        dry * DRY_AIR["CO2"] + moles * vapour.atoms["C"],
        2 * water + moles * vapour.atoms["H"],
        2 * dry * DRY_AIR["O2"] * (1 - equivalence_ratio),
        2 * dry * DRY_AIR["N2"],
        dry * DRY_AIR["Ar"],
    ]
    return np.array(amounts) / (air(water).molar_mass + moles * vapour.molar_mass)


@kernel_entry
def standard_state(coefficients: Coefficients, temperature: float, state: Coefficients) -> None:
    """Fill `state`, shape (3, n), with cp/R, h/(R T) and s/R of n molecules at 1 bar."""
    span = 1 if temperature > 1000.0 else 0
    t, log_t = temperature, math.log(temperature)
    for j in range(coefficients.shape[0]):
        a1, a2, a3 = coefficients[j, span, 0], coefficients[j, span, 1], coefficients[j, span, 2]
        a4, a5 = coefficients[j, span, 3], coefficients[j, span, 4]
        a6, a7 = coefficients[j, span, 5], coefficients[j, span, 6]
        state[0, j] = a1 + t * (a2 + t * (a3 + t * (a4 + t * a5)))
        state[1, j] = a1 + t * (a2 / 2 + t * (a3 / 3 + t * (a4 / 4 + t * a5 / 5))) + a6 / t
        state[2, j] = a1 * log_t + t * (a2 + t * (a3 / 2 + t * (a4 / 3 + t * a5 / 4))) + a7


@kernel
def _conservation(
    fractions: Coefficients, enthalpies: Coefficients, spare: float, matrix: Coefficients
) -> None:
    """Fill `matrix`, shape (5, 7): conservation of the elements and the sum of fractions.

    Unknown are the changes of the four elements' potentials and of ln(moles); the last two columns
    are the right sides for a change of ln T and of ln p. A fraction changes by the potentials of
    its elements, plus h/(R T) d ln T, less d ln p.
    """
    for row in range(5):
        for column in range(7):
            matrix[row, column] = 0.0
    for j in range(12):
        if j == AR:
            continue
        x = fractions[j]
        for row in range(4):
            share = _CONTENT[row, j] * x
            for column in range(4):
                matrix[row, column] += share * _CONTENT[column, j]
            matrix[row, 4] += share
            matrix[row, 5] -= share * enthalpies[j]
            matrix[row, 6] += share
        matrix[4, 5] -= x * enthalpies[j]
        matrix[4, 6] += x
    matrix[3, 4] = matrix[3, 6] = spare
    for row in range(4):
        matrix[4, row] = matrix[row, 4]
    matrix[4, 4] = -fractions[AR]


@kernel
def _eliminate(matrix: Coefficients) -> None:
    """Solve the five equations in place; the last two columns become the two solutions.

    Without pivoting: the upper four rows are symmetric and positive, so that this is stable however
    small the fractions of one element's molecules are.
    """
    for pivot in range(5):
        inverse = 1.0 / matrix[pivot, pivot]
        for column in range(pivot, 7):
            matrix[pivot, column] *= inverse
        for row in range(5):
            if row != pivot:
                factor = matrix[row, pivot]
                for column in range(pivot, 7):
                    matrix[row, column] -= factor * matrix[pivot, column]


@kernel_entry
def equilibrium_at(
    coefficients: Coefficients,
    amounts: Coefficients,
    temperature: float,
    pressure: float,
    fractions: Coefficients,
) -> tuple[float, float, float, float, float, float, float]:
    """h, s, R, dh/dT, dh/dp, dR/dT, dR/dp of a kilogram at equilibrium; fills `fractions`.

    Enthalpy counts heats of formation. J, kg, K, Pa. The entropy's derivatives follow from these:
    ds/dT = (dh/dT)/T and ds/dp = -(R + T dR/dT)/p. NaN throughout where no equilibrium was found.

    Parameters
    ----------
    coefficients
        `product_coefficients()`.
    amounts
        mol/kg of carbon, hydrogen, spare oxygen atoms, nitrogen atoms and argon.
    temperature, pressure
        K, Pa.
    fractions
        Shape (12,); written: mole fractions in the order of `SPECIES`.
    """
    state, matrix = np.empty((3, 12)), np.empty((5, 7))
    standard_state(coefficients, temperature, state)
    moles = equilibrium_moles(state, amounts, pressure, fractions)
    _conservation(fractions, state[1], amounts[SPARE_OXYGEN] / moles, matrix)
    _eliminate(matrix)
    moles_t, moles_p = matrix[4, 5], matrix[4, 6]
    log_bar = math.log(pressure / STANDARD_PRESSURE)
    h = s = h_t = 0.0
    for j in range(12):
        x = fractions[j]
        h += x * state[1, j]
        s += x * (state[2, j] - math.log(x + 1e-300) - log_bar)
        change = 0.0 if j == AR else state[1, j] + moles_t
        for row in range(4):
            change += _CONTENT[row, j] * matrix[row, 5]
        h_t += x * (state[0, j] + state[1, j] * change)
    gas = UNIVERSAL_GAS_CONSTANT * moles
    # dh/dp = v - T dv/dT, from the equality of mixed second derivatives.
    return (
        gas * temperature * h,
        gas * s,
        gas,
        gas * h_t,
        -gas * temperature / pressure * moles_t,
        gas / temperature * moles_t,
        gas / pressure * moles_p,
    )
