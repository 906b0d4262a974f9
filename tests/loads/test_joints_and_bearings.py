"""Torque and twist of crank joints, their reversal, and main bearings by statics."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.loads.small_engines import LAYOUTS, all_fired, engine_of, fired, gas_cycle

from firstfire.loads import joint_twists, largest, loads, torque_reversals
from firstfire.loads.bearings import lever_shares
from firstfire.loads.crank_layout import Support, has_common_pin, supports, throws
from firstfire.loads.shaft import shaft
from firstfire.loads.turning import Reversal, reversals

EVERY = pytest.mark.parametrize("layout", LAYOUTS)


@EVERY
def test_joints_stand_in_order_from_the_flywheel(layout: str) -> None:
    engine = engine_of(layout)
    pins = 1 if layout == "single" or has_common_pin(engine) else 2
    assert list(loads(engine, all_fired(engine)).joint_torques) == [
        f"{n + 1}" for n in range(2 * pins)
    ]


@EVERY
def test_first_joint_carries_all_and_the_last_only_the_cams(layout: str) -> None:
    engine = engine_of(layout)
    on_shaft = shaft(engine, all_fired(engine))
    torques = list(loads(engine, all_fired(engine)).joint_torques.values())
    assert torques[0] == pytest.approx(on_shaft.torque - on_shaft.cam_drive)
    assert torques[-1] == pytest.approx(-on_shaft.cam_drive)
    assert np.max(np.abs(torques[-1])) < 0.1 * np.max(torques[0])


def test_between_two_throws_goes_what_the_far_cylinder_gives() -> None:
    engine = engine_of("opposed")
    on_shaft = shaft(engine, all_fired(engine))
    torques = loads(engine, all_fired(engine)).joint_torques
    expected = on_shaft.cylinders[1].torque - on_shaft.cam_drive
    assert torques["2"] == pytest.approx(expected)
    assert torques["3"] == pytest.approx(expected)


@EVERY
def test_both_joints_of_a_pin_hold_the_same_twist(layout: str) -> None:
    # Moments about the pin's own axis: its rods pass through it, at any speed that does not change.
    engine = engine_of(layout)
    twists = joint_twists(engine, all_fired(engine))
    for throw in throws(engine):
        near, far = throw.joints
        assert twists[near] == pytest.approx(twists[far], abs=1e-9)


def test_a_singles_pin_holds_half_its_torque() -> None:
    engine = engine_of()
    on_shaft = shaft(engine, all_fired(engine))
    for twist in joint_twists(engine, all_fired(engine)).values():
        assert twist == pytest.approx(on_shaft.torque / 2 - on_shaft.cam_drive, abs=1e-9)


def test_a_twins_pins_can_hold_more_than_passes_them() -> None:
    # By hand, crank opposed, pins at ±15 mm of a 90 mm span, cylinder 2 alone pushing: the bearing
    # at the flywheel takes a third of its force, and with the first throw for its arm twists pin 1
    # by a third of cylinder 2's torque on top of that torque: the throw stands the other way.
    engine = engine_of("opposed", crank__balance_factor=0.0)
    gases = [gas_cycle(1e5, 1e-3), gas_cycle(fired, 1e-3)]
    on_shaft = shaft(engine, gases)
    pushed = on_shaft.cylinders[1].torque
    twists = joint_twists(engine, gases)
    assert twists["1"] == pytest.approx(pushed * 4 / 3 - on_shaft.cam_drive, abs=1e-6)
    assert twists["4"] == pytest.approx(pushed * 2 / 3 - on_shaft.cam_drive, abs=1e-6)


def test_one_bearing_leaves_the_pin_without_twist() -> None:
    # An overhung crank: nothing holds the far cheek.
    engine = engine_of(crank__main_bearings=1)
    on_shaft = shaft(engine, all_fired(engine))
    for twist in joint_twists(engine, all_fired(engine)).values():
        assert twist == pytest.approx(-on_shaft.cam_drive, abs=1e-9)


def test_reversal_says_how_much() -> None:
    each = {
        "both": np.array([3.0, -1.0, 2.0]),
        "on": np.array([0.0, 2.0]),
        "back": np.array([-4.0, -1.0]),
        "still": np.zeros(3),
    }
    found = reversals(each)
    assert found["both"] == Reversal(3.0, 1.0)
    assert found["both"].reversed
    assert found["both"].share == pytest.approx(1 / 3)
    assert not any(found[name].reversed for name in ("on", "back", "still"))
    assert found["back"] == Reversal(0.0, 4.0)
    assert found["still"].share == 0.0
    assert largest(each["back"]) == -4.0


def test_compression_reverses_the_drive_joint() -> None:
    engine = engine_of()
    first = torque_reversals(loads(engine, all_fired(engine)))["1"]
    assert first.reversed
    assert first.forward > first.backward > 0


@given(st.lists(st.floats(-0.1, 0.1), min_size=1, max_size=4, unique=True), st.floats(-0.1, 0.1))
def test_lever_shares_balance(places: list[float], place: float) -> None:
    places = [round(p, 4) for p in places]
    if len(set(places)) < len(places):
        return
    at = [Support(p, 1, 0) for p in sorted(places)]
    shares = lever_shares(place, at)
    assert sum(shares) == pytest.approx(1.0)
    if len(at) > 1:
        moment = sum(share * support.place for share, support in zip(shares, at, strict=True))
        assert moment == pytest.approx(place, abs=1e-9)
    assert sum(share != 0.0 for share in shares) <= 2


def test_a_middle_bearing_takes_half_of_both_throws() -> None:
    at = supports(engine_of("parallel 360", crank__main_bearings=3))
    assert [(s.place, s.bearings, s.throws_before) for s in at] == [
        (pytest.approx(-0.045), 1, 0),
        (0.0, 1, 1),
        (pytest.approx(0.045), 1, 2),
    ]
    assert lever_shares(0.0225, at) == pytest.approx([0.0, 0.5, 0.5])


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5])
@pytest.mark.parametrize("layout", ["single", "opposed"])
def test_as_many_bearings_as_were_said(layout: str, count: int) -> None:
    engine = engine_of(layout, crank__main_bearings=count)
    assert len(loads(engine, all_fired(engine)).main_bearings) == count


def test_bearings_of_a_single_share_evenly_and_a_pair_halves_again() -> None:
    two = loads(engine_of(), all_fired(engine_of())).main_bearings
    assert two[0] == pytest.approx(two[1])
    engine = engine_of(crank__main_bearings=4)
    four = loads(engine, all_fired(engine)).main_bearings
    assert four[3] == pytest.approx(two[0] / 2)


def test_counterweight_relieves_the_bearings_of_a_motored_crank() -> None:
    def worst(factor: float) -> float:
        engine = engine_of(crank__balance_factor=factor)
        fast = [gas_cycle(1e5, 8000 * math.pi / 30)]
        return float(np.max(loads(engine, fast).main_bearings[0]))

    assert worst(0.5) < 0.7 * worst(0.0)
