"""A working with its numbers put in, so that a pocket calculator follows it.

Numbers stand in the units of the bench (mm, N, MPa, °C, rpm). Where these don't agree with the
unit of the result by themselves, a factor at the end of the line turns them: found by working the
line out both in SI and in the units shown. As many figures are written as it takes for every line
to come out right to its third.
"""

from __future__ import annotations

import ast
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from firstfire.engine.arithmetic import NotArithmeticError, parsed, worked_out
from firstfire.engine.records import Line, Way
from firstfire.verdict.explain.bench_units import (
    NOTHING,
    Shown,
    plain,
    shown_in,
    unit_of,
    with_unit,
    words_of,
)
from firstfire.verdict.explain.opened import WorkLine
from firstfire.verdict.explain.written import written

_LEAST, _MOST_DIGITS = 4, 8
_RIGHT = 1e-3
_TINY = 1e-6


@dataclass(frozen=True)
class Followed:
    """A working followed to its end: its lines, and the figures it took."""

    lines: tuple[WorkLine, ...]
    digits: int


def followed(way: Way) -> Followed:
    """The working of a way with its numbers put in.

    Parameters
    ----------
    way
        Judged.
    """
    units = {name: unit_of(name) for name in way.inputs}
    return follow(way.working, way.inputs, units, {name: words_of(name) for name in way.inputs})


def follow(
    working: Sequence[Line],
    inputs: Mapping[str, float],
    input_units: Mapping[str, Shown],
    input_words: Mapping[str, str],
) -> Followed:
    """Lines of arithmetic with their numbers put in.

    Parameters
    ----------
    working
        Each over names of inputs and earlier lines.
    inputs, input_units, input_words
        SI, the unit each is shown in, and what it is called, by name.
    """
    values, units = dict(inputs), dict(input_units)
    for line in working:
        values[line.name] = worked_out(line.expression, values)
        units[line.name] = shown_in(line.unit)
    digits = _digits(working, values, units)
    words = {name: short(said) for name, said in input_words.items()}
    found = []
    for line in working:
        found.append(_work_line(line, values, units, words, digits))
        words[line.name] = short(line.words)
    return Followed(tuple(found), digits)


def short(words: str) -> str:
    """Words of an earlier line, as a later one calls it: without what explains them."""
    for stop in (",", " (", ";"):
        words = words.partition(stop)[0]
    return words


def _digits(
    working: Sequence[Line], values: Mapping[str, float], units: Mapping[str, Shown]
) -> int:  # fmt: skip
    """The fewest figures with which every line comes out right to its third."""
    for digits in range(_LEAST, _MOST_DIGITS):
        rounded = {name: float(_key(values[name], units[name], digits)) for name in values}
        if all(_comes_out(line, rounded, values, units) for line in working):
            return digits
    return _MOST_DIGITS


def _key(value: float, unit: Shown, digits: int) -> str:
    text = plain((value - unit.offset) / unit.factor, digits)
    return "nan" if text == "–" else text


def _comes_out(
    line: Line,
    rounded: Mapping[str, float],
    values: Mapping[str, float],
    units: Mapping[str, Shown],
) -> bool:
    wanted = (values[line.name] - units[line.name].offset) / units[line.name].factor
    try:
        got = worked_out(line.expression, rounded) * turning(line, values, units)
    except NotArithmeticError:
        return False
    return math.isclose(got, wanted, rel_tol=_RIGHT, abs_tol=NOTHING)


def turning(line: Line, values: Mapping[str, float], units: Mapping[str, Shown]) -> float:
    """Factor that turns what the units shown give into the unit of the line.

    Parameters
    ----------
    line
        Of the working.
    values
        SI, by name.
    units
        Unit shown, by name.
    """
    shown = {name: (value - units[name].offset) / units[name].factor
             for name, value in values.items()}  # fmt: skip
    there = worked_out(line.expression, shown)
    if there == 0 or not math.isfinite(there):
        return 1.0
    factor = shown[line.name] / there
    return 1.0 if math.isclose(factor, 1.0, rel_tol=1e-9) else factor


def _work_line(
    line: Line,
    values: Mapping[str, float],
    units: Mapping[str, Shown],
    words: Mapping[str, str],
    digits: int,
) -> WorkLine:
    tree = parsed(line.expression)
    factor = turning(line, values, units)

    def number(name: str) -> str:
        text = plain((values[name] - units[name].offset) / units[name].factor, digits)
        return f"({text})" if text.startswith("-") else text

    put = written(tree, number, digits)
    if factor != 1.0:
        loose = isinstance(tree, ast.BinOp) and isinstance(tree.op, ast.Add | ast.Sub)
        put = f"{f'({put})' if loose else put} × {_turned(factor, digits)}"
    return WorkLine(
        words=line.words,
        symbolic=written(tree, words.__getitem__, digits),
        substituted=put,
        result_text=with_unit(values[line.name], units[line.name], digits),
        name=line.name,
        value=values[line.name],
        unit=line.unit,
        turned=factor != 1.0,
    )


def _turned(factor: float, digits: int) -> str:
    """The factor as one keys it in, also where it is tiny."""
    return plain(factor, digits) if abs(factor) > _TINY else f"{factor:.{digits - 1}e}"
