"""Faults of a start: what each does to it, through the same physics, as a builder would expect."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.errors import FirstfireError
from firstfire.runs.cranking import driven, gauge_reading
from firstfire.runs.spun import starter_line
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.faults.all import FAULTS, listed, with_faults
from firstfire.runs.start.going import at_speed
from firstfire.runs.start.life import Life
from firstfire.runs.start.odds import runs_by_itself, why_not

ENGINES = Path(__file__).resolve().parents[3] / "engines"
ASKED = Asked(seconds=1.5, after=1.0, let_go_at=80.0)


@cache
def started(name: str, *faults: str):
    engine, asked = with_faults(ff.read(ENGINES / f"{name}.toml"), ASKED, faults)
    plain = resolve(engine)
    return plain, Life(plain, asked, driven(plain)).lived()


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
        ("reversed", "torque"),
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


def test_turned_backwards_it_goes_backwards_and_never_sparks():
    _, lived = started("wren", "reversed")
    assert lived.spun.angle[-1] < lived.spun.angle[0] - 4 * math.pi
    assert not lived.sparks


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


def test_a_cam_a_tooth_off_moves_all_its_valves_by_the_same_crank_angle():
    """Of a wheel with z teeth a tooth is 720/z degrees of the crank."""
    plain, _ = started("wren", "cam_tooth=1")
    sound, _ = started("wren")
    tooth = 4 * math.pi / sound.cam_drive.teeth_cam
    now, then = plain.cylinders[0].valves, sound.cylinders[0].valves
    opens = now.exhaust.opens_before_bottom - then.exhaust.opens_before_bottom
    closes = now.exhaust.closes_after_top - then.exhaust.closes_after_top
    assert (opens, closes) == pytest.approx((-tooth, tooth), rel=1e-5)


@pytest.mark.parametrize("fault", ["ring_leak", "gasket_leak", "plug_leak", "worn_seat"])
def test_a_leak_lowers_the_gauge_by_its_area_and_not_its_place(fault):
    sound, leaks = gauge("wren"), gauge("wren", fault)
    assert leaks < 0.8 * sound
    assert leaks == pytest.approx(gauge("wren", "gasket_leak"), rel=0.05)


def test_a_valve_held_open_leaves_no_compression():
    assert gauge("wren", "stuck_exhaust") < 0.3 * gauge("wren")


def test_swapped_leads_light_nothing_that_burns():
    """heron's second plug sparks a turn off, with its valves open."""
    _, lived = started("heron", "leads_swapped")
    assert not lived.burns


def test_a_dragging_bearing_takes_its_torque_at_every_speed():
    """Held at one speed, what is left over is less by just that."""
    engine, asked = with_faults(ff.read(ENGINES / "wren.toml"), Asked(), ["dragging=0.5 N*m"])
    plain = resolve(engine)
    for speed in (60.0, 200.0):
        lost = at_speed(plain, Asked(), speed).net - at_speed(plain, asked, speed).net
        assert lost == pytest.approx(0.5, rel=0.02)


def test_what_an_engine_cannot_have_and_unknown_names_are_told_at_once():
    engine = ff.read(ENGINES / "plover.toml")
    with pytest.raises(FirstfireError) as told:
        with_faults(engine, ASKED, ["leads_swapped", "low_battery", "spark_erly", "dragging=3"])
    said = str(told.value)
    assert said.count("--fault") >= 4
    assert "one coil fires both" in said
    assert "rope" in said
    assert "spark_early" in said
    assert "N*m" in said


def test_every_fault_is_listed_with_a_size_that_can_be_read():
    names = [name for name, _ in listed()]
    assert len(names) == len(FAULTS) == len({fault.name for fault in FAULTS})
    engine = ff.read(ENGINES / "wren.toml")
    for name in names:
        if not name.startswith("leads_swapped"):
            with_faults(engine, ASKED, [name])
