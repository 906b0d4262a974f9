"""Leak tests of an engine: from its file's areas to what tester and thumb show."""

from __future__ import annotations

import math

import pytest
from scipy.integrate import solve_ivp
from tests.runs.start.books import engine, read

from firstfire.bench.learned_leak import leak_down_area
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.formulas.nozzle_flow import mass_flow
from firstfire.runs.start.leaks import PATHS, tightness

MM2 = 1e-6


def of(name, **changes):
    return tightness(read(name, **changes), engine(name, **changes))


def test_every_leak_of_the_file_is_a_path_and_shares_are_of_all():
    (one,) = of("wren", leak__ring="0.3 mm^2", leak__exhaust_seat="0.1 mm^2")
    areas = {way.path: way.area for way in one.paths}
    leak = engine("wren", leak__ring="0.3 mm^2", leak__exhaust_seat="0.1 mm^2").cylinders[0].leak
    assert set(PATHS) == set(type(leak).model_fields)
    assert areas == {path: getattr(leak, path) for path in PATHS if getattr(leak, path) > 0}
    assert math.fsum(way.share for way in one.paths) == pytest.approx(1.0)
    assert [way.path for way in one.paths[:2]] == ["ring", "exhaust_seat"]
    assert one.paths[0].share == pytest.approx(0.3 * MM2 / one.area)


def test_a_tester_that_loses_so_much_is_read_as_the_leak_put_in():
    """Orifice of 1.016 mm, three quarters of it open, 80 psi; oil leaves 0.3 of the rings' leak."""
    (one,) = of("wren", leak__ring="0.5 mm^2")
    air = engine("wren").surroundings.air_pressure
    supply, orifice = 80 * 6894.757, 0.75 * math.pi / 4 * 1.016e-3**2

    def read_as(loss):
        return leak_down_area(supply, (1 - loss) * supply, orifice, air)

    assert read_as(one.loss) == pytest.approx(one.area, rel=1e-5)
    assert read_as(one.loss_oiled) == pytest.approx(one.area - 0.7 * 0.5 * MM2, rel=1e-5)
    assert 0.0 < one.loss_low < one.loss < one.loss_high < 1.0


def test_a_thumb_holds_as_long_as_scipy_says():
    """wren: 45.24 cm³ over 5.5 at the top; inlet shut past the bottom by its own cam.

    A thumb stands where the plug did, so that leak is not there.
    """
    plain = engine("wren", leak__ring="0.2 mm^2", leak__plug="0.5 mm^2")
    (one,) = of("wren", leak__ring="0.2 mm^2", leak__plug="0.5 mm^2")
    air, warm = plain.surroundings.air_pressure, plain.surroundings.air_temperature
    volume = math.pi / 4 * 0.04**2 * 0.036 / 5.5
    leak = one.area - 0.5 * MM2

    def falls(_, pressure):
        return [-287.0 * warm / volume * mass_flow(leak, pressure[0], warm, 287.0, 1.4, air)]

    def half(_, pressure):
        return pressure[0] - air - 0.5 * one.thumb_begins

    half.terminal = True
    run = solve_ivp(falls, (0.0, 60.0), [air + one.thumb_begins], events=half, rtol=1e-9, atol=1e-3)
    assert one.thumb == pytest.approx(run.t_events[0][0], rel=1e-4)
    assert one.thumb_oiled > 2.0 * one.thumb
    late = plain.cylinders[0].valves.inlet.closes_after_bottom
    angle = math.pi + late
    rod = 0.066 / 0.018
    down = 1 - math.cos(angle) + rod - math.sqrt(rod**2 - math.sin(angle) ** 2)
    assert one.thumb_begins / air == pytest.approx(5.5 * down / 2, rel=1e-3)


def test_suction_shuts_its_inlet_at_the_bottom_when_turned_slowly():
    one = of("plover")[0]
    air = engine("plover").surroundings.air_pressure
    assert one.thumb_begins == pytest.approx(air * (5.5 - 1))


def test_what_was_measured_is_sure_and_a_decade_is_wide():
    sure = {"value": "0.05 mm^2", "low": "0.045 mm^2", "high": "0.055 mm^2"}
    found = with_values(read("wren"), {f"leak.{path}": sure for path in PATHS})
    assumed, (measured,) = of("wren")[0], tightness(found, resolve(found))
    assert assumed.high / assumed.low > 3.0
    assert measured.high / measured.low < 1.2
    assert measured.low < measured.area < measured.high


def test_each_cylinder_has_its_own():
    found = with_values(read("heron"), {"cylinders.2.leak.ring": "1 mm^2"})
    one, two = tightness(found, resolve(found))
    assert (one.cylinder, two.cylinder) == (1, 2)
    assert two.loss > 3 * one.loss
    assert two.thumb < one.thumb
    assert one.high < 0.7 * MM2 < 1.5 * MM2 < two.high
