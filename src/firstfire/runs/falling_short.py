"""Where an engine like it doesn't come as far in a free rev: how far, and its cycle there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firstfire.engine.events import EVENTS
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.bout import Bout, exhaust_over
from firstfire.runs.free_rev import highest
from firstfire.runs.gas_change import GasChange, all_at_once, gas_change
from firstfire.runs.point import OperatingPoint

_FURTHEST = 3.0
"""Times the way from a free rev to the slower point that its change is followed, either way."""


@dataclass(frozen=True)
class Slower:
    """The full-throttle point next below a free rev, and what makes the free rev's cycle its.

    Attributes
    ----------
    point
        That point.
    changes
        Of each cylinder.
    top
        Speed beyond which it is not followed, rad/s.
    """

    point: OperatingPoint
    changes: tuple[GasChange, ...]
    top: float

    def changed(
        self, changes: Sequence[GasChange], free: OperatingPoint, work: float, rubs: float
    ) -> list[GasChange]:
        """The changes of an engine's cylinders at its own free speed.

        Parameters
        ----------
        changes
            At the free speed of the centre.
        free
            The free rev of the centre.
        work, rubs
            What a cycle gives and what it rubs away, over that of the centre.
        """
        place = self.place(free, work, rubs)
        each = zip(changes, self.changes, strict=True)
        return [all_at_once([(own, 1.0), (slow, place)]) for own, slow in each]

    def place(self, free: OperatingPoint, work: float, rubs: float) -> float:
        """How far towards the slower point an engine stays: 0 at the free rev, 1 at that point.

        Straight between what is left over at both, and no further than `top`.
        """
        here, there = (
            point.brake_torque * work + point.friction.mean_torque * (work - rubs)
            for point in (free, self.point)
        )
        most = (free.speed - self.top) / (free.speed - self.point.speed)
        if there <= here:  # what is left grows with speed: only what is followed ends it
            return most if here >= 0 else _FURTHEST
        return min(max(here / (here - there), most), _FURTHEST)


def slower(plain: PlainEngine, free: Bout, known: Sequence[Bout]) -> Slower | None:
    """What is known of an engine's free rev where it falls short; None without a slower point.

    Parameters
    ----------
    plain
        The engine.
    free
        Its free rev.
    known
        Its bouts at full throttle.
    """
    below = [
        bout
        for bout in known
        if EVENTS[bout.point.event].how == "held" and bout.point.speed < 0.98 * free.point.speed
    ]
    if not below:
        return None
    near = max(below, key=lambda bout: bout.point.speed)
    changes = tuple(
        gas_change(
            free.gases[row],
            near.gases[row],
            near.point.peaks[row].mean / free.point.peaks[row].mean,
            exhaust_over(free, near.point, plain, row),
        )
        for row in range(len(free.gases))
    )
    return Slower(near.point, changes, highest(plain))
