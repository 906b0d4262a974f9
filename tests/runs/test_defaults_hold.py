"""What the rules of thumb fill in holds by the model's own first judgement, in sizes shops sell."""

import math

import pytest

import firstfire as ff
from firstfire import catalog
from firstfire.engine.events import EVENTS
from firstfire.engine.read import understand
from firstfire.engine.rules.stock import RODS
from firstfire.engine.wish import wish
from firstfire.runs.bout import held
from firstfire.runs.point import spark_angle
from firstfire.runs.run import run
from firstfire.runs.spread import Trials

SMALLEST = """
[layout]
kind = "single"

[cylinder]
bore = "{bore} mm"
stroke = "{stroke} mm"

[printing]
material = "{material}"
"""
# Heat is another matter: what a bare printed chamber or crown bears in seconds is the clock's.
OF_HEAT = "K"


def smallest(bore, stroke, material):
    text = SMALLEST.format(bore=bore, stroke=stroke, material=material)
    return understand(text, "smallest", catalog.load())


@pytest.mark.slow
@pytest.mark.parametrize(
    ("bore", "stroke", "material"),
    [(34, 30, "petg"), (44, 40, "petg"), (54, 46, "pa12_cf"), (64, 52, "pet_cf")],
)
def test_a_first_engine_of_defaults_breaks_nothing_at_its_first_fire(bore, stroke, material):
    engine = smallest(bore, stroke, material)
    known, trials = None, Trials(engine)
    trials.unknowns = ()  # only factors are asked for
    for event in ("cranking", "first_fire", "full_throttle", "free_rev"):
        known = run(engine, event, known, trials=trials, drawn=0)
        for margin in ff.judge(known, EVENTS[event].judged_at):
            if margin.factor is None or margin.reported or margin.way.unit == OF_HEAT:
                continue
            assert margin.factor >= 1.0, (event, margin.way.id, margin.factor)


@pytest.mark.parametrize(("bore", "stroke"), [(30, 28), (34, 32), (40, 36), (52, 44), (68, 55)])
def test_sizes_are_sold(bore, stroke):
    parts = ff.resolve(smallest(bore, stroke, "pa12_cf")).cylinders[0]
    assert any(parts.pin.diameter == pytest.approx(rod * 1e-3) for rod in RODS)
    for valve in (parts.valves.inlet, parts.valves.exhaust):
        for size in (valve.head_diameter, valve.throat_diameter, valve.stem_diameter):
            halves = size / 0.5e-3
            assert halves == pytest.approx(round(halves), abs=1e-6)
        assert valve.throat_diameter < valve.head_diameter
    assert parts.pin.length < parts.cylinder.bore


def test_springs_hold_a_large_engine_on_its_cams():
    """The float law by hand: force over mass times slowing, R. L. Norton, 3-4-5 rise."""
    engine = ff.resolve(smallest(68, 55, "pa12_cf"))
    valve = engine.cylinders[0].valves.inlet
    half = 0.5 * (valve.opens_before_top + math.pi + valve.closes_after_bottom)
    slowing = 5.77 * valve.lift / half**2
    force = valve.spring_preload + 0.93 * valve.spring_rate * valve.lift
    floats = math.sqrt(force / (valve.mass * slowing))
    assert floats > 1.15 * 1.25 * max(engine.use.full_throttle_speeds)


def test_a_controller_limits_and_points_do_not():
    sensor = ff.resolve(smallest(44, 40, "petg"))
    assert sensor.spark.limit_speed == pytest.approx(5000 * math.pi / 30)
    points = ff.resolve(smallest(44, 40, "petg"), {"spark.source": "points"})
    assert points.spark.limit_speed is None
    assert points.spark.limited_by == "nothing"


@pytest.mark.slow
@pytest.mark.parametrize(("power", "rpm"), [(300.0, 4000), (1000.0, 4000), (600.0, 3000)])
def test_a_wished_power_is_met_within_a_fifth(power, rpm):
    speed = rpm * math.pi / 30
    sizes = wish(power, speed)
    engine = ff.resolve(
        smallest(round(sizes.bore * 1e3, 1), round(sizes.stroke * 1e3, 1), "petg"),
        {"use.full_throttle_speeds": [speed]},
    )
    spark = spark_angle(engine, speed, starting=False)
    point = held(engine, "full_throttle", "wish", speed, spark, 1.0).point
    net = point.fired.cycle.mean_gas_torque - point.friction.mean_torque
    assert net * speed == pytest.approx(power, rel=0.2)
