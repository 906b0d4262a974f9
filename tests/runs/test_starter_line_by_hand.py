"""A starter as a straight line and a shaft that comes back over its top, from round numbers."""

from __future__ import annotations

import math
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.runs import comes_over
from firstfire.runs.spun import starter_line

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"


def geared(**changes):
    """wren behind a drill that turns four times for one turn of the crank."""
    plain = resolve(ff.read(WREN))
    usual = {"ratio": 0.25, "inertia": 1e-4, "coupling": "rigid", "pull_force": None}
    starter = plain.starter.model_copy(update=usual | changes)
    return plain.model_copy(update={"starter": starter})


def test_a_rotor_turns_with_the_crank_by_the_square_of_its_gearing():
    """1e-4 kg·m² over 0.25 squared: 1.6e-3 at the crank, where a clutch leaves it behind or not."""
    bare = starter_line(geared(inertia=0.0))
    rigid, clutched = starter_line(geared()), starter_line(geared(coupling="one_way"))
    assert rigid.inertia - bare.inertia == pytest.approx(1.6e-3)
    assert rigid.rotor == 0.0
    assert not rigid.starter_one_way
    assert clutched.rotor == pytest.approx(1.6e-3)
    assert clutched.inertia == pytest.approx(bare.inertia)
    assert clutched.starter_one_way


def test_gearing_down_gives_torque_for_speed():
    """Of 2 N·m and 40 rad/s at its own shaft: 8 N·m and 10 rad/s at the crank; a rope slips off."""
    line = starter_line(geared(stall_torque=2.0, no_load_speed=40.0, battery=None))
    assert (line.starter_stall, line.starter_free) == pytest.approx((8.0, 10.0))
    assert starter_line(geared(pull_force=60.0)).starter_one_way


@pytest.mark.parametrize(
    ("past", "over", "comes"), [(15.0, True, False), (25.0, True, True), (25.0, False, False)]
)
def test_it_is_back_over_its_top_where_it_is_as_far_behind_it_as_it_began(
    monkeypatch, past, over, comes
):
    """From 10° behind a top backwards: over the one before from 20° past a cycle on."""
    start = 1.0
    spun = SimpleNamespace(angle=np.array([start, start - 4 * math.pi - math.radians(past)]))

    def turned(*_, stalled, **__):
        stalled.over = over
        return None, spun

    monkeypatch.setattr(comes_over, "Stalled", lambda _: SimpleNamespace(over=False))
    monkeypatch.setattr(comes_over, "turned_from_a_stand", turned)
    for name in ("on_its_shaft", "cold"):
        monkeypatch.setattr(comes_over, name, lambda *_: None)
    assert comes_over._passes_backwards(None, None, start, None) is comes
