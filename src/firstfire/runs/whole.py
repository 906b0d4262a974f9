"""One engine of a draw, run wholly: what a check's spans, times and odds have to be true of.

Nothing is taken over from the engine at its centre but the state its cycles are started from:
gas, walls, strong cycles, the idle's throttle and the free speed are its own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from firstfire.engine.events import EVENTS
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.unknowns import Unknown
from firstfire.errors import OutsideValidity
from firstfire.runs.at import bout_at, speed_again
from firstfire.runs.bout import Bout
from firstfire.runs.drawn import SPEED, SPEED_SPREAD, Draw, by_piece, engine_at, unknowns_of
from firstfire.runs.fate import Fate, fate
from firstfire.runs.moved import Trials
from firstfire.runs.uneven import TURN, other_way, uneven

if TYPE_CHECKING:
    from firstfire.runs.run import EventResult


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


def wholly(
    at_centre: PlainEngine,
    plain: PlainEngine,
    centre: Bout,
    draw: Draw,
    run: Sequence[Bout] = (),
) -> Bout:
    """A drawn engine at a point, with gas and walls of its own.

    Parameters
    ----------
    at_centre, plain
        The engine that all are drawn from, and the one drawn.
    centre
        The point as the first has it.
    draw
        Which engine it is.
    run
        Its own full-throttle points, which a free rev is sought from.

    Raises
    ------
    OutsideValidity
        Where it can't be held there: it doesn't idle.
    """
    found = _held(plain, centre, draw, run)
    turned = draw.shared[TURN] > 0 and uneven(at_centre, centre.point.fired.cycle.cylinders)
    return other_way(found) if turned else found


def drawn_are_run(plain: PlainEngine, centre: Bout) -> bool:
    """Whether engines drawn are run at a bout, and not reckoned from what each input does there.

    They are where the gas answers in jumps: two cylinders alike that don't breathe alike have other
    states near them, and an inlet that suction opens lifts by how long the throttle starves it,
    which at an idle is a few thousandths of a bar.
    A first combustion is run for every engine too: it is one cycle, and at a strong one's end the
    answers of its inputs one by one, put together, say a tenth more than it comes to.
    """
    if EVENTS[centre.point.event].how == "fired once":
        return True
    if uneven(plain, centre.point.fired.cycle.cylinders):
        return True
    by_suction = any(parts.valves.inlet.worked == "suction" for parts in plain.cylinders)
    return EVENTS[centre.point.event].how == "throttled" and by_suction


def _held(plain: PlainEngine, centre: Bout, draw: Draw, run: Sequence[Bout]) -> Bout:
    """A drawn engine at a point, its cycles started from those of the centre."""
    point = centre.point
    at_full = [bout.point for bout in run if EVENTS[bout.point.event].how == "held"]
    return bout_at(
        plain, point.event, speed_again(plain, point, at_full), point.name,
        start=point.fired.cycle.state, quicker=SPEED_SPREAD ** draw.shared[SPEED],
    )  # fmt: skip
