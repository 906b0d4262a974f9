"""Rates along a trace, worked out afresh from its states: flows, heats, work, by crank angle."""

from __future__ import annotations

import math

from firstfire.cycle.border import (
    astray,
    require_engine,
    require_rows,
    require_rows_there,
    require_table,
)
from firstfire.cycle.compile import kernel_entry
from firstfire.cycle.kernel import book_sums, fill_fixed
from firstfire.cycle.layout import SPEED, Floats, Records
from firstfire.cycle.passages import place_valves
from firstfire.cycle.rates import rates_of
from firstfire.cycle.work import clear_sums, lay_out, new_work


def rates_along(
    engines: Records, values: Floats, events: Records, rates: Floats, volumes: Floats
) -> None:
    """Fill in the explicit rates of all values, and the volumes, at each row of a trace.

    Parameters
    ----------
    engines
        The engine.
    values, events
        Of the trace, (rows, values) and (rows, cylinders).
    rates, volumes
        Filled in: (rows, values), per second; (rows, volumes), m³.

    Raises
    ------
    TypeError, ValueError
        If an array is of another kind or shape than the engine's.
    """
    require_engine(engines)
    require_rows(engines, values, events)
    require_table("rates", rates, len(values), int(engines[0]["size"]))
    require_table("volumes", volumes, len(values), int(engines[0]["volume_count"]))
    require_rows_there(fill_rates(engines, new_work(), values, events, rates, volumes))


@kernel_entry
def fill_rates(
    engines: Records,
    works: Records,
    values: Floats,
    events: Records,
    rates: Floats,
    volumes: Floats,
) -> int:
    """Fill in the rates and volumes; `works` is fresh space, held by the caller.

    Returns what of the engine is :func:`firstfire.cycle.border.astray`, with nothing done, or 0.
    """
    engine, work = engines[0], works[0]
    wrong = astray(engine)
    if wrong > 0:
        return wrong
    lay_out(engine, work)
    # A stage that is not the first; written as 1 and 1.0, each would be compiled anew.
    apart, whole = engines.shape[0], float(engines.shape[0])
    for row in range(values.shape[0]):
        for i in range(engine.moving):
            work.trial[i] = values[row, i]
        if row == 0:
            fill_fixed(engine, work, work.trial)
        work.turn = math.copysign(1.0, work.trial[SPEED])
        place_valves(engine, work, work.trial)
        clear_sums(engine, work)
        rates_of(engine, events[row], work, apart, whole)
        for i in range(engine.size):
            rates[row, i] = work.stage[apart, i] if i < engine.moving else 0.0
        book_sums(engine, work, rates[row], whole)
        for volume in range(engine.volume_count):
            volumes[row, volume] = work.volume[volume]
    return wrong
