"""Gas as the kernel has it, written out in round numbers: its walls, openings, zones and rates."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import nozzle, rates, walls, zones
from firstfire.cycle.layout import (
    AIR,
    ANGLE,
    ANNAND,
    BURNED,
    CYLINDER_SIZE,
    CYLINDER_SUMS,
    FILM,
    FUEL,
    HEAT_CROWN,
    HEAT_HEAD,
    HEAT_LINER,
    HEAT_VALVES,
    HOHENBERG,
    PRESSURE,
    PROGRESS,
    ROTOR,
    SHAFT_SIZE,
    SPEED,
    TEMPERATURE,
    VOLUME_SIZE,
    WITHIN,
    WORK,
    WOSCHNI,
)


def place(row, what):
    return SHAFT_SIZE + row * VOLUME_SIZE + what


# Walls


def test_a_motored_pressure_is_a_polytrope():
    """A quarter of the volume at an exponent of 1.5: 4^1.5 = 8 times as much."""
    cylinder = SimpleNamespace(motored_exponent=1.5)
    event = SimpleNamespace(reference_volume=4e-5, reference_pressure=1e5)
    assert walls.motored_pressure.py_func(cylinder, event, 1e-5) == pytest.approx(8e5)


@pytest.mark.parametrize(
    ("closed", "fired", "c1", "c2", "motored"),
    [
        (0, 0, walls.C1_OPEN, 0.0, 2e5),
        (1, 0, walls.C1_CLOSED, 0.0, 2e5),
        (1, 1, walls.C1_CLOSED, walls.C2_BURNING, 7e5),
    ],
)
def test_woschnis_root_of_a_twentieth(monkeypatch, closed, fired, c1, c2, motored):
    """p w = 2e5 · 1.6e-4 = 32, T = 1024: 32^0.8 = 16 over 1024^0.55 = 2^5.5 = 32 √2.

    4 √2 of that is 2, thrice for doubt 6.
    """
    asked = []
    monkeypatch.setattr(walls, "motored_pressure", lambda one, at, room: one.p * at.fired * room)
    monkeypatch.setattr(walls, "woschni_gas_speed", lambda *all_: asked.append(all_) or 1.6e-4)
    cylinder = SimpleNamespace(
        p=7e10,
        wall_law=WOSCHNI,
        displacement=5e-5,
        woschni_scale=4.0 * math.sqrt(2.0),
        wall_doubt=3.0,
    )
    event = SimpleNamespace(
        closed=closed, fired=fired, reference_temperature=330.0, reference_pressure=1.1e5,
        reference_volume=6e-5,
    )  # fmt: skip
    found = walls.wall_coefficient.py_func(cylinder, event, 1e-5, 2e5, 1024.0, 1e-4, 0.1, 4.0)
    assert found == pytest.approx(6.0)
    assert asked == [pytest.approx((c1, c2, 4.0, 5e-5, 330.0, 1.1e5, 6e-5, 2e5, motored))]


def test_hohenberg_is_asked_for_volume_pressure_temperature_and_speed(monkeypatch):
    """Each in its place: 1 + 20 + 300 + 4000, twice for doubt."""
    law = lambda volume, pressure, warm, speed: (  # noqa: E731
        volume + 10.0 * pressure + 100.0 * warm + 1000.0 * speed
    )
    monkeypatch.setattr(walls, "hohenberg", law)
    cylinder = SimpleNamespace(wall_law=HOHENBERG, wall_doubt=2.0)
    found = walls.wall_coefficient.py_func(cylinder, None, 1.0, 2.0, 3.0, 1e-4, 0.1, 4.0)
    assert found == pytest.approx(2.0 * 4321.0)


def test_a_gas_radiates_to_its_wall(monkeypatch):
    """Twice, for doubt, what the law says of 2000 K and 500 K; nothing before it burns."""
    law = lambda warm, wall, emits: emits * (10.0 * warm + wall)  # noqa: E731
    monkeypatch.setattr(walls, "annand_radiation", law)
    cylinder = SimpleNamespace(wall_law=ANNAND, wall_doubt=2.0)
    flux = walls.radiated_flux.py_func
    event = SimpleNamespace(fired=1)
    assert flux(cylinder, event, 2000.0, 500.0) == pytest.approx(2.0 * 0.075 * 20500.0)
    event.fired = 0
    assert flux(cylinder, event, 2000.0, 500.0) == 0.0


def test_a_liner_is_seen_as_deep_as_its_gas_is():
    """3e-6 m³ over 1e-4 m² are 30 mm, times π · 20 mm."""
    cylinder = SimpleNamespace(bore=0.02, piston_area=1e-4)
    assert walls.exposed_liner.py_func(cylinder, 3e-6) == pytest.approx(math.pi * 6e-4)


# Openings


@pytest.mark.parametrize(
    ("over_gamma", "drop"),
    [(2 / 3, 1 - (4 / 5) ** 3), (0.75, 1105 / 2401), (0.8, 1 - (8 / 9) ** 5)],
)
def test_a_throat_chokes_where_it_is_known_to(over_gamma, drop):
    """1 - (2k/(1 + k))^(1/(1 - k)): k = 3/4 has 1 - (6/7)⁴; within the 2e-5 it is good to."""
    assert nozzle.choking_drop.py_func(over_gamma) == pytest.approx(drop, rel=0, abs=2e-5)


@pytest.mark.parametrize(
    ("drop", "power", "falls"),
    [(0.19, 0.5, 0.1), (0.36, 0.5, 0.2), (0.4375, 0.5, 0.25), (0.3439, 0.25, 0.1),
     (0.3439, 0.75, 0.271), (0.5, 0.5, 1 - math.sqrt(0.5)), (0.51, 0.5, 0.3)],
)  # fmt: skip
def test_a_power_by_its_own_series(drop, power, falls):
    """1 - (1 - drop)^power: √0.81 = 0.9, √0.64 = 0.8, 0.9⁴ = 0.6561 and 0.9³ = 0.729."""
    assert nozzle.fall.py_func(drop, power) == pytest.approx(falls, rel=1e-10)


def test_gas_through_openings(monkeypatch):
    """γ 4/3, R T 8e4: c = 2/(0.25 · 8e4) = 1e-4, q 0.271, √(1e-4 · 0.729 · 0.0729) = 2.3053e-3.

    Through 1 cm² from 1 bar down to 0.6561; the second, choked there, the same from 2 bar through
    half; the first again at half of its band, where 0.5 (15 - 0.5 (10 - 1.5))²/64 = 0.902832 of the
    square is left.
    """
    monkeypatch.setattr(nozzle, "fall", nozzle.fall.py_func)
    monkeypatch.setattr(nozzle, "choking_drop", lambda k: 0.3439 + (k - 0.75))
    lane = SimpleNamespace(
        area=np.array([1e-4, 0.5e-4]), high=np.array([1e5, 2e5]),
        low=np.array([0.6561e5, 0.2e5]), specific=np.full(2, 8e4), over_gamma=np.full(2, 0.75),
        flow=np.zeros(2),
    )  # fmt: skip
    plain = 10.0 * 1e-2 * 0.729 * math.sqrt(0.1)
    assert plain == pytest.approx(2.3053e-2, rel=1e-5)
    nozzle.flow_openings.py_func(lane, 2, 0.01)
    assert lane.flow == pytest.approx([plain, plain], rel=1e-9)
    nozzle.flow_openings.py_func(lane, 1, 0.6878)
    assert lane.flow[0] == pytest.approx(plain * math.sqrt(115.5625 / 128.0), rel=1e-9)


# Zones


@pytest.mark.parametrize(
    ("warm", "ratio"), [(1800.0, 1.2), (2000.0, 1.2283125), (2600.0, 1.2505), (3000.0, 1.2505)]
)
def test_outrushing_gas_freezes_over_200_kelvin(warm, ratio):
    """From 1900 K on. At 2000 half of it: 1.2505 + 0.0245/4 = 1.256625 and 1.2, in the mean."""
    assert zones.opening_gamma.py_func(warm, 1900.0, 1.2) == pytest.approx(ratio)


SPECIES = (10.0, 1000.0, 20.0, 2000.0, 30.0, 1500.0, 0.5, 400.0, 0.2, -1e-3)
"""Enthalpy and slope of air, fuel and burned gas, its slope by pressure, its R and its slopes."""


def filled(monkeypatch, frozen_from):
    asked = []
    monkeypatch.setattr(zones, "species_state", lambda *all_: asked.append(all_) or SPECIES)
    gas = SimpleNamespace(gas_constant_air=300.0, gas_constant_fuel=100.0, frozen_from=frozen_from)
    here = SimpleNamespace(mass_at=1, temperature_at=0)
    values = np.array([1000.0, 0.6e-3, 0.1e-3, 0.3e-3])
    zones.fill_zone.py_func(SimpleNamespace(zone=[None, here]), gas, values, 1, 2e5)
    assert asked == [(gas, 1000.0, 2e5, True)]
    return here


def test_a_zone_of_a_gram(monkeypatch):
    """0.6 g air, 0.1 g fuel, 0.3 g burned at 1000 K and 2 bar.

    R = 0.6 · 300 + 0.1 · 100 + 0.3 · 400 = 310; h = 6 + 2 + 9; cp = 600 + 200 + 450 = 1250, so
    1/γ = 1 - 310/1250. V = 1e-3 · 310 · 1000/2e5; what warms by a pascal is
    (V - 1e-3 · 0.3 · 0.5) · 0.8 = 1.12e-3 K. ∂(m R T)/∂T = 1e-3 (310 + 1000 · 0.3 · 0.2), by p
    1e-3 · 1000 · 0.3 · -1e-3; stiff by 0.37 · 1.12e-3 - 3e-4.
    """
    here = filled(monkeypatch, 1300.0)
    expected = {
        "mass": 1e-3, "air": 0.6, "fuel": 0.1, "burned": 0.3, "temperature": 1000.0,
        "specific": 310e3, "constant": 0.31, "enthalpy": 17.0, "air_enthalpy": 10.0,
        "fuel_enthalpy": 20.0, "burned_enthalpy": 30.0, "burned_constant": 400.0,
        "over_gamma": 0.752, "capacity": 1.25, "over_capacity": 0.8, "volume": 1.55e-3,
        "warming": 1.12e-3, "by_temperature": 0.37, "by_pressure": -3e-4,
        "stiffness": 1.144e-4, "heating": 0.0,
    }  # fmt: skip
    for name, value in expected.items():
        assert getattr(here, name) == pytest.approx(value, rel=1e-12), name


def test_a_hot_zone_rushes_out_frozen(monkeypatch):
    """Asked at 1000 K, frozen from 900, with γ 1/0.752: 1.25, one over which is 0.8."""
    asked = []
    monkeypatch.setattr(zones, "opening_gamma", lambda *all_: asked.append(all_) or 1.25)
    assert filled(monkeypatch, 900.0).over_gamma == pytest.approx(0.8)
    assert asked == [pytest.approx((1000.0, 900.0, 1 / 0.752))]


def test_what_goes_out_of_two_zones_is_mixed_by_mass():
    """3 g and 1 g: three quarters of one, a quarter of the other; it rushes out as the hot."""
    names = ("air", "fuel", "burned", "enthalpy", "specific")
    cold = SimpleNamespace(**dict.fromkeys(names, 4.0), mass=3e-3, over_gamma=0.7)
    hot = SimpleNamespace(**dict.fromkeys(names, 12.0), mass=1e-3, over_gamma=0.8)
    work = SimpleNamespace(zone=[cold, hot], stream=[SimpleNamespace()])
    zones.begin_stream.py_func(work, 0, 1, True)
    stream = work.stream[0]
    assert [getattr(stream, name) for name in names] == pytest.approx([6.0] * 5)
    assert (stream.over_gamma, stream.out, stream.in_enthalpy) == (0.8, 0.0, 0.0)
    zones.begin_stream.py_func(work, 0, 1, False)
    assert [getattr(stream, name) for name in names] == [4.0] * 5
    assert stream.over_gamma == 0.7


def test_what_burned_gas_is_like_is_looked_up_once(monkeypatch):
    asked = []
    monkeypatch.setattr(zones, "species_state", lambda *all_: asked.append(all_) or SPECIES)
    here = SimpleNamespace(burned_constant=0.0, temperature=700.0)
    work, gas = SimpleNamespace(zone=[here]), object()
    for _ in range(2):
        zones.know_burned.py_func(work, gas, 0, 3e5)
    assert asked == [(gas, 700.0, 3e5, True)]
    assert (here.burned_enthalpy, here.burned_constant) == (30.0, 400.0)


def test_what_comes_in_warms_and_swells():
    """1, 2 and 3 kg/s at 10, 20 and 30 J/kg would bring 140 W of their own: of 200, 60 are left.

    They swell by (300 + 200 + 1200) · 1000 K.
    """
    here = SimpleNamespace(
        air_enthalpy=10.0, fuel_enthalpy=20.0, burned_enthalpy=30.0, over_capacity=0.5,
        burned_constant=400.0, temperature=1000.0,
    )  # fmt: skip
    gas = SimpleNamespace(gas_constant_air=300.0, gas_constant_fuel=100.0)
    assert zones.heating_of.py_func(here, 1.0, 2.0, 3.0, 200.0) == pytest.approx(30.0)
    assert zones.swelling_of.py_func(here, gas, 1.0, 2.0, 3.0) == pytest.approx(1.7e6)


# Rates


def test_zones_are_put_back_onto_their_gas_law(monkeypatch):
    """2 g at 1e5 J/kg and 1 g of a burned zone at 4e5 are 600 J: 6 bar in a litre.

    The vessel, of 3 g at 2e5 in 2 litres, has 3 bar.
    """
    asked, begun = [], []
    monkeypatch.setattr(rates, "fill_zone", lambda *all_: asked.append(all_))
    monkeypatch.setattr(rates, "begin_stream", lambda *all_: begun.append(all_[1:]))
    room = {1: (2e-3, 1e5), 2: (3e-3, 2e5), 4: (1e-3, 4e5)}
    work = SimpleNamespace(
        zone={row: SimpleNamespace(mass=m, specific=s) for row, (m, s) in room.items()},
        volume=[None, 1e-3, 2e-3],
    )
    engine = SimpleNamespace(
        gas="gas", volume_count=3, moving_count=2, moving_volumes=[1, 2], cylinder_count=2
    )
    values = np.zeros(place(3, 0))
    values[place(1, PRESSURE)], values[place(2, PRESSURE)] = 5e5, 2e5
    events = [None, SimpleNamespace(burning=1)]
    rates.fill_zones.py_func(engine, events, work, values, False)
    assert values[place(1, PRESSURE)] == 5e5
    rates.fill_zones.py_func(engine, events, work, values, True)
    assert values[place(1, PRESSURE)] == pytest.approx(6e5)
    assert values[place(2, PRESSURE)] == pytest.approx(3e5)
    assert [one[:2] for one in asked[:3]] == [(work, "gas")] * 3
    assert [one[3:] for one in asked[:3]] == [(1, 5e5), (4, 5e5), (2, 2e5)]
    assert begun[:2] == [(1, 4, True), (2, 5, False)]


AREAS = {
    "crown_area": 1e-3, "head_area": 2e-3, "valves_area": 3e-3, "crown_temperature": 500.0,
    "head_temperature": 450.0, "valves_temperature": 600.0, "liner_temperature": 400.0,
}  # fmt: skip


def warmed(monkeypatch, burning):
    monkeypatch.setattr(rates, "driven_through", rates.driven_through.py_func)
    monkeypatch.setattr(rates, "wall_flux", rates.wall_flux.py_func)
    radiated = lambda one, _, warm, wall: one.stroke * 250.0 * (warm - wall)  # noqa: E731
    monkeypatch.setattr(rates, "radiated_flux", radiated)
    monkeypatch.setattr(rates, "exposed_liner", lambda one, volume: 100.0 * one.stroke * volume)
    asked = []
    monkeypatch.setattr(rates, "wall_coefficient", lambda *all_: asked.append(all_) or 90.0)
    cylinder = SimpleNamespace(**AREAS, stroke=0.04)
    here = SimpleNamespace(
        mass=1e-3, temperature=800.0, capacity=1.0, volume=0.25e-3, constant=0.3, heating=0.0
    )
    hot = SimpleNamespace(mass=2e-3, capacity=3.0, volume=0.75e-3, constant=0.2, heating=0.0)
    work = SimpleNamespace(
        zone=[here, None, hot], volume=[1e-3], growth=[2e-3],
        cylinder_sums=np.zeros((1, CYLINDER_SUMS)),
    )  # fmt: skip
    values = np.zeros(SHAFT_SIZE + 2 * VOLUME_SIZE)
    values[SPEED], values[SHAFT_SIZE + PRESSURE] = -50.0 * math.pi, 5e5
    engine = SimpleNamespace(cylinders=[cylinder], volume_count=2)
    event = SimpleNamespace(burning=burning)
    rates.heat_of_cylinder.py_func(engine, event, work, values, 0, 0.5)
    assert asked[0][:2] == (cylinder, event)
    return asked[0][2:], work.cylinder_sums[0], here.heating, hot.heating


def test_heat_of_one_zone(monkeypatch):
    """90 and 10 W/m²K, 800 K: 1e-3 · 300 is 30 W, 2e-3 · 350 70 W, 3e-3 · 200 60 W, 4e-3 · 400
    160 W, booked by half; 5 bar · 2e-3 m³/s is 1 kW. 40 mm at 50 π rad/s are 2 m/s."""
    asked, sums, heating, _ = warmed(monkeypatch, 0)
    assert asked == pytest.approx((1e-3, 5e5, 800.0, 1e-3, 1.0, 2.0))
    found = [sums[at] for at in (WORK, HEAT_CROWN, HEAT_HEAD, HEAT_VALVES, HEAT_LINER)]
    assert found == pytest.approx([500.0, 15.0, 35.0, 30.0, 80.0])
    assert heating == pytest.approx(-320.0)


def test_heat_of_two_zones(monkeypatch):
    """5e5 · 1e-3/(0.3 + 0.2) = 1000 K in the mean: 50, 110, 120 and 240 W, 520 in all.

    A quarter of the room is unburned: 0.25 · 90 · (0.3 + 0.7 + 0.6 + 1.6) = 72 W are its own.
    """
    asked, sums, heating, hot = warmed(monkeypatch, 1)
    assert asked == pytest.approx((1e-3, 5e5, 1000.0, 3e-3, 4.0, 2.0))
    found = [sums[at] for at in (HEAT_CROWN, HEAT_HEAD, HEAT_VALVES, HEAT_LINER)]
    assert found == pytest.approx([25.0, 55.0, 60.0, 120.0])
    assert (heating, hot) == pytest.approx((-72.0, -448.0))


def test_a_vessels_wall_takes_its_heat():
    """50 W/m²K on 0.02 m², 100 K: 100 W."""
    vessel = SimpleNamespace(wall_coefficient=50.0, wall_area=0.02, wall_temperature=400.0)
    here = SimpleNamespace(temperature=500.0, heating=7.0)
    work = SimpleNamespace(zone=[here], volume_sums=[1.0])
    rates.heat_of_vessel.py_func(SimpleNamespace(volumes=[vessel]), work, 0, 0.5)
    assert work.volume_sums == pytest.approx([51.0])
    assert here.heating == pytest.approx(-93.0)


def test_what_feeds_a_zone(monkeypatch):
    """1, 2 and 3 kg/s come, 2 go of which are 0.5, 0.2 and 0.3: 0, 1.6 and 2.4 are left.

    30 K/s and 8 W · 0.25 K/J warm it by 32 K/s; it swells by 1000 - 2 · 100 W and 5 · 32.
    """
    here = SimpleNamespace(
        mass_at=1, air=0.5, fuel=0.2, burned=0.3, heating=8.0, over_capacity=0.25, specific=100.0,
        by_temperature=5.0,
    )  # fmt: skip
    given = []
    monkeypatch.setattr(rates, "heating_of", lambda *all_: given.append(all_) or 30.0)
    monkeypatch.setattr(rates, "swelling_of", lambda *all_: given.append(all_) or 1000.0)
    found, gas = np.zeros(4), object()
    driving = rates.feed.py_func(
        SimpleNamespace(zone=[here]), gas, found, 0, 1.0, 2.0, 3.0, 200.0, 2.0
    )
    assert found == pytest.approx([0.0, 0.0, 1.6, 2.4])
    assert driving == pytest.approx((960.0, 32.0))
    assert given == [(here, 1.0, 2.0, 3.0, 200.0), (here, gas, 1.0, 2.0, 3.0)]


def test_a_volume_settles(monkeypatch):
    """A litre less 0.2 is free; 1000 W less 2 bar · 1e-3 m³/s = 200 give 1e6 Pa/s.

    A pascal warms by 1e-5 K: 10 K/s, and 30 by what comes in.
    """
    given, known = [], []
    monkeypatch.setattr(rates, "feed", lambda *all_: given.append(all_) or (1000.0, 30.0))
    monkeypatch.setattr(rates, "know_burned", lambda *all_: known.append(all_))
    stream = SimpleNamespace(in_air=1.0, in_fuel=2.0, in_burned=3.0, in_enthalpy=4.0, out=5.0)
    here = SimpleNamespace(stiffness=0.2e-3, warming=1e-5, temperature_at=place(1, TEMPERATURE))
    work = SimpleNamespace(
        stream=[None, stream], zone=[None, here], volume=[None, 1e-3], growth=[None, 1e-3]
    )
    at = place(2, 0)
    engine = SimpleNamespace(gas="gas", cylinder_count=2, cylinders_at=at)
    size = at + 2 * CYLINDER_SIZE
    values, found = np.zeros(size), np.full(size, 9.0)
    values[place(1, PRESSURE)] = 2e5
    rates.settle.py_func(engine, work, values, found, 1)
    assert given[0][:2] == (work, "gas")
    assert given[0][3:] == (1, 1.0, 2.0, 3.0, 4.0, 5.0)
    assert known == [(work, "gas", 1, 2e5)]
    assert stream.free == pytest.approx(0.8e-3)
    assert found[place(1, PRESSURE)] == pytest.approx(1e6)
    assert found[place(1, TEMPERATURE)] == pytest.approx(40.0)
    assert found[place(1, FILM)] == 0.0
    assert not found[at + CYLINDER_SIZE :].any()
    assert list(found[at : at + CYLINDER_SIZE]) == [9.0] * CYLINDER_SIZE


@pytest.mark.parametrize("flame", [0, 1])
def test_a_burning_cylinder_settles(monkeypatch, flame):
    """1 and 3 g: a quarter and three quarters of what comes and goes, and 2 kg/s that burn.

    2 · (0.5, 0.3, 0.2) go into the flame and (0.1, 0.2, 1.7) come out. 1000 + 600 W less
    2 bar · 3e-3 give 1000 W over 1 less 0.2 and 0.3 litres: 2e6 Pa/s, 20 and 40 K/s by pressure.
    """
    given = []

    def feed(at, gas, found, zone, *rest):
        assert (at, gas) == (work, "gas")
        given.append((zone, *rest))
        return {1: (1000.0, 30.0), 3: (600.0, 70.0)}[zone]

    monkeypatch.setattr(rates, "feed", feed)
    known = []
    monkeypatch.setattr(rates, "know_burned", lambda *all_: known.append(all_))
    # By law 2 kg/s at a progress of 0.4, or with 5e-6 kg within the front, which grow by 0.7.
    by_law = lambda *given: asked.append(given[:4]) or 5.0 * given[4]  # noqa: E731
    travels = lambda *given: asked.append(given[:4]) or (4e5 * given[4], 0.7)  # noqa: E731
    asked = []
    monkeypatch.setattr(rates, "burned_by_law", by_law)
    monkeypatch.setattr(rates, "travel", travels)
    burned = []

    def streams(gas, *into):
        burned.append(into)
        return 0.1, 0.2, 1.7

    monkeypatch.setattr(rates, "burn_streams", streams)
    monkeypatch.setattr(
        rates, "given_heat", lambda one, y, rate: one.burn_heat * (100.0 * y + rate)
    )
    stream = SimpleNamespace(in_air=4.0, in_fuel=8.0, in_burned=12.0, in_enthalpy=16.0, out=20.0)
    here = SimpleNamespace(
        mass=3e-3, air=0.5, fuel=0.3, burned=0.2, enthalpy=50.0, stiffness=0.2e-3, warming=1e-5,
        temperature_at=place(1, TEMPERATURE),
    )  # fmt: skip
    at = place(2, 0) + CYLINDER_SIZE
    hot = SimpleNamespace(
        mass=1e-3, stiffness=0.3e-3, warming=2e-5, heating=-60.0, temperature_at=at
    )
    work = SimpleNamespace(
        stream=[None, stream], zone=[None, here, None, hot], volume=[None, 1e-3],
        growth=[None, 3e-3],
    )  # fmt: skip
    engine = SimpleNamespace(
        gas="gas",
        volume_count=2,
        cylinders_at=place(2, 0),
        cylinders=[None, SimpleNamespace(burn_heat=1.0)],
    )
    values, found = np.zeros(at + CYLINDER_SIZE), np.full(at + CYLINDER_SIZE, 9.0)
    values[place(1, PRESSURE)] = 2e5
    values[at + PROGRESS], values[at + WITHIN] = 0.4, 5e-6
    event = SimpleNamespace(flame=flame, rate=11.0)
    rates.settle_burning.py_func(engine, event, work, values, found, 1)
    assert len(asked) == 1
    assert all(a is b for a, b in zip(asked[0], (engine, work, event, 1), strict=True))
    assert burned == [pytest.approx((1.0, 0.6, 0.4))]
    assert given[0] == pytest.approx((1, 3.0, 6.0, 9.0, 12.0, 17.0))
    assert given[1] == pytest.approx((3, 1.1, 2.2, 4.7, 104.0, 5.0))
    assert known == [(work, "gas", 1, 2e5)]
    assert hot.heating == pytest.approx(-9.0)
    assert found[place(1, PRESSURE)] == pytest.approx(2e6)
    assert found[place(1, TEMPERATURE)] == pytest.approx(50.0)
    assert found[at] == pytest.approx(110.0)
    assert (stream.free, found[place(1, FILM)]) == (0.0, 0.0)
    assert (found[at + WITHIN], found[at + PROGRESS]) == ((0.7, 0.0) if flame else (0.0, 11.0))


def test_a_vented_cylinder_takes_in_what_its_piston_leaves():
    """1 bar · 2e-3 m³/s over 8e4 J/kg are 2.5 g/s."""
    here = SimpleNamespace(specific=8e4, air=0.5, fuel=0.2, burned=0.3)
    work = SimpleNamespace(zone=[None, here], stream=[None, SimpleNamespace()], growth=[None, 2e-3])
    values, found = np.zeros(place(2, 0)), np.full(place(2, 0), 9.0)
    values[place(1, PRESSURE)] = 1e5
    rates.stay_vented.py_func(work, values, found, 1)
    kinds = [found[place(1, kind)] for kind in (AIR, FUEL, BURNED)]
    assert kinds == pytest.approx([1.25e-3, 0.5e-3, 0.75e-3])
    still = [found[place(1, kind)] for kind in (PRESSURE, TEMPERATURE, FILM)]
    assert still == [0.0, 0.0, 0.0]


@pytest.mark.parametrize("free", [0, 1])
def test_each_part_is_asked_for_its_rates(monkeypatch, free):
    """A burning cylinder, a vented one and a case; a shaft that is held, or free."""
    asked = []

    def note(name, answer=None):
        def part(*given):
            asked.append((name, *given))
            return answer

        monkeypatch.setattr(rates, name, part)

    for name in (
        "volumes_now", "fill_zones", "flow_ways", "suction_rates", "heat_of_cylinder",
        "heat_of_vessel", "settle", "settle_burning", "stay_vented",
    ):  # fmt: skip
        note(name)
    note("shaft_acceleration", (5.0, 6.0))
    cylinders = [SimpleNamespace(vented=-1), SimpleNamespace(vented=0)]
    engine = SimpleNamespace(
        suction_count=1, shaft=SimpleNamespace(free=free), moving_count=3,
        moving_volumes=[0, 1, 2], cylinder_count=2, cylinders=cylinders,
        step=SimpleNamespace(angular_acceleration=7.0),
    )  # fmt: skip
    events = [SimpleNamespace(burning=1, closed=1), SimpleNamespace(burning=0, closed=0)]
    trial, found = np.zeros(SHAFT_SIZE), np.zeros(SHAFT_SIZE)
    trial[ANGLE], trial[SPEED] = 0.3, 40.0
    work = SimpleNamespace(trial=trial, stage=[found], turn=1.0)
    rates.rates_of.py_func(engine, events, work, 0, 0.5)
    first, second = events
    expected = [
        ("volumes_now", engine, work, 0.3, 40.0),
        ("fill_zones", engine, events, work, trial, True),
        ("flow_ways", engine, work, trial, 0.5),
        ("suction_rates", engine, trial, found),
        ("shaft_acceleration", engine, work, trial, 40.0),
        ("heat_of_cylinder", engine, first, work, trial, 0, 0.5),
        ("settle_burning", engine, first, work, trial, found, 0),
        ("heat_of_cylinder", engine, second, work, trial, 1, 0.5),
        ("stay_vented", work, trial, found, 1),
        ("heat_of_vessel", engine, work, 2, 0.5),
        ("settle", engine, work, trial, found, 2),
    ]
    if not free:
        del expected[4]
    assert len(asked) == len(expected)
    for one, other in zip(asked, expected, strict=True):
        assert len(one) == len(other)
        assert all(a is b or a == b for a, b in zip(one, other, strict=True)), one[0]
    assert found[ANGLE] == 40.0
    assert (found[SPEED], found[ROTOR]) == ((5.0, 6.0) if free else (7.0, 0.0))
