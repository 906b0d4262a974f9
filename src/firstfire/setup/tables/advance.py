"""Spark advance over the places of an engine's tables."""

from __future__ import annotations

import math
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.clock_timing import table_advance
from firstfire.setup.tables.grid import Grid
from firstfire.setup.tables.table import Table, table

Floats = NDArray[np.float64]
TENTH = math.radians(0.1)


class Advance(Protocol):
    """Advance over speed and load, as whoever finds it gives it."""

    @property
    def speeds(self) -> Floats:
        """rad/s, rising."""

    @property
    def openings(self) -> Floats:
        """Of the throttle, 0 to 1, rising."""

    @property
    def advance(self) -> Floats:
        """Before firing top, rad, (openings, speeds)."""


def advance_of(plain: PlainEngine, places: Grid, found: Advance | None) -> Table:
    """The advance to ask for at each place.

    Parameters
    ----------
    plain, places
        The engine, and the speeds and openings of its tables.
    found
        Where it was looked for; None: as the file has it, alike at all loads.
    """
    if found is None:
        values = np.tile([_said(plain, float(speed)) for speed in places.speeds],
                         (len(places.openings), 1))  # fmt: skip
        whence = "as the engine file has it, alike at all loads"
    else:
        values = _laid(found, places)
        whence = "best torque of this engine, kept from knock and kick-back"
    return table(
        "advance_tenth_degree", f"spark to ask for, before firing top; {whence}", "0.1 degree",
        TENTH, values, ("throttle_permille", "speed_rpm"),
    )  # fmt: skip


def _said(plain: PlainEngine, speed: float) -> float:
    spark = plain.spark
    if spark.advance_table:
        return table_advance(speed, spark.advance_table)
    return spark.start_angle if speed < 0.8 * plain.use.idle_speed else spark.running_angle


def _laid(found: Advance, places: Grid) -> Floats:
    """Straight between its places in speed, then in opening; its outermost beyond."""
    by_speed = np.array([np.interp(places.speeds, found.speeds, row) for row in found.advance])
    columns = [np.interp(places.openings, found.openings, column) for column in by_speed.T]
    return np.array(columns, dtype=np.float64).T
