"""Meshes fill their layers and are fine at the fire; layers take the right conductivity."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.engine.materials import Material
from firstfire.engine.sections.make import Made
from firstfire.errors import OutsideValidity
from firstfire.formulas.solid import Solid
from firstfire.heat import assumed
from firstfire.heat.layers import Layer, coating, gap_resistance, layer, solid_share
from firstfire.heat.stack import cell_sizes, flat_stack, round_stack

PLASTIC, METAL = Solid(0.2, 1270.0, 1250.0), Solid(167.0, 2700.0, 896.0)


def print_of(stacked="along_bore", infill=1.0, made="printed"):
    return Made(
        material="x", made=made, walls=6, line_width=0.45e-3, infill=infill,
        layers_stacked=stacked,
    )  # fmt: skip


@pytest.fixture
def fibre():
    numbers = {
        "conductivity": 0.3,
        "conductivity_in_plane": 0.6,
        "density": 1060.0,
        "specific_heat": 1550.0,
        "decomposition": 693.0,
    }
    return Material("x", "X", numbers, {}, False, "semi-crystalline", fibres=True)


@given(st.floats(1e-5, 0.05), st.floats(1e-6, 1e-3), st.floats(1.02, 1.5))
def test_cells_fill_the_layer_and_never_jump(thickness, first, growth):
    sizes = cell_sizes(thickness, first, growth)
    assert sizes.sum() == pytest.approx(thickness, rel=1e-12)
    assert (sizes > 0).all()
    assert sizes[0] <= first * (1 + 1e-9)
    assert (sizes[1:] / sizes[:-1] <= growth + 1e-9).all()


def test_a_layer_without_thickness_is_refused():
    with pytest.raises(OutsideValidity, match="thickness"):
        cell_sizes(0.0, 1e-5)


def test_first_cell_of_plastic_is_far_below_what_a_cycle_reaches():
    stack = flat_stack("wall", (Layer("wall", PLASTIC, 5e-3),), 1.0)
    reached = math.sqrt(PLASTIC.diffusivity * (2 / 50) / math.pi)  # 1/e depth at 3000 rpm
    assert 2 * stack.depth[0] < reached / 5


@pytest.mark.parametrize("bore", [None, 0.044])
def test_mesh_keeps_heat_and_resistance_of_its_layers(bore):
    layers = (Layer("liner", METAL, 2e-3), Layer("body", PLASTIC, 8e-3, contact=2e-4))
    if bore is None:
        stack = flat_stack("wall", layers, 2.5e-3)
        volumes = [2.5e-3 * one.thickness for one in layers]
        whole = sum(one.thickness / one.solid.conductivity for one in layers)
        whole = (whole + 2e-4) / 2.5e-3
    else:
        length = 0.06
        stack = round_stack("wall", layers, bore, length)
        edges = [bore, bore + 4e-3, bore + 20e-3]
        volumes = [math.pi / 4 * (b**2 - a**2) * length for a, b in itertools.pairwise(edges)]
        whole = math.log(edges[1] / edges[0]) / (2 * math.pi * 167.0)
        whole += math.log(edges[2] / edges[1]) / (2 * math.pi * 0.2)
        whole = (whole + 2e-4 / (math.pi * edges[1])) / length
        assert stack.back_area == pytest.approx(math.pi * edges[2] * length)
    heat = sum(
        v * one.solid.density * one.solid.specific_heat
        for v, one in zip(volumes, layers, strict=True)
    )
    assert stack.capacity.sum() == pytest.approx(heat, rel=1e-9)
    through = stack.inner.sum() + stack.outer.sum() + stack.contact[:-1].sum()
    assert through == pytest.approx(whole, rel=1e-6)


def test_print_conducts_across_its_layers_or_along_them(fibre):
    thick = 5e-3
    upright = print_of("along_bore")
    assert layer("crown", fibre, thick, made=upright).solid.conductivity == 0.3
    assert layer("body", fibre, thick, made=upright, flow="radial").solid.conductivity == 0.6
    lying = print_of("along_crank")
    assert layer("crown", fibre, thick, made=lying).solid.conductivity == 0.6
    assert layer("body", fibre, thick, made=lying, flow="radial").solid.conductivity == 0.3
    assert layer("crown", fibre, thick, made=print_of(made="rod")).solid.conductivity == 0.3


def test_sparse_infill_conducts_and_stores_less(fibre):
    solid = layer("body", fibre, 8e-3, made=print_of()).solid
    sparse = layer("body", fibre, 8e-3, made=print_of(infill=0.2)).solid
    assert sparse.conductivity < solid.conductivity
    assert sparse.density == pytest.approx(solid.density * solid_share(print_of(infill=0.2), 8e-3))
    assert solid_share(print_of(infill=0.0), 4e-3) == 1.0  # walls meet


def test_metal_never_chars_and_says_so():
    steel = Material(
        "s", "S", {"conductivity": 50.0, "density": 7850.0, "specific_heat": 470.0}, {}, False,
        "metal",
    )  # fmt: skip
    found = layer("shield", steel, 1e-3)
    assert found.metal
    assert math.isinf(found.decomposition)


def test_gap_of_air_insulates_more_the_wider_it_is():
    widths = np.array([0.1e-3, 0.5e-3, 2e-3])
    found = [gap_resistance(width) for width in widths]
    assert found == sorted(found)
    assert found[0] < widths[0] / assumed.AIR_CONDUCTIVITY


def test_only_coatings_that_are_no_plastic_add_a_layer():
    assert coating("crown", "none") == coating("crown", "epoxy") == ()
    assert coating("crown", "metal_foil")[0].metal
