"""Two cylinders that are built alike and don't breathe alike: either may be the one that does.

Inlets that suction opens on one plenum can settle with one cylinder full and the other half
empty, and as well the other way round. Which it is follows from nothing that is known.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from firstfire.cycle.figures import CylinderFigures
from firstfire.engine.resolve import PlainEngine

TURN = "which cylinder breathes"
"""Drawn like an unknown: above 0 it is the other one."""

_APART = 1.1
"""Ratio of two cylinders' peaks beyond which they don't breathe alike."""

One = TypeVar("One")


def uneven(plain: PlainEngine, figures: Sequence[CylinderFigures]) -> bool:
    """Whether cylinders that are built alike came to unlike peaks.

    Parameters
    ----------
    plain
        The engine.
    figures
        Of each cylinder's cycle.
    """
    if len(figures) != 2 or plain.cylinders[0] != plain.cylinders[1]:
        return False
    low, high = sorted(each.peak_pressure for each in figures)
    return high > _APART * low


def same_way(before: Sequence[CylinderFigures], after: Sequence[CylinderFigures]) -> bool:
    """Whether the same one of two cylinders breathes."""
    return (before[0].peak_pressure > before[1].peak_pressure) is (
        after[0].peak_pressure > after[1].peak_pressure
    )


def turned_round(each: Sequence[One]) -> tuple[One, ...]:
    """One of each cylinder, given to the other."""
    return tuple(reversed(each))
