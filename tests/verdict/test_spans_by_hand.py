"""Spans read off engines drawn: the parabola through them, what is left, and times."""

import math

import numpy as np
import pytest

from firstfire.runs.drawn import Draw
from firstfire.runs.ensemble import Ensemble
from firstfire.runs.fate import Fate
from firstfire.runs.spread import Spread
from firstfire.verdict.facts.spans import Bend, _parabola, bend, span, time_span

NAME, WAY = "liner.fit_interference", "liner.ovalise"
SLOPE = 0.5


def engines(logs, places, seconds=None):
    draws = tuple(Draw({NAME: float(z)}, {"liner": 0.0}) for z in places)
    seconds = seconds or [None] * len(logs)
    fates = tuple(
        Fate({WAY: float(log)}, {} if time is None else {WAY: float(time)})
        for log, time in zip(logs, seconds, strict=True)
    )
    return Spread((NAME,), {WAY: (SLOPE,)}, ()), Ensemble(draws, fates)


def scattered(count=40):
    random = np.random.default_rng(5)
    return random.standard_normal(count), 0.1 * random.standard_normal(count)


def test_a_bend_by_hand():
    """0.1 + 2 u + 3 (u² - 0.25) + 0.2 e at u 0.5, e -1: 0.1 + 1 + 0 - 0.2 = 0.9; at -1, 0: 0.35."""
    one = Bend(0.1, 2.0, 3.0, 0.5, 0.2)
    found = one.over(np.array([0.5, -1.0]), np.array([-1.0, 0.0]))
    assert found == pytest.approx([0.9, 0.1 - 2 + 3 * 0.75])
    used = Bend(1.0, 0.4, 0.0, 0.5, 0.0, used=True)
    # Used 1.4 and 0.6 of what it uses at the centre; less than nothing is next to nothing.
    found = used.over(np.array([1.0, -1.0, -5.0]), np.zeros(3))
    assert found == pytest.approx([-math.log(1.4), -math.log(0.6), 20.0])


def test_the_parabola_is_that_of_least_squares():
    places, noise = scattered()
    summed = SLOPE * places
    logs = 0.3 + 0.9 * summed + 0.4 * (summed**2 - SLOPE**2) + noise
    spread, drawn = engines(logs, places)
    found = bend(spread, drawn, WAY, math.exp(0.2))
    bent, straight, level = np.polyfit(summed, logs - 0.2, 2)
    assert not found.used
    assert (found.slope, found.bend) == pytest.approx((straight, bent))
    assert found.centre == pytest.approx(level + bent * SLOPE**2)
    left = logs - 0.2 - np.polyval([bent, straight, level], summed)
    assert found.size == pytest.approx(SLOPE)
    assert found.rest == pytest.approx(math.sqrt(np.sum(left**2) / (len(logs) - 3)))
    assert found.left == pytest.approx(left, abs=1e-12)


def test_how_well_others_foretell_an_engine_is_found_by_leaving_each_out():
    places, noise = scattered(20)
    over = 0.7 * SLOPE * places + noise
    spread, drawn = engines(over, places)
    found = _parabola(over, spread, drawn, WAY, np.ones(20, dtype=bool))
    off = []
    for one in range(20):
        others = np.arange(20) != one
        through = np.polyfit(SLOPE * places[others], over[others], 2)
        off.append(over[one] - np.polyval(through, SLOPE * places[one]))
    assert found.foretold == pytest.approx(np.mean(np.square(off)) / np.var(over))


def test_a_way_that_nothing_moves_scatters_about_its_mean():
    places, noise = scattered(30)
    draws = tuple(Draw({NAME: float(z)}, {"liner": 0.0}) for z in places)
    fates = tuple(Fate({WAY: 0.4 + float(e)}, {}) for e in noise)
    found = bend(Spread((NAME,), {WAY: (0.0,)}, ()), Ensemble(draws, fates), WAY, math.exp(0.4))
    assert found.centre == pytest.approx(noise.mean())
    assert found.rest == pytest.approx(noise.std(ddof=1))
    assert found.left == pytest.approx(noise - noise.mean(), abs=1e-12)


def test_scatter_widens_a_span_as_variances_add():
    """Slope 0.9·0.5 and a rest of 0.3: √(0.45² + 0.3²) = 0.541, ends at 1.645 of it."""
    random = np.random.default_rng(2)
    places = random.standard_normal(400)
    logs = 0.9 * SLOPE * places + 0.3 * random.standard_normal(400)
    found = span(*engines(logs, places), WAY, 1.0)
    assert (found.low, found.high) == pytest.approx((-1.645 * 0.541, 1.645 * 0.541), rel=0.06)
    assert found.survival(1.0) == pytest.approx(0.5, abs=0.05)
    assert found.survival(math.exp(0.541)) == pytest.approx(0.841, abs=0.03)  # one deviation


def test_times_are_spanned_by_their_logarithms():
    """exp(ln 20 + 0.8 u) s, u of 0.5: by ends at 20 · exp(±1.645 · 0.4) = 10.4 and 38.6 s."""
    places = np.array([-1.9, -1.3, -1, -0.8, -0.6, -0.4, -0.2, 0.2, 0.4, 0.6, 0.8, 1, 1.3, 1.9])
    wiggle = 0.01 * np.array([1.0, -1.0] * 7)
    times = np.exp(math.log(20) + 0.8 * SLOPE * places + wiggle)
    spread, drawn = engines(np.zeros(14), places, list(times))
    low, middle, high = time_span(spread, drawn, WAY, 600.0)
    assert (low, middle, high) == pytest.approx((10.4, 20.0, 38.6), rel=0.02)
    assert time_span(spread, drawn, WAY, 30.0) == (low, middle, None)
    assert time_span(spread, drawn, WAY, 15.0) == (low, 15.0, None)
    held = engines(np.zeros(14), places, [*times[:-1], math.inf])
    assert time_span(*held, WAY, 600.0) is None
