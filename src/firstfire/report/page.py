"""A result as one page of HTML that needs nothing else: for phone, desk and paper."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from firstfire.engine.typed import file_lines
from firstfire.report.bars import bar
from firstfire.report.bench import bench
from firstfire.report.charts.collect import charts
from firstfire.report.clean import cleaned
from firstfire.report.drawn import drawn, forces_drawn, part_of
from firstfire.report.inputs import KINDS, sections
from firstfire.report.measure import measure
from firstfire.report.series import strongest_held
from firstfire.report.style import script, style_sheet
from firstfire.runs.tooth_off import why_none
from firstfire.verdict.explain.opening import explanation
from firstfire.verdict.explain.words import NOTE_MOVERS, NOTE_TURNED
from firstfire.verdict.result import Result
from firstfire.verdict.words.balance import balance
from firstfire.verdict.words.card import card
from firstfire.verdict.words.ledger import LedgerLine, ending, ledger, next_moves, without_a_move
from firstfire.verdict.words.made import breathing_words, filling, friction_words, made, spark_words
from firstfire.verdict.words.sentences import brake_words, described, sentences, strongest
from firstfire.verdict.words.tooth import TITLE, tooth_lines

_MOST = 16
_WORDS = ("fails", "marginal", "holds", "not judged")


@dataclass(frozen=True)
class Row:
    """A ledger line as the page has it.

    Attributes
    ----------
    line
        Its words.
    id
        Unique on the page.
    part
        What it lights in the drawing.
    bar, why
        Its bar, and what it opens to.
    """

    line: LedgerLine
    id: str
    part: str
    bar: Markup
    why: Markup


def report(result: Result) -> str:
    """The report of a check as HTML text: one file, no network, works without scripts.

    Parameters
    ----------
    result
        From `check`.
    """
    page = _shown(result)
    return environment().get_template("page.html.j2").render(page, contents=tuple(_contents(page)))


@cache
def environment() -> Environment:
    """Templates, every value escaped and cleaned."""
    found = Environment(
        loader=PackageLoader("firstfire.report"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=cleaned,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.filters["file_lines"] = file_lines
    return found


def _shown(result: Result) -> dict[str, Any]:
    first, *rest = sentences(result)
    best, held = strongest(result), strongest_held(result)
    rows = [_row(result, line) for line in ledger(result.margins, result.plain)]
    return {
        "result": result,
        "described": described(result),
        "lede": _parted(first, result.engine.name),
        "rest": rest,
        "drawing": drawn(result, _addresses(rows), rows[0].part if rows else ""),
        "bench": bench(result),
        "card": card(result),
        "words": _WORDS,
        "ledger": rows,
        "teeth": tooth_lines(result.plain),
        "teeth_title": TITLE,
        "teeth_reason": why_none(result.plain),
        "most": _MOST,
        "charts": charts(result),
        "forces": forces_drawn(held.bout, result.plain) if held else None,
        "made": made(result.events),
        "filling": list(filling(result.points)),
        "friction": friction_words(best) if best else "",
        "spark": spark_words(best) if best else "",
        "ending": ending(result.run_times, result.plain),
        "idling": ending(result.run_times, result.plain, "idle"),
        "breathing": breathing_words(result.points),
        "brake": brake_words(result),
        "moves": next_moves(result.margins, result.plain),
        "unmoved": without_a_move(result.margins, result.plain),
        "measure": measure(result),
        "balance": balance(result),
        "inputs": sections(result.engine),
        "kinds": KINDS,
        "style": Markup(style_sheet()),
        "script": Markup(script()),
        "script_hash": f"sha256-{b64encode(sha256(script().encode()).digest()).decode()}",
    }


def _contents(page: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """Addresses and names of the sections that there are."""
    charts = page["charts"]
    yield from (("drawing", "Drawing"), ("card", "Card"), ("ledger", "What gives way"))
    yield "bench", "Torques and clearances"
    for there, address, words in (
        (charts.cycle, "cycle", "One cycle"),
        (page["made"], "made", "What it makes"),
        (page["ending"] or page["idling"] or charts.heat, "time", "How long it may run"),
        (page["moves"] or page["unmoved"], "moves", "The next move"),
        (page["measure"], "measure", "What to measure first"),
        (page["balance"], "balance", "What shakes it"),
    ):
        if there:
            yield address, words
    yield from (("cautions", "Cautions"), ("unjudged", "Not judged"), ("inputs", "Computed from"))


def _parted(first: str, name: str) -> tuple[str, str]:
    """The first sentence's name, which may be of any script, and what follows it."""
    return (name, first[len(name) :]) if first.startswith(name) else ("", first)


def _row(result: Result, line: LedgerLine) -> Row:
    way = line.margin.way
    opened = environment().get_template("why.html.j2")
    why = opened.render(
        why=explanation(result, line.margin),
        id=anchor(way.id),
        notes={"turned": NOTE_TURNED, "movers": NOTE_MOVERS},
    )
    return Row(line, anchor(way.id), part_of(way.id), bar(line.margin), Markup(why))


def _addresses(rows: Sequence[Row]) -> dict[str, tuple[str, str]]:
    """By part of the drawing, where its worst line stands and what that says."""
    found: dict[str, tuple[str, str]] = {}
    for row in rows:
        said = f"{row.line.name}: {row.line.margin.word}, {row.line.factor}"
        found.setdefault(row.part, (row.id, said))
    return found


def anchor(way: str) -> str:
    """A way's id as an address on the page.

    Examples
    --------
    >>> anchor("head.break#2")
    'head-break-2'
    """
    return re.sub(r"[^a-z0-9]+", "-", way.lower())
