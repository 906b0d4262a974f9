"""Spark advance over the places of an engine's tables."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.cranking import cranked
from firstfire.runs.start.kick_back import kick_back
from firstfire.setup.spark.advance_table import EARLIEST, AdvanceTable, advance_table
from firstfire.setup.tables.grid import Grid
from firstfire.setup.tables.table import Table, table

Stop = Callable[[], bool] | None
Floats = NDArray[np.float64]
TENTH = math.radians(0.1)


def looked_for(engine: Engine, plain: PlainEngine, stop: Stop = None) -> AdvanceTable:
    """This engine's own advance over speed and load, kept from knock and kick-back.

    Parameters
    ----------
    engine, plain
        As written down, and its plain numbers.
    stop
        Asked at least every 0.1 s.
    """
    kick = kick_back(plain, cranked(plain, stop=stop).shaft, stop)
    return advance_table(engine, plain, kick, stop=stop)


def advance_of(places: Grid, found: AdvanceTable) -> Table:
    """The advance to ask for at each place.

    Parameters
    ----------
    places, found
        Speeds and openings of the tables, and the advance that was looked for.
    """
    bound = f"{math.degrees(EARLIEST):.0f} degrees"
    met = (
        f"; where torque still rose at {bound}, the earliest tried, this is a bound and no best: "
        "set it by trying on the bench"
        if found.bounded.any() else ""
    )  # fmt: skip
    return table(
        "advance_tenth_degree",
        "spark to ask for, before firing top; best torque of this engine, kept from knock and "
        f"kick-back{met}",
        "0.1 degree", TENTH, _laid(found, places), ("throttle_permille", "speed_rpm"),
    )  # fmt: skip


def _laid(found: AdvanceTable, places: Grid) -> Floats:
    """Straight between its places in speed, then in opening; its outermost beyond."""
    by_speed = np.array([np.interp(places.speeds, found.speeds, row) for row in found.advance])
    columns = [np.interp(places.openings, found.openings, column) for column in by_speed.T]
    return np.array(columns, dtype=np.float64).T
