"""What throws a shaft back, and what a first combustion meets before its top, by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import layout
from firstfire.cycle.records import ShaftSpec
from firstfire.formulas.normal import NINETY
from firstfire.runs.start import climbing, first_burn, kick_back, strong_burn
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.first_burn import FirstBurn
from firstfire.runs.start.life import Life

DEG = math.pi / 180


# Kick-back


def test_a_tired_starter_has_seven_tenths_of_torque_and_speed():
    found = kick_back._tired(ShaftSpec(inertia=0.1, starter_stall=20.0, starter_free=50.0))
    assert (found.starter_stall, found.starter_free) == pytest.approx((14.0, 35.0), rel=1e-12)
    assert found.inertia == 0.1


def sparks(monkeypatch, throws):
    """Those that are tried, rad before top, where one earlier than that throws it back."""
    tried = []

    def lit(plain, shaft, advance, strong, stop):
        assert (plain, shaft, strong, stop) == ("plain", "shaft", 1.5, None)
        tried.append(advance)
        assert len(tried) < 60
        return advance

    monkeypatch.setattr(kick_back, "_lit", lit)
    monkeypatch.setattr(
        kick_back, "_followed",
        lambda advance, stop: SimpleNamespace(reversed=None if advance <= throws else (1.0, stop)),
    )  # fmt: skip
    return tried


def test_the_earliest_safe_spark_is_found_to_a_quarter_of_a_degree(monkeypatch):
    """Thrown from 20.1° on: 5° at a time up to 25°, then halves of 20 to 25: 22.5, 21.25, 20.625,
    20.3125 and 20.15625 all throw it, the last two within a quarter of 20."""
    tried = sparks(monkeypatch, 20.1 * DEG)
    found = kick_back._earliest("plain", "shaft", 1.5, None)
    assert found / DEG == pytest.approx(20.0, rel=1e-9)
    steps = [-5.0, 0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 22.5, 21.25, 20.625, 20.3125, 20.15625]
    assert [one / DEG for one in tried] == pytest.approx(steps, abs=1e-9)


def test_where_none_throws_it_back_none_does_up_to_70_degrees(monkeypatch):
    tried = sparks(monkeypatch, math.inf)
    assert kick_back._earliest("plain", "shaft", 1.5, None) == math.inf
    assert [one / DEG for one in tried] == pytest.approx(list(range(-5, 71, 5)), abs=1e-9)


@pytest.mark.parametrize(
    ("wants", "least", "most"),
    [(5.0, 4.0, 4.0), (30.0, (10 / 30.1) ** 2, 1 / 9), (220.0, 0.0, 0.0),
     (0.2, (640 / 15) ** 2, (640 / 15) ** 2), (0.15, 4096.0, 4096.0)],
)  # fmt: skip
def test_energy_over_the_least_that_gets_over_its_top(monkeypatch, wants, least, most):
    """At 10 rad/s where 5 would do, halved to it: 4. Where 30 would, found to 0.1: a ninth. More
    than 20 times its speed is not looked for. Where 0.2 would, 10/64 does not and 10/32 does, nor
    is that near enough: 15/64 does, 42.7 times slower. Where
    0.15 would, 10/64 does: 64²."""

    tried = []

    def stopped(lit, speed, stop):
        assert (lit.speed, stop) == (10.0, None)
        tried.append(speed)
        assert len(tried) < 60
        return speed < wants

    monkeypatch.setattr(kick_back, "_stopped", stopped)
    found = kick_back._factor(SimpleNamespace(speed=10.0), None)
    assert least * (1 - 1e-12) <= found <= most * (1 + 1e-12)


def test_what_would_get_over_from_any_speed_has_no_factor(monkeypatch):
    """At 10 rad/s a hundredth of it is 0.1: 10/128 = 0.078 is less."""
    monkeypatch.setattr(kick_back, "_stopped", lambda _lit, speed, _stop: speed < 0.05)
    assert kick_back._factor(SimpleNamespace(speed=10.0), None) == math.inf


def test_another_speed_is_tried_on_a_copy(monkeypatch):
    turned = []
    other = SimpleNamespace(turn_at=turned.append, stalled=SimpleNamespace(stood="it stands"))
    monkeypatch.setattr(kick_back, "_followed", lambda one, stop: {"stop": one}[stop])
    lit = SimpleNamespace(again=lambda: other)
    assert kick_back._stopped(lit, 7.0, "stop") == "it stands"
    assert turned == [7.0]


def test_what_a_starter_feels_of_a_shaft_that_is_thrown_back():
    """From 5 rad back to 4.5. Slowed at once by (-1 + 3)/0.1 s = 20 rad/s²: 4 kg·m² geared 2 to 1
    are 1 at the crank, 20 N·m; its line gives 10 (1 + 1/10) = 11; 31 at the crank, 62 at its own
    shaft. At -3 rad/s 0.3 + 0.2 kg·m² have ½ · 0.5 · 9 = 2.25 J."""
    after = SimpleNamespace(
        angle=np.array([5.0, 4.8, 4.5, 4.6]), time=np.array([0.0, 0.1, 0.2, 0.3]),
        speed=np.array([-1.0, -3.0, -2.0, 1.0]),
    )  # fmt: skip
    lived = SimpleNamespace(reversed_at=7.0, spun=SimpleNamespace(since={7.0: after}.__getitem__))
    plain = SimpleNamespace(starter=SimpleNamespace(inertia=4.0, ratio=2.0))
    shaft = ShaftSpec(inertia=0.3, rotor=0.2, starter_stall=10.0, starter_free=10.0)
    found = kick_back._thrown(plain, shaft, lived)
    assert (found.angle, found.torque, found.energy) == pytest.approx((0.5, 62.0, 2.25), rel=1e-9)
    assert kick_back._thrown(plain, shaft, SimpleNamespace(reversed_at=None, spun=None)) is None


@pytest.mark.parametrize("lights", [True, False])
def test_all_of_a_kick_back_is_asked_of_a_tired_starter_but_the_mean(monkeypatch, lights):
    """Thrown 5° earlier than the strong one's 0.2 rad; its spark came 0.1 rad before top."""
    shaft = ShaftSpec(inertia=0.1, starter_stall=20.0, starter_free=50.0)
    tired = kick_back._tired(shaft)
    plain = SimpleNamespace(spark=SimpleNamespace(start_angle=0.15))

    def lit(given, by, advance, strong, stop):
        assert (given, by, strong, stop) == (plain, tired, NINETY, "stop")
        return SimpleNamespace(lights=lights, sparks=[SimpleNamespace(angle=-0.1)], asked=advance)

    def earliest(given, by, strong, stop):
        assert (given, stop) == (plain, "stop")
        return {(20.0, 0.0): 0.3, (14.0, NINETY): 0.2}[by.starter_stall, strong]

    def thrown(given, by, told):
        assert (given, by) == (plain, tired)
        return told

    monkeypatch.setattr(kick_back, "_lit", lit)
    monkeypatch.setattr(kick_back, "_earliest", earliest)
    monkeypatch.setattr(kick_back, "_thrown", thrown)
    monkeypatch.setattr(kick_back, "_factor", lambda one, stop: (one.asked, stop))
    monkeypatch.setattr(
        kick_back, "_followed", lambda one, stop: SimpleNamespace(told=lambda: (one.asked, stop))
    )
    found = kick_back.kick_back(plain, shaft, "stop")
    assert (found.mean, found.strong, found.asked) == (0.3, 0.2, 0.15)
    assert found.thrown == (pytest.approx(0.2 + 5 * DEG, rel=1e-12), "stop")
    if lights:
        assert (found.true, found.factor) == (0.1, (0.15, "stop"))
    else:
        assert math.isnan(found.true)
        assert found.factor == math.inf


# What is in its way to the top


def test_an_integral_by_straight_lines():
    """2 · 2 and 4 · 1."""
    found = climbing._along(np.array([1.0, 3.0, 5.0]), np.array([0.0, 2.0, 3.0]))
    assert found == pytest.approx([0.0, 4.0, 8.0], rel=1e-12)


def test_what_is_left_over_is_the_square_of_its_least_speed():
    """5 of 10 rad/s: a quarter."""
    values = np.zeros((3, 3))
    values[:, layout.SPEED] = [10.0, 5.0, 8.0]
    assert climbing._left_over(SimpleNamespace(trace=SimpleNamespace(values=values))) == 0.25


@pytest.mark.parametrize(
    ("rotor", "one_way", "work"), [(0.0, True, 100.0), (0.1, True, 0.0), (0.1, False, -300.0)]
)
def test_the_work_of_a_starter_by_its_line(rotor, one_way, work):
    """10 (1 - 10/20) = 5 N·m at 10 rad/s for 2 s; a rotor at 30 has 10 (1 - 30/20) = -5, which a
    clutch does not pass on."""
    shaft = ShaftSpec(inertia=0.1, rotor=rotor, starter_stall=10.0, starter_free=20.0,
                      starter_one_way=one_way)  # fmt: skip
    time, speed, faster = np.array([1.0, 3.0]), np.full(2, 10.0), np.full(2, 30.0)
    found = climbing._by_starter(SimpleNamespace(shaft=shaft), time, speed, faster)
    assert found == pytest.approx([0.0, work], rel=1e-12)


def test_the_work_of_the_gas_is_against_the_case_or_the_air(monkeypatch):
    """6 bar over 1 of air and 5 over 2 of a case, each losing 10 cm³: 5 and 3 J."""
    first, size = layout.SHAFT_SIZE + layout.PRESSURE, layout.VOLUME_SIZE
    values = np.zeros((2, first + 3 * size))
    values[:, first], values[:, first + size], values[:, first + 2 * size] = 6e5, 5e5, 2e5
    room = np.array([[50e-6, 70e-6, 0.0], [40e-6, 60e-6, 0.0]])
    engine = {"cylinder_count": 2, "cylinders": {"crankcase": [-1, 2]},
              "shaft": {"still_air": 1e5}}  # fmt: skip
    went = SimpleNamespace(trace=SimpleNamespace(values=values, time=np.zeros(2)), engines=[engine])
    monkeypatch.setattr(
        climbing, "rates_of_trace", lambda engines, _trace: (None, {1: room}[len(engines)])
    )
    assert climbing._by_gas(went) == pytest.approx([0.0, 8.0], rel=1e-9)


def test_what_goes_up_and_down_weighs_by_the_square_of_its_slope(monkeypatch):
    """Its slope taken for its own angle: 1.3 - 0.3 + 0.1 = 1.1; 0.5 · 1.1² + 2 · 0.5² = 1.105."""
    sizes = {(1.0, 3.0, 0.2): 0.1, (2.0, 6.0, 0.0): 0.0}
    cylinders = [
        SimpleNamespace(throw=throw, rod=rod, offset=offset, phase=phase)
        for (throw, rod, offset), phase in zip(sizes, (0.3, 0.8), strict=True)
    ]
    monkeypatch.setattr(climbing.slider_crank, "top_centre_angle", lambda *size: sizes[size])
    monkeypatch.setattr(
        climbing.slider_crank, "piston_height_slope", lambda one, *size: one if size in sizes else 0
    )
    went = SimpleNamespace(
        spec=SimpleNamespace(cylinders=cylinders),
        engines=[{"cylinders": {"reciprocating_mass": [0.5, 2.0]}}],
    )
    assert climbing._swung(went, np.array([1.3])) == pytest.approx([1.105], rel=1e-12)


def test_a_climb_is_told_where_least_is_left(monkeypatch):
    """½ · 0.4 · 10² + ½ · 0.2 · 10² = 30 J at 10 rad/s, so 120 J at 20: 2 · 120/20² = 0.6 kg·m².
    At the end 0.8 are left of 30 + 5: the gas has taken 24 and friction 10.2."""
    values = np.zeros((3, 3))
    values[:, layout.SPEED], values[:, layout.ROTOR] = [10.0, 5.0, 2.0], [10.0, 10.0, 0.0]
    trace = SimpleNamespace(values=values, time="time", angle="angle")
    over = SimpleNamespace(trace=trace, shaft=SimpleNamespace(inertia=0.3, rotor=0.2))
    monkeypatch.setattr(climbing, "_swung", lambda _one, angle: {"angle": np.full(3, 0.1)}[angle])
    gas = np.array([0.0, 6.0, 24.0])
    monkeypatch.setattr(climbing, "_by_gas", lambda _one: gas)
    monkeypatch.setattr(climbing, "_by_starter", lambda *_: np.array([0.0, 2.0, 5.0]))
    found = climbing.taken(SimpleNamespace(speed=20.0), over)
    told = found.inertia, found.speed, found.helped, found.gas, found.rubbed
    assert told == pytest.approx((0.6, 20.0, 5.0, 24.0, 10.2), rel=1e-9)
    # at half the speed the starter's 5 J count for more: 34.2 of 7.5 + 5
    slow = climbing.taken(SimpleNamespace(speed=5.0), over)
    assert (slow.inertia, slow.helped) == pytest.approx((0.6, 5.0), rel=1e-9)


def test_it_is_least_by_its_share_of_all_that_it_has(monkeypatch):
    """30 J at its spark: 20 of them gone, 4 by the gas and 16 by friction, are two thirds. Later 50
    are gone, 30 by the gas, of 90 that it has with its starter's 60: five ninths."""
    values = np.zeros((3, 3))
    values[:, layout.SPEED] = np.sqrt(np.array([30.0, 10.0, 40.0]) / 0.3)
    trace = SimpleNamespace(values=values, time="time", angle=None)
    over = SimpleNamespace(trace=trace, shaft=SimpleNamespace(inertia=0.6, rotor=0.0))

    def helps(one, time, speed, rotor):
        assert (one is over, time, speed[0]) == (True, "time", pytest.approx(10.0))
        assert not rotor.any()
        return np.array([0.0, 0.0, 60.0])

    monkeypatch.setattr(climbing, "_swung", lambda *_: np.zeros(3))
    monkeypatch.setattr(climbing, "_by_gas", lambda _one: np.array([0.0, 4.0, 30.0]))
    monkeypatch.setattr(climbing, "_by_starter", helps)
    found = climbing.taken(SimpleNamespace(speed=10.0), over)
    assert (found.gas, found.rubbed) == pytest.approx((4.0, 16.0), rel=1e-9)
    assert found.helped == pytest.approx(0.0, abs=1e-9)


def test_a_starter_that_brakes_leaves_a_millionth_at_least(monkeypatch):
    """½ · 0.6 · 10² = 30 J, of which 5 are left at √(50/3) rad/s. At 5 rad/s it is 7.5 J; a starter
    that takes 10 of these would leave less than nothing: a millionth counts."""
    values = np.zeros((2, 3))
    values[:, layout.SPEED] = [10.0, math.sqrt(50.0 / 3.0)]
    trace = SimpleNamespace(values=values, time=None, angle=None)
    over = SimpleNamespace(trace=trace, shaft=SimpleNamespace(inertia=0.6, rotor=0.0))
    monkeypatch.setattr(climbing, "_swung", lambda *_: np.zeros(2))
    monkeypatch.setattr(climbing, "_by_gas", lambda _one: np.array([0.0, 9.0]))
    monkeypatch.setattr(climbing, "_by_starter", lambda *_: np.array([0.0, -10.0]))
    found = climbing.taken(SimpleNamespace(speed=5.0), over)
    assert found.helped == pytest.approx(-7.5 * (1.0 - 1e-6), rel=1e-9)
    # 30 - 10 - 9 - 5
    assert (found.gas, found.rubbed) == pytest.approx((9.0, 6.0), rel=1e-9)


class Climbs:
    """At its spark; gets over with so much of its energy or more, with what is over to spare."""

    def __init__(self, wants, spares=True):
        self.wants, self.spares, self.tried = wants, spares, []

    def with_energy(self, energy):
        self.tried.append(energy)
        assert len(self.tried) < 60
        return SimpleNamespace(climbed=lambda top, stop: self.went(energy, top, stop))

    def went(self, energy, top, stop):
        assert (top, stop) == (9.0, "stop")
        over = energy >= self.wants
        left = (energy - self.wants) / energy if self.spares and over else 0.0
        return SimpleNamespace(angle=top if over else top - 0.1, left=left, energy=energy,
                               stalled=SimpleNamespace(over=over))  # fmt: skip


@pytest.mark.parametrize("spares", [True, False])
@pytest.mark.parametrize("wants", [0.3, 3.0, 0.01])
def test_the_slowest_that_gets_over_is_found_to_2_percent(monkeypatch, wants, spares):
    """One with more or less than it has; what is left over at its least speed is a good guess."""
    monkeypatch.setattr(climbing, "_left_over", lambda went: went.left)
    lit = Climbs(wants, spares)
    found = climbing.slowest_over(lit, 9.0, "stop")
    assert wants <= found.energy <= wants / 0.98
    assert lit.tried[:2] == [1e-3, 1.0]
    if spares and wants == 0.3:
        assert lit.tried[2] == pytest.approx(0.3, rel=1e-12)
    if wants == 3.0:
        assert lit.tried[2:4] == [2.0, 4.0]
    if wants == 0.01 and not spares:
        # between 0.001 and 1 nine roots of 1000 come to 1.0136, eight to 1.027
        assert len(lit.tried) == 2 + 9


def test_between_two_energies_their_geometric_mean_is_tried(monkeypatch):
    """0.001 and 1: √0.001 = 0.0316; where that gets over, √0.0000316 = 0.00562."""
    monkeypatch.setattr(climbing, "_left_over", lambda went: went.left)
    lit = Climbs(0.002, spares=False)
    climbing.slowest_over(lit, 9.0, "stop")
    assert lit.tried[2:4] == pytest.approx([10**-1.5, 10**-2.25], rel=1e-9)


def test_what_gets_over_with_a_thousandth_is_told_with_that_and_400_times_is_the_most(monkeypatch):
    """1, 2, 4, ... 256, 512: the first of 400 or more is the last."""
    monkeypatch.setattr(climbing, "_left_over", lambda _went: 0.0)
    assert climbing.slowest_over(Climbs(0.0), 9.0, "stop").energy == 1e-3
    lit = Climbs(1e9)
    climbing.slowest_over(lit, 9.0, "stop")
    assert lit.tried[1:11] == [2.0**n for n in range(10)]
    assert max(lit.tried) == 512.0


def test_its_top_is_ahead_of_a_spark_by_what_that_comes_before_it(monkeypatch):
    """At 9.5 rad, 0.5 before top: 10."""
    lit = SimpleNamespace(lights=True, angle=9.5, sparks=[SimpleNamespace(angle=-0.5)])
    ready = SimpleNamespace(
        stands=False, sparked=lambda strong, stop: {(1.5, "stop"): lit}[strong, stop]
    )

    def made(plain, row, shaft, speed, stop):
        return {("plain", 3, "shaft", 20.0, "stop"): ready}[plain, row, shaft, speed, stop]

    monkeypatch.setattr(climbing, "ready_to_light", made)
    monkeypatch.setattr(climbing, "slowest_over", lambda one, top, stop: (one, top, stop))
    monkeypatch.setattr(climbing, "taken", lambda one, over: (one, over))
    turned = SimpleNamespace(shaft="shaft", speed=20.0)
    assert climbing.climb("plain", 3, turned, 1.5, "stop") == (lit, (lit, 10.0, "stop"))
    lit.sparks = [SimpleNamespace(angle=0.1)]
    assert climbing.climb("plain", 3, turned, 1.5, "stop").why_not == climbing.AFTER_TOP


# The first burn


def test_a_share_of_its_energy_is_its_root_of_speed():
    """A quarter of it at half the speed, of crank and rotor alike."""
    values = np.zeros(4)
    values[layout.ANGLE], values[layout.SPEED], values[layout.ROTOR], values[3] = (
        7.0,
        10.0,
        30.0,
        5.0,
    )

    class State(SimpleNamespace):
        def _replace(self, **what):
            return State(**what)

    other = SimpleNamespace(state=State(values=values), _trace_anew=lambda: None)
    one = SimpleNamespace(_another={2.5: other}.__getitem__, asked=SimpleNamespace(strong=2.5))
    found = FirstBurn.with_energy(one, 0.25)
    assert found.state.values == pytest.approx([7.0, 5.0, 15.0, 5.0], rel=1e-12)
    assert values[layout.SPEED] == 10.0


def test_it_is_waited_for_four_times_as_long_as_its_speed_takes():
    """10 rad at 5 rad/s from 3 s on: 3 + 8 s; never as if it turned slower than 1 rad/s."""
    one = SimpleNamespace(now=3.0, angle=10.0, asked=SimpleNamespace(speed=5.0))
    assert FirstBurn._latest(one, 20.0) == pytest.approx(11.0, rel=1e-12)
    one.asked.speed = 0.5
    assert FirstBurn._latest(one, 20.0) == pytest.approx(43.0, rel=1e-12)


@pytest.mark.parametrize(("begins", "top"), [(0.1, 6.0), (-7.0, 2.0), (30.0, 14.0)])
def test_what_is_lit_is_a_whole_cycle_away_at_least(monkeypatch, begins, top):
    """A single is lit from -2π and every 4π on: the next from 0.1 + 4π is 6π, from -7 + 4π = 1.77π
    it is 2π, from 30 + 4π = 13.5π it is 14π."""

    def made(self, plain, asked, shaft):
        assert (asked, shaft) == ("asked", "shaft")
        self.phases, self.lighting = (0.0,), SimpleNamespace(plain=plain)
        self.state = SimpleNamespace(values=np.array([begins]))

    class Plain(SimpleNamespace):
        def model_copy(self, update):
            return Plain(**{**vars(self), **update})

    monkeypatch.setattr(Life, "__init__", made)
    one = FirstBurn(Plain(doubt=Plain(burn_phase=0.2)), "asked", "shaft", 0)
    assert one.lit_from == pytest.approx(top * math.pi, rel=1e-12)
    assert one.lighting.plain.doubt.burn_phase == 0.0


def test_half_way_from_the_firing_before():
    """Of one at 2 rad alone 2 - 2π; 3 rad after another, 1.5 before it; the first of those comes
    4π - 3 after the other."""
    assert first_burn.half_way((2.0,), 0) == pytest.approx(2.0 - 2 * math.pi, rel=1e-12)
    assert first_burn.half_way((2.0, 5.0), 1) == pytest.approx(3.5, rel=1e-12)
    assert first_burn.half_way((2.0, 5.0), 0) == pytest.approx(3.5 - 2 * math.pi, rel=1e-12)


def test_a_delay_of_a_fifth_less_is_a_flame_of_a_quarter_more(monkeypatch):
    """1/0.8 = 1.25."""

    class LitError(Exception):
        """The flame was asked for."""

    def flame(*given):
        raise LitError(given)

    monkeypatch.setattr(first_burn, "flame_of", flame)
    monkeypatch.setattr(first_burn, "burn_plan", lambda *given: given)
    plain = SimpleNamespace(cylinders=["parts 1", "parts 2"])
    one = SimpleNamespace(
        plain=plain, last_turn=9.0, asked=Asked(), intakes={1: 0.04},
        lighting=SimpleNamespace(quicker=lambda: (0.8, 3.0)),
    )  # fmt: skip
    with pytest.raises(LitError) as found:
        FirstBurn._burn(one, 1, "charge", -0.2, 0.03)
    assert found.value.args == ((plain, "parts 2", "charge", 0.04, 1.25),)


class Burns:
    """One that turns by 1 rad in 0.2 s, from 10 rad and 3 s on."""

    lit_from, lights, _latest = 12.0, False, staticmethod(lambda _angle: 99.0)

    def __init__(self):
        self.angle, self.now, self.until, self.to = 10.0, 3.0, set(), None
        self.stalled = SimpleNamespace(stood=False)
        self.asked = SimpleNamespace(strong=1.5)

    def _another(self, strong):
        assert strong == 1.5
        return Burns()

    def step(self, until):
        self.until.add(until)
        self.angle, self.now = min(self.angle + 1.0, until), self.now + 0.2
        assert self.now < 30.0

    def checked(self, stop):
        assert stop == "stop"

    def _trace_anew(self):
        self.anew = True

    def _on_to(self, angle, stop):
        self.to = angle, stop


def test_a_first_burn_is_followed_a_cycle_on():
    """From 12 to 12 + 4π; turned to where that begins."""
    one, ends = Burns(), 12.0 + 4 * math.pi
    sparked = FirstBurn.sparked(one, 1.5, "stop")
    assert (sparked.angle, sparked.until, sparked.anew) == (ends, {ends}, True)
    assert FirstBurn.burned(one, 1.5, "stop").to == (ends, "stop")
    assert FirstBurn.turned(one, "stop").to == (12.0, "stop")


def test_a_climb_is_followed_to_its_top_or_for_0_6_s():
    """Two steps of 0.2 s to 12 rad; three of them where its top is farther."""
    assert FirstBurn.climbed(Burns(), 12.0, "stop").angle == 12.0
    assert 3.6 - 1e-9 <= FirstBurn.climbed(Burns(), 50.0, "stop").now < 3.81


# A strong burn


def test_a_strong_burn_is_the_highest_of_cylinders_and_speeds(monkeypatch):
    """3 bar over the air on 20 cm³ a radian: 6 N·m; 2 bar on 40: 8. Held at 750, 1400, 2000 and
    2800 rpm, 25, 46.67, 66.67 and 93.33 π rad/s."""
    asked, held = Asked(seed=4, strong=0.0), []

    class Lives:
        def __init__(self, plain, given, shaft):
            assert (plain, given.seed, given.strong, shaft) == (own, None, NINETY, "shaft")
            self.engines = "record"

        def lived(self, stop):
            pressure = np.array([[4e5, 1e5, 9e6], [1e5, 3e5, 9e6]])
            return SimpleNamespace(
                spun=SimpleNamespace(pressure=pressure, angle=np.zeros(2)), sparks=[stop]
            )

    def at_speed(plain, given, speed, stop):
        assert (plain, given.seed, given.strong, stop) == (own, None, NINETY, "stop")
        held.append(speed)
        return SimpleNamespace(peak=1e5 * speed)

    def volts(plain, lived):
        return (plain is own, lived.sparks)

    widens = {0: 20e-6, 1: 40e-6}
    own = SimpleNamespace(surroundings=SimpleNamespace(air_pressure=1e5), cylinders=["a", "b"])
    monkeypatch.setattr(strong_burn, "Life", Lives)
    monkeypatch.setattr(strong_burn, "at_speed", at_speed)
    monkeypatch.setattr(strong_burn, "_volts", volts)
    monkeypatch.setattr(
        strong_burn, "widening_along",
        lambda record, angle, row: np.full(len(angle), widens[row]) if record == "record" else None,
    )  # fmt: skip
    found = strong_burn.strong_burn(own, asked, SimpleNamespace(shaft="shaft"), "stop")
    assert held == pytest.approx([25 * math.pi, 140 * math.pi / 3, 200 * math.pi / 3,
                                  280 * math.pi / 3], rel=1e-12)  # fmt: skip
    assert found.torque == pytest.approx(8.0, rel=1e-12)
    assert found.pressure == pytest.approx(1e5 * 280 * math.pi / 3, rel=1e-12)
    assert found.volts == (True, ["stop"])
    monkeypatch.setattr(strong_burn, "at_speed", lambda *_: SimpleNamespace(peak=1e5))
    found = strong_burn.strong_burn(own, asked, SimpleNamespace(shaft="shaft"), "stop")
    assert found.pressure == 4e5
