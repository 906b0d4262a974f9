"""Forces of one cylinder and of a whole crank, worked out with a calculator from round numbers."""

from __future__ import annotations

import math
from importlib import import_module
from types import SimpleNamespace

import numpy as np
import pytest
from tests.loads.stand_ins import always, of

from firstfire.engine.records import GasCycle
from firstfire.errors import OutsideValidity
from firstfire.loads import bearings, cylinder, driven, engine_loads, joints, journals
from firstfire.loads import joint_vectors as vectors
from firstfire.loads.crank_layout import Journal, Support, Throw
from firstfire.loads.motion import Motion, motion, motion_over_cycle, own_angles, shaft_angles
from firstfire.loads.running import Running, running, running_at

PI = math.pi
shaking = import_module("firstfire.loads.shaking")


def row(*values: complex) -> np.ndarray:
    return np.array(values)


def gas(angle: np.ndarray, speed: object, pressure: object = 1e5) -> GasCycle:
    """A cycle on these angles; all else nothing."""
    whole = {name: np.zeros(angle.size) for name in GasCycle.__dataclass_fields__}
    return GasCycle(
        **whole | {"angle": angle, "speed": np.broadcast_to(speed, angle.shape).astype(float),
                   "pressure": np.broadcast_to(pressure, angle.shape).astype(float)}
    )  # fmt: skip


# How a cylinder runs


def test_a_shaft_gains_half_of_what_its_speed_squared_gains_by_angle():
    """½ω² = 50 + θ² gains 2 θ: 0, 2, 4, 6 rad/s² at 0 to 3 rad, at both ends too."""
    angle = np.array([0.0, 1.0, 2.0, 3.0])
    found = running(gas(angle, np.sqrt(100.0 + 2.0 * angle**2)))
    assert found.gain == pytest.approx([0.0, 2.0, 4.0, 6.0], abs=1e-9)


def test_a_shaft_of_one_speed_gains_none_at_all():
    found = running(gas(np.array([0.0, 1.0, 2.0]), 70.0))
    assert found.gain.tolist() == [0.0, 0.0, 0.0]


def test_other_angles_lie_straight_between_those_known():
    """Pressures of 1, 3 and 5 bar at -360, 0 and 360°: 2 bar at -180 and 4.5 bar at 270°. ½ω² of
    200, 200 + 2π and 200 + 4π gains 1 rad/s² throughout."""
    angle = np.array([-2 * PI, 0.0, 2 * PI])
    speed = np.sqrt(2.0 * (200.0 + np.array([0.0, 2 * PI, 4 * PI])))
    cycle = gas(angle, speed, np.array([1e5, 3e5, 5e5]))
    found = running_at(cycle, np.array([1.5 * PI, -PI]))
    assert found.pressure == pytest.approx([4.5e5, 2e5])
    assert found.gain == pytest.approx([1.0, 1.0])
    assert found.speed[1] == pytest.approx((speed[0] + speed[1]) / 2)


@pytest.mark.parametrize("end", [0, -1])
def test_a_cycle_may_be_short_of_two_degrees_at_either_end_but_no_more(end):
    for short, refused in ((1.9, False), (2.1, True)):
        angle = np.radians([-360.0, -100.0, 0.0, 100.0, 360.0])
        angle[end] *= 1.0 - short / 360.0
        cycle = gas(angle, 100.0)
        if refused:
            with pytest.raises(OutsideValidity):
                running_at(cycle, angle)
        else:
            assert running_at(cycle, angle).speed.tolist() == [100.0] * 5


# How a piston moves


def test_a_piston_a_quarter_turn_on_from_top():
    """Throw 3, rod 5: 4 high, falling by 3 a radian, leaning by asin 3/5; 3²/4 = 2.25 m/rad²."""
    found = motion(3.0, 5.0, 0.0, np.array([0.0, PI / 2]))
    assert found.height == pytest.approx([8.0, 4.0])
    assert found.slope == pytest.approx([0.0, -3.0], abs=1e-12)
    assert found.curvature == pytest.approx([-3.0 - 9.0 / 5.0, 2.25])
    assert found.lean_tangent == pytest.approx([0.0, 0.75])
    assert found.lean_cosine == pytest.approx([1.0, 0.8])
    assert found.crank == pytest.approx(np.array([1.0, 1j]))
    # the same 90° on in a cylinder that fires at 90°: at the shaft's 180°
    late = motion_over_cycle(3.0, 5.0, 0.0, PI / 2)
    assert (late.height[360], late.slope[360]) == pytest.approx((4.0, -3.0))


def test_a_piston_of_a_bore_set_aside():
    """Throw 5 at sin 0.6, rod 13, bore at -2: 3 + 2 = 5 aside, so 12 up the rod and 4 up the throw.
    It falls by 3 + 5 · 4/12 a radian; -4 - (4² - 5 · 3 + (5/3)²)/12 = -4 - 17/54. Top is where
    throw and rod are in line, at sin -2/18."""
    angle = np.array([math.asin(0.6) - math.asin(-1.0 / 9.0)])
    found = motion(5.0, 13.0, -2.0, angle)
    assert found.inline == pytest.approx([math.asin(0.6)])
    assert found.height == pytest.approx([16.0])
    assert found.slope == pytest.approx([-14.0 / 3.0])
    assert found.curvature == pytest.approx([-4.0 - 17.0 / 54.0])
    assert found.lean == pytest.approx([math.asin(5.0 / 13.0)])


def test_a_cylinder_that_fires_a_quarter_turn_late_sees_the_shaft_a_quarter_turn_early():
    """From -90° at the shaft's 0 on to 360°, and after that from -360° on."""
    assert shaft_angles().size == 1441
    assert shaft_angles()[[0, 720, -1]] == pytest.approx([0.0, 2 * PI, 4 * PI])
    found = own_angles(PI / 2)
    assert found[[0, 180, 720, 1080]] == pytest.approx([-PI / 2, 0.0, 1.5 * PI, -1.5 * PI])
    assert (found.min(), found.max()) == pytest.approx((-2 * PI, 2 * PI - PI / 360))


# Forces of one cylinder


ENGINE = SimpleNamespace(cylinders=["parts"])
RUN = Running(row(0.5), row(10.0), row(4.0), row(1e5 + 100.0 / PI), row(1e5))
LEANING = Motion(row(PI / 2), row(0.0), row(-0.5), row(0.3), row(math.asin(0.6)))


def test_forces_on_a_throw_that_stands_square_to_its_bore(monkeypatch):
    """A bore of 2 m has π m² for 100/π Pa: 100 N of gas. Thrown by 0.3 · 10² - 0.5 · 4 = 28 m/s²,
    2 kg push up with -56 N, so 156 N go down the bore: 156 · 3/4 = 117 N aside, 156/0.8 = 195 N in
    the rod. A throw of 3 m square to the bore: 3 · 156 = 468 N·m. Half a kilogram on it whirls
    with ½ (100 - 4i) 3i = 6 + 150i N."""
    parts = SimpleNamespace(cylinder=SimpleNamespace(bore=2.0))
    engine = SimpleNamespace(cylinders=[parts])
    monkeypatch.setattr(cylinder, "mechanism", of(parts, (3.0, 5.0, 0.0)))
    monkeypatch.setattr(cylinder, "reciprocating_mass", of(engine, 2.0))
    monkeypatch.setattr(cylinder, "rotating_rod_mass", of(engine, 0.5))
    monkeypatch.setattr(cylinder, "piston_motion", of(parts, LEANING))
    monkeypatch.setattr(cylinder, "running", of("gas", RUN))
    found = cylinder.cylinder_loads(engine, 0, "gas")
    assert found.gas == pytest.approx([100.0])
    assert found.inertia == pytest.approx([-56.0])
    assert found.along_bore == pytest.approx([156.0])
    assert found.side == pytest.approx([117.0])
    assert found.rod == pytest.approx([195.0])
    assert found.torque == pytest.approx([468.0])
    assert found.crankpin == pytest.approx([math.hypot(-156.0 + 6.0, 117.0 + 150.0)])
    assert cylinder.rod_vector(found) == pytest.approx(row(-156 + 117j))


def test_a_force_turns_by_its_arm_square_to_it():
    """At 2 + 3i a force of 5 + 7i: 2 · 7 - 3 · 5 = -1 N·m."""
    assert cylinder.cross(row(2 + 3j), row(5 + 7j)) == pytest.approx([-1.0])


# What is driven


def load(kind: str) -> SimpleNamespace:
    return SimpleNamespace(
        load=SimpleNamespace(kind=kind, diameter=0.3, pitch=0.2, torque=6.0, torque_at=100.0),
        surroundings=SimpleNamespace(air_pressure=172200.0, air_temperature=300.0),
    )


def test_what_each_load_takes_at_half_the_speed_that_the_file_gives(monkeypatch):
    """A generator half of 6 N·m, a pump a quarter; a brake nothing."""
    assert driven.load_torque(load("generator"), 50.0) == pytest.approx(3.0)
    assert driven.load_torque(load("pump"), 50.0) == pytest.approx(1.5)
    assert driven.load_torque(load("brake"), 50.0) == 0.0


def test_a_propeller_is_asked_in_air_as_dense_as_it_is(monkeypatch):
    """172.2 kPa at 300 K: 172200/(287 · 300) = 2 kg/m³."""
    told = []
    monkeypatch.setattr(driven, "static_torque", lambda *given: told.append(given) or 0.7)
    assert driven.load_torque(load("propeller"), 50.0) == 0.7
    assert told == [(50.0, 0.3, 0.2, pytest.approx(2.0))]


# What carries the crank


def test_shares_of_two_and_of_three_supports():
    """2 of 5 along the second bay; 10 of 8 beyond the end, -2 of 8 on the other."""
    three = [Support(-3.0, 1, 0), Support(0.0, 1, 1), Support(5.0, 1, 2)]
    assert bearings.lever_shares(2.0, three) == pytest.approx([0.0, 0.6, 0.4])
    assert bearings.lever_shares(-1.0, three) == pytest.approx([1 / 3, 2 / 3, 0.0])
    two = [Support(-4.0, 1, 0), Support(4.0, 1, 1)]
    assert bearings.lever_shares(6.0, two) == pytest.approx([-0.25, 1.25])
    assert bearings.lever_shares(6.0, two[:1]) == [1.0]


def test_forces_at_two_places_on_two_supports():
    """8 N in the middle and 4i N at a quarter: 4 + 3i and 4 + i."""
    two = [Support(-4.0, 1, 0), Support(4.0, 1, 1)]
    found = bearings.support_forces([(0.0, row(8.0 + 0j)), (-2.0, row(4j))], two)
    assert [one[0] for one in found] == pytest.approx([4 + 3j, 4 + 1j])


ON_SHAFT = SimpleNamespace(
    throws=(Throw((0,), -1.0, ("1", "2")), Throw((1,), 1.0, ("3", "4"))),
    supports=(Support(-2.0, 1, 0), Support(0.0, 1, 1), Support(3.0, 1, 2)),
    cylinder_places=(-1.5, 1.5),
    cylinders=(SimpleNamespace(torque=row(50.0)), SimpleNamespace(torque=row(20.0))),
    rods=(row(-7 + 2j), row(-11 + 3j)),
    pins=(row(2 + 0j), row(0 + 1j)),
    unbalanced=(row(0.5 + 0j), row(0.25j)),
    support_forces=(row(-3 + 1j), row(-5 + 2j), row(-9 + 4j)),
    cam_drive=row(3.0),
)  # fmt: skip
"""Two throws; joints 1 and 2 nearer the flywheel, 3 and 4 beyond."""


def test_what_passes_each_joint_towards_the_flywheel():
    """50 + 20 - 3, then 20 - 3 on either side of the middle, and the cams' 3 alone at the end."""
    found = joints.joint_torques(ON_SHAFT)
    assert {name: float(one[0]) for name, one in found.items()} == {
        "1": 67.0, "2": 17.0, "3": 17.0, "4": -3.0,
    }  # fmt: skip


def test_what_each_joint_holds_about_its_own_pin(monkeypatch):
    """Beyond the first throw act 0.25i - 11 + 3i less -5 + 2i and -9 + 4i: 3 - 2.75i. With the rod
    -4 - 0.75i. About 2 they turn by 2 · -0.75 and 2 · -2.75: 67 + 1.5 and 17 + 5.5. Beyond the
    second 9 - 4i, with the rod -2 - i; about i by 2 and -9: 17 - 2 and -3 + 9."""
    monkeypatch.setattr(joints, "shaft", of(ENGINE, ON_SHAFT))
    found = joints.joint_twists(ENGINE, ["gas"])
    assert {name: float(one[0]) for name, one in found.items()} == pytest.approx(
        {"1": 68.5, "2": 22.5, "3": 15.0, "4": 6.0}
    )


def test_a_journal_is_bent_by_all_that_acts_beyond_its_root(monkeypatch):
    """At 0.5 m: 0.25i · 0.5 + (-11 + 3i) · 1 - (-9 + 4i) · 2.5 = 11.5 - 6.875i. At -0.5 m: 0.25i ·
    1.5 + (-11 + 3i) · 2 - (-5 + 2i) · 0.5 - (-9 + 4i) · 3.5 = 12 - 8.625i, which is more."""
    at = {place: journals._moment_at(ON_SHAFT, place)[0] for place in (0.5, -0.5)}
    assert at[0.5] == pytest.approx(11.5 - 6.875j)
    assert at[-0.5] == pytest.approx(12.0 - 8.625j)
    one = Journal("between the throws", 0.4, (0.5, -0.5), "3")
    monkeypatch.setattr(journals, "journals", always((one,)))
    (found,) = journals.journal_loads(None, ON_SHAFT)
    assert (found.name, found.length, found.torque[0]) == ("between the throws", 0.4, 17.0)
    assert found.bending == pytest.approx([math.hypot(12.0, 8.625)])


def test_the_first_throw_bends_what_lies_before_it():
    """At -1.25 m: 0.5 · 0.25 + 0.25i · 2.25 + (-11 + 3i) · 2.75 - (-5 + 2i) · 1.25 - (-9 + 4i) ·
    4.25 = 14.375 - 10.6875i."""
    assert journals._moment_at(ON_SHAFT, -1.25)[0] == pytest.approx(14.375 - 10.6875j)


def test_bearings_side_by_side_share_a_support_s_force():
    """3 + 4i, 5 N, on two: 2.5 N each; 6 N on one."""
    on_shaft = SimpleNamespace(
        supports=(Support(-1.0, 2, 0), Support(1.0, 1, 1)),
        support_forces=(row(3 + 4j), row(-6 + 0j)),
    )
    found = engine_loads._bearings(on_shaft)
    assert [float(one[0]) for one in found] == pytest.approx([2.5, 2.5, 6.0])


def test_joints_are_pushed_with_their_directions(monkeypatch):
    """The rod's -156 + 117i on its pin, the wall pushed by -117i, the crankpin with 6 + 150i more;
    a main bearing of two has half of 3 + 4i."""
    own = SimpleNamespace(along_bore=row(156.0), side=row(117.0))
    on_shaft = SimpleNamespace(
        angle=row(0.0), cylinders=(own,), supports=(Support(0.0, 2, 0),),
        support_forces=(row(3 + 4j),),
    )  # fmt: skip
    engine, asked = SimpleNamespace(cylinders=[None]), []
    monkeypatch.setattr(vectors, "shaft", of(engine, on_shaft))
    monkeypatch.setattr(vectors, "firing_angles", always((0.7,)))
    monkeypatch.setattr(vectors, "mechanism", always((3.0, 5.0, 0.0)))
    monkeypatch.setattr(vectors, "rotating_rod_mass", of(engine, 0.5))
    monkeypatch.setattr(vectors, "own_angles", lambda phase: phase)
    monkeypatch.setattr(vectors, "running_at", lambda gas, at: asked.append((gas, at)) or RUN)
    monkeypatch.setattr(vectors, "motion_over_cycle", lambda *given: asked.append(given) or LEANING)
    found = vectors.joint_vectors(engine, ["gas"])
    assert asked == [(3.0, 5.0, 0.0, 0.7), ("gas", 0.7)]
    assert found.pins[0] == pytest.approx(row(-156 + 117j))
    assert found.walls[0] == pytest.approx(row(-117j))
    assert found.crankpins[0] == pytest.approx(row(-150 + 267j))
    assert found.mains[0] == pytest.approx(row(1.5 + 2j))


def test_a_rod_pushes_the_shaft_along_its_own_bank_and_all_is_put_together(monkeypatch):
    """A rod's -156 + 117i in a bank a quarter turn on is -117 - 156i to the shaft. It acts at 0.5
    m and 7 N of its throw at 0.25; both cams ask 3 N·m each."""
    own = SimpleNamespace(along_bore=row(156.0), side=row(117.0), inertia=row(-56.0), torque=row(9))
    engine = SimpleNamespace(cylinders=["parts", "parts"])
    throw, held = Throw((0, 1), 0.25, ("1", "2")), (Support(0.0, 1, 0),)
    asked = {}

    def keep(name: str, answer: object):
        def told(*given: object) -> object:
            asked.setdefault(name, []).append(given)
            return answer

        return told

    whole = import_module("firstfire.loads.shaft")
    for name, answer in (
        ("shaft_angles", row(0.0)), ("firing_angles", (0.0, 0.3)), ("running_at", RUN),
        ("own_angles", row(0.5)), ("mechanism", (3.0, 5.0, 0.1)), ("motion_over_cycle", LEANING),
        ("forces", own), ("mechanism_layout", SimpleNamespace(banks=(0.0, PI / 2))),
        ("throws", (throw,)), ("supports", held), ("pin_place", row(3j)),
        ("unbalanced_force", row(7 + 0j)), ("cylinder_places", (0.5, 0.5)),
        ("moving_forces", (row(1 + 1j), row(2 + 2j))), ("support_forces", (row(5 + 0j),)),
        ("cam_drive_torque", row(3.0)),
    ):  # fmt: skip
        monkeypatch.setattr(whole, name, keep(name, answer))
    found = whole.shaft(engine, ["one", "other"])
    assert found.rods[0] == pytest.approx(row(-156 + 117j))
    assert found.rods[1] == pytest.approx(row(-117 - 156j))
    assert (found.torque[0], found.cam_drive[0]) == (18.0, 6.0)
    assert asked["motion_over_cycle"] == [(3.0, 5.0, 0.1, 0.0), (3.0, 5.0, 0.1, 0.3)]
    assert asked["forces"] == [(engine, 0, RUN, LEANING), (engine, 1, RUN, LEANING)]
    assert asked["pin_place"] == [(engine, throw, [RUN, RUN])]
    assert asked["unbalanced_force"][0][:3] == (engine, throw, [RUN, RUN])
    assert asked["cam_drive_torque"] == [(engine, 0, RUN, 0.0), (engine, 1, RUN, 0.3)]
    ((acting, supported),) = asked["support_forces"]
    assert supported is held
    assert [place for place, _ in acting] == [0.5, 0.5, 0.25]
    assert [force[0] for _, force in acting] == pytest.approx([-156 + 117j, -117 - 156j, 7.0])


def test_the_whole_engine_s_loads_are_those_of_its_shaft(monkeypatch):
    """3 + 4i N and 12 + 5i N·m shake it by 5 N and 13 N·m at most; 3 + 4i load its bearing by 5."""
    on_shaft = SimpleNamespace(
        angle=row(0.0), torque=row(9.0), supports=(Support(0.0, 1, 0),),
        support_forces=(row(3 + 4j),), shaking_force=row(1j, 3 + 4j),
        shaking_moment=row(12 + 5j, 1.0),
    )  # fmt: skip
    monkeypatch.setattr(engine_loads, "shaft", of(ENGINE, on_shaft))
    monkeypatch.setattr(engine_loads, "cylinder_loads", of(ENGINE, "own"))
    monkeypatch.setattr(engine_loads, "joint_torques", of(on_shaft, {}))
    monkeypatch.setattr(engine_loads, "twists", of(on_shaft, {}))
    monkeypatch.setattr(engine_loads, "journal_loads", of(ENGINE, ()))
    found = engine_loads.loads(ENGINE, ["gas"])
    assert found.cylinders == ("own",)
    assert (found.shaking_force, found.shaking_moment) == pytest.approx((5.0, 13.0))
    assert found.main_bearings[0] == pytest.approx([5.0])


# What shakes


def with_banks(monkeypatch, *banks: float) -> None:
    layout = SimpleNamespace(banks=banks)
    monkeypatch.setattr(shaking, "mechanism_layout", always(layout))


def test_forces_along_two_bores_square_to_each_other_add_with_their_places(monkeypatch):
    """10 N along the first at -1 m, 20 N along the second at 2 m, a quarter turn on; 3 N and 4i N
    of the throws at -0.5 and 1 m: 13 + 24i N, and -10 + 40i - 1.5 + 4i N·m."""
    with_banks(monkeypatch, 0.0, PI / 2)
    monkeypatch.setattr(shaking, "cylinder_places", always((-1.0, 2.0)))
    on = (Throw((0,), -0.5, ("1", "2")), Throw((1,), 1.0, ("3", "4")))
    monkeypatch.setattr(shaking, "throws", always(on))
    force, moment = shaking.moving_forces(None, [row(10.0), row(20.0)], [row(3 + 0j), row(4j)])
    assert force == pytest.approx(row(13 + 24j))
    assert moment == pytest.approx(row(-11.5 + 44j))


def test_what_goes_round_unbalanced_pulls_its_pin_outwards(monkeypatch):
    """-0.6 kg·m on a throw of 0.3 m count as -2 kg; (100 - 4i) 3i of them are -24 - 600i N."""
    monkeypatch.setattr(shaking, "unbalance", of(ENGINE, -0.6))
    monkeypatch.setattr(shaking, "throw_radius", of(ENGINE, 0.3))
    throw = Throw((0,), 0.0, ("1", "2"))
    assert shaking.unbalanced_force(ENGINE, throw, [RUN], row(3j)) == pytest.approx(row(-24 - 600j))


def test_a_pin_stands_ahead_by_its_bank_and_its_top(monkeypatch):
    """A throw of 3 m with its bore at 0.5 m and a rod of 5 has its top at asin 0.5/8; a bank of
    0.2 and a crank of 0.3 rad more."""
    with_banks(monkeypatch, 0.2)
    monkeypatch.setattr(shaking, "mechanism", always((3.0, 5.0, 0.5)))
    run = SimpleNamespace(angle=row(0.3))
    throw = Throw((0,), 0.0, ("1", "2"))
    (found,) = shaking.pin_place(SimpleNamespace(cylinders=[None]), throw, [run])
    at = 0.3 + 0.2 + math.asin(0.0625)
    assert found == pytest.approx(complex(3.0 * math.cos(at), 3.0 * math.sin(at)))


def test_parts_of_a_force_that_turn_with_the_crank_and_against_it():
    """(3 + i) forwards and 2i backwards, both twice a turn, over four angles and more; 7 stand."""
    angle = 2 * PI * np.arange(8) / 8
    force = 7.0 + (3 + 1j) * np.exp(2j * angle) + 2j * np.exp(-2j * angle)
    found = shaking.Shaking(angle, force, 3 * force).force_of_order(2)
    assert (found.forward, found.backward) == pytest.approx((3 + 1j, 2j))
    assert found.order == 2
    moment = shaking.Shaking(angle, force, 3 * force).moment_of_order(2)
    assert (moment.forward, moment.backward) == pytest.approx((9 + 3j, 6j))


def a_single(monkeypatch, fires: float, place: float, unbalance: float):
    """Shaking at four angles of 2 kg on a throw of 3 m and a rod of 5, at 10 rad/s."""
    with_banks(monkeypatch, 0.0)
    for name, answer in (
        ("firing_angles", (fires,)), ("cylinder_places", (place,)), ("reciprocating_mass", 2.0),
        ("unbalance", unbalance), ("throw_radius", 3.0), ("mechanism", (3.0, 5.0, 0.0)),
        ("throws", (Throw((0,), 0.0, ("1", "2")),)),
    ):  # fmt: skip
        monkeypatch.setattr(shaking, name, of("parts" if name == "mechanism" else ENGINE, answer))
    monkeypatch.setattr(shaking, "piston_motion", lambda _, angle: motion(3.0, 5.0, 0.0, angle))
    return shaking.shaking(ENGINE, 10.0, 4)


def test_a_piston_at_top_and_bottom_shakes_along_its_bore(monkeypatch):
    """Out with 2 · (3 + 9/5) · 100 = 960 N at top, in with 2 · (3 - 9/5) · 100 = 240 N at bottom,
    and with 2 · 9/4 · 100 = 450 N between; half a metre from the middle."""
    found = a_single(monkeypatch, 0.0, 0.5, 0.0)
    assert found.angle == pytest.approx([0.0, PI / 2, PI, 1.5 * PI])
    assert found.force.real == pytest.approx([960.0, -450.0, -240.0, -450.0])
    assert found.moment.real == pytest.approx([480.0, -225.0, -120.0, -225.0])
    assert (found.largest_force, found.largest_moment) == pytest.approx((960.0, 480.0))


def test_a_cylinder_that_fires_a_quarter_turn_later_shakes_a_quarter_turn_later(monkeypatch):
    """960 N out at a quarter turn; its unbalance of -3 kg·m pulls with 300 N the other way."""
    found = a_single(monkeypatch, PI / 2, 0.0, -3.0)
    assert found.force[[1, 3]] == pytest.approx(row(960.0 - 300.0 + 0j, -240.0 + 300.0 + 0j))
