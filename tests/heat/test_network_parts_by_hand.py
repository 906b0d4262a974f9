"""How a network counts its nodes and finds a cell, with walls small enough to count on fingers."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from firstfire.formulas.solid import Solid
from firstfire.heat.history import cold
from firstfire.heat.layers import Layer
from firstfire.heat.network import Lump, Network
from firstfire.heat.stack import flat_stack

METAL = Solid(167.0, 2700.0, 896.0)
WALL = flat_stack("wall", (Layer("wall", METAL, 4e-3),), 1e-3)


def test_nodes_are_all_cells_and_then_the_lumps():
    """Two walls of so many cells and three lumps, one temperature each at the start."""
    lumps = tuple(Lump(name, 1.0, 0.0, 1e-3) for name in ("pin", "webs", "ring"))
    found = Network((WALL, replace(WALL, name="other")), lumps)
    assert found.cells == 2 * WALL.cells
    assert found.nodes == 2 * WALL.cells + 3
    assert found.first_cells == {"wall": 0, "other": WALL.cells}
    assert found.lump_nodes["ring"] == 2 * WALL.cells + 2
    assert cold(found, 290.0).temperatures.tolist() == [[290.0] * (2 * WALL.cells + 3)]


@pytest.mark.parametrize(("depth", "cell"), [(0.0, 0), (1.4, 0), (1.6, 1), (2.9, 2), (9.0, 3)])
def test_the_cell_whose_middle_is_nearest(depth, cell):
    """Middles at 1, 2, 3 and 5 mm: 1.4 mm is nearer to the first, 1.6 to the second."""
    middles = replace(WALL, depth=np.array([1.0, 2.0, 3.0, 5.0]) * 1e-3)
    assert middles.cell_at(depth * 1e-3) == cell
