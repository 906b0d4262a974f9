"""A fan's load on a free shaft, by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

import firstfire as ff
from firstfire.cycle import layout
from firstfire.engine.resolve import resolve
from firstfire.runs.spun import on_its_shaft, starter_line, turned_on
from firstfire.runs.walls import cold

SPEED, SECONDS, SQUARE = 200.0, 1e-3, 2e-4


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_a_fan_takes_its_torque_by_the_square_of_speed_whichever_way_it_turns(way):
    """2e-4 N·m s² at 200 rad/s take 8 N·m: of 0.01 kg·m² 0.8 rad/s in a millisecond.

    The same shaft without a fan differs in nothing else; what goes up and down adds a little.
    """
    plain = resolve(ff.read("engines/wren.toml"))
    bare = replace(starter_line(plain), inertia=0.01, starter_stall=0.0, rotor=0.0, load_square=0.0)

    def after(shaft):
        turning = on_its_shaft(plain, cold(plain), shaft, math.radians(200.0))
        turning.state.values[layout.SPEED] = way * SPEED
        turned, _ = turned_on(turning, SECONDS)
        return float(turned.state.values[layout.SPEED])

    lost = after(bare) - after(replace(bare, load_square=SQUARE))
    assert lost == pytest.approx(way * SQUARE * SPEED**2 / 0.01 * SECONDS, rel=0.03)
