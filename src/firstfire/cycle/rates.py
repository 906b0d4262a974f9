"""How fast everything changes: the right-hand side of the engine's equations."""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.burning import burn_streams, burned_by_law, given_heat
from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.flame_front import travel
from firstfire.cycle.layout import (
    AIR,
    ANGLE,
    BURNED,
    CYLINDER_SIZE,
    FILM,
    FUEL,
    HEAT_CROWN,
    HEAT_HEAD,
    HEAT_LINER,
    HEAT_VALVES,
    PRESSURE,
    PROGRESS,
    ROTOR,
    SHAFT_SIZE,
    SPEED,
    TEMPERATURE,
    VOLUME_SIZE,
    WITHIN,
    WORK,
    Floats,
    Records,
)
from firstfire.cycle.mechanism import volumes_now
from firstfire.cycle.passages import flow_ways
from firstfire.cycle.shaft import shaft_acceleration
from firstfire.cycle.suction import suction_rates
from firstfire.cycle.walls import exposed_liner, radiated_flux, wall_coefficient
from firstfire.cycle.zones import begin_stream, fill_zone, heating_of, know_burned, swelling_of


@kernel
def fill_zones(engine: Any, events: Records, work: Any, values: Floats, put_back: bool) -> None:
    """Work out all gas that is not fixed, and what would go out of each volume.

    Parameters
    ----------
    engine, events, work, values
        As :func:`rates_of` has them.
    put_back
        Also set every pressure to what masses, temperatures and volume say, taking drift away.
    """
    volumes = engine.volume_count
    for i in range(engine.moving_count):
        row = engine.moving_volumes[i]
        at = SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE
        pressure = values[at]
        fill_zone(work, engine.gas, values, row, pressure)
        product = work.zone[row].mass * work.zone[row].specific
        burning = row < engine.cylinder_count and events[row].burning == 1
        if burning:
            fill_zone(work, engine.gas, values, volumes + row, pressure)
            product += work.zone[volumes + row].mass * work.zone[volumes + row].specific
        if put_back:
            values[at] = product / work.volume[row]
        begin_stream(work, row, volumes + row, burning)


@kernel
def heat_of_cylinder(
    engine: Any, event: Any, work: Any, values: Floats, row: int, weight: float
) -> None:
    """Book work, and heat to the four surfaces, shared between the zones.

    The correlation gives the whole. Of it the unburned zone gives what its own temperature drives
    through its share of the surface, by volume; the burned zone gives the rest.
    """
    cylinder = engine.cylinders[row]
    here, hot = work.zone[row], work.zone[engine.volume_count + row]
    pressure = values[SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE]
    volume = work.volume[row]
    sums = work.cylinder_sums[row]
    sums[WORK] += weight * pressure * work.growth[row]
    mass, temperature, capacity, share = here.mass, here.temperature, here.capacity, 0.0
    if event.burning == 1:
        mass += hot.mass
        temperature = pressure * volume / (here.constant + hot.constant)
        capacity += hot.capacity
        share = hot.volume / (hot.volume + here.volume)
    piston_speed = cylinder.stroke * abs(values[SPEED]) / math.pi
    coefficient = wall_coefficient(
        cylinder, event, volume, pressure, temperature, mass, capacity, piston_speed
    )
    if coefficient == 0.0:
        return
    crown = cylinder.crown_area * wall_flux(
        cylinder, event, coefficient, temperature, cylinder.crown_temperature
    )
    head = cylinder.head_area * wall_flux(
        cylinder, event, coefficient, temperature, cylinder.head_temperature
    )
    valves = cylinder.valves_area * wall_flux(
        cylinder, event, coefficient, temperature, cylinder.valves_temperature
    )
    exposed = exposed_liner(cylinder, volume)
    liner = exposed * wall_flux(
        cylinder, event, coefficient, temperature, cylinder.liner_temperature
    )
    sums[HEAT_CROWN] += weight * crown
    sums[HEAT_HEAD] += weight * head
    sums[HEAT_VALVES] += weight * valves
    sums[HEAT_LINER] += weight * liner
    total = crown + head + valves + liner
    if event.burning == 0:
        here.heating -= total
        return
    own = (1.0 - share) * coefficient * driven_through(cylinder, exposed, here.temperature)
    here.heating -= own
    hot.heating -= total - own


@kernel_part
def driven_through(cylinder: Any, exposed: float, temperature: float) -> float:
    """Area times what a gas is warmer than it, over all surfaces, m² K."""
    driven: float = (
        cylinder.crown_area * (temperature - cylinder.crown_temperature)
        + cylinder.head_area * (temperature - cylinder.head_temperature)
        + cylinder.valves_area * (temperature - cylinder.valves_temperature)
        + exposed * (temperature - cylinder.liner_temperature)
    )
    return driven


@kernel_part
def wall_flux(
    cylinder: Any, event: Any, coefficient: float, temperature: float, wall: float
) -> float:
    """Heat to a wall by contact and radiation, W/m²."""
    flux: float = coefficient * (temperature - wall)
    return flux + radiated_flux(cylinder, event, temperature, wall)


@kernel_part
def heat_of_vessel(engine: Any, work: Any, row: int, weight: float) -> None:
    """Book heat from a port, plenum or crankcase to its wall."""
    vessel = engine.volumes[row]
    conductance = vessel.wall_coefficient * vessel.wall_area
    if conductance > 0.0:
        heat = conductance * (work.zone[row].temperature - vessel.wall_temperature)
        work.volume_sums[row] += weight * heat
        work.zone[row].heating -= heat


@kernel
def feed(
    work: Any,
    gas: Any,
    rates: Floats,
    zone: int,
    air: float,
    fuel: float,
    burned: float,
    enthalpy: float,
    out: float,
) -> tuple[float, float]:
    """Change a zone's masses by what comes in, kg/s, with its enthalpy, W, and what goes out.

    Returns
    -------
    driving, heating
        What swells it, W, and how fast that and heat warm it, K/s, both at constant pressure.
    """
    here = work.zone[zone]
    at = here.mass_at
    rates[at] = air - out * here.air
    rates[at + 1] = fuel - out * here.fuel
    rates[at + 2] = burned - out * here.burned
    heating = heating_of(here, air, fuel, burned, enthalpy) + here.heating * here.over_capacity
    swelling = swelling_of(here, gas, air, fuel, burned) - out * here.specific
    return swelling + here.by_temperature * heating, heating


@kernel
def settle(engine: Any, work: Any, values: Floats, rates: Floats, row: int) -> None:
    """Find the rates of a volume of one zone from all that comes into it."""
    stream, here = work.stream[row], work.zone[row]
    at = SHAFT_SIZE + row * VOLUME_SIZE
    pressure = values[at + PRESSURE]
    if stream.in_burned != 0.0:
        know_burned(work, engine.gas, row, pressure)
    driving, heating = feed(
        work, engine.gas, rates, row,
        stream.in_air, stream.in_fuel, stream.in_burned, stream.in_enthalpy, stream.out,
    )  # fmt: skip
    stream.free = work.volume[row] - here.stiffness
    pressure_rate = (driving - pressure * work.growth[row]) / stream.free
    rates[at + PRESSURE] = pressure_rate
    rates[at + FILM] = 0.0
    rates[here.temperature_at] = here.warming * pressure_rate + heating
    if row < engine.cylinder_count:
        zone = engine.cylinders_at + row * CYLINDER_SIZE
        for i in range(CYLINDER_SIZE):
            rates[zone + i] = 0.0


@kernel
def settle_burning(
    engine: Any, event: Any, work: Any, values: Floats, rates: Floats, row: int
) -> None:
    """Find the rates of a burning cylinder: two zones at one pressure, a flame between them.

    What comes in is shared between the zones by mass, as is what goes out.
    """
    second = engine.volume_count + row
    stream, here, hot = work.stream[row], work.zone[row], work.zone[second]
    at = SHAFT_SIZE + row * VOLUME_SIZE
    zone = engine.cylinders_at + row * CYLINDER_SIZE
    pressure = values[at + PRESSURE]
    progress = values[zone + PROGRESS]
    if event.flame == 1:
        taken, rates[zone + WITHIN] = travel(engine, work, event, row, values[zone + WITHIN])
        rates[zone + PROGRESS] = 0.0
    else:
        taken = burned_by_law(engine, work, event, row, progress)
        rates[zone + WITHIN], rates[zone + PROGRESS] = 0.0, event.rate
    air, fuel, burned = burn_streams(
        engine.gas, taken * here.air, taken * here.fuel, taken * here.burned
    )
    if engine.cylinders[row].burn_heat > 0.0:
        hot.heating += given_heat(engine.cylinders[row], progress, event.rate)
    if stream.in_burned != 0.0:
        know_burned(work, engine.gas, row, pressure)
    part = hot.mass / (hot.mass + here.mass)
    rest = 1.0 - part
    driving, heating = feed(
        work, engine.gas, rates, row,
        rest * stream.in_air, rest * stream.in_fuel, rest * stream.in_burned,
        rest * stream.in_enthalpy, rest * stream.out + taken,
    )  # fmt: skip
    hot_driving, hot_heating = feed(
        work, engine.gas, rates, second,
        part * stream.in_air + air, part * stream.in_fuel + fuel, part * stream.in_burned + burned,
        part * stream.in_enthalpy + taken * here.enthalpy, part * stream.out,
    )  # fmt: skip
    free = work.volume[row] - here.stiffness - hot.stiffness
    pressure_rate = (driving + hot_driving - pressure * work.growth[row]) / free
    stream.free = 0.0
    rates[at + PRESSURE] = pressure_rate
    rates[at + FILM] = 0.0
    rates[here.temperature_at] = here.warming * pressure_rate + heating
    rates[hot.temperature_at] = hot.warming * pressure_rate + hot_heating


@kernel_part
def stay_vented(work: Any, values: Floats, rates: Floats, row: int) -> None:
    """Let a cylinder that is open to still air take in or give back so much as its piston moves."""
    stream, here = work.stream[row], work.zone[row]
    at = SHAFT_SIZE + row * VOLUME_SIZE
    taken = values[at + PRESSURE] * work.growth[row] / here.specific
    stream.free = 0.0
    rates[at + PRESSURE] = rates[at + TEMPERATURE] = rates[at + FILM] = 0.0
    rates[at + AIR] = taken * here.air
    rates[at + FUEL] = taken * here.fuel
    rates[at + BURNED] = taken * here.burned


@kernel
def rates_of(engine: Any, events: Records, work: Any, stage: int, weight: float) -> None:
    """Fill in the rate of change of every value that is not a sum, per second.

    Parameters
    ----------
    engine, events, work
        The engine, what happened at its last events, and space: the state stands in its
        ``trial``, the rates go into a row of its ``stage``, those of the sums are added to its
        sums. Fixed volumes must have been filled in and valves placed.
    stage
        Which; the first of a step also puts the pressures back onto the gas law.
    weight
        Of this stage in the sums.
    """
    values, rates = work.trial, work.stage[stage]
    speed = values[SPEED]
    rates[ANGLE] = 0.0 if work.turn == 0.0 else speed
    volumes_now(engine, work, values[ANGLE], speed)
    fill_zones(engine, events, work, values, stage == 0)
    flow_ways(engine, work, values, weight)
    if engine.suction_count > 0:
        suction_rates(engine, values, rates)
    if engine.shaft.free == 1:
        rates[SPEED], rates[ROTOR] = shaft_acceleration(engine, work, values, speed)
    else:
        rates[SPEED], rates[ROTOR] = engine.step.angular_acceleration, 0.0
    for i in range(engine.moving_count):
        row = engine.moving_volumes[i]
        if row < engine.cylinder_count:
            heat_of_cylinder(engine, events[row], work, values, row, weight)
            if events[row].burning == 1:
                settle_burning(engine, events[row], work, values, rates, row)
                continue
            if engine.cylinders[row].vented >= 0 and events[row].closed == 0:
                stay_vented(work, values, rates, row)
                continue
        else:
            heat_of_vessel(engine, work, row, weight)
        settle(engine, work, values, rates, row)
