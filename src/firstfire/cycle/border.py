"""What may be handed to the kernel.

Compiled code reads and writes where shapes and indices say, without looking. All that is handed
over is therefore looked at first, in some tens of microseconds; what doesn't fit raises here
instead of ending the process there.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from firstfire.arrays import require_array
from firstfire.cycle import layout
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

_POINTS_AT = (
    ("passages", "passage_count", "start", 0, "volume_count"),
    ("passages", "passage_count", "end", 0, "volume_count"),
    ("passages", "passage_count", "valve", -1, "valve_count"),
    ("passages", "passage_count", "way", 0, "way_count"),
    ("ways", "way_count", "start", 0, "volume_count"),
    ("ways", "way_count", "end", 0, "volume_count"),
    ("ways", "way_count", "valve", -1, "valve_count"),
    ("valves", "valve_count", "cylinder", 0, "cylinder_count"),
    ("valves", "valve_count", "suction", -1, "suction_count"),
    ("cylinders", "cylinder_count", "crankcase", -1, "volume_count"),
)
"""Rows, how many, what in them points at a row elsewhere, its least, and how many there are."""


def require_engine(engines: Any) -> None:
    """Raise unless this is one whole engine, all of whose rows point at rows that are there.

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
    for rows, how_many, name, least, of in _POINTS_AT:
        _require_rows(f"{rows}.{name}", engine[rows][name][: counts[how_many]], least, counts[of])
    moving = engine["moving_volumes"][: counts["moving_count"]]
    _require_rows("moving_volumes", moving, 0, counts["volume_count"])


def _require_rows(name: str, found: Any, least: int, count: int) -> None:
    if found.size and not (found.min() >= least and found.max() < count):
        raise ValueError(f"engines has {name} {found.tolist()}: there are rows 0 to {count - 1}.")


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
