"""The gas tables of a perfect gas: constant heats, before the burn and after."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from firstfire.cycle.gas_table import patches
from firstfire.cycle.mixture import (
    PRESSURE_CELLS,
    TABLE_CELLS,
    TABLE_COLDEST,
    TABLE_STEP,
    GasTables,
)


@lru_cache(maxsize=64)
def perfect_gas(
    constant: float,
    ratio_of_heats: float,
    ratio_of_heats_burned: float,
    reference: float = 298.15,
) -> GasTables:
    """Tables of a charge with constant heats that turns into burned gas with constant heats.

    Air and fuel are the same gas in it, half of each, and all of it burns, without heat.

    Parameters
    ----------
    constant
        Gas constant of both, J/(kg K).
    ratio_of_heats, ratio_of_heats_burned
        Of the charge and of the burned gas.
    reference
        Temperature at which burning changes no enthalpy, K.
    """
    charge = constant * ratio_of_heats / (ratio_of_heats - 1.0)
    burned = constant * ratio_of_heats_burned / (ratio_of_heats_burned - 1.0)
    nodes = TABLE_COLDEST + TABLE_STEP * np.arange(TABLE_CELLS + 1.0)
    fresh = np.zeros((TABLE_CELLS, 8))
    for at in (0, 4):
        fresh[:, at] = charge * (nodes[:-1] - reference)
        fresh[:, at + 1] = charge * TABLE_STEP
    found = np.zeros((TABLE_CELLS + 1, PRESSURE_CELLS + 1, 8))
    found[:, :, 0] = (burned * (nodes - reference))[:, None]
    found[:, :, 1] = burned * TABLE_STEP
    found[:, :, 4] = constant
    return GasTables(
        fresh=fresh,
        burned=patches(found),
        gas_constant_air=constant,
        gas_constant_fuel=constant,
        equivalence_ratio=1.0,
        stoichiometric_air_fuel_ratio=1.0,
        lower_heating_value=0.0,
        fuel_molar_mass=8.314462618 / constant,
        frozen_from=np.inf,
    )
