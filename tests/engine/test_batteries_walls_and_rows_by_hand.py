"""Batteries, walls' warmth, materials under doubt, fuels, fuel's flow and outlines, by a pencil."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest
from tests.engine.by_hand import RPM, value

from firstfire.catalog import CurvePoint
from firstfire.engine import fuel as fuels
from firstfire.engine import materials, pieces, tree
from firstfire.engine.battery import Battery, battery_of, torque_at_a_stand
from firstfire.engine.leaf import _beyond
from firstfire.engine.moment import Moment
from firstfire.engine.quantity import NotAQuantity
from firstfire.engine.records import PartTemperature, Way
from firstfire.engine.rules import fuelling, stock
from firstfire.errors import CatalogError, OutsideValidity
from firstfire.parts import rows

MM, ROOM = 1e-3, 296.15


class Asked(dict):
    """What a rule may ask, of these values only."""

    def number(self, path):
        return self[path]

    def row(self, path):
        return self.get(f"{path} row")


# The battery


def test_a_battery_sags_by_its_own_share():
    """0.1 ohm of winding and 0.3 beside it: a quarter is left at a stand, 30 A of 12 V; at half of
    its free speed half of what sags does."""
    battery = Battery(voltage=12.0, winding=0.1, added=0.3)
    assert battery.share == pytest.approx(0.25)
    assert battery.stall_current == pytest.approx(30.0)
    assert battery.left(0.0, 100.0) == pytest.approx(3.0)
    assert battery.left(50.0, 100.0) == pytest.approx(7.5)
    assert battery.left(100.0, 100.0) == pytest.approx(12.0)


def starter(**other):
    """1.44 N m at a stand and 1000 rad/s free at 12 V: 144/1440 = 0.1 ohm."""
    put = {"battery_voltage": 12.0, "battery_resistance": 0.3, "pull_force": None, "kind": "motor",
           "stall_torque": 1.44, "no_load_speed": 1000.0}  # fmt: skip
    return SimpleNamespace(**(put | other))


def test_a_starters_winding_and_what_its_battery_leaves_of_it():
    """A quarter of 1.44 N m."""
    found = battery_of(starter())
    assert (found.voltage, found.winding, found.added) == pytest.approx((12.0, 0.1, 0.3))
    assert torque_at_a_stand(starter()) == pytest.approx(0.36)
    for other in ({"pull_force": 100.0}, {"kind": "hand"}, {"battery_resistance": 0.0}):
        assert battery_of(starter(**other)) is None
        assert torque_at_a_stand(starter(**other)) == 1.44


# Walls, margins and pressures


def test_a_walls_mean_counts_each_depth_by_its_reach():
    """400, 300 and 200 K at 1, 2 and 4 mm: 350 over one and 250 over two, 850/3."""
    depth = np.array([1.0, 2.0, 4.0]) * MM
    wall = PartTemperature(400.0, 420.0, depth, np.array([400.0, 300.0, 200.0]))
    assert wall.mean == pytest.approx(850.0 / 3.0)
    assert wall.at(3 * MM) == pytest.approx(250.0)
    face = PartTemperature(400.0, 420.0, np.array([1.0, 1.0]), np.array([400.0, 300.0]))
    assert face.mean == 400.0


def test_a_factor_is_what_is_borne_over_what_is_asked():
    assert Way.factor.fget(SimpleNamespace(capacity=6.0, demand=4.0)) == 1.5
    assert Way.factor.fget(SimpleNamespace(capacity=6.0, demand=0.0)) == math.inf


@pytest.mark.parametrize(("peak", "over"), [(30e5, 29e5), (0.5e5, 0.0)])
def test_gas_presses_by_what_it_is_above_the_crankcase(peak, over):
    at = SimpleNamespace(peak_pressure=peak, crankcase_pressure=1e5, given=lambda _, value: value)
    assert Moment.gas_pressure.fget(at) == pytest.approx(over)


# Materials and fuels


def test_doubt_stretches_what_is_above_room():
    """A tenth more of 100 K is 110; what is told of itself stays."""
    point = CurvePoint(ROOM + 100.0, 0.5, 0.5, 0.5, "temperature", "", "")
    (later,) = materials._later((point,), 1.1)
    assert (later.at, later.value) == (pytest.approx(ROOM + 110.0), 0.5)
    assert materials._later((point,), 1.0) == (point,)
    told = {"glass_transition": ROOM + 60.0, "melting": 500.0}
    softer = materials._softened(told, 0.9)
    assert softer == {"glass_transition": pytest.approx(ROOM + 54.0), "melting": 500.0}
    assert materials._softened({"melting": 500.0}, 0.9) == {"melting": 500.0}


def test_a_molecule_of_fuel():
    """8 of carbon, 2.25 times as much hydrogen and an eighth of oxygen: 18 and 1."""
    numbers = {"carbon_atoms": 8.0, "hydrogen_per_carbon": 2.25, "oxygen_per_carbon": 0.125,
               "heating_value_vapour": 44e6}  # fmt: skip
    row = SimpleNamespace(key="mine", si=numbers.__getitem__, texts={"vapour": "octane"})
    catalog = SimpleNamespace(row=lambda *_: row, rows=lambda _: [row])
    found = fuels.fuel(catalog, "mine")
    assert (found.carbon, found.hydrogen, found.oxygen) == pytest.approx((8.0, 18.0, 1.0))
    assert found.heating_value == 44e6
    assert found.vapours == (("octane", 1.0),)


def test_a_mixture_of_a_mixture(monkeypatch):
    """0.6 of a, and 0.4 of what is half a and half b: 0.8 and 0.2."""
    one, other = (SimpleNamespace(name=name, texts={"vapour": name}) for name in "ab")
    half = SimpleNamespace(name="half", texts={"made_of": ""})
    whole = SimpleNamespace(name="whole", texts={"made_of": ""})
    made = {"half": ((one, 0.5), (other, 0.5)), "whole": ((one, 0.6), (half, 0.4))}
    monkeypatch.setattr(fuels, "mixture", lambda row, _: made[row.name])
    assert fuels._vapours(whole, {}) == pytest.approx({"a": 0.8, "b": 0.2})
    made["half"] = ((half, 1.0),)
    with pytest.raises(CatalogError, match="made of itself"):
        fuels._vapours(whole, {})


@pytest.mark.parametrize(
    ("value", "taken"), [(0.11, True), (0.09, False), (1990.0, True), (2010.0, False)]
)
def test_a_number_of_ones_own_lies_within_a_hundred_times_its_row(value, taken):
    """10 to 20: from 0.1 to 2000."""
    datum = SimpleNamespace(si_low=10.0, si_high=20.0, low=10.0, high=20.0, unit="K")
    if taken:
        assert tree._plausible(value, datum, "it") == value
    else:
        with pytest.raises(NotAQuantity):
            tree._plausible(value, datum, "it")


@pytest.mark.parametrize(
    ("value", "word"),
    [(2.0, ""), (2.0 * (1 - 1e-10), ""), (2.0 * (1 - 1e-8), "below what makes sense"),
     (5.0 * (1 + 1e-10), ""), (5.0 * (1 + 1e-8), "above what makes sense"), (-1.0, "negative"),
     (math.nan, "which is not a number")],
)  # fmt: skip
def test_a_hair_beyond_a_limit_passes(value, word):
    """One part in a thousand million of 2 and of 5."""
    assert _beyond(value, "", "2", "5") == word


def test_a_belt_is_known_by_its_pitch():
    """Within two of a hundred of 3 mm: 3.05, and not 3.1."""
    whole = rows.belt_pull(None, 3.0 * MM)
    assert rows.belt_pull(None, 3.05 * MM) == rows.belt_pull(None, 2.95 * MM) == whole
    for pitch in (3.1 * MM, 2.9 * MM):
        with pytest.raises(OutsideValidity):
            rows.belt_pull(None, pitch)


# Rules


@pytest.mark.parametrize(
    ("said", "flow"),
    [
        # 100 cm³ · 1.2 kg/m³ · 0.75/15 are 6 mg in 0.35 · 4π/140π = 10 ms: 0.6 g/s, of 750 kg/m³
        # 48 cm³/min: 50
        ({}, 50.0),
        # twice as much for two; half as much at four times the pressure: 24
        ({"injector.feeds": "all", "layout.kind": "v_twin"}, 95.0),
        ({"injector.feeds": "all"}, 50.0),
        ({"injector.pressure": 12e5}, 25.0),
        # 0.48 at a hundredth of the speed: no less than 10
        ({"use.full_throttle_speeds": [1.4 * math.pi]}, 10.0),
        ({"intake.equivalence_ratio": 1.5}, 70.0),
    ],
)
def test_what_an_injector_has_to_give(monkeypatch, said, flow):
    monkeypatch.setattr(fuelling, "swept", lambda _: 100e-6)
    for name, number in (("_AIR_DENSITY", 1.2), ("_FILLING", 0.75), ("_OPEN", 0.35),
                        ("TOLD_DENSITY", 750.0)):  # fmt: skip
        monkeypatch.setattr(fuelling, name, number)
    row = SimpleNamespace(data={"air_fuel_ratio"}, si=lambda _: 15.0)
    ask = Asked({
        "intake.fuel row": row, "intake.equivalence_ratio": 1.0, "injector.feeds": "each",
        "layout.kind": "single", "use.full_throttle_speeds": [9.0, 140.0 * math.pi],
        "injector.pressure": 3e5, "injector.flow_at": 3e5,
    } | said)  # fmt: skip
    assert fuelling._flow(ask) * 60e6 == pytest.approx(flow)


def test_a_venturi_has_0_72_of_its_throttles_area():
    """√0.72 = 0.848528 of its 10 mm."""
    ask = Asked({"intake.throttle_diameter": 10 * MM})
    for rule in fuelling.RULES:
        if rule.path.endswith("venturi_diameter"):
            assert rule.value(ask) == pytest.approx(8.48528 * MM, rel=1e-6)


def test_a_strong_combustion_presses_by_its_compression():
    """6.5 bar · 8 on π/4 · 20² mm²: 5.2 MPa on 100π, 520π N; a quarter above 400 rad/s is 500."""
    ask = Asked({"cylinder.compression_ratio": 8.0, "cylinder.bore": 20 * MM})
    assert stock.strong_force(ask) == pytest.approx(520.0 * math.pi)
    fast = Asked({"spark.limit_speed": None, "use.full_throttle_speeds": [300.0, 400.0]})
    assert stock.top_speed(fast) == 500.0
    assert stock.top_speed(Asked(fast | {"spark.limit_speed": 450.0})) == 450.0


@pytest.mark.parametrize(
    ("lines", "path", "hand"),
    [
        # A quarter of 40 mm aside, 0.4 where valves stand beside the bore.
        ({}, "plug.offset", 10 * MM),
        ({"valves.placed": "side"}, "plug.offset", 16 * MM),
        # 0.7 of 360 and of 400 rpm.
        ({}, "starter.decompression_until", 252 * RPM),
        ({"use.cranking_speed": "400 rpm"}, "starter.decompression_until", 280 * RPM),
        # A grease's oil, and SAE 30.
        ({}, "case.viscosity_40", 100e-6),
        ({}, "case.viscosity_100", 11e-6),
        ({"case.lubrication": "splash"}, "case.viscosity_40", 93e-6),
        ({"case.lubrication": "splash"}, "case.viscosity_100", 10.8e-6),
        # On a post beside the engine; a pump's stands level with it.
        ({"tank.feed": "gravity"}, "tank.head", 0.15),
        ({"tank.feed": "pump"}, "tank.head", 0.0),
        ({"runner.length": "120 mm"}, "injector.distance", 120 * MM),
        ({}, "flywheel.joint.flats", 6),
        ({"flywheel.joint.kind": "splined"}, "flywheel.joint.flats", 12),
        # Three lengthwise in a plate; one across.
        ({}, "crank.journal.joint.cross_pins", 3),
        ({"crank.journal.joint.pins_run": "across"}, "crank.journal.joint.cross_pins", 1),
    ],
)  # fmt: skip
def test_what_is_taken_where_nothing_was_said(lines, path, hand):
    assert value(lines, path) == pytest.approx(hand, rel=1e-6, abs=1e-12)


# Outlines


def test_an_oblong_with_a_corner_cut_off():
    """1 off the corner at 2, 3."""
    assert pieces.oblong(2, 3, 8, 9, cut=1) == ((2, 4), (3, 3), (8, 3), (8, 9), (2, 9))
    assert pieces.oblong(2, 3, 8, 9) == ((2, 3), (8, 3), (8, 9), (2, 9))


def test_a_circles_corners_lie_on_it():
    """10 across about 3, 4: the first at 8, 4, a quarter on at 3, 9, half way at -2, 4."""
    corners = pieces.circle((3.0, 4.0), 10.0)
    quarter = len(corners) // 4
    assert len(corners) == 4 * quarter == pieces.ROUND
    assert corners[0] == pytest.approx((8.0, 4.0))
    assert corners[quarter] == pytest.approx((3.0, 9.0))
    assert corners[2 * quarter] == pytest.approx((-2.0, 4.0))
    assert corners[3 * quarter] == pytest.approx((3.0, -1.0))


def test_tables_in_tables_are_followed_no_deeper_than_any_section_lies(monkeypatch):
    """Six deep where four are followed: what is in the fourth is handed on as it stands."""
    monkeypatch.setattr(tree, "_DEEPEST", 3)
    monkeypatch.setattr(tree, "leaves", dict)
    monkeypatch.setattr(tree, "sections", lambda: {"a", "a.a", "a.a.a", "a.a.a.a", "a.a.a.a.a"})
    deep = {"a": {"a": {"a": {"a": {"a": {"a": 1}}}}}}
    assert list(tree._values(deep)) == [("a.a.a.a", {"a": {"a": 1}})]
    assert list(tree._values({"a": {"a": 1}})) == [("a.a", 1)]
