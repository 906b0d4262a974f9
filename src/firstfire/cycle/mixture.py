"""Enthalpy and gas constant of a zone of air, fuel vapour and burned gas, compiled.

The stepper asks for these several times a step, so all chemistry is done beforehand: burned gas
comes from a table of one fuel and mixture, interpolated by bicubic Hermite patches in temperature
and the logarithm of pressure. Value and derivatives are those of one and the same smooth surface,
so that energy booked by the derivatives is energy found in the values.
"""

from __future__ import annotations

import math
from typing import Final, NamedTuple

import numpy as np
from numba import njit
from numpy.typing import NDArray

TABLE_COLDEST: Final = 200.0
TABLE_STEP: Final = 50.0
TABLE_CELLS: Final = 68
TABLE_HOTTEST: Final = TABLE_COLDEST + TABLE_CELLS * TABLE_STEP
PRESSURE_LOWEST: Final = 2.0e3
PRESSURE_HIGHEST: Final = 4.0e7
PRESSURE_CELLS: Final = 24
LOG_PRESSURE_LOWEST: Final = math.log(PRESSURE_LOWEST)
LOG_PRESSURE_STEP: Final = math.log(PRESSURE_HIGHEST / PRESSURE_LOWEST) / PRESSURE_CELLS

SCARCELY: Final = 1e-12
"""Mass fraction below which burned gas is not looked up."""


class GasTables(NamedTuple):
    """Gas properties of one fuel at one mixture, as the compiled kernel wants them.

    Made by `firstfire.cycle.gas_table.gas_tables`; never written to.

    Attributes
    ----------
    fresh
        Shape (69, 4): h and dh/dT times the step, of air and of fuel vapour, J/kg, each 50 K from
        200 K.
    burned
        Shape (69, 25, 8): h, its derivative by T, by ln p and by both, each times the steps of the
        table, then the same of R; J/kg and J/(kg K); pressure from 2 kPa to 40 MPa.
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
    """

    fresh: NDArray[np.float64]
    burned: NDArray[np.float64]
    gas_constant_air: float
    gas_constant_fuel: float
    equivalence_ratio: float
    stoichiometric_air_fuel_ratio: float
    lower_heating_value: float
    fuel_molar_mass: float


@njit(cache=True, error_model="numpy", fastmath={"contract", "nsz", "arcp", "reassoc"})
def mixture_state(  # noqa: PLR0917
    tables: GasTables,
    mass_air: float,
    mass_fuel: float,
    mass_burned: float,
    temperature: float,
    pressure: float,
) -> tuple[float, float, float, float, float, float]:
    """h, dh/dT, dh/dp, R, dR/dT and dR/dp of a mixed zone, a kilogram of it.

    Air and fuel vapour keep their molecules; burned gas is at equilibrium at the zone's pressure.
    Outside 200 to 3600 K enthalpy goes on along its tangent and the gas constant stays; outside
    2 kPa to 40 MPa burned gas is that of the nearest pressure.

    Parameters
    ----------
    tables
        Of the fuel and mixture.
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
    burned = mass_burned * share
    inside = min(max(temperature, TABLE_COLDEST), TABLE_HOTTEST)
    beyond = temperature - inside
    place = (inside - TABLE_COLDEST) * (1.0 / TABLE_STEP)
    i = min(int(place), TABLE_CELLS - 1)
    t = place - i
    # Cubic Hermite: weights of value and slope at the two ends of the cell, and their derivatives.
    b0, b1 = (1 + 2 * t) * (1 - t) * (1 - t), t * (1 - t) * (1 - t)
    b2, b3 = t * t * (3 - 2 * t), t * t * (t - 1)
    d0, d1 = 6 * t * (t - 1), (1 - t) * (1 - 3 * t)
    d2, d3 = -d0, t * (3 * t - 2)
    h = h_t = h_p = gas = gas_t = gas_p = 0.0
    if burned < 1.0:
        air, fuel = mass_air * share, mass_fuel * share
        low, high = tables.fresh[i], tables.fresh[i + 1]
        f0, f1 = air * low[0] + fuel * low[2], air * low[1] + fuel * low[3]
        f2, f3 = air * high[0] + fuel * high[2], air * high[1] + fuel * high[3]
        h = b0 * f0 + b1 * f1 + b2 * f2 + b3 * f3
        h_t = (d0 * f0 + d1 * f1 + d2 * f2 + d3 * f3) * (1.0 / TABLE_STEP)
        gas = air * tables.gas_constant_air + fuel * tables.gas_constant_fuel
    if burned > SCARCELY:
        within = min(max(pressure, PRESSURE_LOWEST), PRESSURE_HIGHEST)
        level = (math.log(within) - LOG_PRESSURE_LOWEST) * (1.0 / LOG_PRESSURE_STEP)
        j = min(max(int(level), 0), PRESSURE_CELLS - 1)
        u = level - j
        p0, p1 = (1 + 2 * u) * (1 - u) * (1 - u), u * (1 - u) * (1 - u)
        p2, p3 = u * u * (3 - 2 * u), u * u * (u - 1)
        per_pascal = burned / (LOG_PRESSURE_STEP * pressure) if within == pressure else 0.0
        e0, e1 = per_pascal * 6 * u * (u - 1), per_pascal * (1 - u) * (1 - 3 * u)
        e2, e3 = -e0, per_pascal * u * (3 * u - 2)
        n00, n01 = tables.burned[i, j], tables.burned[i, j + 1]
        n10, n11 = tables.burned[i + 1, j], tables.burned[i + 1, j + 1]
        per_kelvin = burned * (1.0 / TABLE_STEP)
        v0 = b0 * n00[0] + b1 * n00[1] + b2 * n10[0] + b3 * n10[1]
        v1 = b0 * n00[2] + b1 * n00[3] + b2 * n10[2] + b3 * n10[3]
        v2 = b0 * n01[0] + b1 * n01[1] + b2 * n11[0] + b3 * n11[1]
        v3 = b0 * n01[2] + b1 * n01[3] + b2 * n11[2] + b3 * n11[3]
        s0 = d0 * n00[0] + d1 * n00[1] + d2 * n10[0] + d3 * n10[1]
        s1 = d0 * n00[2] + d1 * n00[3] + d2 * n10[2] + d3 * n10[3]
        s2 = d0 * n01[0] + d1 * n01[1] + d2 * n11[0] + d3 * n11[1]
        s3 = d0 * n01[2] + d1 * n01[3] + d2 * n11[2] + d3 * n11[3]
        h += burned * (p0 * v0 + p1 * v1 + p2 * v2 + p3 * v3)
        h_p = e0 * v0 + e1 * v1 + e2 * v2 + e3 * v3
        h_t += per_kelvin * (p0 * s0 + p1 * s1 + p2 * s2 + p3 * s3)
        v0 = b0 * n00[4] + b1 * n00[5] + b2 * n10[4] + b3 * n10[5]
        v1 = b0 * n00[6] + b1 * n00[7] + b2 * n10[6] + b3 * n10[7]
        v2 = b0 * n01[4] + b1 * n01[5] + b2 * n11[4] + b3 * n11[5]
        v3 = b0 * n01[6] + b1 * n01[7] + b2 * n11[6] + b3 * n11[7]
        s0 = d0 * n00[4] + d1 * n00[5] + d2 * n10[4] + d3 * n10[5]
        s1 = d0 * n00[6] + d1 * n00[7] + d2 * n10[6] + d3 * n10[7]
        s2 = d0 * n01[4] + d1 * n01[5] + d2 * n11[4] + d3 * n11[5]
        s3 = d0 * n01[6] + d1 * n01[7] + d2 * n11[6] + d3 * n11[7]
        gas += burned * (p0 * v0 + p1 * v1 + p2 * v2 + p3 * v3)
        gas_p = e0 * v0 + e1 * v1 + e2 * v2 + e3 * v3
        gas_t = per_kelvin * (p0 * s0 + p1 * s1 + p2 * s2 + p3 * s3) if beyond == 0.0 else 0.0
    return h + h_t * beyond, h_t, h_p, gas, gas_t, gas_p


@njit(cache=True, error_model="numpy")
def gamma_of(enthalpy_slope: float, gas_constant: float) -> float:
    """Ratio of heat capacities from dh/dT and R, J/(kg K).

    Where burned gas dissociates, dh/dT holds the heat of dissociation and this is not the exponent
    of an expansion, but close to it (at 2500 K some 0.02 lower).
    """
    return enthalpy_slope / (enthalpy_slope - gas_constant)


@njit(cache=True, error_model="numpy")
def temperature_from_enthalpy(  # noqa: PLR0917
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


@njit(cache=True, error_model="numpy")
def temperature_from_energy(  # noqa: PLR0917
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
