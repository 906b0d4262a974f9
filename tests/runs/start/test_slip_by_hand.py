"""A joint that slips, step by step by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from firstfire.runs.start import slip
from firstfire.runs.start.slip import Joint, Slip, cam_later, gas_torque_along, slipped

JOINT = Joint(holds=6.0, throws=0.1, beyond=0.4)
"""0.4/0.5 of the gas's torque goes through it: it holds up to 7.5 N·m."""


def test_what_holds_passes_on_and_nothing_moves():
    """7 N·m: 5.6 of them go through, less than 6."""
    assert slip._on(JOINT, 0.0, 7.0, 0.2) == (0.0, 0.0)
    assert slip._on(JOINT, 0.0, -7.0, 0.2) == (0.0, 0.0)


@pytest.mark.parametrize("speed", [0.0, 2.0])
def test_10_newton_metres_on_a_joint_that_holds_6(speed):
    """4/0.1 - 6/0.4 = 25 rad/s²: in 0.2 s 5 rad/s faster, gone by the mean speed."""
    after, moved = slip._on(JOINT, speed, 10.0, 0.2)
    assert after == pytest.approx(speed + 5.0, rel=1e-12)
    assert moved == pytest.approx((speed + 2.5) * 0.2, rel=1e-12)


def test_just_over_what_it_holds_it_creeps():
    """7.6 N·m: 1.6/0.1 - 6/0.4 = 1 rad/s²."""
    after, moved = slip._on(JOINT, 0.0, 7.6, 0.2)
    assert after == pytest.approx(0.2, rel=1e-9)
    assert moved == pytest.approx(0.02, rel=1e-9)


def test_without_torque_it_is_braked_on_both_sides_until_it_stands():
    """-6/0.1 - 6/0.4 = -75 rad/s²: 2 rad/s last for 2²/150 rad, and then it holds."""
    after, moved = slip._on(JOINT, 2.0, 0.0, 0.2)
    assert after == 0.0
    assert moved == pytest.approx(4.0 / 150.0, rel=1e-12)
    after, moved = slip._on(JOINT, 20.0, 0.0, 0.2)
    assert after == pytest.approx(5.0, rel=1e-12)
    assert moved == pytest.approx(12.5 * 0.2, rel=1e-12)


def test_what_slips_backwards_comes_to_rest_further_back():
    """The same -2 rad/s: braked with 75 rad/s² it goes on by 2²/150 rad the way it went."""
    after, moved = slip._on(JOINT, -2.0, 0.0, 0.2)
    assert after == 0.0
    assert moved == pytest.approx(-4.0 / 150.0, rel=1e-12)


def test_steps_add_up_from_where_it_was():
    """25 rad/s² for 0.2 s are 5 rad/s and 0.5 rad; at -75 rad/s² they last for 25/150 more."""
    found = slipped(JOINT, Slip(1.0), np.array([0.0, 0.2, 0.4]), np.array([0.0, 10.0, 0.0]))
    assert found.angle == pytest.approx(1.0 + 0.5 + 1.0 / 6.0, rel=1e-12)
    assert found.speed == 0.0


def test_a_joint_that_no_step_loosens_is_handed_back_as_it_was():
    """At most 7.4 N·m, of which 5.92 go through; what slips already goes on at less."""
    time, torque = np.array([0.0, 0.2]), np.array([-7.4, 7.0])
    before = Slip(1.0)
    assert slipped(JOINT, before, time, torque) is before
    assert slipped(JOINT, Slip(1.0, 2.0), time, torque) != Slip(1.0, 2.0)


def test_gas_of_two_cylinders_turns_by_what_it_has_over_the_air(monkeypatch):
    """2 bar on 20 and 4 bar on 40 cm³ a radian: 4 + 16 N·m."""

    def widens(record, angle, row):
        assert record == "record"
        return np.full(len(angle), 2e-5 * (row + 1))

    monkeypatch.setattr(slip, "widening_along", widens)
    pressure = np.array([[3e5, 5e5], [1e5, 3e5]])
    found = gas_torque_along("record", np.array([0.1, 0.2]), pressure, 1e5)
    assert found == pytest.approx([20.0, 8.0], rel=1e-12)


def test_cams_come_later_and_what_suction_works_does_not():
    """By 0.75 rad: from 1 to 1.75 until 3.75; from 12 to 12.75 - 4π until 3 rad later."""
    valves = {"suction": [-1, -1, 0], "opens": np.array([1.0, 12.0, 2.0]),
              "duration": np.array([2.0, 3.0, 1.0])}  # fmt: skip
    engine = {"valve_count": 3, "valves": valves, "event_count": 0, "events": np.zeros(6)}
    cam_later([engine], np.array([1.0, 12.0, 2.0]), 0.75)
    wrapped = 12.75 - 4 * math.pi
    assert valves["opens"] == pytest.approx([1.75, wrapped, 2.0], rel=1e-12)
    assert engine["event_count"] == 4
    assert engine["events"][:4] == pytest.approx([wrapped, 1.75, wrapped + 3.0, 3.75], rel=1e-12)


def test_a_cam_that_shuts_in_the_next_cycle_is_told_within_this_one():
    """Opens at 11 + 0.5, shuts 3 rad later: 14.5 - 4π."""
    valves = {"suction": [-1], "opens": np.array([11.0]), "duration": np.array([3.0])}
    engine = {"valve_count": 1, "valves": valves, "event_count": 0, "events": np.zeros(2)}
    cam_later([engine], np.array([11.0]), 0.5)
    assert engine["events"] == pytest.approx([14.5 - 4 * math.pi, 11.5], rel=1e-12)
