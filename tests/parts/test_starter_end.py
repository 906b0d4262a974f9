"""The crank's end that a starter turns, against hand calculation and in its limits."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from tests.parts.moments import COLD, engine, moment

from firstfire.engine.read import with_values
from firstfire.engine.records import Way
from firstfire.parts import ways

ID = "crank.starter_end.twist"
PRINTED = {"crank.journal.material": "PA12-CF", "crank.journal.joint.kind": "solid"}


def turned(change: dict[str, object] | None = None, torque: float = 10.0) -> Way:
    """wren cranked, which takes so much at the most, N·m."""
    described = with_values(engine("engines/wren.toml"), change or {}, comma=True)
    here = moment(described, event="cranking", rises=COLD, cycles=100.0)
    takes = -torque * np.cos(here.loads.shaft_angle / 4) ** 2
    here = replace(here, loads=replace(here.loads, torque=takes))
    return next(way for way in ways(here) if way.id == ID)


def test_ten_newton_metres_through_fifteen_millimetres() -> None:
    # Shigley 9, Eq. 3-37: 16 × 10/(π × 0.015³) = 15.09 MPa of shear; ground bar of 450 MPa yield
    # holds 0.577 of that (Eq. 5-21): 260 MPa.
    way = turned()
    assert way.demand == pytest.approx(15.09e6, rel=1e-3)
    assert way.capacity == pytest.approx(0.577 * 450e6, rel=2e-3)
    assert way.factor == pytest.approx(17.2, rel=3e-3)


def test_a_printed_end_slides_between_its_layers() -> None:
    # The same shear against half of 30.56 MPa across the layers (catalog row of PA12-CF).
    way = turned(PRINTED)
    assert way.demand == pytest.approx(15.09e6, rel=1e-3)
    assert way.governs == "layers"
    assert 0.5 < way.factor < 1.1
    assert way.raise_by


def test_no_more_passes_than_the_starter_gives() -> None:
    give = {"starter.stall_torque": "4 N*m"}
    assert turned(give, torque=30.0).demand == pytest.approx(turned(torque=4.0).demand)
    # through a gear of two crank turns to one of the starter it gives half
    geared = turned(give | {"starter.ratio": "2"}, torque=30.0)
    assert geared.demand == pytest.approx(turned(torque=2.0).demand)


def test_twice_the_torque_twists_twice_as_hard_and_a_thicker_end_less_by_the_cube() -> None:
    once, twice = turned(torque=5.0), turned(torque=10.0)
    assert twice.demand == pytest.approx(2 * once.demand)
    thick = turned({"crank.main_bearing": "6204"})
    assert thick.demand == pytest.approx(twice.demand * (15 / 20) ** 3, rel=1e-6)
    assert math.isclose(thick.capacity, twice.capacity, rel_tol=1e-9)


def test_it_is_judged_only_while_something_turns_it() -> None:
    here = moment(engine("engines/wren.toml"), event="full_throttle", rises=COLD, cycles=100.0)
    assert ID not in {way.id for way in ways(here)}
