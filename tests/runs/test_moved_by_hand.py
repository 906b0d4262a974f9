"""How far an input is moved: ends of its span are 1.6449 deviations out (tables of the normal law).

Half and double of 1 are ln 2 each way, so a deviation is a factor of exp(0.6931 / 1.6449) = 1.5241.
"""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from firstfire.engine.unknowns import Unknown
from firstfire.runs import moved
from firstfire.runs.moved import Trials, one_step, one_up, value_at

DEVIATION = 0.42139
"""ln 2 / 1.6449."""


def unknown(path="doubt.flow", shape="normal", centre=10.0, low=6.7102, high=13.2898, **more):
    return Unknown(path, shape, centre, low, high, "", "", **more)


HALVED = unknown("doubt.wall_heat", "lognormal", 1.0, 0.5, 2.0)
EVEN = unknown()
"""2 a deviation: 3.2898 each way."""


def test_a_deviation_up():
    assert one_up(EVEN) == pytest.approx((12.0, 2.0))
    assert one_up(HALVED) == pytest.approx((1.5241, DEVIATION), rel=1e-4)
    skewed = unknown(shape="loguniform", centre=3.0, low=1.0, high=4.0)
    assert one_up(skewed) == pytest.approx((3.0 * 1.5241, DEVIATION), rel=1e-4)


def test_some_deviations_away():
    assert value_at(EVEN, 1.5) == pytest.approx(13.0)
    assert value_at(EVEN, -2.0) == pytest.approx(6.0)
    assert value_at(HALVED, 2.0) == pytest.approx(1.5241**2, rel=1e-4)
    assert value_at(HALVED, -1.0) == pytest.approx(1 / 1.5241, rel=1e-4)


def test_no_size_falls_below_a_twentieth_but_a_fit_may():
    assert value_at(EVEN, -9.0) == pytest.approx(0.5)
    assert value_at(unknown("liner.fit_interference"), -9.0) == pytest.approx(-8.0)
    assert value_at(unknown(centre=-10.0), -9.0) == pytest.approx(-28.0)


def test_each_is_moved_to_where_parts_give_way_and_back():
    """A faster, an earlier and a fuller burn press harder, so those are moved down."""
    assert one_step(EVEN) == pytest.approx(12.0)
    assert one_step(EVEN, back=True) == pytest.approx(8.0)
    early = unknown("doubt.burn_phase")
    assert one_step(early) == pytest.approx(8.0)
    assert one_step(early, back=True) == pytest.approx(12.0)
    quick = unknown("doubt.burn_duration", "lognormal", 1.0, 0.5, 2.0)
    assert one_step(quick) == pytest.approx(1 / 1.5241, rel=1e-4)
    assert one_step(quick, back=True) == pytest.approx(1.5241, rel=1e-4)


@pytest.fixture
def trials(monkeypatch):
    """Of two unknowns; an engine moved is told as its path and value."""
    burn = unknown("doubt.burn_duration", "lognormal", 2.0, 1.0, 4.0, extrapolated=True)
    monkeypatch.setattr(moved, "resolve", lambda _: "centre")
    monkeypatch.setattr(moved, "unknowns", lambda _: (EVEN, burn, unknown("leak.gasket")))
    monkeypatch.setattr(moved, "with_one", lambda *of: of[2:])
    return Trials("engine")


def test_a_half_width_of_its_own_is_of_nine_tenths(trials):
    """0.35 each way at 5 and 95 %: 0.21278 a deviation."""
    assert trials.moved(EVEN) == ("doubt.flow", pytest.approx(12.0))
    assert trials.moved(EVEN, half=0.35)[1] == pytest.approx(10.21278, rel=1e-5)
    assert trials.moved(EVEN, half=0.35, back=True)[1] == pytest.approx(9.78722, rel=1e-5)


@pytest.mark.parametrize(("rpm", "low", "high"), [(790, 1.0, 4.0), (810, 1.4, 2.8)])
def test_a_burn_is_surer_at_speeds_its_law_was_fitted_on(trials, rpm, low, high):
    """From 800 rpm; leaks other than the rings' are left alone."""
    bout = SimpleNamespace(point=SimpleNamespace(event="cranking", speed=rpm * 0.1047198))
    even, burn = trials.for_bout(bout)
    assert even is EVEN
    assert (burn.low, burn.high) == pytest.approx((low, high))


@pytest.mark.parametrize(
    ("event", "low", "high"),
    [("first_fire", 1.0, 4.0), ("kick_back", 1.0, 4.0), ("idle", 1.0, 4.0),
     ("full_throttle", 1.4, 2.8), ("free_rev", 1.4, 2.8)],
)  # fmt: skip
def test_a_flame_that_travels_is_as_unsure_at_any_speed(trials, event, low, high):
    """Half to twice its duration, beyond what the fitted law carries above 800 rpm."""
    bout = SimpleNamespace(point=SimpleNamespace(event=event, speed=157.0))
    _, burn = trials.for_bout(bout)
    assert (burn.low, burn.high) == pytest.approx((low, high))
    assert burn.extrapolated is (low == 1.0)
