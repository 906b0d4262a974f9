"""Cams in characters and in words, by hand: what stands in which column, and what is told."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.setup.cams import chapter, picture, text
from firstfire.setup.cams.gaps import Case
from firstfire.setup.cams.spring import Winding
from firstfire.setup.cams.suction_inlet import AtSpeed
from firstfire.setup.number import Number

DEG = math.pi / 180
THIN = "\u202f"


@pytest.fixture
def leaning(monkeypatch):
    """A base circle of 10.3 mm whose edge lies at 10.6, and at 14.7 mm from 10° to 50° up."""
    around = np.arange(-179.5, 180.0, 1.0)
    far = np.where((around > 10.0) & (around < 50.0), 14.7e-3, 10.6e-3)
    edge = np.column_stack([far * np.cos(around * DEG), far * np.sin(around * DEG)])
    monkeypatch.setattr(picture, "outline", lambda _: edge[::-1])
    return SimpleNamespace(which="inlet", valve=SimpleNamespace(base_radius=10.3e-3))


def test_a_cam_is_drawn_a_millimetre_a_column_and_two_a_row(leaning):
    """10.3 + 14.7 mm are 25 steps between 26 columns: they stand at -10.3, -9.3 ... 14.7 mm.

    Along the axis, the seventh row, it is filled to 9.7 mm, and its axis is nearest to -0.3 mm.
    6 mm above it the base circle ends at √(10.3² - 6²) = 8.4 mm and its edge at 8.7 mm on the
    left; on the right 12.7 mm is within the nose (25°, 14.05 mm), 13.7 mm (14.96 mm) is not.
    6 mm below there is no nose. 10 mm above and below the circle ends at 2.47 mm, the edge at 3.5;
    above, 8.7 to 10.7 mm are within the nose too (49°, 13.3 mm, to 43°, 14.65 mm).
    """
    rows = picture.outlined(leaning)
    assert len(rows) == 13
    assert {len(row) for row in rows} == {26}
    assert rows[6].rstrip() == "=" * 10 + "+" + "=" * 10
    assert rows[3].rstrip() == "  " + "=" * 17 + "#" * 5
    assert rows[9].rstrip() == "  " + "=" * 17 + "#"
    assert rows[1].rstrip() == " " * 7 + "#=====#" + " " * 5 + "###"
    assert rows[11].rstrip() == " " * 7 + "#=====#"
    assert not rows[0].strip()
    assert not rows[12].strip()


@pytest.mark.parametrize(
    ("x", "y", "mark"),
    [(0.4, 0.9, "+"), (-0.4, -0.9, "+"), (0.6, 0.0, "="), (0.0, 1.1, "="), (6.0, 0.0, "#"),
     (9.0, 0.0, " "), (3.0, 4.1, "#"), (3.0, 3.9, "=")],
)  # fmt: skip
def test_a_place_is_axis_base_nose_or_nothing(x, y, mark):
    """Half a column of 1 mm to each side is the axis, and half a row of 2; 3 and 4 mm are 5 off."""
    assert picture._mark(x, y, 8.0, 5.0, 1.0) == mark


def triangle(which, column, lift):
    """A valve that lifts straight up over 60° of crank and down again, nose at a column of 12°."""
    return SimpleNamespace(
        which=which, centre=(90 + 12 * column) * DEG, angle=np.array([-30.0, 0.0, 30.0]) * DEG,
        valve_lift=np.array([0.0, lift, 0.0]),
    )  # fmt: skip


def test_lifts_are_drawn_twelve_degrees_a_column_and_a_millimetre_a_row():
    """6 mm, and a fifth less a column: 6, 4.8, 3.6, 2.4, 1.2 mm are 6, 5, 4, 2 and 1 high.

    Half of it 3, 2.4, 1.8, 1.2 and 0.6 mm: 3, 2, 2, 1 and 1. Both stand in columns 12 to 14.
    """
    rows = picture.lifts([triangle("exhaust", 10, 6e-3), triangle("inlet", 16, 3e-3)])
    assert rows[0] == f"{' ' * 10}e{' ' * 35}  6 mm"
    assert rows[1] == " " * 9 + "eee"
    assert rows[2] == " " * 8 + "eeeee"
    assert rows[3] == " " * 8 + "eeeee" + "   i"
    assert rows[4] == " " * 7 + "eeeeeee" + "iiiii"
    assert rows[5] == " " * 6 + "eeeeee" + "***" + "iiiiii"
    assert rows[6] == "-" * 46
    assert rows[7].endswith("  e exhaust, i inlet, * both")


def test_dead_centres_are_named_below_their_columns():
    """From 90° a column is 12°: 180° is 7.5 of them along, 360° 22.5 and 540° 37.5."""
    told = picture.lifts([triangle("inlet", 16, 3e-3)])[-1]
    assert told.endswith("bottom  i inlet")
    words = [(told.index("bottom"), 6), (told.index("top"), 3), (told.rindex("bottom"), 6)]
    middles = [at + long / 2 for at, long in words]
    assert middles == pytest.approx([8.0, 23.0, 38.0], abs=0.5)


def test_cams_stand_side_by_side_under_their_names(leaning):
    leaning.__dict__.update(triangle("inlet", 16, 3e-3).__dict__)
    names, first, *rest = picture.picture([leaning, leaning])
    assert names == f"inlet cam{' ' * 19}inlet cam"
    rows = [first, *rest][:13]
    assert rows[6][:26].rstrip() == rows[6][28:].rstrip() == "=" * 10 + "+" + "=" * 10
    assert max(map(len, [names, first, *rest])) <= 79


@pytest.mark.parametrize(
    ("degrees", "said"),
    [(100, "80° before bottom"), (200, "20° after bottom"), (350, "10° before top"),
     (365, "5° after top"), (480, "60° before bottom"), (600, "60° after bottom"),
     (700, "700° after firing top"), (730, "10° after firing top"), (-160, "20° after bottom")],
)  # fmt: skip
def test_an_angle_is_told_by_its_nearer_dead_centre(degrees, said):
    assert text._after_top(degrees * DEG) == said


@pytest.mark.parametrize(
    ("lift", "past"),
    [(5.0, "past 1 mm from 40° before top to 80° after bottom"),
     (1.5, "past 0.3 mm from 20° before top to 60° after bottom")],
)  # fmt: skip
def test_events_are_told_at_a_lift_that_a_gauge_can_tell(lift, past):
    """At 1 mm, or a fifth of a lift of 2 mm and less.

    Nose at 470°: the cam 75° before and 75° after it is 150° of crank away, at 320° and 620°; 65°
    before and after it at 340° and 600°.
    """
    valve = SimpleNamespace(cam_law="cycloidal", lift=lift * 1e-3, lash=0.1e-3, cam_ramp=30 * DEG)
    lifted = [0.2, 0.9, 1.1, lift, 1.1, 0.9, 0.2] if lift > 2.0 else [
        0.1, 0.2, 0.29, lift, 0.29, 0.2, 0.1]  # fmt: skip
    places = [-85, -80, -75, 0, 75, 80, 85]
    if lift < 2.0:
        lifted[2] = lifted[4] = 0.31
        places = [-85, -80, -65, 0, 65, 80, 85]
    made = SimpleNamespace(
        valve=valve, centre=470 * DEG, opens=300 * DEG, shuts=620 * DEG,
        angle=np.array(places) * DEG, valve_lift=np.array(lifted) * 1e-3,
    )  # fmt: skip
    said = text.events(SimpleNamespace(made=made)).replace(THIN, " ")
    assert said.startswith(f"cycloidal flanks; {lift:g} mm of lift; open for 320°, nose 70° before")
    assert "lash 0.1 mm on ramps of 30°" in said
    assert "Leaves its seat 60° before top and is back 80° after bottom" in said
    assert past in said


def test_a_winding_is_told_as_it_is_ordered():
    wound = Winding(1e-3, 10e-3, 5.0, 7.0, 12.15, 2025.0, 17.6e-3, 11.6e-3, 7e-3, 590e6, 846e6,
                    723.0, 22.7, 1e-3, bows=True)  # fmt: skip
    said = text.wound_as(wound).replace(THIN, " ")
    for part in (
        "of 1 mm, mean diameter 10 mm, 5 active coils", "free 17.6 mm, fitted 11.6 mm, solid 7 mm",
        "590 MPa of shear at full lift of 846 allowed", "surges at 723 Hz, 23 × the cam's turns",
        "bows out",
    ):  # fmt: skip
        assert part in said


@pytest.mark.parametrize(
    ("room", "said"),
    [(1.234e-3, "clears by 1.23 mm"), (0.0, "touches 0.00 mm"), (-0.5e-3, "touches 0.50 mm")],
)
def test_a_gap_clears_or_touches(room, said):
    case = Case("drawn_wall", "valve to bore", SimpleNamespace(gap=room, where="all the way"))
    assert text.gap_words(case).replace(THIN, " ") == said


def test_gaps_stand_in_columns_that_stay_within_the_width():
    """What begins in column 3, the gap in column 47; what is too long goes on below it."""
    where = "20° before the top between exhaust and intake"
    case = Case("drawn_inlet", "inlet to piston, as drawn", SimpleNamespace(gap=2e-3, where=where))
    long = SimpleNamespace(gap=2e-3, where="a long way " * 5)
    rows = list(text._gaps(
        SimpleNamespace(unjudged=(), gaps=(case, Case("x", "another", long))), width=80
    ))  # fmt: skip
    (first,) = [row for row in rows if "inlet to piston" in row]
    assert first.index("inlet") == 2
    assert first.index("clears") == 46
    assert first.endswith("20° before top")
    at = next(i for i, row in enumerate(rows) if "another" in row)
    assert rows[at + 1][:46].strip() == ""
    assert rows[at + 1][46] != " "
    assert all(len(row) <= 80 for row in rows)


def test_a_suction_opened_inlet_is_told_in_rpm_per_cent_and_degrees():
    """50 π rad/s are 1500 rpm."""
    late = AtSpeed(50 * math.pi, 0.854, 70 * DEG, 0.12, 2)
    found = SimpleNamespace(
        speeds=(late,), advice=("Take less.",), well_to=40 * math.pi, opens_at=4421.0,
        shutting=10e-3, shutting_angle=math.pi / 2, swing=25.2,
    )  # fmt: skip
    rows = list(text._suction(found, width=80))
    (row,) = [one for one in rows if "late" in one and "rpm" in one]
    assert row.split() == ["1500", "rpm", "85", "%", "70°", "12", "%", "2", "×", "late"]
    (head,) = [one for one in rows if "given back" in one]
    for name, value in (("speed", "rpm"), ("filled", "85 %"), ("bottom", "70°"), ("back", "12 %")):
        assert head.index(name) + len(name) == row.index(value) + len(value)
    assert f"Well up to 1200{THIN}rpm." in rows
    said = text.suction_words(found).replace(THIN, " ")
    assert said == (
        "Opens at 44 mbar of suction; its spring shuts it in 10 ms, 90° of crank at top speed; "
        "swings at 25 Hz."
    )
    table = chapter._suction(found)
    assert table.rows == (("1500 rpm", "85 %", "70°", "12 %", "2 ×"),)


def test_a_number_stands_in_columns_and_opens_with_why():
    one = Number("nose_radius", "least radius", 3e-3, "m", 2e-3, "at least", "Why", "Source")
    row, *more = text._number(one, full=True, width=80)
    assert row.startswith("  least radius ")
    assert row.replace(THIN, " ").index("3 mm") + 4 == 2 + 48 + 1 + 12
    assert row.endswith("holds >2mm")
    assert more == ["      Why. Source"]
    nothing = Number("contact", "contact: not judged", math.nan, "Pa", 0.0, "at most", "It isn't.")
    assert list(text._number(nothing, full=True, width=80)) == ["  contact: not judged. It isn't."]
