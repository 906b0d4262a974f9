"""What is told of a start's record: its sparks, what a gauge shows, what is heard.

Shafts are made up where nothing of the engine is asked; the gauge is held to one that stands in
the engine's own network as a room behind a one-way valve, by another law of flow.
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.geometry import firing_angles
from firstfire.formulas.sensor_edges import Sensor
from firstfire.runs.heard import heard, tail_flow
from firstfire.runs.point import operating_point, spark_angle
from firstfire.runs.shown import gauge_shown
from firstfire.runs.sparked import advance_while, coil_of, spark_timing, sparks_of
from firstfire.runs.spun import GAUGE, Spun, on_its_shaft, starter_line, turned_on
from firstfire.runs.walls import assumed_warm, cold

RPM = math.pi / 30
DEG = math.pi / 180
TURN = 2 * math.pi
ENGINES = Path(__file__).resolve().parents[2] / "engines"


@pytest.fixture(scope="module")
def single() -> ff.PlainEngine:
    return ff.resolve(ff.read(ENGINES / "wren.toml"))


@pytest.fixture(scope="module")
def twin() -> ff.PlainEngine:
    return ff.resolve(ff.read(ENGINES / "heron.toml"))


def sparked(engine: ff.PlainEngine, **changes: object) -> ff.PlainEngine:
    return engine.model_copy(update={"spark": engine.spark.model_copy(update=changes)})


def steadily(speed: float, turns: float = 12.0, slows: float = 0.0) -> Spun:
    time = np.linspace(0.0, turns * TURN / speed, 50)
    angle = -3.0 + speed * time - 0.5 * slows * time**2
    return Spun(time, angle, speed - slows * time, np.zeros(50), np.ones((50, 1)))


TABLE = ((1000 * RPM, 8 * DEG), (3000 * RPM, 20 * DEG), (4000 * RPM, 24 * DEG))


@pytest.mark.parametrize("wasted", [True, False])
@pytest.mark.parametrize(
    "changes",
    [
        {"timed_by": "edge"},
        {"timed_by": "clock"},
        {"timed_by": "clock", "advance_table": TABLE},
        {"timed_by": "edge", "advance_table": TABLE},
        {"source": "points", "running_angle": 5 * DEG, "latency": 0.0},
    ],
    ids=["edge", "clock", "clock and table", "edge and table", "points"],
)
def test_at_steady_speed_it_fires_where_an_operating_point_has_it(single, changes, wasted):
    engine = sparked(single, start_angle=5 * DEG, wasted=wasted, **changes)
    for speed, starting in ((300 * RPM, True), (2600 * RPM, False)):
        (found,) = sparks_of(engine, steadily(speed))
        later = found.advance[2:]
        assert later == pytest.approx(-spark_angle(engine, speed, starting=starting))
        assert len(later) == (12 if wasted else 6) - 2 - (changes.get("timed_by") == "clock")
        assert found.firing.all() != wasted


def test_each_cylinder_has_its_own_sparks(twin):
    found = sparks_of(twin, steadily(500 * RPM, 20))
    assert len(found) == 2
    for sparks, top in zip(found, firing_angles(twin), strict=True):
        beyond = [math.remainder(a + s - top, 2 * TURN)
                  for a, s in zip(sparks.angle, sparks.advance, strict=True)]  # fmt: skip
        assert beyond == pytest.approx(np.zeros(len(beyond)), abs=1e-9)


def test_two_sensors_scatter_apart_and_alike_by_seed(twin):
    engine = sparked(twin, source="sensor", timed_by="edge")
    spun, sensor = steadily(500 * RPM, 40), Sensor(scatter=1e-4)
    found = sparks_of(engine, spun, sensor=sensor, seed=3)
    again = sparks_of(engine, spun, sensor=sensor, seed=3)
    assert all(a.time.tobytes() == b.time.tobytes() for a, b in zip(found, again, strict=True))
    off = [sparks.advance - sparks.advance.mean() for sparks in found]
    assert not np.allclose(off[0][: len(off[1])], off[1][: len(off[0])])


def test_a_slowing_shaft_fires_as_its_law_says(single):
    speed, slows = 45.0, 40.0
    for timed_by in ("edge", "clock"):
        engine = sparked(single, timed_by=timed_by, wasted=True, latency=1e-3)
        (found,) = sparks_of(engine, steadily(speed, 2.9, slows))
        timing = spark_timing(engine)
        at = TURN - (timing.leading if timed_by == "clock" else timing.trailing)
        then = math.sqrt(speed**2 - 2 * slows * (at + 3.0))
        told = advance_while(engine, then, -slows)
        near = np.argmin(np.abs(found.angle - TURN))
        assert found.advance[near] == pytest.approx(told, abs=1e-9)
        assert (told > timing.start) == (timed_by == "clock")


def test_a_limiter_that_cuts_fuel_cuts_no_spark(single):
    fast = steadily(3000 * RPM)
    for cut, count in (("spark", 1), ("fuel", 6), ("nothing", 6)):
        engine = sparked(single, limit_speed=2900 * RPM, limited_by=cut, timed_by="edge")
        assert len(sparks_of(engine, fast)[0].time) == count
    assert coil_of(single).energy == single.spark.coil_energy


@pytest.mark.parametrize("name", ["plover", "wren"])
def test_a_gauge_climbs_as_one_in_the_engine_does(name):
    """Within a twentieth of what it comes to, from the second stroke on.

    A first-order law for a nozzle, one hose for the whole stroke: 4 % apart at the most as
    measured over 2.5 s.
    """
    plain = ff.resolve(ff.read(ENGINES / f"{name}.toml"))
    shaft = starter_line(plain)
    spun = turned_on(on_its_shaft(plain, cold(plain), shaft, 0.2), 2.5)[1]
    shown = gauge_shown(plain, spun, hose_volume=8e-6, valve_area=2.4e-6)
    inside, found = on_its_shaft(plain, cold(plain), shaft, 0.2, gauge=0), []
    times = (0.6, 1.0, 1.5, 2.0, 2.5)
    for until in times:
        inside = turned_on(inside, until)[0]
        found.append(inside.pressure_in(GAUGE) - plain.surroundings.air_pressure)
    assert np.interp(times, spun.time, shown) == pytest.approx(found, abs=0.05 * found[-1])


@pytest.fixture(scope="module")
def running(single):
    speed = 3000 * RPM
    spark = spark_angle(single, speed, starting=False)
    return operating_point(
        single, "full_throttle", "3000", speed, assumed_warm(single), spark, with_peaks=False
    )


def test_what_is_heard_repeats_with_the_cycle(running):
    """25 Hz at 3000 rpm: all of it is in that note and its overtones."""
    told = heard(running, distance=7.0, rate=8000.0, cycles=40, overtones=100)
    assert math.remainder(told.loudest, 25.0) == pytest.approx(0.0, abs=0.7)
    assert 20 * math.log10(math.sqrt(np.sum(told.tones**2)) / 20e-6) == pytest.approx(
        told.level, abs=0.1
    )
    far = heard(running, distance=14.0, rate=8000.0, cycles=40, reflection=2.0)
    assert far.level == pytest.approx(told.level, abs=1e-6)


def test_what_is_pushed_away_is_what_the_exhaust_holds_hot(running):
    """Mean flow out, each part at its own warmth, between the coolest and the hottest."""
    time, pushed = tail_flow(running)
    curves, spec = running.fired.cycle.curves, running.fired.spec
    at = list(running.fired.cycle.passages).index("tail 1")
    row = len(spec.cylinders) + [one.name for one in spec.volumes].index("stub 1")
    out = np.trapezoid(curves.flow[:, at], curves.time)
    warm = curves.temperature[curves.flow[:, at] > 0, row] / spec.ambient_temperature
    assert warm.min() * out < np.trapezoid(pushed, time) < warm.max() * out
