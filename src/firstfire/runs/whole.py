"""One engine of a draw, run wholly: what a check's spans, times and odds have to be true of.

Nothing is taken over from the engine at its centre but the state its cycles are started from:
gas, walls, strong cycles, the idle's throttle and the free speed are its own.
"""

from __future__ import annotations

from collections.abc import Mapping

from firstfire.engine.resolve import PlainEngine
from firstfire.engine.unknowns import Unknown
from firstfire.errors import OutsideValidity
from firstfire.runs.bout import Bout
from firstfire.runs.drawn import Draw, by_piece, engine_at, unknowns_of
from firstfire.runs.fate import Fate, fate
from firstfire.runs.moved import Trials
from firstfire.runs.run import EventResult
from firstfire.runs.wholly import wholly


def whole(
    trials: Trials, results: Mapping[str, EventResult], draw: Draw
) -> dict[tuple[str, int], Fate]:
    """The fate of one engine of a draw at every operating point of a check.

    Parameters
    ----------
    trials
        The engine and its unknowns.
    results
        Its events at the centre, by id.
    draw
        Which engine.

    Returns
    -------
    dict
        By event and the point's number in it. A point that this engine can't be held at (it
        doesn't idle) is left out.
    """
    found: dict[tuple[str, int], Fate] = {}
    run: list[Bout] = []
    engines: dict[tuple[Unknown, ...], PlainEngine] = {}
    for event, result in results.items():
        for number, centre in enumerate(result.bouts):
            unknowns = unknowns_of(trials, centre)
            if unknowns not in engines:
                engines[unknowns] = engine_at(trials, unknowns, draw)
            plain = engines[unknowns]
            try:
                bout = wholly(trials.centre, plain, centre, draw, run)
            except OutsideValidity:
                continue
            run.append(bout)
            found[event, number] = fate(bout, by_piece(plain, unknowns, draw))
    return found
