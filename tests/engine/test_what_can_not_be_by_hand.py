"""Each contradiction just outside its limit is refused in words that name it, just inside taken."""

import pytest
from tests.engine.by_hand import refused

PARALLEL, VEE = {"layout.kind": "parallel_twin"}, {"layout.kind": "v_twin"}
PTFE = {"rings.kind": "ptfe"}
RING = {
    "rings.section": "2.62 mm", "rings.inside_diameter": "34.59 mm", "rings.groove_depth": "2.2 mm",
    "piston.skirt_clearance": "0.24 mm",
}  # fmt: skip
THREE_RINGS = {"piston.top_land": "10 mm", "pin.diameter": "10 mm", "rings.count": 3,
               "rings.section": "2.62 mm"}  # fmt: skip


def mm(path, size):
    return {path: f"{size} mm"}


def heads(inlet, exhaust, lean=0):
    return {
        "valves.inlet.head_diameter": f"{inlet} mm",
        "valves.exhaust.head_diameter": f"{exhaust} mm",
        "valves.inlet.throat_diameter": "10 mm", "valves.exhaust.throat_diameter": "10 mm",
        "head.valve_axis_angle": f"{lean} deg",
    }  # fmt: skip


def deep(bore, depth):
    return {"cylinder.bore": f"{bore} mm", "cylinder.stroke": "30 mm"} | mm(
        "rings.groove_depth", depth
    )


def sizes(path, outside, inside, *words, **lines):
    return path, mm(path, outside), mm(path, inside), words


COIL = {"spark.coil.resistance": "3 ohm", "spark.coil.inductance": "5 mH"}
BREAKER = {"spark.source": "points"}
CASES = [
    # A driver keeps less than the battery has; L I²/2 is 30.6 mJ, taken within a fifth.
    ("spark.coil.driver_drop", {"spark.coil.driver_drop": "6 V", "spark.coil.voltage": "6 V"},
     {"spark.coil.driver_drop": "5.9 V", "spark.coil.voltage": "6 V"}, ("never charges",)),
    ("spark.coil_energy", COIL | {"spark.coil_energy": "37 mJ"}, COIL | {"spark.coil_energy":
     "36 mJ"}, ("31 mJ",)),
    ("spark.coil_energy", COIL | {"spark.coil_energy": "24 mJ"}, COIL | {"spark.coil_energy":
     "25 mJ"}, ("31 mJ",)),
    ("spark.points.lobe_rise", BREAKER | mm("spark.points.lobe_rise", 0.34),
     BREAKER | mm("spark.points.lobe_rise", 0.36), ("0.5 mm",)),
    ("layout.v_angle", PARALLEL | {"layout.v_angle": "30 deg"}, PARALLEL, ("parallel twin",)),
    ("layout.v_angle", VEE | {"layout.v_angle": "9.9 deg"}, VEE | {"layout.v_angle": "10.1 deg"},
     ("too small",)),
    ("layout.crank_offset", {"layout.crank_offset": "90 deg"}, {}, ("one pin",)),
    ("intake.kind", {"intake.kind": "y"}, {"intake.kind": "separate"}, ("one cylinder",)),
    # A pin is less than the bore, a piston pin than 0.7 of it, a throttle than 1.2.
    sizes("crank.crankpin_diameter", 40, 39.9, "bore of 40 mm", "10 mm to 18 mm"),
    sizes("pin.diameter", 28.1, 27.9, "is 28.1 mm", "8 mm to 12 mm"),
    sizes("intake.throttle_diameter", 48.1, 47.9, "is 48.1 mm", "8 mm to 16 mm"),
    ("pin.inside_diameter", mm("pin.diameter", 12) | mm("pin.inside_diameter", 12),
     mm("pin.diameter", 12) | mm("pin.inside_diameter", 11.9), ("as large as the pin",)),
    sizes("pin.length", 40.1, 40, "is 40.1 mm", "Make it 34 mm"),
    # Twice a cheek of 10.
    sizes("crank.joint.length", 20.1, 20, "is 20.1 mm: the cheek is 10 mm"),
    sizes("crank.through_rod_diameter", 11.3, 11.1, "is 11.3 mm"),
    ("spark.advance_table",
     {"spark.source": "points", "spark.advance_table": [["1000 rpm", "10 deg"]]},
     {"spark.advance_table": [["1000 rpm", "10 deg"]]}, ("one angle",)),
    # 1 + 45.239/7.75 is 6.84, 2.3 % below 7; of 7.7 1.8 %; of 7.35 7.15, 2.2 % above; of 7.4 1.6 %.
    *(("cylinder.compression_ratio",
       {"cylinder.compression_ratio": 7, "cylinder.chamber_volume": f"{outside} cm^3"},
       {"cylinder.compression_ratio": 7, "cylinder.chamber_volume": f"{inside} cm^3"},
       (f"makes it {real}",)) for outside, inside, real in ((7.75, 7.7, 6.84), (7.35, 7.4, 7.15))),
    sizes("liner.outside_diameter", 40, 40.1, "no larger than the bore (40 mm)", "44 mm"),
    sizes("body.outside_diameter", 44, 44.1, "(44 mm)", "60 mm"),
    ("cylinder.bore", {"liner.tube": "aluminium_40x45"} | mm("cylinder.bore", 39.3),
     {"liner.tube": "aluminium_40x45"} | mm("cylinder.bore", 39.5), ("39.3 mm", "40 mm inside")),
    sizes("head.fasteners.circle_diameter", 40, 40.1, "the bore (40 mm)", "58 mm"),
    sizes("gasket.inside_diameter", 39.9, 40, "is 39.9 mm", "41 mm"),
    ("gasket.inside_diameter", mm("gasket.inside_diameter", 39.9),
     mm("gasket.inside_diameter", 39.9) | {"gasket.kind": "none"}, ("into the bore",)),
    # Fins of 2 with 5 between: 11 take 72 of the liner's 68.4; 12 take 79 of the head's 72.
    ("body.fins.count", {"body.fins.count": 11}, {"body.fins.count": 10},
     ("take 72 mm", "long 68.4 mm", "10 fit")),
    ("head.fins.count", {"head.fins.count": 12}, {"head.fins.count": 11},
     ("take 79 mm", "wide 72 mm", "11 fit")),
    sizes("body.foot.circle_diameter", 60, 60.1, "wall (60 mm)", "72 mm"),
    sizes("body.foot.fillet", 8.1, 8, "is 8.1 mm", "thick (8 mm)", "1.6 mm"),
    # Half of 36, and an offset; 1.2 strokes.
    ("rod.length", mm("rod.length", 24) | mm("cylinder.offset", 6),
     mm("rod.length", 50), ("too short to turn", "61.2 mm to 72 mm")),
    ("rod.length", mm("rod.length", 24) | mm("cylinder.offset", -6),
     mm("rod.length", 50), ("too short to turn",)),
    ("rod.length", mm("rod.length", 24.1) | mm("cylinder.offset", 6), mm("rod.length", 43.3),
     ("meets the crank",)),
    sizes("rod.length", 43.1, 43.3, "meets the crank", "61.2 mm to 72 mm"),
    ("rings.groove_width", RING | mm("rings.groove_width", 2.62),
     RING | mm("rings.groove_width", 2.63), ("is 2.62 mm", "3.67 mm")),
    # (1.55 + 0.12)/2.62 squeezes by 36 %, 1.6 by 34; 2.51 + 0.12 is more than 2.62.
    ("rings.groove_depth", RING | mm("rings.groove_depth", 1.55),
     RING | mm("rings.groove_depth", 1.6), ("by 36%", "2.24 mm deep")),
    ("rings.groove_depth", RING | mm("rings.groove_depth", 2.51),
     RING | mm("rings.groove_depth", 2.49), ("wouldn't touch", "2.24 mm deep")),
    # On a groove of 35.36: 12.25 %, 11.9 %; loose by 3.1 %, 2.9 %.
    ("rings.inside_diameter", RING | mm("rings.inside_diameter", 31.5),
     RING | mm("rings.inside_diameter", 31.6), ("stretched by 12%", "33.7 mm to 35 mm")),
    ("rings.inside_diameter", RING | mm("rings.inside_diameter", 36.5),
     RING | mm("rings.inside_diameter", 36.4), ("loose by 3%", "groove of 35.4 mm")),
    # A groove that leaves 0.3 of the bore or less is another fault: 36 - 24.2, 34 - 24.2.
    ("rings.inside_diameter", RING | deep(36, 12), RING | deep(34, 12), ("groove of 11.8 mm",)),
    ("rings.groove_depth", PTFE | deep(30, 10.6), PTFE | deep(30, 10.4), ("through (bore 30 mm)",)),
    # 10 + 3 × 3.668 + 2 × 1.5 + 5 = 29.004, to a micrometre.
    ("piston.compression_height", THREE_RINGS | mm("piston.compression_height", 29.002),
     THREE_RINGS | mm("piston.compression_height", 29.0035), ("3 rings", "need 29 mm", "30 mm")),
    # 1 - 2.32/2.62 is 11.45 %.
    ("rings.squeeze", RING | {"rings.squeeze": 0.15}, RING | {"rings.squeeze": 0.14},
     ("is 15%", "makes it 11%")),
    ("rings.squeeze", RING | {"rings.squeeze": 0.08}, RING | {"rings.squeeze": 0.09}, ("is 8%",)),
    ("piston.shield.diameter", mm("piston.shield.thickness", 1) | mm("piston.shield.diameter", 40),
     mm("piston.shield.thickness", 1) | mm("piston.shield.diameter", 39.9), ("37 mm",)),
    # One head in the bore, also leaning: 46.3 × 0.866 = 40.1; two with a millimetre besides.
    ("valves.inlet.head_diameter", heads(40, 12), heads(26, 12),
     ("larger than the bore", "14 mm to 18 mm")),
    ("valves.exhaust.head_diameter", heads(12, 46.3, 30), heads(12, 32, 30),
     ("larger than the bore",)),
    # 12 and 38 leaning by 30° are 43.3 wide, 5 and 38 37.2.
    ("valves.exhaust.head_diameter", heads(12, 38, 30), heads(5, 38, 30), ("side by side",)),
    ("valves.inlet.head_diameter", heads(20, 19.1), heads(20, 19),
     ("is 20 mm", "side by side", "16.8 mm and 14.8 mm")),
    ("valves.exhaust.head_diameter", heads(19.1, 20), heads(19, 20), ("side by side",)),
    # × 0.93969: 41.6 are 39.09, 41.5 are 38.997.
    ("valves.inlet.head_diameter", heads(22, 19.6, 20), heads(22, 19.5, 20), ("side by side",)),
    ("valves.inlet.throat_diameter", heads(17, 15) | mm("valves.inlet.throat_diameter", 17),
     heads(17, 15) | mm("valves.inlet.throat_diameter", 16.9), ("(17 mm)", "14.8 mm")),
    ("valves.inlet.stem_diameter", heads(17, 15) | mm("valves.inlet.stem_diameter", 6.1),
     heads(17, 15) | mm("valves.inlet.stem_diameter", 5.9), ("(10 mm)", "3.74 mm")),
    ("valves.exhaust.worked", {"valves.exhaust.worked": "suction"},
     {"valves.inlet.worked": "suction"}, ("hold it shut",)),
    ("valves.inlet.cam_law", {"valves.inlet.cam_law": "table"}, {}, ("no table",)),
    ("cam_drive.teeth_cam", {"cam_drive.teeth_cam": 35}, {"cam_drive.teeth_cam": 36},
     ("35 against 18", "36 teeth")),
]  # fmt: skip


@pytest.mark.parametrize(("path", "outside", "inside", "words"), CASES)
def test_limits(path, outside, inside, words):
    said = refused(outside).get(path, "")
    assert [word for word in words if word not in said] == [], said
    assert path not in refused(inside)


def table(*rows):
    return [[f"{angle} deg", f"{lift} mm"] for angle, lift in rows]


@pytest.mark.parametrize(
    ("rows", "fault"),
    [
        (((0, 0), (60, 2), (120, 4), (180, 2), (240, 0)), ""),
        (((0, 0), (60, 2), (120, 4), (240, 0)), "4 rows"),
        (((0, 0.02), (60, 2), (120, 4), (180, 2), (240, 0)), "off its seat"),
        (((0, 0), (60, 2), (120, 4), (180, 2), (240, 0.02)), "off its seat"),
        (((0, 0), (60, 0.1), (120, 0.29), (180, 0.1), (240, 0)), "by 0.29 mm at most"),
        (((0, 0), (60, 0.1), (120, 0.31), (180, 0.1), (240, 0)), ""),
        # 2.1 mm in a degree up or down, 1.9 taken; 0.04° apart, 0.06 taken.
        (((0, 0), (60, 2), (61, 4.1), (180, 2), (240, 0)), "leaps"),
        (((0, 0), (60, 4.1), (61, 2), (180, 1), (240, 0)), "leaps"),
        (((0, 0), (60, 2), (61, 3.9), (180, 2), (240, 0)), ""),
        (((0, 0), (60, 2), (60.04, 2), (180, 2), (240, 0)), "leaps"),
        (((0, 0), (60, 2), (60.06, 2), (180, 2), (240, 0)), ""),
    ],
)
def test_lift_tables(rows, fault):
    said = refused({"valves.inlet.lift_table": table(*rows)}).get("valves.inlet.lift_table", "")
    assert fault in said
    assert bool(fault) == bool(said)


def test_nothing_is_wrong_with_the_usual_engine():
    assert refused({}) == {}


def test_a_valve_may_open_early_and_shut_early():
    """120 + 180 - 59 = 241° open."""
    early = {"valves.inlet.opens_before_top": "120 deg",
             "valves.inlet.closes_after_bottom": "-59 deg"}  # fmt: skip
    assert refused(early) == {}


def test_side_valves_need_not_fit_the_bore():
    assert "valves.inlet.head_diameter" not in refused(heads(26, 24) | {"valves.placed": "side"})


def test_what_is_printed_in_one_piece_lies_one_way():
    lines = {"crank.joint.kind": "solid", "crank.crankpin.layers_stacked": "along_bore"}
    assert "along_crank" in refused(lines)["crank.crankpin.layers_stacked"]
    assert "crank.crankpin.layers_stacked" not in refused(lines | {"crank.made": "rod"})


def test_the_second_cylinders_fault_is_told_of_the_second():
    found = refused(PARALLEL | {"cylinders.2.pin.length": "40.1 mm"})
    assert set(found) == {"cylinders.2.pin.length"}
    unread = refused(PARALLEL | {"cylinders.2.pin.lenth": "30 mm"})
    assert "Did you mean cylinders.2.pin.length?" in unread["cylinders.2.pin.lenth"]
