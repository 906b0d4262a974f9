"""The mathematics that laws use: as Python's own, and a `Recorded` number stays recorded."""

from __future__ import annotations

import math
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


def sqrt(value: float) -> float:
    """Square root."""
    return math.sqrt(value) if type(value) is float else applied("sqrt", math.sqrt, value)


def cbrt(value: float) -> float:
    """Cube root."""
    return math.cbrt(value) if type(value) is float else applied("cbrt", math.cbrt, value)


def exp(value: float) -> float:
    """e to a power."""
    return math.exp(value) if type(value) is float else applied("exp", math.exp, value)


def expm1(value: float) -> float:
    """e to a power, less one."""
    return math.expm1(value) if type(value) is float else exp(value) - 1.0


def log(value: float) -> float:
    """Natural logarithm."""
    return math.log(value) if type(value) is float else applied("log", math.log, value)


def log1p(value: float) -> float:
    """Natural logarithm of one more."""
    return math.log1p(value) if type(value) is float else log(1.0 + value)


def log10(value: float) -> float:
    """Logarithm to ten."""
    return math.log10(value) if type(value) is float else applied("log10", math.log10, value)


def sin(value: float) -> float:
    """Sine."""
    return math.sin(value) if type(value) is float else applied("sin", math.sin, value)


def cos(value: float) -> float:
    """Cosine."""
    return math.cos(value) if type(value) is float else applied("cos", math.cos, value)


def tan(value: float) -> float:
    """Tangent."""
    return math.tan(value) if type(value) is float else applied("tan", math.tan, value)


def tanh(value: float) -> float:
    """Hyperbolic tangent."""
    return math.tanh(value) if type(value) is float else applied("tanh", math.tanh, value)


def asin(value: float) -> float:
    """Angle of a sine."""
    return math.asin(value) if type(value) is float else applied("asin", math.asin, value)


def acos(value: float) -> float:
    """Angle of a cosine."""
    return math.acos(value) if type(value) is float else applied("acos", math.acos, value)


def atan(value: float) -> float:
    """Angle of a tangent."""
    return math.atan(value) if type(value) is float else applied("atan", math.atan, value)


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
