"""Spans of factors whose load may shrink to nothing, and of those whose losses multiply."""

import math
from statistics import NormalDist

import numpy as np
import pytest

from firstfire.runs.drawn import Draw
from firstfire.runs.ensemble import Ensemble
from firstfire.runs.fate import Fate
from firstfire.runs.spread import Spread
from firstfire.verdict.facts.spans import bend, span

NAME = "liner.fit_interference"


def drawn(log, slope, count=32):
    """Engines whose way has a logarithm for each place of one input, and their slope."""
    places = np.random.default_rng(11).standard_normal(count)
    draws = tuple(Draw({NAME: float(z)}, {"liner": 0.0}) for z in places)
    fates = tuple(Fate({"liner.ovalise": log(float(z))}, {}) for z in places)
    return Spread((NAME,), {"liner.ovalise": (slope,)}, ()), Ensemble(draws, fates)


def test_a_load_that_may_shrink_to_nothing_is_judged_by_how_much_of_it_is_used():
    """A fit uses 0.6 (1 + 0.45 z) of what a liner stands: by hand 0.069 of all use more than 1.

    A parabola in the logarithm, which has no bottom where the fit is loose, says 0.014.
    """

    def log(z):
        return -math.log(max(0.6 * (1 + 0.45 * z), 1e-6))

    found = span(*drawn(log, -0.45), "liner.ovalise", 1 / 0.6)
    fails = 1 - NormalDist().cdf((1 / 0.6 - 1) / 0.45)
    assert fails == pytest.approx(0.069, abs=0.001)
    assert 1 - found.survival(1 / 0.6) == pytest.approx(fails, abs=0.006)
    # its ends by hand too: 1/(1 + 0.45 * 1.645), and the other way
    assert math.exp(found.low) == pytest.approx(1 / (1 + 0.45 * 1.645), rel=0.02)
    assert math.exp(found.high) == pytest.approx(1 / (1 - 0.45 * 1.645), rel=0.05)


def test_losses_that_multiply_are_judged_by_the_logarithm():
    """exp(0.9 z - 0.3): 5 and 95 % by hand."""
    spread, engines = drawn(lambda z: 0.9 * z - 0.3, 0.9)
    assert not bend(spread, engines, "liner.ovalise", math.exp(-0.3)).used
    found = span(spread, engines, "liner.ovalise", math.exp(-0.3))
    assert found.low == pytest.approx(-0.9 * 1.645, rel=0.02)
    assert found.high == pytest.approx(0.9 * 1.645, rel=0.02)


def test_what_is_gone_or_not_loaded_beyond_doubt_counts_with_its_engines():
    """Of 32 engines two have lost their part and four have no load on it."""
    fates = [-30.0] * 2 + [30.0] * 4 + [0.2] * 26
    random = np.random.default_rng(3)
    at = iter(np.array(fates) + 0.02 * random.standard_normal(32))
    spread, engines = drawn(lambda _: float(next(at)), 0.02)
    found = span(spread, engines, "liner.ovalise", math.exp(0.2))
    assert 1 - found.survival(math.exp(0.2)) == pytest.approx(2 / 32, abs=0.01)
    assert found.high > 10
