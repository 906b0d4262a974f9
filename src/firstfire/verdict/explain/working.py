"""A working with its numbers put in, so that a pocket calculator follows it.

Numbers stand in the units of the bench (mm, N, MPa, °C, rpm). Where these don't agree with the
unit of the result by themselves, a factor at the end of the line turns them: found by working the
line out both in SI and in the units shown. As many figures are written as it takes for every line
to come out right to its third.
"""

from __future__ import annotations

import ast
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from firstfire.engine.arithmetic import (
    NotArithmeticError,
    called,
    dotted,
    is_number,
    parsed,
    worked_out,
)
from firstfire.engine.grammar import leaves
from firstfire.engine.quantity import DIMENSIONS
from firstfire.engine.records import Line, Way
from firstfire.parts.all import put_in
from firstfire.parts.inputs import SAID
from firstfire.verdict.explain.opened import WorkLine
from firstfire.verdict.numbers import THIN

_RPM = math.pi / 30


@dataclass(frozen=True)
class Shown:
    """A unit of the bench: what it is called, and ``si = factor * number + offset``."""

    name: str
    factor: float = 1.0
    offset: float = 0.0


_BY_SI = {
    "": Shown(""), "m": Shown("mm", 1e-3), "m^2": Shown("mm²", 1e-6), "m^3": Shown("mm³", 1e-9),
    "m^4": Shown("mm⁴", 1e-12), "N": Shown("N"), "N*m": Shown("N·m"), "N/m": Shown("N/mm", 1e3),
    "Pa": Shown("MPa", 1e6), "K": Shown("K"), "radian/s": Shown("rpm", _RPM),
    "rad/s": Shown("rpm", _RPM), "radian": Shown("°", math.pi / 180),
    "rad": Shown("°", math.pi / 180), "s": Shown("s"), "m/s": Shown("m/s"),
    "m/Pa": Shown("mm/MPa", 1e-9), "1/Pa": Shown("per MPa", 1e-6), "1/K": Shown("per K"),
    "kg": Shown("g", 1e-3), "kg/m^3": Shown("kg/m³"), "Pa*m^0.5": Shown("MPa·√m", 1e6),
    "1/m^2": Shown("per mm²", 1e6), "Pa/(N*m)": Shown("MPa/N·m", 1e6), "J": Shown("J"),
    "kg*m^2": Shown("kg·m²"), "m/s^2": Shown("m/s²"), "m/s^3": Shown("m/s³"),
    "m^3/s": Shown("cm³/min", 1e-6 / 60), "kg/s": Shown("g/s", 1e-3), "m^2/s": Shown("mm²/s", 1e-6),
    "kg/(s*m^2)": Shown("g/s per mm²", 1e3), "kg/m": Shown("kg/m"), "Hz": Shown("Hz"),
    "V": Shown("V"), "A": Shown("A"), "ohm": Shown("Ω"), "H": Shown("mH", 1e-3),
    "F": Shown("nF", 1e-9), "W": Shown("W"),
}  # fmt: skip
_DEGREES = Shown("°C", 1.0, 273.15)
_LEAST, _MOST_DIGITS = 4, 8
_RIGHT = 1e-3
_LONG = 1e15  # more figures than anyone keys in
_TINY = 1e-6
_NOTHING = 1e-8  # in units of the bench: rounding of a cold wall's temperature


def unit_of(name: str) -> Shown:
    """Unit of the bench in which an input is shown."""
    leaf = leaves().get(name)
    dimension = leaf.dimension if leaf else put_in(name).dimension
    if dimension == "temperature":
        return _DEGREES
    return _BY_SI[DIMENSIONS[dimension].si if dimension else ""]


def shown_in(unit: str) -> Shown:
    """Unit of the bench for an SI unit."""
    return _BY_SI[unit]


def words_of(name: str) -> str:
    """Short words of an input."""
    if name in SAID:
        return SAID[name]
    return put_in(name).words or name.replace(".", "'s ").replace("_", " ")


def plain(value: float, digits: int) -> str:
    """A number as one keys it in: so many figures, no power of ten where that can be.

    Examples
    --------
    >>> plain(0.00007, 4), plain(12345.6, 4), plain(-3.0, 4), plain(2e-9, 4)
    ('0.00007', '12346', '-3', '0')
    """
    if not math.isfinite(value):
        return "–"
    if abs(value) < _NOTHING:
        return "0"
    if abs(value) >= _LONG:
        return f"{value:.{digits - 1}e}"
    places = max(digits - 1 - math.floor(math.log10(abs(value))), 0)
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def with_unit(value: float, unit: Shown, digits: int) -> str:
    """An SI value as text in a unit of the bench."""
    text = plain((value - unit.offset) / unit.factor, digits)
    if not unit.name:
        return text
    return f"{text}°" if unit.name == "°" else f"{text}{THIN}{unit.name}"


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
    return math.isclose(got, wanted, rel_tol=_RIGHT, abs_tol=_NOTHING)


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


_SIGNS = {ast.Add: ("+", 1), ast.Sub: ("-", 1), ast.Mult: ("×", 2), ast.Div: ("÷", 2)}
_POWERS = {2: "²", 3: "³", 4: "⁴"}
_CALLED = {
    "min": "the lesser of", "max": "the greater of", "exp": "e^", "log": "ln", "floor": "whole of",
    "asin": "arcsin", "acos": "arccos",
}  # fmt: skip


def written(node: ast.expr, named: Callable[[str], str], digits: int) -> str:
    """Arithmetic as one writes it by hand: × ÷ √ and small raised figures.

    Parameters
    ----------
    node
        From `parsed`.
    named
        What to write for a name.
    digits
        Figures of a written number.

    Examples
    --------
    >>> written(parsed("pi / 4 * (a - b)**2"), str, 4)
    'π ÷ 4 × (a - b)²'
    >>> written(parsed("a / (b * sqrt(c))"), str, 4)
    'a ÷ (b × √c)'
    """
    return _written(node, named, digits)[0]


def _written(node: ast.expr, named: Callable[[str], str], digits: int) -> tuple[str, int]:
    """Text and how tightly it binds: 1 sum, 2 product, 3 power, 4 all of a piece."""
    if isinstance(node, ast.BinOp):
        if isinstance(node.op, ast.Pow):
            return _power(node, named, digits), 3
        sign, level = _SIGNS[type(node.op)]
        left = _held(node.left, named, digits, level)
        # Right of ÷ and - a like sign needs its brackets.
        tight = level + 1 if isinstance(node.op, ast.Sub | ast.Div) else level
        return f"{left} {sign} {_held(node.right, named, digits, tight)}", level
    if isinstance(node, ast.UnaryOp):
        return f"-{_held(node.operand, named, digits, 3)}", 1
    if isinstance(node, ast.Call):
        return _function(node, named, digits), 4
    if is_number(node):
        assert isinstance(node, ast.Constant)
        return plain(float(node.value), 8), 4  # type: ignore[arg-type]
    name = dotted(node)
    return ("π", 4) if name == "pi" else (named(name), 4)


def _held(node: ast.expr, named: Callable[[str], str], digits: int, least: int) -> str:
    text, level = _written(node, named, digits)
    return f"({text})" if level < least else text


def _power(node: ast.BinOp, named: Callable[[str], str], digits: int) -> str:
    base = _held(node.left, named, digits, 4)
    if isinstance(node.left, ast.Name | ast.Attribute) and " " in base:
        base = f"({base})"
    if isinstance(node.right, ast.Constant) and node.right.value in _POWERS:
        return base + _POWERS[int(node.right.value)]  # type: ignore[arg-type]
    return f"{base}^{_held(node.right, named, digits, 4)}"


def _function(node: ast.Call, named: Callable[[str], str], digits: int) -> str:
    name = called(node)
    inside = [_written(one, named, digits)[0] for one in node.args]
    if name == "sqrt":
        return f"√{_held(node.args[0], named, digits, 4)}"
    joined = " or ".join(inside)
    word = _CALLED.get(name, name)
    return f"{word} ({joined})" if " " in word else f"{word}({joined})"
