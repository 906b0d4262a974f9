"""What an engine does as it turns, and what its sparks and fuel come to, by stand-ins by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import layout
from firstfire.cycle.records import ShaftSpec
from firstfire.formulas import ignition
from firstfire.runs.start import (
    firing,
    first_combustion,
    fuelling,
    lit,
    supply,
    turned_by,
    turning_over,
)
from firstfire.runs.start.as_it_stands import AsItStands
from firstfire.runs.start.asked import Asked, Lived, Wrong
from firstfire.runs.start.cycles import per_cycle
from firstfire.runs.start.firing import Firing
from firstfire.runs.start.fuelling import Fuelling
from firstfire.runs.start.life import Life
from firstfire.runs.start.marks import (
    HOLE_SHUTS,
    INTAKE_BOTTOM,
    INTAKE_TOP,
    TOOTH_BEGINS,
    TOOTH_ENDS,
    marks_after,
    marks_before,
)
from firstfire.runs.start.mishaps import Mishaps
from firstfire.runs.start.turning_over import TurningOver

TURN, CYCLE = 2 * math.pi, 4 * math.pi


# Where it is, and how fast


@pytest.mark.parametrize(
    ("angle", "place"), [(5.5, 0.5), (4.0, -1.0), (10.0, 5.0), (15.0, 10.0 - CYCLE)]
)
def test_where_a_cylinder_is_after_its_firing_top(angle, place):
    """Its firing is at 5 rad: from 2π after it on it is before the next."""
    one = SimpleNamespace(angle=angle, phases=[0.0, 5.0])
    assert Firing._place(one, 1) == pytest.approx(place, rel=1e-9)


@pytest.mark.parametrize("way", [1, -1])
def test_the_last_turn_is_from_the_mark_that_is_nine_tenths_of_one_away(way):
    """0.9 · 2π = 5.65: not from 5.5 but from 5.9 rad away, in 2 - 1.5 s: 11.8 rad/s."""
    passed = [(0.5, 20.0 - way * 9.0), (1.5, 20.0 - way * 5.9), (1.8, 20.0 - way * 5.5)]
    one = SimpleNamespace(now=2.0, angle=20.0, way=way, passed=passed, asked=Asked(speed=3.0))
    assert AsItStands.last_turn.fget(one) == pytest.approx(11.8, rel=1e-9)


def test_before_a_turn_is_over_its_first_speed_counts_or_all_that_it_has_turned():
    """4 rad in 2 s; never less than 1 rad/s."""
    one = SimpleNamespace(now=2.0, angle=20.0, way=1, passed=[(0.0, 16.0)], asked=Asked(speed=3.0))
    assert AsItStands.last_turn.fget(one) == 3.0
    one.asked = Asked()
    assert AsItStands.last_turn.fget(one) == pytest.approx(2.0, rel=1e-12)
    one.passed = [(0.0, 19.0)]
    assert AsItStands.last_turn.fget(one) == 1.0


def test_a_mean_speed_between_two_moments():
    """From 2 to 8 rad in 3 s."""
    spun = SimpleNamespace(time=np.array([0.0, 1, 2, 4, 5]), angle=np.array([0.0, 2, 3, 8, 99]))
    lived = Lived(Asked(), spun, (), None, None, None)
    assert lived.mean_speed(1.0, 4.5) == pytest.approx(2.0, rel=1e-12)
    assert lived.mean_speed(5.0) == 0.0


def test_backwards_it_is_looked_at_before_it_comes_to_its_mark():
    """0.001 rad and a hundredth of that past it at 2 rad/s; 2 ms at most."""
    one = SimpleNamespace(angle=10.0, speed=-2.0)
    assert TurningOver._back_to(one, 9.999) == pytest.approx(1.01e-3 / 2.0, rel=1e-9)
    assert TurningOver._back_to(one, 9.0) == 2e-3
    one.speed = 0.0
    assert TurningOver._back_to(one, 9.999) == 2e-3


@pytest.mark.parametrize(("angle", "out"), [(45.9, False), (46.1, True)])
@pytest.mark.parametrize("way", [1, -1])
def test_a_rope_of_half_a_metre_on_a_drum_of_50_mm(way, angle, out):
    """2 · 0.5/0.05 = 20 rad of the drum; geared 2 to 1 the crank turns 40 from its 6."""
    starter = SimpleNamespace(pull_length=0.5, drum_diameter=0.05, ratio=2.0)
    one = SimpleNamespace(
        plain=SimpleNamespace(starter=starter), way=way, angle=6.0 + way * (angle - 6.0),
        passed=[(0.0, 6.0), (1.0, 30.0)],
    )  # fmt: skip
    assert TurningOver._pulled_out(one) is out


def test_let_go_it_is_rid_of_a_rigid_starter():
    """0.8 kg·m² geared 2 to 1 are 0.2 of 0.5."""
    starter = SimpleNamespace(inertia=0.8, ratio=2.0)
    one = SimpleNamespace(plain=SimpleNamespace(starter=starter), shaft=ShaftSpec(inertia=0.5))
    assert TurningOver._bare(one) == pytest.approx(0.3, rel=1e-12)
    one.shaft = ShaftSpec(inertia=0.5, rotor=0.1)
    assert TurningOver._bare(one) == 0.5


def test_a_joint_that_slips_puts_all_sparks_later():
    """0.2 rad late and 0.3 more."""
    mishaps = SimpleNamespace(feel_starter=lambda _rows: None, feel_joint=bool, slipped=0.3)
    one = SimpleNamespace(
        asked=Asked(wrong=Wrong(spark_shift=0.2, slips_at=5.0)), let_go=None, mishaps=mishaps,
        phases=[0.0, 5.0],
    )  # fmt: skip
    TurningOver._suffer(one, [1])
    assert one.sparked_at == pytest.approx([0.5, 5.5], rel=1e-12)


def test_an_engine_is_heard_three_tenths_of_a_second_before_it_is_let_go(monkeypatch):
    """Fast since 2 s: on at 2.29, let go at 2.31."""
    given = []
    one = SimpleNamespace(
        stood=SimpleNamespace(feel=lambda _angle: None), angle=5.0, reversed=None, way=1, seen=[],
        letting_off=SimpleNamespace(acts=False), let_go=None, lights=True, last_turn=100.0,
        asked=Asked(seconds=9.0, let_go_at=90.0), fast_since=2.0, now=2.29, clocks=[],
        plain="plain", shaft=ShaftSpec(inertia=0.5, starter_stall=9.0, rotor=0.2),
        _pulled_out=lambda: False, _stands=lambda: False, _bare=lambda: 0.3, _turn_by=given.append,
    )  # fmt: skip
    monkeypatch.setattr(turning_over, "spark_timing", lambda plain: {"plain": "timing"}[plain])
    TurningOver._watch(one)
    assert one.let_go is None
    one.now = 2.31
    TurningOver._watch(one)
    assert (one.let_go, one.timing) == (2.31, "timing")
    (shaft,) = given
    assert (shaft.inertia, shaft.starter_stall, shaft.rotor) == (0.3, 0.0, 0.0)


@pytest.mark.parametrize(("now", "over"), [(4.2, False), (4.3, True)])
def test_a_kick_is_followed_for_a_quarter_of_a_second_and_a_run_as_long_as_asked(now, over):
    """Thrown back at 4.04 s, or let go at 3.25 and followed for 1."""
    one = SimpleNamespace(
        fed=[], reversed=(4.04, 9.0), now=now, let_go=None, asked=Asked(after=1.0)
    )
    assert Life._over(one) is over
    one.reversed, one.let_go = None, 3.25
    assert Life._over(one) is over


def test_what_turns_it_backwards_is_rigid(monkeypatch):
    """0.3 + 0.2 kg·m²; a bearing drags by 1.5 N·m more than 0.5."""
    line = ShaftSpec(inertia=0.3, rotor=0.2, starter_stall=10.0, starter_free=50.0,
                     starter_one_way=True, friction=0.5)  # fmt: skip
    monkeypatch.setattr(turned_by, "starter_line", lambda plain: {"plain": line}[plain])
    found = turned_by.turned_by("plain", Wrong(drag=1.5, backwards=True))
    assert turned_by.turned_by("plain", Wrong(drag=1.5)).starter_stall == 10.0
    assert (found.starter_stall, found.starter_free, found.rotor) == (-10.0, -50.0, 0.0)
    assert (found.inertia, found.friction) == pytest.approx((0.5, 2.0), rel=1e-12)
    assert not found.starter_one_way


# Marks


TIMING = SimpleNamespace(leading=0.7, trailing=0.4, turn=TURN)


@pytest.mark.parametrize(
    ("angle", "at", "kind"),
    [(-0.6, -0.4, TOOTH_ENDS), (-0.4, 5.0 - TURN + 4.0, None), (3.0, TURN - 0.7, TOOTH_BEGINS),
     (TURN - 0.3, TURN, INTAKE_TOP), (TURN + 0.1, 3 * math.pi, INTAKE_BOTTOM)],
)  # fmt: skip
def test_what_comes_next_going_forwards(angle, at, kind):
    """A firing at 0: a tooth from 0.7 to 0.4 before each top, the intake from 2π to 3π."""
    found = marks_after(angle, [0.0], [0.0], TIMING)
    if kind is None:
        at, kind = TURN - 0.7, TOOTH_BEGINS
    assert [(one.kind, one.cylinder) for one in found] == [(kind, 0)]
    assert found[0].angle == pytest.approx(at, rel=1e-9)


@pytest.mark.parametrize(
    ("angle", "at", "kind"),
    [(-0.3, -0.4, TOOTH_BEGINS), (-0.5, -0.7, TOOTH_ENDS), (4.0, math.pi, INTAKE_BOTTOM),
     (TURN + 0.1, TURN, INTAKE_TOP), (3.0, -0.4, TOOTH_BEGINS)],
)  # fmt: skip
def test_what_comes_next_going_backwards(angle, at, kind):
    """A tooth is met 0.4 before top and left at 0.7; it draws on its way down from the top at 2π to
    the bottom at π."""
    (found,) = marks_before(angle, [0.0], [0.0], TIMING)
    assert (found.kind, found.cylinder) == (kind, 0)
    assert found.angle == pytest.approx(at, rel=1e-9)


def test_a_hole_shuts_before_each_firing_and_marks_at_one_angle_come_together():
    """0.9 before 0, 4π - 0.9 next; a wheel 0.2 late has its tooth there as well at 0.5."""
    (found,) = marks_after(-1.0, [0.0], [0.0], TIMING, 0.9)
    assert (found.angle, found.kind) == (pytest.approx(-0.9), HOLE_SHUTS)
    (found,) = marks_after(3 * math.pi + 0.1 + 2.0, [0.0], [0.3], TIMING, 0.9)
    assert (found.angle, found.kind) == (pytest.approx(CYCLE - 0.9), HOLE_SHUTS)
    both = marks_after(-0.6, [0.0], [0.2], TIMING, 0.5)
    assert {one.kind for one in both} == {HOLE_SHUTS, TOOTH_BEGINS}


def test_marks_of_a_firing_at_5_rad_with_its_wheel_at_5_2():
    """Its hole shuts 0.9 before; its tooth is 4.5 to 4.8; its intake begins at 5 - 2π."""
    (found,) = marks_after(4.05, [5.0], [5.2], TIMING, 0.9)
    assert (found.angle, found.kind) == (pytest.approx(4.1, rel=1e-9), HOLE_SHUTS)
    (found,) = marks_after(4.05, [5.0], [5.2], TIMING)
    assert (found.angle, found.kind) == (pytest.approx(4.5, rel=1e-9), TOOTH_BEGINS)
    (found,) = marks_before(4.4, [5.0], [5.2], TIMING)
    assert (found.angle, found.kind) == (pytest.approx(5.0 - TURN, rel=1e-9), INTAKE_TOP)


# Sparks


@pytest.mark.parametrize(("place", "sparks"), [(4.6, 1), (-4.6, 1), (4.8, 0), (-4.8, 0)])
def test_a_wasted_spark_between_exhaust_and_intake_is_none(monkeypatch, place, sparks):
    """Beyond 1.5π = 4.71 rad of its firing it falls on the other top."""
    monkeypatch.setattr(
        firing, "charge_now",
        lambda *_: SimpleNamespace(equivalence_ratio=1.1, burned_fraction=0.05),
    )  # fmt: skip
    event = {"burning": 0, "fired": 0, "closed": 1}
    one = SimpleNamespace(
        plain=SimpleNamespace(spark=SimpleNamespace(wasted=True)), _place=[place].__getitem__,
        state=SimpleNamespace(cylinders=[event]), engines=None, sparks=[], now=3.0, speed=50.0,
        _burn=lambda row, _charge, _place, energy: {(0, 0.03): "weak"}[row, energy],
    )  # fmt: skip
    due = SimpleNamespace(cylinder=0, length=None, asked=0.2, energy=0.03)
    Firing._come(one, due)
    assert len(one.sparks) == sparks
    for spark in one.sparks:
        assert (spark.angle, spark.asked, spark.energy, spark.missed) == (place, -0.2, 0.03, "weak")
        assert (spark.mixture, spark.burned, spark.seconds) == (1.1, 0.05, 3.0)


def test_a_burn_by_law_begins_after_its_wait():
    """3 s and 4 ms."""
    lighting = SimpleNamespace(
        by_law=lambda *given: {(1, "charge", -0.2, 60.0): (4e-3, 9e-3)}[given]
    )
    one = SimpleNamespace(lighting=lighting, last_turn=60.0, now=3.0, waiting=[])
    assert Firing._burn_by_law(one, 1, "charge", -0.2) is None
    (due,) = one.waiting
    assert due.seconds == pytest.approx(3.004, rel=1e-12)
    assert (due.cylinder, due.asked, due.energy, due.length) == (1, 0.2, 0.0, 9e-3)


def test_a_charge_is_fed_for_a_cycle_at_the_speed_of_the_last_turn():
    """4π at 40 rad/s: 0.1π s."""
    asked = []
    fed = SimpleNamespace(mixture=1.2, liquid=1e-8)
    induction = SimpleNamespace(
        mixed=lambda *given: {("engines", "state", 1, 1.2): "mixed"}[given],
        narrowed=lambda *given: {("engines", "mixed", 1, 1e-8): "narrowed"}[given],
    )
    one = SimpleNamespace(
        fuelling=SimpleNamespace(charge=lambda *given: asked.append(given) or fed), fed=[],
        plain=SimpleNamespace(surroundings=SimpleNamespace(air_pressure=1e5)), last_turn=40.0,
        now=3.0, drawn_at={0: 7e4}, induction=induction, engines="engines", state="state",
    )  # fmt: skip
    Firing._feed(one, 1)
    assert asked == [(1, 3.0, pytest.approx(0.1 * math.pi, rel=1e-12), 1e5)]
    assert (one.state, one.fed) == ("narrowed", [fed])


def test_what_a_cylinder_drew_is_told_with_the_mean_pressure_in_its_runner(monkeypatch):
    """Since 1 s: 80 and 90 kPa of its runner's column."""
    monkeypatch.setattr(firing, "air_in", lambda state, row: {("state", 0): 2e-5}[state, row])
    rows = np.zeros((3, 8))
    rows[:, 0], rows[:, 4 + 2] = [0.9, 1.0, 1.1], [70e3, 80e3, 90e3]
    drew = []
    one = SimpleNamespace(
        fuelling=SimpleNamespace(drew=lambda *given: drew.append(given)), opened={0: 1.0},
        state="state", seen=[rows], induction=SimpleNamespace(runner=[2]), drawn_at={},
    )  # fmt: skip
    Firing._drew(one, 0)
    assert drew == [(0, 2e-5)]
    assert one.drawn_at[0] == pytest.approx(85e3, rel=1e-12)


def test_of_a_cylinders_tooth_the_next_plug_sparks_where_leads_are_swapped():
    """Half of 40 mJ reaches it, of what its supply leaves at 20 rad/s."""
    due = SimpleNamespace(time=3.1, asked=0.2, energy=0.05)

    class Clock:
        def at_edge(self, now, rising, *, supplied):
            assert (now, rising, supplied) == (3.0, True, True)
            return self, due

    values = np.zeros(3)
    values[layout.SPEED], values[layout.ROTOR] = 20.0, 99.0
    one = SimpleNamespace(
        asked=Asked(wrong=Wrong(swapped=True, spark_share=0.5)), now=3.0, clocks=[Clock()] * 3,
        mishaps=SimpleNamespace(awake=lambda now: now == 3.0), shaft=ShaftSpec(inertia=1.0),
        state=SimpleNamespace(values=values), let_go=None, waiting=[],
        supply=SimpleNamespace(energy=lambda energy, turns, on: {(0.05, 20.0, True): 0.04}[
            energy, turns, on]),
    )  # fmt: skip
    Firing._edge(one, 1, rising=True)
    (found,) = one.waiting
    assert (found.cylinder, found.seconds, found.asked) == (2, 3.1, 0.2)
    assert found.energy == pytest.approx(0.02, rel=1e-12)


def test_a_coil_has_the_square_of_the_voltage_that_a_starter_leaves():
    """9 of 12 V: 9/16 of 40 mJ. Turned backwards it is asked as if forwards."""
    made = SimpleNamespace(
        battery=SimpleNamespace(voltage=12.0, left=lambda speed, free: {(20.0, 50.0): 9.0}[
            speed, free]),
        free=-50.0,
    )  # fmt: skip
    assert supply.Supply.energy(made, 0.04, -20.0, on=True) == pytest.approx(0.0225, rel=1e-12)
    assert supply.Supply.energy(made, 0.04, -20.0, on=False) == 0.04


def test_false_edges_come_so_many_a_second():
    """Of 20 a second one in 0.05 s in the mean, after 3."""
    chance = SimpleNamespace(exponential=lambda mean: mean)
    one = SimpleNamespace(asked=Asked(wrong=Wrong(stray=20.0)), chance=chance)
    Mishaps.another_stray(one, 3.0)
    assert one.next_stray == pytest.approx(3.05, rel=1e-12)


def test_a_controller_is_awake_a_tenth_of_a_second_after_its_voltage_was_last_low():
    """At 3 and 8 of 20 rad/s the starter draws 0.85 and 0.6 of its most; from 0.55 on it is low."""
    one = SimpleNamespace(
        asked=Asked(wrong=Wrong(resets_at=0.55)), shaft=ShaftSpec(inertia=1.0, starter_free=20.0),
        lost_at=-math.inf,
    )  # fmt: skip
    rows = np.zeros((4, 6))
    rows[:, 0], rows[:, 2], rows[:, 3] = [1.0, 1.1, 1.2, 1.3], [3.0, 8.0, 9.5, 19.0], 19.0
    Mishaps.feel_starter(one, rows)
    assert one.lost_at == 1.1
    assert Mishaps.awake(one, 1.21)
    assert not Mishaps.awake(one, 1.19)


def test_a_sparks_peak_stands_within_a_quarter_of_a_turn():
    """Of 3 to 9 bar those within π/2 of 5 rad; 9 bar stand at 7."""
    spun = SimpleNamespace(
        time=np.array([0.0, 1, 2, 3, 4]), angle=np.array([3.0, 4, 5, 6.5, 7]),
        pressure=np.array([[8e5, 3e5, 4e5, 5e5, 9e5]]).T,
    )  # fmt: skip
    spark = SimpleNamespace(seconds=2.0, cylinder=0, speed=30.0, angle=-0.2, mixture=1.1,
                            missed=None)  # fmt: skip
    (found,) = per_cycle(SimpleNamespace(spun=spun, sparks=[spark]))
    assert (found.peak, found.before_top) == (5e5, 0.2)


# What lights


@pytest.mark.parametrize(("volts", "breaks"), [(4.61e3, True), (4.62e3, False)])
def test_a_spark_without_a_lead_back_has_a_share_of_its_coils_voltage(volts, breaks):
    """√(2 · 20 mJ/100 pF) = 20 kV, of which 3 in 13 stand across the gap: 4615 V. What breaks fills
    13 pF: ½ · 13 pF · U², of which its breakdown gives its share."""
    found = lit._without_return(20e-3, volts)
    given = ignition.BREAKDOWN * 0.5 * 13e-12 * volts**2
    assert found == pytest.approx(given if breaks else 0.0, rel=1e-9)


# Fuel of a start


def test_what_is_metered_next_makes_up_for_what_was_lacking():
    """0.2 lacked where one more brings 0.4: half more; at most a third more, a quarter less."""
    one = SimpleNamespace(wanted=1.1, most=9.0)

    def feed(metered, gain=0.4):
        return SimpleNamespace(metered=metered, gain=gain)

    assert Fuelling._made_up(one, feed(2.0), 0.9) == pytest.approx(2.5, rel=1e-12)
    assert Fuelling._made_up(one, feed(2.0), 1.3) == pytest.approx(1.5, rel=1e-12)
    assert Fuelling._made_up(one, feed(1.2), 0.7) == pytest.approx(1.6, rel=1e-12)
    assert Fuelling._made_up(one, feed(1.2), 1.5) == pytest.approx(0.9, rel=1e-12)
    assert Fuelling._made_up(one, feed(8.0), 0.5) == 9.0
    assert Fuelling._made_up(one, feed(2.0, 0.0), 0.5) == 2.0


def test_a_fuelling_begins_with_what_was_primed_or_left(monkeypatch):
    """3 pulses of 4 mg; at most 2.5 times what a mixture of 1.2 takes: 3."""
    monkeypatch.setattr(fuelling, "components", lambda fuel: ("of", fuel.carbon))
    monkeypatch.setattr(fuelling.fuel_mix, "air_fuel_ratio", lambda _atoms: 15.0)
    monkeypatch.setattr(
        fuelling, "pulse", lambda one, parts: {True: {"a": 4e-6}[parts]}[one is plain]
    )
    monkeypatch.setattr(fuelling, "primed", lambda _state, fuel, mass: (fuel, mass))
    monkeypatch.setattr(fuelling, "path_of", lambda one, parts: (one is plain, parts))
    monkeypatch.setattr(
        fuelling, "_full", lambda one, parts: {(True, "a"): 1e-4}[one is plain, parts]
    )
    plain = SimpleNamespace(
        fuel=SimpleNamespace(carbon=1, hydrogen=2, oxygen=3), cylinders=["a"],
        intake=SimpleNamespace(equivalence_ratio=1.2),
    )  # fmt: skip
    one = Fuelling(plain, Asked(prime=3.0, enriched=2.5))
    assert (one.wanted, one.air_fuel, one.fuel) == (1.2, 15.0, ("of", 1))
    assert one.most == pytest.approx(3.0, rel=1e-12)
    (feed,) = one.feeds
    assert feed.state == (("of", 1), pytest.approx(12e-6, rel=1e-12))
    assert (feed.path, feed.air) == ((True, "a"), 1e-4)
    assert Fuelling(plain, Asked(), ["wet"]).left == ("wet",)


def test_a_first_charges_fuel_is_halved_to_seven_times(monkeypatch):
    """Each time what the air just burns brings 0.3: 1.2 wants 4 of at most 8, 4 or 1/16 more; 2.4
    of 8 come to 0.3 each. 150 mg of air burn 10 of fuel."""

    def cycle(state, path, fuel, air, warm, around, metered):
        assert (path, fuel, air, warm, around) == (
            "path",
            {"ethanol": 1.0},
            150e-6,
            290.0,
            "around",
        )
        return state, 0.3 * metered / 10e-6

    monkeypatch.setattr(fuelling, "_cycle", cycle)
    found = fuelling._first.__wrapped__(
        "path", (("ethanol", 1.0),), 150e-6, 290.0, "around", 15.0, (1.21, 8.0)
    )
    assert found[0] == pytest.approx(4.0625, rel=1e-12)
    assert found[1] == pytest.approx(0.3, rel=1e-12)


def test_what_is_metered_is_told_by_the_air(monkeypatch):
    """Twice what 150 mg of air just burn, 1 to 15: 20 mg."""
    monkeypatch.setattr(fuelling, "_cycle", lambda *given: given)
    feed = SimpleNamespace(state="state", path="path", air=150e-6)
    one = SimpleNamespace(fuel="fuel", _warm=290.0, air_fuel=15.0)
    found = Fuelling._next(one, feed, 2.0, "around")
    assert found[:6] == ("state", "path", "fuel", 150e-6, 290.0, "around")
    assert found[6] == pytest.approx(20e-6, rel=1e-12)


def test_air_that_fills_a_cylinder_and_its_priming_pulse(monkeypatch):
    """50 cm³ at 287.04 kPa and 500 K: 0.1 g. At 1.2 times just enough, 1 to 15: 8 mg."""
    around = SimpleNamespace(air_pressure=287.04e3, air_temperature=500.0)
    plain = SimpleNamespace(
        surroundings=around, fuel=SimpleNamespace(carbon=1, hydrogen=2, oxygen=3),
        intake=SimpleNamespace(equivalence_ratio=1.2),
    )  # fmt: skip
    monkeypatch.setattr(fuelling, "swept_volume", lambda parts: {"parts": 50e-6}[parts])
    monkeypatch.setattr(fuelling.fuel_mix, "air_fuel_ratio", lambda _atoms: 15.0)
    assert fuelling._full(plain, "parts") == pytest.approx(1e-4, rel=1e-12)
    assert fuelling.pulse(plain, "parts") == pytest.approx(8e-6, rel=1e-12)
    monkeypatch.setattr(fuelling, "pulse_volume", lambda _plain: 2e-8)
    assert fuelling.pulses_of(plain, 6e-8) == pytest.approx(3.0, rel=1e-12)


def test_a_closed_choke_leaves_a_fifth_of_a_venturi(monkeypatch):
    """Of 60 mm² 12."""
    monkeypatch.setattr(fuelling, "venturi_area", lambda _plain: 60e-6)
    cylinder = SimpleNamespace(bore=0.04, stroke=0.036, compression_ratio=8.0)
    parts = SimpleNamespace(cylinder=cylinder, runner=SimpleNamespace(diameter=0.02, length=0.05))
    plain = SimpleNamespace(intake=SimpleNamespace(mixture_by="carburettor"))
    found = fuelling.path_of(plain, parts)
    assert found.narrowest == pytest.approx(12e-6, rel=1e-12)
    assert (found.by, found.port_diameter, found.port_length) == ("carburettor", 0.02, 0.05)


def test_a_charge_is_metered_for_no_less_than_a_twentieth_of_a_full_one(monkeypatch):
    """Of 100 mg 5."""
    monkeypatch.setattr(fuelling, "_full", lambda _plain, parts: {"parts": 1e-4}[parts])
    feed = fuelling._Feed("path", "state")
    one = SimpleNamespace(plain=SimpleNamespace(cylinders=["parts"]), feeds=[feed])
    Fuelling.drew(one, 0, 3e-6)
    assert one.feeds[0].air == pytest.approx(5e-6, rel=1e-12)
    Fuelling.drew(one, 0, 8e-6)
    assert one.feeds[0].air == 8e-6


def test_what_is_held_is_the_mean_mixture(monkeypatch):
    monkeypatch.setattr(fuelling, "equivalence_ratio", lambda vapour, air: vapour / air)
    state = SimpleNamespace(vapour=6.0)
    feeds = [SimpleNamespace(state=state, air=4.0), SimpleNamespace(state=state, air=12.0)]
    assert Fuelling.held.fget(SimpleNamespace(feeds=feeds)) == pytest.approx(1.0, rel=1e-12)


@pytest.mark.parametrize(("phi", "met"), [(2.05, 3), (1.95, 3), (2.07, 0), (1.93, 0)])
def test_a_charge_has_come_to_it_within_3_percent(phi, met):
    """Wanted 2, so within 0.06; two had come to it. A cycle of 5 s counts for 2."""

    def told(row, now, mixture):
        return row, now, mixture

    def following(feed, times, around):
        assert (feed.metered, times, around) == (1.5, 1.5, (2.0, 9e4))
        return "after", phi

    feed = fuelling._Feed("path", "state", metered=1.5, gain=0.3, met=2)
    one = SimpleNamespace(
        feeds=["other", feed], asked=Asked(), wanted=2.0, _next=following, _told=told,
        _made_up=lambda feed, mixture: feed.metered + mixture,
    )  # fmt: skip
    assert Fuelling.charge(one, 1, 3.0, 5.0, 9e4) == (1, 3.0, phi)
    assert one.feeds[1].met == met
    assert one.feeds[1].state == "after"
    assert one.feeds[1].metered == pytest.approx(1.5 + phi, rel=1e-12)
    if met == 3:
        assert Fuelling.charge(one, 1, 4.0, 5.0, 9e4) == (1, 4.0, 2.0)


# The first combustion


def test_a_highest_pressure_is_of_its_own_cylinder():
    at = layout.SHAFT_SIZE + layout.VOLUME_SIZE + layout.PRESSURE
    values = np.zeros((2, 30))
    values[:, at], values[:, layout.SHAFT_SIZE + layout.PRESSURE] = [3e5, 8e5], 9e5
    life = SimpleNamespace(trace=SimpleNamespace(values=values))
    assert first_combustion._peak(life, 1) == 8e5


def test_a_burn_is_told_from_its_spark_on(monkeypatch):
    """Burned first at 30 rad, of a firing at 5 and a spark 0.5 before it: from 4.5 and two cycles,
    29.63 on."""
    monkeypatch.setattr(first_combustion, "told_burn", lambda *given: given)
    curves = SimpleNamespace(
        angle=np.array([29.0, 30.0, 31.0]), burned_fraction=np.array([[9, 9, 9], [0, 0.1, 0.5]]).T
    )
    angle, share, spark = first_combustion._burn(curves, 1, 5.0, -0.5)
    begins = 4.5 + 2 * CYCLE
    assert angle == pytest.approx(np.array([29.0, 30.0, 31.0]) - begins, rel=1e-9)
    assert share.tolist() == [0.0, 0.1, 0.5]
    assert spark == -0.5


def test_of_two_ways_to_burn_the_one_that_presses_higher_counts(monkeypatch):
    monkeypatch.setattr(first_combustion, "_peak", lambda one, row: one[row])
    law = SimpleNamespace(burned=lambda strong, stop: {(0.0, "stop"): [0, 5]}[strong, stop])
    ready = SimpleNamespace(
        burned=lambda strong, stop: {(0.0, "stop"): [9, 4]}[strong, stop], by_law=lambda: law
    )
    assert first_combustion._quicker(ready, 1, "stop") == (law, [0, 5])
    assert first_combustion._quicker(ready, 0, "stop") == (ready, [9, 4])


@pytest.mark.parametrize("lit_it", [True, False])
def test_a_first_combustion_is_told_at_its_spark(monkeypatch, lit_it):
    """Where none came at the one asked for, 0.2 rad before top."""
    mean = SimpleNamespace(sparks=[SimpleNamespace(cylinder=int(lit_it), angle=-0.1, speed=30.0)])
    ready = SimpleNamespace(
        speed=20.0, phases=[0.0, 5.0],
        burned=lambda strong, stop: {"stop": strong}[stop],
    )  # fmt: skip
    plain = SimpleNamespace(spark=SimpleNamespace(start_angle=0.2), fuel="fuel")
    monkeypatch.setattr(first_combustion, "_fired", lambda one, speed: {True: speed}[one is mean])
    monkeypatch.setattr(first_combustion, "_peak", lambda strong, row: (strong, row))
    monkeypatch.setattr(first_combustion, "bounded", lambda *given: given)
    found = first_combustion._told(plain, 1, ready, mean, "stop", held=True)
    angle, speed = (-0.1, 30.0) if lit_it else (-0.2, 20.0)
    assert (found.spark, found.speed, found.fired, found.held) == (angle, speed, speed, True)
    off = first_combustion.NINETY, first_combustion.RARE
    assert found.peaks == (speed, 1, ((off[0], 1), (off[1], 1)), 5.0, "fuel")


@pytest.mark.parametrize("stands", [True, False])
def test_what_its_starter_turns_on_is_told_as_it_is_and_the_rest_held(monkeypatch, stands):
    """Held at the 30 rad/s of its spark, by a wheel of 50 kg·m²."""
    mean = SimpleNamespace(
        sparks=[SimpleNamespace(speed=30.0)], stalled=SimpleNamespace(stood=stands)
    )
    made = []

    def ready(plain, row, shaft, speed, stop):
        made.append((plain, row, shaft, speed, stop))
        return SimpleNamespace(stands=False)

    monkeypatch.setattr(first_combustion, "ready_to_light", ready)
    monkeypatch.setattr(
        first_combustion, "_quicker", lambda one, row, stop: (one, {(1, "stop"): mean}[row, stop])
    )
    monkeypatch.setattr(
        first_combustion, "_told", lambda plain, row, _ready, _mean, _stop, held: (plain, row, held)
    )
    turned = SimpleNamespace(shaft="shaft", speed=20.0, at_top=5.0)
    assert first_combustion._free("plain", 1, turned, "stop") == ("plain", 1, stands)
    assert made[0] == ("plain", 1, "shaft", 20.0, "stop")
    assert made[1:] == ([("plain", 1, ShaftSpec(inertia=50.0), 30.0, "stop")] if stands else [])


def test_all_cylinders_are_lit_at_half_again_the_speed_of_a_quicker_starter(monkeypatch):
    """1.5 · 40 = 60 rad/s where it turns by itself at none."""
    plain = SimpleNamespace(cylinders=["a", "b"], use=SimpleNamespace(cranking_speed=40.0))
    turns = {"stop": None}
    monkeypatch.setattr(
        first_combustion, "steadily", lambda one, stop: {True: turns}[one is plain][stop]
    )
    monkeypatch.setattr(first_combustion, "_held", lambda one, *rest: (one is plain, *rest))
    monkeypatch.setattr(first_combustion, "_free", lambda one, *rest: (one is plain, *rest))
    found = first_combustion.first_combustions(plain, quicker=1.5, stop="stop")
    assert found == ((True, 0, 60.0, "stop"), (True, 1, 60.0, "stop"))
    turns["stop"] = SimpleNamespace(quicker=lambda by: ("turned", by))
    found = first_combustion.first_combustions(plain, quicker=1.5, stop="stop")
    assert found == ((True, 0, ("turned", 1.5), "stop"), (True, 1, ("turned", 1.5), "stop"))


def test_the_cycle_of_a_first_combustion_has_its_mean_torque(monkeypatch):
    """6 N·m over 2π rad of 4π: 3."""
    curves = SimpleNamespace(gas_torque=np.array([6.0, 6.0]), angle=np.array([1.0, 1.0 + TURN]))
    spec = SimpleNamespace(ambient_pressure=1e5, fuel="fuel", equivalence_ratio=1.1, water=0.02,
                           valves=(), passages=())  # fmt: skip
    sparks = [SimpleNamespace(cylinder=0, missed=None, angle=-0.3)]
    mean = SimpleNamespace(phases=[5.0], trace="trace", spec=spec, engines="engines",
                           sparks=sparks, state="state")  # fmt: skip
    monkeypatch.setattr(
        first_combustion, "cycle_trace", lambda *given: {("engines", "trace", 1e5): curves}[given]
    )
    monkeypatch.setattr(
        first_combustion, "_burn",
        lambda one, row, phase, spark: {(0, 5.0, -0.3): SimpleNamespace(spec="burn")}[
            row, phase, spark] if one is curves else None,
    )  # fmt: skip
    monkeypatch.setattr(first_combustion, "with_burns", lambda one, burns: {"burn": one}[burns[0]])
    monkeypatch.setattr(first_combustion, "gas_tables", lambda *given: given)
    gas = ("fuel", 1.1, 0.02)
    books = SimpleNamespace(energy=1e-6, mass=2e-6)
    monkeypatch.setattr(
        first_combustion, "closure", lambda *given: {("engines", gas, "trace"): books}[given]
    )
    monkeypatch.setattr(
        first_combustion, "cylinder_figures",
        lambda one, engines, trace, seen, row: (one is spec, engines, trace, seen is curves, row),
    )  # fmt: skip
    found = first_combustion._fired(mean, 30.0).cycle
    assert found.mean_gas_torque == pytest.approx(3.0, rel=1e-12)
    assert found.cylinders == ((True, "engines", "trace", True, 0),)
    assert found.health.energy_closure == 1e-6
    assert (found.speed, found.state) == (30.0, "state")


def test_a_burn_whose_spark_is_early_is_of_its_own_cycle(monkeypatch):
    """First burned at 6.2 rad of a firing at 0 and a spark 0.5 before it: 6.7 rad on, just more
    than half a cycle, is of the next: from 4π - 0.5 on."""
    monkeypatch.setattr(first_combustion, "told_burn", lambda *given: given)
    curves = SimpleNamespace(angle=np.array([6.2]), burned_fraction=np.array([[0.1]]))
    angle, _, _ = first_combustion._burn(curves, 0, 0.0, -0.5)
    assert angle == pytest.approx([6.2 - CYCLE + 0.5], rel=1e-9)


def test_an_intake_lasts_from_its_top_to_its_bottom():
    """From 2.5 to 3 s."""
    drew = []
    one = SimpleNamespace(now=3.0, angle=9.0, passed=[], opened={1: 2.5}, intakes={},
                          _drew=drew.append, letting_off=SimpleNamespace(shuts=0.0))  # fmt: skip
    Firing._meet(one, SimpleNamespace(cylinder=1, kind=INTAKE_BOTTOM))
    assert one.intakes[1] == pytest.approx(0.5, rel=1e-12)
    assert (drew, one.passed) == ([1], [(3.0, 9.0)])


def test_a_charge_burns_by_its_flame_or_by_law():
    """By law where it is asked or nothing was drawn in; a wet plug lights neither."""
    lighting = SimpleNamespace(travelling=lambda *given: {(1, "charge", 0.03, 0.5): "weak"}[given])
    one = SimpleNamespace(fed=[], intakes={1: 0.5}, asked=Asked(), lighting=lighting,
                          _burn_by_law=lambda *given: given)  # fmt: skip
    assert Firing._burn(one, 1, "charge", -0.2, 0.03) == "weak"
    one.intakes = {}
    assert Firing._burn(one, 1, "charge", -0.2, 0.03) == (1, "charge", -0.2)
    one.fed = [SimpleNamespace(cylinder=1, wet=True)]
    assert Firing._burn(one, 1, "charge", -0.2, 0.03) == "wet"
