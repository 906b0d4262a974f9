"""The present engine and its trials side by side, what differs most first."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from markupsafe import Markup, escape

from firstfire.pages.desk.sheet import Sheet
from firstfire.pages.show.kept import Kept

Lines = Sequence[Mapping[str, Any]]
Column = tuple[str, Lines | None]
"""What it is called, and its ledger; None where it isn't computed yet."""


def compared(columns: Sequence[Column]) -> Markup:
    """A table of factors, one line a way to fail, one column an engine.

    Parameters
    ----------
    columns
        The present engine first.
    """
    if len(columns) < 2:
        return Markup("<p>{}</p>").format(
            "Nothing lies beside the present engine yet: try a change on the page Will it hold."
        )
    known = [{line["way"]: line for line in lines or ()} for _, lines in columns]
    ways = sorted(
        {way: line for one in reversed(known) for way, line in one.items()}.values(),
        key=lambda line: -_apart([one.get(line["way"]) for one in known]),
    )
    heads = Markup("").join(_head(words, lines) for words, lines in columns)
    rows = Markup("").join(_row(line, [one.get(line["way"]) for one in known]) for line in ways)
    return Markup(
        '<div class="scroll" tabindex="0" role="region" aria-label="Factors side by side"><table>'
        "<caption>Capacity over demand, each where it is likeliest to end that engine; what "
        'differs most comes first. Estimates.</caption><thead><tr><th scope="col">what gives way'
        "</th>{}</tr></thead><tbody>{}</tbody></table></div>"
    ).format(heads, rows)


def compared_on(sheet: Sheet, kept: Kept) -> str:
    """The present engine and its trials side by side, as far as they are known."""
    names = ["the present engine", *(trial.words for trial in sheet.trials)]
    columns: list[Column] = []
    for number, words in enumerate(names):
        shown = replace(sheet, shown=number - 1 if number else None)
        known = kept.get(shown.key)
        columns.append((words, None if known is None else known["lines"]))
    return str(compared(columns))


def _head(words: str, lines: Lines | None) -> Markup:
    more = "" if lines is not None else " (not computed yet: show it, and wait for its check)"
    return Markup('<th scope="col">{}</th>').format(f"{words}{more}")


def _row(line: Mapping[str, Any], cells: Sequence[Mapping[str, Any] | None]) -> Markup:
    shown = Markup("").join(_cell(cell) for cell in cells)
    return Markup('<tr><th scope="row">{}</th>{}</tr>').format(line["name"], shown)


def _cell(cell: Mapping[str, Any] | None) -> Markup:
    if cell is None:
        return Markup('<td class="quiet">{}</td>').format("–")
    return Markup("<td><b>{}</b> {} <small>{}</small></td>").format(
        cell["shown"], cell["word"], escape(cell["point"])
    )


def _apart(cells: Sequence[Mapping[str, Any] | None]) -> float:
    """How far the factors of one line are apart: the span of their logarithms.

    What one engine has and another hasn't comes first.
    """
    factors = [max(float(cell["factor"]), 1e-9) for cell in cells if cell is not None]
    if len(factors) < len(cells):
        return math.inf if min(factors) < 1 else 0.0
    return math.log(max(factors) / min(factors))
