"""One engine of a draw, run wholly: what a check's spans, times and odds have to be true of.

Nothing is taken over from the engine at its centre but the state its cycles are started from:
gas, walls, strong cycles, the idle's throttle and the free speed are its own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from firstfire.engine.resolve import PlainEngine
from firstfire.engine.unknowns import Unknown
from firstfire.errors import OutsideValidity
from firstfire.runs.bout import Bout, first_fired, held, turned
from firstfire.runs.drawn import SPEED, SPEED_SPREAD, Draw, by_piece, engine_at, unknowns_of
from firstfire.runs.events import HORIZON
from firstfire.runs.fate import Fate, fate
from firstfire.runs.free_rev import free_speed
from firstfire.runs.moved import Trials
from firstfire.runs.point import spark_angle
from firstfire.runs.turning_over import speed_before_top
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


def jumps(plain: PlainEngine, centre: Bout) -> bool:
    """Whether a bout's gas answers to what is uncertain in jumps, so that engines drawn are run.

    Two cylinders alike that don't breathe alike have other states near them. An inlet that suction
    opens lifts by how long the throttle starves it: at an idle that is a few thousandths of a bar.
    """
    if uneven(plain, centre.point.fired.cycle.cylinders):
        return True
    by_suction = any(parts.valves.inlet.worked == "suction" for parts in plain.cylinders)
    return centre.point.event == "idle" and by_suction


def _held(plain: PlainEngine, centre: Bout, draw: Draw, run: Sequence[Bout]) -> Bout:
    """A drawn engine at a point, its cycles started from those of the centre."""
    point = centre.point
    event, state = point.event, point.fired.cycle.state
    if event == "cranking":
        return turned(plain, point.name, point.speed, start=state)
    if event == "first_fire":
        cranked = turned(plain, point.name, plain.use.cranking_speed)
        left = speed_before_top(plain, cranked.point) * SPEED_SPREAD ** draw.shared[SPEED]
        return first_fired(plain, point.name, left, spark_angle(plain, left, starting=True))
    speed = point.speed
    if event == "free_rev":
        at_full = [bout.point for bout in run if bout.point.event == "full_throttle"]
        speed = free_speed(plain, at_full).speed
    spark = spark_angle(plain, speed, starting=False)
    return held(plain, event, point.name, speed, spark, HORIZON[event], start=state)
