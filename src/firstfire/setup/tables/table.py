"""A table of plain integers: what a small controller holds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.errors import OutsideValidity

Integers = NDArray[np.int64]
Floats = NDArray[np.float64]
KINDS = (("uint8_t", 0, 255), ("uint16_t", 0, 65535), ("int16_t", -32768, 32767))
"""Types of C that an entry may have, each with its least and most; the first that holds all."""


@dataclass(frozen=True)
class Table:
    """Integers, with what one of them stands for.

    Attributes
    ----------
    name
        In C and of the CSV: lower case, its unit at the end.
    what
        What it holds, in words of ASCII.
    unit
        Of one step: *0.1 degree*.
    scale
        One step in SI.
    values
        Integers; (places,), (loads, speeds) or (cylinders, loads, speeds).
    over
        Names of the tables that its places go by, outermost first; empty for what others go by.
    """

    name: str
    what: str
    unit: str
    scale: float
    values: Integers
    over: tuple[str, ...] = ()

    @property
    def kind(self) -> str:
        """Type of C that holds all its entries.

        Raises
        ------
        OutsideValidity
            Where none of sixteen bits does.
        """
        least, most = int(self.values.min()), int(self.values.max())
        for name, low, high in KINDS:
            if low <= least and most <= high:
                return name
        raise OutsideValidity(
            f"{self.name} goes from {least} to {most}: sixteen bits don't hold it."
        )


def table(
    name: str, what: str, unit: str, scale: float, values: Sequence[float] | Floats,
    over: tuple[str, ...] = (),
) -> Table:  # fmt: skip
    """A table of the nearest integers.

    Parameters
    ----------
    name, what, unit, scale, over
        As `Table` has them.
    values
        SI.

    Examples
    --------
    >>> table("speed_rpm", "crank speed", "1 rpm", 3.14159265 / 30, [104.72, 157.08]).values
    array([1000, 1500])
    """
    steps = np.rint(np.asarray(values, dtype=np.float64) / scale).astype(np.int64)
    return Table(name, what, unit, scale, steps, over)
