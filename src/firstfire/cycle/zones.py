"""What a zone of gas does: its properties, what streams bring it, and how it answers.

A zone is a volume's gas, or the burned part of a burning cylinder. With ``m h_T`` its heat
capacity, first law and gas law of a zone of mass m, temperature T at pressure p are

    m h_T dT/dt = (V − m h_p) dp/dt + Q + Σ ṁ (h_stream − h_here)
    p V = Σ_zones m R T, differentiated by time

where ``h_here`` is the enthalpy the stream's species have at the zone's own temperature. The
zones of one volume share p, which follows from the second line. Elements and energy are
conserved by form; p drifts from the gas law only by the error of stepping, and is put back at
the start of every step.
"""

from __future__ import annotations

from firstfire.cycle.compile import kernel
from firstfire.cycle.layout import Floats
from firstfire.cycle.mixture import (
    TABLE_CELLS,
    TABLE_COLDEST,
    TABLE_HOTTEST,
    TABLE_STEP,
    GasTables,
    mixture_state,
)
from firstfire.cycle.work import (
    Z_BY_PRESSURE,
    Z_BY_TEMPERATURE,
    Z_CAPACITY,
    Z_ENTHALPY,
    Z_GAMMA,
    Z_GAS,
    Z_H_AIR,
    Z_H_BURNED,
    Z_H_FUEL,
    Z_HEAT_IN,
    Z_MASS,
    Z_PUSH,
    Z_R_BURNED,
    Z_SWELL,
    Z_VOLUME,
    Work,
)


SPARSE = 1e-6
"""Mass fraction of burned gas below which its own enthalpy is looked up by itself."""


@kernel
def fresh_enthalpies(gas: GasTables, temperature: float) -> tuple[float, float]:
    """Enthalpy of air and of fuel vapour at a temperature, J/kg, on the table's own surface."""
    inside = min(max(temperature, TABLE_COLDEST), TABLE_HOTTEST)
    place = (inside - TABLE_COLDEST) / TABLE_STEP
    cell = min(int(place), TABLE_CELLS - 1)
    t = place - cell
    low, high = gas.fresh[cell], gas.fresh[cell + 1]
    b0, b1 = (1 + 2 * t) * (1 - t) * (1 - t), t * (1 - t) * (1 - t)
    b2, b3 = t * t * (3 - 2 * t), t * t * (t - 1)
    air = b0 * low[0] + b1 * low[1] + b2 * high[0] + b3 * high[1]
    fuel = b0 * low[2] + b1 * low[3] + b2 * high[2] + b3 * high[3]
    beyond = temperature - inside
    if beyond != 0.0:
        end = low if beyond < 0.0 else high
        air += end[1] / TABLE_STEP * beyond
        fuel += end[3] / TABLE_STEP * beyond
    return air, fuel


@kernel
def fill_zone(work: Work, gas: GasTables, values: Floats, zone: int, pressure: float) -> None:
    """Work out a zone's properties at its masses and temperature and a pressure, Pa."""
    at = work.mass_at[zone]
    air, fuel, burned = values[at], values[at + 1], values[at + 2]
    temperature = values[work.temperature_at[zone]]
    h, h_t, h_p, constant, constant_t, constant_p = mixture_state(
        gas, air, fuel, burned, temperature, pressure
    )
    h_air, h_fuel = fresh_enthalpies(gas, temperature)
    mass = air + fuel + burned
    if burned > SPARSE * mass:
        # What the mixture has beside its air and fuel; no second look into the table.
        h_burned = (mass * h - air * h_air - fuel * h_fuel) / burned
        r_burned = (
            mass * constant - air * gas.gas_constant_air - fuel * gas.gas_constant_fuel
        ) / burned
    else:
        h_burned, _, _, r_burned, _, _ = mixture_state(gas, 0.0, 0.0, 1.0, temperature, pressure)
    here = work.zone[zone]
    here[Z_MASS] = mass
    here[Z_GAS] = mass * constant
    here[Z_ENTHALPY] = h
    here[Z_GAMMA] = h_t / (h_t - constant)
    here[Z_CAPACITY] = mass * h_t
    here[Z_VOLUME] = mass * constant * temperature / pressure
    here[Z_PUSH] = here[Z_VOLUME] - mass * h_p
    here[Z_BY_TEMPERATURE] = mass * (constant + temperature * constant_t)
    here[Z_BY_PRESSURE] = mass * temperature * constant_p
    here[Z_HEAT_IN] = 0.0
    here[Z_SWELL] = 0.0
    here[Z_H_AIR] = h_air
    here[Z_H_FUEL] = h_fuel
    here[Z_H_BURNED] = h_burned
    here[Z_R_BURNED] = r_burned


@kernel
def stream_out(work: Work, values: Floats, rates: Floats, zone: int, flow: float) -> None:
    """Take a flow, kg/s, of a zone's own gas out of it."""
    at = work.mass_at[zone]
    here = work.zone[zone]
    per_mass = flow / here[Z_MASS]
    rates[at] -= per_mass * values[at]
    rates[at + 1] -= per_mass * values[at + 1]
    rates[at + 2] -= per_mass * values[at + 2]
    here[Z_SWELL] -= per_mass * here[Z_GAS] * values[work.temperature_at[zone]]


@kernel
def stream_in(
    work: Work,
    gas: GasTables,
    values: Floats,
    rates: Floats,
    zone: int,
    air: float,
    fuel: float,
    burned: float,
    enthalpy: float,
) -> None:
    """Bring flows of air, fuel and burned gas, kg/s, and their enthalpy, W, into a zone."""
    at = work.mass_at[zone]
    here = work.zone[zone]
    rates[at] += air
    rates[at + 1] += fuel
    rates[at + 2] += burned
    own = air * here[Z_H_AIR] + fuel * here[Z_H_FUEL] + burned * here[Z_H_BURNED]
    here[Z_HEAT_IN] += enthalpy - own
    here[Z_SWELL] += values[work.temperature_at[zone]] * (
        air * gas.gas_constant_air + fuel * gas.gas_constant_fuel + burned * here[Z_R_BURNED]
    )
