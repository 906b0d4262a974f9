"""When a way ends engines drawn, from curves and sums that a pocket calculator follows."""

from __future__ import annotations

import math

import numpy as np
import pytest

from firstfire.runs.drawn import Draw
from firstfire.runs.ensemble import Ensemble
from firstfire.runs.fate import Fate
from firstfire.runs.one_by_one import OneByOne
from firstfire.runs.spread import Spread
from firstfire.verdict.doubt.enders import Curve, Ender, Swayed, added, first_of
from firstfire.verdict.doubt.enders_fitted import enders
from firstfire.verdict.facts.spans import Bend

WAY = "liner.ovalise"
AT_ONCE = math.log(0.25)
"""The first quarter of a second."""


def standing(**places):
    return lambda name: np.array(places[name], dtype=float)


def test_what_inputs_add_grows_with_their_square_to_two_and_a_half_deviations():
    """0.2 · 3 + 0.1 · 2.5² + 0.05 = 1.275; -0.2 + 0.1 - 0.05 = -0.15."""
    terms = {"a": (0.2, 0.1), "b": (0.05, 0.0)}
    assert added(terms, standing(a=[3, -1], b=[1, -1]), 2) == pytest.approx([1.275, -0.15])
    assert added({}, standing(), 2) == pytest.approx([0.0, 0.0])


TWOFOLD = math.log(2) * np.arange(4)


def test_a_curve_is_carried_on_as_steeply_as_it_ended():
    """1, 2, 4 and 8 s lose 0, 0.1, 0.2 and 0.4: the last 0.3 took two doublings."""
    curve = Curve(TWOFOLD, np.array([0.0, 0.1, 0.2, 0.4]))
    times = curve.when(np.array([0.05, 0.3, 0.4, 0.7, -0.01, 3.0]))
    doublings = [0.5, 2.5, 3.0, 5.0]
    assert times == pytest.approx([*(n * math.log(2) for n in doublings), AT_ONCE, math.inf])
    level = Curve(TWOFOLD, np.array([0.0, 0.1, 0.1001, 0.1002]))
    assert level.when(np.array([0.11]))[0] == math.inf


def test_a_swayed_factor_ends_where_its_sum_passes_nought():
    """0.3 to -0.1: three quarters of the way. At -2.9: 0.01 to -0.1 - 0.29 + 0.05 · 2.5²."""
    one = Swayed(
        np.array([0.0, 1.0, 3.0]), np.array([0.5, 0.3, -0.1]),
        {"a": (np.array([0.1, 0.1, 0.1]), np.array([0.0, 0.0, 0.05]))},
    )  # fmt: skip
    times = one.when(np.array([0.0, -0.35, 0, 0, 0]), standing(a=[0, 0, 1, -6, -2.9]))
    assert times == pytest.approx([2.5, 0.75, math.inf, AT_ONCE, 1 + 2 * 0.01 / 0.0875])


def ender(**changes):
    """Each tenth of the factor's logarithm is a tenth of the time's."""
    even = np.arange(4.0)
    parts = {
        "id": WAY, "point": "full", "horizon": 3.0, "factor": 0.5, "curve": Curve(even, even),
        "start": 0.1, "in_factor": {"a": (0.2, 0.0)}, "in_time": {"b": (0.3, 0.0)}, "bend": None,
        "left": np.array([0.05, -0.05]),
    }  # fmt: skip
    return Ender(**{**parts, **changes})


PLACES = standing(a=[1, 2], b=[1, -1])
ENGINES = np.array([0, 1])


def test_a_time_is_read_off_the_factor_with_what_adds_to_it():
    """0.5 + 0.2 + 0.1 + 0.3 + 0.05 and 0.5 + 0.4 + 0.1 - 0.3 - 0.05."""
    assert ender().drawn(PLACES, ENGINES) == pytest.approx([1.15, 0.65])
    assert ender().names == {"a", "b"}
    late = ender(start=9.0).drawn(PLACES, ENGINES)
    early = ender(start=-9.0).drawn(PLACES, ENGINES)
    # What an engine leaves over is added to the ends as well.
    assert late == pytest.approx([3.0, 2.95])
    assert early == pytest.approx([AT_ONCE + 0.05, AT_ONCE])
    assert ender(curve=None).drawn(PLACES, ENGINES) == pytest.approx([0.45, -0.25])


def test_a_bent_factor_scatters_as_the_engines_drawn_did():
    """0.1 + 2 u + 3 (u² - 0.25) + left at 0.2, 0.2 and 0.4, -0.4: 0.07 and 0.23 over 0.5."""
    bend = Bend(0.1, 2.0, 3.0, 0.5, 0.2, left=(0.2, -0.4))
    found = ender(bend=bend).drawn(PLACES, ENGINES)
    assert found == pytest.approx([0.57 + 0.1 + 0.3 + 0.05, 0.73 + 0.1 - 0.3 - 0.05])


def test_through_a_swayed_factor():
    """0.5 + 0.1 more falls by 0.4 a step: three halves; less 0.2: 0.75; then start and left."""
    through = Swayed(
        np.array([0.0, 1.0, 2.0]), np.array([0.5, 0.1, -0.3]), {"c": (np.ones(3), np.zeros(3))}
    )
    one = ender(curve=through, in_factor={"a": (0.1, 0.0)}, in_time={})
    places = standing(a=[1, -2], b=[0, 0], c=[0, 0])
    assert one.drawn(places, ENGINES) == pytest.approx([1.5 + 0.15, 0.75 + 0.05])
    assert one.names == {"a", "c"}


def test_the_first_of_two_ends_an_engine():
    other = ender(start=0.4, in_time={"b": (-0.2, 0.0)})
    first, which = first_of([ender(), other], lambda _: PLACES, ENGINES)
    # The other: 0.7 + 0.4 - 0.2 + 0.05 = 0.95 and 0.9 + 0.4 + 0.2 - 0.05 = 1.45.
    assert first == pytest.approx([0.95, 0.65])
    assert which.tolist() == [1, 0]


# Which form fits. The factor at the centre is e, and falls by a quarter of its logarithm as the
# time grows e-fold: nothing would be left after e^4 s.
STEPS = np.arange(6)
SECONDS = tuple(np.exp(STEPS).tolist())
COURSE = tuple(1.0 - 0.25 * STEPS)
HORIZON = math.exp(8.0)
UNBENT = Bend(0.0, 1.0, 0.0, 0.0, 0.0)


def fate(factor=None, log_time=math.inf, course=None):
    factors = {} if factor is None else {WAY: factor}
    courses = {} if course is None else {WAY: course}
    return Fate(factors, {WAY: math.exp(log_time)}, courses=courses)


def fitted(centre, slopes, up, down, factors, log_times, places):
    """The form chosen, given what drawn engines' inputs, factors and times are."""
    moved = OneByOne(HORIZON, SECONDS, {WAY: np.array(COURSE)}, centre, up, down)
    spread = Spread(tuple(slopes), {WAY: tuple(slopes.values())}, ())
    draws = tuple(
        Draw(dict(zip(places, map(float, each), strict=True)), {"liner": 0.0})
        for each in zip(*places.values(), strict=True)
    )
    fates = tuple(fate(f, t) for f, t in zip(factors, log_times, strict=True))
    (found,) = enders("full", moved, spread, Ensemble(draws, fates), {WAY: UNBENT})
    assert (found.id, found.point, found.horizon) == (WAY, "full", pytest.approx(8.0))
    return found


RANDOM = np.random.default_rng(3)
A, B, C, NOISE = RANDOM.uniform(-1.2, 1.2, (4, 20))


def test_a_sum_in_the_time_is_found_again():
    """0.4 a deviation of a and 0.1 of its square: 1.5 up adds 0.825, down -0.375.

    What b adds is known from its slope alone, what c adds from its factor on one side alone; the
    time is 4 times that, and longer by 0.2 than the curve says.
    """
    found = fitted(
        centre=fate(1.0, 4.2),
        slopes={"a": 0.3, "b": -0.05, "c": 0.02},
        up={"a": fate(1.0, 4.2 + 0.825), "c": fate()},
        down={"a": fate(1.0, 4.2 - 0.375), "c": fate(0.85)},
        factors=np.full(20, 1.0),
        log_times=4 * (1 - 0.05 * B + 0.1 * C) + 0.2 + 0.4 * A + 0.1 * A**2,
        places={"a": A, "b": B, "c": C},
    )
    assert found.start == pytest.approx(0.2)
    assert found.in_time == {"a": pytest.approx((0.4, 0.1))}
    assert found.in_factor == {
        "b": pytest.approx((-0.05, 0.0)), "c": pytest.approx((0.1, 0.0), abs=1e-9)
    }  # fmt: skip
    assert found.bend is None
    assert found.left == pytest.approx(np.zeros(20), abs=1e-6)


def test_a_time_that_follows_its_factor_is_found_again():
    """Each engine's own factor tells; a adds 0.6 at 1.5 up besides: 5.3 for a factor of 1.1."""
    factors = 1.0 + 0.1 * NOISE
    found = fitted(
        centre=fate(1.0, 4.3),
        slopes={"a": 0.05, "b": 0.001},
        up={"a": fate(1.1, 4.4 + 0.3 + 0.6)},
        down={},
        factors=factors,
        log_times=4 * factors + 0.3 + 0.4 * A,
        places={"a": A, "b": B},
    )
    assert found.start == pytest.approx(0.3)
    assert found.in_factor == {"a": (0.05, 0.0)}
    assert found.in_time == {"a": pytest.approx((0.4, 0.0))}
    assert found.bend is UNBENT
    assert found.left == pytest.approx(np.zeros(20), abs=1e-6)


def test_a_sum_at_every_second_is_found_again():
    """a adds 0 at first and 0.05 more each step; b takes 0.1 throughout.

    1 - 0.25 s + 0.05 a s - 0.1 b = 0 on the steps between which it lies, so straight.
    """
    swayed = [0.05 * 1.5 * STEPS, -0.05 * 1.5 * STEPS]
    up, down = (fate(1.0, 4.0, tuple(np.array(COURSE) + one)) for one in swayed)
    a, b = 0.3 * A, 0.3 * B
    found = fitted(
        centre=fate(1.0, 4.0, COURSE),
        slopes={"a": 0.0, "b": -0.1},
        up={"a": up},
        down={"a": down},
        factors=np.full(20, 1.0),
        log_times=(1 - 0.1 * b) / (0.25 - 0.05 * a),
        places={"a": a, "b": b},
    )
    assert isinstance(found.curve, Swayed)
    line, bend = found.curve.terms["a"]
    assert line == pytest.approx(0.05 * STEPS)
    assert bend == pytest.approx(np.zeros(6), abs=1e-12)
    assert found.in_factor == {"b": (-0.1, 0.0)}
    assert found.left == pytest.approx(np.zeros(20), abs=1e-6)


def test_what_nothing_explains_lies_about_its_mean():
    times = 3.0 + NOISE
    found = fitted(
        centre=fate(), slopes={"a": 0.0}, up={}, down={}, factors=np.full(20, 1.0),
        log_times=times, places={"a": A},
    )  # fmt: skip
    assert found.curve is None
    assert found.start == pytest.approx(np.mean(times))
    assert found.left == pytest.approx(times - np.mean(times))
