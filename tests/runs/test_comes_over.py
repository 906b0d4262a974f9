"""Over the top or not: check, first combustion, start and a start's life are of one mind."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.runs.start.books import engine

from firstfire.runs import from_a_stand
from firstfire.runs.bout import turned
from firstfire.runs.brought_over import turned_over
from firstfire.runs.comes_over import comes_over
from firstfire.runs.cranking import cranked, driven
from firstfire.runs.decompression import Decompression
from firstfire.runs.followed_up import followed_up
from firstfire.runs.spun import PAST_TOP, on_its_shaft, starter_line
from firstfire.runs.stalled import Stalled
from firstfire.runs.start.asked import Asked, Wrong
from firstfire.runs.start.climbing import LET_OFF, NOT_TURNED
from firstfire.runs.start.life import Life
from firstfire.runs.start.turned_by import turned_by
from firstfire.runs.steadily import steadily
from firstfire.runs.walls import cold

CYCLE = 4 * math.pi
TIGHT = {}
EASED = {"starter__decompression": True}
SHUTS = {**EASED, "starter__decompression_shuts": "70 deg"}
NO_ROTOR = {"starter__inertia": "0.00001 kg*m^2"}


def lives_over(plain):
    """Whether one start of mere air turns a cycle, and its starter is not let go within 3 s."""
    asked = Asked(seconds=3.0, after=0.0, fires_from=9.0, mixture=0.001)
    lived = Life(plain, asked, driven(plain)).lived()
    return lived.let_go >= 3.0 and float(np.ptp(lived.spun.angle)) > CYCLE


@pytest.mark.parametrize("eased", [TIGHT, EASED, SHUTS], ids=["tight", "eased", "shuts"])
@pytest.mark.parametrize(
    ("name", "how", "torques"),
    [
        ("wren", NO_ROTOR, (2.0, 5.0, 8.0, 9.5)),
        ("wren", {}, (0.8, 2.0, 2.7, 3.3, 50.0)),
        ("plover", {"starter__kind": "drill", **NO_ROTOR}, (0.5, 1.1, 5.0)),
    ],
)
def test_a_check_and_a_start_are_of_one_mind_about_weak_starters_and_strong(
    name, how, torques, eased
):
    found = []
    for torque in torques:
        plain = engine(name, **how, **eased, starter__stall_torque=f"{torque} N*m")
        over = comes_over(plain)
        assert lives_over(plain) is over, torque
        if eased is TIGHT:
            assert (steadily(plain) is not None) is over, torque
        found.append(over)
    if eased is not EASED:
        # Torque never hinders, but where it turns fast enough to have a hole shut too soon.
        assert found == sorted(found)
        assert not found[0]
    assert found[-1]


def test_a_check_and_a_start_tell_the_same_of_their_starter():
    """2 N·m don't get fast enough to shut the hole; with 2.7 it shuts, and then it stands."""
    for torque, over in ((2.0, True), (2.7, False)):
        plain = engine("wren", **EASED, starter__stall_torque=f"{torque} N*m")
        point = turned(plain, "cranked", plain.use.cranking_speed).point
        assert turned_over(plain, point, gauged=False).over is over
        assert cranked(plain, 1.0).over is over
        assert steadily(plain) is None


def stands_at(plain):
    """Angle before top at which it first stands once it turned, degrees, and the pressure, Pa."""
    turning = on_its_shaft(plain, cold(plain), starter_line(plain), PAST_TOP)
    spun = from_a_stand.turned_from_a_stand(plain, turning, 0.7)[1]
    moves = int(np.argmax(spun.speed > 5.0))
    at = moves + int(np.argmax(spun.speed[moves:] < 0.5))
    return math.degrees(CYCLE - spun.angle[at]), float(spun.pressure[at, 0])


def test_behind_a_hole_that_is_shut_it_stands_where_it_would_without_one():
    """4 N·m of a drill without a wheel: the hole that 250 rpm has shut leaves nothing behind."""
    weak = {**NO_ROTOR, "starter__stall_torque": "4 N*m"}
    early = {**EASED, "starter__decompression_until": "250 rpm"}
    without, behind = stands_at(engine("wren", **weak)), stands_at(engine("wren", **weak, **early))
    assert behind == pytest.approx(without, rel=5e-3)
    assert 60.0 < behind[0] < 75.0


def test_a_rotor_that_gave_its_run_up_to_the_first_top_is_followed_to_the_next():
    """Of wren's drill with 2.8 N·m: 0.020 kg·m² get it over one top, and stand before the next."""
    plain = engine("wren", starter__stall_torque="2.8 N*m")
    turning, stalled = on_its_shaft(plain, cold(plain), starter_line(plain), PAST_TOP), Stalled()
    spun = from_a_stand.turned_from_a_stand(plain, turning, 3.0, stalled=stalled)[1]
    assert spun.angle[-1] > CYCLE
    assert stalled.stood
    assert not comes_over(plain)


def test_a_starter_that_turns_backwards_brings_it_back_over_its_top_or_not():
    for torque, over in ((50.0, True), (1.0, False)):
        plain = engine("wren", starter__stall_torque=f"{torque} N*m")
        shaft = turned_by(plain, Wrong(backwards=True))
        assert comes_over(plain, shaft) is over
        assert Stalled(-1.0).over is False


def test_what_creeps_past_an_open_hole_is_not_stalled():
    shaft = Stalled()
    shaft.feel(np.array([0.0, 0.4]), let_off=False)
    assert not shaft.turned
    shaft.feel(np.array([3.0, 0.1, -0.2]), let_off=True)
    assert shaft.over
    other = shaft.again()
    other.feel(np.array([0.4]), let_off=False)
    assert other.stood
    assert shaft.over


@pytest.mark.parametrize(
    ("degrees", "shuts", "let_off"),
    [
        (-170.0, 0.0, True), (-10.0, 0.0, True), (90.0, 0.0, True),
        (-170.0, 70.0, True), (-60.0, 70.0, False), (90.0, 70.0, True), (300.0, 70.0, False),
    ],
)  # fmt: skip
def test_only_what_is_compressed_behind_a_shut_hole_is_not_let_off(degrees, shuts, let_off):
    """plover's tops are at 0 and 360°; a hole that shuts 70° before each lets nothing off then."""
    plain = engine("plover", **EASED, starter__decompression_shuts=f"{shuts} deg")
    phases, angle = (0.0, 2 * math.pi), math.radians(degrees)
    turning = on_its_shaft(plain, cold(plain), starter_line(plain), angle)
    holes = Decompression(plain, turning.spec, turning.engines)
    holes.stands_at(angle, phases)
    assert holes.let_off(angle, phases) is let_off
    holes.feel(math.inf, 0.0)
    assert not holes.let_off(angle, phases)


@pytest.mark.parametrize(("torque", "why"), [(2.0, LET_OFF), (2.7, NOT_TURNED)])
def test_a_kick_back_is_not_judged_where_a_shut_hole_stops_it(torque, why):
    plain = engine("wren", **EASED, starter__stall_torque=f"{torque} N*m")
    bout = turned(plain, "cranked", plain.use.cranking_speed)
    assert [one.why_not for one in followed_up(plain, bout).climbs] == [why]
