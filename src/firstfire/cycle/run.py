"""The compiled stepper, run in chunks, so that a run can be stopped and shown."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.kernel import FAILED, REACHED, advance
from firstfire.cycle.layout import ANGLE, Records, State
from firstfire.errors import FirstfireError, Stopped

Floats = NDArray[np.float64]

CHUNK_STEPS = 8000
"""Steps between two looks at the outside; some 10 µs each at the most, so under 0.1 s."""


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
        Of each cycle and cylinder, as :func:`firstfire.cycle.kernel.advance` takes them; None:
        all cycles alike.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    FirstfireError
        If no step is small enough.
    """
    empty = np.empty((0, 1 + state.values.size))
    if factors is None:
        factors = steady_factors(engines)
    end = -1
    while end != REACHED:
        state, _, end = advance(
            state, engines, factors, until_time, until_angle, empty, CHUNK_STEPS
        )
        _look(state, end, stop)
    return state


def run_traced(
    engines: Records,
    state: State,
    until_angle: float,
    stop: Callable[[], bool] | None = None,
    factors: Floats | None = None,
) -> tuple[State, State, Floats]:
    """As :func:`run_to`, with every step: the first state, the last, and the trace.

    Returns
    -------
    start, end, trace
        The trace has a row a step: time, s, then all values.
    """
    start = state
    parts: list[Floats] = []
    if factors is None:
        factors = steady_factors(engines)
    end = -1
    while end != REACHED:
        room = np.empty((TRACE_ROWS, 1 + state.values.size))
        state, rows, end = advance(state, engines, factors, math.inf, until_angle, room, TRACE_ROWS)
        parts.append(room[:rows])
        _look(state, end, stop)
    return start, state, np.concatenate(parts)


TRACE_ROWS = 2000
"""Steps traced between two looks at the outside."""


def _look(state: State, end: int, stop: Callable[[], bool] | None) -> None:
    if end == FAILED:
        raise FirstfireError(
            "The gas side could not be stepped on from crank angle "
            f"{math.degrees(state.values[ANGLE]):.2f}°: no step was small enough. "
            "Look for a volume or passage of absurd size."
        )
    if stop is not None and end != REACHED and stop():
        raise Stopped("The run was stopped.")
