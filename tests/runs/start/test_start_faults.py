"""Faults of a start: what each does to it, through the same physics, as a builder would expect."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.errors import FirstfireError
from firstfire.runs.cranking import cranked, driven, gauge_reading
from firstfire.runs.spun import starter_line
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.faults.all import FAULTS, listed, with_faults
from firstfire.runs.start.going import at_speed
from firstfire.runs.start.life import Life
from firstfire.runs.start.odds import runs_by_itself, why_not
from firstfire.runs.start.turned_by import turned_by

ENGINES = Path(__file__).resolve().parents[3] / "engines"
ASKED = Asked(seconds=1.5, after=1.0, let_go_at=80.0)


@cache
def started(name: str, *faults: str):
    engine, asked = with_faults(ff.read(ENGINES / f"{name}.toml"), ASKED, faults)
    plain = resolve(engine)
    return plain, Life(plain, asked, driven(plain, shaft=turned_by(plain, asked.wrong))).lived()


def given(name: str, values):
    """As if its file said so."""
    return with_values(ff.read(ENGINES / f"{name}.toml"), values, layer="file")


def gauge(name: str, *faults: str) -> float:
    engine, _ = with_faults(ff.read(ENGINES / f"{name}.toml"), ASKED, faults)
    plain = resolve(engine)
    return gauge_reading(plain, starter_line(plain), 1.5)


def test_without_a_fault_wren_runs():
    plain, lived = started("wren")
    assert runs_by_itself(lived)
    assert why_not(lived, plain.use.cranking_speed) is None


@pytest.mark.parametrize(
    ("fault", "why"),
    [
        ("spark_never", "spark"),
        ("spark_weak=0.02", "spark"),
        ("spark_180", "spark"),
        ("no_return_lead", "spark"),
        ("controller_resets", "spark"),
        ("reversed", "mixture"),
        ("no_fuel", "mixture"),
        ("too_much_fuel", "mixture"),
        ("ring_leak", "flywheel"),
    ],
)
def test_what_keeps_wren_from_running(fault, why):
    """No spark, no mixture: it cranks, nothing lights. A leak of 1.5 mm² loses what burns give."""
    plain, lived = started("wren", fault)
    assert not runs_by_itself(lived)
    assert why_not(lived, plain.use.cranking_speed) == why
    assert bool(lived.burns) == (fault == "ring_leak")


def test_turned_backwards_it_draws_air_by_its_exhaust_and_sparks_at_its_tooths_other_side():
    """wren's start spark is at its tooth's end, 5° before top. Backwards the tooth ends where it
    begins forwards: at its running spark, 20°. What comes in comes through the exhaust: air."""
    plain, lived = started("wren", "reversed")
    assert lived.spun.angle[-1] < lived.spun.angle[0] - 4 * math.pi
    assert lived.mean_speed(0.5, 1.0) < 0.0
    assert lived.reversed_at is None
    assert len(lived.sparks) >= 3
    for spark in lived.sparks:
        late = math.degrees(plain.spark.latency * spark.speed)
        assert math.degrees(spark.angle) == pytest.approx(-20.0 + late, abs=0.2)
    for spark in lived.sparks[1:]:
        assert spark.missed == "lean"
        assert spark.mixture < 0.2


def test_a_spark_half_a_cycle_off_comes_at_overlap_and_finds_the_valves_open():
    _, lived = started("wren", "spark_180")
    assert len(lived.sparks) > 4
    for spark in lived.sparks:
        assert spark.missed == "open"
        assert math.degrees(spark.angle) == pytest.approx(355.0, abs=1.0)


def test_a_low_battery_cranks_slower_and_sparks_weaker():
    """Speed goes with voltage, a coil's energy with its square: 0.6 and 0.36."""
    plain, lived = started("wren", "low_battery=0.6")
    whole, sound = started("wren")
    assert plain.starter.no_load_speed == pytest.approx(0.6 * whole.starter.no_load_speed)
    assert plain.starter.stall_torque == pytest.approx(0.6 * whole.starter.stall_torque)
    assert lived.asked.wrong.spark_share == pytest.approx(0.36)
    assert max(spark.energy for spark in lived.sparks) < 0.4 * whole.spark.coil_energy
    assert lived.mean_speed(0.1, 0.3) < 0.7 * sound.mean_speed(0.1, 0.3)


def test_a_spark_comes_as_much_earlier_or_later_as_said():
    for fault, sign in (("spark_early=12 deg", -1.0), ("spark_late=12 deg", 1.0)):
        _, lived = started("wren", fault)
        _, sound = started("wren")
        off = math.degrees(lived.sparks[0].angle - sound.sparks[0].angle)
        assert off == pytest.approx(12.0 * sign, abs=0.3)


def test_a_spark_that_is_asked_for_or_of_a_table_moves_too():
    table = [["0 rpm", "10 deg"], ["3000 rpm", "25 deg"]]
    engine = given("wren", {"spark.advance_table": table})
    asked = Asked(advance=math.radians(8.0))
    early, moved = with_faults(engine, asked, ["spark_early=12 deg"])
    assert moved.advance == pytest.approx(math.radians(20.0))
    advances = [math.degrees(advance) for _, advance in resolve(early).spark.advance_table]
    assert advances == pytest.approx([22.0, 37.0])


WEAK = {
    "starter.no_load_speed": "300 rpm",
    "starter.stall_torque": "12 N*m",
    "starter.inertia": "1e-4 kg*m^2",
}


@pytest.mark.parametrize(
    ("fault", "kicks"), [((), False), (("spark_early",), True), (("spark_late",), False)]
)
def test_on_a_weak_light_starter_an_early_spark_kicks_and_a_late_one_does_not(fault, kicks):
    engine = given("wren", WEAK)
    engine, asked = with_faults(engine, Asked(seconds=1.0, after=0.2, charged=True), fault)
    lived = Life(resolve(engine), asked).lived()
    assert lived.burns
    assert lived.kicked == kicks


def test_the_later_a_spark_the_less_torque():
    """At 1500 rpm, from 20° before top to 20° after."""
    gives = []
    for fault in ((), ("spark_late=20 deg",), ("spark_late=40 deg",)):
        engine, asked = with_faults(ff.read(ENGINES / "wren.toml"), Asked(), fault)
        gives.append(at_speed(resolve(engine), asked, 157.0).gas)
    assert gives[0] > 1.1 * gives[1] > 1.3 * gives[2]


def test_a_cam_a_tooth_off_moves_all_its_valves_by_the_same_crank_angle():
    """Of a wheel with z teeth a tooth is 720/z degrees of the crank."""
    plain, _ = started("wren", "cam_tooth=1")
    sound, _ = started("wren")
    tooth = 4 * math.pi / sound.cam_drive.teeth_cam
    now, then = plain.cylinders[0].valves, sound.cylinders[0].valves
    opens = now.exhaust.opens_before_bottom - then.exhaust.opens_before_bottom
    closes = now.exhaust.closes_after_top - then.exhaust.closes_after_top
    assert (opens, closes) == pytest.approx((-tooth, tooth), rel=1e-5)
    shuts = now.inlet.closes_after_bottom - then.inlet.closes_after_bottom
    assert math.degrees(shuts) == pytest.approx(720.0 / 36, rel=1e-5)


def test_a_cam_a_tooth_off_takes_a_spark_of_the_camshaft_along_and_not_one_of_the_crank():
    """wren's sensor is on its camshaft; plover's spark comes each turn, so its is on the crank."""
    for name, degrees in (("wren", 20.0), ("plover", 0.0)):
        _, off = started(name, "cam_tooth=1")
        _, sound = started(name)
        # Of wren the first is where it sparks before it has drawn anything.
        later = next(spark for spark in off.sparks if spark.missed is None).angle
        assert math.degrees(later - sound.burns[0].angle) == pytest.approx(degrees, abs=0.5)


def test_a_leak_is_beside_what_leaks_anyway():
    engine = ff.read(ENGINES / "heron.toml")
    faulty, _ = with_faults(engine, ASKED, ["worn_seat=1 mm^2", "ring_leak=2 mm^2"])
    for now, then in zip(resolve(faulty).cylinders, resolve(engine).cylinders, strict=True):
        assert now.leak.exhaust_seat - then.leak.exhaust_seat == pytest.approx(1e-6, rel=1e-6)
        assert now.leak.ring - then.leak.ring == pytest.approx(2e-6, rel=1e-6)


def test_a_valve_held_open_leaks_by_its_curtain():
    """π × 14.5 mm throat × 0.1 mm × 0.68 or so."""
    engine = ff.read(ENGINES / "wren.toml")
    plain = resolve(with_faults(engine, ASKED, ["stuck_inlet=0.1 mm"])[0])
    throat = plain.cylinders[0].valves.inlet.throat_diameter
    area = plain.cylinders[0].leak.inlet_seat - resolve(engine).cylinders[0].leak.inlet_seat
    assert area == pytest.approx(0.68 * math.pi * throat * 1e-4, rel=1e-6)


def test_what_a_fault_sets_can_be_traced_to_it():
    engine, _ = with_faults(ff.read(ENGINES / "wren.toml"), ASKED, ["plug_leak", "spark_late"])
    for path, name in (("leak.plug", "plug_leak"), ("spark.start_angle", "spark_late")):
        entry = engine.stack.top(path)
        assert entry is not None
        assert (entry.layer, entry.source) == ("fault", f"fault {name}")


def test_a_fault_that_a_tried_value_overrules_is_refused():
    """A trial outranks a fault, so that a change can mend one: it must not be hidden by it."""
    tried = with_values(ff.read(ENGINES / "wren.toml"), {"leak.plug": "0.1 mm^2"})
    with pytest.raises(FirstfireError, match=r"plug_leak is overruled: leak.plug is tried"):
        with_faults(tried, ASKED, ["plug_leak"])


def test_several_faults_act_together():
    """Shares multiply, torques and angles add up, no fuel stays none."""
    asks = ["spark_weak=0.5", "low_battery=0.6", "dragging=1 N*m", "dragging=2 N*m", "no_fuel",
            "too_much_fuel"]  # fmt: skip
    engine, asked = with_faults(ff.read(ENGINES / "wren.toml"), ASKED, asks)
    assert asked.wrong.spark_share == pytest.approx(0.5 * 0.36)
    assert asked.wrong.drag == pytest.approx(3.0)
    assert asked.mixture == 0.0
    late = ["spark_late=5 deg", "spark_late=5 deg"]
    engine, _ = with_faults(ff.read(ENGINES / "wren.toml"), ASKED, late)
    assert math.degrees(resolve(engine).spark.start_angle) == pytest.approx(-5.0, abs=1e-4)


@pytest.mark.parametrize(
    "fault", ["ring_leak", "gasket_leak", "plug_leak", "worn_seat", "worn_inlet_seat"]
)
def test_a_leak_lowers_the_gauge_by_its_area_and_not_its_place(fault):
    sound, leaks = gauge("wren"), gauge("wren", fault)
    assert leaks < 0.8 * sound
    assert leaks == pytest.approx(gauge("wren", "gasket_leak"), rel=0.05)


@pytest.mark.parametrize("fault", ["stuck_exhaust", "stuck_inlet"])
def test_a_valve_held_open_leaves_no_compression(fault):
    assert gauge("wren", fault) < 0.3 * gauge("wren")


def test_swapped_leads_light_nothing_that_burns():
    """heron's second plug sparks a turn off, with its valves open."""
    _, lived = started("heron", "leads_swapped")
    assert not lived.burns
    assert {spark.cylinder for spark in lived.sparks} == {0, 1}
    assert {spark.missed for spark in lived.sparks} == {"open"}
    for spark in lived.sparks:
        assert math.degrees(spark.angle) == pytest.approx(345.0, abs=1.0)


def test_a_dragging_bearing_takes_its_torque_at_every_speed():
    """Held at one speed, what is left over is less by just that."""
    engine, asked = with_faults(ff.read(ENGINES / "wren.toml"), Asked(), ["dragging=0.5 N*m"])
    plain = resolve(engine)
    for speed in (60.0, 200.0):
        lost = at_speed(plain, Asked(), speed).net - at_speed(plain, asked, speed).net
        assert lost == pytest.approx(0.5, rel=0.02)


def test_a_dragging_bearing_is_felt_by_cranking():
    """heron's starter falls from 15 N·m to none at 2800 rpm: 3 N·m more cost 560 rpm, but for what
    its other friction and pumping are less then. Its trigger stays down."""
    engine = given("heron", {"use.cranking_speed": "3000 rpm"})
    engine, asked = with_faults(engine, Asked(), ["dragging=3 N*m"])
    plain = resolve(engine)
    sound = cranked(plain, 2.0, shaft=starter_line(plain))
    slow = cranked(plain, 2.0, shaft=turned_by(plain, asked.wrong))
    slower = 3.0 / plain.starter.stall_torque * plain.starter.no_load_speed
    assert sound.mean_speed - slow.mean_speed == pytest.approx(slower, rel=0.35)
    assert slow.over


def test_a_starter_that_turns_backwards_cranks_as_fast_the_other_way():
    engine, asked = with_faults(ff.read(ENGINES / "heron.toml"), Asked(), ["reversed"])
    plain = resolve(engine)
    back = cranked(plain, 2.0, shaft=turned_by(plain, asked.wrong))
    assert back.over
    assert back.mean_speed == pytest.approx(-cranked(plain, 2.0).mean_speed, rel=0.1)
    assert back.mean_speed < back.least_speed < 0.0


def test_a_battery_feeds_the_coil_alone_where_mains_turn_it_over():
    engine, asked = with_faults(ff.read(ENGINES / "heron.toml"), Asked(), ["low_battery=0.5"])
    sound = resolve(ff.read(ENGINES / "heron.toml"))
    assert resolve(engine).starter == sound.starter
    assert asked.wrong.spark_share == pytest.approx(0.25)


def test_what_an_engine_cannot_have_and_unknown_names_are_told_at_once():
    engine = ff.read(ENGINES / "plover.toml")
    with pytest.raises(FirstfireError) as told:
        with_faults(
            engine, ASKED,
            ["leads_swapped", "spark_180", "controller_resets", "injector_open", "spark_erly",
             "dragging=3", "spark_weak=2", "no_fuel=1", "stuck_exhaust=3 mm"],
        )  # fmt: skip
    said = str(told.value)
    assert "9 problems" in said
    assert "one coil fires both" in said
    assert "half a cycle off is none" in said
    assert "nothing from a battery" in said
    assert "no injector" in said
    assert "beyond 0 to 1" in said
    assert "it has no size" in said
    assert "over 20 mm^2" in said
    assert "spark_early" in said
    assert "N*m" in said


def test_every_fault_is_listed_with_a_size_that_can_be_read():
    names = [name for name, _ in listed()]
    assert len(names) == len(FAULTS) == len({fault.name for fault in FAULTS})
    engine = given("wren", {"intake.mixture_by": "injector"})
    for name in names:
        if not name.startswith("leads_swapped"):
            with_faults(engine, ASKED, [name])


def test_points_have_no_controller_and_a_metal_head_is_its_own_return_lead():
    heron = ff.read(ENGINES / "heron.toml")
    for fault in ("controller_resets", "sensor_noise", "last_turn"):
        with pytest.raises(FirstfireError, match="breaker points"):
            with_faults(heron, ASKED, [fault])
    metal = given("wren", {"head.material": "aluminium"})
    with pytest.raises(FirstfireError, match="of metal"):
        with_faults(metal, ASKED, ["no_return_lead"])
