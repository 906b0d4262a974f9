"""Rules of thumb for valves, their springs and their drive, against a pencil."""

import pytest
from tests.engine.by_hand import FIGURES, MM, value

IN, OUT = "valves.inlet.", "valves.exhaust."
SUCTION = {IN + "worked": "suction"}
EIGHTEEN = {IN + "head_diameter": "18 mm", IN + "stem_diameter": "4 mm"}
HEAVY = {IN + "mass": "60 g", IN + "lift": "4.5 mm"}
FAST = {"spark.limit_speed": "5000 rpm"}
NO_LIMIT = {"spark.source": "points"}


def of_bore(mm):
    return {"cylinder.bore": f"{mm} mm", "cylinder.stroke": f"{0.9 * mm:g} mm"}


@pytest.mark.parametrize(
    ("lines", "path", "hand"),
    [
        # 0.42 and 0.37 × 40 = 16.8 and 14.8; 0.87 of that; 0.22 of it, 3 mm at least; to 0.5 mm.
        ({}, IN + "head_diameter", 17 * MM),
        ({}, OUT + "head_diameter", 15 * MM),
        (EIGHTEEN, IN + "throat_diameter", 15.5 * MM),
        ({IN + "head_diameter": "18 mm"}, IN + "stem_diameter", 4 * MM),
        ({IN + "head_diameter": "10 mm"}, IN + "stem_diameter", 3 * MM),
        # 3.5 ‰ of a ring of 1.1 × 18.
        (EIGHTEEN, IN + "seat_interference", 0.0693 * MM),
        # A quarter of 18; a fifth where suction opens it.
        (EIGHTEEN, IN + "lift", 4.5 * MM),
        (EIGHTEEN | SUCTION, IN + "lift", 3.6 * MM),
        # π/4 (18² × 1.8 + 4² × 54) = 1136.63 mm³ of 7850 kg/m³; 0.6 more of retainer, spring.
        (EIGHTEEN | SUCTION, IN + "mass", 8.92257e-3),
        (EIGHTEEN, IN + "mass", 14.2761e-3),
        # Open for 10 + 180 + 40 = 230°, half 2.00713 rad: 5.77 × 4.5 mm / 4.02857 = 6.4452 mm;
        # (1.2 × 523.6)² = 394 784: 60 g are held by 152.67 N. 0.6 of it over 4.5 mm is 20 356 N/m.
        (HEAVY | FAST, IN + "spring_rate", 20500.0),
        (HEAVY | FAST, IN + "spring_preload", 70.0),
        # Without a limiter a quarter above the fastest: 1.25 × 4000 is the same.
        (HEAVY | NO_LIMIT, IN + "spring_rate", 20500.0),
        # A limiter of 7000 asks for 1.96 times as much: 39 898 N/m and 134.7 N.
        (HEAVY | {"spark.limit_speed": "7000 rpm"}, IN + "spring_rate", 40000.0),
        (HEAVY | {"spark.limit_speed": "7000 rpm"}, IN + "spring_preload", 135.0),
        # Timing of 30 and 80°, 290° open: / (290/230)² is 96.03 N: 12 804 N/m and 43.2 N.
        (HEAVY | FAST | {IN + "opens_before_top": "30 deg", IN + "closes_after_bottom": "80 deg"},
         IN + "spring_rate", 13000.0),
        (HEAVY | FAST | {IN + "opens_before_top": "30 deg", IN + "closes_after_bottom": "80 deg"},
         IN + "spring_preload", 45.0),
        # The exhaust's 45 and 10° leave it open for 235°: 146.25 N of 60 g.
        (FAST | {OUT + "mass": "60 g", OUT + "lift": "4.5 mm"}, OUT + "spring_rate", 19500.0),
        # 10 g want 25.45 N; 20 N hold against suction, 1.5 N/mm is the softest; of a heavier
        # one at 1000 rpm too.
        (HEAVY | {IN + "mass": "10 g"} | FAST, IN + "spring_preload", 20.0),
        (HEAVY | FAST | {"spark.limit_speed": "1000 rpm"}, IN + "spring_rate", 1500.0),
        (SUCTION, IN + "spring_rate", 150.0),
        (SUCTION, IN + "spring_preload", 0.5),
        (SUCTION, IN + "lash", 0.0),
        ({}, IN + "lash", 0.1 * MM),
        (EIGHTEEN, IN + "base_radius", 10.8 * MM),
        # 0.8 and 2.5 base radii.
        (EIGHTEEN, IN + "follower_radius", 8.64 * MM),
        (EIGHTEEN, IN + "rocker_arm", 27 * MM),
        (EIGHTEEN, IN + "cam_width", 6 * MM),
        ({IN + "stem_diameter": "7 mm"}, IN + "cam_width", 7 * MM),
        # 18 teeth of 3 mm: 17.19 pitch diameter, × 0.6 = 10.3; the journal's 8 where thinner; 16
        # of 2 mm: 10.19 - 2 - 3 = 5.19.
        ({}, "cam_drive.joint.diameter", 10 * MM),
        ({"crank.main_journal_diameter": "8 mm"}, "cam_drive.joint.diameter", 8 * MM),
        ({"cam_drive.teeth_crank": 16, "cam_drive.pitch": "2 mm"},
         "cam_drive.joint.diameter", 5 * MM),
        (of_bore(58), "cam_drive.count", 1),
        (of_bore(59), "cam_drive.count", 2),
        (of_bore(46), "cam_drive.width", 9 * MM),
        (of_bore(47), "cam_drive.width", 15 * MM),
        ({}, "cam_drive.teeth_cam", 36),
        ({"cam_drive.teeth_crank": 20}, "cam_drive.teeth_cam", 40),
        # 64.8 + 18 + 20 + 18 + 15 + 0.95 × 40.
        ({}, "cam_drive.centre_distance", 173.8 * MM),
        ({}, "cam_drive.tension", 27.0),
        # A belt of 9 and a millimetre of flange at each side; two of them.
        ({}, "cam_drive.joint.length", 11 * MM),
        ({"cam_drive.count": 2}, "cam_drive.joint.length", 22 * MM),
    ],
)  # fmt: skip
def test_valves(lines, path, hand):
    assert value(lines, path) == pytest.approx(hand, rel=FIGURES)


def test_words():
    table = [["0 deg", "0 mm"], ["60 deg", "2 mm"], ["120 deg", "4 mm"], ["180 deg", "2 mm"],
             ["240 deg", "0 mm"]]  # fmt: skip
    assert value({}, IN + "cam_law") == "polynomial_345"
    assert value({IN + "lift_table": table}, IN + "cam_law") == "table"
    assert value({}, "cam_drive.wheel_material") == "petg"
