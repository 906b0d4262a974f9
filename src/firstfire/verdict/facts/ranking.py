"""The one ranking: what is most likely to end the engine, in the order of its life.

Engines like it are drawn, and each is led through its life: cranked, fired, idled, opened up. Where
something gives way, that engine has ended; of several that give way at once the weakest ends it.
An early killer thus takes away engines that a later one can no longer end.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from firstfire.engine.events import EVENTS, LIFE
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.run import EventResult
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.facts.odds import DRAWS, Drawn


def is_kept(plain: PlainEngine) -> bool:
    """Whether a load or a limiter keeps an engine from its free speed."""
    limited = plain.spark.limit_speed is not None and plain.spark.limited_by != "nothing"
    return limited or plain.load.kind != "none"


def life(results: Sequence[EventResult]) -> tuple[str, ...]:
    """Events that can end an engine, in their order: a free rev only if it can run away."""
    kept = bool(results) and is_kept(results[0].engine)
    return tuple(event for event in LIFE if EVENTS[event].in_the_odds or not kept)


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
    known = Drawn(results)
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
