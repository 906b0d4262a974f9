"""Many whole engines drawn and run: what spans, times and odds are held against."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.events import EVENTS, running_order
from firstfire.errors import OutsideValidity
from firstfire.runs.drawn import drawn
from firstfire.runs.ensemble import COUNT
from firstfire.runs.fate import Fate
from firstfire.runs.hands import Stop, shared_out
from firstfire.runs.moved import Trials
from firstfire.runs.run import EventResult, events, run
from firstfire.runs.whole import whole


@dataclass(frozen=True)
class Truth:
    """An engine's events at its centre, and what became of whole engines like it.

    Attributes
    ----------
    results
        By event, with the spans and engines that a check has.
    fates
        Of each whole engine, by event and the number of the point in it.
    """

    results: Mapping[str, EventResult]
    fates: tuple[Mapping[tuple[str, int], Fate], ...]


def truth(
    engine: Engine,
    count: int,
    seed: int,
    *,
    drawn_by_check: int = COUNT,
    stop: Stop | None = None,
    on_progress: Callable[[float], None] | None = None,
) -> Truth:
    """So many whole engines, drawn and run.

    Parameters
    ----------
    engine
        As written down.
    count, seed
        How many; another seed than a check's.
    drawn_by_check
        How many engines the check's own spans, times and odds are drawn from.
    stop, on_progress
        Asked every 0.05 s; told the share of engines run.
    """
    trials = Trials(engine)
    results: dict[str, EventResult] = {}
    for event in running_order(events(engine)):
        try:
            results[event] = run(
                engine, event, results.get(EVENTS[event].after), stop,
                trials=trials, drawn=drawn_by_check,
            )  # fmt: skip
        except OutsideValidity:
            continue
    draws = drawn(trials, count, seed)
    fates = shared_out(
        lambda number: whole(trials, results, draws[number]),
        count,
        stop=stop,
        on_progress=on_progress,
    )
    return Truth(results, tuple(fates))
