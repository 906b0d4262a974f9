"""The mathematics that laws use: as Python's own, and a `Recorded` number stays recorded."""

from __future__ import annotations

import math
from collections.abc import Callable
from math import erfc, fmod, inf, isclose, isfinite, isnan, lgamma, nan, pi
from typing import Any

from firstfire.formulas.recorded import Recorded, applied

__all__ = [
    "acos",
    "asin",
    "atan",
    "atan2",
    "cbrt",
    "cos",
    "degrees",
    "erfc",
    "exp",
    "expm1",
    "floor",
    "fmod",
    "hypot",
    "inf",
    "isclose",
    "isfinite",
    "isnan",
    "least",
    "lgamma",
    "log",
    "log1p",
    "log10",
    "most",
    "nan",
    "number",
    "pi",
    "radians",
    "sin",
    "sqrt",
    "tan",
    "tanh",
]  # fmt: skip


def _of_one(name: str, work: Callable[[float], float]) -> Callable[[float], float]:
    """Python's own function of one number, which keeps the record of one that has it."""

    def found(value: float) -> float:
        return work(value) if type(value) is float else applied(name, work, value)

    return found


sqrt = _of_one("sqrt", math.sqrt)
cbrt = _of_one("cbrt", math.cbrt)
exp = _of_one("exp", math.exp)
log = _of_one("log", math.log)
log10 = _of_one("log10", math.log10)
sin = _of_one("sin", math.sin)
cos = _of_one("cos", math.cos)
tan = _of_one("tan", math.tan)
tanh = _of_one("tanh", math.tanh)
asin = _of_one("asin", math.asin)
acos = _of_one("acos", math.acos)
atan = _of_one("atan", math.atan)


def expm1(value: float) -> float:
    """e to a power, less one."""
    return math.expm1(value) if type(value) is float else exp(value) - 1.0


def log1p(value: float) -> float:
    """Natural logarithm of one more."""
    return math.log1p(value) if type(value) is float else log(1.0 + value)


def atan2(up: float, along: float) -> float:
    """Direction of a point."""
    return applied("atan2", math.atan2, up, along)


def hypot(one: float, other: float) -> float:
    """Length of two lengths at right angles."""
    if type(one) is Recorded or type(other) is Recorded:
        return sqrt(one**2 + other**2)
    return math.hypot(one, other)


def floor(value: float) -> float:
    """The whole number below."""
    return applied("floor", _below, value)


def _below(value: float) -> float:
    return float(math.floor(value))


def radians(value: float) -> float:
    """An angle in degrees, in radians."""
    return math.radians(value) if type(value) is float else value * (pi / 180.0)


def degrees(value: float) -> float:
    """An angle in radians, in degrees."""
    return math.degrees(value) if type(value) is float else value * (180.0 / pi)


def number(value: Any) -> float:
    """A float; what is recorded stays so."""
    return value if type(value) is Recorded else float(value)


def most(one: float, *others: float) -> float:
    """The largest."""
    return applied("max", max, one, *others)


def least(one: float, *others: float) -> float:
    """The smallest."""
    return applied("min", min, one, *others)
