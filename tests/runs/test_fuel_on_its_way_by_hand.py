"""The fuel's way place by place, with laws that answer in round numbers and say what they got."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest
from tests.runs.stand_ins import told

from firstfire.errors import OutsideValidity
from firstfire.formulas import gas_transport, priming, wall_film
from firstfire.formulas.carburettor import Air, Carburettor, Jet
from firstfire.runs import fuel_outlook, fuel_path, fuelled
from firstfire.runs.fuel_path import Charge, FuelPath
from firstfire.runs.fuelled import FuelState

PATH = FuelPath("injector", 16e-3, 40e-3, 40e-3, 36e-3, 3.0)
DENSE_2 = 2.0 * 287.04 * 300.0
"""Pressure at which air of 300 K weighs 2 kg/m³, Pa."""
WET = math.pi * 16e-3 * 40e-3
"""The wall of a port of 16 by 40 mm, m²."""
CHARGE = Charge(math.pi * 16e-3**2 * 40e-3, 310.0, 300.0, DENSE_2, 0.1)
"""Twice the port's room, π/4 d² L, times 2 kg/m³, in a cycle of 0.1 s."""
FLOW = math.pi * 16e-3**2 * 40e-3 / 2.0 / 0.027
"""Its volume in 0.27 of the 0.1 s, m³/s."""


def test_a_charge_of_two_kilograms_a_cubic_metre_flows_in_during_0_27_of_a_cycle():
    """54 g at 2 kg/m³ are 0.027 m³; 0.27 · 0.1 s are 0.027 s: 1 m³/s."""
    charge = CHARGE._replace(air=54e-3)
    assert charge.density == pytest.approx(2.0)
    assert charge.flow == pytest.approx(1.0)


def test_of_a_fuel_so_much_is_shared_as_its_parts_are():
    """6 kg of 1 to 2: 2 and 4."""
    assert fuel_path.of({"a": 1.0, "b": 2.0}, 6.0) == pytest.approx({"a": 2.0, "b": 4.0})


def test_blends_are_added_taken_away_and_shared_by_name():
    one, other = {"a": 3.0, "b": 2.0}, {"b": 1.0, "c": 5.0}
    assert fuel_path.added(one, other) == {"a": 3.0, "b": 3.0, "c": 5.0}
    assert fuel_path.less(one, other) == {"a": 3.0, "b": 1.0}
    assert fuel_path.less({"a": 1.0}, {"a": 2.0}) == {"a": 0.0}
    assert fuel_path.times(one, 0.5) == {"a": 1.5, "b": 1.0}


def test_air_meets_a_film_flowing_by_and_standing_over_it(monkeypatch):
    """Half of the wall is wet 20 µm thick, and half of the charge stands in the port.

    Half of it comes near as it flows; of the rest 0.5 · 0.5 · 0.4 = 0.1 had stood near:
    1 - 0.5 · 0.9 = 0.55. It stands for 0.73 · 0.1 s, and 4e-5 Pa s over 2 kg/m³ are 2e-5 m²/s.
    """
    monkeypatch.setattr(fuel_path, "volume", lambda _: 20e-6 * WET / 2.0)
    over = told(monkeypatch, fuel_path, "surface", SimpleNamespace(diffusivity=3e-5))
    thick = told(monkeypatch, gas_transport, "viscosity", 4e-5)
    flowing = told(monkeypatch, wall_film, "flowing_contact", 0.5)
    standing = told(monkeypatch, wall_film, "standing_contact", 0.4)
    film = {"a": 1.0}
    assert fuel_path.port_contact(film, PATH, CHARGE) == pytest.approx(0.55, rel=1e-9)
    assert over == [(film, 310.0, DENSE_2)]
    assert thick == [(300.0,)]
    assert flowing == [pytest.approx((16e-3, 20e-3, FLOW, 3e-5, 2e-5), rel=1e-9)]
    assert standing == [pytest.approx((16e-3, 3e-5, 0.073), rel=1e-9)]


def test_a_port_that_holds_more_than_a_charge_is_wet_all_over_and_all_of_it_stands(monkeypatch):
    """An eighth of the charge, in a port of four times it: 1 - 0.5 · (1 - 0.4) = 0.7."""
    monkeypatch.setattr(fuel_path, "volume", lambda _: 1.0)
    monkeypatch.setattr(fuel_path, "surface", lambda *_: SimpleNamespace(diffusivity=3e-5))
    flowing = told(monkeypatch, wall_film, "flowing_contact", 0.5)
    monkeypatch.setattr(wall_film, "standing_contact", lambda *_: 0.4)
    small = CHARGE._replace(air=CHARGE.air / 8.0)
    assert fuel_path.port_contact({"a": 1.0}, PATH, small) == pytest.approx(0.7, rel=1e-9)
    assert flowing[0][1] == pytest.approx(40e-3)


def test_vapour_from_a_port_is_in_equilibrium_with_the_air_that_came_near(monkeypatch):
    """A quarter of the charge, at the wall's temperature."""
    near = told(monkeypatch, fuel_path, "port_contact", 0.25)
    off = told(monkeypatch, fuel_path, "given_off", {"a": 1.0})
    film = {"a": 4.0}
    assert fuel_path.from_port(film, PATH, CHARGE) == ({"a": 3.0}, {"a": 1.0})
    assert near == [(film, PATH, CHARGE)]
    assert off == [(film, pytest.approx(CHARGE.air / 4.0), 310.0, DENSE_2)]


@pytest.mark.parametrize(("times", "thick"), [(2.0, 40e-6), (0.5, 20e-6)])
def test_air_drags_a_quarter_of_a_film_on(monkeypatch, times, thick):
    """Spread over the wall, but no thinner than 20 µm; while the air flows, 0.027 s."""
    monkeypatch.setattr(fuel_path, "volume", lambda _: times * 20e-6 * WET)
    dragged = told(monkeypatch, wall_film, "dragged", 0.25)
    stays, crept = fuel_path.creeping({"a": 4.0, "b": 2.0}, PATH, CHARGE)
    assert stays == {"a": 3.0, "b": 1.5}
    assert crept == {"a": 1.0, "b": 0.5}
    assert dragged == [pytest.approx((thick, 40e-3, FLOW, 16e-3, 2.0, 0.6e-3, 0.027), rel=1e-9)]


def test_torn_droplets_lag_by_a_fifth_of_the_air_in_the_port(monkeypatch):
    """108 g, 2 m³/s, through 20 mm²: 100,000 m/s, of 2 kg in 2.5 litres, 800 kg/m³."""
    monkeypatch.setattr(fuel_path, "volume", lambda _: 2.5e-3)
    torn = told(monkeypatch, fuel_path, "torn_by_air", 50e-6)
    path = FuelPath("carburettor", 16e-3, 40e-3, 40e-3, 36e-3, 3.0, narrowest=20e-6)
    charge = CHARGE._replace(air=108e-3)
    size, slip = fuel_path._sizes(path, {"a": 2.0}, charge)
    assert size == 50e-6
    assert slip == pytest.approx(0.4 / (math.pi * 8e-3**2), rel=1e-9)
    assert torn == [pytest.approx((100e3, 22e-3, 800.0, 0.6e-3), rel=1e-9)]


def in_two_steps(monkeypatch, share):
    """Droplets of 80 µm that lose a share, then half of the rest; what the laws are asked."""
    monkeypatch.setattr(fuel_path, "volume", lambda blend: sum(blend.values()))
    sizes = told(monkeypatch, fuel_path, "_sizes", (80e-6, 5.0))
    way = told(monkeypatch, fuel_path, "_way", [(300.0, 1e5, 0.1, 5.0), (400.0, 2e5, 0.2, 0.0)])
    wet = SimpleNamespace(constant=3e-9, temperature=280.0)
    found = told(monkeypatch, fuel_path, "steady", wet)
    blown = told(monkeypatch, fuel_path, "_blown", 2.0)
    shares = iter([share, 0.5])
    gone = told(monkeypatch, fuel_path, "share_evaporated", lambda *_: next(shares))
    vapour = told(monkeypatch, fuel_path, "_vapour_of", lambda _, room, __: {"a": room})
    return SimpleNamespace(
        sizes=sizes, way=way, found=found, blown=blown, gone=gone, vapour=vapour, wet=wet
    )


def test_a_droplet_that_lost_seven_eighths_is_half_as_wide(monkeypatch):
    """Of 8 mm³ 7 go, then half of 1; blown on twice as fast as 3e-9 m²/s."""
    asked = in_two_steps(monkeypatch, 7.0 / 8.0)
    left, off = fuel_path.in_flight({"a": 8e-9}, PATH, CHARGE)
    assert left == pytest.approx({"a": 0.5e-9}, rel=1e-9)
    assert off == pytest.approx({"a": 7.5e-9}, rel=1e-9)
    assert asked.sizes == [(PATH, {"a": 8e-9}, CHARGE)]
    assert asked.way == [(PATH, CHARGE, 5.0)]
    assert [given[1:] for given in asked.found] == [(300.0, 1e5), (400.0, 2e5)]
    assert [(given[0], given[1], given[3]) for given in asked.blown] == [
        (asked.wet, 5.0, CHARGE),
        (asked.wet, 0.0, CHARGE),
    ]
    assert asked.blown[1][2] == pytest.approx(40e-6, rel=1e-9)
    assert asked.gone[0] == pytest.approx((80e-6, 6e-9, 0.1), rel=1e-9)
    assert asked.gone[1] == pytest.approx((40e-6, 6e-9, 0.2), rel=1e-9)
    assert [given[1:] for given in asked.vapour] == [
        pytest.approx((7e-9, 280.0), rel=1e-9),
        pytest.approx((0.5e-9, 280.0), rel=1e-9),
    ]


@pytest.mark.parametrize(("share_left", "steps"), [(0.5e-6, 1), (1.5e-6, 2)])
def test_under_a_millionth_a_droplet_is_gone(monkeypatch, share_left, steps):
    """Whatever is left of it then is vapour: half of a millionth, but not one and a half."""
    asked = in_two_steps(monkeypatch, 1.0 - share_left)
    left, off = fuel_path.in_flight({"a": 8e-9}, PATH, CHARGE)
    assert len(asked.gone) == steps
    assert sum(left.values()) + off["a"] == pytest.approx(8e-9, rel=1e-12)
    assert (left == {}) is (steps == 1)


@pytest.mark.parametrize(("past", "met"), [(10.0, 10.0), (100.0, 38.0)])
def test_air_past_a_droplet_counts_up_to_reynolds_190(monkeypatch, past, met):
    """190 · 4e-5 Pa s over 2 kg/m³ of 100 µm: 38 m/s."""
    thick = told(monkeypatch, gas_transport, "viscosity", 4e-5)
    faster = told(monkeypatch, fuel_path, "ventilation", 3.0)
    found = SimpleNamespace(schmidt=1.5)
    assert fuel_path._blown(found, past, 100e-6, CHARGE) == 3.0
    assert thick == [(300.0,)]
    assert faster == [pytest.approx((met, 100e-6, 300.0, DENSE_2, 1.5), rel=1e-9)]
    assert fuel_path._blown(found, 0.0, 100e-6, CHARGE) == 1.0


def test_a_liquid_goes_as_the_vapour_over_it_and_no_more_than_is_there(monkeypatch):
    """2 and 1 Pa of 50 and 200 g/mol are as 1 to 2 by mass.

    0.3 kg at 1000 kg/m³ are 0.3 litres: of 0.15 litres half of that, 0.05 and 0.1 kg.
    """
    over = told(monkeypatch, fuel_path, "partial_pressures", {"a": 2.0, "b": 1.0})
    kinds = {"a": SimpleNamespace(molar_mass=0.05), "b": SimpleNamespace(molar_mass=0.2)}
    monkeypatch.setattr(fuel_path, "LIQUIDS", kinds)
    monkeypatch.setattr(fuel_path, "volume", lambda blend: sum(blend.values()) / 1000.0)
    left = {"a": 1.0, "b": 1.0}
    going = fuel_path._vapour_of(left, 0.15e-3, 280.0)
    assert going == pytest.approx({"a": 0.05, "b": 0.1}, rel=1e-9)
    assert over == [(left, 280.0)]
    little = {"a": 1.0, "b": 0.03}
    assert fuel_path._vapour_of(little, 0.15e-3, 280.0) == pytest.approx({"a": 0.05, "b": 0.03})


def test_on_the_way_air_is_drawn_for_a_quarter_and_squeezed_for_a_quarter_of_a_cycle():
    """Squeezed to a third: at 30, 90 and 150° the room over the stroke is ½ + ½ (1 + cos), and
    3/2 over that the ratio, 1.0467, 1.5 and 2.6456; p goes by its power 1.33, T by 0.33.

    Each in three steps: 0.12 s are six of 10 ms.
    """
    charge = CHARGE._replace(seconds=0.12)
    found = fuel_path._way(PATH, charge, 5.0)
    assert found[:3] == [pytest.approx((300.0, DENSE_2, 0.01, 5.0), rel=1e-9)] * 3
    half = math.sqrt(3.0) / 4.0
    ratios = [1.5 / (1.0 + half), 1.5, 1.5 / (1.0 - half)]
    assert ratios == pytest.approx([1.0467, 1.5, 2.6456], abs=1e-4)
    assert found[3:] == [
        pytest.approx((300.0 * r**0.33, DENSE_2 * r**1.33, 0.01, 0.0), rel=1e-9) for r in ratios
    ]


def test_vapour_over_what_the_charge_holds_falls_out_again(monkeypatch):
    """Of all that is there, by the whole charge at the air's temperature."""
    most = told(monkeypatch, fuel_path, "given_off", {"a": 1.0, "b": 9.0})
    there = {"a": 5.0, "b": 5.0}
    kept, back = fuel_path.held({"a": 3.0, "b": 2.0}, there, CHARGE)
    assert kept == {"a": 1.0, "b": 2.0}
    assert back == {"a": 2.0, "b": 0.0}
    assert most == [(there, CHARGE.air, 300.0, DENSE_2)]


# A cycle of it


def test_a_cycles_books_by_hand(monkeypatch):
    """Metered 10, of which 0.3 fly; on the wall lay 4 and inside 2.

    The port gives 1 of 11 off, and 2 creep: 8 stay. Of 3 that fly 1 goes; of 2 + 2 + 2 inside
    1 goes. Of 3 of vapour 0.5 falls out, and of 5.5 inside a tenth is lost.
    """
    port = told(monkeypatch, fuelled, "from_port", ({"a": 10.0}, {"a": 1.0}))
    creep = told(monkeypatch, fuelled, "creeping", ({"a": 8.0}, {"a": 2.0}))
    flight = told(monkeypatch, fuelled, "in_flight", ({"a": 2.0}, {"a": 1.0}))
    inside = told(monkeypatch, fuelled, "from_cylinder", ({"a": 5.0}, {"a": 1.0}))
    fell = told(monkeypatch, fuelled, "held", ({"a": 2.5}, {"a": 0.5}))
    before = FuelState({"a": 4.0}, {"a": 2.0}, {}, 100.0, 50.0, 20.0)
    found = fuelled.next_cycle(
        before, PATH, fuel={"a": 1.0}, air_mass=0.5, port_temperature=310.0,
        air_temperature=300.0, air_pressure=1e5, metered_mass=10.0, cycle_seconds=0.1,
    )  # fmt: skip
    charge = Charge(0.5, 310.0, 300.0, 1e5, 0.1)
    assert port == [({"a": pytest.approx(11.0)}, PATH, charge)]
    assert creep == [({"a": 10.0}, PATH, charge)]
    assert flight == [({"a": pytest.approx(3.0)}, PATH, charge)]
    assert inside == [({"a": pytest.approx(6.0)}, PATH, charge)]
    assert fell == [({"a": pytest.approx(3.0)}, {"a": pytest.approx(16.0)}, charge)]
    after = found.state
    assert (after.film, after.vapour) == ({"a": 8.0}, {"a": 2.5})
    assert after.inside["a"] == pytest.approx(4.95)
    assert (after.metered, after.drawn) == (110.0, 52.5)
    assert after.lost == pytest.approx(20.55)
    assert after.liquid == pytest.approx(12.95)
    assert (found.vapour_mass, found.liquid_mass) == (2.5, pytest.approx(4.95))


def test_what_is_primed_lies_on_the_wall_and_is_metered():
    state = fuelled.primed(FuelState(film={"a": 1.0}, metered=5.0), {"a": 1.0, "b": 1.0}, 4.0)
    assert state.film == {"a": 3.0, "b": 2.0}
    assert state.metered == 9.0


def test_a_plug_and_a_piston_are_asked_by_the_liquids_room_in_the_clearance(monkeypatch):
    """40 by 36 mm squeezed to a third leave half of what is swept, π/8 · 40² · 36 mm³."""
    room = math.pi / 8.0 * 40e-3**2 * 36e-3
    monkeypatch.setattr(fuelled, "volume", lambda blend: 2.0 * blend["a"])
    wet = told(monkeypatch, priming, "flooded", answer=True)
    stopped = told(monkeypatch, priming, "locked", answer=False)
    state = FuelState(inside={"a": 3.0})
    assert fuelled.wet_plug(state, PATH) is True
    assert fuelled.piston_stopped(state, PATH) is False
    assert wet == stopped == [(6.0, pytest.approx(room, rel=1e-9))]


def test_vapour_makes_a_mixture_in_the_cycles_own_air(monkeypatch):
    asked = told(monkeypatch, priming, "equivalence_ratio", 1.25)
    cycle = fuelled.Cycle(FuelState(vapour={"a": 1.0}), 1.0, 0.0)
    assert fuelled.mixture(cycle, 7.0) == 1.25
    assert asked == [({"a": 1.0}, 7.0)]


def test_a_carburettor_gives_its_flow_over_the_pulses_for_a_cycles_time(monkeypatch):
    """2 g in 0.1 s are 20 g/s; of half a gram of fuel in a second 0.1 s give 0.05 g."""
    flows = told(monkeypatch, fuelled, "fuel_flow", 0.5e-3)
    pulses = told(monkeypatch, fuelled, "over_pulses", lambda drawn, flow, _: drawn(flow))
    air = Air(293.15, 1e5)
    given = fuelled.carburetted("made", 2e-3, 0.1, 745.0, air, throttle=3.0, choke=4.0)
    assert given == pytest.approx(0.05e-3, rel=1e-9)
    assert pulses[0][1:] == (pytest.approx(20e-3), 0.27)
    assert flows == [("made", pytest.approx(20e-3), 745.0, air, 3.0, 4.0)]


def test_contact_is_of_a_charge_as_warm_as_the_wall(monkeypatch):
    asked = told(monkeypatch, fuelled, "port_contact", 0.2)
    assert fuelled.contact(PATH, {"a": 1.0}, 5.0, Air(290.0, 9e4), 0.1) == 0.2
    assert asked == [({"a": 1.0}, PATH, Charge(5.0, 290.0, 290.0, 9e4, 0.1))]


def pulsed(monkeypatch, mixtures):
    """A primer of 2 mg pulses whose first guess is three; what the laws are asked."""
    mixtures = iter(mixtures)
    monkeypatch.setattr(fuelled, "volume", lambda blend: sum(blend.values()))
    return SimpleNamespace(
        near=told(monkeypatch, fuelled, "contact", 0.2),
        wanted=told(monkeypatch, priming, "liquid_wanted", 5.5e-6),
        counted=told(monkeypatch, priming, "pulses", 3),
        mixed=told(monkeypatch, priming, "vapour_phi", lambda *_: next(mixtures)),
        full=told(monkeypatch, priming, "flooded", lambda room, _: room > 9e-6),
    )


def primes():
    return fuelled.priming_pulses(
        PATH, {"a": 2.0}, air_mass=7.0, around=Air(290.0, 9e4), each=2e-6, cycle_seconds=0.1
    )


def test_a_primer_is_pressed_until_its_mixture_burns(monkeypatch):
    """Three pulses of 2 mg have 0.85, four have just 0.9; guessed with a film of 20 mm."""
    asked = pulsed(monkeypatch, [0.85, 0.9])
    assert primes() == 4
    around = Air(290.0, 9e4)
    assert [given[1]["a"] for given in asked.near] == [
        pytest.approx(20e-3 * WET), pytest.approx(6e-6), pytest.approx(8e-6)
    ]  # fmt: skip
    assert {(given[0], *given[2:]) for given in asked.near} == {(PATH, 7.0, around, 0.1)}
    assert asked.wanted == [({"a": 2.0}, 0.9, 7.0, 0.2, 290.0, 9e4)]
    assert asked.counted == [(5.5e-6, 2e-6)]
    assert asked.mixed[1] == ({"a": pytest.approx(8e-6)}, 7.0, 0.2, 290.0, 9e4)
    room = math.pi / 8.0 * 40e-3**2 * 36e-3
    assert asked.full[0] == (pytest.approx(6e-6), pytest.approx(room, rel=1e-9))


def test_a_primer_that_wets_the_plug_first_is_of_no_use(monkeypatch):
    """Four pulses are 8 mg, five would be 10, past the 9 that wet it; what would be is told."""
    asked = pulsed(monkeypatch, [0.85, 0.89])
    most = told(monkeypatch, priming, "richest", 0.7)
    with pytest.raises(OutsideValidity, match=r"mixture of 0\.9 .* has 0\.7,"):
        primes()
    assert len(asked.mixed) == 2
    assert most == [({"a": 2.0}, 290.0, 9e4)]


@pytest.mark.parametrize(
    ("by", "law"), [("injector", "after_pulse"), ("carburettor", "after_feed")]
)
def test_a_warm_cycle_is_asked_of_aquinos_law(monkeypatch, by, law):
    """At 40π rad/s a cycle of 4π lasts 0.1 s; 3 mg in it are 30 mg/s where they come evenly."""
    landing = told(monkeypatch, wall_film, "landing_share_warm", 0.6)
    tau = told(monkeypatch, wall_film, "time_constant_warm", 0.5)
    asked = told(monkeypatch, wall_film, law, (1.0, 2.0))
    path = FuelPath(by, 16e-3, 40e-3, 40e-3, 36e-3, 3.0)
    speed = 40.0 * math.pi
    found = fuelled.warm_cycle(7e-6, path, metered_mass=3e-6, speed=speed, pressure=6e4)
    assert found == (1.0, 2.0)
    assert landing == tau == [(speed, 6e4)]
    fed = 3e-6 if by == "injector" else 30e-6
    assert asked == [pytest.approx((7e-6, fed, 0.6, 0.5, 0.1), rel=1e-9)]


# What to expect of it


def test_a_fuels_outlook_is_asked_at_the_air_around_and_at_70_100_and_150_degrees(monkeypatch):
    """343.15, 373.15 and 423.15 K."""
    share = told(monkeypatch, fuel_outlook, "vapour_share", 0.1)
    rich = told(monkeypatch, priming, "richest", 2.0)
    told(monkeypatch, fuel_outlook, "reid_pressure", 6e4)
    told(monkeypatch, fuel_outlook, "boiling_point", 310.0)
    off = told(monkeypatch, fuel_outlook, "distilled", lambda _, kelvin: kelvin)
    constant = told(monkeypatch, fuel_outlook, "evaporation_constant", 1e-8)
    lasts = told(monkeypatch, fuel_outlook, "lifetime", 0.5)
    fuel = {"a": 1.0}
    found = fuel_outlook.outlook(fuel, Air(290.0, 9e4), 14.6, 80e-6)
    assert found == (0.1, 2.0, 6e4, 310.0, pytest.approx((343.15, 373.15, 423.15)), 0.5)
    assert share == [(fuel, 14.6, 290.0, 9e4)]
    assert rich == constant == [(fuel, 290.0, 9e4)]
    assert lasts == [(80e-6, 1e-8)]
    assert len(off) == 3


@pytest.mark.parametrize(
    ("celsius", "pressure"), [(30.0, 60e3), (15.0, 60e3), (12.0, 66e3), (0.0, 90e3), (-9.0, 90e3)]
)
def test_petrol_as_sold_goes_from_summers_to_winters(monkeypatch, celsius, pressure):
    """60 kPa from 15 °C up, 90 at the freezing point; at 12 °C a fifth of the way between."""
    asked = told(monkeypatch, fuel_outlook, "petrol", {"a": 1.0})
    assert fuel_outlook.petrol_as_sold(273.15 + celsius) == {"a": 1.0}
    assert asked == [(pytest.approx(pressure),)]


@pytest.mark.parametrize(("dense", "back"), [(745.0, 80.0), (2.0, 0.0), (10.0, 80.0)])
def test_a_usual_carburettor_is_open_by_0_85_of_its_venturi(monkeypatch, dense, back):
    """10 mm: 0.85 π/4 · 100 mm²; its fuel hangs 10 mm low behind a mouth of 1.5 mm, a gas not."""
    kept = told(monkeypatch, fuel_outlook, "held_back", 80.0)
    sized = told(monkeypatch, fuel_outlook, "jet_area", 0.2e-6)
    made = fuel_outlook.usual_carburettor(
        10e-3, full_flow=1.5e-3, fuel_air=0.07, fuel_density=dense, around=Air(300.0, DENSE_2)
    )
    area = 0.85 * math.pi * 25e-6
    assert made.venturi == pytest.approx(area, rel=1e-9)
    assert made.main == Jet(0.2e-6, 0.7, back)
    assert kept == ([(dense, 10e-3, 22e-3, 1.5e-3)] if back else [])
    air = Air(300.0, DENSE_2).density
    asked = (pytest.approx(area), Jet(1.0, 0.7, back), 1.5e-3, 0.07, (dense, air), 0.27)
    assert sized == [asked]


def test_a_pulse_peaks_at_pi_halves_over_the_share_that_is_open(monkeypatch):
    """54 mg in 0.1 s flow in 0.27 of it as half a sine: 2 g/s · π/2 = π g/s, of 0.5 g/s 2π."""
    begins = told(monkeypatch, fuel_outlook, "starts_at", 0.5e-3)
    made = Carburettor(67e-6, Jet(0.25e-6, 0.7, 80.0))
    air = Air(300.0, 1e5)
    assert fuel_outlook.pull(made, 54e-6, 0.1, air) == pytest.approx(2.0 * math.pi, rel=1e-9)
    assert begins == [(67e-6, made.main, air.density)]


def test_a_film_is_asked_how_long_it_lasts_with_reynolds_and_sherwoods_numbers(monkeypatch):
    """π · 16 mm of 2e-5 m²/s and 4 π l/s: 4 · 4π e-3/(π · 16e-3 · 2e-5) = 50,000.

    2e-5 over 1e-5 m²/s is Schmidt's 2; 40 mm are 2.5 of 16. 3 kg in 4 litres are 750 kg/m³.
    """
    around = SimpleNamespace(temperature=290.0, pressure=9e4, density=2.0)
    vapour = SimpleNamespace(diffusivity=1e-5, spalding=0.3)
    over = told(monkeypatch, fuel_outlook, "surface", vapour)
    thick = told(monkeypatch, gas_transport, "viscosity", 4e-5)
    pipe = told(monkeypatch, wall_film, "pipe_sherwood", 60.0)
    lasts = told(monkeypatch, wall_film, "film_time_constant", 0.8)
    monkeypatch.setattr(fuel_outlook, "volume", lambda _: 4e-3)
    fuel = {"a": 1.0, "b": 2.0}
    found = fuel_outlook.film_lasts(PATH, fuel, flow=4e-3 * math.pi, around=around)
    assert found == 0.8
    assert over == [(fuel, 290.0, 9e4)]
    assert thick == [(290.0,)]
    assert pipe == [pytest.approx((50e3, 2.0, 2.5), rel=1e-9)]
    assert lasts == [pytest.approx((20e-6, 750.0, 60.0, 16e-3, 2e-5, 0.3), rel=1e-9)]
