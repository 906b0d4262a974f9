"""Rates along a trace, worked out afresh from its states: flows, heats, work, by crank angle."""

from __future__ import annotations

from firstfire.cycle.compile import kernel_entry
from firstfire.cycle.layout import FIXED, PRESSURE, SHAFT_SIZE, VOLUME_SIZE, Floats, Records
from firstfire.cycle.rates import rates_of
from firstfire.cycle.work import new_work
from firstfire.cycle.zones import fill_zone


@kernel_entry
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
    """
    engine = engines[0]
    works = new_work(engine)
    work = works[0]
    for row in range(values.shape[0]):
        for i in range(engine.size):
            work.trial[i] = values[row, i]
        if row == 0:
            for volume in range(engine.volume_count):
                if engine.volumes[volume].kind == FIXED:
                    at = SHAFT_SIZE + volume * VOLUME_SIZE
                    fill_zone(work, engine.gas, work.trial, volume, work.trial[at + PRESSURE])
        rates_of(engine, events[row], work, 1)
        for i in range(engine.size):
            rates[row, i] = work.stage[1, i]
        for volume in range(engine.volume_count):
            volumes[row, volume] = work.volume[volume]
