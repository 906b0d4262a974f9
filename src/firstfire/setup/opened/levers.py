"""What moves a number of setting up, and by how much: each value of the file by itself."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

from firstfire.engine.arithmetic import NotArithmeticError, worked_out
from firstfire.engine.grammar import leaves
from firstfire.engine.records import Line
from firstfire.setup.opened.sheet import Sheet
from firstfire.verdict.explain.bench_units import words_of
from firstfire.verdict.numbers import figures

_MORE = 1.1
_FELT = 0.005
_MOST = 8


def what_moves(
    put: Mapping[str, float], lines: Sequence[Line], called: Callable[[str], str]
) -> list[str]:
    """Each number put in moved by a tenth, those that move it most first.

    Parameters
    ----------
    put, lines
        What a working begins from, and its lines; the last is ``value``, one may be ``limit``.
    called
        What a number is called; "" where nobody can move it.
    """
    told = list[tuple[float, str]]()
    for name, value in put.items():
        words = called(name)
        if not words or value == 0.0:
            continue
        for line, what in (("value", "it"), ("limit", "its limit")):
            times = _times(put, lines, name, line)
            if times is not None and abs(math.log(times)) > _FELT:
                told.append((abs(math.log(times)), f"{words} 10 % more: {what} × {figures(times)}"))
    return [text for _, text in sorted(told, key=lambda pair: -pair[0])[:_MOST]]


def of_sheet(sheet: Sheet) -> list[str]:
    """What moves a number of a sheet; what a table or common practice says stays."""

    def called(name: str) -> str:
        if name in sheet.paths:
            return of_the_file(name)
        given = sheet.given[name]
        return given.words if given.kind == "computed" else ""

    put = {**sheet.paths, **{name: one.value for name, one in sheet.given.items()}}
    return what_moves(put, sheet.lines, called) if sheet.lines else []


def of_the_file(path: str) -> str:
    """What a value of the file is called; "" of a count, of a temperature and of what is none."""
    leaf = leaves().get(path)
    if leaf is None or leaf.form == "integer" or leaf.dimension == "temperature":
        return ""
    return words_of(path).removeprefix("valves's ")


def _times(put: Mapping[str, float], lines: Sequence[Line], name: str, line: str) -> float | None:
    """By how much a line grows; None where it has none or no size."""
    moved = {**put, name: put[name] * _MORE}
    before, after = (_line(values, lines, line) for values in (put, moved))
    if before is None or after is None or before == 0.0 or after / before <= 0.0:
        return None
    return after / before


def _line(put: Mapping[str, float], lines: Sequence[Line], line: str) -> float | None:
    values = dict(put)
    try:
        for one in lines:
            values[one.name] = worked_out(one.expression, values)
    except NotArithmeticError:
        return None
    return values.get(line)
