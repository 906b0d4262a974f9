"""What a point gives and how it is told, from round numbers: 100π rad/s are 3000 rpm, π/18 is 10°.

Mean effective pressure is work a cycle over the swept volume, and a cycle is two turns: 1 N·m over
250 cm³ is 4π / 250e-6 = 50265 Pa.
"""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from tests.loads.small_engines import engine_of

from firstfire.cycle.figures import CylinderFigures
from firstfire.cycle.friction_along import Friction
from firstfire.engine.records import Peaks
from firstfire.runs.ensemble import Ensemble
from firstfire.runs.fate import Fate
from firstfire.runs.free_rev import FASTEST
from firstfire.runs.point import OperatingPoint, displacement_of
from firstfire.verdict.facts.shaft_span import ShaftSpan, shaft_span
from firstfire.verdict.facts.starting import too_slow, turning_torque
from firstfire.verdict.numbers import THIN
from firstfire.verdict.told.points import told_point
from firstfire.verdict.told.starting import told_starting
from firstfire.verdict.words.made import (
    breathing_words,
    filling,
    friction_words,
    made,
    power_span,
    spark_words,
    torque_span,
)
from firstfire.verdict.words.text.curve import text_curve
from firstfire.verdict.words.text.points import filling_lines, made_lines, pressure_curve

BAR = 1e5
TEN = math.pi / 18
BY_TORQUE = 4 * math.pi / 250e-6

FIGURES = CylinderFigures(
    peak_pressure=29 * BAR, peak_angle=TEN, imep_gross=6 * BAR, imep_net=5 * BAR, pmep=-BAR,
    ca50=TEN, volumetric_efficiency=0.8, filling_trapped=0.75, inlet_shut=2 * TEN,
    spat_back=0.06, trapped_mass=3e-4, residual_fraction=0.081, trapped_phi=1.1,
    peak_temperature=2200.0, burned_peak_temperature=2500.0, heat=(1.0, 2.0, 3.0, 4.0),
    heat_fraction=(0.05, 0.06, 0.04, 0.1), work=120.0, leaked_fraction=0.03,
)  # fmt: skip
OTHER = replace(FIGURES, imep_net=7 * BAR, ca50=-TEN, spat_back=0.01)
FRICTION = Friction(
    np.array([3.0, 4.0, 5.0]), 4.0,
    {"rings": 1.0, "skirts": 0.5, "bearings": 2.0, "valve gear": 0.3, "cam drive": 0.2},
)  # fmt: skip
PEAKS = (Peaks(29 * BAR, 33 * BAR, 38 * BAR, 1.5 * TEN), Peaks(28 * BAR, 35 * BAR, 41 * BAR, TEN))


def point(spark=-2 * TEN, speed=100 * math.pi, burns=(0.96, 0.9), event="full_throttle", **changes):
    health = SimpleNamespace(energy_closure=1e-4, mass_closure=2e-4, cycle_change=3e-4)
    cycle = SimpleNamespace(
        cylinders=(FIGURES, OTHER), mean_gas_torque=10.0, health=health,
        curves=SimpleNamespace(gas_torque=np.array([-9.0, 2.0, -7.0])),
    )  # fmt: skip
    cylinders = [SimpleNamespace(burns=each) for each in burns]
    spec = SimpleNamespace(cylinders=cylinders, valves=[SimpleNamespace(opens=None)])
    fired = SimpleNamespace(cycle=cycle, spec=spec, burns=("lit", None))
    whole = OperatingPoint(event, "3000", speed, (), spark, fired, PEAKS, FRICTION, 250e-6)
    return replace(whole, **changes)


def test_what_the_shaft_gives():
    """10 N·m of gas less 4 that rub: 6, times 314.16 rad/s."""
    one = point()
    assert one.brake_torque == pytest.approx(6.0)
    assert one.brake_power == pytest.approx(600 * math.pi)
    assert one.friction_mep == pytest.approx(4 * BY_TORQUE)
    assert one.misfires == (2,)
    assert point(spark=None).misfires == ()


def test_swept_volume_of_all_cylinders():
    """π/4 · 0.04² · 0.05 = 62.83 cm³ and, of half the bore, a quarter of it."""
    both = [SimpleNamespace(bore=b, throw=0.025, rod=0.1, offset=0.0) for b in (0.04, 0.02)]
    swept = displacement_of(SimpleNamespace(cylinders=both))
    assert swept == pytest.approx(1.25 * math.pi / 4 * 0.04**2 * 0.05)


def test_a_point_told_in_degrees_rpm_and_pascals():
    told = told_point(point(), ShaftSpan(5.0, 7.0, 1500.0, 2200.0))
    assert (told.speed_rpm, told.spark_deg) == pytest.approx((3000.0, -20.0))
    assert told.friction_mep_pa == pytest.approx(4 * BY_TORQUE)
    by = told.friction
    found = (by.rings_pa, by.skirts_pa, by.bearings_pa, by.valve_gear_pa, by.cam_drive_pa)
    assert found == pytest.approx(tuple(n * BY_TORQUE for n in (1.0, 0.5, 2.0, 0.3, 0.2)))
    assert (told.brake_torque_low_nm, told.brake_torque_high_nm) == (5.0, 7.0)
    assert (told.brake_power_low_w, told.brake_power_high_w) == (1500.0, 2200.0)
    first, second = told.cylinders
    assert first.peak_pressure_angle_deg == pytest.approx(15.0)
    assert (first.ca50_deg, first.inlet_shut_deg) == pytest.approx((10.0, 20.0))
    assert first.heat_to_walls_fraction == pytest.approx(0.25)
    assert (first.unburned_fraction, second.unburned_fraction) == pytest.approx((0.04, 0.1))
    assert second.peak_pressure_rare_pa == 41 * BAR
    unfired = told_point(point(spark=None), None)
    assert unfired.spark_deg is None
    assert unfired.cylinders[0].unburned_fraction is None
    assert unfired.brake_power_low_w is None


def event(*points, ensembles=()):
    return SimpleNamespace(
        points=points, ensembles=ensembles, engine=None,
        bouts=tuple(SimpleNamespace(point=one) for one in points),
    )  # fmt: skip


def test_a_point_made_into_a_line():
    """Imep of both is 6 bar; 4 N·m of friction are 2.01; the second's rare peak is the highest."""
    (line,) = made([event(point())])
    assert line.label == f"full 3000{THIN}rpm"
    assert (line.power, line.torque) == (f"1.88{THIN}kW", f"6{THIN}N·m")
    assert (line.imep, line.friction) == ("6", "2.01")
    assert (line.peak, line.strong, line.rare) == ("28", "35", "41")
    (turned,) = made([event(point(spark=None))])
    assert (turned.strong, turned.rare) == ("", "")


def test_a_span_stands_in_the_unit_of_what_it_spans():
    span = ShaftSpan(-1.25, 6.48, 812.0, 1290.0)
    assert power_span(999.0, span) == "(810–1300)"
    assert power_span(1001.0, span) == "(0.81–1.3)"
    assert torque_span(span) == "(-1.2 to 6.5)"
    assert (power_span(1.0, None), torque_span(None)) == ("", "")


def test_how_a_cylinder_fills_in_words():
    first, second = filling([point()])
    assert (first.cylinder, second.cylinder) == (1, 2)
    assert (first.filling, first.trapped, first.back) == ("0.80", "0.75", "6%")
    assert (first.residual, first.heat_lost, first.leaked) == ("8.1%", "25%", "3%")
    assert (first.half_burned, second.half_burned) == ("10° after", "10° before")
    (said,) = breathing_words([point(), point(spark=None)])
    assert said.startswith(f"Full 3000{THIN}rpm: the suction inlet shuts 20° after bottom and 6%")
    assert friction_words(point()).startswith(
        "Friction at 3000 rpm: bearings 50%, rings 25%, skirts 12%, valve gear 8%, cam drive 5%."
    )
    assert spark_words(point()) == "Spark 20° before top."
    assert spark_words(point(spark=TEN / 2)) == "Spark 5° after top."


def test_columns_of_the_table_of_points():
    head, line, *_, below, named, lowest = made_lines([event(point())])
    assert head.index("power") == line.index("1.88")
    assert head.index("torque") == line.index(f"6{THIN}N·m")
    assert named.endswith("28 (35, 41)")
    assert below.index("peak") == named.index("28 (35")
    assert lowest.startswith("  in bar")
    rows = list(filling_lines([point()]))
    assert len({len(row) for row in rows[:3]}) == 1


def test_a_curve_of_letters():
    """A triangle of 4 over five columns and three rows: half its height is the middle row."""
    assert text_curve([0, 1, 2], [0, 4, 0], width=5, height=3) == ["  #", " #.#", "#...#"]
    rises = text_curve([0, 2, 4, 6], [1, 4, 4, 4], width=4, height=4)
    assert rises == [" ###", " ...", "#...", "...."]
    assert text_curve([0, 1], [-1, -1], width=3, height=2) == ["", "###"]


def test_the_pressure_about_firing_is_drawn():
    """A peak of 30 bar at 0° of an even 10: the second cylinder, and beyond 120°, are left out."""
    degrees = np.arange(-360.0, 361.0)
    own = np.where(np.abs(degrees) < 3, 30.0, np.where(np.abs(degrees) < 121, 10.0, 90.0)) * BAR
    shifted = degrees + 720.0
    one = point()
    one.fired.cycle.curves = SimpleNamespace(
        angle=np.radians(shifted), pressure=np.stack([own, 7 * own], axis=1)
    )
    drawn = pressure_curve(one, engine_of())
    assert drawn[0].split() == ["30", "bar", "#"]
    margin, middle = 12, 30
    assert drawn[0].index("#") == margin + middle
    # A third of the highest, of eight rows above the lowest: the third of them, 2.67.
    assert [line.count("#") for line in drawn[:-1]] == [1, 0, 0, 0, 0, 60, 0, 0, 0]
    assert drawn[-1] == f"{'':12}{'-120°':<28}{'0°':<28} 120°"


def ensemble(torques, powers):
    fates = tuple(Fate({}, {}, t, p) for t, p in zip(torques, powers, strict=True))
    return Ensemble((), fates)


def test_ends_of_what_a_shaft_gives():
    """Of 19 engines the first and the last stand for 1/20 and 19/20 (Weibull's places)."""
    torques = [*range(1, 20), math.nan]
    powers = [*range(100, 2000, 100), math.nan]
    one = point()
    plain = engine_of()
    found = shaft_span(plain, one, ensemble(torques, powers))
    assert (found.torque_low, found.torque_high) == pytest.approx((1.0, 19.0))
    assert (found.power_low, found.power_high) == pytest.approx((100.0, 1900.0))
    low = shaft_span(plain, one, ensemble([t + 10 for t in torques], powers))
    assert low.torque_low == pytest.approx(6.0)
    assert shaft_span(plain, one, ensemble(torques[:11], powers[:11])) is None
    assert shaft_span(plain, one, None) is None


def test_what_only_turns_itself_has_no_span():
    plain = engine_of(spark__limit_speed=None)
    many = ensemble(range(20), range(20))
    assert shaft_span(plain, point(event="idle"), many) is None
    assert shaft_span(plain, point(event="free_rev", speed=0.98 * FASTEST), many) is None
    assert shaft_span(plain, point(event="free_rev", speed=0.995 * FASTEST), many) is not None


def test_turning_takes_what_rubs_and_what_the_gas_takes():
    """3 + 9, 4 - 2 and 5 + 7 N·m; on the mean 4 rub and the gas gives 10."""
    assert turning_torque(point()) == pytest.approx((-6.0, 12.0))


def found(speed, over=True):
    starting = SimpleNamespace(
        over=over, from_rest=False, peak_torque=5.0, mean_torque=2.0, stall_torque=6.0,
        lacking_torque=0.5, inertia=1e-3, compression_energy=7.0, stored_energy=9.0, speed=speed,
        slowest=speed / 2, at_top=speed / 4, pulls=None, crank_speed=1.5 * speed, gauge=(8e5, 9e5),
    )  # fmt: skip
    return SimpleNamespace(starting=starting, points=[], helped=())


def test_a_start_told_in_rpm():
    told = told_starting(found(40 * math.pi))
    assert (told.speed_reached_rpm, told.slowest_rpm, told.at_top_rpm) == pytest.approx(
        (1200.0, 600.0, 300.0)
    )
    assert told.crank_mean_rpm == pytest.approx(1800.0)
    assert told.gauge_pa == [8e5, 9e5]
    told = told_starting(found(40 * math.pi, over=False))
    assert told.speed_reached_rpm is told.crank_mean_rpm is None


def test_a_hundredth_slower_than_asked_for_is_as_asked():
    for share, slow in ((0.985, True), (0.995, False), (1.0, False), (0.0, False)):
        one = found(share * 80.0)
        one.points = [point(event="cranking", speed=80.0)]
        assert too_slow(one) is slow
