"""What a starter makes of an engine, told from turning that is laid down by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from tests.loads.small_engines import engine_of

from firstfire.engine.geometry import firing_angles
from firstfire.runs import cranking
from firstfire.runs.cranking import OILED, cranked, driven, gauge_reading
from firstfire.runs.spun import Spun, starter_line


def turning(speeds, begins=0.0, rotor=1.0):
    """Steps of 1 ms at these speeds, rad/s, one for each."""
    speed = np.asarray(speeds, dtype=float)
    time = 1e-3 * np.arange(len(speed))
    angle = begins + np.concatenate([[0.0], np.cumsum(speed[1:] * 1e-3)])
    return Spun(time, angle, speed, rotor * speed, np.full((len(speed), 1), 1e5))


def laid_down(monkeypatch, of, gauges=None):
    """`of` tells how it turns with a shaft; a gauge shows so much, by what its rings let past."""

    def spun(plain, shaft, seconds, stop, gauge=None, **more):
        leak = plain.cylinders[0].leak.ring
        shown = SimpleNamespace(pressure_in=lambda _name: (gauges or {}).get(leak, 8e5))
        return shown, of(shaft)

    monkeypatch.setattr(cranking, "_spun", spun)
    monkeypatch.setattr(cranking, "comes_over", lambda *_: True)


@pytest.mark.parametrize("layout", ["single", "parallel 360", "parallel 180"])
def test_it_is_turned_back_to_just_past_a_top(monkeypatch, layout):
    """Ten degrees past the first top that fires."""
    plain = engine_of(layout)

    class BegunError(Exception):
        pass

    def noted(_plain, _walls, _shaft, start, **more):
        raise BegunError(start)

    monkeypatch.setattr(cranking, "on_its_shaft", noted)
    with pytest.raises(BegunError) as begun:
        gauge_reading(plain, starter_line(plain), 1.0)
    first = min(firing_angles(plain))
    assert math.degrees(begun.value.args[0] - first) == pytest.approx(10.0)


def test_a_trigger_is_let_back_until_it_turns_as_asked(monkeypatch):
    """Turning at 0.8 of its free speed: 100 gives 80; 100 x 50/80 = 62.5 gives the 50 asked."""
    plain = engine_of(use__cranking_speed=50.0)
    fast = replace(starter_line(plain), starter_free=100.0, rotor=0.0)
    laid_down(monkeypatch, lambda shaft: turning([0.8 * shaft.starter_free] * 3001))
    assert driven(plain, shaft=fast).starter_free == pytest.approx(62.5)
    slow = replace(fast, starter_free=60.0)
    assert driven(plain, shaft=slow).starter_free == 60.0
    # Within a hundredth of what is asked nobody hears a difference.
    near = replace(fast, starter_free=50.4 / 0.8)
    assert driven(plain, shaft=near).starter_free == 50.4 / 0.8
    far = replace(fast, starter_free=50.6 / 0.8)
    assert driven(plain, shaft=far).starter_free == pytest.approx(62.5)
    back = replace(fast, starter_free=-100.0)
    assert driven(plain, shaft=back).starter_free == pytest.approx(-62.5)


def test_a_hand_hears_the_starter_not_the_engine_that_runs_ahead(monkeypatch):
    """Its rotor turns half as fast as the engine: it is that which is held to 50."""
    plain = engine_of(use__cranking_speed=50.0)
    left = replace(starter_line(plain), starter_free=100.0, rotor=1e-3)
    laid_down(monkeypatch, lambda shaft: turning([1.6 * shaft.starter_free] * 3001, rotor=0.5))
    assert driven(plain, shaft=left).starter_free == pytest.approx(62.5)


def test_the_last_second_is_told_and_both_gauges(monkeypatch):
    """4 s at 40, then at 30 and 34 rad/s by turns: 32 in the mean, 30 at least."""
    plain = engine_of(use__cranking_speed=500.0)
    ring = plain.cylinders[0].leak.ring
    late = [30.0, 34.0] * 500
    speeds = [40.0] * 4001 + late
    laid_down(
        monkeypatch,
        lambda shaft: turning([math.copysign(one, shaft.starter_free) for one in speeds]),
        {ring: 9e5, OILED * ring: 8.7e5},
    )
    forward = replace(starter_line(plain), starter_free=100.0, rotor=0.0)
    found = cranked(plain, shaft=forward)
    assert found.mean_speed == pytest.approx(32.0, rel=2e-3)
    assert found.least_speed == 30.0
    air = plain.surroundings.air_pressure
    assert found.gauge == pytest.approx(9e5 - air)
    assert found.gauge_oiled == pytest.approx(8.7e5 - air)
    backward = cranked(plain, shaft=replace(forward, starter_free=-100.0))
    assert backward.mean_speed == pytest.approx(-32.0, rel=2e-3)
    assert backward.least_speed == -30.0


@pytest.mark.parametrize("over", [True, False])
def test_it_comes_over_where_a_check_has_it_with_its_trigger_held_down(monkeypatch, over):
    """100 rad/s is what it may, 62.5 what is left of it for the 50 that are asked."""
    plain, asked_of = engine_of(use__cranking_speed=50.0), []
    laid_down(monkeypatch, lambda shaft: turning([0.8 * shaft.starter_free] * 3001))

    def asked(_plain, shaft, _stop):
        asked_of.append(shaft.starter_free)
        return over

    monkeypatch.setattr(cranking, "comes_over", asked)
    found = cranked(plain, shaft=replace(starter_line(plain), starter_free=100.0, rotor=0.0))
    assert found.over is over
    assert asked_of == [100.0]
    assert found.shaft.starter_free == pytest.approx(62.5)


def test_a_trigger_is_not_let_back_until_the_engine_stands(monkeypatch):
    """At 100 it turns at 80, at 62.5 it would stand once: 100 it stays."""
    plain = engine_of(use__cranking_speed=50.0)

    def spun(_plain, shaft, *_, stalled):
        found = turning([0.8 * shaft.starter_free] * 3001)
        if shaft.starter_free < 70.0:
            found.speed[1500] = 0.1
        stalled.feel(found.speed, let_off=False)
        return None, found

    monkeypatch.setattr(cranking, "_spun", spun)
    fast = replace(starter_line(plain), starter_free=100.0, rotor=0.0)
    assert driven(plain, shaft=fast).starter_free == 100.0
