"""A coil, its plug, its points and its sensor by hand; and where words and bars of them stand."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.setup.spark import leads as lead_rules
from firstfire.setup.spark import picture as small_picture
from firstfire.setup.spark import plug, triggers, words
from firstfire.setup.spark import text as told
from firstfire.setup.spark import wasted as second
from firstfire.setup.spark.angles import TrueAngle, play_angle
from firstfire.setup.spark.chapter import _tables, spark_numbers
from firstfire.setup.spark.circuit import Circuit, circuit
from firstfire.setup.spark.faults import _shut_longer, faults
from firstfire.setup.spark.plug import Gas, Jump
from firstfire.setup.spark.triggers import PointsSet, SensorSet

DEG, RPM = math.pi / 180, math.pi / 30
TURN, CYCLE = 2.0 * math.pi, 4.0 * math.pi
NARROW = "\u202f"

COIL = Circuit(
    voltage=12.0, winding=3.0, resistor=1.0, inductance=8e-3, drop=2.0, clamp=400.0, turns=100.0,
    capacitance=75e-12, condenser=0.0, passed_on=0.6, mass=0.5, dwell=2e-3 * math.log(2.0),
    shut=0.0, period=CYCLE,
)  # fmt: skip
"""10 V on 4 Ω: 2.5 A, 2 ms; its dwell of 2 ms ln 2 lets in half of that, 1.25 A."""

POINTS = PointsSet(
    shuts=2.0, opens=0.2, shut_angle=1.8, lobe_angle=0.9, room=CYCLE, gap=0.4e-3,
    bounces_at=1000.0, fastest=500.0, worn_shift=0.1, breaks_at=100.0, condenser_for=0.0,
)  # fmt: skip

SENSOR = SensorSet(
    kind="hall", leading=0.7, trailing=0.4, width=5e-3, width_angle=0.3, late=0.05, scatter=0.01,
    play=0.02, fastest=500.0, missed=None, doubled=None, blanked=2e-3, blanked_at_least=1e-3,
    blanked_at_most=4e-3,
)  # fmt: skip

JUMP = Jump(
    name="cranked", speed=50.0, gas=Gas(6e5, 473.15), wants=8e3, wants_least=5.6e3,
    wants_most=11e3, gives=20e3, gives_least=15e3, gives_most=24e3, gap=0.6e-3,
    gap_that_would=0.8e-3, supply=12.0, charging=1e-2,
)  # fmt: skip


# The coil


def test_a_coil_let_in_half_a_current_by_hand():
    """½ · 8 mH · 1.25² = 6.25 mJ, of which 0.6 lift 75 pF to √(2 · 3.75 mJ/75 pF) = 10 kV."""
    assert COIL.resistance == pytest.approx(4.0)
    assert COIL.constant == pytest.approx(2e-3)
    assert COIL.full_current == pytest.approx(2.5)
    charging = COIL.charging(100.0)
    assert charging == pytest.approx(2e-3 * math.log(2.0))
    assert COIL.current(charging, 12.0) == pytest.approx(1.25)
    assert COIL.energy(charging, 12.0) == pytest.approx(6.25e-3)
    assert COIL.unclamped(charging, 12.0) == pytest.approx(10e3)
    assert COIL.gives(charging, 12.0) == pytest.approx(10e3)
    assert replace(COIL, clamp=80.0).gives(charging, 12.0) == pytest.approx(8e3)


def test_of_a_supply_a_driver_keeps_its_share():
    assert COIL.driving(7.0) == pytest.approx(5.0)
    assert COIL.driving(1.0) == 0.0
    charging = COIL.charging(100.0)
    assert COIL.current(charging, 7.0) == pytest.approx(0.625)
    assert COIL.unclamped(charging, 7.0) == pytest.approx(5e3)


def test_a_coil_is_charged_for_its_dwell_or_from_spark_to_spark_or_while_points_are_shut():
    """A cycle of 4π at 4π · 1000 rad/s lasts 1 ms; 2 rad at 100 rad/s 20 ms."""
    assert COIL.charging(0.0) == COIL.dwell
    assert COIL.charging(CYCLE * 1000.0) == pytest.approx(1e-3)
    points = replace(COIL, shut=2.0, dwell=math.inf)
    assert points.charging(100.0) == pytest.approx(20e-3)
    assert points.charging(0.0) == math.inf


def test_heat_of_a_coil_that_runs_by_hand():
    """A hundred sparks a second, each 25 W · 2 ms · (ln 2 - 2/2 + (3/4)/2): 5 W (ln 2 - 0.625)."""
    assert COIL.heat(CYCLE * 100.0) == pytest.approx(5.0 * (math.log(2.0) - 0.625))


def test_a_coil_left_on_warms_its_half_kilogram_by_a_hundred_degrees():
    """2.5² · 3 = 18.75 W; 0.5 kg · 420 J/(kg K) · 100 K are 21 kJ: 1120 s to 403.15 K."""
    assert COIL.heat_left_on == pytest.approx(18.75)
    assert COIL.seconds_left_on(303.15) == pytest.approx(1120.0)
    assert COIL.seconds_left_on(410.0) == 0.0


@pytest.mark.parametrize(("kind", "turns"), [("wren", 2), ("plover", 1)])
def test_a_coil_sparks_each_second_turn_or_each_turn_where_one_is_wasted(kind, turns):
    assert circuit(resolve(ff.read(f"engines/{kind}.toml"))).period == pytest.approx(turns * TURN)


# The plug


def test_in_cranking_the_densest_gas_is_met_squeezed_without_heat(monkeypatch):
    """2^(13/3) of 1 bar double 300 K, by the power 3/13; of sparks that fire, of the last 2 s."""
    peak = 1e5 * 2.0 ** (13.0 / 3.0)
    asked = []

    def since(seconds):
        asked.append(seconds)
        return SimpleNamespace(
            time=np.array([3.0, 4.0, 5.0]),
            pressure=np.array([[1e5, 1e5], [2e5, peak], [9e9, 1e5]]),
        )

    spun = SimpleNamespace(time=np.array([0.0, 5.0]), since=since)
    plain = SimpleNamespace(
        surroundings=SimpleNamespace(air_temperature=300.0, air_pressure=1e5), cylinders=(1, 2)
    )
    fires = SimpleNamespace(time=np.array([4.0, 5.0]), firing=np.array([True, False]))

    def sparks_of(engine, late):
        assert engine is plain
        assert late.time[0] == 3.0
        return [fires, fires]

    monkeypatch.setattr(plug, "sparks_of", sparks_of)
    gas = plug.cranked_gas(plain, SimpleNamespace(spun=spun))
    assert asked == [3.0]
    assert gas.pressure == pytest.approx(peak)
    assert gas.temperature == pytest.approx(600.0)


def test_a_running_spark_meets_the_gas_of_its_own_cylinders_angle(monkeypatch):
    """Pressure and temperature that rise by 1 bar and 10 K a radian from the firing top at 1 rad:
    a spark 0.25 rad after top meets 1.25 bar and 302.5 K, and a later one 2.25 and 312.5; one at
    12 rad, which begins the record again, 13 bar and 420 K."""
    monkeypatch.setattr(plug, "firing_angles", lambda _: (1.0,))
    angle = np.linspace(0.0, CYCLE, 2001)[:-1]
    own = (angle - 1.0) % CYCLE
    curves = SimpleNamespace(
        angle=angle, pressure=(1e5 + 1e5 * own)[:, None],
        unburned_temperature=(300.0 + 10.0 * own)[:, None],
    )  # fmt: skip
    point = SimpleNamespace(fired=SimpleNamespace(cycle=SimpleNamespace(curves=curves)))
    first = plug.running_gas(None, point, 0.25)
    assert (first.pressure, first.temperature) == pytest.approx((1.25e5, 302.5))
    later = plug.running_gas(None, point, 0.25, 1.0)
    assert (later.pressure, later.temperature) == pytest.approx((2.25e5, 312.5))
    last = plug.running_gas(None, point, 12.0)
    assert (last.pressure, last.temperature) == pytest.approx((13e5, 420.0))


def test_what_a_plug_of_0_4_mm_wants_in_open_air_by_hand():
    """0.04 cm at 1 atm and 20 °C: 24 220 · 0.04 + 6080 · 0.2 = 2184.8 V; by the other law of 1.013
    times the gap; sharp 0.7 of the one, worn 1.3 of the other. The coil gives 10 kV, 7.5 to 12."""
    air = Gas(101_325.0, 293.15)
    one = plug.jump("cranked", 100.0, 0.4e-3, air, None, COIL, 12.0)
    rival = 24.36e3 * 0.04053 + 6.72e3 * math.sqrt(0.04053)
    assert one.wants == pytest.approx(2184.8)
    assert one.wants_least == pytest.approx(0.7 * 2184.8)
    assert one.wants_most == pytest.approx(1.3 * rival)
    assert (one.gives_least, one.gives, one.gives_most) == pytest.approx((7.5e3, 10e3, 12e3))
    assert one.word == "jumps"
    clamped = plug.jump("cranked", 100.0, 0.4e-3, air, None, replace(COIL, clamp=110.0), 12.0)
    assert clamped.gives_most == pytest.approx(11e3)
    both = plug.jump("cranked", 100.0, 0.4e-3, air, air, COIL, 12.0)
    assert both.wants == pytest.approx(2 * 2184.8)
    assert both.wants_most == pytest.approx(2.6 * rival)


def test_the_widest_gap_is_where_a_worn_plug_wants_what_the_weakest_coil_gives():
    """1.3 (24 360 x + 6720 √x) = 7500 V, x the gap in cm times 1.013; looked for to 0.5 µm."""
    one = plug.jump("cranked", 100.0, 0.4e-3, Gas(101_325.0, 293.15), None, COIL, 12.0)
    root = (-6720.0 + math.sqrt(6720.0**2 + 4 * 24_360.0 * 7500.0 / 1.3)) / (2 * 24_360.0)
    assert one.gap_that_would == pytest.approx(1e-2 * root**2 / 1.01325, abs=5e-7)


# What is wrong


def bad(**other):
    much = {"wants": 12e3, "wants_most": 15.03e3, "gives": 10e3, "gives_least": 7.5e3}
    return replace(JUMP, **{**much, "gap_that_would": None, **other})


def test_a_dwell_that_lets_in_too_little_is_said_with_one_that_lets_in_four_fifths():
    """Half the current is a quarter of the energy; √0.8 of it take 2 ms · -ln(1 - 0.8944) =
    4.496 ms, rounded up to 4.5."""
    (fault,) = faults(COIL, [replace(JUMP, charging=COIL.dwell)], SENSOR)
    assert fault.id == "coil.dwell"
    assert f"1.4{NARROW}ms let in 25{NARROW}%" in fault.says
    assert fault.values == (("spark.coil.dwell", "4.5 ms"),)
    assert fault.cure == f"A dwell of 4.5{NARROW}ms lets in 80{NARROW}%."


def test_a_gap_that_would_jump_is_told_in_steps_of_a_twentieth_of_a_millimetre():
    """Of 0.48 and 0.52 mm the narrower, down to 0.45; and what misses by most is what is said:
    15 kV for 20 are fewer than 10 for 12."""
    feeds = replace(COIL, dwell=1.0)
    jumps = [
        bad(name="cranked", gap_that_would=0.52e-3),
        bad(name="4000 rpm", wants=20e3, gives=15e3, gap_that_would=0.48e-3),
    ]
    (fault,) = faults(feeds, jumps, SENSOR)
    assert "never jumps at 4000 rpm" in fault.says
    assert fault.values == (("plug.gap", "0.45 mm"),)


def test_where_no_gap_jumps_a_coil_of_more_energy_is_asked_for():
    """15.03 kV by the weakest such coil are 20.04: ½ · 75 pF · 20.04² kV² = 15.06 mJ, 0.6 of 25.1.
    Charged for 2 ms ln 2 it comes to a quarter of what it holds, on 7 V of 12 (5 of 10) to a
    sixteenth: 401.6 mJ."""
    feeds = replace(COIL, clamp=1000.0)
    jumps = [replace(JUMP, charging=1.0), bad(charging=COIL.dwell, supply=7.0)]
    (fault,) = faults(feeds, jumps, SENSOR)
    assert fault.id == "plug.gap"
    assert fault.values == (("spark.coil_energy", "402 mJ"),)


def test_where_the_clamp_is_too_low_more_turns_are_asked_for_in_fives():
    """20.04 kV of 150 V are 133.6 turns, 135; there is no condenser, so 25.1 mJ as ever."""
    jumps = [bad(charging=1.0)]
    (fault,) = faults(replace(COIL, clamp=150.0), jumps, SENSOR)
    assert dict(fault.values) == {"spark.coil_energy": "26 mJ", "spark.coil.turns_ratio": "135"}
    (enough,) = faults(replace(COIL, clamp=210.0), jumps, SENSOR)
    assert dict(enough.values) == {"spark.coil_energy": "26 mJ"}


def test_more_turns_see_less_of_a_condenser():
    """0.6 µF through 135 turns are 32.9 pF besides 75: ½ · 107.9 pF · 20.04² kV²/0.6 = 36.1 mJ."""
    feeds = replace(COIL, clamp=150.0, condenser=0.6e-6)
    (fault,) = faults(feeds, [bad(charging=1.0)], SENSOR)
    assert dict(fault.values)["spark.coil_energy"] == "37 mJ"


def test_points_shut_too_short_for_four_fifths_are_shut_for_as_long_as_that_takes():
    """At 100 rad/s 0.1 rad are 1 ms; 4.496 ms are 0.4496 rad = 25.76°, so 26°. No coil as weak
    ever jumps what this plug wants, worn."""
    feeds = replace(COIL, shut=0.1, dwell=math.inf)
    jumps = [bad(speed=100.0, charging=1e-3, wants_most=50e3)]
    (fault,) = faults(feeds, jumps, POINTS)
    assert fault.id == "points.short"
    assert fault.values == (("spark.points.shut_angle", "26 deg"),)
    assert f"shut for 6° of the crank, 1{NARROW}ms" in fault.says
    # 0.8 of 0.5 rad is no room for 0.4496; 0.8 of 0.6 is.
    tight = replace(POINTS, room=0.5, shut_angle=0.1)
    assert faults(feeds, jumps, tight)[0].id == "plug.gap"
    assert faults(feeds, jumps, replace(tight, room=0.6))[0].id == "points.short"


def test_points_charged_for_four_fifths_are_not_what_is_short():
    """After 4.6 ms (1 - e^-2.3)² = 0.81 is let in, after 4.4 ms (1 - e^-2.2)² = 0.79."""
    feeds = replace(COIL, shut=0.1, dwell=math.inf)
    for charging, wrong in ((4.6e-3, "plug.gap"), (4.4e-3, "points.short")):
        jumps = [bad(speed=100.0, charging=charging, wants_most=50e3)]
        assert faults(feeds, jumps, POINTS)[0].id == wrong


def test_points_are_shut_for_as_long_as_a_sure_spark_takes():
    """7.5 kV by the weakest coil are 10: half the current, 2 ms ln 2, in which it turns by 7.5°."""
    feeds = replace(COIL, shut=0.05, dwell=math.inf)
    speed = 7.5 * DEG / (2e-3 * math.log(2.0))
    short = bad(speed=speed, charging=1e-3, wants=6e3, wants_most=7.5e3, gives=5e3, gives_least=4e3)
    (fault,) = faults(feeds, [short], POINTS)
    assert fault.values == (("spark.points.shut_angle", "8 deg"),)
    assert fault.cure == "Shut for 8° it would jump every time."
    # Of 9° from opening to opening 0.8 are 7.2, of 10 they are 8.
    assert _shut_longer(feeds, [short], replace(POINTS, room=9 * DEG)) is None
    found = _shut_longer(feeds, [short], replace(POINTS, room=10 * DEG))
    assert 7.5 * DEG <= found <= 7.6 * DEG


def test_points_are_shut_for_four_fifths_of_their_way_at_most():
    """Of 100° for 80, which 80.01 are not."""
    room = replace(POINTS, room=100 * DEG)
    assert not faults(COIL, [], replace(room, shut_angle=80 * DEG))
    (fault,) = faults(COIL, [], replace(room, shut_angle=80.01 * DEG))
    assert fault.values == (("spark.points.shut_angle", "80 deg"),)


def test_a_condenser_is_told_in_hundredths_of_a_microfarad_rounded_up():
    (fault,) = faults(COIL, [], replace(POINTS, breaks_at=500.0, condenser_for=0.2345e-6))
    assert fault.values == (("spark.points.condenser", "0.24 uF"),)


def test_points_that_bounce_are_said_in_revolutions_a_minute():
    (fault,) = faults(COIL, [], replace(POINTS, bounces_at=4000 * RPM, fastest=5000 * RPM))
    assert "from 4000 rpm on, and it is asked for 5000" in fault.says


def test_a_sensor_blanked_too_long_is_blanked_for_as_long_as_it_may_be():
    (fault,) = faults(COIL, [], replace(SENSOR, blanked=9e-3, fastest=3000 * RPM))
    assert "Blanked for 9\u202fms after an edge it loses every other edge by 3000 rpm" in fault.says
    assert fault.values == (("spark.sensor.blanked", "4 ms"),)


# Points and sensor


def points_of(monkeypatch, wasted):
    """A heel that wears from 0.6 of its lobe's rise to half of it; a lobe of 0.5 rad."""
    monkeypatch.setattr(triggers, "trigger", lambda _: SimpleNamespace(leading=1.5, trailing=0.3))
    monkeypatch.setattr(triggers, "firing_angles", lambda _: (0.0,))
    rise = 0.05e-3 / 0.18256
    points = SimpleNamespace(
        spring_force=1e6 * 2e-3 * rise * 10.0 / math.sqrt(3.0), arm_mass=2e-3, lobe_rise=rise,
        lobe_ramp=0.5, gap=0.68256 * rise,
    )  # fmt: skip
    return SimpleNamespace(
        spark=SimpleNamespace(
            points=points, wasted=wasted, limit_speed=None, source="points",
            sensor=SimpleNamespace(play=0.05e-3),
        ),
        use=SimpleNamespace(full_throttle_speeds=(200.0, 400.0), cranking_speed=50.0),
    )  # fmt: skip


@pytest.mark.parametrize(("wasted", "share"), [(False, 0.5), (True, 1.0)])
def test_points_by_hand(monkeypatch, wasted, share):
    """The arm flies off at 0.5 rad · √(F/(m · 5.77 h)) = 500 rad/s of its lobe.

    0.4 of the ramp is 10 · 0.4³ - 15 · 0.4⁴ + 6 · 0.4⁵ = 0.31744 of the rise, half of it a half:
    between lie 0.18256 of the rise, the 0.05 mm that wear, and a tenth of 0.5 rad.
    """
    feeds = replace(COIL, shut=50.0 * COIL.dwell, turns=20.0)
    plain = points_of(monkeypatch, wasted)
    made = triggers.points_set(plain, feeds)
    assert made.shut_angle == pytest.approx(1.2)
    assert made.lobe_angle == pytest.approx(1.2 * share)
    assert made.bounces_at == pytest.approx(500.0 / share)
    assert made.worn_shift == pytest.approx(0.05 / share)
    assert made.fastest == 400.0
    # Half the current: 10 kV over 20 turns.
    assert made.breaks_at == pytest.approx(500.0)
    # 2 · 3.75 mJ/327² less 20² · 75 pF.
    assert made.condenser_for == pytest.approx(7.5e-3 / 327.0**2 - 3e-8)
    assert play_angle(plain) == pytest.approx(0.05 / share)


def test_what_air_bears_anyhow_asks_for_no_condenser():
    """3.75 mJ seen through a hundred turns: 75 pF are 0.75 µF, and 0.07 would do."""
    assert triggers._condenser(COIL, 3.75e-3) == 0.0


@pytest.mark.parametrize(("wasted", "room"), [(False, 270.0), (True, 90.0)])
def test_the_way_from_opening_to_opening_is_the_shortest(monkeypatch, wasted, room):
    """Firing at 0 and 450°: 450 and 270 lie between; each turn 90 and 270."""
    monkeypatch.setattr(triggers, "firing_angles", lambda _: (0.0, 450 * DEG))
    plain = SimpleNamespace(spark=SimpleNamespace(wasted=wasted))
    assert triggers._room(plain) == pytest.approx(room * DEG)


@pytest.mark.parametrize(("wasted", "share"), [(False, 0.5), (True, 1.0)])
def test_a_sensor_by_hand(monkeypatch, wasted, share):
    """A tooth of 0.3 rad at 20 mm, 500 rad/s; an edge at 0.7 rad before top, 0.3 asked.

    0.4 rad at half the speed are 0.8, fired 0.1 after top, 0.4 late; at twice the speed 0.2, fired
    at 0.5, 0.2 early.
    """
    passes = SimpleNamespace(leading=0.7, trailing=0.4, by="clock")
    monkeypatch.setattr(triggers, "trigger", lambda _: passes)
    sensor = SimpleNamespace(kind="hall", radius=20e-3, scatter=2e-5, blanked=2e-3, play=1.5e-3)
    plain = SimpleNamespace(
        spark=SimpleNamespace(
            sensor=sensor, wasted=wasted, latency=1e-4, limit_speed=500.0, source="sensor",
            advance_table=((100.0, 0.1), (400.0, 0.3)), running_angle=0.2,
        ),
        use=SimpleNamespace(full_throttle_speeds=(200.0, 400.0)),
    )  # fmt: skip
    made = triggers.sensor_set(plain)
    assert made.fastest == 500.0
    assert made.width_angle == pytest.approx(0.3)
    assert made.width == pytest.approx(share * 6e-3)
    assert made.late == pytest.approx(0.05)
    assert made.scatter == pytest.approx(0.01)
    assert made.play == pytest.approx(0.075 / share)
    assert made.missed == pytest.approx(-0.4)
    assert made.doubled == pytest.approx(0.2)
    # Half a turn of its wheel, 2π of the crank on the cam, π on the crank.
    assert made.blanked_at_most == pytest.approx(math.pi / share / 500.0)
    assert made.blanked_at_least == 0.3e-3


def test_leads_keep_twice_as_far_as_a_spark_jumps_in_air(monkeypatch):
    monkeypatch.setattr(lead_rules, "spark_in_air", lambda volts: 12e-3 * volts / 30e3)
    rules = {one.id: one for one in lead_rules.leads(resolve(ff.read("engines/wren.toml")), 30e3)}
    assert f"plug 24{NARROW}mm from metal" in rules["distance"].do
    assert f"what 30{NARROW}kV jump" in rules["distance"].why


def test_a_wasted_spark_falls_before_the_overlap_top(monkeypatch):
    """0.3 rad before it: 2π - 0.3 after the firing top."""
    inlet, exhaust = SimpleNamespace(worked="cam"), SimpleNamespace(worked="cam")
    parts = SimpleNamespace(valves=SimpleNamespace(inlet=inlet, exhaust=exhaust))
    plain = SimpleNamespace(
        cylinders=(parts,), spark=SimpleNamespace(wasted=True, running_angle=0.3)
    )
    monkeypatch.setattr(second, "spans", lambda _: {"exhaust": 2.0, "inlet": 1.0})
    monkeypatch.setattr(second, "paired", lambda _: False)
    rise = {id(inlet): 1e-4, id(exhaust): 1e-3}

    def valve_rise(valve, span, angle):
        assert angle == pytest.approx(TURN - 0.3)
        return rise[id(valve)] * span

    monkeypatch.setattr(second, "valve_rise", valve_rise)
    found = second.wasted(plain)
    assert found.own == pytest.approx(-0.3)
    assert found.inlet == pytest.approx(1e-4)
    assert found.exhaust == pytest.approx(2e-3)


# The picture


def facts(**other):
    return SimpleNamespace(
        plain=SimpleNamespace(spark=SimpleNamespace(source="sensor", start_angle=5 * DEG)), **other
    )


def test_the_picture_by_hand(monkeypatch):
    """60 columns for 150°, behind a name of 10: 2.5° each.

    Edges at 60° and 15°: columns 24 and 42. Cranked, asked 15°, true 10° ± 5°: 42, 44, from 42 to
    46; the coil from 40° on, 32. Fast, asked 45°, true 30° ± 10°: 30, 36, from 32 to 40; the coil
    from 70° on, 20. What lies between the two, and what isn't judged, has no bar.
    """
    passes = SimpleNamespace(leading=60 * DEG, trailing=15 * DEG)
    monkeypatch.setattr(small_picture, "trigger", lambda _: passes)
    angles = (
        TrueAngle("cranked", 50.0, 15 * DEG, 10 * DEG, 5 * DEG),
        TrueAngle("middle", 200.0, 20 * DEG, 20 * DEG, 1 * DEG),
        TrueAngle("fast", 400.0, 45 * DEG, 30 * DEG, 10 * DEG),
        TrueAngle("faster", 500.0, 0.0, 0.0, 0.0, "it would stop"),
    )
    charged = {50.0: 30 * DEG / 50.0, 400.0: 40 * DEG / 400.0}
    feeds = SimpleNamespace(charging=lambda speed: charged[speed])
    ten = " " * 10
    assert small_picture.picture(facts(angles=angles, circuit=feeds)) == [
        "degrees   120         90          60          30          T           30",
        "sensor    " + "." * 24 + "<" + "." * 17 + ">" + "." * 17,
        "cranked   " + " " * 32 + "=" * 13,
        ten + " " * 42 + "a-*--",
        "fast      " + " " * 20 + "=" * 17,
        ten + " " * 30 + "a ----*----",
    ]


def test_a_coil_that_charges_from_before_the_picture_begins_at_its_edge(monkeypatch):
    """150° up to 15° after top: from 135° on, where the picture begins at 120 and has top at 48."""
    passes = SimpleNamespace(leading=60 * DEG, trailing=15 * DEG)
    monkeypatch.setattr(small_picture, "trigger", lambda _: passes)
    late = (TrueAngle("late", 100.0, -15 * DEG, -15 * DEG, 0.0),)
    feeds = SimpleNamespace(charging=lambda speed: 150 * DEG / speed)
    assert small_picture.picture(facts(angles=late, circuit=feeds))[2] == "late      " + "=" * 55


def test_a_bar_ends_at_the_pictures_edges_and_a_mark_beyond_them_is_left_out():
    bar = small_picture._line({90 * DEG: "a", 130 * DEG: "x", -30 * DEG: "y"}, " ",
                              (200 * DEG, -60 * DEG, "="))  # fmt: skip
    assert bar == "=" * 12 + "a" + "=" * 47
    assert [small_picture._place(one) for one in (120, 45, 0, -30)] == [0, 30, 48, 60]


# Text


ANGLES = (
    TrueAngle("cranked", 600 * RPM, 5 * DEG, 6 * DEG, 0.5 * DEG),
    TrueAngle("3000 rpm", 3000 * RPM, 20 * DEG, 18 * DEG, 0.3 * DEG),
)


def test_angles_end_where_their_heads_end():
    assert list(told._angles(facts(angles=ANGLES))) == [
        "                  rpm         asked          true   scatter   early by",
        "  cranked         600   5.0° before   6.0° before     ±0.5°       1.0°",
        "  3000 rpm       3000  20.0° before  18.0° before     ±0.3°      -2.0°",
    ]


def test_a_coils_table_by_hand():
    """12 V on 4 Ω: after half its time constant 1 - e^-½ = 0.39 of 3 A; after one 0.63, two 0.86,
    four 0.98.

    As cranked half: 1.5 A, 9 mJ, √(2 · 5.4 mJ/75 pF) = 12 kV; with 8 V, 1 A, 4 mJ, 8 kV.
    """
    spin = SimpleNamespace(mean_speed=100.0)
    feeds = replace(COIL, voltage=14.0)
    found = facts(circuit=feeds, left=10.0, cranked=spin, angles=ANGLES)
    head, *lines = told._coil(found)
    assert head == "  charged for   " + "at 14 V".rjust(22) + "at 10 V".rjust(22)
    assert [line[:16].strip() for line in lines] == [
        "1 ms", "2 ms", "4 ms", "8 ms", "as cranked", "3000 rpm",
    ]  # fmt: skip
    assert [line[16:38].split()[0] for line in lines[:4]] == ["1.2", "1.9", "2.6", "2.9"]
    assert lines[4][16:] == "1.5 A 9 mJ 12 kV".rjust(22) + "1 A 4 mJ 8 kV".rjust(22)
    assert lines[5][16:] == "1.5 A 9 mJ 12 kV".rjust(22)


def test_what_sags_by_less_than_a_twentieth_of_a_volt_has_no_column_of_its_own():
    found = facts(circuit=COIL, cranked=SimpleNamespace(mean_speed=100.0), angles=ANGLES)
    found.left = 11.96
    assert next(told._coil(found)).split() == ["charged", "for", "at", "12", "V"]
    found.left = 11.94
    assert next(told._coil(found)).endswith("at 11.9 V")


def test_what_is_wanted_and_given_stands_in_its_columns():
    head, line, now = told._jumps(facts(jumps=(JUMP,)))
    assert (
        head == "               bar    °C         kV wanted          kV given                 gap"
    )
    assert (
        line == "  cranked        6   200        8 (5.6–11)        20 (15–24)  jumps          0.8"
    )
    assert now == f"  Gap now 0.6{NARROW}mm; the last column is the widest that jumps, mm."


def grid():
    return SimpleNamespace(
        speeds=np.array([1000.0, 2000.0]) * RPM,
        openings=np.array([0.2, 1.0]),
        pressures=np.array([[40e3, 50e3], [95e3, math.nan]]),
        advance=np.array([[30.0, 35.0], [10.0, 15.5]]) * DEG,
        governs=(("torque", "torque"), ("kick", "knock")),
        bounded=np.array([[False, True], [False, False]]),
    )


def test_the_advance_table_has_its_widest_opening_on_top():
    """0.2 of the throttle has 45 kPa in the mean; where a pressure isn't known, the other's."""
    lines = list(told._table(grid(), 80))
    assert lines[:3] == [
        "  throttle     kPa    1000    2000  rpm",
        f"  100{NARROW}%         95   10.0b   15.5k",
        f"   20{NARROW}%         45   30.0    35.0+",
    ]
    assert all(len(line) <= 80 for line in lines)


# Words


def test_the_spark_nearest_to_missing_is_the_one_that_is_named():
    """Of two that may miss, 20 kV for 19 lie nearer than 12 for 9; of two that jump, 22 kV for 21
    nearer than 15 for 11."""
    miss = replace(JUMP, name="3000 rpm", wants=9e3, wants_most=31e3, gives=12e3)
    near = replace(miss, name="cranked", wants=19e3, gives=20e3, gap_that_would=0.45e-3)
    found = facts(faults=(), jumps=(miss, near))
    found.plain.name = "wren"
    said = words.opening(found)
    assert f"may miss when cranked: the plug wants 19{NARROW}kV" in said
    assert f"At a gap of 0.45{NARROW}mm it surely jumps." in said
    found.jumps = (JUMP, replace(JUMP, name="3000 rpm", wants_most=21e3, gives_least=22e3))
    assert "nearest to missing when 3000 rpm" in words.opening(found)


def test_a_resistor_takes_its_share_of_a_coil_left_on():
    """2.5² · 1.5 = 9.375 W of one of 1.5 Ω."""
    feeds = replace(COIL, resistor=1.5, winding=2.5)
    found = facts(circuit=feeds, angles=ANGLES)
    found.plain.surroundings = SimpleNamespace(air_temperature=303.15)
    said = words.coil_words(found)
    assert f"Its resistor of 1.5{NARROW}Ω takes 9.4{NARROW}W left on" in said[1]
    assert (
        f"Driver: for 5{NARROW}A and clamped at 400{NARROW}V, which allows 40{NARROW}kV" in said[2]
    )


def test_a_resistor_as_large_as_the_winding_halves_the_current():
    """10 V on twice 5 Ω: 1 A, and 2 · 1² · 5 = 10 W, of which a resistor is to stand twice."""
    found = facts(circuit=replace(COIL, winding=5.0, resistor=0.0))
    assert words._resistor_watts(found) == pytest.approx(10.0)
    # 10 V on twice 1 Ω: 5 A and 50 W.
    found.circuit = replace(COIL, winding=1.0, resistor=0.0)
    assert words._resistor_watts(found) == pytest.approx(50.0)


def test_angles_speeds_and_voltages_as_one_reads_them():
    assert words.degrees(5 * DEG) == "5.0° before"
    assert words.degrees(-12 * DEG, 0) == "12° after"
    assert words.rpm(3000 * RPM) == f"3000{NARROW}rpm"
    assert words.kilovolts(9900.0) == f"9.9{NARROW}kV"


def test_a_clock_that_errs_by_more_than_three_degrees_is_said():
    errors = (SimpleNamespace(speed=300 * RPM, early=10 * DEG),
              SimpleNamespace(speed=600 * RPM, early=2 * DEG))  # fmt: skip
    found = facts(edge_below=SimpleNamespace(speed=600 * RPM, errors=errors))
    said = words._clock_words(found)
    assert f"below 600{NARROW}rpm fire straight on an edge" in said
    assert "errs by more than 3°" in said
    assert f"At 300{NARROW}rpm a clock fires 15° before instead of 5° before." in said


@pytest.mark.parametrize(
    ("start", "said"), [(5.0, "the file's."), (-5.0, "not the file's 5° before.")]
)
def test_a_start_angle_is_the_files_or_is_said_not_to_be(start, said):
    """Also where it is as far after top as the file's is before."""
    found = facts(
        kick=SimpleNamespace(strong=20 * DEG), cranked=SimpleNamespace(over=True),
        start=start * DEG,
    )  # fmt: skip
    sentence = words.start_words(found)
    assert "throws it back from 20° before top on; 5° later is safe." in sentence
    assert sentence.endswith(said)


# The chapter


def chapter_facts():
    return facts(
        kick=SimpleNamespace(strong=20 * DEG), cranked=SimpleNamespace(over=True), trigger=POINTS,
        angles=ANGLES, jumps=(JUMP, replace(JUMP, gap_that_would=0.7e-3)), leads=(), table=None,
    )  # fmt: skip


def test_a_start_angle_is_held_against_five_degrees_later_than_what_kicks():
    numbers = {one.id: one for one in spark_numbers(chapter_facts())}
    assert numbers["start_angle"].limit == pytest.approx(15 * DEG)
    assert numbers["plug_gap"].limit == 0.7e-3
    assert numbers["points_bounce"].value == 1000.0


def test_the_chapters_table_has_angles_in_degrees():
    table = next(_tables(chapter_facts()))
    assert table.rows[0] == ("cranked", "5.0° before", "6.0° before", "±0.5°")
