"""Arithmetic as one writes it by hand."""

from __future__ import annotations

import ast
from collections.abc import Callable

from firstfire.engine.arithmetic import called, dotted, is_number
from firstfire.verdict.explain.bench_units import plain

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
    >>> from firstfire.engine.arithmetic import parsed
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
