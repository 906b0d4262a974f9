"""Finding a judgement: the list of all, and the one that a person meant."""

from __future__ import annotations

import difflib
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from firstfire.engine.events import EVENTS
from firstfire.errors import FirstfireError
from firstfire.parts.all import failures
from firstfire.verdict.facts.margin import Margin, RunTime
from firstfire.verdict.words.ledger import base

_MOST_NEAR = 5


def known_id(wanted: str) -> str:
    """The id that a person meant, whole: its cylinder, where it is said, is kept.

    Parameters
    ----------
    wanted
        An id, or a piece of one or of its words that only one has: ``cheek``, ``rod.tear#2``.

    Raises
    ------
    FirstfireError
        Where several or none have it, with those or the nearest.

    Examples
    --------
    >>> known_id("cheek"), known_id("rod.tear#2")
    ('crank.cheek.break', 'rod.tear#2')
    """
    name, mark, cylinder = wanted.strip().lower().partition("#")
    ids = [failure.id for failure in failures()]
    if name in ids:
        return name + mark + cylinder
    found = [ident for ident in ids if name in ident] if name else []
    if not found and name:
        found = [f.id for f in failures() if name in f"{f.part} {f.failure}".lower()]
    if len(found) == 1:
        return found[0] + mark + cylinder
    raise FirstfireError(_which(wanted, found) if found else _unknown(wanted, name, ids))


def _which(wanted: str, found: Sequence[str]) -> str:
    return f'"{wanted}" is part of {len(found)} ids: {", ".join(found)}. Name one of them.'


def _unknown(wanted: str, name: str, ids: Sequence[str]) -> str:
    return (
        f'No judgement is called "{wanted}". The nearest are {", ".join(nearest(name, ids))}; '
        "`firstfire explain FILE` lists all."
    )


def known_event(wanted: str | None) -> str | None:
    """An event's id as a person wrote it; None where none was asked for.

    Raises
    ------
    FirstfireError
        Where there is none of that name, or this version doesn't compute it.

    Examples
    --------
    >>> known_event("full throttle")
    'full_throttle'
    """
    if wanted is None:
        return None
    ident = wanted.strip().lower().replace(" ", "_").replace("-", "_")
    computed = [event.id for event in EVENTS.values() if event.computed]
    if ident in computed:
        return ident
    why = "not computed in this version" if ident in EVENTS else "not known"
    raise FirstfireError(f'The event "{wanted}" is {why}. Events are: {", ".join(computed)}.')


def nearest(name: str, ids: Iterable[str]) -> list[str]:
    """Ids that are like a name, best first."""

    def likeness(ident: str) -> float:
        pieces = [ident, *ident.split(".")]
        return max(difflib.SequenceMatcher(None, name, piece).ratio() for piece in pieces)

    return sorted(ids, key=likeness, reverse=True)[:_MOST_NEAR]


def the_one(
    margins: Sequence[Margin],
    ident: str,
    event: str | None = None,
    limits: Sequence[RunTime] = (),
) -> Margin:
    """The margin of an id where it is worst.

    Parameters
    ----------
    margins
        Worst first.
    limits
        Run times: of places that are equally bad the one is taken where it comes soonest.
    ident
        Whole; without a cylinder the worse one is taken.
    event
        Only there.

    Raises
    ------
    FirstfireError
        Where this engine, or this event, has no such judgement.
    """
    name, _, cylinder = ident.partition("#")
    mine = [m for m in margins if base(m.way) == name and cylinder in ("", _cylinder(m))]
    here = [m for m in mine if event is None or m.event == event]
    if here:
        soonest = {(r.way.id, r.point): r.seconds for r in limits if r.seconds is not None}
        return min(here, key=lambda m: (m.rank, soonest.get((m.way.id, m.point), math.inf)))
    if mine:
        where = ", ".join(dict.fromkeys(m.event for m in mine))
        raise FirstfireError(f'"{ident}" is not judged in "{event}". It is in: {where}.')
    near = nearest(name, dict.fromkeys(base(m.way) for m in margins))
    raise FirstfireError(
        f'"{ident}" is not judged of this engine: it has no such part, or nothing run here can '
        f"break it. Judged are {', '.join(near)} and others; `firstfire explain FILE` lists all."
        if near
        else f'"{ident}" is not judged of this engine in what was run here.'
    )


def _cylinder(margin: Margin) -> str:
    return margin.way.id.partition("#")[2] or "1"


def elsewhere(margins: Sequence[Margin], margin: Margin) -> list[Margin]:
    """The same way to fail at other events, points and cylinders, worst first."""
    return [m for m in margins if base(m.way) == base(margin.way) and m is not margin]


@dataclass(frozen=True)
class Listed:
    """One way to fail in the list: where it is worst, and the worst of each other event.

    Attributes
    ----------
    worst
        Of all events, points and cylinders.
    others
        Of each other event.
    places
        Every margin of it, worst first.
    """

    worst: Margin
    others: tuple[Margin, ...]
    places: tuple[Margin, ...]


def listed(margins: Sequence[Margin]) -> list[Listed]:
    """Every way to fail of a check once, worst first, each with where else it is judged."""
    found: dict[str, list[Margin]] = {}
    for margin in margins:
        found.setdefault(base(margin.way), []).append(margin)
    return [_listed(places) for places in found.values()]


def _listed(places: Sequence[Margin]) -> Listed:
    by_event = {margin.event: margin for margin in reversed(places)}
    del by_event[places[0].event]
    others = sorted(by_event.values(), key=lambda margin: margin.rank)
    return Listed(places[0], tuple(others), tuple(places))
