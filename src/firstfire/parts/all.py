"""Every way to fail at one moment: the list of all judgements, and the one function that asks them.

A part is never passed over: where no model holds, its record says why.
"""

from __future__ import annotations

from functools import lru_cache

from firstfire.engine.moment import Moment
from firstfire.engine.records import Way
from firstfire.parts import (
    backfire,
    bearings,
    body_foot,
    cam_drive,
    case,
    crank,
    crank_cheek,
    crank_joint,
    eaten,
    fasteners,
    flywheel,
    head,
    head_heat,
    head_notch,
    intake,
    journal,
    journal_joint,
    kick_back,
    lands,
    liner,
    liner_fit,
    piston,
    piston_crown,
    ring,
    rod,
    rod_ends,
    seal,
    shield_hold,
    starter_end,
    swell,
    valve_gear,
    valve_lash,
    valve_seats,
    valve_train,
    valves,
)
from firstfire.parts.events import going_on
from firstfire.parts.failure import Failure, Judgement
from firstfire.parts.inputs import FOUND, Input

JUDGEMENTS: tuple[Judgement, ...] = (
    *head.JUDGEMENTS,
    *head_heat.JUDGEMENTS,
    *valve_seats.JUDGEMENTS,
    *head_notch.JUDGEMENTS,
    *fasteners.JUDGEMENTS,
    *seal.JUDGEMENTS,
    *liner.JUDGEMENTS,
    *liner_fit.JUDGEMENTS,
    *body_foot.JUDGEMENTS,
    *piston_crown.JUDGEMENTS,
    *shield_hold.JUDGEMENTS,
    *eaten.JUDGEMENTS,
    *swell.JUDGEMENTS,
    *piston.JUDGEMENTS,
    *lands.JUDGEMENTS,
    *ring.JUDGEMENTS,
    *rod.JUDGEMENTS,
    *rod_ends.JUDGEMENTS,
    *valves.JUDGEMENTS,
    *valve_gear.JUDGEMENTS,
    *valve_lash.JUDGEMENTS,
    *valve_train.JUDGEMENTS,
    *intake.JUDGEMENTS,
    *crank_joint.JUDGEMENTS,
    *crank.JUDGEMENTS,
    *crank_cheek.JUDGEMENTS,
    *journal.JUDGEMENTS,
    *journal_joint.JUDGEMENTS,
    *starter_end.JUDGEMENTS,
    *kick_back.JUDGEMENTS,
    *bearings.JUDGEMENTS,
    *case.JUDGEMENTS,
    *cam_drive.JUDGEMENTS,
    *flywheel.JUDGEMENTS,
    *backfire.JUDGEMENTS,
)

REPORTED = frozenset(j.failure.id for j in JUDGEMENTS if j.failure.reported)
"""Ids that are told without being a part's end: a charred or softened skin."""


def failures() -> tuple[Failure, ...]:
    """Every way to fail that is declared, whatever the engine."""
    return tuple(judgement.failure for judgement in JUDGEMENTS)


_UNLISTED = Input("", "", by="the event judged")


def put_in(name: str) -> Input:
    """What a number put into a working is called, and where it is from.

    Parameters
    ----------
    name
        As it was given; no path of the engine file.
    """
    if name in FOUND:
        return FOUND[name]
    own = (failure.numbers[name] for failure in failures() if name in failure.numbers)
    return next(own, _UNLISTED)


def ways(moment: Moment) -> tuple[Way, ...]:
    """Every way to fail that matters to this engine at this moment.

    Parameters
    ----------
    moment
        One event, one cylinder, one set of plain numbers.

    Returns
    -------
    tuple[Way, ...]
        Of the cylinder judged; with cylinder 0 also of crank, bearings, cam drive and flywheel.
        Ids of a second cylinder end in ``#2``. Not judged ones say why.
    """
    return tuple(judge(moment) for judge in judged_during(moment.event) if judge.applies(moment))


@lru_cache(maxsize=64)
def judged_during(event: str) -> tuple[Judgement, ...]:
    """Every judgement of what an event can break."""
    active = going_on(event)
    return tuple(j for j in JUDGEMENTS if not j.failure.during.isdisjoint(active))
