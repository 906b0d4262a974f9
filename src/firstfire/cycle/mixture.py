"""Enthalpy and gas constant of a zone of air, fuel vapour and burned gas, compiled.

The stepper asks for these several times a step, so all chemistry is done beforehand: burned gas
comes from a table of one fuel and mixture, interpolated by bicubic Hermite patches in temperature
and pressure. Value and derivatives are those of one and the same smooth surface,
so that energy booked by the derivatives is energy found in the values.
"""

from __future__ import annotations

import math
from typing import Any, Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.compile import kernel_entry, kernel_part, quick_entry, quick_part

TABLE_COLDEST: Final = 200.0
TABLE_STEP: Final = 50.0
TABLE_CELLS: Final = 68
TABLE_HOTTEST: Final = TABLE_COLDEST + TABLE_CELLS * TABLE_STEP

# Pressure is divided at every power of two and half way to the next, so that exponent and first
# bit of the binary number are the cell and the other bits the place in it: no logarithm, no
# division. Each cell is a cubic of pressure itself, which half an octave is narrow enough for.
FIRST_OCTAVE: Final = 11
PRESSURE_CELLS: Final = 29
PRESSURE_LOWEST: Final = 2.0**FIRST_OCTAVE
PRESSURE_HIGHEST: Final = math.nextafter(1.5 * 2.0**25, 0.0)
_FIRST_CELL: Final = 2 * (1023 + FIRST_OCTAVE)
_PLACE_BITS: Final = (1 << 51) - 1
_ONE: Final = 1023 << 52

SCARCELY: Final = 1e-12
"""Mass fraction below which burned gas is not looked up."""


class GasTables(NamedTuple):
    """Gas properties of one fuel at one mixture, as the compiled kernel wants them.

    Made by `firstfire.cycle.gas_table.gas_tables`; never written to.

    Attributes
    ----------
    fresh
        Shape (68, 8): a cubic in each 50 K from 200 K, four coefficients of the enthalpy of air and
        four of fuel vapour, J/kg, of a variable that runs from 0 to 1 through the cell.
    burned
        Shape (68 x 29, 32): a bicubic in each 50 K from 200 K and each half octave of pressure from
        2.048 kPa. Rising powers of temperature outside; within each, rising powers of pressure of
        the enthalpy, J/kg, then of the gas constant, J/(kg K).
    gas_constant_air, gas_constant_fuel
        J/(kg K).
    equivalence_ratio
        Of the charge the burned gas came from.
    stoichiometric_air_fuel_ratio
        By mass.
    lower_heating_value
        Of the vapour at 298.15 K, J/kg.
    fuel_molar_mass
        kg/mol.
    frozen_from
        Temperature from which gas that rushes out doesn't recombine on its way, K.
    """

    fresh: NDArray[np.float64]
    burned: NDArray[np.float64]
    gas_constant_air: float
    gas_constant_fuel: float
    equivalence_ratio: float
    stoichiometric_air_fuel_ratio: float
    lower_heating_value: float
    fuel_molar_mass: float
    frozen_from: float = 1300.0


@kernel_part
def _along_temperature(
    burned: NDArray[np.float64], cell: int, first: int, t: float
) -> tuple[float, float, float, float, float, float, float, float]:
    """Four coefficients of a cubic in pressure at place `t` of a cell, and their slopes by `t`."""
    a0, b0 = burned[cell, first + 8], burned[cell, first + 16]
    c0 = burned[cell, first + 24]
    a1, b1 = burned[cell, first + 9], burned[cell, first + 17]
    c1 = burned[cell, first + 25]
    a2, b2 = burned[cell, first + 10], burned[cell, first + 18]
    c2 = burned[cell, first + 26]
    a3, b3 = burned[cell, first + 11], burned[cell, first + 19]
    c3 = burned[cell, first + 27]
    return (
        burned[cell, first] + t * (a0 + t * (b0 + t * c0)),
        burned[cell, first + 1] + t * (a1 + t * (b1 + t * c1)),
        burned[cell, first + 2] + t * (a2 + t * (b2 + t * c2)),
        burned[cell, first + 3] + t * (a3 + t * (b3 + t * c3)),
        a0 + t * (2.0 * b0 + t * (3.0 * c0)),
        a1 + t * (2.0 * b1 + t * (3.0 * c1)),
        a2 + t * (2.0 * b2 + t * (3.0 * c2)),
        a3 + t * (2.0 * b3 + t * (3.0 * c3)),
    )


@quick_part
def species_state(
    tables: Any, temperature: float, pressure: float, with_burned: bool
) -> tuple[float, float, float, float, float, float, float, float, float, float]:
    """What air, fuel vapour and burned gas are each like at one temperature and pressure.

    Parameters
    ----------
    tables
        Of the fuel and mixture: `GasTables`, or the like record of the kernel.
    temperature, pressure
        K, Pa.
    with_burned
        False: there is none; its six numbers are zero and nothing is looked up.

    Returns
    -------
    tuple
        h, J/kg, and dh/dT, J/(kg K), of air, and of fuel; of burned gas h, dh/dT,
        dh/dp, J/(kg Pa), R, J/(kg K), dR/dT and dR/dp.
    """
    inside = temperature if temperature > TABLE_COLDEST else TABLE_COLDEST
    inside = inside if inside < TABLE_HOTTEST else TABLE_HOTTEST
    beyond = temperature - inside
    place = (inside - TABLE_COLDEST) * (1.0 / TABLE_STEP)
    i = int(place)
    i = i if i < TABLE_CELLS else TABLE_CELLS - 1
    t = place - i
    c = tables.fresh
    air = c[i, 0] + t * (c[i, 1] + t * (c[i, 2] + t * c[i, 3]))
    air_t = (c[i, 1] + t * (2.0 * c[i, 2] + t * (3.0 * c[i, 3]))) * (1.0 / TABLE_STEP)
    fuel = c[i, 4] + t * (c[i, 5] + t * (c[i, 6] + t * c[i, 7]))
    fuel_t = (c[i, 5] + t * (2.0 * c[i, 6] + t * (3.0 * c[i, 7]))) * (1.0 / TABLE_STEP)
    h = h_t = h_p = gas = gas_t = gas_p = 0.0
    if with_burned:
        within = pressure if pressure > PRESSURE_LOWEST else PRESSURE_LOWEST
        within = within if within < PRESSURE_HIGHEST else PRESSURE_HIGHEST
        bits = np.float64(within).view(np.int64)
        j = (bits >> 51) - _FIRST_CELL
        u = np.int64(((bits & _PLACE_BITS) << 1) | _ONE).view(np.float64) - 1.0
        narrowness = np.int64((1024 - FIRST_OCTAVE - (j >> 1)) << 52).view(np.float64)  # 1/Pa
        per_pascal = narrowness if within == pressure else 0.0
        cell = i * PRESSURE_CELLS + int(j)
        v0, v1, v2, v3, d0, d1, d2, d3 = _along_temperature(tables.burned, cell, 0, t)
        h = v0 + u * (v1 + u * (v2 + u * v3))
        h_p = per_pascal * (v1 + u * (2.0 * v2 + u * (3.0 * v3)))
        h_t = (d0 + u * (d1 + u * (d2 + u * d3))) * (1.0 / TABLE_STEP)
        v0, v1, v2, v3, d0, d1, d2, d3 = _along_temperature(tables.burned, cell, 4, t)
        gas = v0 + u * (v1 + u * (v2 + u * v3))
        gas_p = per_pascal * (v1 + u * (2.0 * v2 + u * (3.0 * v3)))
        if beyond == 0.0:
            gas_t = (d0 + u * (d1 + u * (d2 + u * d3))) * (1.0 / TABLE_STEP)
    return (
        air + air_t * beyond,
        air_t,
        fuel + fuel_t * beyond,
        fuel_t,
        h + h_t * beyond,
        h_t,
        h_p,
        gas,
        gas_t,
        gas_p,
    )


@quick_entry
def mixture_state(
    tables: Any,
    mass_air: float,
    mass_fuel: float,
    mass_burned: float,
    temperature: float,
    pressure: float,
) -> tuple[float, float, float, float, float, float]:
    """h, dh/dT, dh/dp, R, dR/dT and dR/dp of a mixed zone, a kilogram of it.

    Air and fuel vapour keep their molecules; burned gas is at equilibrium at the zone's pressure.
    Outside 200 to 3600 K enthalpy goes on along its tangent and the gas constant stays; outside
    2.05 kPa to 50 MPa burned gas is that of the nearest pressure.

    Parameters
    ----------
    tables
        Of the fuel and mixture: `GasTables`, or the like record of the kernel.
    mass_air, mass_fuel, mass_burned
        kg, or any one measure; only their proportions count.
    temperature, pressure
        K, Pa.

    Returns
    -------
    tuple
        J/kg with heats of formation, J/(kg K), J/(kg Pa), J/(kg K), J/(kg K²), J/(kg K Pa).
    """
    share = 1.0 / (mass_air + mass_fuel + mass_burned)
    air, fuel, burned = mass_air * share, mass_fuel * share, mass_burned * share
    air_h, air_t, fuel_h, fuel_t, h, h_t, h_p, gas, gas_t, gas_p = species_state(
        tables, temperature, pressure, burned > SCARCELY
    )
    return (
        air * air_h + fuel * fuel_h + burned * h,
        air * air_t + fuel * fuel_t + burned * h_t,
        burned * h_p,
        air * tables.gas_constant_air + fuel * tables.gas_constant_fuel + burned * gas,
        burned * gas_t,
        burned * gas_p,
    )


@kernel_entry
def gamma_of(enthalpy_slope: float, gas_constant: float) -> float:
    """Ratio of heat capacities from dh/dT and R, J/(kg K).

    Where burned gas dissociates, dh/dT holds the heat of dissociation and this is not the exponent
    of an expansion, but close to it (at 2500 K some 0.02 lower).
    """
    return enthalpy_slope / (enthalpy_slope - gas_constant)


@kernel_entry
def temperature_from_enthalpy(
    tables: GasTables,
    mass_air: float,
    mass_fuel: float,
    mass_burned: float,
    enthalpy: float,
    pressure: float,
    guess: float,
) -> float:
    """Temperature at which the mixed zone has `enthalpy`, J/kg, at `pressure`; K.

    Newton from `guess`, K, to a change of 1e-9 of the temperature; 40 rounds at most.
    """
    temperature = guess
    for _ in range(40):
        h, h_t, _, _, _, _ = mixture_state(
            tables, mass_air, mass_fuel, mass_burned, temperature, pressure
        )
        step = (enthalpy - h) / h_t
        temperature += min(max(step, -0.5 * temperature), 1000.0)
        if abs(step) < 1e-9 * temperature:
            break
    return temperature


@kernel_entry
def temperature_from_energy(
    tables: GasTables,
    mass_air: float,
    mass_fuel: float,
    mass_burned: float,
    energy: float,
    volume: float,
    guess: float,
) -> tuple[float, float]:
    """Temperature, K, and pressure, Pa, of a closed volume of mixed gas of known energy.

    Parameters
    ----------
    energy
        Internal energy with heats of formation, J/kg.
    volume
        m³, of all the mass together; so here the masses are kilograms.
    guess
        K, to start Newton from.
    """
    mass = mass_air + mass_fuel + mass_burned
    density = mass / volume
    temperature = guess
    pressure = density * 290.0 * temperature
    for _ in range(60):
        h, h_t, h_p, gas, gas_t, gas_p = mixture_state(
            tables, mass_air, mass_fuel, mass_burned, temperature, pressure
        )
        # Unknowns T and p; errors of energy and of the gas law.
        error_u = h - gas * temperature - energy
        error_p = pressure - density * gas * temperature
        u_t, u_p = h_t - gas - gas_t * temperature, h_p - gas_p * temperature
        p_t, p_p = -density * (gas + gas_t * temperature), 1 - density * gas_p * temperature
        determinant = u_t * p_p - u_p * p_t
        step_t = (u_p * error_p - error_u * p_p) / determinant
        step_p = (p_t * error_u - error_p * u_t) / determinant
        temperature += min(max(step_t, -0.5 * temperature), 1000.0)
        pressure = max(pressure + step_p, 0.3 * pressure)
        if abs(step_t) < 1e-9 * temperature and abs(step_p) < 1e-9 * pressure:
            break
    return temperature, pressure
