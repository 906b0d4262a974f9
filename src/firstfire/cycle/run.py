"""The compiled stepper, run in chunks, so that a run can be stopped and shown."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.advance import advance
from firstfire.cycle.kernel import FAILED, REACHED
from firstfire.cycle.layout import ANGLE, CYLINDER_EVENT, SPEED, Records, State
from firstfire.errors import FirstfireError, OutsideValidity, Stopped

Floats = NDArray[np.float64]

CHUNK_STEPS = 4000
"""Steps between two looks at the outside; some 20 µs each at the most, so under 0.1 s."""

TRACE_ROWS = 2000
"""Steps traced between two looks at the outside."""

MOST_TRACED = 16_000_000
"""Bytes of the traces kept together for a mean; see `firstfire.cycle.limit_cycle`."""

MOST_STEPS = 16_000
"""Steps of one cycle, counted and not weighed: an engine of many passages has longer rows, and is
no slower for it. A twin with suction valves takes the most, 14,000 at 30 rpm while its valves
flutter: 23 MB, and some three times as much beside it while it is read. All else takes under
4 MB."""


@dataclass(frozen=True)
class Trace:
    """Every step of a run.

    Attributes
    ----------
    time
        s, shape (rows,).
    values
        All values, shape (rows, values), in the order of :mod:`firstfire.cycle.layout`.
    events
        What had happened at events before, records of shape (rows, cylinders).
    """

    time: Floats
    values: Floats
    events: Records

    @property
    def angle(self) -> Floats:
        """Unwrapped crank angle, rad."""
        return self.values[:, ANGLE]


def steady_factors(engines: Records) -> Floats:
    """Factors that make all cycles of all cylinders alike."""
    factors: Floats = np.tile([0.0, 1.0, 1.0], (1, int(engines[0]["cylinder_count"]), 1))
    return factors


def run_to(
    engines: Records,
    state: State,
    until_angle: float = math.inf,
    until_time: float = math.inf,
    stop: Callable[[], bool] | None = None,
    factors: Floats | None = None,
) -> State:
    """The state at an angle or time, whichever comes first.

    Parameters
    ----------
    engines, state
        The engine, and where it is.
    until_angle, until_time
        Unwrapped crank angle, rad; s.
    stop
        Asked at least every 0.1 s; true stops the run.
    factors
        Of each cycle and cylinder, as :func:`firstfire.cycle.advance.advance` takes them; None:
        all cycles alike.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    FirstfireError
        If no step is small enough.
    """
    factors = steady_factors(engines) if factors is None else factors
    no_rows, no_events = _room(state, 0)
    end = -1
    while end != REACHED:
        state, _, end = advance(
            state, engines, factors, until_time, until_angle, no_rows, no_events, CHUNK_STEPS
        )
        _look(state, end, stop)
    return state


def run_traced(
    engines: Records,
    state: State,
    until_angle: float,
    stop: Callable[[], bool] | None = None,
    factors: Floats | None = None,
) -> tuple[State, Trace]:
    """As :func:`run_to`, with every step: the last state, and the trace from the first on.

    Raises
    ------
    OutsideValidity
        Where it takes more than :data:`MOST_STEPS`.
    """
    factors = steady_factors(engines) if factors is None else factors
    rows = [np.concatenate([state.time, state.values])[None, :]]
    events = [state.cylinders[None, :]]
    end = -1
    while end != REACHED:
        room, event_room = _room(state, TRACE_ROWS)
        state, count, end = advance(
            state, engines, factors, math.inf, until_angle, room, event_room, TRACE_ROWS
        )
        rows.append(room[:count])
        events.append(event_room[:count])
        _look(state, end, stop)
        _require_few(state, sum(len(part) for part in rows))
    # Whole rows of their own: one layout of arrays, one compilation of what reads them.
    values = np.concatenate([part[:, 1:] for part in rows])
    time = np.concatenate([part[:, 0] for part in rows])
    return state, Trace(time, values, np.concatenate(events))


def _require_few(state: State, steps: int) -> None:
    """Refuse a trace that has grown too long."""
    if steps > MOST_STEPS:
        rpm = abs(state.values[SPEED]) * 30.0 / math.pi
        raise OutsideValidity(
            f"At {rpm:.2g} rpm a cycle takes the gas side more than "
            f"{MOST_STEPS:,} steps: it turns too slowly to be followed. "
            "Ask for 30 rpm or more."
        )


def _room(state: State, rows: int) -> tuple[Floats, Records]:
    """Empty rows for a trace."""
    return (
        np.empty((rows, 1 + state.values.size)),
        np.empty((rows, state.cylinders.size), CYLINDER_EVENT),
    )


def _look(state: State, end: int, stop: Callable[[], bool] | None) -> None:
    if end == FAILED:
        raise FirstfireError(
            "The gas side could not be stepped on from crank angle "
            f"{math.degrees(state.values[ANGLE]):.2f}°: no step was small enough. "
            "Look for a volume or passage of absurd size."
        )
    if stop is not None and end != REACHED and stop():
        raise Stopped("The run was stopped.")
