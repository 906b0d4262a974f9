"""An engine on its free shaft: energy by another sum, friction by another path, the gauge."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from tests.runs.start.books import thicker

import firstfire as ff
from firstfire.cycle.friction_along import friction_along
from firstfire.engine.geometry import reciprocating_mass
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.formulas import slider_crank
from firstfire.runs.cranking import cranked, gauge_reading
from firstfire.runs.spun import on_its_shaft, starter_line, turned_on
from firstfire.runs.walls import cold

ENGINES = Path(__file__).resolve().parents[2] / "engines"
RPM = math.pi / 30


@cache
def engine(name: str, **changes):
    read = ff.read(ENGINES / f"{name}.toml")
    changed = {path.replace("__", "."): value for path, value in changes.items()}
    return resolve(with_values(read, changed) if changed else read)


@cache
def started(name: str, seconds: float = 1.5):
    plain = engine(name)
    return turned_on(on_its_shaft(plain, cold(plain), starter_line(plain), 0.2), seconds)


def torques(plain, turning, spun):
    """By contact laws and slider-crank of their own: gas, starter and friction, N·m."""
    spec, shaft = turning.spec, turning.spec.shaft
    names = [c.name for c in spec.cylinders] + [v.name for v in spec.volumes]
    under = spun.pressure[:, names.index("case")]
    gas, moved = np.zeros(len(spun.time)), np.full(len(spun.time), shaft.inertia)
    for row, cylinder in enumerate(spec.cylinders):
        size = cylinder.throw, cylinder.rod, cylinder.offset
        inline = spun.angle - cylinder.phase + slider_crank.top_centre_angle(*size)
        slope = np.array([slider_crank.piston_height_slope(one, *size) for one in inline])
        area = math.pi / 4 * cylinder.bore**2
        gas -= area * (spun.pressure[:, row] - under) * slope
        moved += reciprocating_mass(plain, plain.cylinders[row]) * slope**2
    driven = spun.rotor if shaft.rotor else spun.speed
    starter = shaft.starter_stall * (1 - driven / shaft.starter_free)
    if shaft.starter_one_way:
        starter = np.maximum(starter, 0.0)
    curves = SimpleNamespace(angle=spun.angle, speed=spun.speed, pressure=spun.pressure)
    friction = friction_along(plain, spec, curves).torque + thicker(plain, spun.speed)
    return gas, starter, friction, moved


@pytest.mark.parametrize("name", ["wren", "plover", "heron"])
def test_energy_over_a_start_closes(name):
    """What starter and gas give is what friction takes and the shaft holds, to 1e-3."""
    plain = engine(name)
    turning, spun = started(name)
    gas, starter, friction, moved = torques(plain, turning, spun)
    rotor = turning.spec.shaft.rotor
    given = np.trapezoid(starter * (spun.rotor if rotor else spun.speed), spun.time)
    assert given > 20.0
    held = 0.5 * moved * spun.speed**2 + 0.5 * rotor * spun.rotor**2
    left = given + np.trapezoid(gas - friction, spun.angle) - (held[-1] - held[0])
    assert abs(left) < 1e-3 * given


def test_it_turns_forwards_from_a_stand_and_keeps_its_starters_speed():
    turning, spun = started("heron", 1.5)
    assert spun.speed[0] == 0.0
    assert np.all(np.diff(spun.time) > 0)
    assert np.all(np.diff(spun.angle) >= 0)
    assert spun.speed.max() < turning.spec.shaft.starter_free * 1.1


def test_a_rotor_behind_a_clutch_is_never_faster_and_is_left_behind_by_an_expansion():
    _, spun = started("wren", 1.5)
    assert starter_line(engine("wren")).rotor > 0.0
    assert np.all(spun.rotor <= spun.speed + 1e-6)
    ahead = spun.speed - spun.rotor
    assert ahead.max() > 5.0
    together = np.diff(spun.time)[ahead[1:] < 1e-6].sum()
    assert 0.2 < together / spun.time[-1] < 0.9


@pytest.mark.parametrize("name", ["wren", "plover", "heron"])
def test_it_cranks_as_fast_as_asked_at_the_most(name):
    plain = engine(name)
    found = cranked(plain)
    assert found.over
    late = found.spun.since(found.spun.time[-1] - 1.0)
    driven = late.rotor if found.shaft.rotor else late.speed
    mean = np.trapezoid(driven, late.time) / (late.time[-1] - late.time[0])
    assert mean < 1.015 * plain.use.cranking_speed
    assert found.least_speed < found.mean_speed
    assert 5e5 < found.gauge < 20e5
    assert found.gauge_oiled > found.gauge


def test_a_heavier_wheel_dips_less_at_the_same_mean_speed():
    light, heavy = (
        cranked(engine("plover", flywheel__inertia=inertia))
        for inertia in ("0.002 kg*m^2", "0.006 kg*m^2")
    )
    assert heavy.mean_speed == pytest.approx(light.mean_speed, rel=0.02)
    assert heavy.least_speed > light.least_speed


TIGHT = {f"leak__{where}": "0 mm^2" for where in
         ("ring", "inlet_seat", "exhaust_seat", "gasket", "plug", "wall")}  # fmt: skip


def test_a_gauge_on_a_tight_cylinder_reads_by_the_polytrope():
    """p ((V_shut/V_top)^n - 1): exponents 1.25 to 1.4 of cranked engines (common practice).

    A valve that all but touches its seat lets little back: what is kept lies between the volume
    where it is shut and all of the stroke.
    """
    plain = engine("wren", **TIGHT)
    shaft = starter_line(plain)
    reads = gauge_reading(plain, shaft, 3.0)
    parts = plain.cylinders[0]
    ratio = parts.cylinder.compression_ratio
    after_bottom = parts.valves.inlet.closes_after_bottom
    throw = parts.cylinder.stroke / 2
    shut = slider_crank.piston_travel(math.pi + after_bottom, throw, parts.rod.length, 0.0)
    kept = 1 + (ratio - 1) * shut / parts.cylinder.stroke
    air = plain.surroundings.air_pressure
    assert air * (kept**1.25 - 1) < reads < air * (ratio**1.4 - 1)


def test_more_leak_never_raises_the_gauge():
    areas = ("0 mm^2", "0.05 mm^2", "0.2 mm^2", "1 mm^2")
    reads = [
        gauge_reading(engine("plover", **TIGHT | {"leak__ring": area}),
                      starter_line(engine("plover")), 2.0)
        for area in areas
    ]  # fmt: skip
    assert reads == sorted(reads, reverse=True)
    assert reads[0] > 1.2 * reads[-1]


def test_what_turns_too_hard_stands():
    weak = engine("wren", starter__stall_torque="0.6 N*m")
    found = cranked(weak, seconds=2.0)
    assert not found.over
    assert found.mean_speed == pytest.approx(0.0, abs=0.5)


def test_equal_starts_are_equal_to_the_last_bit():
    plain = engine("heron")
    one, other = (
        turned_on(on_its_shaft(plain, cold(plain), starter_line(plain), 0.2), 0.3)[1]
        for _ in range(2)
    )
    assert np.array_equal(one.speed, other.speed)
    halves = on_its_shaft(plain, cold(plain), starter_line(plain), 0.2)
    halves, _ = turned_on(halves, 0.1)
    assert turned_on(halves, 0.3)[1].speed[-1] == pytest.approx(one.speed[-1], rel=1e-4)
