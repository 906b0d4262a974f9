"""Timing as a chapter like the others: its events and teeth as tables, its steps to tick."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.timing import words
from firstfire.setup.timing.places import degrees, where
from firstfire.setup.timing.text import TEETH, teeth_words
from firstfire.setup.timing.timing import Timing
from firstfire.setup.timing.words import mm
from firstfire.verdict.numbers import figures

TITLE = "Timing"


def timing_chapter(found: Timing) -> Chapter:
    """When everything happens, and what a tooth is worth."""
    return Chapter(
        "timing", TITLE, tuple(_said(found)), (), (_events(found), _teeth(found)), words.CAUTION
    )


def _said(found: Timing) -> Iterator[str]:
    yield words.opening(found)
    yield from words.apart(found)
    yield words.rim_words(found)
    yield from words.assumed_words(found)
    yield words.sparked_words(found.plain)
    more = (words.latency_words(found.plain), words.belt_words(found), words.tooth_words(found))
    yield from (said for said in more if said)


def _events(found: Timing) -> Table:
    many = len(found.order) > 1
    rows = tuple(
        (degrees(place.event.crank),
         f"{place.event.cylinder} {place.event.name}" if many else place.event.name,
         place.words, mm(place.rim), mm(place.pulley), mm(place.depth))
        for place in found.places
    )  # fmt: skip
    head = ("crank", "event", "where", "rim, mm", "cam wheel, mm", "depth, mm")
    return Table("Every event, in the order in which the crank meets them", head, rows)


def _teeth(found: Timing) -> Table:
    rows = tuple(
        (str(number), teeth_words(row),
         "by suction" if row.inlet_closes is None else where(row.inlet_closes),
         mm(row.inlet_lift, 2), mm(row.exhaust_lift, 2),
         "–" if row.filling is None else f"{100 * row.filling:.0f} %",
         "–" if row.gauge is None else figures(row.gauge / 1e5, 2), words.meets(row))
        for number, rows in enumerate(found.teeth, 1)
        for row in rows
    )  # fmt: skip
    head = (
        "cylinder", "cam", "inlet shuts", "inlet at overlap, mm", "exhaust, mm", "kept",
        "gauge, bar", "room",
    )  # fmt: skip
    return Table(f"A tooth out. {TEETH}", head, rows)
