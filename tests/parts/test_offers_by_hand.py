"""What each change that is offered says, of engines whose sizes are set to round numbers.

The steps are our own choices; here they are reckoned by hand from the sizes beside them.
"""

from __future__ import annotations

import math
from functools import cache
from types import SimpleNamespace

import pytest
from tests.parts.moments import COLD, engine, moment

from firstfire.engine.read import with_values
from firstfire.parts import case, swell, ways

WREN, HERON = "engines/wren.toml", "engines/heron.toml"
METAL, RESIN = (
    f"tests/strangers/{name}.toml" for name in ("5_metal_wren", "1_resin_methanol")
)  # fmt: skip
# Torques of 3 N*m; walls, springs and clearances of one or two figures; a bore of 40, a liner of
# 44 and a body of 60 mm.
SIZES = {
    "liner.outside_diameter": "44 mm", "body.outside_diameter": "60 mm", "body.infill": "0.4",
    "liner.fit_interference": "0.06 mm", "case.wall": "6 mm", "intake.wall": "2 mm",
    "head.fasteners.torque": "3 N*m", "head.fasteners.washer_diameter": "10 mm",
    "cam_drive.tension": "20 N", "cam_drive.width": "10 mm", "cam_drive.count": "1",
    "cam_drive.teeth_crank": "20", "cam_drive.teeth_cam": "40",
    "rings.groove_depth": "2.2 mm", "rings.groove_width": "3.5 mm",
    "valves.inlet.worked": "cam", "valves.inlet.spring_preload": "10 N",
    "valves.inlet.spring_rate": "2 N/mm", "valves.exhaust.spring_preload": "2 N",
    "valves.exhaust.spring_rate": "0.2 N/mm", "valves.exhaust.lash": "0.2 mm",
    "piston.shield.thickness": "1 mm",
}  # fmt: skip
# Way, path, and what is offered; the sizes are those above or wren's own.
OFFERED = {
    "body.split": {"body.infill": "1.0", "liner.fit_interference": "0.03 mm"},
    "cam_drive.belt.jump": {
        "cam_drive.count": "2", "cam_drive.tension": "30 N",
        "cam_drive.teeth_crank": "27", "cam_drive.teeth_cam": "54",
    },
    "cam_drive.belt.tear": {
        "cam_drive.count": "2", "cam_drive.pitch": "5 mm", "cam_drive.width": "15 mm"
    },
    "case.tear": {"case.wall": "9 mm"},
    # 33 and 14 mm, a quarter more; 12 mm, a fifth more, on half millimetres; 4 mm of plate, half
    # as much again.
    "crank.cheek.break": {
        "crank.cheek_width": "41.5 mm", "crank.joint.plate_thickness": "6 mm",
        "crank.joint.length": "6 mm",
    },
    "crank.journal.rock": {"crank.cheek_thickness": "17.5 mm"},
    "crank.pin.bend": {"crank.crankpin_diameter": "14.5 mm"},
    # 110 mm, 15 % less; 3000 rpm, a fifth less.
    "flywheel.burst": {"flywheel.diameter": "93 mm", "spark.limit_speed": "2400 rpm"},
    "gasket.open": {"head.fasteners.count": "6", "head.fasteners.torque": "3.9 N*m"},
    "head.fasteners.strip": {"head.fasteners.torque": "2.1 N*m"},
    "head.tighten.crack": {"head.fasteners.torque": "2.1 N*m"},
    "head.washer.sink": {"head.fasteners.washer_diameter": "14 mm"},
    "intake.fold": {"intake.wall": "3 mm"},
    # 2 mm of wall, half as much again: 46 outside, and 2 mm more of the body too.
    "liner.burst": {"liner.outside_diameter": "46 mm", "body.outside_diameter": "62 mm"},
    "liner.ovalise": {
        "liner.outside_diameter": "46 mm", "body.outside_diameter": "62 mm",
        "liner.fit_interference": "0.03 mm",
    },
    "liner.crush": {"liner.fit_interference": "0.03 mm"},
    "piston.shield.loosen": {"piston.shield.screws": "5"},
    "piston.shield.melt": {"piston.shield.thickness": "1.5 mm"},
    "ring.fill": {"rings.groove_width": "4.2 mm"},
    # 4 % of a section of 2.62 mm are 0.105 mm.
    "ring.leak": {"rings.groove_depth": "2.09 mm"},
    "ring.roll": {"rings.groove_depth": "2.31 mm"},
    "valves.inlet.float": {
        "valves.inlet.spring_preload": "15 N", "valves.inlet.spring_rate": "3 N/mm",
        "spark.limit_speed": "2550 rpm",
    },
    "valves.exhaust.float": {
        "valves.exhaust.spring_preload": "3 N", "valves.exhaust.spring_rate": "0.3 N/mm",
    },
    "valves.exhaust.lash.close": {"valves.exhaust.lash": "0.3 mm"},
}  # fmt: skip


@cache
def offers(file, values=(), events=("first_fire", "full_throttle")):
    """Values that each way offers, by path, and the ways."""
    described = with_values(engine(file), dict(values), comma=True)
    found, known = {}, {}
    for event in events:
        rises = COLD if event != "full_throttle" else None
        for way in ways(moment(described, event=event, rises=rises)):
            known[way.id] = way
            for change in way.raise_by:
                for path, value in change.set.items():
                    found.setdefault(way.id, {}).setdefault(path, set()).add(value)
    return found, known


@pytest.mark.parametrize("way", OFFERED)
def test_a_step_from_round_sizes_is_the_round_size_it_should_be(way):
    found, _ = offers(WREN, tuple(SIZES.items()))
    for path, value in OFFERED[way].items():
        assert found[way][path] == {value}


def test_a_valve_that_floats_already_is_limited_to_below_its_floating():
    """0.95 of that speed, told in steps of 50 rpm downwards, where 0.85 of 3000 rpm is more."""
    found, known = offers(WREN, tuple(SIZES.items()))
    floats = known["valves.exhaust.float"].capacity * 30 / math.pi
    assert floats < 2550 / 0.95
    (said,) = found["valves.exhaust.float"]["spark.limit_speed"]
    told = float(said.split()[0])
    assert told <= 0.95 * floats < told + 50.0


@pytest.mark.parametrize(
    ("file", "values", "way", "wanted"),
    [
        # A crankpin of 13 mm of plastic: half of it a rod; 15.6 mm; cheeks of 2.2 x 16.1 mm.
        (HERON, {"crank.crankpin_diameter": "13 mm", "crank.joint.diameter": "13 mm",
                 "crank.cheek_width": "28 mm"}, "crank.pin.bend",
         {"crank.through_rod_diameter": "6.5 mm", "crank.crankpin_diameter": "16 mm",
          "crank.cheek_width": "35.5 mm"}),
        # 0.6 of a journal of 15 mm.
        (HERON, {"crank.main_journal_diameter": "15 mm", "crank.journal.joint.diameter": "15 mm"},
         "crank.journal.break", {"crank.journal.rod_diameter": "9 mm"}),
        # A tube of 2 mm of wall round a bore of 46 mm; a body half as thick again.
        (HERON, {"cylinder.bore": "46 mm", "liner.outside_diameter": "50 mm",
                 "body.outside_diameter": "66 mm"},
         "liner.burst", {"liner.outside_diameter": "50 mm"}),
        (HERON, {"body.foot.thickness": "8 mm"}, "body.foot.crack",
         {"body.foot.thickness": "12 mm"}),
        # 0.7 of 3 N*m.
        (HERON, {"head.fasteners.torque": "3 N*m"}, "body.boss.split",
         {"head.fasteners.torque": "2.1 N*m"}),
        # A hundredth of a bore of 40 mm is more than twice 0.15 mm; of 0.25 mm it is less.
        (METAL, {"rings.gap": "0.15 mm"}, "ring.gap.close", {"rings.gap": "0.4 mm"}),
        (METAL, {"rings.gap": "0.25 mm"}, "ring.gap.close", {"rings.gap": "0.5 mm"}),
        # Half as much again.
        (METAL, {"valves.exhaust.seat_interference": "0.02 mm"}, "head.seat.fall",
         {"valves.exhaust.seat_interference": "0.03 mm"}),
        # A clamp of 200 N; 8/1000 of 12.5 mm in plastic.
        (WREN, {"crank.joint.kind": "clamped", "crank.joint.clamp_screw_force": "200 N"},
         "crank.joint.slip", {"crank.joint.clamp_screw_force": "300 N"}),
        (HERON, {"crank.joint.kind": "plain_press", "crank.joint.diameter": "12.5 mm",
                 "crank.crankpin_diameter": "12.5 mm", "crank.joint.interference": "0.05 mm"},
         "crank.joint.slip", {"crank.joint.interference": "0.1 mm"}),
        # A quarter larger across.
        (HERON, {"crank.joint.kind": "splined", "crank.joint.diameter": "13 mm",
                 "crank.crankpin_diameter": "13 mm", "crank.cheek_width": "36 mm"},
         "crank.joint.slip", {"crank.joint.diameter": "16.5 mm"}),
    ],
)  # fmt: skip
def test_a_step_of_other_engines_is_as_it_should_be(file, values, way, wanted):
    events = ("overtighten",) if way == "body.boss.split" else ("first_fire", "full_throttle")
    found, _ = offers(file, tuple(values.items()), events)
    for path, value in wanted.items():
        assert value in found[way].get(path, ()), found[way]


@pytest.mark.parametrize(
    ("interference", "offered"), [("0.075 mm", True), ("0.085 mm", False)]
)  # fmt: skip
def test_a_press_that_is_nearly_good_is_not_made_tighter(interference, offered):
    """8/1000 of 12.5 mm are 0.1 mm: four fifths of it are enough."""
    values = {"crank.joint.kind": "plain_press", "crank.joint.diameter": "12.5 mm",
              "crank.crankpin_diameter": "12.5 mm",
              "crank.joint.interference": interference}  # fmt: skip
    found, _ = offers(HERON, tuple(values.items()), ("first_fire",))
    assert ("crank.joint.interference" in found["crank.joint.slip"]) is offered


def test_a_glued_joint_is_made_half_as_long_again():
    values = {"crank.joint.kind": "bonded", "crank.joint.bond": "retaining_compound",
              "crank.joint.length": "10 mm", "crank.cheek_thickness": "11.5 mm"}  # fmt: skip
    found, _ = offers(HERON, tuple(values.items()), ("first_fire",))
    assert "15 mm" in found["crank.joint.slip"]["crank.joint.length"]
    assert found["crank.joint.slip"]["crank.joint.bond"] == {"epoxy"}


def test_pins_are_made_a_third_thicker_and_one_is_added_where_there_is_room():
    """1.34 x 3 mm are 4.02, in half millimetres 4; of 5 mm they are 6.7, but 0.4 x 15 are 6."""
    values = {"flywheel.joint.kind": "keyed", "flywheel.joint.cross_pins": "1",
              "flywheel.joint.cross_pin_diameter": "3 mm"}  # fmt: skip
    found, _ = offers(WREN, tuple(values.items()), ("first_fire",))
    slip = found["flywheel.hub.slip"]
    assert slip["flywheel.joint.cross_pin_diameter"] == {"4 mm"}
    assert slip["flywheel.joint.cross_pins"] == {"2"}
    values |= {"flywheel.joint.cross_pin_diameter": "5 mm", "flywheel.joint.diameter": "15 mm"}
    found, _ = offers(WREN, tuple(values.items()), ("first_fire",))
    assert found["flywheel.hub.slip"]["flywheel.joint.cross_pin_diameter"] == {"6 mm"}


def only(file, values, way, events=("first_fire",)):
    """What one way offers, and the way."""
    found, known = offers(file, tuple(values.items()), events)
    return found.get(way, {}), known[way]


def test_a_cheek_wide_enough_for_a_thicker_pin_stays():
    """1.8 x (1.2 x 13 + 0.5) mm are 29: 30 mm of cheek are enough."""
    found, _ = only(
        HERON, {"crank.crankpin_diameter": "13 mm", "crank.joint.diameter": "13 mm",
                "crank.cheek_width": "30 mm"}, "crank.pin.bend",
    )  # fmt: skip
    assert found["crank.crankpin_diameter"] == {"16 mm"}
    assert "crank.cheek_width" not in found


def test_a_bond_is_no_longer_than_two_cheeks():
    found, _ = only(
        HERON, {"crank.joint.kind": "bonded", "crank.joint.bond": "retaining_compound",
                "crank.joint.length": "10 mm", "crank.cheek_thickness": "6 mm"},
        "crank.joint.slip",
    )  # fmt: skip
    assert "12 mm" in found["crank.joint.length"]


def test_a_solid_body_is_made_half_as_thick_again():
    """16 mm over a liner of 50: 50 + 1.5 x 16."""
    found, _ = only(
        HERON, {"liner.outside_diameter": "50 mm", "body.outside_diameter": "66 mm",
                "body.infill": "1.0"}, "body.part",
    )  # fmt: skip
    assert found["body.outside_diameter"] == {"74 mm"}
    assert "body.infill" not in found


@pytest.mark.parametrize(("now", "then"), [("0.5 mm", "1.6 mm"), ("0.9 mm", "1.8 mm"),
                                           ("1.2 mm", None)])  # fmt: skip
def test_a_brittle_foot_is_rounded_where_that_helps(now, then):
    """Twice as round, a fifth of 8 mm at least; 2.4 mm would be over 0.28 of it."""
    values = {"body.material": "resin", "body.foot.thickness": "8 mm", "body.foot.fillet": now}
    found, _ = only(HERON, values, "body.foot.crack")
    assert found.get("body.foot.fillet") == (then and {then})


@pytest.mark.parametrize(("circle", "judged"), [("58 mm", True), ("55 mm", False)])
def test_a_boss_is_judged_where_something_stands_round_its_hole(circle, judged):
    """Of a liner of 50 and a body of 66 mm: 8 mm at 58, 5 at 55; an insert of M4 wants 5.6."""
    values = {"head.fasteners.circle_diameter": circle, "body.outside_diameter": "66 mm",
              "liner.outside_diameter": "50 mm"}  # fmt: skip
    _, way = only(HERON, values, "body.boss.split", ("overtighten",))
    assert way.judged is judged


@pytest.mark.parametrize(("air", "governs"), [("20 degC", "wall"), ("75 degC", "temperature")])
def test_warmth_governs_an_intake_that_it_makes_soft(air, governs):
    _, way = only(WREN, {"intake.bay_temperature": air}, "intake.fold", ("full_throttle",))
    assert way.governs == governs


@pytest.mark.parametrize(("torque", "more"), [("4 N*m", {"5.2 N*m"}), ("5.5 N*m", None)])
def test_screws_are_tightened_further_where_their_grip_is_far_stronger(torque, more):
    """An M5 of 8.8 holds 14.2 mm² x 580 MPa = 8.23 kN: 4 kN 2.1 times, 5.5 kN only 1.5 times."""
    found, _ = only(WREN, {"head.fasteners.torque": torque}, "gasket.open")
    assert found.get("head.fasteners.torque") == more


@pytest.mark.parametrize(("hours", "governs"), [(0.01, "preload"), (5000.0, "creep")])
def test_a_gasket_that_stood_for_months_has_crept(hours, governs):
    found = ways(moment(engine(WREN), event="first_fire", rises=COLD, hours=hours))
    assert next(way for way in found if way.id == "gasket.open").governs == governs


def feeling(yields: float):
    """Brittle stuff that yields below some thickness, and feels a notch by that at most."""
    return SimpleNamespace(yields_below=yields, most=lambda wall, power: (wall / yields) ** power)


@pytest.mark.parametrize(("felt", "offered"), [(2.9, True), (2.96, True), (2.98, False),
                                               (3.0, False)])  # fmt: skip
def test_a_case_that_cracks_is_made_thicker_up_to_where_its_hole_is_felt_in_full(felt, offered):
    """6 mm of what yields below 2 feels three times at most: 2.97 is that to one part in 100."""
    here = moment(with_values(engine(WREN), {"case.wall": "6 mm"}))
    raised = case._sturdier(here, feeling(2e-3), felt)
    assert ({"case.wall": "9 mm"} in [one.set for one in raised]) is offered


def test_an_oval_skirt_gives_four_tenths_of_the_clearance_it_lacks():
    """0.10 mm oval and 0.25 mm of clearance: 0.20 mm smaller along the pin."""
    here = moment(with_values(engine(WREN), {"piston.ovality": "0.1 mm"}))
    lands = swell.Place("lands", 100.0, 0.25e-3, "piston.ovality", {})
    freed = swell._freed(here, lands)
    assert freed.set == {"piston.ovality": "0.2 mm"}
    skirt = swell.Place("skirt", 100.0, 0.25e-3, "piston.skirt_clearance", {})
    assert swell._freed(here, skirt).set == {"piston.skirt_clearance": "0.35 mm"}
