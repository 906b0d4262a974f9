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
    EngineRecord,
    Floats,
    Offsets,
    Records,
)
from firstfire.cycle.mechanism import volumes_now
from firstfire.cycle.passages import flow_passage, stiffness
from firstfire.cycle.walls import exposed_liner, radiated_flux, wall_coefficient
from firstfire.cycle.work import (
    Z_BY_TEMPERATURE,
    Z_CAPACITY,
    Z_GAS,
    Z_HEAT_IN,
    Z_MASS,
    Z_PUSH,
    Z_SWELL,
    Z_VOLUME,
    Work,
)
from firstfire.cycle.zones import fill_zone


@kernel
def put_back_pressure(
    record: EngineRecord, events: Records, work: Work, values: Floats
) -> None:
    """Set every pressure to what masses, temperatures and volume say, taking drift away."""
    volumes = record.volumes.size
    for row in range(volumes):
        if record.volumes[row].kind == FIXED:
            continue
        product = work.zone[row, Z_GAS] * values[work.temperature_at[row]]
        if row < record.cylinders.size and events[row].burning == 1:
            second = volumes + row
            product += work.zone[second, Z_GAS] * values[work.temperature_at[second]]
        values[SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE] = product / work.volume[row]


@kernel
def heat_of_cylinder(
    record: EngineRecord,
    offsets: Offsets,
    events: Records,
    work: Work,
    values: Floats,
    rates: Floats,
    row: int,
) -> None:
    """Book work, and heat to the four surfaces, shared between the zones by volume."""
    cylinder = record.cylinders[row]
    second = record.volumes.size + row
    pressure = values[SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE]
    volume = work.volume[row]
    sums = offsets.cylinder_sums + row * CYLINDER_SUMS
    rates[sums + WORK] = pressure * work.growth[row]
    mass = work.zone[row, Z_MASS]
    constant = work.zone[row, Z_GAS]
    capacity = work.zone[row, Z_CAPACITY]
    share = 0.0
    if events[row].burning == 1:
        mass += work.zone[second, Z_MASS]
        constant += work.zone[second, Z_GAS]
        capacity += work.zone[second, Z_CAPACITY]
        share = work.zone[second, Z_VOLUME] / (
            work.zone[second, Z_VOLUME] + work.zone[row, Z_VOLUME]
        )
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
    work.zone[row, Z_HEAT_IN] -= (1.0 - share) * total
    if share > 0.0:
        work.zone[second, Z_HEAT_IN] -= share * total


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
def heat_of_vessel(
    record: EngineRecord, offsets: Offsets, work: Work, values: Floats, rates: Floats, row: int
) -> None:
    """Book heat from a port, plenum or crankcase to its wall."""
    vessel = record.volumes[row]
    conductance = vessel.wall_coefficient * vessel.wall_area
    if conductance == 0.0:
        return
    heat = conductance * (values[work.temperature_at[row]] - vessel.wall_temperature)
    rates[offsets.volume_sums + row * VOLUME_SUMS + VOLUME_HEAT] = heat
    work.zone[row, Z_HEAT_IN] -= heat


@kernel
def settle(
    record: EngineRecord,
    offsets: Offsets,
    events: Records,
    work: Work,
    values: Floats,
    rates: Floats,
    row: int,
) -> None:
    """Find the rates of pressure and temperatures of a volume from all that comes into it."""
    pressure_at = SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE
    here = work.zone[row]
    heating = here[Z_HEAT_IN] / here[Z_CAPACITY]
    driving = here[Z_SWELL] + here[Z_BY_TEMPERATURE] * heating
    free = work.volume[row] - stiffness(work, row)
    burning = row < record.cylinders.size and events[row].burning == 1
    second = record.volumes.size + row
    hot = work.zone[second]
    if burning:
        driving += hot[Z_SWELL] + hot[Z_BY_TEMPERATURE] * hot[Z_HEAT_IN] / hot[Z_CAPACITY]
        free -= stiffness(work, second)
    pressure_rate = (driving - values[pressure_at] * work.growth[row]) / free
    rates[pressure_at] = pressure_rate
    rates[work.temperature_at[row]] = (
        here[Z_PUSH] / here[Z_CAPACITY] * pressure_rate + heating
    )
    if burning:
        rates[offsets.cylinders + row * CYLINDER_SIZE + ZONE_TEMPERATURE] = (
            hot[Z_PUSH] * pressure_rate + hot[Z_HEAT_IN]
        ) / hot[Z_CAPACITY]


@kernel
def rates_of(
    record: EngineRecord,
    offsets: Offsets,
    events: Records,
    work: Work,
    values: Floats,
    rates: Floats,
    first: bool,
) -> None:
    """Fill in the rate of change of every value, per second.

    Parameters
    ----------
    record, offsets, events
        The engine, where its values stand, and what happened at its last events.
    work
        Space; the properties of fixed volumes must be in it already.
    values, rates
        State, and what is filled in.
    first
        On the first stage of a step: prepare the implicit part of the flows too.
    """
    rates[:] = 0.0
    speed = values[SPEED]
    rates[ANGLE] = speed
    rates[SPEED] = record.step[0].angular_acceleration
    volumes_now(
        record.volumes, record.cylinders, values[ANGLE], speed, work.volume, work.growth
    )
    volumes = record.volumes.size
    for row in range(volumes):
        if record.volumes[row].kind != FIXED:
            pressure = values[SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE]
            fill_zone(work, record.gas, values, row, pressure)
    for row in range(record.cylinders.size):
        if events[row].burning == 1:
            pressure = values[SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE]
            fill_zone(work, record.gas, values, volumes + row, pressure)
        else:
            work.zone[volumes + row, Z_MASS] = 0.0
    if first:
        put_back_pressure(record, events, work, values)
    for row in range(record.passages.size):
        flow_passage(record, offsets, work, values, rates, row, first)
    for row in range(record.cylinders.size):
        heat_of_cylinder(record, offsets, events, work, values, rates, row)
        if events[row].burning == 1:
            flame(record, offsets, work, values, rates, row, events[row])
    for row in range(volumes):
        if record.volumes[row].kind != FIXED:
            heat_of_vessel(record, offsets, work, values, rates, row)
            settle(record, offsets, events, work, values, rates, row)
