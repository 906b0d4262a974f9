"""Arithmetic written as text, over names that may have dots: read once, worked out safely.

``head.fasteners.count * each_holds`` is a product of two names. Known are ``+ - * / **``,
parentheses, numbers, ``pi`` and the functions of `FUNCTIONS`; anything else is refused, so that
no text can do more than arithmetic.
"""

from __future__ import annotations

import ast
import math
import operator
from collections.abc import Callable, Mapping
from functools import lru_cache

from firstfire.errors import FirstfireError


class NotArithmeticError(FirstfireError):
    """Text that isn't arithmetic, or a name in it that has no value."""


FUNCTIONS: Mapping[str, Callable[..., float]] = {
    "sqrt": math.sqrt, "min": min, "max": max, "exp": math.exp, "log": math.log, "sin": math.sin,
    "cos": math.cos, "tan": math.tan, "asin": math.asin, "acos": math.acos, "floor": math.floor,
    "atan": math.atan, "atan2": math.atan2, "tanh": math.tanh, "log10": math.log10,
    "cbrt": math.cbrt, "abs": abs,
}  # fmt: skip
_BINARY: Mapping[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul,
    ast.Div: operator.truediv, ast.Pow: operator.pow,
}  # fmt: skip


@lru_cache(maxsize=1024)
def parsed(expression: str) -> ast.expr:
    """The expression as a tree in which only arithmetic is found.

    Raises
    ------
    NotArithmeticError
        Where it isn't arithmetic.
    """
    try:
        tree = ast.parse(expression, mode="eval").body
    except SyntaxError as why:
        raise NotArithmeticError(f'"{expression}" is not arithmetic: {why.msg}.') from why
    _check(tree, expression)
    return tree


def _check(node: ast.expr, expression: str) -> None:
    """Refuse every kind of node that isn't arithmetic."""
    if isinstance(node, ast.BinOp) and type(node.op) in _BINARY:
        _check(node.left, expression)
        _check(node.right, expression)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        _check(node.operand, expression)
    elif isinstance(node, ast.Call) and called(node) in FUNCTIONS and not node.keywords:
        for argument in node.args:
            _check(argument, expression)
    elif not (is_number(node) or dotted(node)):
        raise NotArithmeticError(f'"{expression}" has more in it than arithmetic.')


def called(node: ast.Call) -> str:
    """Name of the function that is called; "" where it isn't a plain name."""
    return node.func.id if isinstance(node.func, ast.Name) else ""


def is_number(node: ast.expr) -> bool:
    """Whether it is a written number."""
    plain = isinstance(node, ast.Constant) and isinstance(node.value, int | float)
    return plain and not isinstance(node.value, bool)  # type: ignore[attr-defined]


def dotted(node: ast.expr) -> str:
    """A name with its dots, ``crank.cheek_width``; "" where it isn't one."""
    if isinstance(node, ast.Name):
        return node.id
    if isinstance(node, ast.Attribute):
        before = dotted(node.value)
        return f"{before}.{node.attr}" if before else ""
    return ""


@lru_cache(maxsize=1024)
def names_in(expression: str) -> tuple[str, ...]:
    """Every name an expression asks for, each once, in the order it is written.

    Examples
    --------
    >>> names_in("pi / 4 * pin.diameter**2 * pressure")
    ('pin.diameter', 'pressure')
    """
    found: dict[str, None] = {}

    def walk(node: ast.AST) -> None:
        name = dotted(node) if isinstance(node, ast.expr) else ""
        if name:
            found.setdefault(name)
            return
        inside = ast.iter_child_nodes(node)
        for child in node.args if isinstance(node, ast.Call) else inside:
            walk(child)

    walk(parsed(expression))
    found.pop("pi", None)
    return tuple(found)


def worked_out(expression: str, values: Mapping[str, float]) -> float:
    """What an expression comes to.

    Parameters
    ----------
    expression
        Arithmetic.
    values
        By name.

    Raises
    ------
    NotArithmeticError
        Where it isn't arithmetic, a name has no value, or a number can't be worked out.

    Examples
    --------
    >>> worked_out("pi / 4 * gasket.width**2", {"gasket.width": 2.0})
    3.141592653589793
    """
    try:
        found = _value(parsed(expression), values)
        if isinstance(found, complex):
            raise ValueError("a root of less than nothing")
        return found
    except KeyError as why:
        raise NotArithmeticError(f'"{expression}" asks for {why}, which has no value.') from why
    except (ValueError, ZeroDivisionError, OverflowError) as why:
        raise NotArithmeticError(f'"{expression}" can not be worked out: {why}.') from why


def _value(node: ast.expr, values: Mapping[str, float]) -> float:
    if isinstance(node, ast.BinOp):
        return _BINARY[type(node.op)](_value(node.left, values), _value(node.right, values))
    if isinstance(node, ast.UnaryOp):
        return -_value(node.operand, values)
    if isinstance(node, ast.Call):
        return float(FUNCTIONS[called(node)](*(_value(one, values) for one in node.args)))
    if isinstance(node, ast.Constant):
        return float(node.value)  # type: ignore[arg-type]
    name = dotted(node)
    return math.pi if name == "pi" else values[name]
