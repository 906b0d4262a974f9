"""Two cylinders that are built alike and don't breathe alike: either may be the one that does.

Inlets that suction opens on one plenum can settle with one cylinder full and the other half
empty, and as well the other way round. Which it is follows from nothing that is known.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from firstfire.cycle.figures import CylinderFigures
from firstfire.cycle.fired import Fired
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.bout import Bout

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


def with_figures(fired: Fired, figures: tuple[CylinderFigures, ...]) -> Fired:
    """A run with other figures of its cylinders."""
    return replace(fired, cycle=replace(fired.cycle, cylinders=figures))


def other_way(bout: Bout) -> Bout:
    """A bout in which it is the other one of its two cylinders that breathes."""
    point = bout.point
    turned = replace(
        point,
        walls=turned_round(point.walls),
        peaks=turned_round(point.peaks),
        friction=replace(point.friction, rod_ends=turned_round(point.friction.rod_ends)),
        fired=with_figures(point.fired, turned_round(point.fired.cycle.cylinders)),
    )
    return replace(
        bout,
        point=turned,
        gases=turned_round(bout.gases),
        histories=turned_round(bout.histories),
    )
