"""Parts of a step as they are written, in round numbers: pistons, valves, shaft, burn and flame."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import (
    friction,
    mechanism,
    passages,
    shaft,
    suction,
)
from firstfire.cycle.layout import (
    ANGLE,
    COEFFICIENT_POINTS,
    CRANKCASE,
    IRON_RINGS,
    LIFT,
    LIFT_POINTS,
    LIFT_SPEED,
    O_RINGS,
    ONE_WAY,
    ORIFICE,
    PASSAGE_SUMS,
    PASSED_BACK,
    PASSED_BURNED,
    PASSED_ENTHALPY,
    PASSED_FUEL,
    PASSED_MASS,
    PRESSURE,
    PTFE_RINGS,
    ROTOR,
    SHAFT_SIZE,
    SPEED,
    SUCTION_SIZE,
    SUCTION_VALVE,
    VOLUME_SIZE,
)
from firstfire.formulas import slider_crank


def place(row, what):
    return SHAFT_SIZE + row * VOLUME_SIZE + what


# Pistons


def test_volumes_over_and_under_a_piston(monkeypatch):
    """30° of the shaft and 30° more of the crank: sine √3/2, cosine 1/2, with a pin at 60 mm that
    goes by -20 mm and 8 mm a radian.

    10 mm under its top it has swept 1e-2 · 1e-2 m³; 1e-2 · 0.02 · 50 rad/s are 10 litres a second.
    """
    asked = []

    def motion(*given):
        asked.append(given)
        return 60e-3, -20e-3, 8e-3

    monkeypatch.setattr(mechanism, "pin_motion", motion)
    third = (math.sin(math.pi / 6), math.cos(math.pi / 6))
    monkeypatch.setattr(mechanism, "turn_shaft", lambda *given: third if given[1] == 0.5 else 0)
    cylinder = SimpleNamespace(
        turned_sine=third[0], turned_cosine=third[1], throw=20e-3, rod=70e-3, offset=1e-3,
        top_height=70e-3, piston_area=1e-2, clearance_volume=5e-5, crankcase=1,
    )  # fmt: skip
    engine = SimpleNamespace(
        moving_count=2, moving_volumes=[0, 1], cylinder_count=1, cylinders=[cylinder],
        volumes=[SimpleNamespace(kind=-1), SimpleNamespace(kind=CRANKCASE, volume=1e-3)],
    )  # fmt: skip
    one = np.zeros(1)
    work = SimpleNamespace(
        volume=np.zeros(2), growth=np.full(2, 9.0), widening=one.copy(), rise=one.copy(),
        bend=one.copy(), own_sine=one.copy(), own_cosine=one.copy(),
    )  # fmt: skip
    mechanism.volumes_now.py_func(engine, work, 0.5, 50.0)
    assert asked == [pytest.approx((math.sqrt(0.75), 0.5, 20e-3, 70e-3, 1e-3))]
    assert (work.own_sine[0], work.own_cosine[0]) == pytest.approx((math.sqrt(0.75), 0.5))
    assert work.volume == pytest.approx([1.5e-4, 9e-4])
    assert work.growth == pytest.approx([1e-2, -1e-2])
    assert (work.widening[0], work.rise[0], work.bend[0]) == pytest.approx((2e-4, -20e-3, 8e-3))


def test_a_pistons_motion_is_the_slider_cranks(monkeypatch):
    """20 mm, 70 mm and 1 mm at 90°: √(70² - 19²) = 67.37 mm high, down by 20 mm a radian."""
    monkeypatch.setattr(mechanism, "pin_motion", slider_crank.pin_motion)
    height, slope, _ = mechanism.piston_motion.py_func(math.pi / 2, 20e-3, 70e-3, 1e-3)
    assert height == pytest.approx(math.sqrt(4900 - 361) * 1e-3)
    assert slope == pytest.approx(-20e-3)


# Valves


def test_cam_valves_are_placed(monkeypatch):
    """Open from 1 for 2 rad of each cycle: at 2.5, a cycle on, it is, and from a cycle on."""
    cycle = 4 * math.pi
    cam = SimpleNamespace(suction=-1, opens=1.0, duration=2.0)
    engine = SimpleNamespace(valve_count=2, valves=[cam, SimpleNamespace(suction=0)])
    work = SimpleNamespace(turn=1.0, valve_open=[9, 9], valve_from=[0.0, 0.0])
    values = np.zeros(SHAFT_SIZE)
    for angle, is_open in ((2.5, 1), (0.5, 0), (3.5, 0), (1.0, 1), (3.0, 0)):
        values[ANGLE] = cycle + angle
        passages.place_valves.py_func(engine, work, values)
        assert work.valve_open == [is_open, 1]
    values[ANGLE] = cycle + 2.5
    passages.place_valves.py_func(engine, work, values)
    assert work.valve_from[0] == pytest.approx(cycle + 1.0, rel=1e-12)
    # A hair ahead is behind where the shaft turns back.
    work.turn = -1.0
    for angle, is_open in ((1.0, 0), (3.0, 1)):
        values[ANGLE] = cycle + angle
        passages.place_valves.py_func(engine, work, values)
        assert work.valve_open[0] == is_open


def test_lift_lies_between_its_points():
    """2 rad are 180 steps: 0.5 rad after 1, at 45; a quarter of a step on, between 9 and 13."""
    lift = np.zeros(LIFT_POINTS)
    lift[45], lift[46] = 9e-3, 13e-3
    cam = SimpleNamespace(suction=-1, duration=2.0, lift=lift)
    other = SimpleNamespace(suction=1)
    engine = SimpleNamespace(valves=[cam, other], suctions_at=4)
    work = SimpleNamespace(valve_from=[1.0, 0.0])
    values = np.zeros(4 + 2 * SUCTION_SIZE)
    values[0], values[4 + SUCTION_SIZE + LIFT] = 1.5 + 0.25 * 2.0 / 180, 7e-3
    found = passages.valve_lift.py_func
    assert found(engine, work, values, 0) == pytest.approx(10e-3)
    assert found(engine, work, values, 1) == 7e-3
    lift[:] = np.arange(LIFT_POINTS)
    for angle, expected in ((3.0, 180.0), (4.0, 180.0), (0.9, 0.0)):
        values[0] = angle
        assert found(engine, work, values, 0) == pytest.approx(expected)


def test_a_valves_area_is_its_curtain_or_its_throat():
    """Head of 20 mm: 1 mm is 0.05, of the 8 steps to 0.4 the first. 1.5 mm: half way from 0.6 to
    0.5, and π · 20 · 1.5 · 0.8 mm²; at 2 mm that is more than the throat's.
    """
    coefficient = np.linspace(0.7, 0.7 - 0.1 * (COEFFICIENT_POINTS - 1), COEFFICIENT_POINTS)
    valve = SimpleNamespace(
        head_diameter=20e-3, coefficient=coefficient, seat_cosine=0.8, throat_area=1e-4
    )
    area = passages.valve_area.py_func
    assert area(valve, 1.5e-3) == pytest.approx(0.55 * math.pi * 20e-3 * 1.5e-3 * 0.8)
    assert area(valve, 2e-3) == pytest.approx(0.5 * 1e-4)
    coefficient[-1] = 0.3
    assert area(valve, 9e-3) == pytest.approx(0.3 * 1e-4)
    assert area(valve, 0.0) == 0.0


def lane():
    whole = ("way", "up", "down")
    kept = ("sign", "area", "high", "low", "specific", "over_gamma", "flow")
    return SimpleNamespace(
        **{name: np.full(4, -9) for name in whole}, **{name: np.full(4, -9.0) for name in kept}
    )


def test_ways_line_up_from_where_their_gas_comes(monkeypatch):
    """0 has 2 bar and 1 has 1: an orifice from 1 to 0 flows back, one with a flap not at all; a
    valve of half a square centimetre, twice; one that is shut not."""
    monkeypatch.setattr(passages, "valve_lift", lambda e, w, _, row: e.first * w.sign + 1e-3 * row)
    monkeypatch.setattr(passages, "valve_area", lambda valve, lift: valve * lift)
    way = {"area": 2.0, "start": 0, "end": 1, "kind": ORIFICE, "valve": -1}
    ways = [
        SimpleNamespace(**{**way, "start": 1, "end": 0}),
        SimpleNamespace(**{**way, "start": 1, "end": 0, "kind": ONE_WAY}),
        SimpleNamespace(**{**way, "valve": 0}),
        SimpleNamespace(**{**way, "valve": 1}),
    ]
    engine = SimpleNamespace(way_count=4, ways=ways, valves=[3.0, 4.0], first=5e-3)
    streams = [SimpleNamespace(specific=8e4, over_gamma=0.7), SimpleNamespace(specific=7e4)]
    work = SimpleNamespace(lane=lane(), valve_open=[0, 1], stream=streams, sign=1.0)
    values = np.zeros(place(2, 0))
    values[place(0, PRESSURE)], values[place(1, PRESSURE)] = 2e5, 1e5
    assert passages.line_up.py_func(engine, work, values) == 2
    found = work.lane
    assert [list(one[:2]) for one in (found.way, found.up, found.down, found.sign)] == [
        [0, 3], [0, 0], [1, 1], [-1.0, 1.0]
    ]  # fmt: skip
    assert found.area[:2] == pytest.approx([2.0, 2.0 * 4.0 * 6e-3])
    assert list(found.high[:2]) == [2e5, 2e5]
    assert list(found.low[:2]) == [1e5, 1e5]
    assert list(found.specific[:2]) == [8e4, 8e4]
    assert list(found.over_gamma[:2]) == [0.7, 0.7]


def test_what_flows_is_taken_and_given(monkeypatch):
    """2 g/s against the way, half air, 0.3 fuel, 0.2 burned, at 1000 J/kg; half its weight."""
    found = lane()
    engine = SimpleNamespace(step=SimpleNamespace(flow_band=0.01))
    stream = SimpleNamespace(out=1e-3, air=0.5, fuel=0.3, burned=0.2, enthalpy=1000.0)
    into = SimpleNamespace(in_air=1.0, in_fuel=2.0, in_burned=3.0, in_enthalpy=4.0)
    work = SimpleNamespace(lane=found, stream=[into, stream], way_sums=np.ones((3, 4)))

    def lined(*given):
        assert given == (engine, work, "values")
        found.way[0], found.up[0], found.down[0], found.sign[0] = 2, 1, 0, -1.0
        return 1

    def flows(where, count, band):
        assert (count, band) == (1, 0.01)
        where.flow[0] = 2e-3

    monkeypatch.setattr(passages, "line_up", lined)
    monkeypatch.setattr(passages, "flow_openings", flows)
    passages.flow_ways.py_func(engine, work, "values", 0.5)
    assert work.open == 1
    assert stream.out == pytest.approx(3e-3)
    got = (into.in_air, into.in_fuel, into.in_burned, into.in_enthalpy)
    assert got == pytest.approx((1.001, 2.0006, 3.0004, 6.0))
    assert work.way_sums[2] == pytest.approx([1 - 1e-3, 1 - 3e-4, 1 - 2e-4, 0.0])
    assert work.way_sums[:2] == pytest.approx(np.ones((2, 4)))


@pytest.mark.parametrize(("share", "back"), [(0.5, 0.0), (-0.5, 0.02)])
def test_a_passage_books_its_share(share, back):
    """Half of 2 kg/s, 3, 4 and 5 of what it carries, for 20 ms."""
    engine = SimpleNamespace(
        passage_count=2, passage_sums_at=3,
        passages=[SimpleNamespace(way=0, share=0.0), SimpleNamespace(way=1, share=share)],
    )  # fmt: skip
    work = SimpleNamespace(way_sums=np.array([[9.0] * 4, [2.0, 3.0, 4.0, 5.0]]))
    values = np.ones(3 + 2 * PASSAGE_SUMS)
    passages.book_passages.py_func(engine, work, values, 0.02)
    at = 3 + PASSAGE_SUMS
    names = (PASSED_MASS, PASSED_FUEL, PASSED_BURNED, PASSED_ENTHALPY)
    sign = math.copysign(1.0, share)
    expected = [1 + sign * part for part in (0.02, 0.03, 0.04, 0.05)]
    assert [values[at + name] for name in names] == pytest.approx(expected)
    assert values[at + PASSED_BACK] == pytest.approx(1.0 + back)
    assert list(values[:at]) == [1.0] * at


# Valves that suction opens


def sucked(lift, speed, port=1e5):
    """A head of 4 cm² under 0.1 bar: 4 N, against 1 N, 1 N/mm and 0.5 N s/m; of 2 g."""
    valve = SimpleNamespace(
        suction=1, head_diameter=math.sqrt(16e-4 / math.pi), preload=1.0, spring_rate=1000.0,
        damping=0.5, mass=2e-3, max_lift=3e-3, restitution=0.5,
    )  # fmt: skip
    passage = SimpleNamespace(kind=SUCTION_VALVE, valve=1, start=1, end=0)
    at = place(2, 0) + SUCTION_SIZE
    engine = SimpleNamespace(
        passage_count=1, passages=[passage], valve_count=2, suctions_at=place(2, 0),
        valves=[SimpleNamespace(suction=-1), valve],
    )  # fmt: skip
    values = np.zeros(at + SUCTION_SIZE)
    values[place(1, PRESSURE)], values[place(0, PRESSURE)] = port, 0.9e5
    values[at + LIFT], values[at + LIFT_SPEED] = lift, speed
    return engine, values, at


def test_suction_pulls_against_a_spring():
    """4 N less 1 N, 1.5 N at 1.5 mm and 1 N at 2 m/s: half a newton."""
    engine, values, _ = sucked(1.5e-3, 2.0)
    assert suction.force_on.py_func(engine, values, 0) == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("lift", "speed", "port", "rates"),
    [
        (1.5e-3, 2.0, 1e5, (2.0, 250.0)),
        (0.0, 0.0, 1e5, (0.0, 1500.0)),
        (0.0, 0.0, 0.9e5, (0.0, 0.0)),
        (3e-3, 0.0, 1.1e5, (0.0, 0.0)),
        (3e-3, 0.0, 0.9e5, (0.0, -2000.0)),
    ],
)
def test_a_suction_valve_moves_unless_it_is_pressed(monkeypatch, lift, speed, port, rates):
    """0.5 N on 2 g are 250 m/s²; on its seat 3 N; off its stop of 3 mm -4 N."""
    monkeypatch.setattr(suction, "force_on", suction.force_on.py_func)
    engine, values, at = sucked(lift, speed, port)
    found = np.full(len(values), 9.0)
    suction.suction_rates.py_func(engine, values, found)
    assert (found[at + LIFT], found[at + LIFT_SPEED]) == pytest.approx(rates)


@pytest.mark.parametrize(
    ("lift", "speed", "lifts", "back"),
    [
        (-1e-6, -2.0, 0.0, 1.0),
        (3.1e-3, 2.0, 3e-3, -1.0),
        # 1e-3 · (0.15)² = 22.5 µJ of 10 µm times 3.15 N, and just too little at 0.17.
        (-1e-6, -0.3, 0.0, 0.0),
        (1e-3, -2.0, 1e-3, -2.0),
    ],
)
def test_a_valve_springs_back_by_half(monkeypatch, lift, speed, lifts, back):
    monkeypatch.setattr(suction, "force_on", lambda e, found, _: 3.15 * found[0] / e.passage_count)
    engine, values, at = sucked(lift, speed)
    values[0] = 1.0
    suction.bounce.py_func(engine, values)
    assert (values[at + LIFT], values[at + LIFT_SPEED]) == pytest.approx((lifts, back))


@pytest.mark.parametrize(
    ("speed", "stays"), [(0.354, True), (0.356, False)]
)  # fmt: skip
def test_a_valve_that_would_hop_less_than_a_hundredth_of_a_millimetre_stays(
    monkeypatch, speed, stays
):
    """½ · 2 g · v² = 10 µm · 3.15 N at 0.1775 m/s, of 0.355."""
    monkeypatch.setattr(suction, "force_on", lambda *_: -3.15)
    engine, values, at = sucked(0.0, -speed)
    suction.bounce.py_func(engine, values)
    assert bool(values[at + LIFT_SPEED] == 0.0) is stays


@pytest.mark.parametrize(
    ("lift", "speed", "after", "asked", "share"),
    [
        (1e-3, -2.0, -1e-4, (1e-3, 2.0, -1e-4, 4e-3), 0.25),
        (2e-3, 5.0, 3.1e-3, (1e-3, 5.0, -1e-4, 4e-3), 0.25),
        (1e-3, -2.0, 0.5e-3, None, 1.0),
        (1e-3, -2.0, -1e-6, None, 1.0),
        (2e-3, 5.0, 3.001e-3, None, 1.0),
    ],
)
def test_a_step_ends_where_a_valve_arrives(monkeypatch, lift, speed, after, asked, share):
    """After 1 of 4 ms; one that sinks in by less than 2 µm goes its step."""
    given = []
    monkeypatch.setattr(suction, "time_to_wall", lambda *all_: given.append(all_) or 1e-3)
    engine, now, at = sucked(lift, speed)
    trial = now.copy()
    trial[at + LIFT] = after
    work = SimpleNamespace(now=now, trial=trial)
    assert suction.share_to_contact.py_func(engine, work, 4e-3) == pytest.approx(share)
    assert given == ([] if asked is None else [pytest.approx(asked)])


# The shaft


@pytest.mark.parametrize(("case", "drop"), [(-1, 4e5), (1, 3e5)])
def test_gas_over_a_piston_less_what_is_under_it(monkeypatch, case, drop):
    """5 bar over still air of 1, or a case of 2; times 2e-5 m³/rad twice."""
    engine = SimpleNamespace(
        shaft=SimpleNamespace(still_air=1e5), cylinders=[SimpleNamespace(crankcase=case)],
        cylinder_count=1,
    )  # fmt: skip
    values = np.zeros(place(2, 0))
    values[place(0, PRESSURE)], values[place(1, PRESSURE)] = 5e5, 2e5
    assert shaft.pressure_drop.py_func(engine, values, 0) == pytest.approx(drop)
    monkeypatch.setattr(shaft, "pressure_drop", shaft.pressure_drop.py_func)
    work = SimpleNamespace(widening=[2e-5])
    assert shaft.gas_torque.py_func(engine, work, values) == pytest.approx(2e-5 * drop)


def test_all_that_rubs_at_one_moment(monkeypatch):
    """1 + 2 + 3 N·m, 2 mm · (10 N + 5 N) at a valve that is open, 0.5 for 40 N, 0.07 drives.

    The rod leans by (20 · 0.5 - 3)/70 = 0.1.
    """
    asked = []
    monkeypatch.setattr(
        shaft, "cylinder_friction", lambda *all_: asked.append(all_) or (1.0, 2.0, 3.0, 40.0)
    )
    monkeypatch.setattr(shaft, "pressure_drop", lambda e, values, row: values[row] * e.still)
    monkeypatch.setattr(shaft, "valve_lift", lambda e, w, _, row: e.still * w.sign * row)
    monkeypatch.setattr(shaft, "shaft_friction", lambda rubs, load, speed: rubs.drag * load * speed)
    cylinder = SimpleNamespace(throw=20e-3, rod=70e-3, offset=3e-3, piston_area=1e-3)
    cam = {"cam_arm": 2e-3, "preload": 10.0, "spring_rate": 5000.0}
    engine = SimpleNamespace(
        cylinder_count=1, cylinders=[cylinder], rubbing=["rubs"], valve_count=3, still=1e-3,
        valves=[SimpleNamespace(suction=-1, **cam), SimpleNamespace(suction=-1, **cam),
                SimpleNamespace(suction=0, **cam)],
        shaft_rubbing=SimpleNamespace(drag=0.25e-3, drive=0.07),
    )  # fmt: skip
    work = SimpleNamespace(
        own_sine=[0.5], own_cosine=[0.8], rise=[7.0], bend=[8.0], valve_open=[0, 1, 1], sign=1.0
    )
    torque = shaft.rubbing_torque.py_func(engine, work, [3e5], 50.0)
    assert torque == pytest.approx(6.0 + 0.03 + 0.5 + 0.07)
    assert asked[0][0] == "rubs"
    assert asked[0][1:] == pytest.approx((1e-3, 20e-3, 70e-3, 0.8, 7.0, 8.0, 0.1, 50.0, 300.0))


@pytest.mark.parametrize(("rubs", "held"), [(0, 0.5), (1, 2.5)])
def test_what_drives_and_what_holds(monkeypatch, rubs, held):
    asked = []
    monkeypatch.setattr(shaft, "rubbing_torque", lambda *all_: asked.append(all_) or 2.0)
    monkeypatch.setattr(shaft, "gas_torque", lambda *all_: asked.append(all_) or 7.0)
    engine = SimpleNamespace(shaft=SimpleNamespace(friction=0.5, rubs=rubs))
    assert shaft.torques.py_func(engine, "work", "values", 3.0) == (7.0, held)
    expected = [(engine, "work", "values")]
    assert asked == ([(engine, "work", "values", 3.0)] if rubs else []) + expected


def test_a_starter_falls_from_its_stall_to_its_free_speed():
    """12 N·m at a stand, 100 rad/s free: 9 at 25, 3 too many at 125, from which a clutch frees."""
    starter = SimpleNamespace(starter_stall=12.0, starter_free=100.0, starter_one_way=0)
    assert shaft.starter_torque.py_func(starter, 25.0) == pytest.approx(9.0)
    assert shaft.starter_torque.py_func(starter, 125.0) == pytest.approx(-3.0)
    starter.starter_one_way = 1
    assert shaft.starter_torque.py_func(starter, 125.0) == 0.0
    assert shaft.starter_torque.py_func(starter, 25.0) == pytest.approx(9.0)


def driven(engine, work, values, speed):
    assert len(values) == SHAFT_SIZE
    return 7.0 * engine.cylinder_count, 2.0 * abs(work.turn) * speed / speed


def freed(rotor=0.0, turn=1.0):
    """I = 5e-3 and 0.5 kg on 0.1 m: 1e-2 kg·m²; their rise bends by 0.2 m."""
    cylinder = SimpleNamespace(reciprocating_mass=0.5)
    engine = SimpleNamespace(
        shaft=SimpleNamespace(
            friction_per_speed=0.01, load_square=1e-3, inertia=5e-3, rotor=rotor,
        ),
        cylinder_count=1, cylinders=[cylinder],
    )  # fmt: skip
    work = SimpleNamespace(turn=turn, rise=[0.1], bend=[0.2])
    return engine, work, np.zeros(SHAFT_SIZE)


@pytest.mark.parametrize(
    ("speed", "turn", "rate"), [(10.0, 1.0, 490.0), (-10.0, -1.0, 910.0), (0.0, 0.0, 0.0)]
)
def test_a_free_shaft_gains_speed(monkeypatch, speed, turn, rate):
    """7 N·m less 2 held, 0.1 by speed, 0.1 by its square and 0.5 · 0.1 · 0.2 · 100 = 1; 1.1 of the
    starter: 4.9 over 1e-2. Turned back friction helps it: 7 + 2 + 0.1 + 0.1 - 1 + 0.9.
    """
    engine, work, values = freed(turn=turn)
    monkeypatch.setattr(shaft, "torques", driven)
    starter = lambda one, fast: 1.0 + fast * one.friction_per_speed  # noqa: E731
    monkeypatch.setattr(shaft, "starter_torque", starter)
    found = shaft.shaft_acceleration.py_func(engine, work, values, speed)
    assert found == pytest.approx((rate, 0.0))


@pytest.mark.parametrize(
    ("turns", "drive", "rates"),
    [
        # (3.8 + 8)/(0.01 + 0.01) = 590 together, which asks 5.9 of its 8.
        (10.0, 8.0, (590.0, 590.0)),
        # (3.8 + 4)/0.02 = 390 asks 3.9 of its 4.
        (10.0, 4.0, (390.0, 390.0)),
        # (3.8 + 3)/0.02 = 340 would ask 3.4 of 3: it stays behind, with 300.
        (10.0, 3.0, (380.0, 300.0)),
        (9.0, 8.0, (380.0, 800.0)),
    ],
)
def test_a_rotor_turns_with_its_shaft_or_stays_behind(monkeypatch, turns, drive, rates):
    """7 - 2 - 0.1 - 0.1 - 1 = 3.8 N·m over 1e-2, and a rotor of 1e-2."""
    engine, work, values = freed(rotor=1e-2)
    values[ROTOR] = turns
    monkeypatch.setattr(shaft, "torques", driven)
    monkeypatch.setattr(shaft, "starter_torque", lambda _, fast: drive * fast / turns)
    found = shaft.shaft_acceleration.py_func(engine, work, values, 10.0)
    assert found == pytest.approx(rates)


@pytest.mark.parametrize(("rotor", "together"), [(1e-2, 25.0), (0.0, None)])
def test_a_clutch_takes_its_rotor_up(rotor, together):
    """1e-2 at 20 rad/s and 1e-2 at 30: 25; 3e-2 of it would be 27.5."""
    engine, work, _ = freed(rotor=rotor)
    work.trial = np.zeros(SHAFT_SIZE)
    work.trial[SPEED], work.trial[ROTOR] = 20.0, 30.0
    shaft.catch_rotor.py_func(engine, work)
    found = (work.trial[SPEED], work.trial[ROTOR])
    assert found == ((20.0, 30.0) if together is None else pytest.approx((together, together)))
    if together is not None:
        engine.shaft.rotor = 3e-2
        work.trial[SPEED], work.trial[ROTOR] = 20.0, 30.0
        shaft.catch_rotor.py_func(engine, work)
        assert work.trial[SPEED] == pytest.approx(27.5)


@pytest.mark.parametrize(
    ("drive", "starter", "turn"), [(1.0, 0.5, 0.0), (1.0, 1.5, 1.0), (-4.0, 1.5, -1.0)]
)
def test_friction_holds_a_shaft_that_stands(monkeypatch, drive, starter, turn):
    """2 N·m hold 1.5, neither 2.5 nor -2.5."""
    seen = []
    monkeypatch.setattr(shaft, "volumes_now", lambda *all_: seen.append(all_))
    monkeypatch.setattr(shaft, "torques", lambda *all_: seen.append(all_) or (drive, 2.0))
    monkeypatch.setattr(shaft, "starter_torque", lambda one, fast: starter * one.free + fast)
    engine = SimpleNamespace(shaft=SimpleNamespace(free=1))
    work, values = SimpleNamespace(turn=1.0), np.zeros(SHAFT_SIZE)
    values[ANGLE], values[ROTOR] = 0.4, -9.0
    assert shaft.set_turn.py_func(engine, work, values) is (turn != 1.0)
    assert work.turn == turn
    assert all(one[0] is engine and one[1] is work for one in seen)
    assert seen[0][2:] == (0.4, 0.0)
    assert seen[1][2] is values


@pytest.mark.parametrize(
    ("now", "trial", "turn", "stop", "share"),
    [
        ((1.0, 5.0), (1.04, 5.0), 1.0, 1.03, 0.75),
        ((1.0, -5.0), (0.96, -5.0), -1.0, 0.97, 0.75),
        ((1.0, 3.0), (1.04, -1.0), 1.0, 9.0, 0.75),
        ((1.0, 5.0), (1.4, 5.0), 1.0, 9.0, 0.125),
        ((1.0, 5.0), (1.04, 4.0), 1.0, 9.0, 1.0),
        ((1.0, 5.0), (1.09, 4.0), 1.0, 9.0, 1.0),
    ],
)
def test_a_step_ends_at_its_angle_or_at_a_stand(now, trial, turn, stop, share):
    """Three quarters of the way to either, and no more than 0.05 rad where it went over 0.1."""
    engine = SimpleNamespace(step=SimpleNamespace(largest_angle=0.05))
    work = SimpleNamespace(now=np.zeros(SHAFT_SIZE), trial=np.zeros(SHAFT_SIZE), turn=turn)
    work.now[ANGLE], work.now[SPEED] = now
    work.trial[ANGLE], work.trial[SPEED] = trial
    assert shaft.share_to_mark.py_func(engine, work, stop) == pytest.approx(share)


def test_a_shaft_all_but_at_a_stand_goes_its_step():
    """Half of what counts as turned back."""
    engine = SimpleNamespace(step=SimpleNamespace(largest_angle=0.05))
    work = SimpleNamespace(now=np.zeros(SHAFT_SIZE), trial=np.zeros(SHAFT_SIZE), turn=1.0)
    work.now[SPEED], work.trial[SPEED] = 1e-5, -0.5 * shaft.STILL
    assert shaft.share_to_mark.py_func(engine, work, 9.0) == 1.0


# Friction


def test_rings_rub_each_with_half_the_drop(monkeypatch):
    """2 bar and 1 bar: an O-ring's by the law; iron's 0.03 + 0.07/e at 0.5 m/s; PTFE's 0.1, both
    with 1 bar of spring on 1 cm²: 30 N and 20 N; twice for doubt.
    """
    monkeypatch.setattr(
        friction, "oring_drag", lambda line, long, area, drop: 1e3 * line + 10 * long + area * drop
    )
    rubs = SimpleNamespace(
        ring_count=2, ring_kind=O_RINGS, line_level=3.0, ring_length=0.5, ring_area=1e-4,
        ring_spring=1e5, ring_doubt=2.0,
    )  # fmt: skip
    drag = friction.ring_drag.py_func
    assert drag(rubs, -2e5, 0.5) == pytest.approx(2.0 * (2 * 3005.0 + 20.0 + 10.0))
    rubs.ring_kind = IRON_RINGS
    assert drag(rubs, 2e5, -0.5) == pytest.approx(2.0 * (0.03 + 0.07 / math.e) * 50.0)
    rubs.ring_kind = PTFE_RINGS
    assert drag(rubs, 2e5, 0.5) == pytest.approx(2.0 * 0.1 * 50.0)


def test_a_cylinders_friction(monkeypatch):
    """2 bar on 1e-3 m² and 0.5 kg · -0.02 m · 100²/s²: 200 - 100 N along, over 0.8 125 in the rod.

    Arm 0.02 m: rings 40 N; skirt 0.1 · 125 · 0.6; pins 125 · (2 mm + 1 mm · 20/80 · 0.8).
    """
    asked = []
    monkeypatch.setattr(friction, "ring_drag", lambda *all_: asked.append(all_) or 40.0)
    rubs = SimpleNamespace(
        reciprocating_mass=0.5, skirt=0.1, crankpin=2e-3, piston_pin=1e-3
    )  # fmt: skip
    found = friction.cylinder_friction.py_func(
        rubs, 1e-3, 20e-3, 80e-3, -0.8, -0.02, -0.02, -0.6, 100.0, 2e5
    )
    assert found == pytest.approx((0.8, 0.15, 125.0 * 2.2e-3, 125.0))
    assert asked == [(rubs, 2e5, pytest.approx(-2.0))]


def test_a_shafts_friction(monkeypatch):
    """0.1 + 0.002 · 1000^⅔ = 0.3 N·m; twice 1 kN of 100 kN: 9e-4 · 0.1 · 1 kN · 20 mm each."""
    monkeypatch.setattr(friction, "_Z", 9e-4)
    monkeypatch.setattr(friction, "_Y", 0.5)
    rubs = SimpleNamespace(
        constant=0.1, bearing_drag=2e-3, bearings=2.0, bearing_rating=1e5, bearing_diameter=0.02,
        bearing_doubt=1.5,
    )  # fmt: skip
    # (1 kN/100 kN)^½ = 0.1; 9e-5 · 1000 · 0.02 · 2 = 3.6e-3.
    found = friction.shaft_friction.py_func(rubs, 2000.0, -1000.0)
    assert found == pytest.approx(1.5 * 0.3036)
    rubs.bearings = 0.0
    assert friction.shaft_friction.py_func(rubs, 2000.0, -1000.0) == pytest.approx(0.45)
