"""Whom the fuel of one injector reaches, where several cylinders draw from one pipe.

Fuel that arrives while air moves goes with it, parted as the air is; what arrives while nothing
draws lies there until one does, and goes with that one's air.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from firstfire.formulas.validity import require_positive

CYCLE = 4.0 * math.pi
_STEPS = 720


class Draw(NamedTuple):
    """When a cylinder draws, and how much.

    Attributes
    ----------
    begins, lasts
        Crank angle, rad; half a sine of flow over so long.
    air
        kg a cycle.
    """

    begins: float
    lasts: float
    air: float

    def flow(self, angle: float) -> float:
        """Of its air, kg/rad, at a crank angle."""
        along = (angle - self.begins) % CYCLE
        if along >= self.lasts or self.lasts <= 0.0:
            return 0.0
        return self.air * math.pi / (2.0 * self.lasts) * math.sin(math.pi * along / self.lasts)


def shares(begins: float, lasts: float, draws: Sequence[Draw]) -> tuple[float, ...]:
    """Shares of a pulse's fuel that each cylinder gets; they add up to one.

    Parameters
    ----------
    begins, lasts
        Crank angle over which the fuel arrives where the pipes part, rad; it is spread evenly.
    draws
        Of each cylinder.

    Raises
    ------
    OutsideValidity
        Where nobody draws.

    Examples
    --------
    Two that draw in turn: what arrives while the first draws is its own, what comes in between
    is the next one's.

    >>> two = [Draw(0.0, math.pi, 1.0), Draw(2 * math.pi, math.pi, 1.0)]
    >>> shares(0.5, 1.0, two)
    (1.0, 0.0)
    >>> shares(3.5, 1.0, two)
    (0.0, 1.0)
    """
    require_positive(drawn=sum(draw.air for draw in draws))
    found = [0.0] * len(draws)
    for step in range(_STEPS):
        angle = begins + lasts * (step + 0.5) / _STEPS
        flows = [draw.flow(angle) for draw in draws]
        whole = sum(flows)
        if whole > 0.0:
            for place, flow in enumerate(flows):
                found[place] += flow / whole
        else:
            found[_next(angle, draws)] += 1.0
    return tuple(one / _STEPS for one in found)


def _next(angle: float, draws: Sequence[Draw]) -> int:
    """Who draws first from here."""
    drawing = [place for place, draw in enumerate(draws) if draw.air > 0.0 and draw.lasts > 0.0]
    return min(drawing, key=lambda place: (draws[place].begins - angle) % CYCLE)
