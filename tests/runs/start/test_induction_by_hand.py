"""What liquid in a cylinder leaves of its gas, by hand."""

from __future__ import annotations

import numpy as np
import pytest
from tests.runs.start.books import engine

from firstfire.cycle import layout
from firstfire.cycle.build import volumes_at
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.induction import air_in
from firstfire.runs.start.life import Life


@pytest.mark.parametrize("row", [0, 1])
def test_gas_that_liquid_leaves_no_room_for_goes_and_nothing_else_changes(row):
    """A cubic centimetre of liquid in a cylinder: its gas shrinks by that over its volume."""
    life = Life(engine("heron"), Asked(seconds=0.1))
    before = life.state.values.copy()
    room = float(volumes_at(life.engines, float(before[layout.ANGLE]))[row])
    after = life.induction.narrowed(life.engines, life.state, row, 1e-6).values
    at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE
    gas = slice(at + layout.AIR, at + layout.AIR + 3)
    assert after[gas] == pytest.approx(before[gas] * (room - 1e-6) / room, rel=1e-9)
    assert air_in(life.state, row) == before[at + layout.AIR] > 0.0
    others = np.ones(len(before), dtype=bool)
    others[gas] = False
    assert np.array_equal(after[others], before[others])
    assert float(volumes_at(life.engines, float(before[layout.ANGLE]))[row]) == (
        pytest.approx(room - 1e-6, rel=1e-9)
    )
