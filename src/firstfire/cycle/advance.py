"""An engine advanced in time: the door to the kernel, and the only one."""

from __future__ import annotations

import operator

from firstfire.cycle.border import (
    require_engine,
    require_factors,
    require_rows,
    require_rows_there,
    require_state,
)
from firstfire.cycle.kernel import step_on
from firstfire.cycle.layout import Floats, Records, State
from firstfire.cycle.work import new_work


def advance(
    state: State,
    engines: Records,
    factors: Floats,
    until_time: float,
    until_angle: float,
    trace: Floats,
    trace_events: Records,
    most_steps: int,
) -> tuple[State, int, int]:
    """A later state of an engine; nothing that is given is changed except the trace.

    Re-entrant and without the interpreter lock; returns after ``most_steps`` steps at the
    latest, so that a caller can stop, show progress and honour an interrupt, and go on from the
    state returned as if nothing had happened.

    Parameters
    ----------
    state, engines
        Where the engine is, and what it is: an array of one ``ENGINE_RECORD``.
    factors
        (cycles, cylinders, factors): of each burn its shift, rad, and multipliers of its
        duration and of the share of charge that burns. Cycles repeat when it runs out.
    until_time, until_angle
        s and rad (unwrapped, in the direction of turning); whichever comes first. The last step
        lands on the angle. Infinity where only the other counts.
    trace
        (rows, 1 + values): filled with time and values after each step. No rows: no trace.
    trace_events
        (rows, cylinders): filled beside it with what had happened at events before.
    most_steps
        Steps after which to return.

    Returns
    -------
    state, rows, end
        The new state, rows of the trace filled, and ``REACHED``, ``PAUSED`` or ``FAILED``.

    Raises
    ------
    TypeError, ValueError
        If an array is of another kind or shape than the engine's.

    Notes
    -----
    Only plain arrays and numbers cross over: made here, held here, filled there. Compiled code
    makes no Python object, so neither an interrupt nor another thread can come in between.
    """
    require_engine(engines)
    require_state(engines, state)
    require_factors(engines, factors)
    require_rows(engines, trace, trace_events, before=1)
    new = State(*(array.copy() for array in state))
    rows, end, wrong = step_on(
        engines, new_work(), factors, new.time, new.step, new.values, new.cylinders,
        float(until_time), float(until_angle), trace, trace_events, operator.index(most_steps),
    )  # fmt: skip
    require_rows_there(wrong)
    return new, rows, end
