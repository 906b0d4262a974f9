"""Cells of walls, layers, depth of char and the arrays of a network, by a calculator."""

import math
from dataclasses import replace

import numpy as np
import pytest

from firstfire.engine.materials import Material
from firstfire.engine.sections.make import Made
from firstfire.formulas.solid import Solid
from firstfire.heat.char import NEVER, char_depth, char_fronts, char_limits, char_stages
from firstfire.heat.layers import Layer, coating, gap_resistance, layer, solid_share
from firstfire.heat.network import Link, Lump, Network
from firstfire.heat.stack import cell_sizes, flat_stack, round_stack

PLASTIC, METAL = Solid(0.2, 1270.0, 1250.0), Solid(167.0, 2700.0, 896.0)


def test_sizes_of_cells() -> None:
    """Of 40 mm, doubling up to a quarter of it: 1, 2, 4, 8 and the first beyond 10, 16. What is
    left, 9 mm, takes one more of 10; all shrink by 40/41."""
    wanted = np.array([1.0, 2.0, 4.0, 8.0, 16.0, 10.0]) * 40 / 41
    assert cell_sizes(40.0, 1.0, 2.0, 4) == pytest.approx(wanted)
    # growth alone fills it: 1 + 2 of 3
    assert cell_sizes(3.0, 1.0, 2.0, 1) == pytest.approx([1.0, 2.0])
    # a first cell above the largest is the largest
    assert cell_sizes(8.0, 2.0, 2.0, 8) == pytest.approx([2.0] * 4)


@pytest.mark.parametrize(
    ("solid", "thickness", "first", "later"),
    [(PLASTIC, 5e-3, 6e-6, 60e-6), (METAL, 5e-3, 60e-6, 60e-6), (METAL, 30e-6, 10e-6, 10e-6),
     (PLASTIC, 9e-6, 3e-6, 3e-6)],
)  # fmt: skip
def test_first_cells(solid, thickness, first, later) -> None:
    """6 µm at the fire in plastic, 60 in metal and inside; a third of the layer at the most."""
    stack = flat_stack("wall", (Layer("a", solid, thickness), Layer("b", solid, thickness)), 1.0)
    # sizes are stretched or shrunk to fill the layer
    assert stack.size[0] == pytest.approx(first, rel=0.02)
    assert stack.size[stack.starts[1]] == pytest.approx(later, rel=0.02)
    if first == 6e-6:
        assert stack.size[1] / stack.size[0] == pytest.approx(1.07)


def test_each_cell_of_a_flat_wall() -> None:
    layers = (Layer("a", METAL, 2e-3), Layer("b", PLASTIC, 3e-3, contact=2e-4))
    stack = flat_stack("wall", layers, 0.02, fire_area=0.01, back_area=0.03)
    first = stack.starts[1]
    far = np.cumsum(stack.size)
    assert far[first - 1] == pytest.approx(2e-3)
    assert far[-1] == pytest.approx(5e-3) == stack.thickness
    assert stack.depth == pytest.approx(far - 0.5 * stack.size)
    for here, solid in ((slice(0, first), METAL), (slice(first, None), PLASTIC)):
        heat = solid.density * solid.specific_heat
        assert stack.capacity[here] == pytest.approx(0.02 * stack.size[here] * heat)
        half = 0.5 * stack.size[here] / (0.02 * solid.conductivity)
        assert stack.inner[here] == pytest.approx(half)
        assert stack.outer[here] == pytest.approx(half)
    wanted = np.zeros(stack.cells)
    wanted[first - 1], wanted[-1] = 2e-4 / 0.02, math.inf
    assert stack.contact == pytest.approx(wanted)
    assert (stack.fire_area, stack.back_area) == (0.01, 0.03)
    alone = flat_stack("wall", layers, 0.02)
    assert alone.fire_area == alone.back_area == 0.02


def test_each_cell_of_a_round_wall() -> None:
    layers = (Layer("a", METAL, 2e-3), Layer("b", PLASTIC, 3e-3, contact=2e-4))
    stack = round_stack("wall", layers, 40e-3, 0.1)
    far = 20e-3 + np.cumsum(stack.size)
    near = far - stack.size
    middle = 0.5 * (near + far)
    first = stack.starts[1]
    for here, solid in ((slice(0, first), METAL), (slice(first, None), PLASTIC)):
        heat = solid.density * solid.specific_heat
        volume = math.pi * (far[here] ** 2 - near[here] ** 2) * 0.1
        assert stack.capacity[here] == pytest.approx(volume * heat)
        around = 2 * math.pi * 0.1 * solid.conductivity
        assert stack.inner[here] == pytest.approx(np.log(middle[here] / near[here]) / around)
        assert stack.outer[here] == pytest.approx(np.log(far[here] / middle[here]) / around)
    # the contact is taken a micron further out than it is
    assert stack.contact[first - 1] == pytest.approx(2e-4 / (math.pi * 44e-3 * 0.1), rel=1e-4)
    assert stack.fire_area == pytest.approx(math.pi * 40e-3 * 0.1)
    assert stack.back_area == pytest.approx(math.pi * 50e-3 * 0.1)


def test_meshes_may_be_coarser() -> None:
    wall = (Layer("a", PLASTIC, 4e-3),)
    flat = flat_stack("w", wall, 1.0, growth=1.5)
    ring = round_stack("w", wall, 0.1, 0.1, growth=1.5, least=8)
    for one in (flat, ring):
        assert one.size[1] / one.size[0] == pytest.approx(1.5)
    assert round_stack("w", wall, 0.1, 0.1).size[1] / ring.size[0] == pytest.approx(1.07, rel=0.02)
    assert ring.size[-1] == pytest.approx(0.5e-3, rel=0.05)
    assert flat.size[-1] == pytest.approx(0.1e-3, rel=0.05)


FIBRE = Material(
    "x", "X", {"conductivity": 0.3, "conductivity_in_plane": 0.6, "density": 1000.0,
               "specific_heat": 1500.0, "decomposition": 650.0},
    {}, False, "amorphous", fibres=True,
)  # fmt: skip


def print_of(stacked="along_bore", infill=0.25):
    return Made(material="x", made="printed", walls=4, line_width=0.5e-3, infill=infill,
                layers_stacked=stacked)  # fmt: skip


@pytest.mark.parametrize(
    ("stacked", "flow", "conducts"),
    [("along_bore", "along_bore", 0.3), ("along_bore", "radial", 0.6),
     ("along_crank", "along_bore", 0.6), ("across_bore", "radial", 0.3)],
)  # fmt: skip
def test_a_print_of_fibres(stacked, flow, conducts) -> None:
    """10 mm with 2 mm of lines at each face: 0.4 + 0.25 · 0.6 = 0.55 plastic, 0.45 air."""
    found = layer("wall", FIBRE, 10e-3, made=print_of(stacked), flow=flow, contact=1e-4)
    assert found.solid.conductivity == pytest.approx(conducts * 0.55 + 0.033 * 0.45)
    assert found.solid.density == pytest.approx(550.0)
    assert found.solid.specific_heat == 1500.0
    assert (found.contact, found.decomposition, found.metal) == (1e-4, 650.0, False)
    assert layer("wall", FIBRE, 10e-3).solid == (0.3, 1000.0, 1500.0)


def test_how_much_of_a_print_is_plastic() -> None:
    assert solid_share(print_of(), 10e-3) == pytest.approx(0.55)
    assert solid_share(print_of(), 4e-3) == solid_share(print_of(), 0.0) == 1.0


def test_gap_and_coatings() -> None:
    """0.033/0.5e-3 = 66, and 4 · 5.67e-8 · 450³ · 0.2 = 4.1334 of radiation."""
    assert gap_resistance(0.5e-3) == pytest.approx(1 / (66 + 4.13343))
    assert coating("crown", "ceramic_paint") == (Layer("crown", Solid(0.8, 2000.0, 900.0), 0.2e-3),)


# -- char

CHARRING = Network(
    (
        flat_stack("bare", (Layer("bare", PLASTIC, 4e-3, 0.0, 650.0),), 1e-3),
        flat_stack("clad", (Layer("sheet", METAL, 1e-3),
                            Layer("clad", PLASTIC, 4e-3, 0.0, 650.0)), 1e-3),
    )
)  # fmt: skip


def test_depth_of_char() -> None:
    """Between the middles of the last charred cell and the next; whole where all are."""
    bare, clad = CHARRING.stacks
    assert char_depth(bare, 0, 0) == 0.0
    middles = np.cumsum(bare.size) - bare.size / 2
    assert char_depth(bare, 0, 3) == pytest.approx((middles[2] + middles[3]) / 2)
    assert char_depth(bare, 0, bare.cells) == pytest.approx(4e-3)
    first = clad.starts[1]
    middles = np.cumsum(clad.size[first:]) - clad.size[first:] / 2
    assert char_depth(clad, 1, 1) == pytest.approx((middles[0] + middles[1]) / 2)
    assert char_depth(clad, 1, clad.cells - first) == pytest.approx(4e-3)


def test_fronts_and_stages_of_char() -> None:
    """Of front layers alone; passed at 8 and 80 µm."""
    bare = CHARRING.stacks[0]
    assert CHARRING.charring == (("bare", 0), ("clad", 1))
    at_8, at_80 = (int((bare.depth < depth).sum()) for depth in (8e-6, 80e-6))
    for count, stage, limit in ((0, 0, at_8), (at_8 - 1, 0, at_8), (at_8, 1, at_80),
                                (at_80 - 1, 1, at_80), (at_80, 2, NEVER)):  # fmt: skip
        charred = np.array([count, 5])
        assert char_stages(CHARRING, charred) == {"bare": stage}
        assert char_limits(CHARRING, charred).tolist() == [limit, NEVER]
        wanted = {"bare": char_depth(bare, 0, count)} if count else {}
        assert char_fronts(CHARRING, charred) == wanted


# -- the network as arrays


def test_network_as_arrays() -> None:
    """Cells of both walls one behind the other, lumps after them; 1 MJ/kg of char."""
    bare, clad = CHARRING.stacks
    lumps = (Lump("pin", 5.0, 0.0, 1e-3), Lump("webs", 7.0, 0.0, 1e-3))
    joined = (Link("clad", 2, "pin", 0.3), Link("pin", 0, "webs", 0.4))
    walls = replace(CHARRING, lumps=lumps, links=joined)
    found = walls.circuit
    n, first = bare.cells, bare.cells + clad.starts[1]
    assert found.capacity[-2:] == pytest.approx([5.0, 7.0])
    assert found.capacity[:n] == pytest.approx(bare.capacity)
    assert found.link_from.tolist() == [n + 2, n + clad.cells]
    assert found.link_to.tolist() == [n + clad.cells, n + clad.cells + 1]
    assert found.link_conductance.tolist() == [0.3, 0.4]
    assert found.layer_first.tolist() == [0, first]
    assert found.layer_past.tolist() == [n, n + clad.cells]
    assert found.layer_limit.tolist() == [650.0, 650.0]
    assert found.layer_face.tolist() == [0, 1]
    # fire sweeps the front of the first; 0.1 mm stays on it
    assert found.layer_kept.tolist() == [1e-4, math.inf]
    unswept = replace(walls, stacks=(replace(bare, swept=False), clad)).circuit
    assert unswept.layer_kept.tolist() == [math.inf, math.inf]
    mass = 1270.0 * 1e-3 * bare.size
    assert found.decomposing[:n] == pytest.approx(1e6 * mass)
    assert found.decomposing[n : n + clad.starts[1]] == pytest.approx(
        1e6 * 2700.0 * 1e-3 * clad.size[: clad.starts[1]]
    )
    assert found.char_ratio == 0.5
    assert found.thickness == pytest.approx(np.concatenate([bare.size, clad.size]))
    more = walls.circuit_with((Link("bare", 1, "webs", 0.6), Link("webs", 0, "pin", 0.7)))
    assert more.link_from.tolist() == [n + 2, n + clad.cells, 1, n + clad.cells + 1]
    assert more.link_to.tolist()[2:] == [n + clad.cells + 1, n + clad.cells]
    assert more.link_conductance.tolist() == [0.3, 0.4, 0.6, 0.7]
    assert walls.circuit_with(()) is found
