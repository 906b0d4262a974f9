"""A crank with round sizes, worked out with a calculator: stiffness, inertia, places, swing.

Stiffness by Carter's form (torsion.py says where it is from), inertia by Steiner, all in SI: a
printed crank of PETG (E 1900 MPa, ν 0.39, 1270 kg/m³) on pins of silver steel.
"""

import math

import numpy as np
import pytest
from tests.loads.small_engines import engine_of, gas_cycle

from firstfire.engine.records import Loads
from firstfire.loads import speed_variation, torsion
from firstfire.loads.cam_drive import cam_drive_torque, valve_lift
from firstfire.loads.crank_layout import journals, supports, throws, to_bearing
from firstfire.loads.masses import reciprocating_mass, rotating_rod_mass, throw_inertia, unbalance
from firstfire.loads.running import running

CRANK = {
    "crank__crankpin_length": 20e-3, "crank__crankpin_diameter": 12e-3,
    "crank__cheek_thickness": 10e-3, "crank__cheek_width": 30e-3,
    "crank__main_journal_diameter": 15e-3, "crank__main_bearing_width": 11e-3,
    "crank__joint__length": 7e-3, "crank__bearing_span": 60e-3, "flywheel__thickness": 12e-3,
}  # fmt: skip
PRINT = 1900e6 / (2 * 1.39)
POLAR = math.pi / 32


def steel(engine) -> float:
    row = engine.materials["silver_steel"]
    return row["modulus_in_plane"] / (2 * (1 + row["poisson"]))


def test_stiffness_of_a_single() -> None:
    """Arm (60 - 20 - 2·10)/2 = 10 mm; journal 10 + (11 + 12)/2 + 0.4·10 = 25.5 mm long."""
    engine = engine_of(**CRANK)
    assert to_bearing(engine) == pytest.approx(10e-3)
    assert torsion(engine).stiffnesses == pytest.approx(
        {
            "journal": steel(engine) * POLAR * 15e-3**4 / 25.5e-3,
            "cheek 1": PRINT * POLAR * 10e-3 * 30e-3**3 / (0.75 * 20e-3),
            "pin 1": steel(engine) * POLAR * 12e-3**4 / 7.5e-3,
        },
        rel=1e-9,
    )


def test_stiffness_between_two_throws_wide_apart() -> None:
    """Bores 70 mm apart: between their cheeks 70 - 20 - 2·10 = 30 mm, with 0.8·10 = 38 mm."""
    engine = engine_of(
        "parallel 180", **CRANK | {"crank__bearing_span": 130e-3}, layout__cylinder_spacing=70e-3
    )
    found = torsion(engine).stiffnesses
    assert found["journal 2"] == pytest.approx(steel(engine) * POLAR * 15e-3**4 / 38e-3)
    names = ["journal", "cheek 1", "pin 1", "pin 1, far half", "cheek 2", "cheek 3", "pin 2"]
    assert list(found) == [*names, "journal 2"]
    assert found["pin 1, far half"] == found["pin 2"] == found["pin 1"]


def test_a_steel_rod_through_printed_pin_and_journal_works_beside_them() -> None:
    engine = engine_of(
        **CRANK, crank__crankpin_material="petg", crank__through_rod_diameter=8e-3,
        crank__journal__material="petg", crank__journal__rod_diameter=10e-3,
    )  # fmt: skip
    found, rod = torsion(engine).stiffnesses, 80e9  # shear modulus of a steel rod, 79 to 81 GPa
    ring = PRINT * POLAR * (12e-3**4 - 8e-3**4) / 7.5e-3
    assert found["pin 1"] == pytest.approx(ring + rod * POLAR * 8e-3**4 / 7.5e-3, rel=0.02)
    ring = PRINT * POLAR * (15e-3**4 - 10e-3**4) / 25.5e-3
    assert found["journal"] == pytest.approx(ring + rod * POLAR * 10e-3**4 / 25.5e-3, rel=0.02)


def test_inertia_of_a_throw() -> None:
    """A cheek of 50 by 30 by 10 mm weighs 19.05 g; its middle is 10 mm out (Steiner)."""
    engine = engine_of(**CRANK)
    cheek = 1270 * 50e-3 * 30e-3 * 10e-3
    assert cheek == pytest.approx(19.05e-3)
    own = cheek * ((50e-3**2 + 30e-3**2) / 12 + 10e-3**2)
    steel_mass = engine.materials["silver_steel"]["density"]
    pin = steel_mass * math.pi / 4 * 12e-3**2 * (20e-3 + 2 * 7e-3)
    at_pin = pin + rotating_rod_mass(engine, 0)
    swinging = reciprocating_mass(engine, 0) / 2
    # Two cheeks' middles are each half a throw out: 2 · 1/2 = one cheek at the throw's radius.
    weight = (at_pin + cheek) * 20e-3 + 0.5 * reciprocating_mass(engine, 0) * 20e-3
    assert unbalance(engine, [0]) == pytest.approx(-0.5 * reciprocating_mass(engine, 0) * 20e-3)
    whole = 2 * own + (at_pin + swinging) * 20e-3**2 + weight * 20e-3
    assert throw_inertia(engine, [0]) == pytest.approx(whole, rel=1e-9)


def test_where_journals_meet_their_cheeks() -> None:
    """Half of 20 mm of pin and a cheek of 10 mm: 20 mm either side of a throw's middle."""
    one = journals(engine_of(**CRANK))
    assert [(each.name, each.length) for each in one] == [
        ("flywheel end", pytest.approx(10e-3)), ("far end", pytest.approx(10e-3)),
    ]  # fmt: skip
    assert [each.roots for each in one] == [pytest.approx((-20e-3,)), pytest.approx((20e-3,))]
    two = journals(
        engine_of("parallel 180", **CRANK | {"crank__bearing_span": 130e-3},
                  layout__cylinder_spacing=70e-3)
    )  # fmt: skip
    assert [each.name for each in two] == ["flywheel end", "between the throws", "far end"]
    assert [each.length for each in two] == pytest.approx([10e-3, 30e-3, 10e-3])
    assert [root for each in two for root in each.roots] == pytest.approx(
        [-55e-3, -15e-3, 15e-3, 55e-3]
    )


def test_where_the_crank_is_held() -> None:
    engine = engine_of(
        "parallel 180", **CRANK | {"crank__bearing_span": 130e-3, "crank__main_bearings": 4},
        layout__cylinder_spacing=70e-3,
    )  # fmt: skip
    assert [(each.place, each.bearings, each.throws_before) for each in supports(engine)] == [
        (-65e-3, 2, 0), (0.0, 1, 1), (65e-3, 1, 2),
    ]  # fmt: skip
    assert [each.place for each in throws(engine)] == pytest.approx([-35e-3, 35e-3])


def test_the_swing_of_the_speed() -> None:
    """A torque of 3 sin θ N·m: 6 J to and fro; at 1e-2 kg·m² and 100 rad/s 6 rad/s, 6 %."""
    inertia = 1e-2
    light = engine_of(**CRANK, flywheel__inertia=1e-3)
    engine = engine_of(**CRANK, flywheel__inertia=inertia - throw_inertia(light, [0]))
    angle = np.linspace(0.0, 4 * math.pi, 7201)
    torque = 3 * np.sin(angle)
    nothing = np.zeros_like(angle)
    found = speed_variation(
        engine, Loads((), angle, torque, {}, {}, (nothing,), 0.0, 0.0, ()), 100.0
    )
    assert found.energy == pytest.approx(6.0, rel=1e-5)
    assert found.inertia == pytest.approx(inertia)
    assert found.fluctuation == pytest.approx(0.06, rel=1e-3)
    assert found.highest - found.lowest == pytest.approx(6.0, rel=1e-3)


def test_a_shaft_that_gains_speed_throws_its_valves_too() -> None:
    """By virtual work a valve's mass asks m s'² dω/dt more, with lift s by crank angle."""
    engine = engine_of(
        valves__inlet__mass=0.02, valves__exhaust__mass=0.03, valves__inlet__spring_preload=1.0,
        valves__exhaust__spring_preload=1.0,
    )  # fmt: skip
    air = engine.surroundings.air_pressure
    even = running(gas_cycle(air, speed=200.0))
    # ω² = 200² + 2·500·θ has a gain of 500 rad/s² at every angle.
    gaining = running(gas_cycle(air, speed=lambda angle: np.sqrt(200.0**2 + 1000.0 * angle)))
    still = running(gas_cycle(air, speed=1e-6))
    springs = cam_drive_torque(engine, 0, still)
    asked = cam_drive_torque(engine, 0, gaining) - springs
    of_speed = (cam_drive_torque(engine, 0, even) - springs) * (gaining.speed / 200.0) ** 2
    more = asked - of_speed
    assert more[1:-1].min() > -1e-6 * np.abs(asked).max()
    assert more.max() > 0.01 * np.abs(asked).max()


def test_springs_ask_of_the_crank_what_they_are_pressed_with() -> None:
    """At a crawl, against still air: (preload + rate · lift) · lift by crank angle, of both."""
    engine = engine_of(
        valves__inlet__spring_preload=20.0, valves__inlet__spring_rate=3e3,
        valves__exhaust__spring_preload=30.0, valves__exhaust__spring_rate=5e3,
    )  # fmt: skip
    run = running(gas_cycle(engine.surroundings.air_pressure, speed=1e-6))
    valves = engine.cylinders[0].valves
    inlet, exhaust = valves.inlet, valves.exhaust
    up = valve_lift(inlet, run.angle, 2 * math.pi - inlet.opens_before_top,
                    3 * math.pi + inlet.closes_after_bottom)  # fmt: skip
    out = valve_lift(exhaust, run.angle, math.pi - exhaust.opens_before_bottom,
                     2 * math.pi + exhaust.closes_after_top)  # fmt: skip
    asked = (20.0 + 3e3 * up.lift) * up.slope + (30.0 + 5e3 * out.lift) * out.slope
    assert cam_drive_torque(engine, 0, run) == pytest.approx(asked, abs=1e-9)


def test_one_bearing_stands_at_the_flywheels_end() -> None:
    """Of a span of 60 mm 30 mm before the middle, with the throw hung out beyond it."""
    engine = engine_of(**CRANK, crank__main_bearings=1)
    assert [(each.place, each.bearings, each.throws_before) for each in supports(engine)] == [
        (-30e-3, 1, 0)
    ]
