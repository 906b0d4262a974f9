"""Belts, inserts, starters and instruments against the figures of the trade."""

import math

import pytest

from firstfire.catalog import Catalog

CATALOG = Catalog()


# Stock Drive Products handbook D265, p. T-15, Table 3 (read; column order inferred): N per mm.
@pytest.mark.parametrize(
    ("belt", "per_mm"),
    [("curvilinear_2", 4.37), ("curvilinear_3", 20.0), ("curvilinear_5", 28.0),
     ("xl", 125 / 25.4)],
)  # fmt: skip
def test_allowable_tension_of_a_belt(belt, per_mm):
    tension = CATALOG.row("belt", belt)["tension_per_width"]
    assert tension.si == pytest.approx(per_mm * 1e3, rel=2e-3)  # N/m, rounded to three figures
    assert tension.low <= per_mm <= tension.high + 0.01


def test_older_makes_lie_in_the_band():
    """2.03 mm pitch 89-142 N, older 3 mm 285 N, 5 mm 454 N an inch of width (same table)."""
    per_inch = {
        "curvilinear_2": (89, 142),
        "curvilinear_3": (285, 507),
        "curvilinear_5": (454, 712),
    }
    for belt, (low, high) in per_inch.items():
        tension = CATALOG.row("belt", belt)["tension_per_width"]
        assert tension.low == pytest.approx(low / 25.4, rel=0.01)
        assert tension.high == pytest.approx(high / 25.4, rel=0.01)


def test_torque_of_a_narrow_belt():
    """9 mm of 3 mm belt on 20 teeth at working tension: 1.715 N m (computed: z P / 2 pi)."""
    row = CATALOG.row("belt", "3 mm")
    radius = 20 * row.si("pitch") / (2 * math.pi)
    assert row.si("tension_per_width") * 0.009 * radius == pytest.approx(1.715, rel=3e-3)


@pytest.mark.parametrize(("belt", "fewest"), [("2 mm", 16), ("3 mm", 17), ("XL", 10)])
def test_fewest_teeth(belt, fewest):
    """Same handbook: 2 mm 12 (16 preferred), 3 mm 16-18, XL 10; six in mesh (read: reprap.org)."""
    row = CATALOG.row("belt", belt)
    assert row["fewest_teeth"].value == fewest
    assert row.si("fewest_in_mesh") == 6


# Maker and print-service pull tests (memory, wide on purpose), kN.
@pytest.mark.parametrize(
    ("insert", "low", "high"), [("M3", 0.3, 1.0), ("M4", 0.7, 1.8), ("M5", 1.2, 2.8)]
)
def test_pull_out_of_inserts(insert, low, high):
    pull = CATALOG.row("insert", insert)["pull_out"]
    assert low <= pull.low <= pull.value <= pull.high <= high


def test_longer_and_thicker_inserts_hold_more():
    pulls = [CATALOG.row("insert", n).si("pull_out") for n in ("M3", "M4", "M5", "M6")]
    assert pulls == sorted(pulls)
    for size in ("M3", "M4", "M5", "M6"):
        short, full = CATALOG.row("insert", f"{size}_short"), CATALOG.row("insert", size)
        assert short.si("length") < full.si("length")
        assert short.si("pull_out") < full.si("pull_out")


def test_m6_inserts_reach_kilonewtons():
    """Read: pro.sculpteo.com, pull-out resistance of threaded inserts."""
    assert CATALOG.row("insert", "M6").si("pull_out") >= 1000


# Name plates of the trade (memory): no-load speed in rpm, stall torque in N m.
@pytest.mark.parametrize(
    ("starter", "speed", "torque"),
    [("cordless_low", (400, 500), (40, 80)), ("mains", (2800, 3000), (10, 30)),
     ("cordless_high", (1500, 2000), None)],
)  # fmt: skip
def test_drills(starter, speed, torque):
    row = CATALOG.row("starter", starter)
    assert speed[0] <= row["no_load_speed"].value <= speed[1]
    if torque:
        assert torque[0] <= row["stall_torque"].value <= torque[1]


def test_rope():
    """150 to 250 N of a pulling arm; 200 N on a 45 mm drum is 4.5 N m, 0.7 m 4.95 turns."""
    row = CATALOG.row("starter", "rope")
    assert row.si("pull_force") * row.si("drum_diameter") / 2 == pytest.approx(4.5)
    assert row.si("stall_torque") == pytest.approx(4.5)
    assert (row["pull_force"].low, row["pull_force"].high) == (150, 250)
    turns = row.si("pull_length") / (math.pi * row.si("drum_diameter"))
    assert turns == pytest.approx(4.95, abs=5e-3)


def test_hands_hold_what_hands_hold():
    """Of the order of 10-20 N m on a side handle (memory)."""
    for key in ("cordless_low", "cordless_high", "mains"):
        assert 10 <= CATALOG.row("starter", key).si("held_torque") <= 20


def test_low_gear_shows_more_inertia_by_the_square_of_the_speeds():
    low, high = (CATALOG.row("starter", f"cordless_{g}") for g in ("low", "high"))
    ratio = high.si("no_load_speed") / low.si("no_load_speed")
    # The same rotor behind two gears; the figures are an order of magnitude, hence 15 %.
    expected = high.si("rotor_inertia") * ratio**2
    assert low.si("rotor_inertia") == pytest.approx(expected, rel=0.15)


def test_each_starter_says_whether_it_lets_go():
    assert {row.texts["coupling"] for row in CATALOG.rows("starter")} == {"rigid", "overruns"}


@pytest.mark.parametrize("row", CATALOG.rows("instrument"), ids=lambda r: r.key)
def test_each_instrument_says_what_it_measures_and_how_well(row):
    assert row.texts["measures"]
    assert row.si("error") > 0


def test_finer_instruments_are_finer():
    errors = [CATALOG.row("instrument", n).si("error") for n in ("micrometer", "caliper", "ruler")]
    assert errors == sorted(errors)


def test_each_effort_is_common_practice_and_costs_hands_more_than_nothing():
    for row in CATALOG.rows("effort"):
        assert all(d.sure == "common practice, no source" for d in row.data.values())
        assert row.texts["parts"]
        if row.key != "shorter_run":
            assert row.si("hand_hours") > 0
