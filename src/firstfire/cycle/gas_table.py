"""The working table of one fuel and mixture, filled from equilibrium in some milliseconds."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.compile import kernel_entry
from firstfire.cycle.equilibrium import burned_amounts, equilibrium_at
from firstfire.cycle.mixture import (
    FIRST_OCTAVE,
    PRESSURE_CELLS,
    TABLE_CELLS,
    TABLE_COLDEST,
    TABLE_STEP,
    GasTables,
)
from firstfire.cycle.thermo_data import Vapour, air, fuel_vapour, product_coefficients
from firstfire.engine.fuel import Fuel


@kernel_entry
def _fill(
    coefficients: NDArray[np.float64], amounts: NDArray[np.float64], nodes: NDArray[np.float64]
) -> None:
    """Fill the nodes, shape (69, 30, 8), with h and R and their derivatives by T, p and both.

    Derivatives by T are times the step of the table; those by pressure are as they are.
    """
    fractions = np.empty(12)
    apart = 1e-3  # of the pressure, to difference the derivative by temperature
    for i in range(TABLE_CELLS + 1):
        temperature = TABLE_COLDEST + TABLE_STEP * i
        for j in range(PRESSURE_CELLS + 1):
            pressure = (1.0 + 0.5 * (j % 2)) * 2.0 ** (FIRST_OCTAVE + j // 2)
            for side in (-1, 1, 0):
                h, _, gas, h_t, h_p, gas_t, gas_p = equilibrium_at(
                    coefficients, amounts, temperature, pressure * (1 + apart * side), fractions
                )
                weight = side * TABLE_STEP / (2 * apart * pressure)
                nodes[i, j, 3] += weight * h_t
                nodes[i, j, 7] += weight * gas_t
            nodes[i, j, 0], nodes[i, j, 1], nodes[i, j, 2] = h, h_t * TABLE_STEP, h_p
            nodes[i, j, 4], nodes[i, j, 5], nodes[i, j, 6] = gas, gas_t * TABLE_STEP, gas_p


# A cubic on 0..1 in rising powers, from the values at both ends and the slopes at both ends.
_HERMITE = np.array([[1, 0, 0, 0], [0, 0, 1, 0], [-3, 3, -2, -1], [2, -2, 1, 1]], dtype=float)


def _fresh(vapour: Vapour) -> NDArray[np.float64]:
    """Cubic coefficients of the enthalpy in each cell of temperature: shape (68, 4)."""
    t = TABLE_COLDEST + TABLE_STEP * np.arange(TABLE_CELLS + 1.0)
    a = vapour.coefficients[(t > 1000.0).astype(int)].T
    h = sum(a[n] * t ** (n + 1) / (n + 1) for n in range(5)) + a[5]
    slope = sum(a[n] * t**n for n in range(5)) * TABLE_STEP
    ends = np.stack([h[:-1], h[1:], slope[:-1], slope[1:]], axis=1) * vapour.gas_constant
    return np.asarray(ends @ _HERMITE.T)


def patches(nodes: NDArray[np.float64]) -> NDArray[np.float64]:
    """Bicubic coefficients of every cell, shape (68 x 29, 32), from values and slopes at nodes."""
    width = 2.0 ** (FIRST_OCTAVE - 1 + np.arange(PRESSURE_CELLS) // 2)
    scale = np.array([np.ones_like(width), width]).T[None, :, None, :, None]
    # Axes: cell of T, cell of p, h or R, value or slope by p, value or slope by T.
    f = nodes.reshape(TABLE_CELLS + 1, PRESSURE_CELLS + 1, 2, 2, 2)
    ends = np.stack(
        [f[:-1, :-1] * scale, f[:-1, 1:] * scale, f[1:, :-1] * scale, f[1:, 1:] * scale]
    )
    # Axes: end in T, end in p, cells, h or R, slope by p, slope by T; then as `_HERMITE` has them.
    ends = ends.reshape(2, 2, TABLE_CELLS, PRESSURE_CELLS, 2, 2, 2).transpose(2, 3, 4, 6, 0, 5, 1)
    ends = ends.reshape(TABLE_CELLS, PRESSURE_CELLS, 2, 4, 4)
    powers = np.einsum("am,ijqmn,bn->ijaqb", _HERMITE, ends, _HERMITE, optimize=True)
    return np.ascontiguousarray(powers.reshape(TABLE_CELLS * PRESSURE_CELLS, 32))


@lru_cache(maxsize=64)
def _tables(vapour: Vapour, fuel: str | Fuel, equivalence_ratio: float, water: float) -> GasTables:
    nodes = np.zeros((TABLE_CELLS + 1, PRESSURE_CELLS + 1, 8))
    _fill(product_coefficients(), burned_amounts(fuel, equivalence_ratio, water), nodes)
    moist = air(water)
    return GasTables(
        fresh=np.ascontiguousarray(np.hstack([_fresh(moist), _fresh(vapour)])),
        burned=patches(nodes),
        gas_constant_air=moist.gas_constant,
        gas_constant_fuel=vapour.gas_constant,
        equivalence_ratio=equivalence_ratio,
        stoichiometric_air_fuel_ratio=vapour.air_fuel_ratio(water),
        lower_heating_value=vapour.lower_heating_value,
        fuel_molar_mass=vapour.molar_mass,
    )


def gas_tables(fuel: str | Fuel, equivalence_ratio: float, water: float = 0.0) -> GasTables:
    """Gas tables of a fuel burned at one mixture; kept, so that asking again costs nothing.

    Parameters
    ----------
    fuel
        What `fuel_vapour` takes.
    equivalence_ratio
        Fuel/air over stoichiometric fuel/air, 0.2 to 2.
    water
        Mole fraction of steam in the air. What is called air in the tables is moist then, and
        the stoichiometric ratio counts kilograms of it.

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
    vapour = fuel_vapour(fuel)
    name = fuel if isinstance(fuel, Fuel) else vapour.name
    return _tables(vapour, name, round(float(equivalence_ratio), 6), round(float(water), 6))
