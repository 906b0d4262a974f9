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

from typing import Any

from firstfire.cycle.compile import kernel
from firstfire.cycle.layout import Floats
from firstfire.cycle.mixture import (
    mixture_state,
)


@kernel
def opening_gamma(temperature: float, equilibrium: float) -> float:
    """Ratio of heats of gas that rushes through an opening: too fast to recombine.

    Below 1300 K burned gas is as good as frozen and the ratio at equilibrium serves. Above, a
    fit to burned gas of iso-octane, propane and methanol at equivalence ratios 0.7 to 1.3, its
    composition frozen (Cantera, NASA TM-4513 data): within 0.013, a quarter per cent of flow.
    """
    part = min(max((temperature - 1300.0) / 200.0, 0.0), 1.0)
    below = max(2600.0 - temperature, 0.0) / 1200.0
    return (1.0 - part) * equilibrium + part * (1.2505 + 0.0245 * below * below)


@kernel
def fill_zone(work: Any, gas: Any, values: Floats, zone: int, pressure: float) -> None:
    """Work out a zone's properties at its masses and temperature and a pressure, Pa."""
    at = work.zone[zone].mass_at
    air, fuel, burned = values[at], values[at + 1], values[at + 2]
    temperature = values[work.zone[zone].temperature_at]
    h, h_t, h_p, constant, constant_t, constant_p = mixture_state(
        gas, air, fuel, burned, temperature, pressure
    )
    mass = air + fuel + burned
    here = work.zone[zone]
    here.mass = mass
    here.constant = mass * constant
    here.enthalpy = h
    here.gamma = opening_gamma(temperature, h_t / (h_t - constant))
    here.capacity = mass * h_t
    here.volume = mass * constant * temperature / pressure
    here.push = here.volume - mass * h_p
    here.by_temperature = mass * (constant + temperature * constant_t)
    here.by_pressure = mass * temperature * constant_p
    here.heating = 0.0
    here.swelling = 0.0
    here.pressure = pressure


@kernel
def stream_out(work: Any, values: Floats, rates: Floats, zone: int, flow: float) -> None:
    """Take a flow, kg/s, of a zone's own gas out of it."""
    at = work.zone[zone].mass_at
    here = work.zone[zone]
    per_mass = flow / here.mass
    rates[at] -= per_mass * values[at]
    rates[at + 1] -= per_mass * values[at + 1]
    rates[at + 2] -= per_mass * values[at + 2]
    here.swelling -= per_mass * here.constant * values[work.zone[zone].temperature_at]


@kernel
def stream_in(
    work: Any,
    gas: Any,
    values: Floats,
    rates: Floats,
    zone: int,
    air: float,
    fuel: float,
    burned: float,
    enthalpy: float,
) -> None:
    """Bring flows of air, fuel and burned gas, kg/s, and their enthalpy, W, into a zone."""
    mass = air + fuel + burned
    if mass == 0.0:
        return
    here = work.zone[zone]
    at = here.mass_at
    rates[at] += air
    rates[at + 1] += fuel
    rates[at + 2] += burned
    temperature = values[here.temperature_at]
    own, _, _, constant, _, _ = mixture_state(gas, air, fuel, burned, temperature, here.pressure)
    here.heating += enthalpy - mass * own
    here.swelling += mass * constant * temperature
