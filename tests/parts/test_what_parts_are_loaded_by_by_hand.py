"""Forces, twists, lengths and shares that parts are judged by, found in loads of round numbers.

Worked examples of a way to fail put such numbers in; here they are taken from where they are made.
"""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from tests.parts.moments import engine, moment

from firstfire.engine.materials import Material
from firstfire.engine.read import with_values
from firstfire.engine.records import PartTemperature
from firstfire.parts import (
    cam_drive,
    case,
    crank,
    fasteners,
    flywheel,
    head,
    head_joint,
    intake,
    journal,
    journal_joint,
    kick_back,
    laid_alike,
    lands,
    liner_fit,
    liner_in_body,
    notched,
    piston_crown,
    rod,
    seats,
    shield_hold,
    starter_end,
    strength,
    valves,
)
from firstfire.parts.assumed import STEM_WARMTH, TEST_SECONDS

WREN = "engines/wren.toml"
MM = 1e-3
METAL = Material(
    "bar", "bar", {"strength_in_plane": 400e6, "yield_strength": 200e6, "modulus_in_plane": 70e9},
    {}, False, structure="metal",
)  # fmt: skip
PLASTIC = Material(
    "made_up", "made-up plastic",
    {"strength_in_plane": 50e6, "strength_across": 20e6, "modulus_in_plane": 2e9,
     "fracture_toughness": 2e6, "fracture_toughness_across": 1e6, "poisson": 0.4},
    {}, False, structure="amorphous",
)  # fmt: skip


def here(**other):
    """What a law asks of a moment; each number that is given is the engine's own."""
    return SimpleNamespace(recorded=False, given=lambda _, value: value, cylinder=0, **other)


def wren(**sizes):
    """Wren with some sizes, paths written with __ for a dot."""
    said = {path.replace("__", "."): value for path, value in sizes.items()}
    return moment(with_values(engine(WREN), said))


def pushed(at, rod_forces=(0.0,), **more):
    """The moment with a rod that feels these forces, N, and other loads."""
    one = replace(at.loads.cylinders[0], rod=np.array(rod_forces))
    return replace(at, loads=replace(at.loads, cylinders=(one,), **more))


def told(law):
    """A law that answers with a number, and a list of what it was asked with."""
    asked = []
    return asked, lambda *put: asked.append(put) or law


# Numbers that stand for themselves


def test_what_is_assumed():
    """22 h are 79 200 s; a stem is a third as warm as its head; a spark 2° before top is the last:
    π/90."""
    assert TEST_SECONDS == 79200.0
    assert pytest.approx(0.3333333333, rel=1e-9) == STEM_WARMTH
    assert pytest.approx(0.0349065850, rel=1e-8) == kick_back._LATEST


@pytest.mark.parametrize(("degrees", "offered"), [(1.9, False), (2.1, True)])
def test_a_spark_two_degrees_before_top_is_not_set_later(degrees, offered):
    spark = SimpleNamespace(start_angle=math.radians(degrees), source="sensor")
    assert bool(kick_back._later(SimpleNamespace(spark=spark))) is offered


# The rod and its pins


def test_a_rod_is_pulled_and_pushed_by_its_own_forces():
    at = pushed(moment(WREN), (-300.0, 200.0, 100.0))
    assert rod.tears(at).demand == 300.0
    assert rod.buckles(at).demand == 200.0
    assert rod.tears(pushed(at, (100.0, 200.0))).demand == 0.0


@pytest.mark.parametrize(("least", "governs"), [(399.0, "buckling"), (401.0, "creep")])
def test_a_rod_buckles_below_half_of_what_its_section_bears(monkeypatch, least, governs):
    """10 by 8 mm of 10 MPa bear 800 N."""
    bears = strength.Strength(10e6, "creep", 10e6, {}, {})
    monkeypatch.setattr(rod.strength, "of", lambda *_, **__: bears)
    monkeypatch.setattr(rod, "_critical_loads", lambda *_: (least, 500.0))
    at = wren(rod__shank_width="10 mm", rod__shank_thickness="8 mm")
    assert rod.buckles(at).governs == governs


def test_the_shank_bends_out_across_and_along_its_pins(monkeypatch):
    """12 by 6 mm: 72 mm²; 6 · 12³/12 = 864 across the pins and 12 · 6³/12 = 216 mm⁴ along."""
    asked = []
    monkeypatch.setattr(
        rod.column, "critical_load", lambda *put, **ends: asked.append((put, ends)) or 1.0
    )
    sizes = SimpleNamespace(shank_width=12 * MM, shank_thickness=6 * MM, length=60 * MM)
    rod._critical_loads(here(parts=SimpleNamespace(rod=sizes)), 2e9, 30e6)
    for (put, _), second in zip(asked, (864e-12, 216e-12), strict=True):
        assert put == pytest.approx((60 * MM, 72e-6, second, 2e9, 30e6))


def test_the_largest_twist_and_force_of_a_crankpin():
    """3 backwards is more than 2 forwards; 500 N of the second cylinder."""
    twists = {"1": np.array([1.0, -3.0]), "2": np.array([2.0, 0.0])}
    assert crank._largest(twists) == 3.0
    assert crank._largest({"1": np.array([4.0, -3.0])}) == 4.0
    each = [SimpleNamespace(crankpin=np.array(one)) for one in ([100.0, 300.0], [500.0, 0.0])]
    assert crank._largest_pin_force(here(loads=SimpleNamespace(cylinders=each))) == 500.0


def cranked(**sizes):
    own = SimpleNamespace(**sizes)
    return here(engine=SimpleNamespace(crank=own, materials={"made_up": PLASTIC, "bar": METAL}))


def test_a_rod_inside_shares_by_size_and_stiffness(monkeypatch):
    """20 mm of 2 GPa round 8 mm of steel."""
    asked, law = told(0.25)
    monkeypatch.setattr(crank.shaft, "share_around_rod", law)
    inner = SimpleNamespace(rod_diameter=8 * MM, material="made_up")
    at = cranked(
        through_rod_diameter=8 * MM, crankpin_material="made_up", crankpin_diameter=20 * MM,
        main_journal_diameter=20 * MM, journal=inner,
    )  # fmt: skip
    assert crank._own_share(at) == journal.own_share(at) == 0.25
    assert asked == 2 * [(20 * MM, 8 * MM, 2e9, crank.assumed.STEEL_MODULUS)]


def test_stresses_of_a_crankpin(monkeypatch):
    """600 N over 12 + 8 mm with an eye of 10; half of it shears 10 mm by 4/3 of its mean: 400 N on
    25π mm², 5.093 MPa; beside a rod that takes a quarter 0.75 of that, on a ring."""
    asked, law = told(2.0)
    monkeypatch.setattr(crank.plain_bearing, "pin_bending_moment", law)
    monkeypatch.setattr(crank.shaft, "torsion_stress", lambda twist, *_: 1e6 * twist)
    monkeypatch.setattr(crank.shaft, "bending_stress", lambda bent, *_: 1e6 * bent)
    monkeypatch.setattr(crank, "_largest_pin_force", lambda _: 600.0)
    monkeypatch.setattr(crank, "_largest", lambda _: 3.0)
    joint = SimpleNamespace(length=8 * MM)
    sizes = {"crankpin_length": 12 * MM, "joint": joint, "crankpin_diameter": 10 * MM}
    more = {"parts": SimpleNamespace(rod=SimpleNamespace(big_end_width=10 * MM)),
            "loads": SimpleNamespace(joint_twists={})}  # fmt: skip
    at = cranked(through_rod_diameter=0.0, **sizes)
    at.__dict__.update(more)
    load = crank.pin_load.__wrapped__(at)
    assert asked == [(600.0, pytest.approx(20 * MM), pytest.approx(10 * MM))]
    assert load.shear == pytest.approx(3e6 + 400 / (25e-6 * math.pi))
    assert (load.bending, load.torsion, load.rod_bending) == (2e6, 3e6, 0.0)
    # a rod of 6 mm: 10² - 6² = 64 mm², 16π
    monkeypatch.setattr(crank, "_own_share", lambda _: 0.75)
    at = cranked(through_rod_diameter=6 * MM, **sizes)
    at.__dict__.update(more)
    load = crank.pin_load.__wrapped__(at)
    assert load.shear == pytest.approx(2.25e6 + 300 / (16e-6 * math.pi))
    assert (load.bending, load.torsion, load.rod_bending) == (1.5e6, 2.25e6, 0.5e6)


# Journals


@pytest.mark.parametrize(("torque", "there"), [(4.6, (0.5, 0.0)), (-4.64, (0.0, 4.64))])
def test_the_worst_angle_of_a_journal(monkeypatch, torque, there):
    """4 (4 · 0.5)² = 16 by bending, against 3 (0.5 · 4.6)² = 15.87 or 3 · 2.32² = 16.15."""
    one = SimpleNamespace(bending=np.array([0.5, 0.0]), torque=np.array([0.0, torque]))
    calm = SimpleNamespace(bending=np.array([0.1]), torque=np.array([0.1]))
    monkeypatch.setattr(journal, "loads_of", lambda _: [calm, one])
    felt = journal._felt(here(), (4.0, 0.5))
    assert (felt.moment, felt.torque) == there


@pytest.mark.parametrize(
    ("cheek", "bent", "twisted"), [(70 * MM, 60 * MM, 20 * MM), (15 * MM, 15 * MM, 15 * MM)]
)
def test_a_fillet_between_journal_and_cheek(monkeypatch, cheek, bent, twisted):
    """A journal of 10 mm in a cheek counted as wide as six or two of it."""
    asked = []
    laws = SimpleNamespace(
        fillet_in_bending=lambda *put: asked.append(put) or 2.0,
        fillet_in_torsion=lambda *put: asked.append(put) or 0.5,
    )
    monkeypatch.setattr(journal, "stress_concentration", laws)
    monkeypatch.setattr(journal, "is_held", lambda _: False)
    own = SimpleNamespace(material="made_up", fillet=1 * MM)
    at = cranked(journal=own, main_journal_diameter=10 * MM, cheek_width=cheek)
    found = journal._notch(at, strength.Strength(1.0, "fatigue", 1.0, {}, {}))
    assert found == (2.0, 1.0)
    assert asked == [
        (10 * MM, pytest.approx(bent), 1 * MM), (10 * MM, pytest.approx(twisted), 1 * MM)
    ]  # fmt: skip


def test_a_journals_own_share_of_moment_and_torque(monkeypatch):
    """Half of 6 N m felt 1.5 times, half of 8 felt 1.25 times."""
    monkeypatch.setattr(journal.shaft, "bending_stress", lambda bent, *size: (bent, size)[0])
    monkeypatch.setattr(journal.shaft, "torsion_stress", lambda twist, *size: (twist, size)[0])
    at = cranked(main_journal_diameter=15 * MM, journal=SimpleNamespace(rod_diameter=9 * MM))
    felt = journal.Felt(6.0, 8.0, 1.5, 1.25)
    assert journal._stresses(at, felt, 0.5) == pytest.approx((4.5, 5.0))


def passing(*pairs):
    return [
        SimpleNamespace(torque=np.array(torque), bending=np.array(bending))
        for torque, bending in pairs
    ]


def test_a_journals_joint_feels_the_largest_of_all(monkeypatch):
    """5 N m backwards through the second; 7 N m bend the first."""
    both = passing(([3.0, -1.0], [7.0, 0.0]), ([4.0, -5.0], [6.0, 1.0]))
    monkeypatch.setattr(journal_joint, "loads_of", lambda _: both)
    asked, law = told(4e6)
    monkeypatch.setattr(journal_joint.press_fit, "rocking_pressure", law)
    at = moment(WREN)
    assert journal_joint.slips(at).demand == 5.0
    assert journal_joint.rocks(at).demand == 4e6
    assert {one[0] for one in asked} == {7.0}


def test_the_starters_end_feels_no_more_than_the_starter_gives(monkeypatch):
    """30 N m through a gear of 2 make 15 at the crank; of 9 that are passed 9."""
    asked, law = told(1e6)
    monkeypatch.setattr(starter_end.shaft, "torsion_stress", law)
    monkeypatch.setattr(starter_end, "own_share", lambda _: 0.5)
    at = wren(starter__stall_torque="30 N*m", starter__ratio="2")
    for passed, twist in (([20.0, -40.0], 15.0), ([4.0, -9.0], 9.0)):
        starter_end.twists_off(replace(at, loads=replace(at.loads, torque=np.array(passed))))
        assert asked.pop()[0] == pytest.approx(0.5 * twist)


def test_wheels_feel_their_joints_largest_torque():
    """The wheel's end passes all, the far end the cams' alone; backwards counts as forwards."""
    at = moment(WREN)
    torques = {"1": np.array([6.0, -8.0]), "2": np.array([1.0, -2.0])}
    at = replace(at, loads=replace(at.loads, joint_torques=torques))
    assert flywheel.comes_off(at).demand == 8.0
    assert cam_drive._cam_torque(at) == 2.0
    torques["2"] = np.array([3.0, -2.0])
    assert cam_drive._cam_torque(at) == 3.0


def test_a_belt_pulls_by_its_pulleys_and_how_many_there_are(monkeypatch):
    """4 N m on half of a pulley of 20 mm are 400 N, on two belts 200 each."""
    monkeypatch.setattr(cam_drive, "_cam_torque", lambda _: 4.0)
    asked, wrapped = told(3.0)
    laws = SimpleNamespace(
        pulley_pitch_diameter=lambda teeth, pitch: teeth * pitch,
        wrap_on_small=wrapped, teeth_in_mesh=lambda teeth, wrap: (teeth, wrap),
        mesh_factor=lambda meshing: 0.8 if meshing == (10, 3.0) else math.nan,
        effective_pull=lambda torque, small: torque / (small / 2),
    )  # fmt: skip
    monkeypatch.setattr(cam_drive, "belt", laws)
    drive = SimpleNamespace(
        teeth_crank=10, teeth_cam=20, pitch=2 * MM, centre_distance=90 * MM, count=2
    )
    found = cam_drive._pull.__wrapped__(here(engine=SimpleNamespace(cam_drive=drive)))
    assert found == pytest.approx((200.0, 0.8))
    assert asked == [pytest.approx((20 * MM, 40 * MM, 90 * MM))]


# Case, intake and liner


def cased(pin, eye, cheek):
    own = SimpleNamespace(crankpin_diameter=pin, cheek_width=cheek, main_bearing_outside=1.0)
    return here(
        engine=SimpleNamespace(crank=own, case=SimpleNamespace(wall=6 * MM)),
        parts=SimpleNamespace(
            rod=SimpleNamespace(eye_wall=eye), cylinder=SimpleNamespace(stroke=40 * MM)
        ),
    )


def test_a_case_is_as_wide_as_what_turns_in_it():
    """20 of throw and 5 + 4 of the eye, or half of a cheek of 30: 29 or 35; its room and 6 of wall,
    on both sides."""
    room = case.assumed.CASE_ROOM
    assert case._width(cased(10 * MM, 4 * MM, 10 * MM)) == pytest.approx(2 * (35 * MM + room))
    assert case._width(cased(10 * MM, 4 * MM, 30 * MM)) == pytest.approx(2 * (41 * MM + room))


def test_a_bearing_pulls_its_case_by_the_largest_force(monkeypatch):
    """300 N on the far one, of a hole of 22 mm in a wall of 6."""
    asked, law = told(1e6)
    monkeypatch.setattr(case.rod_eye, "net_stress", law)
    monkeypatch.setattr(case, "_width", lambda _: 50 * MM)
    at = wren(case__wall="6 mm", crank__main_bearing_outside="22 mm")
    bearings = (np.array([100.0, 200.0]), np.array([300.0, 50.0]))
    case.tears(replace(at, loads=replace(at.loads, main_bearings=bearings)))
    assert asked == [pytest.approx((300.0, 22 * MM, 50 * MM, 6 * MM))]


@pytest.mark.parametrize(("left", "governs"), [(0.79, "temperature"), (0.81, "wall")])
def test_an_intake_folds_by_what_warmth_leaves_of_its_stiffness(monkeypatch, left, governs):
    """A tube of 20 mm with 2 mm of wall: 11 mm to its middle."""
    asked, law = told(5e3)
    monkeypatch.setattr(intake.pressed_ring, "folding_pressure", law)
    monkeypatch.setattr(intake, "modulus_left", lambda *_: left)
    at = wren(intake__throttle_diameter="20 mm", intake__wall="2 mm")
    assert intake.folds(at).governs == governs
    material = at.engine.materials[at.engine.intake.material]
    (put,) = asked
    assert put[0] == pytest.approx(left * material["modulus_in_plane"])
    assert put[2:] == pytest.approx((2 * MM, 11 * MM))


def test_half_of_what_a_hole_differs():
    """0.1 mm of a printer's: 0.05; half of a drawn tube's 0.05."""
    printing = SimpleNamespace(repeatability=0.1 * MM)
    for made, half in (("printed", 0.05 * MM), ("bought", 0.025 * MM)):
        parts = SimpleNamespace(
            body=SimpleNamespace(made=made), liner=SimpleNamespace(made="bought")
        )
        at = here(parts=parts, engine=SimpleNamespace(printing=printing))
        assert liner_fit._out_of_round(at) == pytest.approx(half)


def test_walls_of_liner_and_body(monkeypatch):
    """(46 - 40)/2 = 3 mm of liner; (66 - 46)/2 = 10 of body, half of which is laid."""
    asked, law = told(0.5)
    monkeypatch.setattr(liner_in_body, "pulled_share", law)
    stretched, left = told(0.9)
    monkeypatch.setattr(liner_in_body, "stretched_share", left)
    at = wren(
        cylinder__bore="40 mm", liner__outside_diameter="46 mm", body__outside_diameter="66 mm"
    )
    both = liner_in_body.touching.__wrapped__(at)
    assert stretched[0][2] == pytest.approx(3 * MM)
    assert asked[0][1] == pytest.approx(10 * MM)
    body = at.parts.body
    shell = at.engine.materials[body.material]
    whole = strength.stiffness(body, shell, both.body_at, strength.ROUND_THE_BORE)
    assert both.body_modulus == pytest.approx(0.5 * whole)


# Pistons and heads


@pytest.mark.parametrize(("deep", "solid"), [("1.9 mm", True), ("2.1 mm", False)])
def test_a_lands_root_is_solid_as_deep_as_its_lines(monkeypatch, deep, solid):
    """Four lines of half a millimetre are 2 mm."""
    asked, law = told(0.5)
    monkeypatch.setattr(lands, "bent_share", law)
    lands.breaks(wren(
        piston__walls="4", piston__line_width="0.5 mm", rings__groove_depth=deep,
        piston__top_land="5 mm",
    ))  # fmt: skip
    assert [one[1] for one in asked] == ([] if solid else [pytest.approx(5 * MM)])


def test_a_shield_is_thrown_by_what_goes_up_and_down(monkeypatch):
    """100 N of 50 g are 2000 m/s²; π/4 · 20² · 1 mm³ of 2000 kg/m³ are 0.2π g."""
    monkeypatch.setattr(shield_hold, "reciprocating_mass", lambda *_: 0.05)
    one = SimpleNamespace(inertia=np.array([-300.0, 100.0]))
    sheet = SimpleNamespace(diameter=20 * MM, thickness=1 * MM, material="sheet")
    at = here(
        loads=SimpleNamespace(cylinders=[one]),
        engine=SimpleNamespace(materials={"sheet": {"density": 2000.0}}),
        parts=SimpleNamespace(piston=SimpleNamespace(shield=sheet)),
    )
    assert shield_hold._upwards(at) == pytest.approx(2000.0)
    assert shield_hold._sheet(at) == pytest.approx(0.2e-3 * math.pi)
    one.inertia = np.array([-300.0, -100.0])
    assert shield_hold._upwards(at) == 0.0


def test_a_crown_is_free_between_its_bosses(monkeypatch):
    """Eye 12 and 1 of play: 6.5 to each side; bosses of 1.8 pins of 10 reach 9 from its axis."""
    asked, law = told(8 * MM)
    monkeypatch.setattr(piston_crown.free_circle, "free_radius", law)
    at = wren(rod__small_end_width="12 mm", pin__diameter="10 mm")
    piston_crown.breaks(at)
    assert asked[0][1:] == pytest.approx((6.5 * MM, 9 * MM))


def test_a_plug_is_held_as_warm_as_the_middle_of_its_thread():
    """An M10 reaches 12 mm into 18: 6 mm below a face of 400 K, of 300 K 20 mm below, are 370."""
    at = wren(plug__thread="M10x1", head__thickness="18 mm")
    depth = np.array([1 * MM, 21 * MM])
    heat = PartTemperature(400.0, 400.0, depth, np.array([400.0, 300.0]))
    temperatures = replace(at.temperatures, parts={**at.temperatures.parts, "head": heat})
    way = head.plug_blows(replace(at, temperatures=temperatures))
    assert way.temperature == pytest.approx(370.0)


def screwed(event="first_fire", **fasteners_have):
    own = SimpleNamespace(thread="M5", torque=5.0, **fasteners_have)
    return here(
        event=event, parts=SimpleNamespace(head=SimpleNamespace(fasteners=own, material="made_up")),
        engine=SimpleNamespace(
            doubt=SimpleNamespace(nut_factor=1.25), materials={"made_up": PLASTIC}
        ),
    )  # fmt: skip


@pytest.mark.parametrize(("event", "newtons"), [("first_fire", 4000.0), ("overtighten", 6000.0)])
def test_a_screws_pull_by_its_torque(event, newtons):
    """5 N m on an M5 that rubs by 0.2 · 1.25: 5/(0.25 · 5 mm); half as much again overtightened."""
    assert head_joint.tightened_preload(screwed(event)) == pytest.approx(newtons)


def test_what_a_screw_ends_in():
    """An insert that has no row is 1.5 threads across, as long as the thread; a screw's own."""
    at = screwed(kind="inserts", insert=None, engaged_length=8 * MM)
    assert head_joint.hole_in_body(at) == pytest.approx((7.5 * MM, 8 * MM))
    at = screwed(kind="screws", insert=None, engaged_length=8 * MM)
    assert head_joint.hole_in_body(at) == pytest.approx((5 * MM, 8 * MM))


def test_only_gas_above_the_airs_lifts_a_head():
    for peak, over in ((5e5, 4e5), (0.5e5, 0.0)):
        air = SimpleNamespace(surroundings=SimpleNamespace(air_pressure=1e5))
        assert head_joint.gas_over_air(here(peak_pressure=peak, engine=air)) == over


@pytest.mark.parametrize(
    ("settled", "left", "governs"), [(900.0, 790.0, "creep"), (900.0, 810.0, "settling")]
)
def test_what_takes_most_of_a_preload(monkeypatch, settled, left, governs):
    """100 of 1000 N are gone by settling; 110 or 90 more by creep."""
    joint = head_joint.HeadJoint(4, None, 1.0, 1.0, 0.5, 1000.0, settled, left, 0.9, 1.0, 1.0)
    monkeypatch.setattr(fasteners, "head_joint", lambda _: joint)
    assert fasteners.slackens(moment(WREN)).governs == governs


def test_strength_that_a_notch_is_felt_by():
    """A metal's yield; a plastic's along its layers, or across."""
    assert notched._strength(METAL, across=False) == 200e6
    assert notched._strength(PLASTIC, across=False) == 50e6
    assert notched._strength(PLASTIC, across=True) == 20e6


# Valves


def test_where_a_valve_leaves_its_cam_first(monkeypatch):
    """Lifted 3 and 6 of 6 mm, slowed by 2 and 4 lifts over the square of half of 4 rad: 3 and 6 mm.
    10 N and 2 N/mm are 16 and 22 N: less for each millimetre at the second."""
    halves = np.array([0.5, 1.0]), np.array([2.0, 4.0])
    monkeypatch.setattr(valves, "_slowing_half", lambda _: halves)
    valve = SimpleNamespace(
        cam_law="harmonic", lift_table=None, lift=6 * MM, spring_preload=10.0, spring_rate=2000.0
    )
    assert valves._worst(valve, 4.0) == pytest.approx((6 * MM, 22.0, 6 * MM))


def test_a_harmonic_rise_slows_down_in_its_second_half():
    """½ π² at its top; rise and slowing of ½ (1 - cos πx) at its end."""
    rise, slowing = valves._slowing_half("harmonic")
    assert rise[-1] == pytest.approx(1.0)
    assert slowing[-1] == pytest.approx(0.5 * math.pi**2)
    assert rise.min() > 0.5
    assert slowing == pytest.approx(math.pi**2 * (rise - 0.5), rel=1e-9)


def test_how_long_valves_are_open(monkeypatch):
    """π and 0.2 and 0.7 of an inlet, π and 0.9 and 0.3 of an exhaust."""
    asked = []
    place = valves._Place(5 * MM, 20.0, 5 * MM)
    monkeypatch.setattr(valves, "_worst", lambda _, opening: asked.append(opening) or place)
    deg = 180 / math.pi
    at = wren(
        valves__inlet__worked="cam",
        valves__inlet__opens_before_top=f"{0.2 * deg} deg",
        valves__inlet__closes_after_bottom=f"{0.7 * deg} deg",
        valves__exhaust__opens_before_bottom=f"{0.9 * deg} deg",
        valves__exhaust__closes_after_top=f"{0.3 * deg} deg",
    )
    valves.inlet_floats(at)
    valves.exhaust_floats(at)
    assert asked == pytest.approx([math.pi + 0.9, math.pi + 1.2])


# Seats, and prints laid otherwise


def test_a_wheel_is_held_no_longer_than_it_is_thick():
    """A joint of 12 in a wheel of 10 mm; three quarters of a cheek of 12 may be plate."""
    at = wren(
        flywheel__joint__length="12 mm", flywheel__thickness="10 mm", crank__cheek_thickness="12 mm"
    )
    assert seats.flywheel(at).hub.length == pytest.approx(10 * MM)
    engine_of = SimpleNamespace(
        crank=SimpleNamespace(material="made_up", cheek_thickness=12 * MM),
        materials={"made_up": PLASTIC, "bar": METAL},
    )
    assert seats._most_plate(engine_of) == pytest.approx(9 * MM)
    engine_of.crank.material = "bar"
    assert seats._most_plate(engine_of) == 0.0


def test_walls_that_a_part_is_judged_by():
    """Liner (46 - 40)/2, body (66 - 46)/2, boss 0.4 · 10, wall round a pin (30 - 12)/2 mm."""
    parts = SimpleNamespace(
        liner=SimpleNamespace(outside_diameter=46 * MM),
        body=SimpleNamespace(outside_diameter=66 * MM, foot=SimpleNamespace(thickness=8 * MM)),
        cylinder=SimpleNamespace(bore=40 * MM), pin=SimpleNamespace(diameter=10 * MM),
        rod=SimpleNamespace(shank_width=12 * MM, shank_thickness=11 * MM, eye_wall=4 * MM),
    )  # fmt: skip
    own = SimpleNamespace(cheek_thickness=14 * MM, cheek_width=30 * MM,
                          joint=SimpleNamespace(diameter=12 * MM))  # fmt: skip
    plain = SimpleNamespace(cylinders=[parts], crank=own)
    for place, walls in (("liner", [3.0]), ("body", [10.0, 8.0]), ("piston.boss", [4.0]),
                         ("rod", [11.0, 4.0]), ("crank", [14.0, 9.0])):  # fmt: skip
        found = [wall / MM for _, wall in laid_alike._walls(plain, 0, place)]
        assert found == pytest.approx(walls)


@pytest.mark.parametrize(("wall", "alike"), [(3.9, True), (4.1, False)])
def test_a_wall_of_lines_alone_is_solid_already(wall, alike):
    """Twice four lines of half a millimetre are 4 mm; more of them change nothing of less."""
    few = SimpleNamespace(walls=4, line_width=0.5 * MM, infill=0.2)
    many = SimpleNamespace(walls=5, line_width=0.5 * MM, infill=0.2)
    said = laid_alike._filled_alike((few, many), "liner", "walls", {"the wall": wall * MM})
    assert bool(said) is alike
    if alike:
        assert said == (
            "With 4 walls of 0.5 mm at each face the wall (3.9 mm) is solid already, so more "
            "changes nothing."
        )


@pytest.mark.parametrize(
    ("inside", "governs", "loaded"), [(90e6, "rod inside", 10e6), (110e6, "print", 20e6)]
)
def test_a_crankpin_breaks_by_whichever_stands_it_worse(monkeypatch, inside, governs, loaded):
    """Ten times of 20 MPa on the pin's 200; on the rod 90 or 110 of 10 MPa: nine or eleven."""
    load = crank.PinLoad(20e6, 0.0, 0.0, 10e6, 1.0, 1.0)
    bears = strength.Strength(200e6, "print", 200e6, {}, {})
    monkeypatch.setattr(crank, "pin_load", lambda _: load)
    monkeypatch.setattr(crank, "pin_strength", lambda *_, **__: bears)
    monkeypatch.setattr(crank, "_rod_strength", lambda: inside)
    way = crank.bends(moment(WREN))
    assert (way.governs, way.demand) == (governs, pytest.approx(loaded))


@pytest.mark.parametrize(
    ("inside", "governs", "loaded"), [(90e6, "rod inside", 10e6), (110e6, "print", 20e6)]
)
def test_a_journal_breaks_by_whichever_stands_it_worse(monkeypatch, inside, governs, loaded):
    """As a crankpin: of 8 and 4 N m a quarter, 2 and 1, is the rod's: 2 bend it by 10 MPa."""
    bears = strength.Strength(200e6, "print", 200e6, {}, {})
    twisted, law = told(0.0)
    bent = []
    monkeypatch.setattr(journal, "pin_strength", lambda *_, **__: bears)
    monkeypatch.setattr(journal, "_felt", lambda *_: journal.Felt(8.0, 4.0, 1.0, 1.0))
    monkeypatch.setattr(journal, "own_share", lambda _: 0.75)
    monkeypatch.setattr(journal, "_stresses", lambda *_: (20e6, 0.0))
    monkeypatch.setattr(journal.shaft, "torsion_stress", law)
    monkeypatch.setattr(
        journal.shaft, "bending_stress", lambda *put: bent.append(put) or 5e6 * put[0]
    )
    monkeypatch.setattr(journal.rows, "material_number", lambda *_: inside)
    way = journal.breaks(wren(crank__journal__rod_diameter="9 mm"))
    assert (way.governs, way.demand) == (governs, pytest.approx(loaded))
    assert bent == [pytest.approx((2.0, 9 * MM))]
    assert twisted == [pytest.approx((1.0, 9 * MM))]
