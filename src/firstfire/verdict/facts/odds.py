"""All unknowns drawn together, for what hangs on several ways to fail at once."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from firstfire.runs.drawn import SCATTER, piece_of
from firstfire.runs.run import EventResult
from firstfire.runs.spread import Spread
from firstfire.verdict.facts.judge import doubt_of
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.facts.spans import Bend

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Flags = NDArray[np.bool_]

DRAWS = 20_000
_NOTHING = 1e-4


@dataclass(frozen=True)
class Outcomes:
    """Engines drawn from a check's slopes and bends.

    Attributes
    ----------
    gone
        By margin that may give way in some of them, whether it does in each.
    holds
        Whether nothing does, in each.
    bells
        The draws they are made of, by name.
    """

    gone: tuple[tuple[Margin, Flags], ...]
    holds: Flags
    bells: Bells


def outcomes(results: Sequence[EventResult], margins: Sequence[Margin]) -> Outcomes:
    """What gives way in each of many engines drawn.

    Margins of one engine share its unknowns, so their survivals are never multiplied: each draw
    moves every factor by the same unknowns, and each piece's by its own strength.

    Parameters
    ----------
    results
        Of the events that the margins are of.
    margins
        What isn't judged, and what is only reported, is left out.
    """
    drawn = Drawn(results)
    holds = np.ones(DRAWS, dtype=bool)
    gone = []
    for margin in (m for m in margins if m.factor is not None and not m.reported):
        goes = ~(drawn.logs(margin) >= 0)
        if goes.any():
            gone.append((margin, goes))
            holds &= ~goes
    return Outcomes(tuple(gone), holds, drawn.bells)


def joint_odds(results: Sequence[EventResult], margins: Sequence[Margin]) -> float:
    """Probability that nothing judged breaks, all unknowns drawn together; see `outcomes`."""
    return float(np.mean(outcomes(results, margins).holds))


class Drawn:
    """Logarithms of factors in each engine drawn.

    Parameters
    ----------
    results
        Events whose margins are asked for.
    """

    def __init__(self, results: Sequence[EventResult]) -> None:
        self._doubts = {
            bout.point.name: doubt_of(result, number)
            for result in results
            for number, bout in enumerate(result.bouts)
        }
        self.bells = Bells()

    def logs(self, margin: Margin) -> Floats:
        """Of a judged margin; (draws)."""
        factor, way = margin.factor or 0.0, margin.way.id
        if not 0 < factor < math.inf:
            return np.full(DRAWS, math.inf if factor > 0 else -math.inf)
        doubt = self._doubts[margin.point]
        found = doubt.bend(way)
        summed = self.bells.summed(doubt.spread, way)
        return np.asarray(math.log(factor) + found.over(summed, self.bells.rest(found)))


class Bells:
    """Draws of whatever is asked for, by name: the same name gives the same draws."""

    def __init__(self) -> None:
        self._known: dict[str, Floats] = {}
        self._engine: NDArray[np.int64] | None = None

    def of(self, name: str) -> Floats:
        """Standard normal draws."""
        if name not in self._known:
            seed = [20, *name.encode()]
            self._known[name] = np.random.default_rng(seed).standard_normal(DRAWS)
        return self._known[name]

    def engine(self, count: int) -> NDArray[np.int64]:
        """For each draw one of so many engines, the same in every way."""
        if self._engine is None:
            self._engine = np.random.default_rng(21).integers(count, size=DRAWS)
        return self._engine

    def rest(self, found: Bend) -> Floats:
        """What scatters about a parabola, in deviations: that of the same engine in every way."""
        if not found.left or found.rest <= 0:
            return np.zeros(1)
        return np.asarray(np.array(found.left)[self.engine(len(found.left))] / found.rest)

    def summed(self, spread: Spread, way: str) -> Floats:
        """First-order sum of a way in each draw."""
        total = np.zeros(DRAWS)
        for name, slope in zip(spread.names, spread.slopes.get(way, ()), strict=False):
            if abs(slope) > _NOTHING:
                total += slope * self.of(name_of(name, way))
        return total


def name_of(unknown: str, way: str) -> str:
    """What an unknown is drawn under: scatter from piece to piece is each piece's own.

    Examples
    --------
    >>> name_of("doubt.flow", "rod.tear"), name_of("doubt.strength_scatter", "rod.tear#2")
    ('doubt.flow', 'doubt.strength_scatter of rod#2')
    """
    return f"{unknown} of {piece_of(way)}" if unknown == SCATTER else unknown
