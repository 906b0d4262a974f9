"""How fast everything changes: the right-hand side of the engine's equations."""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.burning import flame
from firstfire.cycle.compile import kernel
from firstfire.cycle.layout import (
    ANGLE,
    CYLINDER_SIZE,
    CYLINDER_SUMS,
    FIXED,
    HEAT_CROWN,
    PRESSURE,
    SHAFT_SIZE,
    SPEED,
    VOLUME_HEAT,
    VOLUME_SIZE,
    VOLUME_SUMS,
    WORK,
    ZONE_TEMPERATURE,
    Floats,
    Records,
)
from firstfire.cycle.mechanism import volumes_now
from firstfire.cycle.passages import flow_passage, stiffness
from firstfire.cycle.suction import suction_rates
from firstfire.cycle.walls import exposed_liner, radiated_flux, wall_coefficient
from firstfire.cycle.zones import fill_zone


@kernel
def put_back_pressure(engine: Any, events: Records, work: Any, values: Floats) -> None:
    """Set every pressure to what masses, temperatures and volume say, taking drift away."""
    volumes = engine.volume_count
    for row in range(volumes):
        if engine.volumes[row].kind == FIXED:
            continue
        product = work.zone[row].constant * values[work.zone[row].temperature_at]
        if row < engine.cylinder_count and events[row].burning == 1:
            second = volumes + row
            product += work.zone[second].constant * values[work.zone[second].temperature_at]
        values[SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE] = product / work.volume[row]


@kernel
def heat_of_cylinder(
    engine: Any,
    events: Records,
    work: Any,
    values: Floats,
    rates: Floats,
    row: int,
) -> None:
    """Book work, and heat to the four surfaces, shared between the zones by volume."""
    cylinder = engine.cylinders[row]
    second = engine.volume_count + row
    pressure = values[SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE]
    volume = work.volume[row]
    sums = engine.cylinder_sums_at + row * CYLINDER_SUMS
    rates[sums + WORK] = pressure * work.growth[row]
    mass = work.zone[row].mass
    constant = work.zone[row].constant
    capacity = work.zone[row].capacity
    share = 0.0
    if events[row].burning == 1:
        mass += work.zone[second].mass
        constant += work.zone[second].constant
        capacity += work.zone[second].capacity
        share = work.zone[second].volume / (work.zone[second].volume + work.zone[row].volume)
    temperature = pressure * volume / constant
    piston_speed = cylinder.stroke * abs(values[SPEED]) / math.pi
    coefficient = wall_coefficient(
        cylinder, events[row], volume, pressure, temperature, mass, capacity, piston_speed
    )
    if coefficient == 0.0:
        return
    total = 0.0
    for surface in range(4):
        area, wall = surface_of(cylinder, volume, surface)
        heat = area * (
            coefficient * (temperature - wall)
            + radiated_flux(cylinder, events[row], temperature, wall)
        )
        rates[sums + HEAT_CROWN + surface] = heat
        total += heat
    work.zone[row].heating -= (1.0 - share) * total
    if share > 0.0:
        work.zone[second].heating -= share * total


@kernel
def surface_of(cylinder: Any, volume: float, surface: int) -> tuple[float, float]:
    """Area, m², and temperature, K, of crown (0), head (1), valves (2) or liner (3)."""
    if surface == 0:
        return cylinder.crown_area, cylinder.crown_temperature
    if surface == 1:
        return cylinder.head_area, cylinder.head_temperature
    if surface == 2:
        return cylinder.valves_area, cylinder.valves_temperature
    return exposed_liner(cylinder, volume), cylinder.liner_temperature


@kernel
def heat_of_vessel(engine: Any, work: Any, values: Floats, rates: Floats, row: int) -> None:
    """Book heat from a port, plenum or crankcase to its wall."""
    vessel = engine.volumes[row]
    conductance = vessel.wall_coefficient * vessel.wall_area
    if conductance == 0.0:
        return
    heat = conductance * (values[work.zone[row].temperature_at] - vessel.wall_temperature)
    rates[engine.volume_sums_at + row * VOLUME_SUMS + VOLUME_HEAT] = heat
    work.zone[row].heating -= heat


@kernel
def settle(
    engine: Any,
    events: Records,
    work: Any,
    values: Floats,
    rates: Floats,
    row: int,
) -> None:
    """Find the rates of pressure and temperatures of a volume from all that comes into it."""
    pressure_at = SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE
    here = work.zone[row]
    heating = here.heating / here.capacity
    driving = here.swelling + here.by_temperature * heating
    free = work.volume[row] - stiffness(work, row)
    burning = row < engine.cylinder_count and events[row].burning == 1
    second = engine.volume_count + row
    hot = work.zone[second]
    if burning:
        driving += hot.swelling + hot.by_temperature * hot.heating / hot.capacity
        free -= stiffness(work, second)
    pressure_rate = (driving - values[pressure_at] * work.growth[row]) / free
    rates[pressure_at] = pressure_rate
    rates[work.zone[row].temperature_at] = here.push / here.capacity * pressure_rate + heating
    if burning:
        rates[engine.cylinders_at + row * CYLINDER_SIZE + ZONE_TEMPERATURE] = (
            hot.push * pressure_rate + hot.heating
        ) / hot.capacity


@kernel
def rates_of(engine: Any, events: Records, work: Any, stage: int) -> None:
    """Fill in the rate of change of every value, per second.

    Parameters
    ----------
    engine, events, work
        The engine, what happened at its last events, and space: the state stands in its
        ``trial``, the rates go into a row of its ``stage``. Properties of fixed volumes must be
        in it.
    stage
        Which; the first of a step also prepares the implicit part of the flows.
    """
    values, rates = work.trial, work.stage[stage]
    first = stage == 0
    for i in range(engine.size):
        rates[i] = 0.0
    speed = values[SPEED]
    rates[ANGLE] = speed
    rates[SPEED] = engine.step.angular_acceleration
    volumes_now(engine, work, values[ANGLE], speed)
    volumes = engine.volume_count
    for row in range(volumes):
        if engine.volumes[row].kind != FIXED:
            pressure = values[SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE]
            fill_zone(work, engine.gas, values, row, pressure)
    for row in range(engine.cylinder_count):
        if events[row].burning == 1:
            pressure = values[SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE]
            fill_zone(work, engine.gas, values, volumes + row, pressure)
        else:
            work.zone[volumes + row].mass = 0.0
    if first:
        put_back_pressure(engine, events, work, values)
    for row in range(engine.passage_count):
        flow_passage(engine, work, values, rates, row, first)
    if engine.suction_count > 0:
        suction_rates(engine, values, rates)
    for row in range(engine.cylinder_count):
        heat_of_cylinder(engine, events, work, values, rates, row)
        if events[row].burning == 1:
            flame(engine, work, values, rates, row, events[row])
    for row in range(volumes):
        if engine.volumes[row].kind != FIXED:
            heat_of_vessel(engine, work, values, rates, row)
            settle(engine, events, work, values, rates, row)
