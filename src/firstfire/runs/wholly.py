"""A drawn engine at one point, run wholly: gas, walls, strong cycles and speed are its own."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.engine.events import EVENTS
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.at import bout_at, speed_again
from firstfire.runs.bout import Bout
from firstfire.runs.drawn import SPEED, SPEED_SPREAD, Draw
from firstfire.runs.followed_up import followed_up
from firstfire.runs.uneven import TURN, other_way, uneven


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
    if EVENTS[centre.point.event].how == "climbs":
        return followed_up(plain, centre, quicker=SPEED_SPREAD ** draw.shared[SPEED], rare=False)
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
    if EVENTS[centre.point.event].once:
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
