"""Firing order of any layout: when each cylinder is at top centre, and on which turn it fires.

A cylinder comes to top dead centre twice in the 720° of a four-stroke cycle and may fire on
either of the two. Bank angles and pin angles are both counted in the direction of rotation, from
the bore and the crankpin of cylinder 1; crank angle 0 is the firing top centre of cylinder 1.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import NamedTuple

from firstfire.errors import OutsideValidity

TURN = 2.0 * math.pi
CYCLE = 4.0 * math.pi


class Layout(NamedTuple):
    """Directions of bores and crankpins, one number a cylinder, rad.

    Attributes
    ----------
    banks
        Direction of each bore axis, from that of cylinder 1, in the direction of rotation.
    pins
        Direction of each crankpin on the shaft, from that of cylinder 1, likewise.
    """

    banks: tuple[float, ...]
    pins: tuple[float, ...]


def single() -> Layout:
    """One cylinder."""
    return Layout((0.0,), (0.0,))


def parallel_twin(crank_offset: float) -> Layout:
    """Two bores side by side, the second pin `crank_offset` (rad) ahead of the first."""
    return Layout((0.0, 0.0), (0.0, crank_offset))


def v_twin(v_angle: float, pin_offset: float = 0.0) -> Layout:
    """Two bores at `v_angle` (rad), on a common pin unless the second pin is offset.

    With a pin offset equal to the V angle the two fire evenly.
    """
    return Layout((0.0, v_angle), (0.0, pin_offset))


def opposed_twin(common_pin: bool) -> Layout:
    """Two bores facing each other: on one common pin, or on two pins half a turn apart."""
    return Layout((0.0, math.pi), (0.0, 0.0 if common_pin else math.pi))


def top_centre_angles(layout: Layout, late: Sequence[float] | None = None) -> tuple[float, ...]:
    """Crank angle of each cylinder's first top dead centre after that of cylinder 1, rad.

    Parameters
    ----------
    layout
        Directions of bores and pins.
    late
        For offset bores: angle of top dead centre past the in-line position, one a cylinder
        (:func:`firstfire.formulas.slider_crank.top_centre_angle`).

    Returns
    -------
    tuple of float
        From 0 to below 2π; the first is 0.

    Examples
    --------
    >>> [round(math.degrees(a)) for a in top_centre_angles(parallel_twin(math.radians(270)))]
    [0, 90]
    """
    lates = late if late is not None else [0.0] * len(layout.banks)
    return tuple(
        _wrapped(bank - pin + (own - lates[0]), TURN)
        for bank, pin, own in zip(layout.banks, layout.pins, lates, strict=True)
    )


def firing_angles(
    layout: Layout,
    second_turn: Sequence[bool] | None = None,
    late: Sequence[float] | None = None,
) -> tuple[float, ...]:
    """Crank angle of each cylinder's firing top centre, rad, from 0 to below 4π.

    Parameters
    ----------
    layout
        Directions of bores and pins.
    second_turn
        Which cylinders fire on the second of their two top centres. Left out, the most even
        order is taken (smallest sum of squared intervals); between two equally even ones, the
        one that fires the lower-numbered cylinder sooner.
    late
        As in :func:`top_centre_angles`.

    Raises
    ------
    OutsideValidity
        If the choice has another length than the layout.

    Examples
    --------
    A 45° V on a common pin fires 405° and 315° apart:

    >>> [round(math.degrees(a)) for a in firing_angles(v_twin(math.radians(45)))]
    [0, 405]
    """
    first = top_centre_angles(layout, late)
    if second_turn is not None:
        if len(second_turn) != len(first):
            raise OutsideValidity(
                f"A choice of turns for {len(second_turn)} cylinders does not fit "
                f"{len(first)} cylinders."
            )
        return _on_turns(first, second_turn)
    choices = [
        _on_turns(first, (False, *rest))
        for rest in itertools.product((False, True), repeat=len(first) - 1)
    ]
    return min(choices, key=_unevenness)


def firing_intervals(angles: Sequence[float]) -> tuple[float, ...]:
    """Crank angle from each firing to the next, rad, in firing order; they add up to 4π.

    Examples
    --------
    >>> [round(math.degrees(i)) for i in firing_intervals([0.0, 0.0])]
    [0, 720]
    """
    order = sorted(_wrapped(angle, CYCLE) for angle in angles)
    return tuple(after - before for before, after in itertools.pairwise([*order, order[0] + CYCLE]))


def firing_order(angles: Sequence[float]) -> tuple[int, ...]:
    """Numbers of the cylinders, counted from 1, in the order in which they fire."""
    return tuple(1 + i for i in sorted(range(len(angles)), key=lambda i: angles[i]))


def _on_turns(first: Sequence[float], second_turn: Sequence[bool]) -> tuple[float, ...]:
    return tuple(
        angle + TURN if second else angle for angle, second in zip(first, second_turn, strict=True)
    )


def _unevenness(angles: Sequence[float]) -> float:
    # Rounded, so that equally even orders compare equal and the first of them is kept.
    return round(sum(interval**2 for interval in firing_intervals(angles)), 9)


def _wrapped(angle: float, period: float) -> float:
    wrapped = math.fmod(angle, period)
    if wrapped < 0.0:
        wrapped += period
    # A hair below a full period is rounding of 0.
    return 0.0 if period - wrapped < 1e-9 else wrapped
