"""Crown, head, valves, seats, port and bore of the round engine, worked out with a calculator."""

import math

import numpy as np
import pytest
from tests.heat.round_engine import lies_at, links, lump, round_engine, through

from firstfire.heat.cylinder import network, stacks
from firstfire.heat.liner import Band

PI, MM = math.pi, 1e-3
BORE = PI / 4 * 1600 * MM**2
VALVES = PI / 4 * (400 + 256) * MM**2
METAL_HEAD = {"head__material": "aluminium_6061_t6", "head__made": "bought"}
METAL_BODY = {"body__material": "aluminium_6061_t6", "body__made": "bought"}
METAL_PISTON = {"piston__material": "aluminium_6061_t6", "piston__made": "bought"}
PRINTED_BORE = {"liner__material": "petg", "liner__made": "printed", "liner__kind": "bare_print"}
SHIELD = {"piston__shield__thickness": 1 * MM}
# still air and radiation at 450 K between faces of 0.2: 4 · 5.67e-8 · 450³ · 0.2
RADIATION = 4.13343


def walls(**values):
    return network(round_engine(**values), 0)


def contact_of(stack, layer=0):
    """Behind a layer, K/W."""
    return stack.contact[stack.starts[layer + 1] - 1]


# -- crown


def test_crown_is_the_bore_s_disc() -> None:
    crown = walls().stack("crown")
    assert crown.thickness == pytest.approx(6 * MM)
    assert crown.fire_area == crown.back_area == pytest.approx(BORE)
    # 0.94 of it is plastic
    assert crown.capacity.sum() == pytest.approx(BORE * 6e-3 * 0.94 * 1270 * 1250)
    assert crown.layers[0].solid.conductivity == pytest.approx(0.2 * 0.94 + 0.033 * 0.06)
    assert crown.layers[0].decomposition == pytest.approx(653.15)


@pytest.mark.parametrize(
    ("values", "contact"),
    [
        ({}, 5e-4),
        ({"piston__shield__screws": 0}, 1e-4),
        (METAL_PISTON, 1e-4),
        (METAL_PISTON | {"doubt__contact": 2.0}, 0.5e-4),
        ({"doubt__contact": 2.0}, 2.5e-4),
        ({"piston__shield__air_gap": 0.5 * MM}, 1 / (0.033 / 0.5e-3 + RADIATION)),
    ],
)
def test_behind_a_shield(values, contact) -> None:
    crown = walls(**SHIELD, **values).stack("crown")
    assert crown.layers[0].part == "shield"
    assert crown.thickness == pytest.approx(7 * MM)
    assert contact_of(crown) == pytest.approx(contact / BORE)


def test_coated_crown() -> None:
    crown = walls(piston__coating="ceramic_paint").stack("crown")
    assert [one.thickness for one in crown.layers] == pytest.approx([0.2 * MM, 6 * MM])
    assert crown.layers[0].solid == (0.8, 2000.0, 900.0)
    assert contact_of(crown) == 0.0


@pytest.mark.parametrize(("thick", "engaged"), [(6, 6), (10, 7.5)])
def test_screws_of_a_shield(thick, engaged) -> None:
    """Three screws of 3 mm, 7.5 mm deep at the most: 3.8 MJ/(m³ K), 45 W/(m K)."""
    found = walls(**SHIELD, piston__crown_thickness=thick * MM, doubt__contact=2.0)
    section = PI / 4 * 9 * MM**2
    screws = lump(found, "shield_screws")
    assert screws.capacity == pytest.approx(3.8e6 * 3 * section * engaged * MM)
    assert screws.area == 0.0
    assert screws.thickness == pytest.approx(1.5 * MM)
    crown, (head, thread) = found.stack("crown"), links(found)["crown", "shield_screws"]
    down = 0.5 * engaged * MM / (45.0 * section) + 1e-4 / (2.0 * 3 * section)
    assert head.conductance == pytest.approx(3 / down)
    assert head.cell == crown.starts[1] - 1
    share = 1 - 0.6 * (1 - 5.4 / thick)
    conducts = 0.2 * share + 0.033 * (1 - share)
    assert thread.conductance == pytest.approx(3 * 2 * PI * conducts * engaged * MM / math.log(3))
    assert lies_at(crown, thread.cell, (1 + engaged / 2) * MM)


def test_no_screws_without_a_screwed_shield() -> None:
    for values in ({}, SHIELD | {"piston__shield__screws": 0}):
        assert "shield_screws" not in walls(**values).lump_nodes


# -- head, valves, seats, port


def test_printed_head() -> None:
    """The bore's disc; fire has 1600 - 400 - 256 of its 1600."""
    head = walls().stack("head")
    assert head.fire_area == pytest.approx(PI / 4 * 944 * MM**2)
    assert head.back_area == pytest.approx(BORE)
    assert head.capacity.sum() == pytest.approx(BORE * 20e-3 * 1270 * 1250)


def test_a_fifth_of_the_roof_is_open_at_least() -> None:
    """Valves of 28 and 25 mm would leave 1600 - 784 - 625 = 191, below 320."""
    head = walls(valves__inlet__head_diameter=28 * MM, valves__exhaust__head_diameter=25 * MM)
    assert head.stack("head").fire_area == pytest.approx(PI / 4 * 320 * MM**2)


def test_roof_over_side_valves() -> None:
    """1600 + 1.4 · 656 = 2518.4, all of it open to fire."""
    head = walls(valves__placed="side").stack("head")
    wanted = PI / 4 * 2518.4 * MM**2
    assert head.fire_area == head.back_area == pytest.approx(wanted)
    assert head.capacity.sum() == pytest.approx(wanted * 20e-3 * 1270 * 1250)


@pytest.mark.parametrize(("diameter", "spread"), [(80, 6400), (30, 1600)])
def test_metal_head_spreads_over_its_diameter(diameter, spread) -> None:
    """π/4 · 80² and a rim of π · 80 · 20 outside; never less than the bore."""
    head = walls(**METAL_HEAD, head__diameter=diameter * MM).stack("head")
    area = PI / 4 * spread * MM**2
    assert head.fire_area == pytest.approx(PI / 4 * 944 * MM**2)
    assert head.capacity.sum() == pytest.approx(area * 20e-3 * 2700 * 896)
    assert head.back_area == pytest.approx(area + PI * diameter * 20 * MM**2)


@pytest.mark.parametrize(
    ("values", "contact", "area"),
    [
        ({}, 5e-4, BORE),
        ({"doubt__contact": 2.0}, 2.5e-4, BORE),
        (METAL_HEAD, 1e-4, PI / 4 * 6400 * MM**2),
    ],
)
def test_chamber_plate(values, contact, area) -> None:
    head = walls(head__chamber_plate="steel_mild", head__chamber_plate_thickness=2 * MM,
                 **values).stack("head")  # fmt: skip
    assert head.parts == ("chamber_plate", "head")
    assert [one.thickness for one in head.layers] == pytest.approx([2 * MM, 20 * MM])
    assert contact_of(head) == pytest.approx(contact / area)


def test_valves_are_one_disc() -> None:
    """0.12 of (400 · 20 + 256 · 16)/656 = 18.439 mm."""
    found, steel = walls().stack("valves"), round_engine().materials["stainless_304"]
    assert found.fire_area == found.back_area == pytest.approx(VALVES)
    assert found.thickness == pytest.approx(0.12 * 12096 / 656 * MM)
    heat = steel["density"] * steel["specific_heat"]
    assert found.capacity.sum() == pytest.approx(heat * VALVES * found.thickness)


def test_seats() -> None:
    """Rings of 2 · 4 mm round 20 mm and 1.6 · 3.2 round 16; they touch on a twentieth."""
    found, steel = walls(doubt__contact=2.0), round_engine().materials["steel_mild"]
    seats = lump(found, "seats")
    heat = steel["density"] * steel["specific_heat"]
    assert seats.capacity == pytest.approx(heat * PI * (20 * 8 + 16 * 5.12) * MM**3)
    outside = PI * (20 * 4 + 16 * 3.2) * MM**2
    assert seats.area == pytest.approx(outside)
    assert seats.thickness == pytest.approx(1.6 * MM)
    (closed,) = links(found)["valves", "seats"]
    assert closed.conductance == pytest.approx(2 * 3000 * PI * (20 * 1 + 16 * 0.8) * MM**2)
    assert closed.cell == found.stack("valves").cells - 1
    assert through(found, "head", "seats") == pytest.approx(2 * outside / 1e-3)


def test_seats_pressed_into_metal() -> None:
    outside = PI * (20 * 4 + 16 * 3.2) * MM**2
    assert through(walls(**METAL_HEAD), "head", "seats") == pytest.approx(outside / 3e-5)
    side = {"valves__placed": "side"}
    assert through(walls(**side), "liner", "seats") == pytest.approx(outside / 1e-3)
    metal = walls(**side, **METAL_BODY)
    assert through(metal, "liner", "seats") == pytest.approx(outside / 3e-5)
    assert links(metal)["liner", "seats"][0].cell == metal.stack("liner").starts[1]


def test_seats_in_a_plate_or_behind_a_coating() -> None:
    plate = walls(head__chamber_plate="steel_mild", head__chamber_plate_thickness=2 * MM)
    assert links(plate)["head", "seats"][0].cell == 0
    foil = walls(head__coating="metal_foil")
    assert links(foil)["head", "seats"][0].cell == foil.stack("head").starts[1]


def test_port() -> None:
    """14 mm bore, one and a half bores long, 6 mm of the head round it."""
    port = walls().stack("exhaust_port")
    assert port.fire_area == pytest.approx(PI * 14 * 21 * MM**2)
    assert port.back_area == pytest.approx(PI * 26 * 21 * MM**2)
    assert port.thickness == pytest.approx(6 * MM)
    assert port.capacity.sum() == pytest.approx(PI / 4 * (26**2 - 14**2) * 21 * MM**3 * 1270 * 1250)


# -- bore


def test_bands_of_a_bore() -> None:
    metal = [one for one in stacks(round_engine(), 0) if one.name.startswith("liner")]
    assert [one.name for one in metal] == ["liner"]
    assert metal[0].fire_area == pytest.approx(PI * 40 * 80 * MM**2)
    printed = [
        one for one in stacks(round_engine(**PRINTED_BORE), 0) if one.name.startswith("liner")
    ]
    assert [one.name for one in printed] == ["liner", "liner_low"]
    assert [one.fire_area for one in printed] == pytest.approx(
        [PI * 40 * 10 * MM**2, PI * 40 * 70 * MM**2]
    )
    assert printed[1].parts == ("liner_low", "body_low")


def test_a_bore_is_as_long_as_its_stroke_at_least() -> None:
    assert walls(liner__length=30 * MM).stack("liner").fire_area == pytest.approx(
        PI * 40 * 40 * MM**2
    )


def test_liner_in_its_body() -> None:
    """2 mm of aluminium, 8 mm of print; the press fit lies 44 mm wide."""
    liner = walls().stack("liner")
    assert [one.thickness for one in liner.layers] == pytest.approx([2 * MM, 8 * MM])
    assert liner.back_area == pytest.approx(PI * 60 * 80 * MM**2)
    metal, print_ = PI / 4 * (1936 - 1600) * 80 * MM**3, PI / 4 * (3600 - 1936) * 80 * MM**3
    body = liner.starts[1]
    assert liner.capacity[:body].sum() == pytest.approx(2700 * 896 * metal)
    assert liner.capacity[body:].sum() == pytest.approx(1270 * 1250 * print_)
    # taken a micron further out than it is
    assert contact_of(liner) == pytest.approx(2e-4 / (PI * 44 * 80 * MM**2), rel=1e-4)


def test_liner_without_a_body_round_it() -> None:
    assert walls(body__outside_diameter=44.1 * MM).stack("liner").parts == ("liner",)
    assert walls(body__outside_diameter=44.3 * MM).stack("liner").parts == ("liner", "body")


@pytest.mark.parametrize(
    ("values", "contact"),
    [
        (METAL_BODY, 3e-5),
        (METAL_BODY | {"doubt__contact": 2.0}, 1.5e-5),
        ({"doubt__contact": 0.5}, 4e-4),
        ({"liner__fit_interference": -0.1 * MM}, 2e-4 + 1 / (0.033 / 0.05e-3 + RADIATION)),
        (PRINTED_BORE, 0.0),
        (PRINTED_BORE | METAL_BODY, 2e-4),
    ],
)
def test_between_liner_and_body(values, contact) -> None:
    liner = walls(**values).stack("liner")
    length = 10 if liner.layers[0].part == "liner" and "liner__kind" in values else 80
    # taken a micron further out than it is
    assert contact_of(liner) == pytest.approx(contact / (PI * 44 * length * MM**2), rel=1e-4)


def test_shares_of_a_band() -> None:
    low = Band("liner_low", 10 * MM, 80 * MM)
    assert low.length == pytest.approx(70 * MM)
    assert low.share_of_stroke(40 * MM) == pytest.approx(0.75)
    assert Band("liner", 0.0, 10 * MM).share_of_stroke(40 * MM) == pytest.approx(0.25)
    assert Band("liner_low", 50 * MM, 80 * MM).share_of_stroke(40 * MM) == 0.0
    open_to = np.array([0.0, 10.0, 24.0, 80.0, 90.0]) * MM
    assert low.share_open(open_to) == pytest.approx([0.0, 0.0, 0.2, 1.0, 1.0])


# -- fins on both


def test_last_cell_holds_the_fins_of_the_body() -> None:
    """Five of 2 mm, 10 mm out: of π · (40² - 30²) · 2 mm³; edges are taken off by their share."""
    values = {
        "body__fins__count": 5,
        "body__fins__length": 10 * MM,
        "body__fins__thickness": 2 * MM,
    }
    bare, finned = walls().stack("liner"), walls(**values).stack("liner")
    more = finned.capacity - bare.capacity
    assert more[:-1] == pytest.approx(0.0)
    spread = 5 * (2 * PI * 700 + 2 * PI * 40 * 2) * MM**2
    assert more[-1] == pytest.approx(spread * 20 / 22 / 2 * 2e-3 * 1270 * 1250)


def test_bands_share_the_fins_of_the_body() -> None:
    values = {
        "body__fins__count": 8,
        "body__fins__length": 10 * MM,
        "body__fins__thickness": 2 * MM,
    }
    bare, finned = walls(**PRINTED_BORE), walls(**PRINTED_BORE, **values)
    more = [
        finned.stack(name).capacity[-1] - bare.stack(name).capacity[-1]
        for name in ("liner", "liner_low")
    ]
    spread = 8 * (2 * PI * 700 + 2 * PI * 40 * 2) * MM**2
    whole = spread * 20 / 22 / 2 * 2e-3 * 1270 * 1250
    assert more == pytest.approx([whole / 8, whole * 7 / 8])


def test_last_cell_holds_the_fins_of_the_head() -> None:
    """A mean chord of π/4 · 80 mm, 20 mm high, 2 mm thick, six of them."""
    values = METAL_HEAD | {
        "head__fins__count": 6, "head__fins__length": 20 * MM, "head__fins__thickness": 2 * MM
    }  # fmt: skip
    bare, finned = walls(**METAL_HEAD).stack("head"), walls(**values).stack("head")
    chord = PI / 4 * 80
    spread = 6 * (chord * 42 + 80) * MM**2
    more = finned.capacity - bare.capacity
    assert more[-1] == pytest.approx(spread * 40 / 42 / 2 * 2e-3 * 2700 * 896)
    assert more[:-1] == pytest.approx(0.0)
