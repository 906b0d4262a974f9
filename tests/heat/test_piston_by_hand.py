"""The piston below its crown, worked out with a calculator: sizes, heat held, paths.

Of the round engine: from pin to crown's top 22 - 6 = 16 mm, so a belt of 16 - 6 = 10 mm, 3 + 2 =
5 mm thick, over 40 - 6 - 10 = 24 mm of skirt; a rim of 3 + 5 = 8 mm, 2 · 2 = 4 mm thick. A crown of
6 mm printed with 0.4 of infill between 5.4 mm of lines is 0.94 plastic: 0.2 · 0.94 + 0.033 · 0.06 =
0.18998 W/(m K).
"""

import math

import pytest
from tests.heat.round_engine import ALUMINIUM, lies_at, links, lump, round_engine, through

from firstfire.heat.cylinder import network
from firstfire.heat.piston_body import piston_shape

PI, MM = math.pi, 1e-3
HEAT = 1270.0 * 1250.0
CROWN = 0.18998


def shape(**values):
    return piston_shape(round_engine(**values).cylinders[0])


def walls(**values):
    return network(round_engine(**values), 0)


def row(name, **values):
    return round_engine(**values).materials[name]


def heat_of(material):
    return material["density"] * material["specific_heat"]


def test_sizes() -> None:
    found = shape()
    assert (found.belt, found.belt_wall, found.skirt) == pytest.approx((10 * MM, 5 * MM, 24 * MM))
    assert (found.gap, found.rim, found.rim_wall) == pytest.approx((0.1 * MM, 8 * MM, 4 * MM))


@pytest.mark.parametrize(
    ("what", "wanted_mm", "values"),
    [
        ("rim", 7, {"piston__top_land": 9 * MM}),  # 22 - 6 - 9, below 3 + 9
        ("rim", 2, {"piston__top_land": 15 * MM}),  # 22 - 6 - 15 = 1
        ("belt", 2, {"piston__crown_thickness": 15 * MM}),  # 22 - 6 - 15 = 1
        ("skirt", 2, {"piston__length": 17 * MM}),  # 17 - 6 - 10 = 1
        ("belt_wall", 3, {"rings__count": 0}),  # no groove
        ("belt_wall", 18, {"piston__skirt_thickness": 17 * MM}),  # 17 + 2, but 0.45 · 40
        ("rim_wall", 18, {"rings__groove_depth": 10 * MM}),  # 2 · 10, but 0.45 · 40
        ("gap", 0.02, {"piston__skirt_clearance": 0.03 * MM}),  # 0.015, but 20 µm
    ],
)
def test_sizes_at_their_ends(what, wanted_mm, values) -> None:
    assert getattr(shape(**values), what) == pytest.approx(wanted_mm * MM)


def test_heat_of_belt_and_skirt() -> None:
    found = walls()
    land, skirt = lump(found, "land"), lump(found, "skirt")
    assert land.capacity == pytest.approx(HEAT * PI * 35 * 5 * 10 * MM**3)
    assert land.area == pytest.approx(PI * 34 * 10 * MM**2)
    assert land.thickness == pytest.approx(5 * MM)
    assert skirt.capacity == pytest.approx(HEAT * PI * 37 * 3 * 24 * MM**3)
    assert skirt.area == pytest.approx(PI * 34 * 24 * MM**2)
    assert skirt.thickness == pytest.approx(3 * MM)


def test_heat_of_a_skirt_of_its_own_material() -> None:
    found = walls(piston__skirt_material="aluminium_6061_t6")
    wanted = 2700.0 * 896.0 * PI * 37 * 3 * 24 * MM**3
    assert lump(found, "skirt").capacity == pytest.approx(wanted)
    assert lump(found, "land").capacity == pytest.approx(HEAT * PI * 35 * 5 * 10 * MM**3)


def test_heat_of_bosses_and_pin() -> None:
    """Bosses of 1.8 pins outside: π/4 (21.6² - 12²) · 20 mm³; a pin of 12 · 6 mm, 36 mm long."""
    pin = row("steel_mild")
    boss = lump(walls(), "boss")
    metal = PI / 4 * (144 - 36) * 36 * MM**3
    print_ = PI / 4 * (466.56 - 144) * 20 * MM**3
    assert boss.capacity == pytest.approx(HEAT * print_ + heat_of(pin) * metal)
    assert boss.area == pytest.approx(PI * 21.6 * 20 * MM**2)
    assert boss.thickness == pytest.approx(4.8 * MM)


def test_heat_of_rim_and_o_ring() -> None:
    """A rim of π · 36 · 4 · 8 mm³ less a groove of π · 38 · 2 · 3 mm³ in it."""
    found = walls()
    groove, ring = lump(found, "groove"), lump(found, "ring")
    assert groove.capacity == pytest.approx(HEAT * PI * (1152 - 228) * MM**3)
    assert (groove.area, groove.thickness) == (0.0, pytest.approx(8 * MM))
    assert ring.capacity == pytest.approx(heat_of(row("fkm")) * PI / 4 * 6.25 * PI * 37.5 * MM**3)
    assert (ring.area, ring.thickness) == (0.0, pytest.approx(2.5 * MM))
    two = walls(rings__count=2)
    assert lump(two, "ring").capacity == pytest.approx(2 * ring.capacity)


def test_a_rim_cut_through_keeps_a_quarter() -> None:
    """A groove of 18 mm in a rim of 11: π (36 · 4 · 11 - 38 · 2 · 18) = 216 π, below a quarter."""
    found = walls(rings__groove_width=18 * MM)
    assert lump(found, "groove").capacity == pytest.approx(HEAT * PI * 396 * MM**3)


def test_heat_of_a_metal_ring() -> None:
    values = {"rings__kind": "metal", "rings__count": 2}
    metal = row(round_engine(**values).cylinders[0].rings.material, **values)
    wanted = 2 * heat_of(metal) * 2.5 * 1.5 * PI * 37.5 * MM**3
    assert lump(walls(**values), "ring").capacity == pytest.approx(wanted)


def test_without_rings_there_is_no_rim() -> None:
    found = walls(rings__count=0)
    names = {one.name for one in found.lumps}
    assert not {"groove", "ring"} & names
    assert "land" in names
    # belt of the skirt's 3 mm
    assert lump(found, "land").capacity == pytest.approx(HEAT * PI * 37 * 3 * 10 * MM**3)


def test_an_o_ring_passes_its_conductivity_times_its_way_round() -> None:
    found = walls(rings__count=2)
    wanted = row("fkm")["conductivity"] * PI * 40 * MM * 2
    assert through(found, "ring", "groove") == pytest.approx(wanted)
    assert through(found, "liner", "ring") == pytest.approx(wanted)


@pytest.mark.parametrize(("lubrication", "touching"), [("splash", 15000.0), ("grease", 3000.0)])
def test_a_metal_ring_touches_with_its_height_and_its_flank(lubrication, touching) -> None:
    values = {"rings__kind": "metal", "rings__count": 2, "case__lubrication": lubrication}
    metal = row(round_engine(**values).cylinders[0].rings.material, **values)["conductivity"]
    found, around = walls(**values), PI * 40 * MM * 2
    onto_bore = 1 / (touching * 1.5 * MM) + 1.25 / (metal * 1.5)
    onto_flank = 1e-3 / (2.5 * MM) + 0.75 / (metal * 2.5)
    assert through(found, "liner", "ring") == pytest.approx(around / onto_bore)
    assert through(found, "ring", "groove") == pytest.approx(around / onto_flank)


def test_a_ring_of_ptfe_is_never_oiled_as_metal_is() -> None:
    values = {"rings__kind": "ptfe", "case__lubrication": "splash"}
    ptfe = row(round_engine(**values).cylinders[0].rings.material, **values)["conductivity"]
    wanted = PI * 40 * MM / (1 / (3000.0 * 1.5 * MM) + 1.25 / (ptfe * 1.5))
    assert through(walls(**values), "liner", "ring") == pytest.approx(wanted)


def test_paths_from_crown_to_pin_and_skirt() -> None:
    found = walls()
    crown, joined = found.stack("crown"), links(found)
    (land,) = joined["crown", "land"]
    assert land.conductance == pytest.approx(CROWN * PI * 35 * 5 * MM**2 / (8 * MM))
    assert lies_at(crown, land.cell, 3 * MM)
    (boss,) = joined["crown", "boss"]
    assert boss.conductance == pytest.approx(CROWN * 21.6 * 20 * MM**2 / (16 * MM))
    assert boss.cell == crown.cells - 1
    assert through(found, "land", "skirt") == pytest.approx(CROWN * PI * 37 * 3 * MM**2 / (17 * MM))
    assert through(found, "boss", "skirt") == pytest.approx(CROWN * 21.6 * 20 * MM**2 / (10 * MM))


def test_a_path_to_the_pin_is_two_millimetres_long_at_least() -> None:
    """A crown of 21 mm leaves 22 - 21 = 1 mm; it is 1 - 0.6 (1 - 5.4/21) plastic."""
    share = 1 - 0.6 * (1 - 5.4 / 21)
    conducts = 0.2 * share + 0.033 * (1 - share)
    found = walls(piston__crown_thickness=21 * MM)
    assert through(found, "crown", "boss") == pytest.approx(conducts * 21.6 * 20 * MM**2 / (2 * MM))


def test_skirt_of_its_own_material_hands_on_by_the_worse_of_both() -> None:
    """0.2 W/(m K) of a printed skirt on a piston of aluminium; the print's on one of metal."""
    metal = walls(
        piston__material="aluminium_6061_t6", piston__made="bought", piston__skirt_material="petg"
    )
    assert through(metal, "land", "skirt") == pytest.approx(0.2 * PI * 37 * 3 * MM**2 / (17 * MM))
    assert through(metal, "crown", "boss") == pytest.approx(
        ALUMINIUM[0] * 21.6 * 20 * MM**2 / (16 * MM)
    )
    printed = walls(piston__skirt_material="aluminium_6061_t6")
    assert through(printed, "boss", "skirt") == pytest.approx(CROWN * 21.6 * 20 * MM**2 / (10 * MM))


def across(film: float, height: float, wall: float) -> float:
    """Through the clearance and a third of a wall, W/K; mm."""
    return PI * 40 * height * MM**2 / (1 / film + wall * MM / (3 * CROWN))


@pytest.mark.parametrize(("lubrication", "conducts"), [("splash", 0.09), ("grease", 0.045)])
def test_paths_through_the_clearance(lubrication, conducts) -> None:
    """On radius 0.1 mm at the skirt, oiled or not, and 0.2 mm at the lands."""
    found = walls(case__lubrication=lubrication)
    assert through(found, "liner", "skirt") == pytest.approx(across(conducts / 0.1e-3, 24, 3))
    assert through(found, "liner", "land") == pytest.approx(across(0.045 / 0.2e-3, 5, 5))
    assert through(found, "liner", "groove") == pytest.approx(across(0.045 / 0.2e-3, 4, 4))


def test_a_clearance_of_land_is_twenty_microns_at_least() -> None:
    found = walls(piston__land_clearance=0.03 * MM)
    assert through(found, "liner", "land") == pytest.approx(across(0.045 / 20e-6, 5, 5))


def test_two_bands_of_a_printed_bore_share_by_the_stroke_in_them() -> None:
    """The top band is a quarter of the stroke."""
    found = walls(liner__material="petg", liner__made="printed", liner__kind="bare_print")
    whole = across(0.045 / 0.1e-3, 24, 3)
    assert through(found, "liner", "skirt") == pytest.approx(0.25 * whole)
    assert through(found, "liner_low", "skirt") == pytest.approx(0.75 * whole)


def test_paths_to_the_rim() -> None:
    """Over π · 36 · 4 mm²: down the top land half of 5 + 8 mm, on to the belt half of 8 + 10; and
    beside the land's foot over the 6 - 5 = 1 mm of crown below it, π · 32 · 1 mm², 4 mm wide."""
    found = walls()
    crown, (down, beside) = found.stack("crown"), links(found)["crown", "groove"]
    ring = PI * 36 * 4 * MM**2
    assert down.conductance == pytest.approx(CROWN * ring / (6.5 * MM))
    assert lies_at(crown, down.cell, 2.5 * MM)
    assert beside.conductance == pytest.approx(CROWN * PI * 32 * MM**2 / (4 * MM))
    assert lies_at(crown, beside.cell, 5.5 * MM)
    assert through(found, "groove", "land") == pytest.approx(CROWN * ring / (9 * MM))


def test_paths_start_below_a_shield() -> None:
    found = walls(piston__shield__thickness=2 * MM)
    crown, joined = found.stack("crown"), links(found)
    down, beside = joined["crown", "groove"]
    assert lies_at(crown, down.cell, 4.5 * MM)
    assert lies_at(crown, beside.cell, 7.5 * MM)
    (land,) = joined["crown", "land"]
    assert lies_at(crown, land.cell, 5 * MM)


def test_a_rim_below_the_crown_has_no_crown_beside_it() -> None:
    """Top land 9 mm, crown 6: it is fed from the crown's middle alone, by a rim of 7 mm."""
    found = walls(piston__top_land=9 * MM)
    (down,) = links(found)["crown", "groove"]
    assert lies_at(found.stack("crown"), down.cell, 3 * MM)
    assert down.conductance == pytest.approx(CROWN * PI * 36 * 4 * MM**2 / (8 * MM))


def test_a_thick_crown_lies_beside_all_of_the_rim() -> None:
    """Crown of 15 mm, land 5 mm, rim 8 mm: 0.616 plastic, fed over 8 mm, from 5 + 4 mm down."""
    share = 1 - 0.6 * (1 - 5.4 / 15)
    conducts = 0.2 * share + 0.033 * (1 - share)
    found = walls(piston__crown_thickness=15 * MM)
    _, beside = links(found)["crown", "groove"]
    assert beside.conductance == pytest.approx(conducts * PI * 32 * 8 * MM**2 / (4 * MM))
    assert lies_at(found.stack("crown"), beside.cell, 9 * MM)
