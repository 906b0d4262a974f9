"""Tables of numbers as curves, so that a chapter without a sheet has a picture too."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from firstfire.report.charts.plot import Axis, Chart, Plot, plot
from firstfire.setup.chapter import Chapter, Table

_NUMBER = re.compile(r"[-+−]?\d+(?:\.\d+)?")
_KINDS = ("strong", "dashed", "dotted", "dashdot", "second")
_FEWEST, _ROOM = 3, 0.08


class _Curve(NamedTuple):
    """One curve: its name, and its places."""

    name: str
    x: list[float]
    y: list[float]


def charts(chapter: Chapter) -> Iterator[Chart]:
    """A chart of each table that is one: numbers that rise in its first column or its head."""
    for place, table in enumerate(chapter.tables):
        found, across, up = _along_head(table) or _down_column(table)
        if found:
            yield _chart(f"{chapter.id}-{place}", table.caption, found, across, up)


def _down_column(table: Table) -> tuple[list[_Curve], str, str]:
    """First column over second, where both are numbers."""
    rows = [[_first(cell) for cell in row[:2]] for row in table.rows]
    known = [(row[0], row[1]) for row in rows if None not in row]
    x = [one for one, _ in known if one is not None]
    if len(known) < _FEWEST or len(known) < len(rows) or not _one_way(x):
        return [], "", ""
    y = [one for _, one in known if one is not None]
    return [_Curve("", x, y)], _with_unit(table.head[0], table.rows[0][0]), table.head[1]


def _along_head(table: Table) -> tuple[list[_Curve], str, str] | None:
    """A curve a row over the numbers in the head; None where the head has none."""
    heads = [_first(head) for head in table.head[1:]]
    x = [one for one in heads if one is not None]
    if len(x) < _FEWEST or len(x) < len(heads) or not _one_way(x):
        return None
    found = []
    for row in table.rows:
        cells = [(at, _first(cell)) for at, cell in zip(x, row[1:], strict=True)]
        known = [(at, value) for at, value in cells if value is not None]
        if len(known) >= _FEWEST:
            found.append(_Curve(row[0], [at for at, _ in known], [value for _, value in known]))
    across = table.head[1].lstrip("0123456789.- \u202f")
    return (found, across, f"a curve for each {table.head[0]}") if found else None


def _first(cell: str) -> float | None:
    """The number that a cell begins with."""
    found = _NUMBER.match(cell.strip().lstrip("~<>±"))
    return None if found is None else float(found[0].replace("−", "-"))


def _one_way(x: Sequence[float]) -> bool:
    rising = [after > before for before, after in pairwise(x)]
    falling = [after < before for before, after in pairwise(x)]
    return all(rising) or all(falling)


def _with_unit(head: str, cell: str) -> str:
    unit = cell.strip().lstrip("0123456789.-+− \u202f")
    return f"{head}, {unit}" if unit and unit not in head else head


def _chart(ident: str, title: str, found: Sequence[_Curve], across: str, up: str) -> Chart:
    x, y = ([v for one in found for v in getattr(one, side)] for side in "xy")
    room = _ROOM * ((max(y) - min(y)) or abs(max(y)) or 1.0)
    paper = plot(
        Axis(min(x), max(x), across), Axis(min(y) - room, max(y) + room, up), height=200,
    )  # fmt: skip
    for one, kind in zip(found, _KINDS, strict=False):
        paper = _drawn(paper, one, kind)
    said = f"{title}. The numbers stand in the table below."
    return Chart(f"chart-{ident}", title, said, paper.svg(f"chart-{ident}", title, said))


def _drawn(paper: Plot, one: _Curve, kind: str) -> Plot:
    order = sorted(range(len(one.x)), key=one.x.__getitem__)
    x, y = [one.x[n] for n in order], [one.y[n] for n in order]
    paper = paper.curve(x, y, kind, one.name)
    if not one.name:
        return paper
    spots = [(paper.x.at(at), paper.y.at(value) - 4) for at, value in zip(x, y, strict=True)]
    return paper.words(spots[::-1], one.name)
