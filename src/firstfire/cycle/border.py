"""What may be handed to the kernel.

Compiled code reads and writes where shapes and indices say, without looking. All that is handed
over is therefore looked at first, in some ten or twenty microseconds; what doesn't fit raises here
instead of ending the process there.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from firstfire.arrays import require_array
from firstfire.cycle import layout
from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.layout import Floats, Records, State

_MOST = {
    "volume_count": layout.MOST_VOLUMES,
    "cylinder_count": layout.MOST_CYLINDERS,
    "moving_count": layout.MOST_VOLUMES,
    "passage_count": layout.MOST_PASSAGES,
    "way_count": layout.MOST_PASSAGES,
    "valve_count": layout.MOST_VALVES,
    "suction_count": layout.MOST_VALVES,
    "event_count": 2 * layout.MOST_VALVES,
}

_ROWS = ("", "a passage", "a way", "a valve", "a cylinder", "a moving volume")


def require_engine(engines: Any) -> None:
    """Raise unless this is one engine, whose counts have room and whose values stand in order.

    Raises
    ------
    TypeError, ValueError
        If it isn't.
    """
    require_array("engines", engines, layout.ENGINE_RECORD, (1,))
    engine = engines[0]
    counts: dict[str, int] = {name: int(engine[name]) for name in _MOST}
    for name, most in _MOST.items():
        if not 0 <= counts[name] <= most:
            raise ValueError(f"engines has a {name} of {counts[name]}: it must be 0 to {most}.")
    places = dict(counts)
    layout.place_values(places)
    for name, at in places.items():
        if at != int(engine[name]):
            raise ValueError(f"engines has {name} {int(engine[name])}: its counts make it {at}.")


@kernel_part
def is_row(row: int, least: int, count: int) -> bool:
    """Whether there is such a row; `least` is -1 where there need be none."""
    return least <= row < count


@kernel
def astray(engine: Any) -> int:
    """What in an engine names a row that isn't there, for :func:`require_rows_there`; 0: nothing.

    Compiled, as it is asked at each advance.
    """
    for row in range(engine.passage_count):
        passage = engine.passages[row]
        if not (
            is_row(passage.start, 0, engine.volume_count)
            and is_row(passage.end, 0, engine.volume_count)
            and is_row(passage.valve, -1, engine.valve_count)
            and is_row(passage.way, 0, engine.way_count)
        ):
            return 1
    for row in range(engine.way_count):
        way = engine.ways[row]
        if not (
            is_row(way.start, 0, engine.volume_count)
            and is_row(way.end, 0, engine.volume_count)
            and is_row(way.valve, -1, engine.valve_count)
        ):
            return 2
    for row in range(engine.valve_count):
        valve = engine.valves[row]
        if not (
            is_row(valve.cylinder, 0, engine.cylinder_count)
            and is_row(valve.suction, -1, engine.suction_count)
        ):
            return 3
    for row in range(engine.cylinder_count):
        cylinder = engine.cylinders[row]
        if not (
            is_row(cylinder.crankcase, -1, engine.volume_count)
            and is_row(cylinder.vented, -1, engine.volume_count)
        ):
            return 4
    for row in range(engine.moving_count):
        if not is_row(engine.moving_volumes[row], 0, engine.volume_count):
            return 5
    return 0


def require_rows_there(what: int) -> None:
    """Raise if `astray` found something.

    Raises
    ------
    ValueError
        If it did.
    """
    if what:
        raise ValueError(f"engines has {_ROWS[what]} that names a row which isn't there.")


def require_state(engines: Records, state: State) -> None:
    """Raise unless a state fits an engine, and has an angle, a speed and a step to go on from.

    Raises
    ------
    TypeError, ValueError
        If it doesn't.
    """
    engine = engines[0]
    require_array("state.time", state.time, np.float64, (1,))
    require_array("state.step", state.step, np.float64, (1,))
    require_array("state.values", state.values, np.float64, (int(engine["size"]),))
    count = int(engine["cylinder_count"])
    require_array("state.cylinders", state.cylinders, layout.CYLINDER_EVENT, (count,))
    angle, speed = state.values[layout.ANGLE], state.values[layout.SPEED]
    if not (math.isfinite(angle) and math.isfinite(speed)):
        raise ValueError(f"state stands at {angle:g} rad and {speed:g} rad/s: both must be finite.")
    if not 0.0 < state.step[0] < math.inf:
        raise ValueError(f"state.step is {state.step[0]:g} s: the next step must be above 0.")


def require_factors(engines: Records, factors: Any) -> None:
    """Raise unless there are factors of one cycle at least, for all cylinders of an engine.

    Raises
    ------
    TypeError, ValueError
        If there aren't.
    """
    count = int(engines[0]["cylinder_count"])
    require_array("factors", factors, np.float64, (None, count, layout.FACTORS))
    if len(factors) < 1:
        raise ValueError("factors are of no cycle: there must be one at least.")


def require_rows(engines: Records, values: Any, events: Any, *, before: int = 0) -> None:
    """Raise unless the rows of a trace fit an engine and each other.

    Parameters
    ----------
    engines
        The engine.
    values, events
        (rows, values), with so many columns `before` them; (rows, cylinders). Without rows the
        columns don't count.

    Raises
    ------
    TypeError, ValueError
        If they don't.
    """
    engine = engines[0]
    rows = len(values) if isinstance(values, np.ndarray) and values.ndim else 0
    wide, count = before + int(engine["size"]), int(engine["cylinder_count"])
    require_array("trace", values, np.float64, (rows, wide if rows else None))
    require_array("trace_events", events, layout.CYLINDER_EVENT, (rows, count if rows else None))


def require_table(name: str, found: Floats, rows: int, columns: int) -> None:
    """Raise unless a table to be filled has so many rows and columns.

    Raises
    ------
    TypeError, ValueError
        If it hasn't.
    """
    require_array(name, found, np.float64, (rows, columns))
