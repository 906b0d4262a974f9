"""Whom one injector's fuel reaches, where it feeds several cylinders on one pipe."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from firstfire.engine.cam_lift import spans
from firstfire.engine.geometry import firing_angles
from firstfire.engine.injection import OVERLAP
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.shared_feed import CYCLE, Draw, shares
from firstfire.runs.breathed import Breathed

EVEN = 0.05
"""Share by which cylinders' mixtures may differ from their mean without a word. Common practice,
no source: burning hardly tells 5 %."""
_BY_SUCTION = math.pi


@dataclass(frozen=True)
class Feeding:
    """How the fuel of one injector is parted.

    Attributes
    ----------
    timed
        Mixture of each cylinder over what is asked, each pulse timed and long for its own.
    alike
        The same of equal pulses, one a turn, that nobody times to the inlets: the best and the
        worst that a cylinder can have by where they happen to lie.
    overlap
        Whether one pulse isn't over when the next must begin.
    """

    timed: tuple[float, ...]
    alike: tuple[float, float]
    overlap: bool

    @property
    def uneven(self) -> bool:
        """Whether timed pulses leave some cylinder more than `EVEN` off."""
        return max(abs(one - 1.0) for one in self.timed) > EVEN


def feeding(plain: PlainEngine, at: Breathed, arrive: Sequence[float], flow: float) -> Feeding:
    """How the fuel of a shared injector is parted at a point.

    Parameters
    ----------
    plain, at
        The engine, and what it draws.
    arrive
        Crank angle at which the last fuel for each cylinder is where the pipes part, rad.
    flow
        Of the injector held open, kg/s.
    """
    draws = [Draw(*_window(plain, row), air) for row, air in enumerate(at.air)]
    lasts = [mass / flow * at.speed for mass in at.fuel]
    timed = _mixtures(draws, [end - long for end, long in zip(arrive, lasts, strict=True)], lasts)
    return Feeding(timed, _untimed(draws, sum(lasts)), _overlap(arrive, lasts))


def _window(plain: PlainEngine, row: int) -> tuple[float, float]:
    """Where a cylinder begins to draw, after cylinder 1's firing top, and for how long, rad."""
    found = spans(plain.cylinders[row])
    fires = firing_angles(plain)[row]
    if "inlet" not in found:
        return OVERLAP + fires, _BY_SUCTION
    return found["inlet"].opens + fires, found["inlet"].duration


def _mixtures(
    draws: Sequence[Draw], begins: Sequence[float], lasts: Sequence[float]
) -> tuple[float, ...]:
    """Fuel over air of each cylinder against the mean of all."""
    fuel = [0.0] * len(draws)
    for begin, long in zip(begins, lasts, strict=True):
        for place, share in enumerate(shares(begin, long, draws)):
            fuel[place] += share * long
    mean = sum(fuel) / sum(draw.air for draw in draws)
    return tuple(mass / draw.air / mean for mass, draw in zip(fuel, draws, strict=True))


_PLACES = 36


def _untimed(draws: Sequence[Draw], whole: float) -> tuple[float, float]:
    """Leanest and richest that any cylinder is with two equal pulses a cycle, a turn apart."""
    found: list[float] = []
    for place in range(_PLACES):
        first = OVERLAP * place / _PLACES
        found += _mixtures(draws, [first, first + OVERLAP], [0.5 * whole, 0.5 * whole])
    return min(found), max(found)


def _overlap(ends: Sequence[float], lasts: Sequence[float]) -> bool:
    """Whether one pulse isn't over when the next begins."""
    order = sorted(range(len(ends)), key=lambda row: ends[row] % CYCLE)
    for this, after in zip(order, [*order[1:], order[0]], strict=True):
        room = (ends[after] - ends[this]) % CYCLE
        if lasts[after] > (room or CYCLE):
            return True
    return False
