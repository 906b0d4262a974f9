"""Rules of thumb for piston, rings, pin and con rod, against a pencil."""

import pytest
from tests.engine.by_hand import FIGURES, MM, engine, value

from firstfire.engine.resolve import resolve

METAL = {"piston.material": "aluminium"}
IRON, PTFE, BARE = ({"rings.kind": kind} for kind in ("metal", "ptfe", "none"))
SOLID = {"piston.infill": 1, "rod.infill": 1}
LIGHT_PISTON = {"piston.walls": 2, "piston.infill": 0.2, "piston.line_width": "0.45 mm"}
LIGHT_ROD = {"rod.walls": 2, "rod.infill": 0.2, "rod.line_width": "0.45 mm"}


def of_bore(mm):
    return {"cylinder.bore": f"{mm} mm", "cylinder.stroke": f"{0.9 * mm:g} mm"}


def sizes(part, **mm):
    return {f"{part}.{name}": f"{size} mm" for name, size in mm.items()}


DRAWN = sizes("piston", crown_thickness=5, skirt_thickness=3, length=36, boss_width=18) | sizes(
    "pin", diameter=10
)
SHIELD = sizes("piston.shield", thickness=1, diameter=37)
A_ROD = (
    sizes("pin", diameter=10)
    | sizes("crank", crankpin_diameter=12)
    | sizes("rod", length=66, small_end_width=14, big_end_width=15, eye_wall=4)
    | sizes("rod", shank_width=12, shank_thickness=11)
)
O_RING = sizes("rings", section=2.62)


@pytest.mark.parametrize(
    ("lines", "path", "hand"),
    [
        # 0.13 × 40, 4 mm at least; 0.08 × 40 of metal.
        ({}, "piston.crown_thickness", 5.2 * MM),
        (of_bore(28), "piston.crown_thickness", 4 * MM),
        (METAL, "piston.crown_thickness", 3.2 * MM),
        ({}, "piston.length", 36 * MM),
        # 0.6 % of 40; 0.12 % of metal, with 0.15 and 0.5 % more above.
        *(({}, f"piston.{place}_clearance", 0.24 * MM) for place in ("skirt", "top", "land")),
        (METAL, "piston.skirt_clearance", 0.048 * MM),
        (METAL, "piston.top_clearance", 0.108 * MM),
        (METAL, "piston.land_clearance", 0.248 * MM),
        ({}, "piston.ovality", 0.0),
        (METAL, "piston.ovality", 0.08 * MM),
        ({}, "piston.skirt_thickness", 2.8 * MM),
        (of_bore(28), "piston.skirt_thickness", 2.5 * MM),
        ({}, "piston.top_land", 4.8 * MM),
        ({}, "piston.boss_width", 18 * MM),
        ({}, "piston.shield.diameter", 37 * MM),
        # Half a bore; land 10 + grooves 3 × 3.668 + 2 × 1.5 between + half of 10: 29.004.
        ({}, "piston.compression_height", 20 * MM),
        (O_RING | sizes("piston", top_land=10) | sizes("pin", diameter=10) | {"rings.count": 3},
         "piston.compression_height", 29.5 * MM),
        # 10 + 2 × 1.55 + 1.5 + half of 14 = 21.6, with iron rings.
        (IRON | sizes("piston", top_land=10) | sizes("pin", diameter=14) | {"rings.count": 2},
         "piston.compression_height", 22 * MM),
        (BARE | sizes("piston", top_land=25), "piston.compression_height", 20 * MM),
        # π/4 40² × 5 = 6283.2; π × 37 × 3 × 31 = 10 810.2; π/4 (18² - 10²) × 18 = 3166.7 mm³ of
        # 1270 kg/m³.
        (DRAWN | SOLID, "piston.mass", 25.7303e-3),
        # Two lines of 0.45 at each face and a fifth between: 0.488 of 5 mm, 0.68 of 3, 0.56 of 4.
        (DRAWN | LIGHT_PISTON, "piston.mass", 15.4820e-3),
        # π/4 37² × 1 = 1075.2 mm³ of aluminium, 2700 kg/m³, on top.
        (DRAWN | SOLID | SHIELD, "piston.mass", 28.6334e-3),
        # A crown as long as the piston leaves no tube: 45 238.9 mm³ of disc, and bosses.
        (DRAWN | SOLID | sizes("piston", crown_thickness=36), "piston.mass", 61.4757e-3),
        # 1.78 mm below 32 mm of bore; bore/23 of iron, 2 mm of PTFE.
        (of_bore(31), "rings.section", 1.78 * MM),
        ({}, "rings.section", 2.62 * MM),
        (IRON, "rings.section", 1.73913 * MM),
        (PTFE, "rings.section", 2 * MM),
        ({}, "rings.squeeze", 0.10),
        (IRON, "rings.squeeze", 0.0),
        # 1 - (2.2 + 0.12)/2.62.
        (O_RING | sizes("rings", groove_depth=2.2), "rings.squeeze", 0.114504),
        # 2.62 × 0.9 - 0.12; 1.739 + 0.3.
        (O_RING, "rings.groove_depth", 2.238 * MM),
        (IRON, "rings.groove_depth", 2.03913 * MM),
        (O_RING, "rings.groove_width", 3.668 * MM),
        (IRON, "rings.groove_width", 1.55 * MM),
        # (40 - 2 × 2.238 - 0.24) × 0.975.
        (O_RING, "rings.inside_diameter", 34.4019 * MM),
        ({}, "rings.hardness", 75.0),
        ({"rings.material": "nbr"}, "rings.hardness", 70.0),
        ({}, "rings.gap", 0.0),
        (BARE, "rings.gap", 0.0),
        (IRON, "rings.gap", 0.16 * MM),
        (PTFE, "rings.gap", 1.6 * MM),
        ({}, "rings.wall_pressure", 0.0),
        (IRON, "rings.wall_pressure", 1.5e5),
        (PTFE, "rings.wall_pressure", 0.5e5),
        ({}, "rings.count", 1),
        (BARE, "rings.count", 0),
        # Between eye and bosses: 0.85 × 40; 22 + 14 + 1; 38 in a bore of 40.
        (sizes("rod", small_end_width=14) | sizes("piston", boss_width=18),
         "pin.length", 34 * MM),
        (sizes("rod", small_end_width=14) | sizes("piston", boss_width=22),
         "pin.length", 37 * MM),
        (sizes("rod", small_end_width=14) | sizes("piston", boss_width=26),
         "pin.length", 38 * MM),
        ({}, "rod.length", 64.8 * MM),
        (of_bore(41), "rod.shank_width", 12.5 * MM),
        ({}, "rod.eye_wall", 4 * MM),
        (of_bore(28), "rod.eye_wall", 3 * MM),
        # π/4 (18² - 10²) × 14 = 2463.0; π/4 (20² - 12²) × 15 = 3015.9; 12 × 11 × (66 - 5 - 6 - 8)
        # = 6204 mm³ of 1270 kg/m³.
        (A_ROD | SOLID, "rod.mass", 14.8373e-3),
        # 0.56 of the eyes' 4 mm is plastic, 0.3309 of the shank's 11.
        (A_ROD | LIGHT_ROD, "rod.mass", 6.50356e-3),
        # A rod no longer than its ends has no shank: π/4 (44² - 10²) × 14 + π/4 (46² - 12²) × 15.
        (A_ROD | SOLID | sizes("rod", length=44, eye_wall=17), "rod.mass", 55.1433e-3),
    ],
)  # fmt: skip
def test_piston_and_rod(lines, path, hand):
    assert value(lines, path) == pytest.approx(hand, rel=FIGURES, abs=1e-12)


@pytest.mark.parametrize(
    ("lines", "path", "hand"),
    [
        # 0.65 MPa × 6 × π/4 × 40² = 4900.9 N; eye 12, bosses 18: × (21/4 - 12/8) = 18.378 N m;
        # (32 M/π/150 MPa)^⅓ = 10.77.
        ({"cylinder.compression_ratio": 6}, "pin.diameter", 12 * MM),
        # 9.19 N m bend 8.54: below 0.22 × 40 = 8.8.
        ({"cylinder.compression_ratio": 3}, "pin.diameter", 10 * MM),
        # As far as 1 ‰ above a rod it is that rod: 10.005; not 10.015.
        ({"cylinder.compression_ratio": 4.8156}, "pin.diameter", 10 * MM),
        ({"cylinder.compression_ratio": 4.83}, "pin.diameter", 12 * MM),
        # 36.76 N m bend 13.57.
        ({"cylinder.compression_ratio": 12}, "pin.diameter", 14 * MM),
        # Bosses of 24: (12 + 12)/4 - 1.5 = 4.5 mm, 22.05 N m, 11.44; of 4: 2 mm,
        # 9.80 N m, 8.73.
        ({"piston.boss_width": "24 mm"}, "pin.diameter", 12 * MM),
        ({"piston.boss_width": "4 mm"}, "pin.diameter", 10 * MM),
        # 4900.9 × 16/6 × 4.5 mm = 58.81 N m, 15.87: no more than 0.36 × 40.
        ({"piston.boss_width": "24 mm", "cylinder.compression_ratio": 16},
         "pin.diameter", 14.4 * MM),
        # 120 mm: 0.65 MPa × 13 × 11 310 mm² = 95 567 N × 11.25 mm, 41.8: no rod of that is kept.
        ({"cylinder.bore": "120 mm", "cylinder.stroke": "108 mm", "cylinder.compression_ratio": 13},
         "pin.diameter", 42 * MM),
        # 4900.9 N/(0.4 × 45 MPa) = 272.3 mm²: of 24 wide 11.34, of 12 wide 22.7 but no more than
        # the small end's width; aluminium, 0.4 × 310 MPa, as its least: a quarter of 40.
        ({"rod.shank_width": "24 mm", "rod.small_end_width": "14 mm"},
         "rod.shank_thickness", 11.5 * MM),
        ({"rod.shank_width": "12 mm", "rod.small_end_width": "14 mm"},
         "rod.shank_thickness", 14 * MM),
        ({"rod.shank_width": "12 mm", "rod.small_end_width": "6 mm"},
         "rod.shank_thickness", 10 * MM),
        ({"rod.material": "aluminium", "rod.shank_width": "12 mm", "rod.small_end_width": "14 mm"},
         "rod.shank_thickness", 10 * MM),
        # 4900.9 N/(14 mm × 0.55 × 45 MPa) = 14.14; of 12 mm 16.50, of 11 18.0 but 0.42 × 40; of
        # 24 8.25 but 0.3 × 40.
        ({"crank.crankpin_diameter": "14 mm"}, "rod.big_end_width", 14.5 * MM),
        ({"crank.crankpin_diameter": "11 mm"}, "rod.big_end_width", 17 * MM),
        ({"pin.diameter": "14 mm"}, "rod.small_end_width", 14.5 * MM),
        ({"pin.diameter": "24 mm"}, "rod.small_end_width", 12 * MM),
        ({"pin.diameter": "13 mm"}, "rod.small_end_width", 15.5 * MM),
    ],
)  # fmt: skip
def test_what_is_sized_for_a_strong_first_combustion(lines, path, hand):
    assert value(lines, path) == pytest.approx(hand, rel=1e-9)


@pytest.mark.parametrize(
    ("bore", "ring"),
    [
        # Groove 40 - 1.8 × 2.62 = 35.284: 2.0 % on 34.59.
        (40, "as568_126"),
        # 36.284: 4.9 % on 34.59, 0.3 % on 36.17, which is nearer to 2.5 %.
        (41, "as568_127"),
        # 36.084: 4.3 % on 34.59; loose on 36.17.
        (40.8, "as568_126"),
        # 38.284: 5.8 % on 36.17, 1.4 % on 37.77.
        (43, "as568_128"),
        # 30.5 - 1.8 × 1.78 = 27.296: 2.2 % on 26.70.
        (30.5, "as568_023"),
        # 31.9 - 3.204 = 28.696: 1.4 % on 28.30; loose on 29.87.
        (31.9, "as568_024"),
    ],
)
def test_the_oring_that_sits_on_its_groove(bore, ring):
    assert value(of_bore(bore), "rings.oring") == ring


def test_no_oring_is_chosen_where_its_size_or_another_ring_is_said():
    assert value(O_RING, "rings.oring") is None
    assert value(sizes("rings", inside_diameter=34.5), "rings.oring") is None
    assert value(IRON, "rings.oring") is None


@pytest.mark.parametrize(
    ("lines", "material"),
    [({}, "fkm"), (IRON, "cast_iron_grey"), (PTFE, "ptfe"), (BARE, "fkm")],
)
def test_what_rings_are_of(lines, material):
    assert value(lines, "rings.material") == material


def test_a_pin_that_was_made_does_not_grow_with_a_sample():
    """At 12 : 1 one would choose 14 mm; the one made at 6 : 1 stays 12."""
    hard = {"cylinder.compression_ratio": 12.0}
    assert resolve(engine({}), hard).cylinders[0].pin.diameter == pytest.approx(14 * MM)
    made = resolve(engine({}), hard, as_built=True)
    assert made.cylinders[0].pin.diameter == pytest.approx(12 * MM)
    assert made.cylinders[0].cylinder.compression_ratio == 12.0
