"""The compiled heart: an engine advanced in time, from one state to the next."""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.border import astray
from firstfire.cycle.compile import kernel, kernel_entry, kernel_part
from firstfire.cycle.due import CLOSE, end_burns, meet_events, next_event, renew_burns
from firstfire.cycle.layout import (
    ANGLE,
    CYLINDER_SUMS,
    FIXED,
    PRESSURE,
    SHAFT_SIZE,
    SPEED,
    VOLUME_HEAT,
    VOLUME_SIZE,
    VOLUME_SUMS,
    Floats,
    Records,
)
from firstfire.cycle.passages import book_passages
from firstfire.cycle.shaft import (
    LONGEST_STAND,
    catch_rotor,
    come_to_stand,
    set_turn,
    share_to_mark,
)
from firstfire.cycle.stepper import try_step
from firstfire.cycle.suction import share_to_contact
from firstfire.cycle.work import lay_out
from firstfire.cycle.zones import begin_stream, fill_zone

REACHED, PAUSED, FAILED = 0, 1, 2
"""How an advance ended: where it was to go; out of steps or room; no step is small enough."""


@kernel_part
def fill_fixed(engine: Any, work: Any, values: Floats) -> None:
    """Work out the gas of all volumes that never change."""
    for row in range(engine.volume_count):
        if engine.volumes[row].kind == FIXED:
            at = SHAFT_SIZE + row * VOLUME_SIZE
            fill_zone(work, engine.gas, values, row, values[at + PRESSURE])
            begin_stream(work, row, row, False)


@kernel
def book_sums(engine: Any, work: Any, values: Floats, step: float) -> None:
    """Add the rates of the sums, times a step, to the values."""
    for row in range(engine.cylinder_count):
        at = engine.cylinder_sums_at + row * CYLINDER_SUMS
        for term in range(CYLINDER_SUMS):
            values[at + term] += step * work.cylinder_sums[row, term]
    book_passages(engine, work, values, step)
    for row in range(engine.volume_count):
        values[engine.volume_sums_at + row * VOLUME_SUMS + VOLUME_HEAT] += (
            step * work.volume_sums[row]
        )


@kernel_part
def longest_step(setting: Any, left: float, angle: float, speed: float, target: float) -> float:
    """The longest step allowed, s: by the setting, the time left, and the angle to land on."""
    longest: float = min(setting.largest_time, left)
    if speed != 0.0:
        longest = min(longest, setting.largest_angle / abs(speed))
        to_target = (target - angle) / speed
        # Two even steps rather than a long one and a sliver.
        if to_target <= longest:
            longest = to_target
        elif to_target < 2.0 * longest:
            longest = 0.5 * to_target
    return longest


@kernel_part
def allowed(error: float) -> float:
    """How much longer a step of third order may be, from its error over the allowed one."""
    return 0.9 * math.exp(math.log(max(error, 1e-6)) / -3.0)


@kernel
def make_step(
    engine: Any, events: Records, work: Any, step: float, longest: float, stop: float
) -> tuple[float, float]:
    """Step on by as much as the error allows: what was stepped, s, and what to try next.

    The new values stand in ``work.trial``. A negative step: none is small enough. A free shaft
    goes no further than the angle ``stop``, nor past a stand.
    """
    smallest = engine.step.smallest_time
    if work.turn == 0.0:
        longest = min(longest, LONGEST_STAND)
    while True:
        tried = min(step, longest)
        error = try_step(engine, events, work, tried)
        if error <= 1.0:
            share = 1.0
            if engine.suction_count > 0:
                share = share_to_contact(engine, work, tried)
            if engine.shaft.free == 1:
                share = min(share, share_to_mark(engine, work, stop))
            if share < 1.0 and tried > 10.0 * smallest:
                longest = tried * share
                continue
            if tried == step or error > 0.5:
                step = tried * min(5.0, allowed(error))
            return tried, step
        step = tried * max(0.1, min(0.8, allowed(error)))
        if not step > smallest:
            return -1.0, step


@kernel_part
def take_up(engine: Any, work: Any, final: Floats) -> None:
    """Begin from a state: lay out the space, and fill in what never changes."""
    lay_out(engine, work)
    for i in range(engine.moving):
        work.now[i] = final[i]
    work.turn = math.copysign(1.0, work.now[SPEED])
    fill_fixed(engine, work, work.now)


@kernel_part
def keep_row(
    engine: Any, events: Records, work: Any, final: Floats,
    trace: Floats, trace_events: Records, row: int,
) -> None:  # fmt: skip
    """Write the values and what had happened before into a row of the trace, its time apart."""
    for i in range(engine.size):
        trace[row, 1 + i] = work.now[i] if i < engine.moving else final[i]
    for cylinder in range(engine.cylinder_count):
        trace_events[row, cylinder] = events[cylinder]


@kernel_entry
def step_on(
    engines: Records,
    works: Records,
    factors: Floats,
    clock: Floats,
    next_step: Floats,
    final: Floats,
    events: Records,
    until_time: float,
    until_angle: float,
    trace: Floats,
    trace_events: Records,
    most_steps: int,
) -> tuple[int, int, int]:
    """Carry a state on, in place; to be called through :func:`firstfire.cycle.advance.advance`.

    Parameters
    ----------
    engines, works
        The engine, and fresh space for it; arrays of one record, held by the caller.
    clock, next_step, final, events
        The four arrays of a state; changed to those of the later one.
    factors, until_time, until_angle, trace, trace_events, most_steps
        As the door has them.

    Returns
    -------
    rows, end, wrong
        Rows of the trace filled, and ``REACHED``, ``PAUSED`` or ``FAILED``; what of the engine
        is :func:`firstfire.cycle.border.astray`, with nothing done, or 0.
    """
    time, step = clock[0], next_step[0]
    engine, work = engines[0], works[0]
    wrong = astray(engine)
    if wrong > 0:
        return 0, FAILED, wrong
    take_up(engine, work, final)
    values = work.now
    rows, end = 0, PAUSED
    due, target = True, 0.0
    for _ in range(most_steps):
        angle, speed = values[ANGLE], values[SPEED]
        if engine.shaft.free == 1 and set_turn(engine, work, values):
            due = True
            if work.turn > 0.0:
                renew_burns(engine, factors, events, angle)
        if due or engine.suction_count > 0:
            meet_events(engine, factors, events, work, values)
            target = next_event(engine, events, angle, work.turn)
            due = False
        else:
            end_burns(engine, events, work, values)
        forward = work.turn
        # A free shaft that goes back is on no way to the angle.
        bound = forward > 0.0 or engine.shaft.free == 0
        if time >= until_time or (bound and (until_angle - angle) * forward <= CLOSE):
            end = REACHED
            break
        if trace.shape[0] > 0 and rows == trace.shape[0]:
            break
        stop = target
        if bound and (target - until_angle) * forward > 0.0:
            stop = until_angle
        longest = longest_step(engine.step, until_time - time, angle, speed, stop)
        tried, step = make_step(engine, events, work, step, longest, stop)
        if tried < 0.0:
            end = FAILED
            break
        time += tried
        if engine.shaft.free == 1:
            catch_rotor(engine, work)
            come_to_stand(work)
        for i in range(engine.moving):
            values[i] = work.trial[i]
        if abs(values[ANGLE] - stop) < 1e-8:
            values[ANGLE] = stop
        due = abs(values[ANGLE] - target) <= CLOSE
        book_sums(engine, work, final, tried)
        if trace.shape[0] > 0:
            trace[rows, 0] = time
            keep_row(engine, events, work, final, trace, trace_events, rows)
            rows += 1
    for i in range(engine.moving):
        final[i] = values[i]
    clock[0], next_step[0] = time, step
    return rows, end, wrong
