"""A start's sound from what has passed its exhaust: mass, time and level by other ways."""

import math
from types import SimpleNamespace

import numpy as np
import pytest
from tests.runs.start.test_knock_and_bangs import column, whole

from firstfire.cycle import layout
from firstfire.runs.start.heard import Puffs, puffs, start_sound


@pytest.fixture(scope="module")
def one():
    return whole()


@pytest.fixture(scope="module")
def found(one):
    return puffs(one)


def test_as_much_air_is_pushed_away_as_the_gas_takes_room(one, found):
    """Volume flow times the density of the air outside, one gas constant: mass by temperatures.

    Step by step of the kernel, by its own sum of what has passed and the pipe's temperature."""
    at = 1 + int(one.life.engines[0]["passage_sums_at"])
    names = [v.name for v in one.life.spec.valves] + [p.name for p in one.life.spec.passages]
    passed = one.rows[:, at + layout.PASSAGE_SUMS * names.index("tail 1")]
    warm = column(one, "stub 1", layout.TEMPERATURE) / one.life.spec.ambient_temperature
    out = np.diff(passed) > 0
    swollen = np.diff(passed) * np.where(out, (warm[1:] + warm[:-1]) / 2, 1.0)
    widths = np.diff(found.time, prepend=2 * found.time[0] - found.time[1])
    told = float(np.sum(found.flow * widths))
    assert told == pytest.approx(float(swollen.sum()), rel=0.02)
    assert told > 3 * passed[-1] > 0  # burned gas is hot: far more air than its own mass


def test_it_is_told_in_rising_time_that_no_rounding_spoils(found):
    assert np.all(np.diff(found.time) > 5e-6)
    assert np.isfinite(found.flow).all()


def test_each_burn_is_heard_as_its_exhaust_opens(one, found):
    """The flow begins to rise where the cam says, after the spark that lit: nothing before."""
    opens = math.pi - one.life.plain.cylinders[0].valves.exhaust.opens_before_bottom
    first = one.lived.burns[0]
    angle = one.rows[:, 1 + layout.ANGLE]
    turned = angle - one.life.phases[0]
    cycle = 4 * math.pi * round(float(np.interp(first.seconds, one.time, turned)) / (4 * math.pi))
    when = float(np.interp(cycle + opens, turned, one.time))
    blast = found.flow[(found.time > when) & (found.time < when + 0.02)].max()
    before = found.flow[found.time < first.seconds].max()
    assert blast > 3 * before
    sound = start_sound(found, distance=1.0, rate=22_050.0, most=12.0)
    heard = sound.start + np.arange(len(sound.pressure)) / sound.rate - 1.0 / 343.0
    loud = np.abs(sound.pressure)
    assert loud[(heard > when) & (heard < when + 0.02)].max() > 3 * loud[heard < when - 0.01].max()


def test_a_hum_of_the_exhaust_has_the_pressure_of_a_point_source():
    """``ω m / 4πr`` (Dowling and Ffowcs Williams, *Sound and Sources of Sound*, chapter 2)."""
    time = np.linspace(0.0, 0.5, 20_001)
    flow = 2e-3 * np.sin(2 * math.pi * 100.0 * time)
    sound = start_sound(Puffs(time, flow), distance=2.0, rate=22_050.0, most=9.0)
    most = 2 * math.pi * 100.0 * 2e-3 / (4 * math.pi * 2.0)
    assert np.abs(sound.pressure[400:-400]).max() == pytest.approx(most, rel=2e-3)


def test_no_more_of_it_is_told_than_asked_for():
    time = np.linspace(0.1, 5.0, 5_001)
    sound = start_sound(Puffs(time, np.sin(9 * time)), distance=1.0, rate=8_000.0, most=1.5)
    assert len(sound.pressure) == pytest.approx(1.5 * 8_000, abs=10)


def test_steps_of_no_length_and_other_passages_are_left_out():
    """Two exhausts add up; a leak beside them is not heard."""
    time = np.array([0.0, 1e-9, 1e-3, 1e-3 + 1e-9, 2e-3])
    through = {"tail 1": time * 2e-3, "tail 2": time * 1e-3, "plug leak 1": time * 9.0}
    named = [SimpleNamespace(name=name, start=name.replace("tail", "stub")) for name in through]
    spec = SimpleNamespace(passages=named, ambient_temperature=300.0)
    seen = SimpleNamespace(
        time=time, life=SimpleNamespace(spec=spec), passed=through.__getitem__,
        of=lambda name, *_: np.full(5, 600.0 if name == "stub 1" else 300.0),
    )  # fmt: skip
    found = puffs(seen)
    assert found.time == pytest.approx([0.5e-3, 1.5e-3])
    assert found.flow == pytest.approx([2 * 2e-3 + 1e-3] * 2)
