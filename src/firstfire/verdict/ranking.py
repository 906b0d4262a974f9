"""The one ranking: what is most likely to end the engine, in the order of its life.

Engines like it are drawn, and each is led through its life: cranked, fired, idled, opened up. Where
something gives way, that engine has ended; of several that give way at once the weakest ends it.
An early killer thus takes away engines that a later one can no longer end.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.resolve import PlainEngine
from firstfire.runs.drawn import SCATTER, piece_of
from firstfire.runs.run import EventResult
from firstfire.runs.spread import Spread
from firstfire.verdict.judge import doubt_of
from firstfire.verdict.margin import LIFE, Margin
from firstfire.verdict.spans import Bend

Floats = NDArray[np.float64]

DRAWS = 20_000
_NOTHING = 1e-4


def is_kept(plain: PlainEngine) -> bool:
    """Whether a load or a limiter keeps an engine from its free speed."""
    limited = plain.spark.limit_speed is not None and plain.spark.limited_by != "nothing"
    return limited or plain.load.kind != "none"


def life(results: Sequence[EventResult]) -> tuple[str, ...]:
    """Events that can end an engine, in their order: a free rev only if it can run away."""
    kept = bool(results) and is_kept(results[0].engine)
    return tuple(event for event in LIFE if not (kept and event == "free_rev"))


def counts(margin: Margin) -> bool:
    """Whether a margin can end the engine within an event's first second.

    A charred skin and lost breath are told and end nothing; limits of temperature belong to the
    clock, since they come with seconds and not with a cycle.
    """
    return margin.factor is not None and not margin.reported and margin.way.unit != "K"


def ranked(results: Sequence[EventResult], margins: Sequence[Margin]) -> list[Margin]:
    """The margins with their chance to end the engine, likeliest first.

    Parameters
    ----------
    results
        Of every event run.
    margins
        Of those.

    Returns
    -------
    list[Margin]
        By chance to end it; what ends none of the engines drawn by its own chance to give way.
    """
    known = _Drawn(results)
    alive = np.ones(DRAWS, dtype=bool)
    ends: dict[int, float] = {}
    for event in life(results):
        here = [at for at, m in enumerate(margins) if m.event == event and counts(m)]
        if not here:
            continue
        logs = np.array([known.logs(margins[at]) for at in here])
        weakest, gone = logs.argmin(axis=0), alive & (logs.min(axis=0) < 0)
        taken = np.bincount(weakest[gone], minlength=len(here)) / DRAWS
        ends |= dict(zip(here, taken.tolist(), strict=True))
        alive &= ~gone
    found = [replace(m, ends=ends.get(at)) for at, m in enumerate(margins)]
    return sorted(found, key=lambda margin: margin.rank)


def joint_odds(results: Sequence[EventResult], margins: Sequence[Margin]) -> float:
    """Probability that nothing judged breaks, all unknowns drawn together.

    Margins of one engine share its unknowns, so their survivals are never multiplied: each draw
    moves every factor by the same unknowns, and each piece's by its own strength.
    """
    known = _Drawn(results)
    holds = np.ones(DRAWS, dtype=bool)
    for margin in margins:
        if margin.factor is not None and not margin.reported:
            holds &= known.logs(margin) >= 0
    return float(np.mean(holds))


class _Drawn:
    """Logarithms of factors in each draw; the same name gives the same draws.

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
        self._known: dict[str, Floats] = {}
        self._engine: NDArray[np.int64] | None = None

    def logs(self, margin: Margin) -> Floats:
        """Of a judged margin; (draws)."""
        factor, way = margin.factor or 0.0, margin.way.id
        if not 0 < factor < math.inf:
            return np.full(DRAWS, math.inf if factor > 0 else -math.inf)
        doubt = self._doubts[margin.point]
        found = doubt.bend(way)
        summed = self._summed(doubt.spread, way)
        return np.asarray(math.log(factor) + found.over(summed, self._rest(found)))

    def _of(self, name: str) -> Floats:
        if name not in self._known:
            seed = [20, *name.encode()]
            self._known[name] = np.random.default_rng(seed).standard_normal(DRAWS)
        return self._known[name]

    def _rest(self, found: Bend) -> Floats:
        """What scatters about a parabola, in deviations: that of the same engine in every way."""
        if not found.left or found.rest <= 0:
            return np.zeros(1)
        if self._engine is None:
            self._engine = np.random.default_rng(21).integers(len(found.left), size=DRAWS)
        return np.asarray(np.array(found.left)[self._engine] / found.rest)

    def _summed(self, spread: Spread, way: str) -> Floats:
        """First-order sum of a way in each draw."""
        total = np.zeros(DRAWS)
        for name, slope in zip(spread.names, spread.slopes.get(way, ()), strict=False):
            if abs(slope) > _NOTHING:
                own = f"{name} of {piece_of(way)}" if name == SCATTER else name
                total += slope * self._of(own)
        return total
