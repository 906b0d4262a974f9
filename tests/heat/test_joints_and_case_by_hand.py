"""Joints between walls and the crankcase of the round engine, worked out with a calculator.

A gasket of 42 mm inside, 4 mm wide covers π · 46 · 4 mm². The body is 60 mm outside and 44 inside:
π/4 (60² - 44²) = π · 416 mm². A case of 216 cm³ is a cube of 60 mm inside and 70 outside.
"""

import math

import pytest
from tests.heat.made_cycle import made_cycle
from tests.heat.round_engine import links, lump, round_engine, through

from firstfire.heat.cylinder import network
from firstfire.heat.running import resting, running

PI, MM = math.pi, 1e-3
RING = PI * 46 * 4 * MM**2
SECTION = PI * 416 * MM**2
METAL_CASE = {"case__material": "aluminium_6061_t6", "case__made": "bought"}
METAL_BODY = {"body__material": "aluminium_6061_t6", "body__made": "bought"}
METAL_HEAD = {"head__material": "aluminium_6061_t6", "head__made": "bought"}


def walls(layout="single", **values):
    return network(round_engine(layout, **values), 0)


def both_ways(found, one, other, joint, resistance):
    """Each half of a joint conducts twice what the whole does."""
    for wall in (one, other):
        assert through(found, wall, joint) == pytest.approx(2 / resistance)


def test_head_on_cylinder() -> None:
    """Two dry faces, 1 mm of gasket, half of 80 mm of body, half of 20 mm of head."""
    found = walls()
    gasket = round_engine().materials["gasket_fibre"]["conductivity"]
    resistance = (2e-4 + 1e-3 / gasket) / RING + 0.04 / (0.2 * SECTION) + 0.01 / (0.2 * RING)
    both_ways(found, "head", "liner", "joint", resistance)
    assert links(found)["head", "joint"][0].cell == 0
    assert links(found)["liner", "joint"][0].cell == found.stack("liner").cells - 1
    assert lump(found, "joint").capacity == pytest.approx(2e6 * RING * 1e-3)
    assert lump(found, "joint").area == 0.0


def test_head_on_cylinder_without_gasket() -> None:
    found = walls(gasket__kind="none", gasket__thickness=0.0)
    both_ways(found, "head", "liner", "joint", 2e-4 / RING + 0.04 / (0.2 * SECTION)
              + 0.01 / (0.2 * RING))  # fmt: skip
    assert lump(found, "joint").capacity == 1.0


def test_a_body_of_nothing_passes_a_millimetre_round() -> None:
    """A body no thicker than its liner: π · 44 · 1 mm²."""
    found = walls(body__outside_diameter=44 * MM)
    gasket = round_engine().materials["gasket_fibre"]["conductivity"]
    thin = PI * 44 * MM**2
    resistance = (2e-4 + 1e-3 / gasket) / RING + 0.04 / (0.2 * thin) + 0.01 / (0.2 * RING)
    both_ways(found, "head", "liner", "joint", resistance)
    on = 17.5e-3 / (0.2 * PI * 44 * 5 * MM**2)
    both_ways(found, "liner", "case", "foot", 0.04 / (0.2 * thin) + 5e-4 / thin + on)


def test_a_thin_gasket_counts_as_a_tenth_of_a_millimetre() -> None:
    """70 mm inside, 20 mm wide: π · 90 · 20 · 0.1 mm³ of 2 MJ/(m³ K) are 1.13 J/K."""
    found = walls(
        gasket__inside_diameter=70 * MM, gasket__width=20 * MM, gasket__thickness=0.05 * MM
    )
    assert lump(found, "joint").capacity == pytest.approx(2e6 * PI * 180 * MM**3)


def test_metal_on_metal() -> None:
    found = walls(**METAL_HEAD, **METAL_BODY, **METAL_CASE)
    gasket = round_engine().materials["gasket_fibre"]["conductivity"]
    resistance = (2e-4 + 1e-3 / gasket) / RING + 0.04 / (167 * SECTION) + 0.01 / (167 * RING)
    both_ways(found, "head", "liner", "joint", resistance)
    on = 17.5e-3 / (167 * PI * 60 * 5 * MM**2)
    both_ways(found, "liner", "case", "foot", 0.04 / (167 * SECTION) + 1e-4 / SECTION + on)


def test_body_on_case() -> None:
    """Half of 80 mm of body, a face of 5e-4 m² K/W, a quarter of 70 mm along 5 mm of wall."""
    found = walls()
    on = 17.5e-3 / (0.2 * PI * 60 * 5 * MM**2)
    both_ways(found, "liner", "case", "foot", 0.04 / (0.2 * SECTION) + 5e-4 / SECTION + on)
    assert links(found)["case", "foot"][0].cell == 0
    assert links(found)["liner", "foot"][0].cell == found.stack("liner").cells - 1
    assert lump(found, "foot").capacity == 1.0


def test_metal_body_on_printed_case() -> None:
    found = walls(**METAL_BODY)
    on = 17.5e-3 / (0.2 * PI * 60 * 5 * MM**2)
    both_ways(found, "liner", "case", "foot", 0.04 / (167 * SECTION) + 5e-4 / SECTION + on)


def test_two_bands_are_joined_at_their_ends() -> None:
    """The head stands on the upper band, the lower band on the case."""
    found = links(walls(liner__material="petg", liner__made="printed", liner__kind="bare_print"))
    assert ("liner", "joint") in found
    assert ("liner_low", "foot") in found
    assert ("liner_low", "joint") not in found
    assert ("liner", "foot") not in found


def test_head_is_joined_by_its_plate_or_its_own_front() -> None:
    plate = walls(head__chamber_plate="steel_mild", head__chamber_plate_thickness=2 * MM)
    assert links(plate)["head", "joint"][0].cell == 0
    foil = walls(head__coating="metal_foil")
    assert links(foil)["head", "joint"][0].cell == foil.stack("head").starts[1] > 0


def test_port_in_a_metal_head() -> None:
    """14 mm bore, 6 mm of wall: 26 mm outside, 21 long; over 6 mm more of metal to its middle."""
    found = walls(**METAL_HEAD, head__chamber_plate="steel_mild",
                  head__chamber_plate_thickness=2 * MM)  # fmt: skip
    both_ways(found, "exhaust_port", "head", "port_joint", 6e-3 / (167 * PI * 26 * 21 * MM**2))
    joined, head = links(found), found.stack("head")
    assert joined["exhaust_port", "port_joint"][0].cell == found.stack("exhaust_port").cells - 1
    cells = range(head.starts[1], head.cells)
    assert joined["head", "port_joint"][0].cell == cells[len(cells) // 2]
    assert "port_joint" not in walls().lump_nodes


def test_side_valves_have_port_and_seats_in_the_body() -> None:
    found = links(walls(valves__placed="side", **METAL_BODY))
    assert ("liner", "port_joint") in found
    assert ("liner", "seats") in found
    assert ("head", "port_joint") not in found
    assert ("head", "seats") not in found


@pytest.mark.parametrize(("layout", "share"), [("single", 1.0), ("parallel 180", 0.5)])
def test_wall_of_the_case(layout, share) -> None:
    """Six faces of 60 mm inside, of 70 outside: 216 and 294 cm², 255 in the mean, 5 mm thick."""
    wall = walls(layout).stack("case")
    assert wall.fire_area == pytest.approx(share * 216e-4)
    assert wall.back_area == pytest.approx(share * 294e-4)
    assert wall.capacity.sum() == pytest.approx(share * 255e-4 * 5e-3 * 1270 * 1250)
    resistance = wall.inner.sum() + wall.outer.sum()
    assert resistance == pytest.approx(5e-3 / (0.2 * share * 255e-4))


@pytest.mark.parametrize(("layout", "share"), [("single", 1.0), ("parallel 180", 0.5)])
@pytest.mark.parametrize(("lubrication", "oil"), [("dry", 0.0), ("grease", 0.1), ("splash", 3.0)])
def test_what_fills_the_case(layout, share, lubrication, oil) -> None:
    """216 cm³ of air for all, oil for each cylinder's π/4 · 40² · 40 mm³."""
    held = lump(walls(layout, case__lubrication=lubrication), "crankcase")
    swept = PI / 4 * 1600 * 40 * MM**3
    assert held.capacity == pytest.approx(share * 216e-6 * 1.2e3 + oil * swept * 1.8e6)
    assert held.area == 0.0


def test_what_hangs_in_a_standing_case() -> None:
    """8 W/(m² K) on every face; walls have half of their last cell before it."""
    engine = round_engine()
    found = network(engine, 0)
    film = {link.from_name: link for link in resting(engine, 0, found).links}
    assert set(film) == {"crown", "land", "skirt", "boss", "big_end", "small_end", "crankpin",
                         "webs", "case", "liner"}  # fmt: skip
    for name in ("land", "skirt", "boss", "crankpin", "webs"):
        assert film[name].conductance == pytest.approx(8.0 * lump(found, name).area)
        assert (film[name].cell, film[name].to_lump) == (0, "crankcase")
    crown = found.stack("crown")
    area = PI / 4 * 1600 * MM**2
    half = 0.5 * crown.size[-1] / (0.18998 * area)
    assert film["crown"].conductance == pytest.approx(1 / (1 / (8.0 * area) + half))
    assert film["crown"].cell == crown.cells - 1


def test_walls_of_a_standing_case() -> None:
    """Wall of 216 cm² inside; half of the stroke of bore: π · 40 · 20 mm²."""
    engine = round_engine()
    found = network(engine, 0)
    film = {link.from_name: link for link in resting(engine, 0, found).links}
    case, liner = found.stack("case"), found.stack("liner")
    half = 0.5 * case.size[0] / (0.2 * 255e-4)
    assert film["case"].conductance == pytest.approx(1 / (1 / (8.0 * 216e-4) + half))
    assert film["case"].cell == 0
    open_below = PI * 40 * 20 * MM**2
    # a thin first cell of metal is as good as flat
    half = 0.5 * liner.size[0] / (167.0 * open_below)
    assert film["liner"].conductance == pytest.approx(1 / (1 / (8.0 * open_below) + half), rel=1e-4)
    assert film["liner"].cell == 0


def test_half_a_cell_of_a_printed_bore_counts_by_what_lies_open() -> None:
    """Bore of print under splash: 150 W/(m² K) and half a cell of 0.2 W/(m K) behind them."""
    engine = round_engine(
        liner__material="petg", liner__made="printed", liner__kind="bare_print",
        case__lubrication="splash",
    )  # fmt: skip
    found = network(engine, 0)
    low = found.stack("liner_low")
    film = {link.from_name: link for link in running(engine, 0, found, made_cycle()).links}
    assert "liner" not in film
    open_below = PI * 40 * 20 * MM**2
    half = 0.5 * low.size[0] / 0.2
    wanted = open_below / (1 / 150.0 + half)
    assert film["liner_low"].conductance == pytest.approx(wanted, rel=1e-4)
    assert film["liner_low"].conductance < 0.9999 * 150.0 * open_below
    assert film["land"].conductance == pytest.approx(150.0 * lump(found, "land").area)
