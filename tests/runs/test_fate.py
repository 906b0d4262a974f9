"""When a way gives way: seeking finds what scanning every second would."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.runs.fate import Course, _halved, _scanned, _sought, clock, course, gives_way

LAST = 57

falling = st.tuples(
    st.floats(-3.0, 6.0), st.floats(0.005, 2.0), st.floats(0.3, 3.0), st.integers(0, LAST)
)


def _made(shape):
    """A logarithm that only falls: slowly at first or at last, with a step somewhere."""
    begun, fall, power, step = shape

    def asked(at):
        return begun - fall * LAST * (at / LAST) ** power - (1.5 if at >= step else 0.0)

    return asked


@given(falling, st.integers(0, 90), st.floats(0.005, 1.0))
def test_seeking_brackets_the_first_place_below_nought(shape, start, slope):
    """Wherever it begins and however wrong the slope is."""
    asked = _made(shape)
    first = next((at for at in range(LAST + 1) if asked(at) < 0), None)
    found = _sought(asked, Course("falls", start, slope), LAST)
    if first is None:
        assert found is None
        return
    (holds, _), (gone, low) = found
    assert low < 0
    assert (holds, gone) == (0, 0) if first == 0 else holds < first <= gone <= holds + 2


@given(falling)
def test_scanning_and_halving_bracket_the_same_place(shape):
    asked = _made(shape)
    first = next((at for at in range(LAST + 1) if asked(at) < 0), None)
    found = _scanned(asked, LAST, 5)
    if first is None or first == 0:
        assert (found is None) is (first is None)
        return
    holds, gone = _halved(asked, *found)
    assert holds[0] < first <= gone[0] <= holds[0] + 2


def test_what_is_not_judged_counts_as_holding():
    def asked(at):
        return math.inf if at < 20 else 0.5 - 0.05 * (at - 20)

    (holds, _), (gone, _) = _sought(asked, Course("falls", 5, 0.05), LAST)
    assert holds < 31 <= gone


def test_a_way_that_comes_back_is_not_taken_as_falling():
    fell = [(0, 0.8), (10, 0.2), (20, -0.3), (30, -0.1)]
    assert course([fell]).going == "falls"
    assert course([fell, [(0, 0.8), (10, -0.2), (20, 0.3), (30, 0.4)]]).going == "either"
    assert course([[(0, 0.1), (10, 0.2), (20, 0.4)]]).going == "rises"


def test_a_finer_clock_has_every_second_of_the_usual_one():
    usual, finer = clock(600.0), clock(600.0, 4)
    assert len(finer) > 3 * len(usual)
    for second in usual:
        assert min(abs(second - other) for other in finer) < 1e-9 * second


class _OverACliff:
    """What holds well until a second, and is all gone then."""

    seconds = clock(600.0)

    def __init__(self, edge):
        self.edge = edge

    def log_factor(self, _way, _judge, _row, at):
        return 0.5 if self.seconds[at] < self.edge else -20.0

    def holds_at(self, _way, _judge, _row, seconds):
        return seconds < self.edge


@given(st.floats(0.3, 590.0), st.sampled_from([None, Course("falls", 20, 0.2)]))
def test_what_goes_all_at_once_goes_at_its_own_second(edge, course):
    """Straight lines between the clock's seconds told it up to a third of its time early."""
    found = gives_way(_OverACliff(edge), "liner.soften", None, 0, course)
    assert found == pytest.approx(edge, rel=0.02)
