"""Angles that a start stops at: where a charge comes in, and where the sides of a tooth pass."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstfire.formulas.spark_clock import Timing

_TURN, _CYCLE = 2 * math.pi, 4 * math.pi
INTAKE_TOP, INTAKE_BOTTOM, TOOTH_BEGINS, TOOTH_ENDS = "top", "bottom", "begins", "ends"
HOLE_SHUTS = "hole shuts"
NEAR = 1e-7
"""Angles that are so near are one, rad."""


@dataclass(frozen=True)
class Mark:
    """An angle, rad unwrapped, the cylinder it belongs to, from 0, and what it is."""

    angle: float
    cylinder: int
    kind: str


def marks_after(
    angle: float,
    phases: Sequence[float],
    sparked_at: Sequence[float],
    timing: Timing,
    shuts: float = 0.0,
) -> list[Mark]:
    """What comes next beyond an angle, going forwards, all at one angle.

    Parameters
    ----------
    angle
        rad, unwrapped.
    phases
        Firing top centre of each cylinder, rad.
    sparked_at
        Where each one's wheel takes that for, rad.
    timing
        What its sparks go by.
    shuts
        Before firing top, where a hole that lets compression off shuts, rad; 0: none does.
    """
    found = list(_next_of_each(angle, phases, sparked_at, timing))
    if shuts > 0.0:
        for row, phase in enumerate(phases):
            turns = math.floor((angle + NEAR - phase + shuts) / _CYCLE) + 1
            found.append(Mark(phase - shuts + turns * _CYCLE, row, HOLE_SHUTS))
    first = min(mark.angle for mark in found)
    return [mark for mark in found if mark.angle < first + NEAR]


def marks_before(
    angle: float, phases: Sequence[float], sparked_at: Sequence[float], timing: Timing
) -> list[Mark]:
    """What comes next below an angle, going backwards, all at one angle.

    A tooth is met at the side where it ends, and left where it begins; an exhaust stroke is the
    way down that draws gas in.

    Parameters
    ----------
    angle, phases, sparked_at, timing
        As `marks_after` has them.
    """
    found = []
    for row, (phase, top) in enumerate(zip(phases, sparked_at, strict=True)):
        for kind, at, every in (
            (INTAKE_TOP, phase + _TURN, _CYCLE),
            (INTAKE_BOTTOM, phase + math.pi, _CYCLE),
            (TOOTH_BEGINS, top - timing.trailing, timing.turn),
            (TOOTH_ENDS, top - timing.leading, timing.turn),
        ):
            turns = math.ceil((angle - NEAR - at) / every) - 1
            found.append(Mark(at + turns * every, row, kind))
    last = max(mark.angle for mark in found)
    return [mark for mark in found if mark.angle > last - NEAR]


def _next_of_each(
    angle: float, phases: Sequence[float], sparked_at: Sequence[float], timing: Timing
) -> Iterator[Mark]:
    for row, (phase, top) in enumerate(zip(phases, sparked_at, strict=True)):
        for kind, at, every in (
            (INTAKE_TOP, phase - _TURN, _CYCLE),
            (INTAKE_BOTTOM, phase - math.pi, _CYCLE),
            (TOOTH_BEGINS, top - timing.leading, timing.turn),
            (TOOTH_ENDS, top - timing.trailing, timing.turn),
        ):
            turns = math.floor((angle + NEAR - at) / every) + 1
            yield Mark(at + turns * every, row, kind)
