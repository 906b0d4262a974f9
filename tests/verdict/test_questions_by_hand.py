"""What one would like to know, and how much of it a reading tells, worked out by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.parts.all import REPORTED
from firstfire.verdict.doubt.questions import Question, Through, may_be_first
from firstfire.verdict.facts.share import read_with_error, shares_told


def test_a_reading_with_an_error_scatters_as_much_as_the_truth():
    """Left 0.6 of the span: 0.8 of the truth and 0.6 of luck, 0.64 + 0.36 = 1."""
    true, luck = np.array([1.0, -2.0, 0.0]), np.array([0.5, 1.0, -1.0])
    assert read_with_error(true, 0.6, luck) == pytest.approx([1.1, -1.0, -0.6])


def test_a_reading_tells_the_variance_of_its_bins_less_what_chance_gives():
    """Two draws in each of 100 bins, one over and one under the bin's number b.

    The means are b, of variance (100² - 1) / 12; within a bin the variance is 2, of which a mean
    of two takes 1 by chance, 99 hundredths of it here; the whole is the first and 1.
    """
    number = np.repeat(np.arange(100.0), 2)
    asked = number + np.tile([1.0, -1.0], 100)
    mixed = np.random.default_rng(4).permutation(200)
    told = shares_told(asked[None, mixed], np.arange(200.0)[mixed])
    means = (100**2 - 1) / 12
    assert told == pytest.approx([(means - 0.99) / (means + 1)])
    assert shares_told(np.zeros((1, 200)), number).tolist() == [0.0]


def lasting(answer, *through):
    return Question("full_throttle", np.array(answer), through)


def test_what_hardly_differs_is_not_in_doubt():
    """Between 0.005 and 0.995 of odds; a time that scatters by more than 0.02 in its logarithm."""
    for share, doubtful in ((0.004, False), (0.006, True), (0.994, True), (0.996, False)):
        answer = (np.arange(1000) < 1000 * share).astype(float)
        assert Question("odds", answer, ()).doubtful is doubtful
    assert lasting([2.0, 2.0421]).doubtful
    assert not lasting([2.0, 2.0379]).doubtful


def test_an_input_bears_most_on_what_it_moves_most():
    """(1 · 2 + 0 · 1 - 1 · 3) / 3 and (0.5 · 2 + 2 · 1 + 0) / 3."""
    place = np.array([2.0, 1.0, 3.0])
    one = Through("rod.tear", "full", np.array([1.0, 0.0, -1.0]))
    other = Through("pin.bend", "full", np.array([0.5, 2.0, 0.0]))
    found, most = lasting([0.0], one, other).bears_on(place)
    assert found is other
    assert most == pytest.approx(1.0)
    assert lasting([0.0]).bears_on(place) == (None, 0.0)


def drawn(*each):
    return SimpleNamespace(fates=tuple(SimpleNamespace(seconds=one) for one in each))


def event(*ensembles, horizon=600.0):
    bouts = (SimpleNamespace(horizon=horizon), SimpleNamespace(horizon=horizon / 2))
    return SimpleNamespace(event="full_throttle", ensembles=ensembles, bouts=bouts)


def test_ways_within_half_as_long_again_may_be_first():
    """First of all at 10 s: up to 15. Of the second engine 40 s: up to 60; all for twice 40."""
    told = min(REPORTED)
    slow = drawn({"a": 10.0, "b": 15.0, "c": 15.1, told: 0.1}, {"a": 90.0})
    fast = drawn({"d": 15.1, "e": math.inf}, {"f": 40.0, "g": 61.0, f"{told}#2": 3.0})
    assert may_be_first(event(slow, fast)) == ({"a", "b", "f"}, 80.0)
    assert may_be_first(event(slow, fast, horizon=70.0))[1] == 70.0


def test_what_goes_at_once_is_followed_for_the_judged_second_and_four_at_least():
    """One second and half as long again."""
    found = may_be_first(event(drawn({"a": 0.0, "b": 1.5, "c": 1.6})))
    assert found == ({"a", "b"}, 4.0)
    assert may_be_first(event(drawn({"a": math.inf}))) == (frozenset(), 600.0)
