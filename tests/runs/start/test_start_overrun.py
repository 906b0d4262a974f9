"""Left alone with its throttle open: how fast, how soon, and which limit comes first."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from tests.runs.start.books import RPM, engine

from firstfire.errors import Stopped
from firstfire.runs.at import bout_at
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.going import at_speed
from firstfire.runs.start.overrun import over_run
from firstfire.runs.start.speed_limits import SLOW, speed_limits

OPEN = Asked(throttle=1.0)
LAW = replace(OPEN, flame="by_law")
"""A run-away burns by the quicker of the two, as its torques at held speeds then do."""


@pytest.fixture(scope="module")
def heron():
    return over_run(engine("heron"), Asked(throttle=0.3, advance=0.2, seed=3), 4500 * RPM)


@pytest.fixture(scope="module")
def freely():
    """The gas of wren at its limiter."""
    return bout_at(engine("wren"), "free_rev", 5000 * RPM)


def test_it_settles_where_nothing_is_left_of_its_torque():
    """By the torque at a held speed, of another sum: none at what it reaches, some below it.

    With a wheel that keeps its speed even, as the held one does.
    """
    plain = engine("heron", flywheel__inertia="0.005 kg*m^2")
    away = over_run(plain, OPEN, 4000 * RPM)
    gives = at_speed(plain, LAW, away.reached)
    assert abs(gives.net) < 0.05 * gives.gas
    assert at_speed(plain, LAW, 0.9 * away.reached).net > 0.1 * gives.gas
    assert away.held == "friction"
    assert away.begins == pytest.approx(1.1 * 4000 * RPM)
    # by a travelling flame, which is late at speed, it would not come so far
    assert at_speed(plain, OPEN, away.reached).net < -0.1 * gives.gas


def test_throttle_spark_and_seed_of_the_start_are_not_those_of_a_run_away(heron):
    again = over_run(engine("heron"), OPEN, 4500 * RPM)
    assert again.reached == heron.reached
    assert again.curve == heron.curve


def test_it_gains_speed_as_torque_over_inertia_lets_it():
    """∫ I dω/net, by torques at held speeds, with a wheel ten times as heavy as wren's.

    So heavy that what a cylinder drew in at one speed burns at nearly the same; with wren's own it
    burns 400 rpm later, where the held engine has a fifth less torque.
    """
    plain = engine("wren", flywheel__inertia="0.014 kg*m^2")
    away = over_run(plain, OPEN, 1500 * RPM)
    begins, ends = 2000 * RPM, 4500 * RPM
    speeds = np.linspace(begins, ends, 6)
    net = np.array([at_speed(plain, LAW, speed).net for speed in speeds])
    fine = np.linspace(begins, ends, 200)
    takes = np.trapezoid(0.01405 / np.interp(fine, speeds, net), fine)
    took = away.seconds_to(ends) - away.seconds_to(begins)
    assert took == pytest.approx(takes, rel=0.06)
    assert away.seconds > away.seconds_to(ends)


def test_a_limiter_holds_it_and_without_one_it_goes_on():
    """One combustion carries so light a wheel some hundred rpm past it: it hunts about it."""
    plain = engine("wren")
    spark = plain.spark.model_copy(update={"limit_speed": 3000 * RPM})
    held = over_run(plain.model_copy(update={"spark": spark}), OPEN, 1500 * RPM)
    assert held.held == "limiter"
    assert held.reached == pytest.approx(3000 * RPM, rel=0.05)
    free = plain.spark.model_copy(update={"limited_by": "nothing", "limit_speed": None})
    away = over_run(plain.model_copy(update={"spark": free}), OPEN, 1500 * RPM)
    assert away.held == "friction"
    assert away.reached > 1.1 * held.reached
    assert at_speed(plain.model_copy(update={"spark": free}), LAW, away.reached).net == (
        pytest.approx(0.0, abs=0.1)
    )


def test_what_does_not_go_on_does_not_run_away():
    assert over_run(engine("wren"), OPEN, math.inf) is None
    without = replace(OPEN, wrong=replace(OPEN.wrong, no_spark=True))
    assert over_run(engine("wren"), without, 1500 * RPM) is None


def test_it_can_be_stopped():
    with pytest.raises(Stopped):
        over_run(engine("wren"), OPEN, 1500 * RPM, lambda: True)


def test_a_valve_floats_at_the_speed_that_its_way_has_as_capacity(freely):
    """The law of float has a speed for capacity, whatever the speed asked: they must be one."""
    from firstfire.parts.all import ways
    from firstfire.runs.moments import judged_peak, loads_at, moment

    plain = engine("wren")
    peaks = [judged_peak(freely, 0, 3.0)]
    seen = moment(freely, plain, 0, 3.0, peaks, loads_at(freely, plain, peaks))
    floats = next(way for way in ways(seen) if way.id == "valves.inlet.float")
    found = {limit.id: limit for limit in speed_limits(plain, freely).passed}
    assert found["valves.inlet.float"].speed == pytest.approx(floats.capacity, rel=1e-3)
    assert floats.capacity == pytest.approx(floats.factor * 5000 * RPM, rel=1e-3)


def test_a_wheel_bursts_at_the_root_of_its_factor(freely):
    """Stress goes with the square of the speed, so it bursts at √factor times that speed."""
    from firstfire.parts.all import ways
    from firstfire.runs.moments import judged_peak, loads_at, moment

    plain = engine("wren")
    weak = replace(plain.materials[plain.flywheel.material])
    strength = {
        name: (0.02 if "strength" in name or "yield" in name else 1.0) * value
        for name, value in weak.properties.items()
    }
    plain = plain.model_copy(
        update={
            "materials": {
                **plain.materials,
                plain.flywheel.material: replace(weak, properties=strength),
            }
        }
    )
    peaks = [judged_peak(freely, 0, 3.0)]
    seen = moment(freely, plain, 0, 3.0, peaks, loads_at(freely, plain, peaks))
    bursts = next(way for way in ways(seen) if way.id == "flywheel.burst")
    found = {limit.id: limit for limit in speed_limits(plain, freely).passed}
    assert found["flywheel.burst"].speed == pytest.approx(
        math.sqrt(bursts.factor) * 5000 * RPM, rel=2e-3
    )
    assert found["flywheel.burst"].hazard


def test_limits_come_in_their_order_and_above_a_slow_turn(heron):
    speeds = [limit.speed for limit in heron.limits.passed]
    assert speeds == sorted(speeds)
    assert speeds[0] > SLOW
    assert {limit.id for limit in heron.limits.passed[:2]} == {"rod.tear", "rod.tear#2"}


def test_what_gas_alone_breaks_has_no_speed(heron):
    """heron's crank joint slips at any speed: it is counted there and is no speed limit."""
    assert "crank.joint.slip" in heron.limits.already
    assert not {limit.id for limit in heron.limits.passed} & set(heron.limits.already)


def test_a_heavier_piston_tears_its_rod_earlier(freely):
    plain = engine("wren")

    def tears(found):
        limits = speed_limits(found, freely).passed
        return next(limit.speed for limit in limits if limit.id == "rod.tear")

    assert tears(engine("wren", piston__mass="60 g")) < 0.95 * tears(plain)
