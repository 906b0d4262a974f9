"""What is told of a start: odds, leaks, faults, changes and moments, by round numbers."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.errors import Stopped
from firstfire.runs.start import account, changes, leaks, odds, priming, vapour
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.faults import of_leaks, of_sparks, of_turning
from firstfire.runs.start.faults.fault import a_tooth

DEG = math.pi / 180


# What is told


@pytest.mark.parametrize(
    ("coupling", "pull", "free", "heard"),
    [("one_way", None, 100.0, 75.0), ("rigid", None, 100.0, 57.5), ("rigid", 80.0, 100.0, 75.0),
     ("one_way", None, 20.0, 60.0)],
)  # fmt: skip
def test_an_engine_is_heard_half_as_fast_again_as_it_is_turned(coupling, pull, free, heard):
    """50 rad/s, or a free 20 geared to 40, times 1.5; 1.15 where it drags a rigid starter."""
    starter = SimpleNamespace(no_load_speed=free, ratio=2.0, coupling=coupling, pull_force=pull)
    plain = SimpleNamespace(starter=starter, use=SimpleNamespace(cranking_speed=50.0))
    assert account.heard_at(plain) == pytest.approx(heard, rel=1e-12)


def test_it_is_not_let_go_below_a_tenth_more_than_its_least_speed():
    """1.1 · 100 = 110 rad/s."""
    found = account._let_go_in_time(Asked(let_go_at=50.0), 100.0)
    assert found.let_go_at == pytest.approx(110.0, rel=1e-12)
    assert account._let_go_in_time(Asked(let_go_at=150.0), 100.0).let_go_at == 150.0
    assert account._let_go_in_time(Asked(let_go_at=50.0), math.inf).let_go_at == 50.0


def test_a_start_of_20_s_is_told_every_half_second():
    """Forty moments: in the middle of each half second, by the speed from its beginning to end."""
    lived = SimpleNamespace(
        spun=SimpleNamespace(time=np.array([0.0, 20.0])), mean_speed=lambda since, to: (since, to)
    )
    found = list(account.told_every(lived))
    assert len(found) == 40
    assert found[0] == (pytest.approx(0.25), (0.0, pytest.approx(0.5)))
    assert found[39] == (pytest.approx(19.75), (pytest.approx(19.5), pytest.approx(20.0)))


# Odds


def test_a_share_by_wilson():
    """Of 4 half, at 2 deviations: ½ ± 2/(1 + 4/4) · √(1/16 + 4/64) = ½ ± √⅛. Of 4 one: the middle
    (¼ + ½)/2 = 0.375 and √(3/64 + 4/64) = 0.3307."""
    assert odds.wilson(2, 4, 2.0) == pytest.approx((0.5 - 0.125**0.5, 0.5 + 0.125**0.5), rel=1e-12)
    half = math.sqrt(7.0) / 8.0
    assert odds.wilson(1, 4, 2.0) == pytest.approx((0.375 - half, 0.375 + half), rel=1e-12)
    # none of 4: from 0 to 2 · 0.25
    assert odds.wilson(0, 4, 2.0) == (0.0, pytest.approx(0.5, rel=1e-12))


def test_a_reading_that_tells_starts_from_others():
    """Halfway between 4 and 7; one of five on the wrong side is less than 0.4 of the rarer two, one
    of two that start is more."""
    right = [(1.0, False), (2.0, False), (4.0, False), (7.0, True), (9.0, True)]
    assert odds.threshold(right) == 5.5
    mixed = [(1.0, False), (2.0, True), (3.0, False), (4.0, False), (7.0, True), (8.0, True)]
    assert odds.threshold(mixed) == 5.5
    assert odds.threshold([(1.0, True), (2.0, False), (4.0, False), (7.0, True)]) is None
    assert odds.threshold([(1.0, True), (2.0, True), (4.0, False), (7.0, False)]) is None
    assert odds.threshold([(1.0, False), (2.0, False), (3.0, False), (5.0, True)]) == 4.0
    # one on the wrong side of only two that don't start
    starts = [False, True, False, True, True, True, True]
    assert odds.threshold(list(enumerate(starts))) is None


def lives(**told):
    """A start of 9 s, let go at 5 after 100 rad/s and turning by 60 at its end."""
    speeds = {(4.9, 5.0): 100.0, (8.7, math.inf): 60.0}
    asked = {
        "let_go": 5.0, "reversed_at": None, "burns": [SimpleNamespace(seconds=8.6)], "locked": None,
        "sparks": [SimpleNamespace(missed=None)], "kicked": False,
        "spun": SimpleNamespace(time=np.array([0.0, 9.0]), angle=np.array([7.0, 40.0])),
    }  # fmt: skip
    asked |= told
    speeds |= asked.pop("speeds", {})
    return SimpleNamespace(
        mean_speed=lambda since, to=math.inf: speeds[round(since, 9), to], **asked
    )


def test_it_runs_by_itself_at_half_its_speed_and_with_a_burn_in_its_last_half_second():
    """60 rad/s at its end are more than half of 100, 49 are less; its last burn at 8.6 of 9 s, at
    8.4 too long ago."""
    assert odds.runs_by_itself(lives())
    assert not odds.runs_by_itself(lives(speeds={(8.7, math.inf): 49.0}))
    assert not odds.runs_by_itself(lives(burns=[SimpleNamespace(seconds=8.4)]))
    assert not odds.runs_by_itself(lives(let_go=None))


def test_why_it_does_not_run():
    """Without a spark it has come over its tops if it has turned two cycles, 8π = 25.1 rad: from 7
    to 32.2, not to 32."""
    slow = {"speeds": {(8.7, math.inf): 10.0}}
    assert odds.why_not(lives(), 50.0) is None
    assert odds.why_not(lives(**slow), 50.0) == "flywheel"
    assert odds.why_not(lives(**slow), 150.0) == "dies"
    for ends, why in ((32.2, "spark"), (32.0, "torque")):
        spun = SimpleNamespace(time=np.array([0.0, 9.0]), angle=np.array([7.0, ends]))
        assert odds.why_not(lives(burns=[], sparks=[], spun=spun), 50.0) == why


def test_each_try_draws_anew_and_begins_with_what_the_last_one_left(monkeypatch):
    """Seeds of engine 3: 301 and 302; only the second is charged. It runs at the second."""
    made = []

    class Tries:
        def __init__(self, plain, asked, shaft, left):
            assert (plain.name, shaft) == ("plain", "shaft")
            made.append((asked.seed, asked.charged, left))
            self.number = len(made)

        def lived(self):
            return SimpleNamespace(
                left=("wet", self.number), burns=["b"], sparks=["b", "s"], kicked=False,
                runs=self.number == 2,
            )  # fmt: skip

    plain = SimpleNamespace(name="plain", use=SimpleNamespace(cranking_speed=50.0))
    wrong = Asked().wrong
    monkeypatch.setattr(odds, "Life", Tries)
    monkeypatch.setattr(
        odds, "turned_by", lambda one, given: {True: "by"}[one is plain and given == wrong]
    )
    monkeypatch.setattr(
        odds, "driven", lambda one, shaft: {"by": "shaft"}[shaft] and one and "shaft"
    )
    monkeypatch.setattr(
        odds, "gauge_reading", lambda one, shaft, seconds: (one.name, shaft, seconds)
    )
    monkeypatch.setattr(odds, "runs_by_itself", lambda lived: lived.runs)
    monkeypatch.setattr(odds, "why_not", lambda lived, at: None if lived.runs else at)
    found = odds.tried(plain, Asked(), 3)
    assert made == [(301, False, ()), (302, True, ("wet", 1))]
    assert (found.started_at, found.lit, found.sparked, found.why) == (2, 1, 2, None)
    assert found.gauge == ("plain", "shaft", 2.0)


def test_engines_are_drawn_by_number_and_their_cycles_by_seed(monkeypatch):
    """Seed 2: engine 7 has the cycles of 20 007."""
    drawn = {7: "seventh", 9: "ninth"}
    monkeypatch.setattr(odds, "drawn", lambda trials, count, _seed: {("t", 12): drawn}[
        trials.name, count])  # fmt: skip
    monkeypatch.setattr(odds, "engine_at", lambda _trials, unknowns, draw: (unknowns, draw))
    monkeypatch.setattr(odds, "tried", lambda *given: given)
    monkeypatch.setattr(
        odds, "shared_out", lambda one, count, **_: [one(place) for place in range(count)]
    )
    trials, asked = SimpleNamespace(name="t", unknowns="u"), Asked(seed=2)
    found = odds.odds(trials, asked, 12, tries=4, numbers=[7, 9])
    assert found.each == (
        (("u", "seventh"), asked, 20_007, 4), (("u", "ninth"), asked, 20_009, 4)
    )  # fmt: skip
    started = (SimpleNamespace(started_at=1), SimpleNamespace(started_at=None))
    assert odds.Odds(1, 3.0, started * 2).share == 0.5


# Leaks


def leaky(monkeypatch):
    """Cylinder 2 of an engine: 4 mm² of rings and 1 of plug, over 50 cm³ squeezed 11 to 1."""
    held = dict.fromkeys(leaks.PATHS, 0.0) | {"ring": 4e-6, "plug": 1e-6}
    parts = SimpleNamespace(
        leak=SimpleNamespace(**held),
        cylinder=SimpleNamespace(bore=0.04, stroke=0.05, compression_ratio=11.0),
    )
    plain = SimpleNamespace(
        cylinders=["other", parts],
        surroundings=SimpleNamespace(air_pressure=1e5, air_temperature=290.0),
    )
    monkeypatch.setattr(leaks, "_span", lambda *given: {("engine", 1): (2e-6, 9e-6)}[given[:2]])
    monkeypatch.setattr(leaks, "_pressed_together", lambda _parts: 9.0)
    monkeypatch.setattr(leaks, "_open", lambda: 6e-7)

    def held_at(supply, orifice, area, air):
        assert (orifice, air) == (6e-7, 1e5)
        return supply * (1.0 - 1e5 * area)

    monkeypatch.setattr(leaks, "held_pressure", held_at)
    monkeypatch.setattr(leaks, "seconds_to_fall", lambda *given: given)
    return leaks._of("engine", plain, 1)


def test_leaks_of_a_cylinder_are_added_and_oil_leaves_three_tenths_of_the_rings(monkeypatch):
    """5 mm² in all; oiled 5 - 0.7 · 4 = 2.2. A tester loses a tenth for each. 9 times the air's
    pressure is 8 bar above it; a thumb stands where the plug did."""
    found = leaky(monkeypatch)
    assert (found.cylinder, found.low, found.high) == (2, 2e-6, 9e-6)
    assert found.area == pytest.approx(5e-6, rel=1e-12)
    assert found.loss == pytest.approx(0.5, rel=1e-9)
    assert found.loss_oiled == pytest.approx(0.22, rel=1e-9)
    assert (found.loss_low, found.loss_high) == pytest.approx((0.2, 0.9), rel=1e-9)
    assert found.thumb_begins == pytest.approx(8e5, rel=1e-12)
    # π/4 · 4² · 5 cm³ over 11 - 1
    volume = 2e-6 * math.pi
    assert found.thumb == pytest.approx((8e5, 4e5, volume, 4e-6, 1e5, 290.0), rel=1e-9)
    assert found.thumb_oiled == pytest.approx((8e5, 4e5, volume, 1.2e-6, 1e5, 290.0), rel=1e-9)
    assert [(one.path, one.share) for one in found.paths] == [
        ("ring", pytest.approx(0.8)), ("plug", pytest.approx(0.2))
    ]  # fmt: skip


def test_a_tester_has_three_quarters_of_its_orifices_area():
    """0.75 · π/4 · 1.016² = 0.6080 mm²."""
    assert leaks._open() == pytest.approx(0.75 * math.pi / 4 * 1.032256e-6, rel=1e-3)


@pytest.mark.parametrize(("worked", "late"), [("cam", 0.7), ("suction", 0.0)])
def test_a_slow_turn_is_squeezed_from_where_its_inlet_shuts(monkeypatch, worked, late):
    inlet = SimpleNamespace(worked=worked, closes_after_bottom=0.7)
    parts = SimpleNamespace(valves=SimpleNamespace(inlet=inlet),
                            cylinder=SimpleNamespace(compression_ratio=8.0))  # fmt: skip
    monkeypatch.setattr(leaks, "mechanism", lambda _parts: (1.0, 3.0, 0.0))
    monkeypatch.setattr(leaks, "effective_compression_ratio", lambda *given: given)
    assert leaks._pressed_together(parts) == (8.0, late, 1.0, 3.0, 0.0)


def test_a_value_is_spread_evenly_from_low_to_high_or_as_a_normal_one(monkeypatch):
    """Of a decade ¼ of the way: -½ of the deviations at 95 %; 0.8413 of a normal one: 1."""
    monkeypatch.setattr(leaks, "value_at", lambda unknown, deviations: (unknown, deviations))
    even = SimpleNamespace(distribution="loguniform")
    assert leaks._value(even, 0.25) == (even, pytest.approx(-0.5 * leaks.NINETY, rel=1e-12))
    assert leaks._value(even, 1.0) == (even, pytest.approx(leaks.NINETY, rel=1e-12))
    other = SimpleNamespace(distribution="normal")
    assert leaks._value(other, 0.841344746) == (other, pytest.approx(1.0, rel=1e-6))


# Faults


def test_a_tooth_of_40_is_18_degrees_of_the_crank():
    plain = SimpleNamespace(cam_drive=SimpleNamespace(teeth_cam=40))
    assert a_tooth(plain) == pytest.approx(math.pi / 10, rel=1e-12)


def size(written):
    return float(str(written).split()[0])


def test_cams_a_tooth_late_open_and_shut_18_degrees_later():
    """Before a centre by less, after it by more."""
    inlet = SimpleNamespace(worked="cam", opens_before_top=20 * DEG, closes_after_bottom=50 * DEG)
    exhaust = SimpleNamespace(opens_before_bottom=40 * DEG, closes_after_top=10 * DEG)
    parts = SimpleNamespace(valves=SimpleNamespace(inlet=inlet, exhaust=exhaust))
    plain = SimpleNamespace(cam_drive=SimpleNamespace(teeth_cam=40), cylinders=[parts],
                            spark=SimpleNamespace(wasted=False))  # fmt: skip
    layer, obeyed = of_turning._tooth(plain, 1.0)
    assert [size(one) for one in layer.values()] == pytest.approx([2.0, 68.0, 22.0, 28.0], abs=1e-4)
    assert next(iter(layer)) == "valves.inlet.opens_before_top"
    assert obeyed == {"spark_shift": pytest.approx(18 * DEG, rel=1e-12)}


def test_a_battery_of_half_its_voltage_has_half_of_all_and_a_quarter_of_the_spark():
    """3000 rpm, 2 N·m and 12 V."""
    starter = SimpleNamespace(no_load_speed=100 * math.pi, stall_torque=2.0, battery_voltage=12.0,
                              pull_force=None, kind="motor")  # fmt: skip
    layer, obeyed = of_turning._battery(SimpleNamespace(starter=starter), 0.5)
    assert [size(one) for one in layer.values()] == pytest.approx([1500.0, 1.0, 6.0], rel=1e-6)
    assert obeyed == {"spark_share": 0.25}


def test_a_spark_10_degrees_earlier_is_so_wherever_it_is_asked():
    """5, 20 and 30° become 15, 30 and 40°."""
    spark = SimpleNamespace(start_angle=5 * DEG, running_angle=20 * DEG,
                            advance_table=((100 * math.pi, 30 * DEG),))  # fmt: skip
    layer, obeyed = of_sparks._by(SimpleNamespace(spark=spark), 10 * DEG)
    assert size(layer["spark.start_angle"]) == pytest.approx(15.0, abs=1e-4)
    assert size(layer["spark.running_angle"]) == pytest.approx(30.0, abs=1e-4)
    ((speed, asked),) = layer["spark.advance_table"]
    assert (size(speed), size(asked)) == pytest.approx((3000.0, 40.0), abs=1e-2)
    assert obeyed == {"advance": 10 * DEG}
    _, shift = of_sparks._half_a_cycle(SimpleNamespace(spark=SimpleNamespace(wasted=False)), 0.0)
    assert shift == {"spark_shift": pytest.approx(2 * math.pi, rel=1e-12)}


def test_a_valve_held_open_leaks_round_its_seat_beside_what_leaked_before():
    """0.68 · π · 20 mm · 0.1 mm = 4.2726 mm² and 1; leaks that differ are told by cylinder."""

    def with_leak(area, throat=20e-3):
        return SimpleNamespace(
            leak=SimpleNamespace(exhaust_seat=area, ring=area),
            valves=SimpleNamespace(exhaust=SimpleNamespace(throat_diameter=throat)),
        )

    plain = SimpleNamespace(cylinders=[with_leak(1e-6), with_leak(1e-6)])
    layer, _ = of_leaks._held_open("exhaust")(plain, 1e-4)
    assert list(layer) == ["leak.exhaust_seat"]
    assert size(layer["leak.exhaust_seat"]) == pytest.approx(5.27257, rel=1e-5)
    plain.cylinders[1] = with_leak(3e-6)
    layer, _ = of_leaks._more("ring")(plain, 2e-6)
    assert [size(one) for one in layer.values()] == pytest.approx([3.0, 5.0], rel=1e-8)
    assert list(layer) == ["cylinders.1.leak.ring", "cylinders.2.leak.ring"]


# Changes


def test_a_change_that_helps_is_told_with_its_shares(monkeypatch):
    """Of 16 four start; with two changes six and nine do, with a third no more than four."""
    monkeypatch.setattr(changes, "Trials", lambda engine: engine)
    monkeypatch.setattr(changes, "with_values", lambda _engine, values: values["n"])
    listed = [(f"do {n}", {"n": n}) for n in (6, 4, 9)]
    monkeypatch.setattr(changes, "_candidates", lambda *given: {("engine", 0.2): listed}[given])

    def tried(trials, asked, numbers, stop):
        assert (trials, asked, stop) == ("engine", "asked", "stop")
        return {n: SimpleNamespace(started_at=1 if n < 4 else None, why="dies") for n in numbers}

    monkeypatch.setattr(changes, "_tried", tried)
    monkeypatch.setattr(changes, "_after", lambda count, *_: count)
    shares = []
    found = changes.changes("engine", "asked", 0.2, stop="stop", on_progress=shares.append)
    assert shares == [0.25, 0.5, 0.75]
    assert [(one.text, one.starts, one.before) for one in found] == [
        ("do 9", 9 / 16, 0.25), ("do 6", 6 / 16, 0.25)
    ]  # fmt: skip


def test_a_change_has_to_mend_one_before_those_that_start_are_tried_again(monkeypatch):
    """Three failed of which two start; one started and still does: three."""
    asked = []

    def tried(trials, how, numbers, stop):
        assert (trials, how, stop) == ("trials", "asked", "stop")
        asked.append(list(numbers))
        return {n: SimpleNamespace(started_at=1 if n in starts else None) for n in numbers}

    monkeypatch.setattr(changes, "_tried", tried)
    before = {0: False, 1: False, 2: False, 3: True, 4: True}
    starts = {0, 1, 3}
    assert changes._after("trials", "asked", before, "stop") == 3
    assert asked == [[0, 1, 2], [3, 4]]
    starts = {3, 4}
    assert changes._after("trials", "asked", before, "stop") == 0


def test_engines_are_tried_by_number_and_twice_each(monkeypatch):
    found = SimpleNamespace(stopped=False, each=("a", "b"))
    told = {("trials", "asked", 16): found}
    monkeypatch.setattr(
        changes, "odds", lambda *given, tries, **_: told[given] if tries == 2 else 0
    )
    assert changes._tried("trials", "asked", [5, 9], None) == {5: "a", 9: "b"}
    found.stopped = True
    with pytest.raises(Stopped):
        changes._tried("trials", "asked", [5, 9], None)


# Vapour and priming


def test_a_fuel_of_two_parts_has_the_shares_of_each(monkeypatch):
    """A quarter of petrol, of which 0.4 and 0.6 are two, and three quarters of the second."""
    monkeypatch.setattr(vapour, "PETROL", {"light": 0.4, "heavy": 0.6})
    found = vapour.components(SimpleNamespace(vapours=(("petrol", 0.25), ("heavy", 0.75))))
    assert found == pytest.approx({"light": 0.1, "heavy": 0.9}, rel=1e-12)


def test_four_times_a_warm_engines_fuel_is_there_to_evaporate(monkeypatch):
    """Of each part 4 times its share, against 15 of air."""
    monkeypatch.setattr(vapour, "components", lambda _fuel: {"a": 0.25, "b": 0.75})
    monkeypatch.setattr(vapour.fuel_mix, "air_fuel_ratio", lambda _atoms: 15.0)
    asked = []
    monkeypatch.setattr(
        vapour, "given_off", lambda *given: asked.append(given) or {"a": 0.5, "b": 0.25}
    )
    plain = SimpleNamespace(
        fuel=SimpleNamespace(gas=False, carbon=1, hydrogen=2, oxygen=3),
        surroundings=SimpleNamespace(air_temperature=280.0, air_pressure=9e4),
    )
    assert vapour.richest(plain) == 0.75
    assert asked == [({"a": 1.0, "b": 3.0}, 15.0, 280.0, 9e4)]


def test_it_is_warm_enough_within_a_tenth_of_a_degree(monkeypatch):
    """Rich enough from 300 K on; where it is not even at 60 °C it is nowhere."""

    class Copies(SimpleNamespace):
        def model_copy(self, update):
            return Copies(**{**vars(self), **update})

    tried = []

    def rich(plain):
        tried.append(plain.surroundings.air_temperature)
        assert len(tried) < 40
        return tried[-1] / 300.0

    monkeypatch.setattr(vapour, "richest", rich)
    plain = Copies(surroundings=Copies(air_temperature=250.0))
    assert 300.0 <= vapour.warm_enough(plain, 1.0) <= 300.1
    # first the warmest, then half way between -40 and 60 °C
    assert tried[:2] == pytest.approx([333.15, 283.15], rel=1e-12)
    assert vapour.warm_enough(plain, 1.2) is None


def test_priming_is_the_fewest_pulses_with_which_fewest_sparks_are_lost(monkeypatch):
    """3, 2, 0, 0 and 1 are lost with 0, 1, 2, 3 and 4 pulses."""
    lost = {0: 3, 1: 2, 2: 0, 3: 0, 4: 1}
    monkeypatch.setattr(priming, "sparks_lost", lambda _plain, asked, *_: lost[asked.prime])
    plain = SimpleNamespace(fuel=SimpleNamespace(gas=False))
    found = priming.priming(plain, Asked(), "shaft")
    assert (found.wanted, found.too_many, found.lost) == (2, 4, (0, 3))


def test_everything_of_a_start_is_asked_of_the_same_engine(monkeypatch):
    """Each finding is told with what it was asked of; the weak burns are as slow as strong ones are
    quick; let go at 1.1 · 100 rad/s."""
    plain, wrong, asked = "plain", Asked().wrong, Asked(let_go_at=50.0, seed=4)
    later = replace(asked, let_go_at=account._ABOVE * 100.0)

    class Turned(SimpleNamespace):
        __hash__ = object.__hash__

    turned = Turned(shaft="shaft", mean_speed=30.0)
    best = SimpleNamespace(start=0.2)
    poor = SimpleNamespace(share=0.5, stopped=False)
    weak = replace(asked, strong=-account.NINETY)
    whole = SimpleNamespace(lived="lived")
    told = {
        "turned_by": {(plain, wrong): "by"},
        "cranked": {(plain,): turned},
        "kick_back": {(plain, "shaft", "stop"): "kick"},
        "at_speed": {(plain, asked, speed, "stop"): speed for speed in account.SPEEDS},
        "least_speed": {(plain, asked): 100.0, (plain, weak): 120.0},
        "best_advance": {(plain, later, "kick", 30.0, "stop"): best},
        "idling": {(plain, later, "stop"): "idle"},
        "priming": {(plain, replace(later, enriched=1.0), "shaft", "stop"): "primed"},
        "seen": {(plain, later, "shaft", "stop"): whole},
        "strong_burn": {(plain, later, turned, "stop"): "strong"},
        "over_run": {(plain, later, 100.0, "stop"): "away"},
        "changes": {("engine", later, 0.2): "changes"},
        "tightness": {("engine", plain): "leaks"},
    }

    def tells(found):
        return lambda *given, **_: found[given]

    for name, found in told.items():
        monkeypatch.setattr(account, name, tells(found))
    trials = SimpleNamespace(centre=plain)
    monkeypatch.setattr(account, "Trials", {"engine": trials}.__getitem__)
    monkeypatch.setattr(
        account, "odds",
        lambda one, how, count, **_: {(True, 40): poor}[one is trials and how == later, count],
    )  # fmt: skip
    monkeypatch.setattr(account, "knocking", lambda one, start: (one, start.lived))
    monkeypatch.setattr(account, "bangs", lambda start: start.lived)
    monkeypatch.setattr(account, "puffs", lambda start: start.lived)
    found = account.account("engine", asked, stop="stop")
    assert (found.least, found.weak_least, found.speeds) == (100.0, 120.0, account.SPEEDS)
    assert (found.kick, found.advance, found.idling) == ("kick", best, "idle")
    assert (found.strong, found.runs_away, found.priming) == ("strong", "away", "primed")
    assert (found.odds, found.changes, found.leaks) == (poor, "changes", "leaks")
    assert found.knock == ("engine", "lived")


def test_a_late_spark_is_an_early_one_the_other_way():
    late = next(one for one in of_sparks.SPARKS if one.name == "spark_late")
    spark = SimpleNamespace(start_angle=5 * DEG, running_angle=20 * DEG, advance_table=None)
    _, obeyed = late.does(SimpleNamespace(spark=spark), 10 * DEG)
    assert obeyed == {"advance": -10 * DEG}
