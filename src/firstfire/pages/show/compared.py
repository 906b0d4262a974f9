"""Engines side by side: their descriptions, their factors, their figures; differences first."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup, escape

from firstfire.pages.answers.described import Differing

_NOISE = 0.01
"""Share by which a number must move to be called better or worse, as `firstfire compare` has it."""


@dataclass(frozen=True)
class Standing:
    """One engine of the comparison.

    Attributes
    ----------
    words
        What it is called.
    known
        What its whole check told; None where it isn't computed yet.
    fault
        Why it can't be read; "" where it can.
    """

    words: str
    known: Mapping[str, Any] | None = None
    fault: str = ""


def compared(columns: Sequence[Standing], differing: Sequence[Differing]) -> Markup:
    """Tables of what differs, one column an engine; what is alike is folded away.

    Parameters
    ----------
    columns
        The present engine first.
    differing
        Values of their descriptions that differ, those somebody said first.
    """
    if len(columns) < 2:
        return Markup("<p>{}</p>").format(
            "Nothing lies beside the present engine yet: tick a trial or a file above, or try a "
            "change on the page Will it hold."
        )
    own = [_said(one) for one in differing if one.own]
    follow = [_said(one) for one in differing if not one.own]
    apart, alike = _factors(columns)
    groups = [
        ("Described otherwise", own or [_one("Nothing that somebody said", len(columns))]),
        ("Capacity over demand, each where it is likeliest to end that engine", apart),
        ("Run time, power, odds", _figures(columns)),
    ]
    several = sum(one.known is not None for one in columns) > 1
    title = "Factors that are alike" if several else "Factors of the one that is checked"
    table = _table("Engines side by side", columns, groups)
    return table + _folded(
        f"Values that follow from these: {len(follow)}", columns, follow
    ) + _folded(f"{title}: {len(alike)}", columns, alike)  # fmt: skip


def _table(
    caption: str, columns: Sequence[Standing], groups: Sequence[tuple[str, Sequence[Markup]]]
) -> Markup:
    heads = Markup("").join(_head(one) for one in columns)
    bodies = Markup("").join(
        Markup('<tbody>{}{}</tbody>').format(
            Markup('<tr class="group"><th scope="rowgroup" colspan="{}">{}</th></tr>').format(
                len(columns) + 1, title
            )
            if title
            else "",
            Markup("").join(rows),
        )
        for title, rows in groups
        if rows
    )  # fmt: skip
    return Markup(
        '<div class="scroll" tabindex="0" role="region" aria-label="{}"><table class="beside">'
        '<caption>What differs most comes first. Estimates.</caption><thead><tr><th scope="col">'
        "</th>{}</tr></thead>{}</table></div>"
    ).format(caption, heads, bodies)


def _folded(title: str, columns: Sequence[Standing], rows: Sequence[Markup]) -> Markup:
    if not rows:
        return Markup("")
    return Markup('<details class="more"><summary>{}</summary>{}</details>').format(
        title, _table(title, columns, [("", rows)])
    )


def _head(one: Standing) -> Markup:
    more = one.fault or ("" if one.known is not None else "not checked yet")
    quiet = Markup(' <small class="quiet">{}</small>').format(more) if more else ""
    return Markup('<th scope="col">{}{}</th>').format(one.words, quiet)


def _row(name: str | Markup, cells: Sequence[Markup]) -> Markup:
    inside = Markup("").join(Markup("<td>{}</td>").format(cell) for cell in cells)
    return Markup('<tr><th scope="row">{}</th>{}</tr>').format(name, inside)


def _one(words: str, count: int) -> Markup:
    return Markup('<tr><td colspan="{}" class="quiet">{}</td></tr>').format(count + 1, words)


def _said(one: Differing) -> Markup:
    cells = [
        Markup('{} <small class="quiet">{}</small>').format(value, layer)
        for value, layer in one.each
    ]
    name = Markup('{} <small class="quiet">{}</small>').format(one.name, one.path)
    return _row(name, cells)


def _factors(columns: Sequence[Standing]) -> tuple[list[Markup], list[Markup]]:
    """Lines of factors that differ, the furthest apart first; and those that don't."""
    known = [_by(one, "lines", "way") for one in columns]
    ways = {way: line for each in reversed(known) for way, line in each.items()}
    there = [each for each, one in zip(known, columns, strict=True) if one.known is not None]
    apart: list[Markup] = []
    alike: list[Markup] = []
    for way, line in sorted(ways.items(), key=lambda at: -_apart([k.get(at[0]) for k in there])):
        cells = [each.get(way) for each in known]
        shown = {(c["shown"], c["word"]) if c else None for c in (each.get(way) for each in there)}
        row = _row(
            line["name"],
            [_factor(cell, cells[0], one) for cell, one in zip(cells, columns, strict=True)],
        )
        (apart if len(shown) > 1 else alike).append(row)
    return apart, alike


def _by(one: Standing, what: str, name: str) -> dict[str, Mapping[str, Any]]:
    return {line[name]: line for line in (one.known or {}).get(what, ())}


def _factor(
    cell: Mapping[str, Any] | None, first: Mapping[str, Any] | None, of: Standing
) -> Markup:
    if cell is None:
        return _none(of)
    return Markup("<b>{}</b> {} <small>{}</small>{}").format(
        cell["shown"], cell["word"], escape(cell["point"]), _sense(cell, first, "factor", more=True)
    )


def _none(of: Standing) -> Markup:
    return Markup('<span class="quiet">{}</span>').format("–" if of.known is not None else "...")


def _figures(columns: Sequence[Standing]) -> list[Markup]:
    """Run time, power and the like, those that differ first."""
    known = [_by(one, "figures", "id") for one in columns]
    ids = {ident: line for each in reversed(known) for ident, line in each.items()}
    found = []
    for ident, line in ids.items():
        cells = [each.get(ident) for each in known]
        row = _row(
            line["name"],
            [
                _none(one) if cell is None else Markup("<b>{}</b>{}").format(
                    cell["shown"], _sense(cell, cells[0], "value", more=cell["more"])
                )
                for cell, one in zip(cells, columns, strict=True)
            ],
        )  # fmt: skip
        found.append((len({cell["shown"] for cell in cells if cell}) < 2, row))
    return [row for _, row in sorted(found, key=lambda one: one[0])]


def _sense(
    cell: Mapping[str, Any], first: Mapping[str, Any] | None, what: str, *, more: bool
) -> Markup:
    """Whether it is better or worse than in the first engine, in a word; nothing where alike."""
    if first is None or cell is first or cell["shown"] == first["shown"]:
        return Markup("")
    # No run time is one beyond the horizon of what is run.
    a, b = (math.inf if x[what] is None else float(x[what]) for x in (first, cell))
    if a == b or (math.isfinite(a - b) and abs(a - b) <= _NOISE * max(abs(a), abs(b))):
        return Markup("")
    return Markup(" <small>{}</small>").format("better" if (b > a) is more else "worse")


def _apart(cells: Sequence[Mapping[str, Any] | None]) -> float:
    """How far the factors of one line are apart: the span of their logarithms.

    What one engine has and another hasn't comes first where it is below one, else last.
    """
    factors = [max(float(cell["factor"]), 1e-9) for cell in cells if cell is not None]
    if not factors:
        return 0.0
    if len(factors) < len(cells):
        return math.inf if min(factors) < 1 else 0.0
    return math.log(max(factors) / min(factors))
