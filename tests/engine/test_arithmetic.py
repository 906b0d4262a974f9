"""Arithmetic written as text: it works out what it says and nothing else."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.engine.arithmetic import NotArithmeticError, names_in, worked_out

NUMBERS = st.floats(0.1, 100)


@given(NUMBERS, NUMBERS, NUMBERS)
def test_it_is_what_python_itself_makes_of_it(a: float, b: float, c: float) -> None:
    values = {"one.a": a, "b": b, "c": c}
    text = "-one.a + b * (c - 2)**2 / sqrt(one.a) - min(b, c, 3) * max(b, 1) + exp(-b) * log(c)"
    plain = -a + b * (c - 2) ** 2 / math.sqrt(a) - min(b, c, 3) * max(b, 1)
    assert worked_out(text, values) == pytest.approx(plain + math.exp(-b) * math.log(c), rel=1e-12)


@given(st.floats(-1, 1))
def test_angles_are_in_radians(x: float) -> None:
    text = "sin(x)**2 + cos(x)**2 + tan(x) - sin(x) / cos(x) + asin(x) + acos(x) - pi / 2"
    assert worked_out(text, {"x": x}) == pytest.approx(1.0, abs=1e-9)


@pytest.mark.parametrize(
    "text",
    [
        "__import__('os')", "a[0]", "lambda: 1", "(1).real", "a if b else c", "f(x)", "a.b()",
        "'x' * 3", "[1, 2]", "a == b", "a and b", "True", "sqrt(x=2)", "f(a).b", "a := 1", "",
        "max(*a)", "a @ b", "a // b", "~a", "+", "1j", "sqrt", "{a}",
    ],
)  # fmt: skip
def test_anything_else_is_refused(text: str) -> None:
    with pytest.raises(NotArithmeticError):
        worked_out(text, {"a": 1.0, "b": 1.0, "c": 1.0, "x": 1.0})


@pytest.mark.parametrize(
    "text", ["a / b", "sqrt(-a)", "(-a)**0.5", "log(b)", "acos(2)", "missing", "exp(9999)"]
)
def test_what_can_not_be_worked_out_says_so(text: str) -> None:
    with pytest.raises(NotArithmeticError, match=r"can not be|has no value"):
        worked_out(text, {"a": 1.0, "b": 0.0})


def test_names_are_listed_with_their_dots_and_functions_are_not_names() -> None:
    text = "max(head.fasteners.count, n) * sqrt(n) + pi - crank.joint.length"
    assert names_in(text) == ("head.fasteners.count", "n", "crank.joint.length")
