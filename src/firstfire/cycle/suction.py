"""Inlet valves that suction opens: a head on a spring between seat and stop.

Pressure difference acts on the area of the head; the spring has a rate and a preload. The valve
rests on seat or stop while it is pressed there, and bounces off with a share of its speed when it
arrives. A step is cut short where a valve arrives, so that it does not sink in.
"""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.layout import (
    LIFT,
    LIFT_SPEED,
    PRESSURE,
    SHAFT_SIZE,
    SUCTION_SIZE,
    SUCTION_VALVE,
    VOLUME_SIZE,
    Floats,
)

SUNK = 2e-6
"""How far a valve may run past seat or stop before a step is cut short, m."""

HOP = 1e-5
"""A valve that would spring back less high than this stays, m."""


@kernel_part
def force_on(engine: Any, values: Floats, row: int) -> float:
    """Force that opens the suction valve of a passage, contact apart, N."""
    passage = engine.passages[row]
    valve = engine.valves[passage.valve]
    at = engine.suctions_at + valve.suction * SUCTION_SIZE
    port = values[SHAFT_SIZE + passage.start * VOLUME_SIZE + PRESSURE]
    cylinder = values[SHAFT_SIZE + passage.end * VOLUME_SIZE + PRESSURE]
    head = 0.25 * math.pi * valve.head_diameter * valve.head_diameter
    spring = valve.preload + valve.spring_rate * values[at + LIFT]
    force: float = (port - cylinder) * head - spring - valve.damping * values[at + LIFT_SPEED]
    return force


@kernel
def suction_rates(engine: Any, values: Floats, rates: Floats) -> None:
    """Fill in speed and acceleration of the valves opened by suction."""
    for row in range(engine.passage_count):
        passage = engine.passages[row]
        if passage.kind == SUCTION_VALVE:
            valve = engine.valves[passage.valve]
            at = engine.suctions_at + valve.suction * SUCTION_SIZE
            lift, speed = values[at + LIFT], values[at + LIFT_SPEED]
            force = force_on(engine, values, row)
            seated = lift <= 0.0 and speed <= 0.0 and force <= 0.0
            stopped = lift >= valve.max_lift and speed >= 0.0 and force >= 0.0
            rests = seated or stopped
            rates[at + LIFT] = 0.0 if rests else speed
            rates[at + LIFT_SPEED] = 0.0 if rests else force / valve.mass


@kernel_part
def time_to_wall(gap: float, closing: float, gap_after: float, step: float) -> float:
    """When a gap that was `gap`, closing at `closing`, and is `gap_after` a step later, is shut.

    By the parabola through the three; aimed half of ``SUNK`` beyond, so that it is shut.
    """
    bend = (gap_after - gap + closing * step) / (step * step)
    aim = gap + 0.5 * SUNK
    inside = closing * closing - 4.0 * bend * aim
    if inside < 0.0:
        return step
    # The first root after now of aim − closing t + bend t² = 0.
    root = math.sqrt(inside)
    if closing + root <= 0.0:
        return step
    if closing >= 0.0 or bend >= 0.0:
        return 2.0 * aim / (closing + root)
    return (closing - root) / (2.0 * bend)


@kernel
def share_to_contact(engine: Any, work: Any, step: float) -> float:
    """Share of the step tried at which the first valve meets seat or stop; 1 if none sinks in."""
    share = 1.0
    for row in range(engine.valve_count):
        valve = engine.valves[row]
        if valve.suction >= 0:
            at = engine.suctions_at + valve.suction * SUCTION_SIZE
            lift, speed = work.now[at + LIFT], work.now[at + LIFT_SPEED]
            after = work.trial[at + LIFT]
            if after < -SUNK:
                share = min(share, time_to_wall(lift, -speed, after, step) / step)
            elif after > valve.max_lift + SUNK:
                gap, gap_after = valve.max_lift - lift, valve.max_lift - after
                share = min(share, time_to_wall(gap, speed, gap_after, step) / step)
    return max(share, 1e-3)


@kernel
def bounce(engine: Any, values: Floats) -> None:
    """Send back the valves that have arrived at seat or stop, or let them rest there."""
    for row in range(engine.passage_count):
        passage = engine.passages[row]
        if passage.kind == SUCTION_VALVE:
            valve = engine.valves[passage.valve]
            at = engine.suctions_at + valve.suction * SUCTION_SIZE
            lift, speed = values[at + LIFT], values[at + LIFT_SPEED]
            at_seat = lift <= 0.0 and speed <= 0.0
            at_stop = lift >= valve.max_lift and speed >= 0.0
            if at_seat or at_stop:
                values[at + LIFT] = 0.0 if at_seat else valve.max_lift
                back = -valve.restitution * speed
                pressing = abs(force_on(engine, values, row))
                if 0.5 * valve.mass * back * back < HOP * pressing:
                    back = 0.0
                values[at + LIFT_SPEED] = back
