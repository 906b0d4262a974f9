"""Whether a starter brings an engine over its top, and how it turns it, with no gas run."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from tests.runs.stand_ins import told

import firstfire as ff
from firstfire.cycle import layout
from firstfire.cycle.records import ShaftSpec
from firstfire.engine.resolve import resolve
from firstfire.errors import OutsideValidity
from firstfire.formulas import bearing_friction
from firstfire.runs import (
    brought_over,
    comes_over,
    decompression,
    from_a_stand,
    over_the_top,
    spun,
    steadily,
    stood,
)
from firstfire.runs.brought_over import TurnOver
from firstfire.runs.decompression import Decompression
from firstfire.runs.spun import Spun, Turning
from firstfire.runs.stalled import Stalled
from firstfire.runs.steadily import Steadily
from firstfire.runs.stood import BreakLoose, Stood

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"
CYCLE, TEN_DEGREES = 4.0 * math.pi, math.pi / 18.0
SHAFT = ShaftSpec(inertia=5e-3, starter_stall=2.0, starter_free=100.0)


@cache
def wren():
    return resolve(ff.read(WREN))


def started(**changes):
    """wren with another starter."""
    plain = wren()
    return plain.model_copy(update={"starter": plain.starter.model_copy(update=changes)})


def turns(*, time=0.0, speed=0.0, stall=0.0):
    """A shaft at a moment."""
    values = np.zeros(8)
    values[layout.SPEED] = speed
    engines = [{"shaft": {"starter_stall": stall, "rotor": stall, "inertia": stall}}]
    return Turning(None, engines, SimpleNamespace(time=[time], values=values))


def rows(time, angle, speed):
    """How it turned; a rotor at twice its speed, a pressure of thrice."""
    time, angle, speed = (np.asarray(one, dtype=float) for one in (time, angle, speed))
    return Spun(time, angle, speed, 2.0 * speed, 3.0 * speed[:, None])


# A pull, and what follows it


def test_a_pull_goes_through_the_rope_over_the_drums_radius():
    """0.5 m on a drum of 50 mm are 20 rad of the drum, geared by a half 10 of the crank."""
    starter = SimpleNamespace(pull_length=0.5, drum_diameter=0.05, ratio=0.5)
    plain = SimpleNamespace(starter=starter)
    assert comes_over.stroke_of(plain) == pytest.approx(10.0, rel=1e-12)
    starter.pull_length = None
    assert comes_over.stroke_of(plain) == math.inf


@pytest.mark.parametrize(("start", "top", "ahead"), [(1.0, 3.0, 2.0), (3.0, 1.0, CYCLE - 2.0)])
def test_a_top_is_passed_by_ten_degrees_and_those_that_follow_are_asked(
    monkeypatch, start, top, ahead
):
    """From 1 rad 2 on to 3; from 3 a whole cycle less 2 on to the next at 1."""
    goal, asked = start + ahead + TEN_DEGREES, []
    reached = goal

    def turned(plain, turning, until, stop, *, until_angle, stalled):
        asked.append((turning, until, until_angle))
        stalled.turned = True
        return "turned", rows([0.0], [reached], [9.0])

    begun = told(monkeypatch, comes_over, "on_its_shaft", "begun")
    monkeypatch.setattr(comes_over, "cold", lambda _: "cold")
    monkeypatch.setattr(comes_over, "turned_from_a_stand", turned)
    goes_on = told(monkeypatch, comes_over, "_goes_on", answer=True)
    none = SimpleNamespace(pull_length=None, drum_diameter=None, decompression=False)
    plain = SimpleNamespace(starter=none)
    assert comes_over.passes(plain, SHAFT, start, top, None)
    assert begun == [(plain, "cold", SHAFT, start)]
    assert asked == [("begun", 3.0, pytest.approx(goal, rel=1e-12))]
    assert goes_on == [("turned", pytest.approx(goal), math.inf, None)]
    reached = goal - 1e-3
    assert not comes_over.passes(plain, SHAFT, start, top, None)


@pytest.mark.parametrize(
    ("reached", "coasts", "passed"),
    [(2.0, 2.0 + TEN_DEGREES, True), (2.0, 2.0, False), (1.9, 9.0, False)],
)
def test_a_rope_that_has_run_out_leaves_it_to_coast(monkeypatch, reached, coasts, passed):
    """A rope of 1 rad from 1 rad ends at 2, and the top there is to be passed by 10°."""

    def turned(*_, until_angle, stalled, **__):
        assert until_angle == pytest.approx(2.0, rel=1e-12)
        stalled.turned = True
        return "turned", rows([0.0], [reached], [9.0])

    for name in ("on_its_shaft", "cold"):
        monkeypatch.setattr(comes_over, name, lambda *_: None)
    monkeypatch.setattr(comes_over, "turned_from_a_stand", turned)
    coasted = told(monkeypatch, comes_over, "coasted", coasts)
    rope = SimpleNamespace(pull_length=0.05, drum_diameter=0.1, ratio=1.0, decompression=False)
    plain = SimpleNamespace(starter=rope)
    assert comes_over.passes(plain, SHAFT, 1.0, 2.0, None) is passed
    if reached == 2.0:
        assert coasted == [(plain, "turned", SHAFT, pytest.approx(2.0 + TEN_DEGREES), None)]
    else:
        assert coasted == []


def test_each_top_is_begun_at_just_past_the_one_before(monkeypatch):
    """Two cylinders a turn apart: 10° past a turn before the first, 10° past the first."""
    asked = told(monkeypatch, comes_over, "passes", answer=True)
    monkeypatch.setattr(comes_over, "firing_angles", lambda _: (2 * math.pi, 0.0))
    assert comes_over.comes_over("plain", SHAFT)
    assert {given[:2] for given in asked} == {("plain", SHAFT)}
    assert [given[2:4] for given in asked] == [
        pytest.approx((-2 * math.pi + TEN_DEGREES, 0.0), rel=1e-12),
        pytest.approx((TEN_DEGREES, 2 * math.pi), rel=1e-12),
    ]


def test_what_turns_backwards_is_begun_at_just_past_each_top(monkeypatch):
    asked = told(monkeypatch, comes_over, "_passes_backwards", answer=True)
    monkeypatch.setattr(comes_over, "firing_angles", lambda _: (2 * math.pi, 0.0))
    back = ShaftSpec(inertia=5e-3, starter_stall=-2.0, starter_free=-100.0)
    assert comes_over.comes_over("plain", back)
    assert {given[:2] for given in asked} == {("plain", back)}
    assert [given[2] for given in asked] == pytest.approx(
        [TEN_DEGREES, 2 * math.pi + TEN_DEGREES], rel=1e-12
    )


@pytest.mark.parametrize(
    ("room", "angles"), [(math.inf, [CYCLE, 2 * CYCLE]), (1.5 * CYCLE, [CYCLE, 1.5 * CYCLE])]
)
def test_tops_are_followed_until_one_is_passed_with_0_99_of_the_speed(monkeypatch, room, angles):
    """10, 9 and 8.92 rad/s: 9 is 0.9 of 10, 8.92 more than 0.99 · 9 = 8.91; or the rope ends."""
    speeds = iter([9.0, 8.92])
    asked = told(
        monkeypatch,
        comes_over,
        "turned_on",
        lambda turning, *_, **__: (turning, rows([0.0], [0.0], [next(speeds)])),
    )
    assert comes_over._goes_on(turns(speed=10.0), 1.0, 1.0 + room, None)
    assert [given[1] for given in asked] == [3.0, 3.0]
    assert [given[2] for given in asked] == pytest.approx([1.0 + one for one in angles])


def test_what_stands_before_a_top_that_follows_does_not_go_on(monkeypatch):
    slow = rows([0.0, 0.1], [0.0, 0.0], [9.0, 0.1])
    monkeypatch.setattr(comes_over, "turned_on", lambda turning, *_, **__: (turning, slow))
    assert not comes_over._goes_on(turns(speed=10.0), 1.0, math.inf, None)


@pytest.mark.parametrize(("rotor", "inertia"), [(0.0, 3.4e-3), (1e-3, 5e-3)])
def test_once_its_starter_is_off_it_coasts_without_its_rotor(monkeypatch, rotor, inertia):
    """5e-3 less 1e-4/0.25² = 1.6e-3 kg·m² where the rotor was within it.

    Looked at each 0.2 s it comes to 10, 11, and no further.
    """
    angles = iter([10.0, 11.0, 11.0])
    asked = []

    def turned_on(turning, until, *, until_angle, stop):
        asked.append((until, until_angle))
        shaft = turning.engines[0]["shaft"]
        assert shaft["starter_stall"] == shaft["rotor"] == 0.0
        assert shaft["inertia"] == pytest.approx(inertia, rel=1e-12)
        state = SimpleNamespace(time=[turning.seconds + 0.2], values=turning.state.values)
        return Turning(None, turning.engines, state), rows([0.0], [next(angles)], [1.0])

    monkeypatch.setattr(comes_over, "turned_on", turned_on)
    plain = SimpleNamespace(starter=SimpleNamespace(inertia=1e-4, ratio=0.25))
    shaft = ShaftSpec(inertia=5e-3, rotor=rotor)
    assert comes_over.coasted(plain, turns(time=5.0, stall=7.0), shaft, 50.0, None) == 11.0
    assert [one[0] for one in asked] == pytest.approx([5.2, 5.4, 5.6])
    assert {one[1] for one in asked} == {50.0}


def test_it_coasts_for_twenty_seconds_at_most(monkeypatch):
    """Ten seconds at a look: from 5 s two looks until 25."""
    angles = iter([10.0, 11.0, 12.0])

    def turned_on(turning, *_, **__):
        state = SimpleNamespace(time=[turning.seconds + 10.0], values=None)
        return Turning(None, turning.engines, state), rows([0.0], [next(angles)], [1.0])

    monkeypatch.setattr(comes_over, "turned_on", turned_on)
    plain = SimpleNamespace(starter=SimpleNamespace(inertia=0.0, ratio=1.0))
    assert comes_over.coasted(plain, turns(time=5.0), SHAFT, 50.0, None) == 11.0


# What a starter makes of it


def against(slope):
    """A cranked point at which turning takes so many newton metres a radian of the cycle."""
    angle = np.linspace(-2 * math.pi, 2 * math.pi, 721)
    into = angle % CYCLE
    curves = SimpleNamespace(angle=angle, gas_torque=2.0 * into)
    return SimpleNamespace(
        fired=SimpleNamespace(cycle=SimpleNamespace(curves=curves)),
        friction=SimpleNamespace(torque=(2.0 + slope) * into),
        brake_torque=-1.5,
    )


def test_a_compression_takes_what_is_over_the_half_turn_before_its_top():
    """1 N·m a radian from π to 2π: (4π² - π²)/2; what gives is not taken."""
    taken = brought_over._taken(against(1.0), 2 * math.pi)
    assert taken == pytest.approx(1.5 * math.pi**2, rel=1e-6)
    assert brought_over._taken(against(-1.0), 2 * math.pi) == 0.0


BASE = TurnOver(
    mean_torque=1.0, peak_torque=2.0, stall_torque=3.0, inertia=4.0, compression_energy=5.0,
    stored_energy=0.0, over=True, from_rest=True, lacking_torque=0.0, speed=0.0, crank_speed=0.0,
    slowest=0.0, at_top=0.0, gauge=(), pulls=None, spun=None,
    shaft=ShaftSpec(inertia=0.02, rotor=0.01),
)  # fmt: skip


def test_a_shaft_stores_half_its_inertia_times_the_square_of_its_speed(monkeypatch):
    """20 rad in 2 s, and a rotor at 20 rad/s: ½ (0.02 · 100 + 0.01 · 400) = 3 J."""
    monkeypatch.setattr(brought_over, "heard", lambda shaft, _: 2000.0 * shaft.rotor)
    slow = told(monkeypatch, brought_over, "slowest_top", 7.0)
    late = rows([1.0, 2.0, 3.0], [5.0, 10.0, 25.0], [12.0, 6.0, 14.0])
    found = brought_over._with_speeds("plain", BASE, late)
    assert slow == [("plain", late)]
    assert found.stored_energy == pytest.approx(3.0, rel=1e-12)
    assert (found.speed, found.crank_speed) == pytest.approx((20.0, 10.0))
    assert (found.slowest, found.at_top) == (6.0, 7.0)


def test_a_torque_that_stays_is_taken_through_half_a_turn():
    """2 N·m through π rad, whatever stands before it."""
    cranked = against(0.0)
    cranked.friction.torque = cranked.friction.torque + 2.0
    taken = brought_over._taken(cranked, 2 * math.pi)
    assert taken == pytest.approx(2 * math.pi, rel=1e-9)


def test_what_a_starter_makes_of_an_engine_is_told_of_its_own_line(monkeypatch):
    """Of 1 N·m a radian most is at the end of a cycle, 4π; of two tops the harder is told."""
    line = ShaftSpec(inertia=0.02, rotor=0.01, starter_stall=8.0)
    monkeypatch.setattr(brought_over, "starter_line", lambda _: line)
    monkeypatch.setattr(brought_over, "firing_angles", lambda _: (2 * math.pi, 3 * math.pi))
    monkeypatch.setattr(brought_over, "comes_over", lambda *_, **__: False)
    lacks = told(monkeypatch, brought_over, "_lacking", 0.7)
    found = brought_over.turned_over("plain", against(1.0))
    assert (found.mean_torque, found.stall_torque) == (1.5, 8.0)
    assert found.inertia == pytest.approx(0.03, rel=1e-12)
    assert found.peak_torque == pytest.approx(CYCLE * 719 / 720, rel=1e-12)
    assert found.compression_energy == pytest.approx(2.5 * math.pi**2, rel=1e-6)
    assert (found.over, found.from_rest, found.lacking_torque) == (False, False, 0.7)
    assert lacks == [("plain", line, None)]


def test_from_rest_each_top_is_begun_at_half_a_turn_before_it(monkeypatch):
    asked = told(monkeypatch, brought_over, "passes", answer=True)
    monkeypatch.setattr(brought_over, "firing_angles", lambda _: (0.0, 2 * math.pi))
    assert brought_over._from_rest("plain", SHAFT, None)
    assert asked == [
        ("plain", SHAFT, pytest.approx(-math.pi), 0.0, None),
        ("plain", SHAFT, pytest.approx(math.pi), 2 * math.pi, None),
    ]


def test_its_last_second_of_three_is_told(monkeypatch):
    """From ten degrees past its first top."""
    drives = told(monkeypatch, brought_over, "driven", SHAFT)
    monkeypatch.setattr(brought_over, "firing_angles", lambda _: (1.0, 9.0))
    monkeypatch.setattr(brought_over, "cold", lambda _: "cold")
    begun = told(monkeypatch, brought_over, "on_its_shaft", "begun")
    ran = rows([0.0, 1.9, 2.0, 3.0], [0.0, 1.0, 2.0, 3.0], [1.0, 1.0, 1.0, 1.0])
    turned = told(monkeypatch, brought_over, "turned_from_a_stand", ("turned", ran))
    speeds = told(monkeypatch, brought_over, "_with_speeds", "told")
    plain = SimpleNamespace(starter=SimpleNamespace(pull_length=None, drum_diameter=None))
    assert brought_over._turning(plain, BASE, None) == "told"
    assert begun == [(plain, "cold", SHAFT, pytest.approx(1.0 + TEN_DEGREES))]
    assert turned == [(plain, "begun", 3.0, None)]
    assert drives == [(plain, None)]
    assert speeds[0][0] is plain
    assert speeds[0][1].shaft is SHAFT
    assert speeds[0][2].time.tolist() == [2.0, 3.0]


def test_a_rope_is_pulled_and_its_shaft_told(monkeypatch):
    monkeypatch.setattr(brought_over, "driven", lambda *_: SHAFT)
    pulled = told(monkeypatch, brought_over, "_pulled", BASE)
    starter = SimpleNamespace(pull_length=1.0, drum_diameter=0.1, ratio=1.0)
    plain = SimpleNamespace(starter=starter)
    assert brought_over._turning(plain, BASE, None).shaft is SHAFT
    assert pulled == [(plain, BASE, None)]


def test_each_cylinders_gauge_is_read_after_five_seconds(monkeypatch):
    asked = told(monkeypatch, brought_over, "gauge_reading", 5e5)
    plain = SimpleNamespace(cylinders=(1, 2))
    assert brought_over._gauges(plain, SHAFT, None) == (5e5, 5e5)
    assert asked == [(plain, SHAFT, 5.0, None, 0), (plain, SHAFT, 5.0, None, 1)]


def test_what_comes_over_is_turned_and_its_gauges_read(monkeypatch):
    line = ShaftSpec(inertia=0.02, starter_stall=8.0)
    monkeypatch.setattr(brought_over, "starter_line", lambda _: line)
    monkeypatch.setattr(brought_over, "firing_angles", lambda _: (2 * math.pi,))
    monkeypatch.setattr(brought_over, "comes_over", lambda *_, **__: True)
    rest = told(monkeypatch, brought_over, "_from_rest", answer=True)
    turning = told(monkeypatch, brought_over, "_turning", BASE)
    read = told(monkeypatch, brought_over, "_gauges", (5e5,))
    found = brought_over.turned_over("plain", against(1.0))
    assert found.gauge == (5e5,)
    assert rest == [("plain", line, None)]
    assert turning[0][0] == "plain"
    assert turning[0][1].from_rest
    assert read == [("plain", BASE.shaft, None)]
    assert brought_over.turned_over("plain", against(1.0), gauged=False).gauge == ()


@pytest.mark.parametrize(
    ("reached", "tops"),
    [(CYCLE - 0.1, 0), (CYCLE + 0.1, 1), (3 * CYCLE - 0.1, 2), (3 * CYCLE + 0.1, 3)],
)
def test_a_pull_is_worth_the_tops_it_brings_it_over(monkeypatch, reached, tops):
    """From 10° past its top at 0; the rope of 20 rad ends at 20 rad and 10°.

    Told is the cycle before that, from 20 - 4π = 7.43 rad and 10° on.
    """
    monkeypatch.setattr(brought_over, "firing_angles", lambda _: (0.0,))
    monkeypatch.setattr(brought_over, "stroke_of", lambda _: 20.0)
    monkeypatch.setattr(brought_over, "cold", lambda _: "cold")
    begun = told(monkeypatch, brought_over, "on_its_shaft", "begun")
    ran = rows([0.0, 1.0, 2.0], np.array([7.3, 7.5, 20.0]) + TEN_DEGREES, [1.0, 1.0, 1.0])
    turned = told(monkeypatch, brought_over, "turned_from_a_stand", ("turned", ran))
    coasts = told(monkeypatch, brought_over, "coasted", reached)
    late = told(monkeypatch, brought_over, "_with_speeds", BASE)
    assert brought_over._pulled("plain", BASE, None).pulls == tops
    assert begun == [("plain", "cold", BASE.shaft, pytest.approx(TEN_DEGREES))]
    assert turned == [("plain", "begun", 20.0, None, pytest.approx(20.0 + TEN_DEGREES))]
    assert coasts == [("plain", "turned", BASE.shaft, math.inf, None)]
    assert late[0][:2] == ("plain", BASE)
    assert late[0][2].time.tolist() == [1.0, 2.0]


def test_what_a_starter_lacks_is_found_by_doubling_then_halving(monkeypatch):
    """2 N·m where 13 are wanted: 4, 8 and 16 are tried, then nine times the middle: 11 lack."""
    asked = told(
        monkeypatch, brought_over, "comes_over", lambda _, one, __: one.starter_stall >= 13
    )
    assert brought_over._lacking(None, SHAFT, None) == pytest.approx(11.0, rel=1e-12)
    tried = [given[1].starter_stall for given in asked]
    assert tried[:7] == [4.0, 8.0, 16.0, 12.0, 14.0, 13.0, 12.5]
    assert len(tried) == 12


@pytest.mark.parametrize(("stall", "lacks"), [(1.0, 16383.0), (0.0, 16384e-3 * 1024)])
def test_what_nothing_helps_is_told_past_ten_thousand(monkeypatch, stall, lacks):
    """2^14 N·m is the first power of two past 10,000, as 2^24 is of thousandths."""
    monkeypatch.setattr(brought_over, "comes_over", lambda *_: False)
    shaft = ShaftSpec(inertia=1.0, starter_stall=stall, starter_free=100.0)
    assert brought_over._lacking(None, shaft, None) == pytest.approx(lacks, rel=1e-12)
    still = ShaftSpec(inertia=1.0, starter_stall=stall, starter_free=0.0)
    assert brought_over._lacking(None, still, None) == 0.0


# What would help it over


def test_a_larger_drum_pulls_with_a_longer_arm_and_slower():
    """60 N on 50 instead of 40 mm: 1.5 N·m, and 80 of 100 rad/s; the next are 60 to 120 mm."""
    plain = started(pull_force=60.0, drum_diameter=0.04, no_load_speed=100.0)
    changes = list(over_the_top._drums(plain))
    first = changes[0][1].starter
    assert first.drum_diameter == pytest.approx(0.05)
    assert first.stall_torque == pytest.approx(1.5, rel=1e-12)
    assert first.no_load_speed == pytest.approx(80.0, rel=1e-12)
    drums = [one.starter.drum_diameter for _, one in changes]
    assert drums == pytest.approx([0.05, 0.06, 0.08, 0.1, 0.12])
    assert changes[0][0].set == {"starter.drum_diameter": "50 mm"}


def test_it_is_geared_down_as_far_as_two_hundredths():
    """Of 0.08: 0.06, 0.04, 0.03 and 0.02; of 1 all six."""
    ratios = [one.starter.ratio for _, one in over_the_top._gears(started(ratio=0.08))]
    assert ratios == [0.06, 0.04, 0.03, 0.02]
    usual = [one.starter.ratio for _, one in over_the_top._gears(started(ratio=1.0))]
    assert usual == [0.75, 0.5, 0.33, 0.25, 0.17, 0.1]


@pytest.mark.parametrize(("inertia", "first"), [(2e-3, 3e-3), (0.0, 1.5e-4)])
def test_a_heavier_wheel_is_once_and_a_half_as_heavy_first(inertia, first):
    """2e-3 kg·m² make 3, 4, 6, 10 and 20e-3; none is taken as 1e-4."""
    plain = wren()
    wheel = plain.flywheel.model_copy(update={"inertia": inertia})
    plain = plain.model_copy(update={"flywheel": wheel})
    found = [one.flywheel.inertia for _, one in over_the_top._flywheels(plain)]
    assert found == pytest.approx([first * share / 1.5 for share in (1.5, 2.0, 3.0, 5.0, 10.0)])


# Holes that let compression off


def test_a_hole_of_two_millimetres_is_let_into_each_cylinder(monkeypatch):
    """π/4 · 4 mm² = π mm², of which 0.7 count."""
    monkeypatch.setattr(decompression, "replace", lambda _, **to: to["passages"])
    starter = SimpleNamespace(decompression=True, decompression_diameter=2e-3)
    spec = SimpleNamespace(cylinders=(SimpleNamespace(name="a"),), passages=())
    (hole,) = decompression.with_holes(spec, SimpleNamespace(starter=starter))
    assert hole.name == "decompression 1"
    assert (hole.start, hole.end) == ("a", "outside")
    assert hole.area == pytest.approx(math.pi * 1e-6, rel=1e-12)
    assert hole.coefficient == 0.7


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_the_last_whole_turn_is_looked_for_between_two_looks(way):
    """3π at 3 s: a turn before it was half a turn past 0.5 s, π at 1 s: 2π in 2 s."""
    angles = [(0.0, 0.0), (0.5, 0.5 * math.pi), (1.5, 1.5 * math.pi), (2.0, 2.0 * math.pi)]
    passed = [(time, way * (1.0 + angle)) for time, angle in angles]
    found = decompression.whole_turn(passed, 3.0, way * (1.0 + 3.0 * math.pi))
    assert found == pytest.approx(math.pi, rel=1e-12)
    assert decompression.whole_turn(passed, 3.0, way * 7.2) == 0.0


@pytest.mark.parametrize(
    ("angle", "opens"),
    [
        (-math.pi - 0.01, False),
        (-math.pi + 0.01, True),
        (-1.01, True),
        (-0.99, False),
        (0.5, False),
        (CYCLE - 2.0, True),
    ],
)
def test_a_hole_that_shuts_a_radian_before_top_is_open_from_the_bottom_to_there(angle, opens):
    turned = []

    def turn(row, *, opens):
        turned.append((row, opens))

    holes = SimpleNamespace(acts=True, shuts=1.0, turn=turn)
    Decompression.stands_at(holes, angle, (0.0, 2 * math.pi))
    assert turned[0] == (0, opens)
    assert turned[1] == (1, False)


@pytest.mark.parametrize(
    ("angle", "open_first", "lets"),
    [
        (-1.0, True, True),
        (-1.0, False, False),
        (-4.0, False, True),
        (1.0, False, True),
        (CYCLE - 1.0, False, False),
    ],
)
def test_what_is_pressed_is_let_off_by_its_own_open_hole(angle, open_first, lets):
    """A radian before its top the first is pressed, 4 before or 1 past it is not."""
    area = {3: 1.0 if open_first else 0.0, 4: 0.0}
    holes = SimpleNamespace(acts=True, rows=[3, 4], engines=[{"passages": {"area": area}}])
    assert Decompression.let_off(holes, angle, (0.0, math.pi + 5.0)) is lets


@pytest.mark.parametrize(
    ("angle", "at", "row", "opens"),
    [
        (0.0, math.pi, 1, True),
        (math.pi, 2 * math.pi - 1.0, 1, False),
        (2 * math.pi, 3 * math.pi, 0, True),
        (3 * math.pi, 4 * math.pi - 1.0, 0, False),
        (4 * math.pi + 0.1, 5 * math.pi, 1, True),
    ],
)
def test_the_next_hole_opens_at_its_bottom_or_shuts_a_radian_before_its_top(angle, at, row, opens):
    """Tops at 0 and 2π."""
    found = from_a_stand._next(angle, (0.0, 2 * math.pi), 1.0)
    assert found == (pytest.approx(at, rel=1e-12), row, opens)


@pytest.mark.parametrize(("shuts", "acted"), [(1.0, [(1, True)]), (0.0, [])])
def test_from_a_stand_it_is_looked_at_each_twentieth_of_a_second_or_at_what_comes(
    monkeypatch, shuts, acted
):
    """Tops at 0 and 2π: from 3 rad the second's hole opens at π, rings are loose at 3.1.

    It comes to π within a look; then all is done, and it goes on to 2 s.
    """
    done, felt, let = [], [], []

    class Holes:
        def __init__(self, *given):
            done.append(("holes", given))
            self.acts, self.shuts = True, shuts

        def stands_at(self, angle, phases):
            done.append(("stands", angle, phases))

        def let_off(self, angle, phases):
            let.append((angle, phases))
            return angle < 3.05

        def turn(self, row, *, opens):
            done.append((row, opens))

        def feel(self, speed, now):
            felt.append((speed, now))
            self.acts = now < 0.1

    class Rings:
        until = 3.1

        def __init__(self, *given):
            done.append(("rings", given))
            self.acts = True

        def feel(self, angle):
            done.append(("loose", angle))
            self.acts = False
            Rings.until = math.inf

    monkeypatch.setattr(from_a_stand, "Decompression", Holes)
    monkeypatch.setattr(from_a_stand, "Stood", Rings)
    phases = (0.0, 2 * math.pi)
    monkeypatch.setattr(from_a_stand, "firing_angles", lambda _: phases)
    turned = told(monkeypatch, from_a_stand, "whole_turn", 55.0)
    begun, asked = turns(), []
    begun.state.values[0] = 3.0
    ends = iter([(0.03, 3.1), (0.06, math.pi), (0.11, 3.3), (2.0, 60.0)])

    def turned_on(turning, until, *, until_angle, stop):
        asked.append((until, until_angle))
        time, angle = next(ends)
        before = (turning.seconds, float(turning.state.values[0]))
        values = np.array([angle, 9.0, 0.0])
        state = SimpleNamespace(time=[time], values=values)
        ran = rows([before[0], time], [before[1], angle], [9.0, 9.0])
        return Turning(None, turning.engines, state), ran

    monkeypatch.setattr(from_a_stand, "turned_on", turned_on)
    stalled = Stalled()
    after, ran = from_a_stand.turned_from_a_stand("plain", begun, 2.0, until_angle=70.0,
                                                  stalled=stalled)  # fmt: skip
    mark = math.pi
    shut = 2 * math.pi - shuts
    assert asked == [
        pytest.approx((0.05, 3.1)), pytest.approx((0.08, mark)), pytest.approx((0.11, shut)),
        (2.0, 70.0),
    ]  # fmt: skip
    assert done[0] == ("holes", ("plain", None, begun.engines))
    assert done[1] == ("stands", 3.0, phases)
    assert done[2] == ("rings", ("plain", begun.engines, 3.0))
    assert [one for one in done if one[0] == 1] == acted
    assert felt == [(55.0, 0.03), (55.0, 0.06), (55.0, 0.11)]
    assert turned[2] == ([(0.0, 3.0), (0.03, 3.1), (0.06, math.pi)], 0.11, 3.3)
    assert let == [(3.0, phases), (3.1, phases), (math.pi, phases), (3.3, phases)]
    assert ran.time.tolist() == [0.0, 0.03, 0.06, 0.11, 2.0]
    assert ran.angle.tolist() == [3.0, 3.1, math.pi, 3.3, 60.0]
    assert after.seconds == 2.0
    assert stalled.over


# Rings that stick, oil that has thickened


def test_rings_that_stick_hold_by_their_doubts_share_of_what_breaks_them_away(monkeypatch):
    """Three times the running friction after so long, and half of the more: 2."""
    asked = told(monkeypatch, stood, "break_away", 3.0)
    doubt = SimpleNamespace(friction=SimpleNamespace(stuck=0.5))
    rings = SimpleNamespace(kind="o_ring", count=1)
    plain = SimpleNamespace(cylinders=(SimpleNamespace(rings=rings),), doubt=doubt)
    assert stood.sticks(plain, 60.0) == pytest.approx(2.0, rel=1e-12)
    assert asked == [(60.0,)]
    rings.count = 0
    assert stood.sticks(plain, 60.0) == 1.0


def test_oil_is_as_thick_as_in_the_cold_and_no_thicker_than_set(monkeypatch):
    case = SimpleNamespace(viscosity_40=1e-4, viscosity_100=1e-5)
    plain = SimpleNamespace(case=case, surroundings=SimpleNamespace(air_temperature=280.0))
    asked = told(monkeypatch, stood, "walther", 5e-4)
    assert stood.oil_now(plain) == 5e-4
    assert asked == [(1e-4, 1e-5, 280.0)]
    monkeypatch.setattr(stood, "walther", lambda *_: 5.0)
    assert stood.oil_now(plain) == 1.0

    def nowhere(*_):
        raise OutsideValidity("so cold")

    monkeypatch.setattr(stood, "walther", nowhere)
    assert stood.oil_now(plain) == 1.0


def test_bearings_drag_through_oil_by_the_two_thirds_power_of_speed(monkeypatch):
    """6 and 16 mm are 11 in the mean; two of 200 N·m at 1000 rad/s, over 1000^⅔ = 100: 4."""
    monkeypatch.setattr(stood, "oil_now", lambda _: 5e-4)
    asked = told(monkeypatch, bearing_friction, "viscous_torque", 200.0)
    crank = SimpleNamespace(main_bearing_bore=6e-3, main_bearing_outside=16e-3, main_bearings=2)
    engines = [{"shaft_rubbing": {"bearing_drag": 0.0}}]
    stood.thicken(engines, SimpleNamespace(crank=crank))
    assert engines[0]["shaft_rubbing"]["bearing_drag"] == pytest.approx(4.0, rel=1e-12)
    grease = bearing_friction.LUBRICATION_GREASE
    assert asked == [(1000.0, pytest.approx(11e-3), 5e-4, grease)]


def test_rings_are_loose_after_half_a_turn_either_way():
    """Twice their doubt of 0.8 until then."""
    for way in (1.0, -1.0):
        stuck = rung = [{"rubbing": {"ring_doubt": {0: 0.8}}}]
        one = SimpleNamespace(rings=SimpleNamespace(kind="o_ring", count=1))
        plain = SimpleNamespace(cylinders=(one,), use=SimpleNamespace(stood=60.0))
        with pytest.MonkeyPatch.context() as patched:
            patched.setattr(stood, "sticks", lambda _, seconds: seconds / 30.0)
            rings = Stood(plain, stuck, 1.0)
        assert rung[0]["rubbing"]["ring_doubt"][0] == pytest.approx(1.6)
        assert rings.until == pytest.approx(1.0 + math.pi, rel=1e-12)
        rings.feel(1.0 + way * (math.pi - 1e-3))
        assert rings.acts
        rings.feel(1.0 + way * math.pi)
        assert not rings.acts
        assert rung[0]["rubbing"]["ring_doubt"][0] == 0.8
        assert rings.until == math.inf


@pytest.mark.parametrize("stall", [2.0, -2.0])
def test_breaking_loose_is_asked_through_half_a_turn_the_way_it_is_turned(monkeypatch, stall):
    """3 N·m at most and 0.5 of its own friction; it gives 2 at a stand, so 1.5 lack."""
    monkeypatch.setattr(stood, "sticks", lambda _, seconds: seconds / 30.0)
    stuck = told(monkeypatch, stood, "_stuck", "stuck")
    torque = np.array([1.0, 3.0, 2.0])
    asked = told(monkeypatch, stood, "_creeping", torque)
    shaft = ShaftSpec(inertia=1.0, starter_stall=stall, friction=0.5)
    found = stood.break_loose("plain", shaft, 1.0, 60.0)
    assert found == BreakLoose(60.0, 2.0, 3.5, 2.0)
    assert found.lacks == pytest.approx(1.5)
    assert stuck == [("plain", 2.0)]
    assert asked[0][0] == "stuck"
    way = math.copysign(1.0, stall)
    ends = (asked[0][1][0], asked[0][1][-1])
    assert ends == pytest.approx((1.0, 1.0 + way * math.pi), rel=1e-12)


def test_rings_that_stick_twice_have_twice_the_doubt():
    plain = wren()
    doubled = stood._stuck(plain, 2.0).doubt.friction.ring
    assert doubled == pytest.approx(2.0 * plain.doubt.friction.ring, rel=1e-12)


def test_creeping_it_is_asked_at_a_millionth_with_the_air_on_both_sides(monkeypatch):
    """Two cylinders and three volumes: five rooms at the air's pressure."""
    spec = SimpleNamespace(cylinders=(1, 2), volumes=(1, 2, 3))
    made = told(monkeypatch, stood, "network", spec)
    monkeypatch.setattr(stood, "cold", lambda _: "cold")
    asked = told(monkeypatch, stood, "friction_along", SimpleNamespace(torque="torque"))
    around = SimpleNamespace(air_pressure=9e4)
    plain = SimpleNamespace(cylinders=(1, 2), surroundings=around)
    assert stood._creeping(plain, np.zeros(7)) == "torque"
    assert made == [(plain, "cold", (None, None))]
    (given,) = asked
    assert given[:2] == (plain, spec)
    assert given[2].pressure.shape == (7, 5)
    assert np.unique(given[2].pressure).tolist() == [9e4]
    assert np.unique(given[2].speed).tolist() == [1e-6]


# The record of a shaft that turned


def test_a_record_is_of_time_angle_speed_rotor_and_pressures():
    """10 rad from 1 to 3 s: 5 rad/s, whatever its steps."""
    found = Spun.of(
        np.array(
            [
                [1.0, 20.0, 4.0, 40.0, 1e5, 2e5, 7e5],
                [1.1, 29.0, 5.0, 50.0, 1e5, 3e5, 8e5],
                [3.0, 30.0, 6.0, 60.0, 1e5, 4e5, 9e5],
            ]
        )
    )
    assert found.mean_speed == pytest.approx(5.0, rel=1e-12)
    late = found.since(1.1)
    assert late.speed.tolist() == [5.0, 6.0]
    assert late.rotor.tolist() == [50.0, 60.0]
    assert late.pressure[:, 1:].tolist() == [[3e5, 8e5], [4e5, 9e5]]
    assert found.since(3.0).mean_speed == 0.0


def test_a_rooms_pressure_stands_behind_the_shaft_by_the_rooms_before_it():
    spec = SimpleNamespace(
        cylinders=[SimpleNamespace(name="cylinder 1")], volumes=[SimpleNamespace(name="case")]
    )
    values = np.arange(100.0)
    turning = Turning(spec, [{"volume_count": 2}], SimpleNamespace(time=[2.5], values=values))
    first = layout.SHAFT_SIZE + layout.PRESSURE
    assert turning.pressures_at == [first, first + layout.VOLUME_SIZE]
    assert turning.pressure_in("case") == first + layout.VOLUME_SIZE
    assert turning.seconds == 2.5


def test_a_gauges_valve_leads_from_the_cylinder_into_eight_cubic_centimetres(monkeypatch):
    monkeypatch.setattr(spun, "replace", lambda _, **to: to)
    spec = SimpleNamespace(
        cylinders=[SimpleNamespace(name="a"), SimpleNamespace(name="b")],
        volumes=(), passages=(), ambient_pressure=9e4, ambient_temperature=280.0,
    )  # fmt: skip
    found = spun._with_gauge(spec, 1)
    (hose,), (valve,) = found["volumes"], found["passages"]
    assert (hose.name, hose.volume, hose.pressure, hose.temperature) == ("gauge", 8e-6, 9e4, 280.0)
    assert (valve.start, valve.end, valve.one_way) == ("b", "gauge", True)
    assert (valve.area, valve.coefficient) == (4e-6, 0.6)


@pytest.mark.parametrize(
    ("rotor", "coupling", "inertia", "behind"),
    [
        (1.5e-4, "one_way", 5e-3, 1.5e-4),
        (0.5e-4, "one_way", 5.05e-3, 0.0),
        (1.5e-4, "rigid", 5.15e-3, 0.0),
    ],
)
def test_a_rotor_of_over_a_fiftieth_is_left_behind_by_a_clutch(
    monkeypatch, rotor, coupling, inertia, behind
):
    """A wheel of 3e-3 and two throws of 1e-3 kg·m² are 5e-3, a fiftieth of it 1e-4.

    Geared by a half a rotor has four times its inertia at the crank.
    """
    throws = [SimpleNamespace(cylinders=(0,)), SimpleNamespace(cylinders=(1,))]
    monkeypatch.setattr(spun, "throws", lambda _: throws)
    told_of = told(monkeypatch, spun, "rotating_inertia", 1e-3)
    monkeypatch.setattr(spun, "flywheel_inertia", lambda _: 3e-3)
    monkeypatch.setattr(spun, "torque_at_a_stand", lambda _: 1.5)
    starter = SimpleNamespace(
        inertia=rotor / 4.0, ratio=0.5, coupling=coupling, no_load_speed=300.0, pull_force=None
    )
    plain = SimpleNamespace(starter=starter)
    line = spun.starter_line(plain)
    assert line.inertia == pytest.approx(inertia, rel=1e-12)
    assert line.rotor == pytest.approx(behind, rel=1e-12)
    assert (line.starter_stall, line.starter_free) == pytest.approx((3.0, 150.0), rel=1e-12)
    assert line.starter_one_way is (coupling == "one_way")
    assert told_of == [(plain, (0,)), (plain, (1,))]


def test_an_engine_on_its_shaft_begins_with_the_air_around_in_it(monkeypatch):
    """It rubs, its oil is thick, and each cylinder is as the air around."""
    spec = SimpleNamespace(ambient_pressure=9e4, ambient_temperature=280.0)
    made = told(monkeypatch, spun, "network", "network")
    monkeypatch.setattr(spun, "replace", lambda what, *, shaft: (what, shaft))
    holes = told(monkeypatch, spun, "with_holes", spec)
    gauge = told(monkeypatch, spun, "_with_gauge", spec)
    built = told(monkeypatch, spun, "build_engine", "engines")
    rubs = told(monkeypatch, spun, "let_rub", None)
    thick = told(monkeypatch, spun, "thicken", None)
    state = told(monkeypatch, spun, "start_state", "state")
    plain = SimpleNamespace(cylinders=(1, 2))
    found = spun.on_its_shaft(plain, "walls", SHAFT, 1.5, speed=20.0, gauge=1)
    assert (found.spec, found.engines, found.state) == (spec, "engines", "state")
    assert made == [(plain, "walls", (None, None))]
    assert holes == [(("network", SHAFT), plain)]
    assert gauge == [(spec, 1)]
    assert built == [(spec,)]
    assert rubs == thick == [("engines", plain)]
    assert state[0][:4] == (spec, "engines", 1.5, 20.0)
    assert [(one.pressure, one.temperature) for one in state[0][4]] == [(9e4, 280.0)] * 2


def test_every_step_is_kept_with_time_shaft_and_pressures(monkeypatch):
    """Two pieces of a row each after the one it begins with; columns count 1, 2, 3 ... by place."""
    wide = layout.SHAFT_SIZE + 2 * layout.VOLUME_SIZE
    ends = iter([-1, spun.REACHED])
    asked = []

    def advance(state, engines, factors, until, until_angle, rows, events, most):
        asked.append((engines, factors, until, until_angle, events.shape, most))
        rows[0] = 1000.0 * len(asked) + np.arange(1 + wide)
        after = SimpleNamespace(time=rows[0, :1].copy(), values=rows[0, 1:].copy())
        return after, 1, next(ends)

    monkeypatch.setattr(spun, "advance", advance)
    monkeypatch.setattr(spun, "steady_factors", lambda _: "factors")
    engines = [{"volume_count": 2}]
    start = SimpleNamespace(time=np.zeros(1), values=np.arange(1.0, 1.0 + wide))
    begun = Turning(SimpleNamespace(cylinders=(1,)), engines, start)
    after, ran = spun.turned_on(begun, 3.0, until_angle=7.0)
    assert asked == [(engines, "factors", 3.0, 7.0, (4000, 1), 4000)] * 2
    assert ran.time.tolist() == [0.0, 1000.0, 2000.0]
    assert ran.angle.tolist() == [1.0, 1001.0, 2001.0]
    assert ran.speed.tolist() == [2.0, 1002.0, 2002.0]
    first = 1.0 + layout.SHAFT_SIZE + layout.PRESSURE
    assert ran.pressure[0].tolist() == [first, first + layout.VOLUME_SIZE]
    assert ran.pressure[2].tolist() == [2000.0 + first, 2000.0 + first + layout.VOLUME_SIZE]
    assert after.seconds == 2000.0


def test_a_starter_that_turns_a_tenth_quicker_has_a_tenth_more_of_all():
    last = rows([0.0], [0.0], [1.0])
    turning = Steadily(SHAFT, 50.0, 40.0, last).quicker(1.1)
    assert turning.shaft.starter_stall == pytest.approx(2.2, rel=1e-12)
    assert turning.shaft.starter_free == pytest.approx(110.0, rel=1e-12)
    assert (turning.speed, turning.at_top) == pytest.approx((55.0, 44.0), rel=1e-12)
    assert turning.shaft.inertia == 5e-3


def test_the_slowest_firing_top_is_looked_for_in_each_cycle_passed(monkeypatch):
    """From 1 to 1 + 8π rad at 100 less its angle: the last top of 2 that is passed, 2 + 4π.

    That of 6π is 6π itself; where none is passed the mean is told.
    """
    monkeypatch.setattr(steadily, "firing_angles", lambda _: (2.0, 6 * math.pi))
    angle = np.linspace(1.0, 1.0 + 8 * math.pi, 9)
    found = steadily.slowest_top(None, rows(angle, angle, 100.0 - angle))
    assert found == pytest.approx(100.0 - 6 * math.pi, rel=1e-12)
    short = rows([0.0, 1.0], [2.5, 3.5], [8.0, 8.0])
    assert steadily.slowest_top(None, short) == pytest.approx(1.0, rel=1e-12)


def test_a_shaft_that_turned_and_fell_under_half_a_radian_a_second_stood():
    """At 0.51 it turns, at 0.49 it doesn't, either way."""
    for way in (1.0, -1.0):
        shaft = Stalled(way)
        shaft.feel(way * np.array([0.0, 0.51]), let_off=False)
        assert shaft.over
        shaft.feel(way * np.array([0.49]), let_off=False)
        assert shaft.stood
        assert not shaft.over


# Turned until each cycle is as the one before


def kept(monkeypatch, means):
    """A starter of 100 rad/s asked for 50, that turns its last cycle at the means told."""
    means, asked, free = iter(means), [], []
    full = ShaftSpec(inertia=1.0, starter_stall=2.0, starter_free=100.0)
    monkeypatch.setattr(steadily, "starter_line", lambda _: full)
    monkeypatch.setattr(steadily, "firing_angles", lambda _: (7.0, 1.0))
    monkeypatch.setattr(steadily, "cold", lambda _: "cold")
    engines = np.zeros(1, [("shaft", [("starter_free", float)])])
    state = SimpleNamespace(time=[0.0], values=None)
    begun = told(monkeypatch, steadily, "on_its_shaft", Turning("spec", engines, state))
    holes = told(monkeypatch, steadily, "Decompression", None)

    def turned_on(turning, latest, *, until_angle, stop):
        asked.append((latest, until_angle))
        free.append(float(turning.engines[0]["shaft"]["starter_free"]))
        ends, lasted = turning.seconds + 5.0, CYCLE / next(means)
        past = until_angle - CYCLE
        ran = rows(
            [ends - 4.0, ends - lasted, ends], [past - 1.0, past + 1e-9, until_angle], [30, 40, 60]
        )
        return Turning("spec", turning.engines, SimpleNamespace(time=[ends], values=None)), ran

    monkeypatch.setattr(steadily, "turned_on", turned_on)
    slow = told(monkeypatch, steadily, "slowest_top", 33.0)
    plain = SimpleNamespace(use=SimpleNamespace(cranking_speed=50.0))
    found = steadily.kept_turning(plain)
    assert begun[0] == (plain, "cold", full, pytest.approx(1.0 + TEN_DEGREES), 50.0)
    assert holes[0][0] is plain
    assert holes[0][-1] is False
    assert slow == [(plain, found.last)]
    return found, asked, free


def test_a_trigger_is_let_back_by_what_it_turned_too_fast(monkeypatch):
    """60 for 50: 100 · 5/6 rad/s. Then 50.75, more than a hundredth off: times 50/50.75 again.

    50.4 is near enough. Three cycles at a time, of 12π rad, which at π rad/s last 12 s.
    """
    found, asked, free = kept(monkeypatch, [60.0, 50.75, 50.4])
    first, second = 100.0 * 5.0 / 6.0, 100.0 * 5.0 / 6.0 * 50.0 / 50.75
    assert found.shaft.starter_free == pytest.approx(second, rel=1e-8)
    assert free == pytest.approx([0.0, first, second], rel=1e-8)
    assert [one[0] for one in asked] == pytest.approx([12.0, 17.0, 22.0], rel=1e-12)
    begin = 1.0 + TEN_DEGREES
    assert [one[1] for one in asked] == pytest.approx(
        [begin + 3 * CYCLE, begin + 6 * CYCLE, begin + 9 * CYCLE], rel=1e-12
    )
    assert (found.speed, found.at_top) == (60.0, 33.0)


def test_what_turns_slower_than_asked_is_followed_until_two_looks_agree(monkeypatch):
    """40 and 40.5 are further apart than 0.405, 40.5 and 40.8 not; its trigger stays down."""
    found, asked, _ = kept(monkeypatch, [40.0, 40.5, 40.8])
    assert found.shaft.starter_free == 100.0
    assert len(asked) == 3


def test_a_starters_own_speed_is_its_mean_in_time():
    """10 rad/s for a second, then two in which it rises to 40: (10 + 50)/3 = 20."""
    ran = Spun(np.array([1.0, 2.0, 4.0]), None, None, np.array([10.0, 10.0, 40.0]), None)
    clutched = ShaftSpec(inertia=1.0, rotor=1.0)
    assert steadily.heard(clutched, ran) == pytest.approx(20.0, rel=1e-12)


def test_it_is_kept_turning_where_it_comes_over(monkeypatch):
    asked = told(monkeypatch, steadily, "kept_turning", "kept")
    over = told(monkeypatch, steadily, "comes_over", lambda plain, **_: plain == "light")
    assert steadily.steadily("light", "stop") == "kept"
    assert steadily.steadily("heavy", "stop") is None
    assert asked == [("light", "stop")]
    assert over == [("light", "stop"), ("heavy", "stop")]
