"""A shaft that is free: what turns it and holds it back, how it stands, turns round and goes on."""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel_apart, kernel_part
from firstfire.cycle.friction import cylinder_friction, shaft_friction
from firstfire.cycle.layout import (
    ANGLE,
    PRESSURE,
    ROTOR,
    SHAFT_SIZE,
    SPEED,
    VOLUME_SIZE,
    Floats,
)
from firstfire.cycle.mechanism import volumes_now
from firstfire.cycle.passages import valve_lift

STILL = 1e-7
"""Speed below which a shaft that comes to a stand is said to stand, rad/s."""

TOGETHER = 1e-9
"""A rotor that is no slower than this turns with its shaft, rad/s."""

AIMED = 1e-10
"""How far past an angle a step may end that is to end on it, rad."""

LONGEST_STAND = 1e-3
"""Between two looks whether friction still holds a shaft that stands, s."""


@kernel_part
def pressure_drop(engine: Any, values: Floats, row: int) -> float:
    """Pressure over a piston less that under it, Pa."""
    under = engine.shaft.still_air
    below = engine.cylinders[row].crankcase
    if below >= 0:
        under = values[SHAFT_SIZE + below * VOLUME_SIZE + PRESSURE]
    drop: float = values[SHAFT_SIZE + row * VOLUME_SIZE + PRESSURE] - under
    return drop


@kernel_part
def gas_torque(engine: Any, work: Any, values: Floats) -> float:
    """Torque of the gas over the pistons less what is under them, N·m; volumes are known."""
    total = 0.0
    for row in range(engine.cylinder_count):
        total += pressure_drop(engine, values, row) * work.widening[row]
    return total


@kernel_part
def rubbing_torque(engine: Any, work: Any, values: Floats, speed: float) -> float:
    """Friction of all contacts against the turning, N·m, 0 or more; as is felt at a stand, at 0.

    The law of :mod:`firstfire.cycle.friction_along`, at one moment.
    """
    torque, load = 0.0, 0.0
    for row in range(engine.cylinder_count):
        cylinder = engine.cylinders[row]
        lean = (cylinder.throw * work.own_sine[row] - cylinder.offset) / cylinder.rod
        rings, skirt, pins, force = cylinder_friction(
            engine.rubbing[row], cylinder.piston_area, cylinder.throw, cylinder.rod,
            work.own_cosine[row], work.rise[row], work.bend[row], lean, speed,
            pressure_drop(engine, values, row),
        )  # fmt: skip
        torque += rings + skirt + pins
        load += force
    for row in range(engine.valve_count):
        valve = engine.valves[row]
        if valve.suction < 0 and work.valve_open[row] == 1:
            lift = valve_lift(engine, work, values, row)
            torque += valve.cam_arm * (valve.preload + valve.spring_rate * lift)
    rubs = engine.shaft_rubbing
    total: float = torque + shaft_friction(rubs, load, speed) + rubs.drive
    return total


@kernel_part
def starter_torque(shaft: Any, speed: float) -> float:
    """Torque of the starter at the crank, N·m: falls straight from stall to its free speed.

    `speed` is the rotor's, where a clutch may leave it behind.
    """
    torque = shaft.starter_stall * (1.0 - speed / shaft.starter_free)
    if shaft.starter_one_way == 1 and torque < 0.0:
        torque = 0.0
    return float(torque)


@kernel_apart
def torques(engine: Any, work: Any, values: Floats, speed: float) -> tuple[float, float]:
    """What the gas drives a free shaft with, and what friction can hold against it, N·m.

    Volumes and pressures are known. Compiled by itself, as a step and a stand both ask for it.
    """
    held: float = engine.shaft.friction
    if engine.shaft.rubs == 1:
        held += rubbing_torque(engine, work, values, speed)
    return gas_torque(engine, work, values), held


@kernel_part
def shaft_acceleration(engine: Any, work: Any, values: Floats, speed: float) -> tuple[float, float]:
    """How fast a free shaft, and a starter's rotor, gain speed, rad/s²; volumes are known.

    I(θ) dω/dt + ½ I'(θ) ω² = torques, with I(θ) of all that turns and goes up and down. Friction
    is against the way the shaft turns in this step; while it stands, held, nothing moves. A rotor
    behind a one-way clutch turns with the shaft unless the shaft is faster, or would be.
    """
    shaft = engine.shaft
    if work.turn == 0.0:
        return 0.0, 0.0
    torque, held = torques(engine, work, values, speed)
    torque -= work.turn * held + shaft.friction_per_speed * speed
    torque -= shaft.load_square * speed * abs(speed)
    swung, bend = 0.0, 0.0
    for row in range(engine.cylinder_count):
        swung += engine.cylinders[row].reciprocating_mass * work.rise[row] * work.rise[row]
        bend += engine.cylinders[row].reciprocating_mass * work.rise[row] * work.bend[row]
    torque -= bend * speed * speed
    inertia = shaft.inertia + swung
    if shaft.rotor == 0.0:
        return (torque + starter_torque(shaft, speed)) / inertia, 0.0
    drive = starter_torque(shaft, values[ROTOR])
    together: float = (torque + drive) / (inertia + shaft.rotor)
    if values[ROTOR] < speed - TOGETHER or shaft.rotor * together > drive:
        return torque / inertia, drive / shaft.rotor
    return together, together


@kernel_part
def catch_rotor(engine: Any, work: Any) -> None:
    """Let a one-way clutch take up a rotor that has come to turn faster than its shaft.

    Both then turn as fast as they did together: in steps as short as these hardly a jolt.
    """
    rotor, trial = engine.shaft.rotor, work.trial
    if rotor > 0.0 and trial[ROTOR] > trial[SPEED]:
        own: float = engine.shaft.inertia
        for row in range(engine.cylinder_count):
            own += engine.cylinders[row].reciprocating_mass * work.rise[row] * work.rise[row]
        speed = (own * trial[SPEED] + rotor * trial[ROTOR]) / (own + rotor)
        trial[SPEED] = trial[ROTOR] = speed


@kernel_part
def set_turn(engine: Any, work: Any, values: Floats) -> bool:
    """Say which way the shaft turns: 1, -1, or 0 where friction holds it; whether that is new."""
    speed = values[SPEED]
    turn = math.copysign(1.0, speed)
    if engine.shaft.free == 1 and speed == 0.0:
        volumes_now(engine, work, values[ANGLE], speed)
        drive, held = torques(engine, work, values, speed)
        drive += starter_torque(engine.shaft, max(values[ROTOR], 0.0))
        turn = 0.0 if abs(drive) <= held else math.copysign(1.0, drive)
    new: bool = turn != work.turn
    work.turn = turn
    return new


@kernel_part
def share_to_mark(engine: Any, work: Any, stop: float) -> float:
    """Share of a step tried at which a free shaft comes to a stand or to an angle; 1 if neither.

    By straight lines: a step that is cut short is tried again, and ends nearer each time.
    """
    before, after = work.now[ANGLE], work.trial[ANGLE]
    speed, later = work.now[SPEED] * work.turn, work.trial[SPEED] * work.turn
    share = 1.0
    if (after - stop) * work.turn > AIMED:
        share = (stop - before) / (after - before)
    if speed > 0.0 and later < -STILL:
        share = min(share, speed / (speed - later))
    far = abs(after - before)
    if far > 2.0 * engine.step.largest_angle:
        share = min(share, engine.step.largest_angle / far)
    return max(share, 1e-4)


@kernel_part
def come_to_stand(work: Any) -> None:
    """Let a shaft stand that has lost its speed in the step that stands in ``work.trial``."""
    speed = work.trial[SPEED]
    if abs(speed) <= STILL and abs(speed) < abs(work.now[SPEED]):
        work.trial[SPEED] = 0.0
        if abs(work.trial[ROTOR]) <= STILL:
            work.trial[ROTOR] = 0.0
