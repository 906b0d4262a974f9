"""What a point gives, breathes and sounds like, when a way gives way, and what valves could meet.

Each from round numbers, with no gas run.
"""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest
from tests.runs.stand_ins import told

from firstfire.formulas import atmosphere
from firstfire.runs import (
    breathed,
    fate,
    gas_change,
    heard,
    held_flames,
    point,
    shown,
    side_gaps,
    sparked,
    tooth_off,
    traces,
    valve_gaps,
)
from firstfire.runs.breathed import Breathed
from firstfire.runs.fate import Course, Following, gives_way
from firstfire.runs.gas_change import GasChange
from firstfire.runs.point import OperatingPoint
from firstfire.runs.valve_gaps import Gap

CYCLE = 4.0 * math.pi


# A point


def at(**changes):
    """10 N·m of gas and 4 of friction at 100 rad/s, of 16π cm³."""
    given = {
        "event": "full_throttle", "name": "", "speed": 100.0, "walls": (), "spark": -0.3,
        "fired": SimpleNamespace(cycle=SimpleNamespace(mean_gas_torque=10.0), burns=(1, None, 1)),
        "peaks": (), "friction": SimpleNamespace(mean_torque=4.0), "displacement": 16e-6 * math.pi,
    }  # fmt: skip
    return OperatingPoint(**(given | changes))


def test_a_points_torque_is_its_gases_less_friction():
    """10 - 4 = 6 N·m, 600 W; 4 N·m · 4π over 16π cm³ are 1 MPa."""
    assert at().brake_torque == pytest.approx(6.0, rel=1e-12)
    assert at().brake_power == pytest.approx(600.0, rel=1e-12)
    assert at().friction_mep == pytest.approx(1e6, rel=1e-12)
    assert at().misfires == (2,)
    assert at(spark=None).misfires == ()


@pytest.mark.parametrize(("starting", "fires"), [(True, 0.1), (False, -0.1)])
def test_a_spark_is_late_by_what_turns_in_its_latency(starting, fires):
    """2 ms at 100 rad/s are 0.2 rad: 0.1 before top asked for is 0.1 after, 0.3 is 0.1 before."""
    spark = SimpleNamespace(start_angle=0.1, running_angle=0.3, latency=2e-3, advance_table=None)
    found = point.spark_angle(SimpleNamespace(spark=spark), 100.0, starting=starting)
    assert found == pytest.approx(fires, rel=1e-12)


def test_a_running_spark_goes_by_its_table(monkeypatch):
    asked = told(monkeypatch, point, "table_advance", 0.5)
    spark = SimpleNamespace(start_angle=0.1, running_angle=0.3, latency=2e-3, advance_table="table")
    assert point.spark_angle(SimpleNamespace(spark=spark), 100.0, starting=False) == pytest.approx(
        -0.3, rel=1e-12
    )
    assert asked == [(100.0, "table")]


@pytest.mark.parametrize("spark", [None, -0.3])
def test_a_point_is_turned_or_burned_and_has_its_mean_peaks_unless_asked(monkeypatch, spark):
    figures = [SimpleNamespace(peak_pressure=3e6, peak_angle=0.2)]
    fired = SimpleNamespace(cycle=SimpleNamespace(cylinders=figures, curves="curves"), spec="spec")
    turns = told(monkeypatch, point, "unfired_cycle", fired)
    burns = told(monkeypatch, point, "burned_cycle", fired)
    strong = told(monkeypatch, point, "peaks_of", "peaks")
    rubs = told(monkeypatch, point, "friction_along", "friction")
    monkeypatch.setattr(point, "displacement_of", lambda _: 50e-6)
    given = ("engine", "idle", "name", 100.0, ["walls"], spark)
    found = point.operating_point(*given, start="s", guess="g", with_peaks=False, stop="x")
    assert turns == ([("engine", 100.0, ["walls"], "s", "x")] if spark is None else [])
    lit = [("engine", "idle", 100.0, -0.3, ["walls"], "s", "g", "x")]
    assert burns == ([] if spark is None else lit)
    assert rubs == [("engine", "spec", "curves")]
    (peaks,) = found.peaks
    assert (peaks.mean, peaks.strong, peaks.rare) == (3e6, 3e6, 3e6)
    assert (found.event, found.speed, found.walls) == ("idle", 100.0, ("walls",))
    assert point.operating_point(*given).peaks == "peaks"
    assert strong == [("engine", fired)]


def test_two_cylinders_displace_bore_squared_by_stroke():
    """40 mm on a throw of 18: π/4 · 1600 · 36 mm³, twice."""
    one = SimpleNamespace(bore=40e-3, throw=18e-3, rod=70e-3, offset=0.0)
    found = point.displacement_of(SimpleNamespace(cylinders=(one, one)))
    assert found == pytest.approx(math.pi / 2 * 1600e-6 * 36e-3, rel=1e-12)


def test_a_held_flame_is_asked_with_the_time_of_half_a_turn(monkeypatch):
    """At 100π rad/s 10 ms; a spark at -0.3 whose burn is taken 0.05 later."""
    burns = told(monkeypatch, held_flames, "burn_plan", lambda *given: given[1] or None)
    lit = told(monkeypatch, held_flames, "flame_of", "flame")
    plain = SimpleNamespace(cylinders=("first", ""), doubt=SimpleNamespace(burn_phase=0.05))
    light = held_flames.lighter(plain, 100.0 * math.pi, -0.3)
    assert light(0, "charge") == "flame"
    assert light(1, "charge") is None
    assert burns[0] == (plain, "first", 100.0 * math.pi, pytest.approx(-0.25), "charge")
    assert lit == [(plain, "first", "charge", pytest.approx(0.01, rel=1e-12))]


def test_a_held_cycle_burns_by_law_or_as_its_flames_are_lit(monkeypatch):
    how = {"run": SimpleNamespace(burning="by law"), "slow": SimpleNamespace(burning="travelling")}
    monkeypatch.setattr(held_flames, "EVENTS", how)
    lights = told(monkeypatch, held_flames, "lighter", "light")
    law = told(monkeypatch, held_flames, "fired_cycle", "by law")
    flames = told(monkeypatch, held_flames, "flame_cycle", "by flames")
    asked = {"start": "s", "guess": "g", "stop": "x"}
    assert held_flames.burned_cycle("engine", "run", 100.0, -0.3, "walls", **asked) == "by law"
    assert held_flames.burned_cycle("engine", "slow", 100.0, -0.3, "walls", **asked) == "by flames"
    assert law == [("engine", 100.0, -0.3, "walls", "s", "g", "x")]
    assert lights == [("engine", 100.0, -0.3)]
    assert flames == [("engine", 100.0, -0.3, "walls", "light", "s", "g", "x")]


# What it breathes


def test_a_flow_is_a_cycles_mass_over_its_time():
    """4π at 40π rad/s are 0.1 s: 2 and 3 g make 50 g/s, of fuel a tenth."""
    found = Breathed(40 * math.pi, 1.0, (2e-3, 3e-3), (2e-4, 3e-4), (), True, None)
    assert found.seconds == pytest.approx(0.1, rel=1e-12)
    assert found.air_flow == pytest.approx(0.05, rel=1e-12)
    assert found.fuel_flow == pytest.approx(5e-3, rel=1e-12)


def test_a_cylinder_draws_its_share_of_full_and_fuel_by_the_mixture(monkeypatch):
    """0.8 of 50 and 0.5 of 60 mg are 40 and 30 mg; a fifteenth of them is fuel."""
    monkeypatch.setattr(breathed, "full_of_air", lambda _, row: (50e-6, 60e-6)[row])
    monkeypatch.setattr(breathed, "fuel_share", lambda _: 1.0 / 15.0)
    monkeypatch.setattr(breathed, "_intakes", lambda _: (9e4,))
    figures = [SimpleNamespace(volumetric_efficiency=one) for one in (0.8, 0.5)]
    ran = SimpleNamespace(
        speed=100.0, misfires=(),
        fired=SimpleNamespace(cycle=SimpleNamespace(cylinders=figures)),
    )  # fmt: skip
    found = breathed.of_point("plain", ran, 0.25)
    assert found.air == pytest.approx((40e-6, 30e-6), rel=1e-12)
    assert found.fuel == pytest.approx((40e-6 / 15, 2e-6), rel=1e-12)
    assert (found.speed, found.throttle, found.intake, found.light) == (100.0, 0.25, (9e4,), True)


def test_a_point_is_breathed_with_warm_walls_from_a_neighbour_that_burns(monkeypatch):
    opened = told(monkeypatch, breathed, "throttled", "opened")
    monkeypatch.setattr(breathed, "assumed_warm", lambda _: "warm")
    spark = told(monkeypatch, breathed, "spark_angle", -0.3)
    ran = told(monkeypatch, breathed, "operating_point", "point")
    found = told(monkeypatch, breathed, "of_point", "breathed")
    fired = SimpleNamespace(cycle=SimpleNamespace(state="state"), burns="burns")
    near = SimpleNamespace(light=True, point=SimpleNamespace(fired=fired))
    assert breathed.breathed("plain", 300.0, 0.25, near=near) == "breathed"
    assert opened == [("plain", 0.25)]
    assert spark == [("plain", 300.0, False)]
    asked = ("opened", "full_throttle", "breathing", 300.0, "warm", -0.3, False, None)
    assert ran == [(*asked, "state", "burns")]
    assert found == [("plain", "point", 0.25)]
    near.light = False
    breathed.breathed("plain", 300.0, 0.25, near=near)
    assert ran[1] == (*asked, None, None)


def test_full_of_air_is_the_stroke_by_moist_airs_density(monkeypatch):
    """50 cm³ of 1.2 kg/m³: 60 mg."""
    asked = told(monkeypatch, atmosphere, "moist_air_density", 1.2)
    monkeypatch.setattr(breathed, "swept_volume", lambda _: 50e-6)
    around = SimpleNamespace(air_pressure=1e5, air_temperature=290.0, humidity=0.4)
    plain = SimpleNamespace(surroundings=around, cylinders=(1,))
    assert breathed.full_of_air(plain, 0) == pytest.approx(60e-6, rel=1e-12)
    assert asked == [(1e5, 290.0, 0.4)]


def test_fuel_over_air_is_the_mixture_over_what_just_burns_it(monkeypatch):
    """1.2 over 15 is 0.08."""
    monkeypatch.setattr(breathed, "steam_share", lambda _: 0.01)
    gas = SimpleNamespace(stoichiometric_air_fuel_ratio=15.0)
    asked = told(monkeypatch, breathed, "gas_tables", gas)
    plain = SimpleNamespace(fuel="petrol", intake=SimpleNamespace(equivalence_ratio=1.2))
    assert breathed.fuel_share(plain) == pytest.approx(0.08, rel=1e-12)
    assert asked == [("petrol", 1.2, 0.01)]


def curves_of(**changes):
    return SimpleNamespace(
        fired=SimpleNamespace(
            spec=SimpleNamespace(
                cylinders=[SimpleNamespace(name="cylinder 1", head_area=2e-3)],
                volumes=[SimpleNamespace(name=n) for n in ("case", "stub 1", "runner 1")],
                ambient_temperature=280.0,
            ),
            cycle=SimpleNamespace(**changes),
        ),
        speed=100.0,
    )


def test_a_runners_pressure_is_its_mean_over_the_angle():
    """1 bar for 1 rad, rising to 3 within 2 more: (1 + 4)/3 bar."""
    pressure = np.zeros((3, 4))
    pressure[:, 3] = [1e5, 1e5, 3e5]
    curves = SimpleNamespace(angle=np.array([2.0, 3.0, 5.0]), pressure=pressure)
    assert breathed._intakes(curves_of(curves=curves)) == pytest.approx((5e5 / 3,), rel=1e-12)


# How it sounds


def test_what_leaves_the_tail_is_pushed_away_as_air_around(monkeypatch):
    """As warm as the stub it comes from."""
    flow = np.array([[1.0, 7.0], [2.0, 7.0]])
    temperature = np.array([[0.0, 0.0, 500.0, 0.0], [0.0, 0.0, 600.0, 0.0]])
    curves = SimpleNamespace(time=np.array([0.0, 1.0]), flow=flow, temperature=temperature)
    asked = told(monkeypatch, heard, "displaced_flow", lambda flow, *_: 3.0 * flow)
    time, pushed = heard.tail_flow(curves_of(curves=curves, passages=["tail 1", "inlet 1"]))
    assert time is curves.time
    assert pushed.tolist() == [3.0, 6.0]
    assert [one.tolist() for one in asked[0][:2]] == [[1.0, 2.0], [500.0, 600.0]]
    assert asked[0][2] == 280.0


def test_a_cycle_is_heard_again_and_again(monkeypatch):
    """0, 1 and 3 s from 5 s on, twice: 0, 1, 3, 4 and 6."""
    time, flow = np.array([5.0, 6.0, 8.0]), np.array([1.0, 2.0, 1.0])
    monkeypatch.setattr(heard, "tail_flow", lambda _: (time, flow))
    sound = told(monkeypatch, heard, "exhaust_sound", SimpleNamespace(pressure="pressure"))
    monkeypatch.setattr(heard, "spectrum", lambda _: (np.array([10.0, 20.0]), np.array([1.0, 2.0])))
    level = told(monkeypatch, heard, "sound_level", 90.0)
    firing = told(monkeypatch, heard, "firing_frequency", 8.0)
    tones = told(monkeypatch, heard, "tone_pressures", "tones")
    found = heard.heard(SimpleNamespace(speed=100.0), distance=2.0, cycles=2)
    assert sound[0][0].tolist() == [0.0, 1.0, 3.0, 4.0, 6.0]
    assert sound[0][1].tolist() == [1.0, 2.0, 1.0, 2.0, 1.0]
    assert sound[0][2:] == (2.0, 44_100.0, 1.0)
    assert (found.level, found.tones, found.loudest) == (90.0, "tones", 20.0)
    assert (level, firing) == ([("pressure",)], [(100.0,)])
    assert tones[0][1:] == (8.0, 12)


def test_a_gauge_is_shown_with_the_room_over_its_piston(monkeypatch):
    """50 cm³ squeezed to a sixth leave 10; its hose fills with gas of 350 K."""
    fills = told(monkeypatch, shown, "filling_time", 0.02)
    traced = told(monkeypatch, shown, "gauge_trace", "trace")
    monkeypatch.setattr(shown, "swept_volume", lambda _: 50e-6)
    parts = SimpleNamespace(cylinder=SimpleNamespace(compression_ratio=6.0))
    plain = SimpleNamespace(cylinders=(None, parts), surroundings=SimpleNamespace(air_pressure=9e4))
    ran = SimpleNamespace(time="time", pressure=np.array([[1.0, 2.0], [3.0, 4.0]]))
    found = shown.gauge_shown(
        plain, ran, hose_volume=8e-6, valve_area=4e-6, cylinder=1, opens=5.0, leak_down=6.0
    )
    assert found == "trace"
    assert fills == [(8e-6, 4e-6, 350.0)]
    (given,) = traced
    assert given[0] == "time"
    assert given[1].tolist() == [2.0, 4.0]
    assert given[2] == (8e-6, 0.02, 5.0, 6.0)
    assert given[3:] == (pytest.approx(10e-6, rel=1e-12), 9e4)


# Its curves


def wall_heat(over, heat):
    """A head of 2e-3 m² at 400 K under gas so much warmer, at 0, 1, 2 ... rad."""
    heats = np.zeros((len(over), 1, 2))
    heats[:, 0, 1] = heat
    ran = curves_of(
        curves=SimpleNamespace(
            angle=np.arange(float(len(over))),
            temperature=400.0 + np.array(over)[:, None],
            wall_heat=heats,
        )
    )
    ran.fired.spec.cylinders[0].walls = SimpleNamespace(head=400.0)
    return ran


def test_a_coefficient_is_heat_over_area_and_degrees_and_drawn_through_where_both_are_near():
    """100 W over 2e-3 m² · 500 K are 100 W/(m² K), 60 over 100 K 300, or -60 over -100.

    Half a kelvin tells nothing: half way from 100 to 300 it is 200.
    """
    found = traces._coefficient(wall_heat([500.0, 0.5, 100.0], [100.0, 9.0, 60.0]), 0)
    assert found == pytest.approx([100.0, 200.0, 300.0], rel=1e-9)
    cooled = traces._coefficient(wall_heat([500.0, -100.0], [100.0, -60.0]), 0)
    assert cooled == pytest.approx([100.0, 300.0], rel=1e-9)


def test_gas_never_far_from_its_wall_tells_by_a_tenth_of_what_it_warms():
    """5 K at most: 0.6 K tells, being more than 0.5; 0.4 does not."""
    found = traces._coefficient(wall_heat([5.0, 0.6, 0.4], [1.0, 0.6, 0.6]), 0)
    assert found == pytest.approx([100.0, 500.0, 500.0], rel=1e-9)
    assert traces._coefficient(wall_heat([0.0, 0.0], [1.0, 1.0]), 0).tolist() == [0.0, 0.0]


def test_a_trace_is_told_in_rpm_and_degrees_about_the_first_firing_top():
    """10π rad/s are 300 rpm; 4π + π rad a cycle late are 180°.

    1 bar over 2 in the case press back through 3 cm³ a radian: -0.3 N·m.
    """
    angle = 2 * CYCLE + np.array([-math.pi, 0.0, math.pi])
    volume = (10e-6 + 3e-6 * (angle - angle[0]))[:, None]
    pressure = np.tile([1e5, 2e5, 0.0, 0.0], (3, 1))
    each = np.arange(3.0)[:, None]
    curves = SimpleNamespace(
        angle=angle, speed=np.full(3, 10 * math.pi), volume=volume, pressure=pressure,
        temperature=each, unburned_temperature=each + 10, burned_temperature=each + 20,
        flow=np.array([[1.0, 2.0]] * 3),
    )  # fmt: skip
    ran = curves_of(curves=curves, passages=["ring leak 1", "tail 1"])
    ran.friction = SimpleNamespace(torque="torque")
    table = traces._one(ran, SimpleNamespace(cylinders=(1,)))
    assert table["speed_rpm"] == pytest.approx([300.0] * 3, rel=1e-12)
    assert table["angle_deg"] == pytest.approx([-180.0, 0.0, 180.0], abs=1e-9)
    assert table["cylinder_1_torque_nm"] == pytest.approx([-0.3] * 3, rel=1e-9)
    assert table["flow_tail_1_kg_s"].tolist() == [2.0] * 3
    assert table["cylinder_1_temperature_unburned_k"].tolist() == [10.0, 11.0, 12.0]
    assert table["friction_torque_nm"] == "torque"


def test_points_stand_one_below_the_other_each_with_its_event(monkeypatch):
    rows_of = {"one": [1.0, 2.0], "other": [3.0]}
    asked = told(
        monkeypatch, traces, "_one", lambda ran, _: {"angle_deg": np.array(rows_of[ran.event])}
    )
    points = [SimpleNamespace(event=name) for name in rows_of]
    table = traces.trace_table(points, "plain")
    assert table["event"] == ["one", "one", "other"]
    assert table["angle_deg"].tolist() == [1.0, 2.0, 3.0]
    assert asked == [(points[0], "plain"), (points[1], "plain")]


def test_a_cylinders_cycle_is_laid_on_angles_from_its_own_top(monkeypatch):
    """Its top is at 3π: what stands at -2π, 0 and π is at -π, π and -2π of its own."""
    monkeypatch.setattr(traces, "firing_angles", lambda _: (3 * math.pi,))
    monkeypatch.setattr(traces, "_coefficient", lambda *_: np.array([7.0, 8.0, 9.0]))
    each = np.array([1.0, 2.0, 3.0])
    curves = SimpleNamespace(
        angle=np.array([-2 * math.pi, 0.0, math.pi]), speed=each,
        pressure=np.column_stack([each, 10 * each, each, each]), volume=each[:, None],
        temperature=each[:, None], flow=np.column_stack([5 * each, 6 * each]),
    )  # fmt: skip
    ran = curves_of(curves=curves, passages=["inlet 1", "ring leak 1"])
    (gas,) = traces.gas_cycles(ran, "plain")
    assert gas.angle == pytest.approx([-2 * math.pi, -math.pi, math.pi], abs=1e-12)
    assert gas.pressure.tolist() == [3.0, 1.0, 2.0]
    assert gas.crankcase_pressure.tolist() == [30.0, 10.0, 20.0]
    assert gas.leak_to_crankcase.tolist() == [18.0, 6.0, 12.0]
    assert gas.coefficient.tolist() == [9.0, 7.0, 8.0]


# Its sparks


def test_an_edge_is_passed_by_what_a_quickening_shaft_turns_in_the_latency(monkeypatch):
    """2 ms at 100 rad/s and -5000 rad/s²: (100 - 5) · 2 ms = 0.19 rad later than 0.3."""
    timing = SimpleNamespace(by="edge", start=0.3, latency=2e-3, leading=0.8, turn=6.0)
    monkeypatch.setattr(sparked, "spark_timing", lambda _: timing)
    assert sparked.advance_while(None, 100.0, -5000.0) == pytest.approx(0.11, rel=1e-9)
    asked = told(monkeypatch, sparked, "clock_advance", 0.2)
    timing.by = "clock"
    assert sparked.advance_while(None, 100.0, -5000.0) == 0.2
    assert asked == [(0.8, 0.3, 100.0, -5000.0, 2e-3, 6.0)]


@pytest.mark.parametrize(("wasted", "turn"), [(True, 2 * math.pi), (False, CYCLE)])
def test_a_spark_runs_from_six_tenths_of_idle(monkeypatch, wasted, turn):
    """60 of 100 rad/s; a wheel on the camshaft turns once a cycle."""
    monkeypatch.setattr(sparked, "trigger", lambda _: ("edge", 0.8, 0.5))
    spark = SimpleNamespace(
        advance_table=None, running_angle=0.4, start_angle=0.1, latency=2e-3, wasted=wasted,
        limit_speed=900.0, limited_by="spark",
    )  # fmt: skip
    plain = SimpleNamespace(spark=spark, use=SimpleNamespace(idle_speed=100.0))
    found = sparked.spark_timing(plain)
    assert found.running_from == pytest.approx(60.0, rel=1e-12)
    assert found.turn == pytest.approx(turn, rel=1e-12)
    assert (found.leading, found.trailing, found.start, found.latency) == (0.8, 0.5, 0.1, 2e-3)
    assert found.running == ((0.0, 0.4),)
    assert found.limit_speed == 900.0
    spark.limited_by = "fuel"
    assert sparked.spark_timing(plain).limit_speed == math.inf


@pytest.mark.parametrize(("source", "dwell"), [("points", math.inf), ("controller", 3e-3)])
def test_a_coils_constant_is_its_inductance_over_both_resistances(source, dwell):
    """8 mH over 3 + 1 Ω: 2 ms."""
    coil = SimpleNamespace(inductance=8e-3, resistance=3.0, resistor=1.0, dwell=3e-3)
    spark = SimpleNamespace(coil=coil, coil_energy=0.04, source=source)
    found = sparked.coil_of(SimpleNamespace(spark=spark))
    assert found == (0.04, pytest.approx(2e-3, rel=1e-12), dwell)


def test_every_cylinders_sensor_has_its_own_chance(monkeypatch):
    monkeypatch.setattr(sparked, "spark_timing", lambda _: "timing")
    monkeypatch.setattr(sparked, "coil_of", lambda _: "coil")
    monkeypatch.setattr(sparked, "firing_angles", lambda _: (0.0, 6.0))
    asked = told(monkeypatch, sparked, "sparks_along", "sparks")
    ran = SimpleNamespace(time="time", angle="angle", speed="speed")
    assert sparked.sparks_of(None, ran, sensor="sensor", seed=7) == ("sparks", "sparks")
    along = ("time", "angle", "speed", "timing", "coil")
    assert asked == [(*along, 0.0, "sensor", 7), (*along, 6.0, "sensor", 8)]


# When a way gives way


def test_off_a_cliff_the_time_is_halved_four_times_in_its_logarithm():
    """Powers of two from 0 to 4, gone from 2^1.6: 2 and 1.75 are gone, 1 and 1.5 hold: 2^1.625."""
    found = fate._cliff(lambda seconds: seconds < 2.0**1.6, 1.0, 16.0)
    assert found == pytest.approx(2.0**1.625, rel=1e-12)


def test_a_cliff_is_halved_between_the_two_near_seconds_of_its_own_way():
    """Powers of two as seconds: it holds at 16 and is gone at 18, within 2^16 and 2^18 s.

    Gone from 2^16.7: 17 is gone, 16.5 holds, 16.75 is gone, 16.625 holds: 2^16.6875.
    """
    asked = []

    def holds_at(*given):
        asked.append(given[:3])
        return given[3] < 2.0**16.7

    def log_factor(way, judge, row, at):
        asked.append((way, judge, row))
        return 1.0 if at < 17 else -1.0

    seconds = tuple(2.0**one for one in range(31))
    following = SimpleNamespace(seconds=seconds, log_factor=log_factor, holds_at=holds_at)
    course = Course("falls", 16, 0.5)
    found = gives_way(following, "way", "judge", 3, course)
    assert found == pytest.approx(2.0**16.6875, rel=1e-12)
    assert set(asked) == {("way", "judge", 3)}


@pytest.mark.parametrize(
    ("course", "places"),
    [(None, [0, 5, 10, 12]), (Course("either", 0, 0.1), [0, 10, 12])],
)
def test_each_fifth_second_and_the_last_are_looked_at_or_each_tenth_of_a_known_way(course, places):
    looked = []

    def log_factor(_way, _judge, _row, at):
        looked.append(at)
        return 1.0

    following = SimpleNamespace(seconds=tuple(range(13)), log_factor=log_factor)
    assert gives_way(following, "", None, 0, course) == math.inf
    assert looked == places


@pytest.mark.parametrize(
    ("holds", "gone", "here", "tried", "place"),
    [
        ((4, 0.3), None, (4, 0.3), 0, 8),
        (None, (20, -0.25), (20, -0.25), 0, 16),
        ((10, 0.3), (18, -0.1), (18, -0.1), 0, 16),
        ((10, 0.3), (18, -0.1), (18, -0.1), 2, 14),
        ((10, math.inf), (18, -0.1), (18, -0.1), 0, 14),
        ((10, 0.001), (18, -0.9), (18, -0.9), 0, 11),
        ((10, 0.9), (18, -0.001), (18, -0.001), 0, 17),
        ((45, 0.9), None, (45, 0.9), 0, 50),
        (None, (5, -0.9), (5, -0.9), 0, 0),
    ],
)
def test_where_to_look_next_is_where_a_straight_line_passes(holds, gone, here, tried, place):
    """A tenth a place: 0.3 is three places and one to be sure, 0.25 are three and one.

    Between 0.3 and -0.1 three quarters of 8 places on; each third time the middle; always between
    the two and on the clock, which ends at 50.
    """
    assert fate._next_place(holds, gone, here, 0.1, tried, 50) == place


def test_walls_are_asked_through_the_clocks_own_seconds(monkeypatch):
    asked = told(monkeypatch, fate, "temperatures_through", "warmth")
    following = Following(SimpleNamespace(horizon=16.0, histories=("one", "other")), {"": "plain"})
    assert asked == [("one", following.seconds), ("other", following.seconds)]


# What a change does to a like cycle


def change(**changes):
    ones = np.ones(721)
    given = {
        "peak": 1.0, "pressure": ones, "crankcase_pressure": ones, "gas_temperature": ones,
        "coefficient": ones, "leak": 1.0,
    }  # fmt: skip
    return GasChange(**(given | changes))


def test_a_like_cycle_is_changed_by_the_ratio_at_its_own_angle(monkeypatch):
    """Ratios that go in a straight line over the cycle: 1 at its start, 3 at its end, 2 midway."""
    monkeypatch.setattr(gas_change, "replace", lambda _, **to: to)
    ratio = np.linspace(1.0, 3.0, 721)
    tens = np.full(3, 10.0)
    gas = SimpleNamespace(
        angle=np.array([-2 * math.pi, 0.0, 2 * math.pi]), pressure=tens, speed=tens,
        crankcase_pressure=2 * tens, gas_temperature=3 * tens, coefficient=4 * tens,
        leak_to_crankcase=5 * tens,
    )  # fmt: skip
    made = change(
        pressure=ratio, crankcase_pressure=ratio, gas_temperature=ratio, coefficient=ratio,
        leak=4.0, speed=5.0,
    )  # fmt: skip
    found = made.changed(gas)
    assert found["pressure"] == pytest.approx([10.0, 20.0, 30.0], rel=1e-12)
    assert found["crankcase_pressure"] == pytest.approx([20.0, 40.0, 60.0], rel=1e-12)
    assert found["gas_temperature"] == pytest.approx([30.0, 60.0, 90.0], rel=1e-12)
    assert found["coefficient"] == pytest.approx([40.0, 80.0, 120.0], rel=1e-12)
    assert found["leak_to_crankcase"] == pytest.approx([200.0] * 3, rel=1e-12)
    assert found["speed"] == pytest.approx([50.0] * 3, rel=1e-12)


@pytest.mark.parametrize(
    ("spat", "more", "spits"), [(0.2, 0.1, 0.3), (0.2, -0.3, 0.0), (0.9, 0.2, 1.0)]
)
def test_a_like_cycles_inlet_shuts_later_by_as_much(monkeypatch, spat, more, spits):
    """0.5 and 0.1 rad: 0.6; it spits back no less than nothing and no more than all."""
    monkeypatch.setattr(gas_change, "replace", lambda _, **to: to)
    figures = SimpleNamespace(inlet_shut=0.5, spat_back=spat)
    found = change(shut=0.1, spat=more).breathing(figures)
    assert found["inlet_shut"] == pytest.approx(0.6, rel=1e-12)
    assert found["spat_back"] == pytest.approx(spits, rel=1e-12)


def test_ratios_are_kept_at_each_whole_degree_of_the_cycle():
    """From -360 to 360°."""
    degrees = np.degrees(gas_change.ANGLE)
    assert degrees == pytest.approx(np.arange(-360.0, 361.0), abs=1e-9)


def gas_of(pressure):
    """A cycle of one pressure while its volume grows from 0 to 3."""
    flat = np.full(2, 1.0)
    return SimpleNamespace(
        angle=np.array([-2 * math.pi, 2 * math.pi]), pressure=pressure * flat, speed=2 * flat,
        volume=np.array([0.0, 3.0]), crankcase_pressure=flat, gas_temperature=flat,
        coefficient=flat, leak_to_crankcase=4 * flat,
    )  # fmt: skip


@pytest.mark.parametrize(("after", "ratio"), [(0.5, 0.25), (6.0, 3.0), (20.0, 4.0)])
def test_no_ratio_is_below_a_quarter_or_above_four(after, ratio):
    """0.5 over 2 is just a quarter, 20 over 2 ten; half of that is past neither."""
    found = gas_change.gas_change(gas_of(2.0), gas_of(after), 1.0)
    assert found.pressure == pytest.approx([ratio] * 721, rel=1e-12)
    assert gas_change.gas_change(gas_of(2.0), gas_of(0.1), 1.0).pressure[0] == 0.25


def test_work_is_pressure_over_volume_and_a_leak_flow_over_speed():
    """2 times 3; 4 over 2 through 4π rad."""
    assert gas_change._work(gas_of(2.0)) == pytest.approx(6.0, rel=1e-12)
    assert gas_change._outwards(gas_of(2.0)) == pytest.approx(8 * math.pi, rel=1e-12)


# What valves could meet


def cam(**changes):
    """A cam that lifts by 6 mm at 4 rad of the crank, half a radian of its own to each side."""
    given = {
        "centre": 4.0, "angle": np.array([-0.5, 0.0, 0.5]), "rise": np.array([0.0, 6e-3, 0.0]),
        "ratio": 1.5, "opens": 3.0, "shuts": 5.0, "which": "inlet",
        "valve": SimpleNamespace(
            lash=1e-3, spring_preload=10.0, spring_rate=1000.0, mass=0.1, cam_ramp=0.25, lift=8e-3,
        ),
    }  # fmt: skip
    return SimpleNamespace(**(given | changes))


@pytest.mark.parametrize(
    ("crank", "later", "lash", "lift"),
    [
        (4.0, 0.0, None, 8.0), (4.5, 0.0, None, 3.5), (3.5, 0.0, None, 3.5), (4.5, 0.5, None, 8.0),
        (4.0 + CYCLE, 0.0, None, 8.0), (4.0 - CYCLE, 0.0, None, 8.0), (4.0, 0.0, 0.0, 9.0),
        (4.9, 0.0, None, 0.0), (6.0, 0.0, None, 0.0),
    ],
)  # fmt: skip
def test_a_valve_lifts_by_its_cam_times_the_lever_less_its_lash(crank, later, lash, lift):
    """6 mm by 1.5 less 1: 8 mm; half a radian of the crank away half of the rise: 3.5."""
    found = valve_gaps.lift_over(cam(), np.array([crank]), later, lash)
    assert 1e3 * found[0] == pytest.approx(lift, rel=1e-9, abs=1e-12)


@pytest.mark.parametrize(
    ("held", "lifts"),
    [
        ([0.0, 2.0, 2.0, 0.0, 9.0], [0.0, 2.0, 3.88, 5.6212, 9.0]),
        ([0.0, 2.0, 5.0, 5.0], [0.0, 2.0, 5.0, 7.85]),
    ],
)
def test_a_thrown_valve_flies_on_against_its_spring_alone(monkeypatch, held, lifts):
    """Steps of 0.01 rad at 10 rad/s last 1 ms. Thrown to 2 mm it goes at 2 m/s.

    10 N and 2 on 0.1 kg take 0.12 of that: 1.88 m/s, 3.88 mm; then 13.88 N 0.1388: 5.6212 mm. The
    cam that comes up under it takes it along again. From 2 to 5 mm it is thrown at 3 m/s, of which
    15 N take 0.15: 7.85 mm.
    """
    cams = 1e-3 * np.array(held)
    asked = told(monkeypatch, valve_gaps, "lift_over", cams)
    made, angle = cam(), 1.0 + 0.01 * np.arange(float(len(held)))
    found = valve_gaps.thrown_lift(made, angle, 10.0)
    assert 1e3 * found == pytest.approx(lifts, rel=1e-9, abs=1e-12)
    assert asked[0][0] is made
    assert asked[0][1] is angle


def test_a_pistons_way_is_that_of_its_turn_whichever(monkeypatch):
    """40 mm down at π: 20 at a quarter of a turn, before or after, and a turn on."""
    lengths = told(monkeypatch, valve_gaps, "mechanism", "lengths")
    way = (np.array([0.0, math.pi, 2 * math.pi]), np.array([0.0, 40e-3, 0.0]))
    asked = told(monkeypatch, valve_gaps, "_travel", way)
    angle = np.array([0.5, 1.5, 2.5, -0.5]) * math.pi
    found = valve_gaps.travel(SimpleNamespace(cylinders=("first", "second")), 1, angle)
    assert found == pytest.approx([20e-3] * 4, rel=1e-12)
    assert lengths == [("second",)]
    assert asked == [("lengths",)]


def test_a_cam_is_followed_from_where_it_opens_to_where_it_shuts_or_wider():
    angle = valve_gaps.through(cam(), 0.5)
    assert (len(angle), angle[0], angle[-1]) == (721, 2.5, 5.5)


def over_a_piston(monkeypatch, placed="overhead"):
    """3 mm of room at the top, of which a lift takes half; the piston lies 1 mm lower."""

    def room_over(parts, valve):
        assert parts.valves.placed == placed
        assert valve.spring_rate == 1000.0
        return 3e-3, 0.5

    monkeypatch.setattr(valve_gaps, "room_over", room_over)

    def travel(plain, cylinder, angle):
        assert plain.cylinders[cylinder].valves.placed == placed
        return np.full(len(angle), 1e-3)

    monkeypatch.setattr(valve_gaps, "travel", travel)
    one = SimpleNamespace(valves=SimpleNamespace(placed=placed))
    return SimpleNamespace(cylinders=(one,))


@pytest.mark.parametrize(
    ("later", "lash", "gap"), [(0.0, None, 0.0), (0.25, None, 0.0), (0.0, 0.0, -0.5)]
)
def test_between_valve_and_piston_is_the_room_and_its_way_less_half_the_lift(
    monkeypatch, later, lash, gap
):
    """3 + 1 - 8/2 mm at the top of the cam, however late it is; without lash half more is taken."""
    plain = over_a_piston(monkeypatch)
    found = valve_gaps.piston_gap(plain, 0, cam(), later, lash)
    assert 1e3 * found.gap == pytest.approx(gap, abs=1e-9)
    assert found.angle == pytest.approx(4.0 + later, abs=1e-9)
    assert found.what == "inlet valve and piston"
    beside = over_a_piston(monkeypatch, "side")
    assert valve_gaps.piston_gap(beside, 0, cam()) is None


def test_a_cam_that_is_followed_is_as_late_as_it_is_and_as_wide_as_its_ramp(monkeypatch):
    """3 to 5 rad, 0.1 later; with a lash of its own a ramp of 0.25 wider."""
    plain = over_a_piston(monkeypatch)
    asked = told(monkeypatch, valve_gaps, "lift_over", lambda _, angle, *__: np.ones(len(angle)))
    made = cam()
    valve_gaps.piston_gap(plain, 0, made, 0.1)
    valve_gaps.piston_gap(plain, 0, made, 0.1, 2e-3)
    assert (asked[0][1][0], asked[0][1][-1]) == pytest.approx((3.1, 5.1), rel=1e-12)
    assert (asked[1][1][0], asked[1][1][-1]) == pytest.approx((2.85, 5.35), rel=1e-12)
    assert [(given[0], *given[2:]) for given in asked] == [(made, 0.1, None), (made, 0.1, 2e-3)]


def test_a_thrown_valve_is_followed_for_a_quarter_of_a_turn_more(monkeypatch):
    """Shut it is part of the roof: of 4 mm lift, where it is open, 3 + 1 - 2 mm are left."""
    plain = over_a_piston(monkeypatch)
    lift = np.where(np.arange(721) == 700, 4e-3, 0.0)
    asked = told(monkeypatch, valve_gaps, "thrown_lift", lift)
    made = cam()
    found = valve_gaps.piston_gap(plain, 0, made, thrown_at=900.0)
    assert found.gap == pytest.approx(2e-3, rel=1e-12)
    assert (asked[0][0], asked[0][2]) == (made, 900.0)
    ends = (asked[0][1][0], asked[0][1][-1])
    assert ends == pytest.approx((3.0 - math.pi / 2, 5.0 + math.pi / 2), rel=1e-12)


def test_a_valve_that_hangs_open_is_held_against_the_top(monkeypatch):
    """3 - 8/2 mm: 1 mm deep."""
    found = valve_gaps.hung_gap(over_a_piston(monkeypatch), 0, cam())
    assert found.gap == pytest.approx(-1e-3, rel=1e-12)
    assert found.angle == pytest.approx(2 * math.pi, rel=1e-12)


@pytest.mark.parametrize(
    ("degrees", "words"),
    [
        (370.0, "10° after the top between exhaust and intake"),
        (348.0, "12° before the top between exhaust and intake"),
        (360.4, "at the top between exhaust and intake"),
        (359.4, "1° before the top between exhaust and intake"),
        (math.nan, "all the way"),
    ],
)
def test_where_a_gap_is_is_told_from_the_top_between_exhaust_and_intake(degrees, words):
    assert Gap(0.0, math.radians(degrees), "").where == words


@pytest.mark.parametrize(("top", "shown"), [(500.0, 1150.0), (1000.0, 1200.0)])
def test_a_floating_valve_is_shown_past_where_it_floats(monkeypatch, top, shown):
    """15 % past 1000 rad/s, or a fifth past the top speed."""
    monkeypatch.setattr(valve_gaps.cam_forces, "floats_at", lambda _: 1000.0)
    assert valve_gaps.float_speed_shown(cam(), top) == pytest.approx(shown, rel=1e-12)


def test_two_faces_are_apart_by_their_nearest_ends_or_cut_each_other():
    """Side by side at 1; across, of whose four ends the nearest is a quarter off, -0.25.

    From 1, 1 to 3, 3 and from 1, 3 to 3, 1 they cut in the middle, each end √2 away; a line with
    x + y = 8 is past 3, 3 by as much.
    """
    one = (np.array([0.0 + 0j, -1.0 + 0j]), np.array([2.0 + 0j, 1.0 + 0j]))
    other = (np.array([1.0 + 1j, -0.25j]), np.array([3.0 + 1j, 1j]))
    assert valve_gaps._apart(one, other) == pytest.approx([1.0, -0.25], rel=1e-12)
    slant = (np.array([1.0 + 1j, 1.0 + 1j]), np.array([3.0 + 3j, 3.0 + 3j]))
    across = (np.array([1.0 + 3j, 3.5 + 4.5j]), np.array([3.0 + 1j, 5.0 + 3j]))
    root = math.sqrt(2.0)
    assert valve_gaps._apart(slant, across) == pytest.approx([-root, root], rel=1e-12)
    assert valve_gaps._apart(across, slant) == pytest.approx([-root, root], rel=1e-12)
    far = (np.array([5.0 + 4j, 0.0 + 3j]), np.array([9.0 + 4j, 0.0 + 9j]))
    assert valve_gaps._apart(one, far) == pytest.approx([5.0, 3.0], rel=1e-12)


def test_faces_of_leaning_valves_slide_down_their_axes(monkeypatch):
    """Leaning by 30°, 10 mm between them shut, heads of 20 and 10 mm, opened by 4 and 2.

    The inlet's inner edge is at 5 - 4/2 = 3 and 4 · √3/2 down; its outer 20 · √3/2 further out and
    10 further down. The exhaust's is at -(5 - 1) and √3 down, its outer 5 √3 out and 5 down.
    """
    root = math.sqrt(3.0)
    cams = [cam(which=one, valve=SimpleNamespace(head_diameter=size))
            for one, size in (("inlet", 20e-3), ("exhaust", 10e-3))]  # fmt: skip
    monkeypatch.setattr(valve_gaps, "worked", lambda _: cams)
    bridge = SimpleNamespace(valve_to_valve=10e-3)
    monkeypatch.setattr(valve_gaps, "geometry", lambda _: SimpleNamespace(cylinders=[bridge]))
    lifts = {"inlet": np.full(721, 4e-3), "exhaust": np.full(721, 2e-3)}
    lifted = told(monkeypatch, valve_gaps, "lift_over", lambda made, *_: lifts[made.which])
    apart = np.linspace(2.0, 1.0, 721)
    faces = told(monkeypatch, valve_gaps, "_apart", apart)
    parts = SimpleNamespace(
        valves=SimpleNamespace(placed="overhead"),
        head=SimpleNamespace(valve_axis_angle=math.pi / 6),
    )
    plain = SimpleNamespace(cylinders=(parts,))
    found = valve_gaps.between_gap(plain, 0, 0.2)
    assert found == Gap(1.0, pytest.approx(3.5 * math.pi), "inlet and exhaust valve")
    for made, (given, angle, later) in zip(cams, lifted, strict=True):
        assert (given, later) == (made, 0.2)
        assert (angle[0], angle[-1]) == pytest.approx((-0.5 * math.pi, 3.5 * math.pi), rel=1e-12)
    (inlet, exhaust) = faces[0]
    ends = [1e3 * complex(end[0]) for end in (*inlet, *exhaust)]
    assert ends == pytest.approx(
        [
            3.0 - 2.0j * root,
            3.0 + 10.0 * root - (2.0 * root + 10.0) * 1j,
            -4.0 - 1.0j * root,
            -4.0 - 5.0 * root - (root + 5.0) * 1j,
        ],
        rel=1e-9,
    )
    parts.head.valve_axis_angle = 0.0
    assert math.isnan(valve_gaps.between_gap(plain, 0).angle)
    parts.valves.placed = "side"
    assert valve_gaps.between_gap(plain, 0) is None


def test_the_cams_of_a_cylinder_are_those_that_work_its_valves(monkeypatch):
    asked = told(monkeypatch, valve_gaps, "profile", lambda _, name: name)
    worked = {"inlet": "suction", "exhaust": "cam"}
    valves = SimpleNamespace(**{name: SimpleNamespace(worked=how) for name, how in worked.items()})
    parts = SimpleNamespace(valves=valves)
    assert valve_gaps.worked(parts) == ("exhaust",)
    assert asked == [(parts, "exhaust")]


def test_half_way_down_a_piston_of_20_mm_throw_is_past_half_of_its_stroke():
    """At a quarter of a turn 20 + 70 - √(70² - 20²) mm, at half a turn 40."""
    turned, down = valve_gaps._travel.__wrapped__((20e-3, 70e-3, 0.0))
    assert turned[[180, 360, 720]] == pytest.approx([math.pi / 2, math.pi, 2 * math.pi])
    quarter = 90e-3 - math.sqrt(70e-3**2 - 20e-3**2)
    assert down[[0, 180, 360]] == pytest.approx([0.0, quarter, 40e-3], rel=1e-9, abs=1e-12)


def side_by_side(monkeypatch):
    """Bore 40 mm, heads 20 and 10: 1600 + 1.4 · 500 = 2300 of π/4 mm², 10 mm high squeezed."""
    monkeypatch.setattr(side_gaps, "swept_volume", lambda _: math.pi / 4 * 2300e-6 * 10e-3 * 5.0)
    return SimpleNamespace(
        valves=SimpleNamespace(
            inlet=SimpleNamespace(head_diameter=20e-3), exhaust=SimpleNamespace(head_diameter=10e-3)
        ),
        cylinder=SimpleNamespace(bore=40e-3, compression_ratio=6.0),
        head=SimpleNamespace(valve_bridge=3e-3),
    )


def test_a_flat_roof_over_bore_and_pockets_is_as_high_as_the_volume_asks(monkeypatch):
    """Of 10 mm a lift of 8 leaves 2; followed a quarter of a turn to each side."""
    parts = side_by_side(monkeypatch)
    assert side_gaps.side_roof(parts) == pytest.approx(10e-3, rel=1e-12)
    plain = SimpleNamespace(cylinders=(parts,))
    found = side_gaps.roof_gap(plain, 0, cam())
    assert found.gap == pytest.approx(2e-3, rel=1e-9)
    assert found.angle == pytest.approx(4.0, rel=1e-9)
    assert side_gaps.roof_gap(plain, 0, cam(), 0.0).gap == pytest.approx(1e-3, rel=1e-9)
    asked = told(monkeypatch, side_gaps, "thrown_lift", np.array([1e-3, 7e-3]))
    made = cam()
    assert side_gaps.roof_gap(plain, 0, made, None, 900.0).gap == pytest.approx(3e-3, rel=1e-9)
    assert (asked[0][0], asked[0][2]) == (made, 900.0)
    ends = (asked[0][1][0], asked[0][1][-1])
    assert ends == pytest.approx((3.0 - math.pi / 2, 5.0 + math.pi / 2), rel=1e-12)
    assert side_gaps.beside_gap(plain, 0).gap == 3e-3


def test_each_tooth_is_asked_with_its_own_lateness(monkeypatch):
    """A tooth of 0.3 rad: 0, then from 0.6 early to 0.6 late; told is the least of both valves."""
    monkeypatch.setattr(tooth_off, "worked", lambda _: ("inlet", "exhaust"))
    monkeypatch.setattr(tooth_off, "a_tooth", lambda _: 0.3)
    worse = {"inlet": 0.0, "exhaust": 1.0}
    asked = told(
        monkeypatch,
        tooth_off,
        "piston_gap",
        lambda _, __, made, later: Gap(later - worse[made], 0.0, made),
    )
    plain = SimpleNamespace(cylinders=("parts",))
    found = tooth_off.tooth_gaps(plain)
    assert [found[teeth].gap for teeth in (0, -2, -1, 1, 2)] == pytest.approx(
        [-1.0, -1.6, -1.3, -0.7, -0.4]
    )
    assert len(asked) == 10
    assert all(given[0] is plain and given[1] == 0 for given in asked)
    gaps = told(monkeypatch, tooth_off, "piston_gap", "gap")
    first = SimpleNamespace(cylinders=("parts", "others"))
    assert list(tooth_off.gaps_to_piston(first, 1, 0.2, 1e-3)) == ["gap", "gap"]
    assert gaps == [(first, 1, "inlet", 0.2, 1e-3), (first, 1, "exhaust", 0.2, 1e-3)]
