"""What an engine is made of, as a chapter of setting up: to print, to buy, to make."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from firstfire.setup.all_parts import AllParts
from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.item import Item
from firstfire.setup.laid import Span
from firstfire.setup.text import estimates, hours, laid_so, opening
from firstfire.setup.text_items import checks_words, named, will_do
from firstfire.setup.words import tool
from firstfire.verdict.numbers import shown

TITLE = "Parts to print, to buy and to make"


def parts_chapter(found: AllParts) -> Chapter:
    """All that `firstfire parts` lists, as tables."""
    cautions = " ".join(f"{one.hazard}: {one.text}" for one in found.cautions)
    return Chapter("parts", TITLE, tuple(_said(found)), (), tuple(_tables(found)), cautions)


def _said(found: AllParts) -> Iterator[str]:
    yield opening(found)
    tools = ", ".join(tool(found.engine.catalog, key) for key in found.tools)
    if tools:
        yield f"To measure with: {tools}."
    yield from estimates(found)


def _tables(found: AllParts) -> Iterator[Table]:
    if found.printed:
        printed = [
            (f"{one.count} × {one.part}", laid_so(one), shown(one.count * one.mass, "g"),
             hours(Span(*(one.count * t for t in one.time))), f"{one.lies}; {one.weak}")
            for one in found.printed
        ]  # fmt: skip
        yield Table("To print", ("part", "of what", "mass", "hours", "how it lies"), tuple(printed))
    bought = [(named(one), one.group, one.use, _measured(found, one)) for one in found.bought]
    head = ("what", "shelf", "for", "measure when it comes")
    yield Table("To buy, and what to measure when it comes", head, tuple(bought))
    made = [
        (f"{one.do} {one.what}" + (f" ({one.count} times)" if one.count > 1 else ""),
         f"{one.size}.{will_do(one)}", one.tool, one.why)
        for one in found.made
    ]  # fmt: skip
    yield Table("To make by hand", ("job", "to what size", "with", "why"), tuple(made))
    chosen = tuple((one.what, f"{one.why}.") for one in found.open)
    yield Table("Yours to choose: the file gives no size", ("what", "what to mind"), chosen)


def _measured(found: AllParts, item: Item) -> str:
    said = [
        checks_words(list(checks), why, found.engine.catalog)
        for why, checks in groupby(item.checks, key=lambda check: check.why)
    ]
    rule = f"By {item.standard}." if item.standard else ""
    return " ".join(filter(None, (*said, item.note.replace("`", ""), rule))) or "–"
