"""Fuel of a start in time: what a charge gets, cold fuels, priming, a wet plug.

Published: ethanol's engines start from 13 °C (L. C. M. Sales, J. R. Sodré, *Applied Thermal
Engineering* 40, 2012, 198), methanol's not reliably below 16 °C (J. Li and others, *Energy & Fuels*
23, 2009, 4937); petrol's down to −40 °C, propane's at any. Abstracts read.
"""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from tests.runs.start.books import engine

from firstfire.cycle import layout
from firstfire.formulas.distillation import volume
from firstfire.formulas.vapour_pressure import PETROL
from firstfire.runs.cranking import driven
from firstfire.runs.fuelled import FuelState
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.fuelling import Fuelling, path_of, pulse, pulse_volume, pulses_of
from firstfire.runs.start.life import Life
from firstfire.runs.start.odds import why_not
from firstfire.runs.start.priming import priming, sparks_lost

IN_TIME = Asked(seconds=1.0, after=0.2, in_time=True)


def gas_of(life, row):
    at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE
    return life.state.values[at : at + layout.VOLUME_SIZE]


def phi_of(life, row):
    gas = gas_of(life, row)
    return gas[layout.FUEL] / gas[layout.AIR] * 14.6


def until(life, count):
    while len(life.fed) < count:
        life.step()
        assert life.now < life.asked.seconds


def turned_to(life, angle):
    while life.angle < angle - 1e-6:
        life.step(angle)
        assert life.now < life.asked.seconds


def test_a_pulse_is_what_a_full_warm_charge_is_metered():
    """Its swept volume of air at 1.2 kg/m³, 14.6 to 1, and 10 % richer."""
    plain = engine("wren")
    parts = plain.cylinders[0]
    swept = math.pi / 4 * parts.cylinder.bore**2 * parts.cylinder.stroke
    dense = plain.surroundings.air_pressure / (287.05 * plain.surroundings.air_temperature)
    by_hand = 1.1 * swept * dense / 14.6
    assert pulse(plain, parts) == pytest.approx(by_hand, rel=0.02)
    assert pulse_volume(plain) == pytest.approx(by_hand / 740.0, rel=0.04)
    assert pulses_of(plain, 3 * pulse_volume(plain)) == pytest.approx(3.0)


def test_what_stands_before_a_cylinder_is_of_the_charges_mixture_as_warm_and_dense_as_before():
    life = Life(engine("wren"), IN_TIME)
    assert all(gas_of(life, row)[layout.FUEL] == 0.0 for row in life.induction.ahead[0])
    until(life, 1)
    for place in life.induction.ahead[0]:
        assert phi_of(life, place) == pytest.approx(life.fed[0].mixture, rel=0.02)
    state = life.state
    again = life.induction.mixed(life.engines, state, 0, 0.5)
    for place in life.induction.ahead[0]:
        at = layout.SHAFT_SIZE + place * layout.VOLUME_SIZE
        for kept in (layout.PRESSURE, layout.TEMPERATURE):
            assert again.values[at + kept] == state.values[at + kept]
        before, after = (
            one.values[at + layout.AIR : at + layout.AIR + 3] for one in (state, again)
        )
        assert after[1] / after[0] * 14.6 == pytest.approx(0.5, rel=0.02)
        # moles stay: petrol's weigh 3.5 times the air's
        assert after[0] / 29 + after[1] / 100 == pytest.approx(
            before[0] / 29 + before[1] / 100, rel=2e-3
        )
    elsewhere = [0, life.induction.ahead[0][0] + 1]
    for place in elsewhere:
        at = layout.SHAFT_SIZE + place * layout.VOLUME_SIZE
        kept = slice(at, at + layout.VOLUME_SIZE)
        assert (again.values[kept] == state.values[kept]).all()


def test_a_charge_comes_to_its_mixture_but_for_the_air_that_was_there():
    """Squeezed, its second half: the clearance held air before."""
    life = Life(engine("wren"), replace(IN_TIME, seconds=4.0, fires_from=math.inf))
    until(life, 1)
    top, first = life.angle, life.fed[0].mixture
    turned_to(life, top + 1.8 * math.pi)
    clearance = 1.0 / engine("wren").cylinders[0].cylinder.compression_ratio
    assert first * (1 - 1.3 * clearance) < phi_of(life, 0) < first * (1 - 0.7 * clearance)
    until(life, 8)
    turned_to(life, top + 29.8 * math.pi)
    assert phi_of(life, 0) == pytest.approx(life.fed[-1].mixture, rel=0.03)


def test_metered_fuel_is_vapour_film_liquid_or_lost():
    """At −20 °C, where most of it stays liquid."""
    plain = engine("wren", surroundings__air_temperature="-20 °C")
    life = Life(plain, replace(IN_TIME, prime=3.0))
    state = life.fuelling.left[0]
    assert state.metered == pytest.approx(3 * pulse(plain, plain.cylinders[0]))
    until(life, 6)
    state = life.fuelling.left[0]
    assert state.drawn + state.lost + state.liquid == pytest.approx(state.metered, rel=1e-9)
    assert 3 < state.metered / pulse(plain, plain.cylinders[0]) < 3 + 4 * 6
    assert life.fed[-1].liquid == pytest.approx(volume(state.inside))


def test_no_more_is_metered_than_choke_or_map_can():
    plain = engine("wren", surroundings__air_temperature="-25 °C")
    for most in (1.0, 2.0, 4.0):
        fuelling = Fuelling(plain, replace(IN_TIME, enriched=most))
        fuelling.charge(0, 0.0, 0.2, 1e5)
        full = pulse(plain, plain.cylinders[0])
        assert fuelling.left[0].metered == pytest.approx(most * full, rel=1e-6)
        assert fuelling.feeds[0].metered <= most * 1.1 * (1 + 1e-9)


def test_fuel_is_changed_by_a_third_at_most_from_one_charge_to_the_next():
    fuelling = Fuelling(engine("wren"), replace(IN_TIME, prime=40.0))
    told = [fuelling.feeds[0].metered]
    mixtures = []
    for number in range(8):
        mixtures.append(fuelling.charge(0, 0.1 * number, 0.2, 1e5).mixture)
        told.append(fuelling.feeds[0].metered)
    steps = [after / before for before, after in pairwise(told[1:])]
    assert min(steps) == pytest.approx(0.75)
    assert max(steps) <= 4 / 3 + 1e-9
    # over-primed: first too rich, then down to what is wanted
    assert mixtures[0] > 2.0
    assert 1.5 > mixtures[-1] > 0.9


def test_once_three_charges_came_to_their_mixture_the_rest_do():
    fuelling = Fuelling(engine("wren"), IN_TIME)
    told = [fuelling.charge(0, 0.1 * number, 0.2, 1e5) for number in range(20)]
    metered = fuelling.left[0].metered
    assert all(one.mixture == pytest.approx(1.1, rel=0.2) for one in told)
    assert told[-1].mixture == 1.1
    fuelling.charge(0, 3.0, 0.2, 1e5)
    assert fuelling.left[0].metered == metered


def test_less_air_wants_less_fuel():
    fuelling = Fuelling(engine("wren"), IN_TIME)
    fuelling.charge(0, 0.0, 0.2, 1e5)
    whole, air = fuelling.left[0].metered, fuelling.feeds[0].air
    other = Fuelling(engine("wren"), IN_TIME)
    other.drew(0, 0.4 * air)
    other.charge(0, 0.0, 0.2, 0.4e5)
    assert other.left[0].metered < 0.45 * whole
    other.drew(0, 0.0)
    assert other.feeds[0].air == pytest.approx(0.05 * air)


def test_what_becomes_of_a_copy_is_its_own():
    life = Life(engine("wren"), IN_TIME)
    until(life, 2)
    other = life.again()
    before = life.fuelling.left
    until(other, 4)
    assert life.fuelling.left == before
    assert len(life.fed) == 2


@pytest.mark.parametrize(
    ("fuel", "celsius", "lights"),
    [
        ("methanol", 3, False), ("methanol", 22, True),
        ("ethanol", 5, False), ("ethanol", 22, True),
        ("petrol", -20, True), ("petrol", 30, True),
    ],
)  # fmt: skip
def test_which_fuels_light_how_cold(fuel, celsius, lights):
    plain = engine("wren", intake__fuel=fuel, surroundings__air_temperature=f"{celsius} °C")
    life = Life(plain, IN_TIME)
    while not life.lights and life.now < 1.0:
        life.step()
    assert life.lights == lights
    if not lights:
        assert {spark.missed for spark in life.sparks} <= {"lean", "quenched"}


def test_a_gas_is_there_at_once_and_is_not_followed():
    for celsius in (-30, 20):
        plain = engine("plover", surroundings__air_temperature=f"{celsius} °C")
        life = Life(plain, IN_TIME)
        assert life.fuelling is None
        while not life.lights and life.now < 1.0:
            life.step()
        assert life.lights
        assert priming(plain, IN_TIME, driven(plain)) is None


def test_the_colder_the_more_priming_and_a_warm_one_can_have_too_much():
    """Without choke or start map."""
    bare = replace(IN_TIME, enriched=1.0)
    found = {}
    for celsius in (20, 0, -15):
        plain = engine("wren", surroundings__air_temperature=f"{celsius} °C")
        found[celsius] = priming(plain, bare, driven(plain))
    assert found[20].wanted == 0 < found[0].wanted <= 4 < found[-15].wanted
    assert found[20].too_many is not None
    assert found[20].too_many > 8
    assert found[0].lost[0] == 0 < found[0].lost[1]
    assert found[-15].lost[1] == 6
    plain = engine("wren", surroundings__air_temperature="20 °C")
    shaft, over = driven(plain), found[20].too_many
    assert sparks_lost(plain, replace(bare, prime=over), shaft) > found[20].lost[0]


def test_no_priming_lights_methanol_in_the_frost():
    plain = engine("wren", intake__fuel="methanol", surroundings__air_temperature="-5 °C")
    told = priming(plain, replace(IN_TIME, enriched=1.0), driven(plain))
    assert (told.wanted, told.too_many) == (None, None)


def left(plain, share):
    """Petrol in a cylinder that fills such a share of its clearance."""
    parts = plain.cylinders[0]
    clearance = path_of(plain, parts).clearance
    whole = sum(PETROL.values())
    of_all = {name: mass / whole for name, mass in PETROL.items()}
    mass = share * clearance / volume(of_all)
    inside = {name: mass * part for name, part in of_all.items()}
    return FuelState(inside=inside, metered=mass)


def test_liquid_wets_a_plug_until_it_is_gone_and_makes_it_too_rich_still():
    """From a twentieth of the clearance on; what is left evaporates into the next charges."""
    plain = engine("wren")
    lived = Life(plain, IN_TIME, wet=[left(plain, 0.09)]).lived()
    whys = [spark.missed for spark in lived.sparks]
    wet = whys.count("wet")
    assert wet >= 2
    assert whys == ["wet"] * wet + ["rich"] * (len(whys) - wet)
    clearance = path_of(plain, plain.cylinders[0]).clearance
    assert all(one.wet == (one.liquid > 0.05 * clearance) for one in lived.fed)
    assert lived.fed[0].wet
    assert not lived.fed[-1].wet
    assert lived.locked is None


def test_liquid_that_fills_the_clearance_stops_the_piston():
    plain = engine("wren")
    lived = Life(plain, IN_TIME, wet=[left(plain, 1.2)]).lived()
    assert lived.fed[-1].stopped
    assert lived.locked == lived.fed[-1].seconds
    assert float(lived.spun.time[-1]) == pytest.approx(lived.locked)
    assert why_not(lived, 50.0) == "flooded"


def test_one_whose_plug_stays_wet_is_flooded():
    plain = engine("wren", surroundings__air_temperature="-30 °C")
    lived = Life(plain, replace(IN_TIME, seconds=0.5), wet=[left(plain, 0.6)]).lived()
    assert {spark.missed for spark in lived.sparks} == {"wet"}
    assert why_not(lived, 50.0) == "flooded"


def test_liquid_leaves_the_gas_less_room():
    """A fifth of the clearance full: squeezed by more, ``(V + V_c)/V_c`` of what is left."""
    plain = engine("wren", surroundings__air_temperature="-30 °C")
    dry = replace(IN_TIME, fires_from=math.inf, mixture=0.0)

    def peak(wet):
        life = Life(plain, dry, wet=wet)
        until(life, 2)
        spun = life.told().spun
        return spun.pressure[spun.time > life.fed[0].seconds, 0].max()

    ratio = plain.cylinders[0].cylinder.compression_ratio
    life = Life(plain, dry, wet=[left(plain, 0.25)])
    until(life, 1)
    share = life.fed[0].liquid / life.induction.clearances[0]
    assert 0.1 < share < 0.25
    narrowed = life.engines[0]["cylinders"]["clearance_volume"][0]
    assert narrowed == pytest.approx((1 - share) * life.induction.clearances[0])
    more = (ratio - share) / (1 - share) / ratio
    # leaks take more of a higher pressure
    assert 0.85 * more**1.3 < peak([left(plain, 0.25)]) / peak([]) < more**1.35


def test_too_much_fuel_is_metered_as_it_is():
    plain = engine("wren")
    fuelling = Fuelling(plain, replace(IN_TIME, mixture=5.0))
    first = fuelling.charge(0, 0.0, 0.2, 1e5)
    again = fuelling.charge(0, 0.2, 0.2, 1e5)
    full = pulse(plain, plain.cylinders[0]) / 1.1
    assert fuelling.left[0].metered == pytest.approx(2 * 5.0 * full, rel=1e-6)
    assert 1.8 < first.mixture <= again.mixture < 5.0
    none = Fuelling(plain, replace(IN_TIME, mixture=0.0))
    assert none.charge(0, 0.0, 0.2, 1e5).mixture == 0.0
    assert none.left[0].metered == 0.0


def test_a_second_try_goes_on_with_what_the_first_left():
    plain = engine("wren", surroundings__air_temperature="-20 °C")
    first = Life(plain, replace(IN_TIME, seconds=0.3, after=0.0)).lived()
    again = Life(plain, replace(IN_TIME, charged=True), wet=first.left)
    assert again.fuelling.left == tuple(first.left)
    vapour = sum(first.left[0].vapour.values())
    air = pulse(plain, plain.cylinders[0]) / 1.1 * 14.6
    assert again.fuelling.held == pytest.approx(14.6 * vapour / air, rel=0.05)
    assert phi_of(again, 0) == pytest.approx(again.fuelling.held, rel=0.02)
