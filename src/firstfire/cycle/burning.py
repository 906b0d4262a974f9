"""The burned zone: how it is born, fed by the flame, and joined with the rest again.

The flame takes unburned gas as it is. Of its air and fuel, what is in the proportion of the
burned-gas table becomes burned gas; air or fuel in excess, and residual, go over as they are, so
that every element is conserved. Heat appears because enthalpies hold heats of formation.
"""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.layout import (
    AIR,
    CYLINDER_SIZE,
    PRESSURE,
    PROGRESS,
    SHAFT_SIZE,
    TEMPERATURE,
    VOLUME_SIZE,
    WITHIN,
    ZONE_AIR,
    ZONE_TEMPERATURE,
    Floats,
)
from firstfire.cycle.mixture import (
    mixture_state,
    temperature_from_energy,
    temperature_from_enthalpy,
)

SEED = 1e-5
"""Share of the charge that the burned zone is born with."""

BURNED_OUT = 0.9999
"""Share of what is to burn at which the zones are joined."""


@kernel_part
def burn_streams(gas: Any, air: float, fuel: float, burned: float) -> tuple[float, float, float]:
    """Air, fuel and burned gas that come out of a flame for these amounts going in, kg."""
    ratio = gas.equivalence_ratio / gas.stoichiometric_air_fuel_ratio
    used_air = min(air, fuel / ratio)
    used_fuel = used_air * ratio
    return air - used_air, fuel - used_fuel, burned + used_air + used_fuel


@kernel_part
def burned_by_law(engine: Any, work: Any, event: Any, row: int, progress: float) -> float:
    """How fast a burning cylinder takes unburned gas by Wiebe's law, kg/s.

    Of what is still to burn, a share ``a (m+1) y^m dy/dt`` a second goes: the rate of the law for
    the share burned, true also while gas leaks away.
    """
    cylinder, left = engine.cylinders[row], work.zone[row].mass
    left -= (1.0 - event.amount) * (left + work.zone[engine.volume_count + row].mass)
    if progress <= 0.0 or left <= 0.0:
        return 0.0
    shape = cylinder.wiebe_m
    # The usual square, without a power.
    risen = progress * progress if shape == 2.0 else progress**shape
    taken: float = left * cylinder.wiebe_a * (shape + 1.0) * risen * event.rate
    return taken


@kernel_part
def given_heat(cylinder: Any, progress: float, rate: float) -> float:
    """Heat that a cylinder's burn is given beside that of its fuel, by Wiebe's law, W."""
    if progress <= 0.0:
        return 0.0
    risen = progress**cylinder.wiebe_m
    left = math.exp(-cylinder.wiebe_a * risen * progress)
    steep = cylinder.wiebe_a * (cylinder.wiebe_m + 1.0) * risen * left
    heat: float = cylinder.burn_heat * steep * rate
    return heat


@kernel
def ignite(engine: Any, values: Floats, row: int) -> None:
    """Give a cylinder its burned zone: a seed burned at constant enthalpy and volume.

    Burning at constant pressure would swell the charge by some parts in 10⁵; an isentropic push
    takes that back, for both zones alike.
    """
    gas = engine.gas
    volume_at = SHAFT_SIZE + row * VOLUME_SIZE
    zone_at = engine.cylinders_at + row * CYLINDER_SIZE
    pressure = values[volume_at + PRESSURE]
    temperature = values[volume_at + TEMPERATURE]
    air, fuel, burned = (
        values[volume_at + AIR],
        values[volume_at + AIR + 1],
        values[volume_at + AIR + 2],
    )
    mass = air + fuel + burned
    h, h_t, _, constant, _, _ = mixture_state(gas, air, fuel, burned, temperature, pressure)
    new_air, new_fuel, new_burned = burn_streams(gas, SEED * air, SEED * fuel, SEED * burned)
    hot = temperature_from_enthalpy(gas, new_air, new_fuel, new_burned, h, pressure, 2500.0)
    _, hot_t, _, hot_constant, _, _ = mixture_state(
        gas, new_air, new_fuel, new_burned, hot, pressure
    )
    swelling = SEED * (hot_constant * hot / (constant * temperature) - 1.0)
    push = h_t / (h_t - constant) * swelling
    values[volume_at + PRESSURE] = pressure * (1.0 + push)
    values[volume_at + TEMPERATURE] = temperature * (1.0 + push * constant / h_t)
    values[zone_at + ZONE_TEMPERATURE] = hot * (1.0 + push * hot_constant / hot_t)
    for species in range(3):
        values[volume_at + AIR + species] *= 1.0 - SEED
    values[zone_at + ZONE_AIR] = new_air
    values[zone_at + ZONE_AIR + 1] = new_fuel
    values[zone_at + ZONE_AIR + 2] = SEED * mass - new_air - new_fuel
    values[zone_at + PROGRESS] = values[zone_at + WITHIN] = 0.0


@kernel
def join_zones(engine: Any, values: Floats, row: int, volume: float) -> None:
    """Mix a cylinder's burned zone into the rest; energy, mass and volume are kept."""
    gas = engine.gas
    volume_at = SHAFT_SIZE + row * VOLUME_SIZE
    zone_at = engine.cylinders_at + row * CYLINDER_SIZE
    pressure = values[volume_at + PRESSURE]
    energy = -pressure * volume
    total = 0.0
    hottest = 0.0
    for masses_at, temperature_at in (
        (volume_at + AIR, volume_at + TEMPERATURE),
        (zone_at + ZONE_AIR, zone_at + ZONE_TEMPERATURE),
    ):
        air, fuel, burned = values[masses_at], values[masses_at + 1], values[masses_at + 2]
        mass = air + fuel + burned
        temperature = values[temperature_at]
        h, _, _, _, _, _ = mixture_state(gas, air, fuel, burned, temperature, pressure)
        energy += mass * h
        hottest += mass * temperature
        total += mass
    for species in range(3):
        values[volume_at + AIR + species] += values[zone_at + ZONE_AIR + species]
        values[zone_at + ZONE_AIR + species] = 0.0
    temperature, pressure = temperature_from_energy(
        gas,
        values[volume_at + AIR],
        values[volume_at + AIR + 1],
        values[volume_at + AIR + 2],
        energy / total,
        volume,
        hottest / total,
    )
    values[volume_at + TEMPERATURE] = temperature
    values[volume_at + PRESSURE] = pressure
    values[zone_at + ZONE_TEMPERATURE] = temperature
    values[zone_at + PROGRESS] = values[zone_at + WITHIN] = 0.0
