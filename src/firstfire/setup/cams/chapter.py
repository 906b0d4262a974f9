"""The cams as a chapter of setting up."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from firstfire.engine.engine import Engine
from firstfire.setup.cams.cam import Cams, cams
from firstfire.setup.cams.suction_inlet import SuctionInlet
from firstfire.setup.cams.text import events, gap_words, opening, suction_words, wound_as
from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.number import Number

CAUTION = (
    "Turn the engine by hand through two full turns, plug out and fuel off, before anything drives "
    "it; where it stops, don't force it."
)


def cams_chapter(engine: Engine) -> Chapter:
    """The cams of an engine, their springs, gaps, and what a suction-opened inlet does."""
    found = cams(engine)
    return Chapter(
        "cams",
        "Cams, springs and gaps",
        tuple(_said(found)),
        tuple(_numbers(found)),
        tuple(_tables(found)),
        CAUTION,
    )


def _said(found: Cams) -> Iterator[str]:
    yield opening(found)
    for one in found.cams:
        yield f"The {one.which} cam: {events(one)}"
        yield from (f"It can't be made: {fault}" for fault in one.faults)
        if one.nearest is not None:
            yield f"The nearest that can be made: {one.nearest.words}."
        yield f"Its spring: {one.no_winding if one.winding is None else wound_as(one.winding)}"
    if found.suction is not None:
        yield suction_words(found.suction)
        yield from found.suction.advice
    yield from found.unjudged


def _numbers(found: Cams) -> Iterator[Number]:
    for one in found.cams:
        for number in one.numbers:
            yield replace(
                number, id=f"{one.which}.{number.id}", words=f"{one.which}: {number.words}"
            )


def _tables(found: Cams) -> Iterator[Table]:
    if found.suction is not None:
        yield _suction(found.suction)
    if found.gaps:
        rows = tuple((case.words, gap_words(case), case.gap.where) for case in found.gaps)
        yield Table("Least gaps of cylinder 1", ("what", "gap", "where"), rows)


def _suction(found: SuctionInlet) -> Table:
    rows = tuple(
        (
            f"{one.speed * 30 / math.pi:.0f} rpm", f"{100 * one.filling:.0f} %",
            f"{math.degrees(one.shuts):.0f}°", f"{100 * one.back:.0f} %", f"{one.openings} ×",
        )
        for one in found.speeds
    )  # fmt: skip
    head = ("speed", "filled", "shuts after bottom", "given back", "opens")
    return Table("The suction-opened inlet", head, rows)
