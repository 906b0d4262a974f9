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

from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.layout import Floats
from firstfire.cycle.mixture import SCARCELY, species_state

FROZEN_OVER = 200.0
"""Over how many kelvin outrushing gas passes to frozen composition, K."""


@kernel_part
def opening_gamma(temperature: float, frozen_from: float, equilibrium: float) -> float:
    """Ratio of heats of gas that rushes through an opening: too fast to recombine.

    Below 1300 K burned gas is as good as frozen and the ratio at equilibrium serves. Above, a
    fit to burned gas of iso-octane, propane and methanol at equivalence ratios 0.7 to 1.3, its
    composition frozen (Cantera, NASA TM-4513 data): within 0.013, a quarter per cent of flow.
    """
    part = min(max((temperature - frozen_from) / FROZEN_OVER, 0.0), 1.0)
    below = max(2600.0 - temperature, 0.0) / 1200.0
    return (1.0 - part) * equilibrium + part * (1.2505 + 0.0245 * below * below)


@kernel
def fill_zone(work: Any, gas: Any, values: Floats, zone: int, pressure: float) -> None:
    """Work out a zone's properties at its masses and temperature and a pressure, Pa."""
    here = work.zone[zone]
    at = here.mass_at
    temperature = values[here.temperature_at]
    mass = values[at] + values[at + 1] + values[at + 2]
    share = 1.0 / mass
    air, fuel, burned = values[at] * share, values[at + 1] * share, values[at + 2] * share
    air_h, air_t, fuel_h, fuel_t, burned_h, burned_t, burned_p, own, own_t, own_p = species_state(
        gas, temperature, pressure, burned > SCARCELY
    )
    constant = air * gas.gas_constant_air + fuel * gas.gas_constant_fuel + burned * own
    slope = air * air_t + fuel * fuel_t + burned * burned_t
    over_slope = 1.0 / slope
    product = mass * constant * temperature
    here.mass = mass
    here.air, here.fuel, here.burned = air, fuel, burned
    here.temperature = temperature
    here.specific = constant * temperature
    here.constant = mass * constant
    here.enthalpy = air * air_h + fuel * fuel_h + burned * burned_h
    here.air_enthalpy, here.fuel_enthalpy, here.burned_enthalpy = air_h, fuel_h, burned_h
    here.burned_constant = own
    here.over_gamma = 1.0 - constant * over_slope
    if temperature > gas.frozen_from:
        here.over_gamma = 1.0 / opening_gamma(temperature, gas.frozen_from, 1.0 / here.over_gamma)
    here.capacity = mass * slope
    here.over_capacity = over_slope * share
    here.volume = product / pressure
    here.warming = (here.volume - mass * burned * burned_p) * here.over_capacity
    here.by_temperature = mass * (constant + temperature * burned * own_t)
    here.by_pressure = mass * temperature * burned * own_p
    here.stiffness = here.by_temperature * here.warming + here.by_pressure
    here.heating = 0.0


@kernel
def begin_stream(work: Any, row: int, second: int, burning: bool) -> None:
    """Say what would go out of a volume, of both zones by mass while it burns."""
    here, stream = work.zone[row], work.stream[row]
    stream.out = 0.0
    stream.in_air = stream.in_fuel = stream.in_burned = stream.in_enthalpy = 0.0
    if not burning:
        stream.air, stream.fuel, stream.burned = here.air, here.fuel, here.burned
        stream.enthalpy, stream.specific = here.enthalpy, here.specific
        stream.over_gamma = here.over_gamma
        return
    hot = work.zone[second]
    part = hot.mass / (hot.mass + here.mass)
    rest = 1.0 - part
    stream.air = rest * here.air + part * hot.air
    stream.fuel = rest * here.fuel + part * hot.fuel
    stream.burned = rest * here.burned + part * hot.burned
    stream.enthalpy = rest * here.enthalpy + part * hot.enthalpy
    stream.specific = rest * here.specific + part * hot.specific
    stream.over_gamma = hot.over_gamma


@kernel
def know_burned(work: Any, gas: Any, zone: int, pressure: float) -> None:
    """Look up what burned gas is like in a zone that has held none, as some comes in."""
    here = work.zone[zone]
    if here.burned_constant == 0.0:
        _, _, _, _, enthalpy, _, _, constant, _, _ = species_state(
            gas, here.temperature, pressure, pressure > 0.0
        )
        here.burned_enthalpy, here.burned_constant = enthalpy, constant


@kernel_part
def heating_of(here: Any, air: float, fuel: float, burned: float, enthalpy: float) -> float:
    """Rise of a zone's temperature at constant pressure by what comes in, K/s.

    Parameters
    ----------
    here
        The zone.
    air, fuel, burned, enthalpy
        kg/s of each, and the enthalpy they bring with them, W.
    """
    own = air * here.air_enthalpy + fuel * here.fuel_enthalpy + burned * here.burned_enthalpy
    rise: float = (enthalpy - own) * here.over_capacity
    return rise


@kernel_part
def swelling_of(here: Any, gas: Any, air: float, fuel: float, burned: float) -> float:
    """Pressure times volume that what comes in takes at a zone's temperature, W."""
    constant = (
        air * gas.gas_constant_air + fuel * gas.gas_constant_fuel + burned * here.burned_constant
    )
    swelling: float = constant * here.temperature
    return swelling
