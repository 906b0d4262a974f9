"""How much heat is tried on a cell that decomposes, try by try, with a calculator."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.heat.small_circuits import circuit

from firstfire.heat.decomposing import taken_up

PLAIN = getattr(taken_up, "py_func", taken_up)
CELL = circuit([10.0], [0.5], [0.5], [math.inf], layers=[(0, 1, 400.0, 0, math.inf)],
               decomposing=np.array([2000.0]))  # fmt: skip


class Tried:
    """One cell of 10 J/K over 400 K, and what was tried on it."""

    def __init__(self, decomposed: float = 0.0) -> None:
        self.taken, self.before, self.above = np.zeros(1), np.zeros(1), np.zeros(1)
        self.decomposed = np.array([decomposed])

    def at(self, temperature: float) -> float:
        return PLAIN(
            CELL, np.array([temperature]), np.array([0]), self.decomposed, self.taken, self.before,
            self.above,
        )  # fmt: skip


def test_each_try_goes_by_how_the_cell_answered_to_the_last():
    """3 K over: 10 J/K ask for 30 J. 2 K over after those, 1 K for 30 J: 60 more. 1 K over after
    90 J, 1 K for 60 J: 60 more. Right at 400 K nothing more is tried."""
    tried = Tried()
    assert tried.at(403.0) == pytest.approx(3.0)
    assert tried.taken[0] == pytest.approx(30.0)
    assert tried.at(402.0) == pytest.approx(2.0)
    assert tried.taken[0] == pytest.approx(90.0)
    assert (tried.before[0], tried.above[0]) == pytest.approx((30.0, 2.0))
    assert tried.at(401.0) == pytest.approx(1.0)
    assert tried.taken[0] == pytest.approx(150.0)
    assert tried.at(400.0) == 0.0
    assert tried.taken[0] == pytest.approx(150.0)


def test_too_much_is_given_back():
    """30 J for 3 K leave it 1 K below: 4 K for 30 J, more than its own 10 J/K answer, so 10 J of
    them are given back."""
    tried = Tried()
    tried.at(403.0)
    assert tried.at(399.0) == pytest.approx(1.0)
    assert tried.taken[0] == pytest.approx(20.0)


def test_a_cell_that_hardly_answers_is_taken_to_answer_by_a_hundredth():
    """30 J moved it by nothing: 1000 J/K for 3 K left, 3000 J, of which 2000 J are to be had; for
    0.3 K left 300 J more."""
    tried = Tried()
    tried.at(403.0)
    tried.at(403.0)
    assert tried.taken[0] == pytest.approx(2000.0)
    small = Tried()
    small.at(400.3)
    assert small.taken[0] == pytest.approx(3.0)
    small.at(400.3)
    assert small.taken[0] == pytest.approx(303.0)


def test_no_more_is_taken_than_is_left():
    """A quarter of 2000 J; then more heat would hold it no better, and it is not asked for."""
    tried = Tried(0.75)
    assert tried.at(460.0) == pytest.approx(60.0)
    assert tried.taken[0] == pytest.approx(500.0)
    assert tried.at(450.0) == 0.0
    assert tried.taken[0] == pytest.approx(500.0)
