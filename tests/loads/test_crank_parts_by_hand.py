"""A crank's parts one by one, with a calculator: springs, masses, places, swing of the speed."""

from __future__ import annotations

import math
from importlib import import_module
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.errors import OutsideValidity
from firstfire.loads import crank_layout, masses, turning
from firstfire.loads.crank_layout import Throw

torsion = import_module("firstfire.loads.torsion")
PI, MM = math.pi, 1e-3


def always(answer: object):
    """Says the same whatever it is asked."""
    return lambda *_: answer


def row(*values: float) -> np.ndarray:
    return np.array(values)


class Row(dict):
    """A catalog's row."""

    name = "made up"


def crank_of(**values: object) -> SimpleNamespace:
    """An engine with a crank of 2.6 GPa and ν 0.3 whose sizes are told."""
    soft = Row(modulus_in_plane=2.6e9, poisson=0.3, density=1000.0)
    hard = Row(modulus_in_plane=5.2e9, poisson=0.3, density=8000.0)
    crank = {
        "material": "soft", "crankpin_material": "hard", "built": "built_up", "balance_factor": 0.4,
        "crankpin_length": 20 * MM, "crankpin_diameter": 10 * MM, "cheek_thickness": 10 * MM,
        "cheek_width": 20 * MM, "main_journal_diameter": 20 * MM, "main_bearing_width": 8 * MM,
        "bearing_span": 60 * MM, "through_rod_diameter": 0.0, "main_bearings": 2,
        "joint": SimpleNamespace(length=5 * MM),
        "journal": SimpleNamespace(material="hard", rod_diameter=0.0),
    }  # fmt: skip
    return SimpleNamespace(
        crank=SimpleNamespace(**crank | values),
        materials={"soft": soft, "hard": hard},
        flywheel=SimpleNamespace(inertia=0.003, thickness=12 * MM),
        load=SimpleNamespace(inertia=0.004),
        layout=SimpleNamespace(kind="parallel_twin", cylinder_spacing=50 * MM, crank_offset=PI),
        cylinders=[None],
    )


# The crank as a spring


def test_two_discs_on_a_shaft_swing_against_each_other():
    """1 and 3 kg·m² on 12 π² N·m/rad: ω² = 12 π² (1 + 1/3) = 16 π², 2 Hz."""
    assert torsion.first_frequency([12 * PI**2], [1.0, 3.0]) == pytest.approx(2.0)


def test_of_three_discs_the_outer_swing_first():
    """1 kg·m² each on 36 π² N·m/rad: the middle one stands while ω² = 36 π², 3 Hz."""
    assert torsion.first_frequency([36 * PI**2] * 2, [1.0] * 3) == pytest.approx(3.0)


def test_an_order_excites_at_a_speed_as_much_slower():
    """2π · 50 Hz/π = 100 rad/s over an order of ½."""
    made = torsion.Torsion({}, 1.0, 1.0, (1.0,), 50.0 / PI)
    assert made.resonant_speed(0.5) == pytest.approx(200.0)


def test_a_print_s_shear_modulus():
    """2.6 GPa/(2 · 1.3) = 1 GPa."""
    assert torsion.shear_modulus(crank_of(), "soft") == pytest.approx(1e9)


POLAR = PI / 32


def test_a_rod_in_a_shaft_works_beside_what_is_round_it():
    """1 GPa · π/32 (10⁴ - 6⁴) mm⁴ and steel's 79.3 GPa · π/32 · 6⁴ mm⁴, over 25 mm; a rod as thick
    as the shaft is all there is."""
    engine, along = crank_of(), 25 * MM
    ring, rod = 8704e-12 * POLAR * 1e9 / along, 1296e-12 * POLAR * 79.3e9 / along
    found = torsion._with_rod(engine, "soft", 10 * MM, 6 * MM, along)
    assert found == pytest.approx(ring + rod, rel=1e-9)
    alone = torsion._with_rod(engine, "soft", 6 * MM, 6 * MM, along)
    assert alone == pytest.approx(rod, rel=1e-9)
    plain = torsion._with_rod(engine, "soft", 10 * MM, 0.0, along)
    assert plain == pytest.approx(1e-8 * POLAR * 1e9 / along, rel=1e-9)


def test_parts_in_series_between_a_wheel_and_two_throws(monkeypatch):
    """Bores 50 mm apart and pins of 20 leave 30 mm, 10 of them between two cheeks of 10: a journal
    of 10 + 8 mm, a first one of 6 mm to the bearing, (8 + 12)/2 to the wheel and 4 of the cheek. A
    pin's half counts 7.5 mm; a cheek π/32 · 10 · 20³ mm⁴ over 0.75 · 20 mm."""
    engine = crank_of()
    monkeypatch.setattr(torsion, "throws", always(("near", "far")))
    monkeypatch.setattr(torsion, "to_bearing", always(6 * MM))
    monkeypatch.setattr(torsion, "throw_radius", always(20 * MM))
    first, second = torsion._spans(engine)
    pin = 2e9 * POLAR * 1e-8 / 7.5e-3
    cheek = 1e9 * POLAR * 80e3 * MM**4 / 15e-3
    journal = 2e9 * POLAR * 16e-8
    assert first == pytest.approx(
        {"journal": journal / 20e-3, "cheek 1": cheek, "pin 1": pin}, rel=1e-9
    )
    assert second == pytest.approx(
        {"pin 1, far half": pin, "cheek 2": cheek, "cheek 3": cheek, "pin 2": pin,
         "journal 2": journal / 18e-3}, rel=1e-9,
    )  # fmt: skip
    engine.layout.cylinder_spacing = 35 * MM
    assert "journal 2" not in torsion._spans(engine)[1]
    engine.layout.cylinder_spacing = 20 * MM
    with pytest.raises(OutsideValidity):
        torsion._spans(engine)


def test_a_wheel_and_a_throw_on_three_springs(monkeypatch):
    """36, 36 and 18 π² N·m/rad in series are 9 π²; with 1 and 9/7 kg·m² ω² = 9 π² (1 + 7/9) =
    16 π², 2 Hz."""
    spans = [{"journal": 36 * PI**2, "cheek 1": 36 * PI**2, "pin 1": 18 * PI**2}]
    monkeypatch.setattr(torsion, "flywheel_inertia", always(1.0))
    monkeypatch.setattr(torsion, "throws", always((Throw((0,), 0.0, ("1", "2")),)))
    monkeypatch.setattr(
        torsion, "throw_inertia", lambda asked, own: 9 / 7 if asked == "engine" and own else None
    )
    monkeypatch.setattr(torsion, "_spans", always(spans))
    found = torsion.torsion("engine")
    assert found.stiffness == pytest.approx(9 * PI**2)
    assert found.frequency == pytest.approx(2.0)
    assert (found.flywheel_inertia, found.throw_inertias) == (1.0, (9 / 7,))


# What moves


def rods(monkeypatch, engine: SimpleNamespace, *reciprocating: float) -> None:
    """A throw of 20 mm with pistons of so much, and rods of 0.1 kg of which 0.6 go round."""
    rod = SimpleNamespace(reciprocating_fraction=0.4, mass=0.1)
    engine.cylinders = [SimpleNamespace(rod=rod, goes=one) for one in reciprocating]
    monkeypatch.setattr(masses.geometry, "mechanism", always((20 * MM, 70 * MM, 0.0)))
    monkeypatch.setattr(masses.geometry, "reciprocating_mass", lambda _, parts: parts.goes)


def test_a_counterweight_leaves_a_share_of_one_piston_of_two(monkeypatch):
    """0.4 of the mean of 0.2 and 0.3 kg on 20 mm, opposite to the pin: -2 g·m. Of a rod of 0.1 kg
    0.06 go round."""
    engine = crank_of()
    rods(monkeypatch, engine, 0.2, 0.3)
    assert masses.unbalance(engine, [0, 1]) == pytest.approx(-2e-3)
    assert masses.rotating_rod_mass(engine, 0) == pytest.approx(0.06)
    assert masses.throw_radius(engine, 0) == pytest.approx(20 * MM)


@pytest.mark.parametrize(("built", "length"), [("built_up", 30.0), ("one_piece", 20.0)])
def test_inertia_of_what_goes_round(monkeypatch, built, length):
    """A cheek of 40 · 20 · 10 mm of 1000 kg/m³ weighs 8 g: 8 g ((40² + 20²)/12 + 10²) mm² about the
    crank. A pin of 10 mm, 20 long and 2 · 5 mm more where it is held, of 8000 kg/m³, and two rods'
    0.12 kg are on 20 mm; so is a weight for them, a cheek and 0.4 of 0.25 kg of piston. Half of the
    pistons' 0.5 kg swings with them."""
    engine = crank_of(built=built)
    rods(monkeypatch, engine, 0.2, 0.3)
    pin = 8000.0 * PI / 4 * 100 * length * MM**3
    cheek = 8e-3 * (2000 / 12 + 100) * MM**2
    weight = pin + 0.12 + 8e-3 + 0.1
    wanted = 2 * cheek + (pin + 0.12 + weight) * 400 * MM**2
    assert masses.rotating_inertia(engine, [0, 1]) == pytest.approx(wanted, rel=1e-9)
    swinging = 0.25 * 400 * MM**2
    assert masses.throw_inertia(engine, [0, 1]) == pytest.approx(wanted + swinging, rel=1e-9)


def test_wheel_and_load_turn_together(monkeypatch):
    """0.003 + 0.004 kg·m², and two throws of 0.001 with each of them."""
    engine = crank_of()
    assert masses.flywheel_inertia(engine) == pytest.approx(0.007)
    monkeypatch.setattr(turning, "throws", always((Throw((0,), 0.0, ()), Throw((1,), 0.0, ()))))
    monkeypatch.setattr(
        turning, "throw_inertia", lambda asked, own: 0.001 if asked is engine and own else None
    )
    assert turning.turning_inertia(engine) == pytest.approx(0.009)


# Where things are


def test_bores_stand_about_the_middle_of_the_crank():
    """Two 50 mm apart: 25 mm either way; three: -50, 0 and 50 mm."""
    engine = crank_of()
    engine.cylinders = [None] * 2
    assert crank_layout.cylinder_places(engine) == pytest.approx((-25 * MM, 25 * MM))
    engine.cylinders = [None] * 3
    assert crank_layout.cylinder_places(engine) == pytest.approx((-50 * MM, 0.0, 50 * MM))


@pytest.mark.parametrize(
    ("kind", "offset", "common"),
    [
        ("v_twin", 0.0, True), ("v_twin", 2 * PI, True), ("opposed_twin", 0.0, True),
        ("v_twin", PI, False), ("v_twin", 0.01, False), ("parallel_twin", 0.0, False),
    ],
)  # fmt: skip
def test_rods_that_share_a_pin(kind, offset, common):
    """One whole turn on is the same place."""
    engine = crank_of()
    engine.layout.kind, engine.layout.crank_offset = kind, offset
    engine.cylinders = [None] * 2
    assert crank_layout.has_common_pin(engine) is common
    pins = [(one.cylinders, one.joints) for one in crank_layout.throws(engine)]
    assert pins == ([((0, 1), ("1", "2"))] if common else [((0,), ("1", "2")), ((1,), ("3", "4"))])


def test_a_common_pin_stands_between_its_bores(monkeypatch):
    """Of bores at 10 and 30 mm at 20 mm. A single bearing stands half a span before the middle."""
    engine = crank_of(main_bearings=1)
    engine.layout.kind, engine.layout.crank_offset = "v_twin", 0.0
    monkeypatch.setattr(crank_layout, "cylinder_places", always((10 * MM, 30 * MM)))
    assert [one.place for one in crank_layout.throws(engine)] == pytest.approx([20 * MM])
    assert [one.place for one in crank_layout.supports(engine)] == pytest.approx([-30 * MM])


def test_room_between_the_outermost_cheek_and_its_bearing():
    """120 mm less 50 between the pins' middles, 20 of pin and twice 10: 30, half at each end. Pins
    and cheeks take 90 mm at least."""
    engine = crank_of(bearing_span=120 * MM)
    engine.cylinders = [None] * 2
    assert crank_layout.to_bearing(engine) == pytest.approx(15 * MM)
    engine.crank.bearing_span = 90.5 * MM
    assert crank_layout.to_bearing(engine) == pytest.approx(0.25 * MM)
    engine.crank.bearing_span = 89.5 * MM
    with pytest.raises(OutsideValidity):
        crank_layout.to_bearing(engine)


@pytest.mark.parametrize(
    ("bearings", "wanted"),
    [
        (2, [(-60, 1, 0), (60, 1, 2)]),
        (3, [(-60, 1, 0), (0, 1, 1), (60, 1, 2)]),
        (4, [(-60, 2, 0), (0, 1, 1), (60, 1, 2)]),
        (5, [(-60, 2, 0), (0, 1, 1), (60, 2, 2)]),
    ],
)
def test_bearings_of_a_twin_with_two_pins(bearings, wanted):
    engine = crank_of(bearing_span=120 * MM, main_bearings=bearings)
    engine.cylinders = [None] * 2
    found = [(one.place, one.bearings, one.throws_before) for one in crank_layout.supports(engine)]
    assert found == [(pytest.approx(place * MM), count, at) for place, count, at in wanted]


def test_journals_of_a_twin():
    """Half of 20 and a cheek of 10: 20 mm either side of pins at ±25 mm, so 10 mm between."""
    engine = crank_of(bearing_span=120 * MM)
    engine.cylinders = [None] * 2
    found = crank_layout.journals(engine)
    assert [one.length for one in found] == pytest.approx([15 * MM, 10 * MM, 15 * MM])
    roots = [root for one in found for root in one.roots]
    assert roots == pytest.approx([-45 * MM, -5 * MM, 5 * MM, 45 * MM])
    assert [one.joint for one in found] == ["1", "3", "4"]


# Work, and how far the speed swings


def test_work_and_mean_torque_by_simpson():
    """0, 3, 6, 3, 0 N·m at steps of π: π/3 (4 · 6 + 2 · 6) = 12 π J, over 4π 3 N·m."""
    made = SimpleNamespace(
        shaft_angle=7.0 + PI * np.arange(5.0), torque=row(0.0, 3.0, 6.0, 3.0, 0.0)
    )
    assert turning.work(made) == pytest.approx(12 * PI)
    assert turning.mean_torque(made) == pytest.approx(3.0)


def test_energy_held_between_torque_and_its_mean():
    """Over 1, 1 and 2 rad 0, 2, 4 and 0 N·m do 1, 3 and 4 J: 2 N·m in the mean. Held are 0, 1 - 2,
    4 - 4 and 8 - 8 J. Turned about it is as much."""
    angle, torque = row(1.0, 2.0, 3.0, 5.0), row(0.0, 2.0, 4.0, 0.0)
    assert turning.energy_swing(torque, angle) == pytest.approx(1.0)
    assert turning.energy_swing(7.0 - torque, angle) == pytest.approx(1.0)


def test_a_swing_of_the_speed(monkeypatch):
    """6 J on 0.01 kg·m² at 100 rad/s: 6 J/(0.01 · 100) = 6 rad/s, 6 % of it."""
    engine, made = object(), SimpleNamespace(torque="torque", shaft_angle="angle")
    monkeypatch.setattr(
        turning, "energy_swing", lambda *given: 6.0 if given == ("torque", "angle") else None
    )
    monkeypatch.setattr(turning, "turning_inertia", always(0.01))
    found = turning.speed_variation(engine, made, 100.0)
    assert (found.energy, found.inertia) == (6.0, 0.01)
    assert found.highest - found.lowest == pytest.approx(6.0)
    assert found.fluctuation == pytest.approx(0.06)


def test_how_hard_a_joint_is_pushed_both_ways():
    """5 N·m forwards and 2 back: 0.4 as hard. One way only: nothing the other."""
    found = turning.reversals({"1": row(-2.0, 5.0), "2": row(-4.0, -3.0), "3": row(1.0, 6.0)})
    ways = {name: (one.forward, one.backward, one.share) for name, one in found.items()}
    assert ways == {"1": (5.0, 2.0, 0.4), "2": (0.0, 4.0, 0.0), "3": (6.0, 0.0, 0.0)}
    assert [one.reversed for one in found.values()] == [True, False, False]
    assert turning.largest(row(1.0, -3.0, 2.0)) == -3.0
