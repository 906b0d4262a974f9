"""Small laws of a start by hand: the plug's volts, how far a shaft is followed, air past drops."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest
from tests.runs.start.books import engine

from firstfire.formulas import spark_gap
from firstfire.runs import fuel_path
from firstfire.runs.comes_over import comes_over
from firstfire.runs.cranking import cranked
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.kick_back import _followed
from firstfire.runs.start.life import Life
from firstfire.runs.start.odds import why_not
from firstfire.runs.start.strong_burn import _volts

DEG = math.pi / 180


def lived(pressure, cylinder=0):
    """A start with one spark, 0.2 s after it began, in a gas of so many Pa."""
    pressures = np.array([[1e5, 1e5], [pressure, 1e5], [1e5, 1e5]])
    return SimpleNamespace(
        sparks=[SimpleNamespace(seconds=0.2, cylinder=cylinder)],
        spun=SimpleNamespace(time=np.array([0.1, 0.2, 0.3]), pressure=pressures),
    )


def test_the_plug_is_asked_at_its_spark_in_gas_that_was_pressed_with_an_exponent_of_1_3():
    """8 bar from 1 bar: 8^(0.3/1.3) = 1.616 times as warm, 474 K from 293 K."""
    air = {"surroundings__air_temperature": "20 °C", "surroundings__air_pressure": "1 bar"}
    plain = engine("wren", **air)
    gap = plain.cylinders[0].plug.gap
    assert _volts(plain, lived(8e5)) == pytest.approx(
        spark_gap.breakdown_voltage(gap, 8e5, 293.15 * 1.6158), rel=1e-4
    )
    twin = engine("heron", **air)
    gap = twin.cylinders[1].plug.gap
    assert _volts(twin, lived(8e5, cylinder=1)) == pytest.approx(
        spark_gap.breakdown_voltage(gap, 1e5, 293.15)
    )


def test_without_a_spark_no_plug_is_asked():
    nothing = SimpleNamespace(sparks=[], spun=SimpleNamespace(time=np.array([0.1, 0.2])))
    assert _volts(engine("wren"), nothing) is None


class Turning:
    """A shaft that goes on by 4° a millisecond, from so many degrees."""

    def __init__(self, begins, by=4.0):
        self.degrees, self.now, self.by = begins, 1.0, by

    @property
    def angle(self):
        return self.degrees * DEG

    def step(self):
        self.degrees += self.by
        self.now += 1e-3

    def checked(self, stop):
        assert stop is None


@pytest.mark.parametrize(("begins", "ends"), [(-10.0, 40.0), (350.0, 400.0), (170.0, 220.0)])
def test_a_first_combustion_is_followed_until_the_shaft_is_40_degrees_past_its_top(begins, ends):
    """What throws it back later was the next compression, not this spark."""
    found = _followed(Turning(begins), None)
    assert found.degrees == pytest.approx(ends, abs=4.0)


def test_and_no_longer_than_0_6_s():
    found = _followed(Turning(-10.0, by=0.0), None)
    assert found.now == pytest.approx(1.6, abs=2e-3)


def test_air_passes_drops_with_a_fifth_of_its_speed_in_the_port():
    """0.01 m³/s through 20 mm is 31.8 m/s."""
    path = fuel_path.FuelPath("injector", 20e-3, 40e-3, 40e-3, 36e-3, 8.0)
    size, slip = fuel_path._sizes(path, {"ethanol": 1e-6}, SimpleNamespace(flow=0.01))
    assert size == path.droplet
    assert slip == pytest.approx(0.2 * 31.83, rel=1e-3)


def test_what_a_check_says_its_starter_does_not_turn_over_does_not_start_either():
    """wren on a rope: 4.5 N·m creep past its top only as the charge leaks away. Nobody pulls on."""
    plain = engine("wren", starter__kind="rope")
    assert not comes_over(plain)
    assert not cranked(plain, 2.5).over
    lived = Life(plain, Asked(seconds=3.0, after=1.0, seed=1)).lived()
    assert not lived.burns
    assert lived.let_go < 2.0
    assert why_not(lived, plain.use.cranking_speed) == "torque"
    wheel = engine("wren", starter__kind="rope", flywheel__inertia="0.005 kg*m^2")
    assert comes_over(wheel)
    assert cranked(wheel, 2.5).over
    assert Life(wheel, Asked(seconds=3.0, after=1.0, seed=1)).lived().burns
