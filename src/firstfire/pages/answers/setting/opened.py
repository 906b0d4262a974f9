"""Numbers of a chapter opened to their working, as fragments that a page asks for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, NamedTuple

from firstfire.engine.engine import Engine
from firstfire.pages.answers.templates import environment, rendered
from firstfire.setup.chapter import Chapter
from firstfire.setup.number import Number, number_text
from firstfire.setup.opened.explain import explained
from firstfire.setup.opened.rooms import Numbers as Worked
from firstfire.setup.opened.rooms import numbers_of
from firstfire.verdict.explain.words import NOTE_MOVERS, NOTE_TURNED
from firstfire.verdict.facts.margin import Word

_ROOMS = {one: one for one in ("timing", "spark", "fuel", "fits", "proof")} | {"cams": "cam"}
"""Room of `firstfire explain` by chapter; wiring has no numbers."""
_NOTES = {"turned": NOTE_TURNED, "movers": NOTE_MOVERS}


class Line(NamedTuple):
    """A number as it is listed: the id it is opened by, and words."""

    id: str
    words: str
    text: str
    against: str
    word: Word | str


@dataclass(frozen=True)
class Numbers:
    """The numbers of a chapter, and what each opens to by its id."""

    lines: tuple[Line, ...]
    whys: dict[str, str]


def numbers(engine: Engine, chapter: Chapter, known: Worked | None = None) -> Numbers:
    """Every number of a chapter: with its working where there is one, else with its reason.

    Parameters
    ----------
    engine, chapter
        What it is of.
    known
        Its numbers with their workings, where they are known already.

    Raises
    ------
    FirstfireError
        Where the engine can't be set up as the file says.
    """
    room = _ROOMS.get(chapter.id, "")
    worked = known if known is not None else numbers_of(engine, room) if room else {}
    told = {f"{room}.{one.id}": one for one in chapter.numbers}
    told = {ident: one for ident, (one, _) in worked.items()} | told
    lines, whys = list[Line](), dict[str, str]()
    for name, one in told.items():
        ident = f"set.{chapter.id}.{name}"
        lines.append(_line(ident, one))
        found = explained(engine, name, *worked[name]) if name in worked else None
        whys[ident] = _reason(one) if found is None else _why(found, ident)
    return Numbers(tuple(lines), whys)


def _line(ident: str, one: Number) -> Line:
    if not one.judged:
        return Line(ident, one.words, "–", "", "not judged")
    if one.limit is None:
        return Line(ident, one.words, one.text, "", "")
    against = f"{one.side} {number_text(one.limit, one.unit)}"
    return Line(ident, one.words, one.text, against, "holds" if one.holds else "fails")


def _why(why: Any, ident: str) -> str:
    template = environment().get_template("why.html.j2")
    return template.render(why=why, id=f"why-{ident}", notes=_NOTES)


def _reason(one: Number) -> str:
    return rendered("reason.html.j2", one=one)
