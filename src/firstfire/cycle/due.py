"""What is due as the shaft turns: valves shut or opening, burns beginning and over."""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.burning import BURNED_OUT, ignite, join_zones
from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.layout import (
    AIR,
    AMOUNT,
    ANGLE,
    BURNED,
    CYLINDER_SIZE,
    DURATION,
    FUEL,
    LIFT,
    PHASE,
    PRESSURE,
    SHAFT_SIZE,
    SPEED,
    SUCTION_SIZE,
    TEMPERATURE,
    VOLUME_SIZE,
    ZONE_AIR,
    Floats,
    Records,
)
from firstfire.cycle.mechanism import volumes_now
from firstfire.cycle.mixture import mixture_state
from firstfire.cycle.passages import CYCLE, place_valves
from firstfire.cycle.suction import bounce

CLOSE = 1e-9
"""Angles nearer than this are the same event, rad."""


@kernel_part
def is_closed(engine: Any, work: Any, values: Floats, row: int) -> bool:
    """Whether all valves of a cylinder are shut, looking a hair ahead."""
    for valve_row in range(engine.valve_count):
        valve = engine.valves[valve_row]
        if valve.cylinder == row and work.valve_open[valve_row] == 1:
            if valve.suction < 0:
                return False
            if values[engine.suctions_at + valve.suction * SUCTION_SIZE + LIFT] > 0.0:
                return False
    return True


@kernel_part
def three(values: Floats, at: int) -> float:
    """Sum of three masses that stand together."""
    total: float = values[at] + values[at + 1] + values[at + 2]
    return total


@kernel_part
def next_burn(engine: Any, factors: Floats, row: int, cycle: int) -> float:
    """Unwrapped crank angle at which a cylinder begins to burn in a cycle."""
    cylinder = engine.cylinders[row]
    shift = factors[cycle % factors.shape[0], row, PHASE]
    angle: float = cylinder.phase + cylinder.burn_start + shift + CYCLE * cycle
    return angle


@kernel_part
def end_burn(engine: Any, event: Any, work: Any, values: Floats, row: int) -> None:
    """Join the zones of a burning cylinder again."""
    event.burning = 0
    volumes_now(engine, work, values[ANGLE], values[SPEED])
    join_zones(engine, values, row, work.volume[row])


@kernel
def end_burns(engine: Any, events: Records, work: Any, values: Floats) -> None:
    """Join the zones of every cylinder that has burned out."""
    for row in range(engine.cylinder_count):
        event = events[row]
        if event.burning == 1:
            left = three(values, SHAFT_SIZE + row * VOLUME_SIZE + AIR)
            burned = three(values, engine.cylinders_at + row * CYLINDER_SIZE + ZONE_AIR)
            kept = (1.0 - event.amount) * (left + burned)
            if left - kept < (1.0 - BURNED_OUT) * event.amount * (left + burned):
                end_burn(engine, event, work, values, row)


@kernel_part
def vent(engine: Any, work: Any, values: Floats, row: int) -> None:
    """Fill a cylinder with the gas of the volume that it is open to, as that stands there."""
    at = SHAFT_SIZE + row * VOLUME_SIZE
    outside = SHAFT_SIZE + engine.cylinders[row].vented * VOLUME_SIZE
    volumes_now(engine, work, values[ANGLE], values[SPEED])
    pressure, temperature = values[outside + PRESSURE], values[outside + TEMPERATURE]
    air, fuel, burned = values[outside + AIR], values[outside + FUEL], values[outside + BURNED]
    constant = mixture_state(engine.gas, air, fuel, burned, temperature, pressure)[3]
    share = pressure * work.volume[row] / (constant * temperature * (air + fuel + burned))
    values[at + PRESSURE], values[at + TEMPERATURE] = pressure, temperature
    values[at + AIR] = share * air
    values[at + FUEL] = share * fuel
    values[at + BURNED] = share * burned


@kernel
def meet_valves(engine: Any, event: Any, work: Any, values: Floats, row: int) -> None:
    """Note a cylinder's last valve shut, or its first open again."""
    closed = is_closed(engine, work, values, row)
    volume_at = SHAFT_SIZE + row * VOLUME_SIZE
    if event.closed == 1 and not closed:
        event.closed = 0
        event.fired = 0
        if event.burning == 1:
            end_burn(engine, event, work, values, row)
        if engine.cylinders[row].vented >= 0:
            vent(engine, work, values, row)
    elif event.closed == 0 and closed:
        event.closed = 1
        event.reference_pressure = values[volume_at + PRESSURE]
        event.reference_temperature = values[volume_at + TEMPERATURE]
        event.reference_angle = values[ANGLE]
        event.reference_mass = three(values, volume_at + AIR)
        event.reference_fuel = values[volume_at + FUEL]
        event.reference_burned = values[volume_at + BURNED]
        volumes_now(engine, work, values[ANGLE], values[SPEED])
        event.reference_volume = work.volume[row]


@kernel_part
def begin_burn(engine: Any, factors: Floats, event: Any, values: Floats, row: int) -> None:
    """Begin a cylinder's burn here and now."""
    cylinder = engine.cylinders[row]
    place = event.cycle % factors.shape[0]
    event.burning = 1
    event.fired = 1
    duration = cylinder.burn_duration * factors[place, row, DURATION]
    event.rate = abs(values[SPEED]) / duration if duration > 0.0 else 0.0
    if cylinder.burn_seconds > 0.0:
        event.rate = 1.0 / cylinder.burn_seconds
    event.amount = min(factors[place, row, AMOUNT], 1.0) * cylinder.burns
    ignite(engine, values, row)


@kernel
def meet_burn(engine: Any, factors: Floats, event: Any, values: Floats, row: int) -> None:
    """Begin a cylinder's burn if it is lit now, or its angle has come."""
    if event.lit == 1:
        event.lit = 0
        if event.closed == 1 and event.burning == 0:
            begin_burn(engine, factors, event, values, row)
    if values[ANGLE] < event.next_burn - CLOSE:
        return
    fires = engine.cylinders[row].fire == 1 and event.burns_left > 0
    if fires and event.closed == 1 and event.burning == 0:
        event.burns_left -= 1
        begin_burn(engine, factors, event, values, row)
    event.cycle += 1
    event.next_burn = next_burn(engine, factors, row, event.cycle)


@kernel
def meet_events(engine: Any, factors: Floats, events: Records, work: Any, values: Floats) -> None:
    """Do what is due at this moment: valves shut or opening, burns beginning or over."""
    if engine.suction_count > 0:
        bounce(engine, values)
    place_valves(engine, work, values)
    for row in range(engine.cylinder_count):
        meet_valves(engine, events[row], work, values, row)
    end_burns(engine, events, work, values)
    for row in range(engine.cylinder_count):
        meet_burn(engine, factors, events[row], values, row)


@kernel
def next_event(engine: Any, events: Records, angle: float, turn: float) -> float:
    """The next angle a step may not pass, in the direction the shaft turns, rad."""
    nearest = math.inf
    place = angle % CYCLE
    for row in range(engine.event_count):
        event = engine.events[row]
        ahead = (event - place) if turn >= 0.0 else (place - event)
        ahead = ahead % CYCLE
        if CLOSE < ahead < nearest and CYCLE - ahead > CLOSE:
            nearest = ahead
    if turn < 0.0:
        return angle - nearest
    for row in range(engine.cylinder_count):
        ahead = events[row].next_burn - angle
        if CLOSE < ahead < nearest:
            nearest = ahead
    return angle + nearest


@kernel_part
def renew_burns(engine: Any, factors: Floats, events: Records, angle: float) -> None:
    """Make the burns that a shaft has gone back behind due once more."""
    for row in range(engine.cylinder_count):
        event = events[row]
        while next_burn(engine, factors, row, event.cycle - 1) > angle + CLOSE:
            event.cycle -= 1
        event.next_burn = next_burn(engine, factors, row, event.cycle)
