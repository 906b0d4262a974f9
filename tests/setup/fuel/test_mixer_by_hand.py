"""A venturi, its jets and the nearest bore by hand: stand-ins take the place of gas that is run.

Air of 1.2 kg/m³ at 300 K; a throat of 12 mm, a fuel of 625 kg/m³, so that 800 Pa are 1000 kg/m²s.
"""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.errors import OutsideValidity
from firstfire.formulas.carburettor import Air
from firstfire.setup.fuel import mixer, mixer_faults, nearest, venturi
from firstfire.setup.fuel.liquid import Liquid, liquid

FUEL = Liquid("petrol", False, 625.0, 0.6e-6, 350e3)
GAS = Liquid("propane", True, 2.0, 0.6e-6, 350e3)
PRESSURE = 1.2 * 8.314462618 * 300.0 / 28.966e-3
QUARTER = math.pi / 4.0


def plain(cylinders=1, kind="plenum", **carburettor):
    return SimpleNamespace(
        cylinders=(None,) * cylinders,
        intake=SimpleNamespace(kind=kind, equivalence_ratio=1.1, throttle_opening=0.9),
        surroundings=SimpleNamespace(air_temperature=300.0, air_pressure=PRESSURE),
        carburettor=SimpleNamespace(
            **{"venturi_diameter": 12e-3, "lift": 10e-3, "main_jet": None, "idle_jet": None,
               **carburettor}
        ),
        gas_mixer=SimpleNamespace(venturi_diameter=14e-3, held_back=5e3, orifice=None),
        use=SimpleNamespace(full_throttle_speeds=(400.0, 200.0)),
    )  # fmt: skip


def drawn(air=4e-3, fuel=0.0, kind="full", **run):
    at = SimpleNamespace(air_flow=air, fuel_flow=fuel, intake=(0.7e5, 0.9e5), **run)
    return SimpleNamespace(kind=kind, name=kind, at=at)


def asked_with(value, *first):
    """Gives a value where it is asked with these first, and fails where it isn't."""

    def gives(*given):
        assert given[: len(first)] == first
        return value(*given) if callable(value) else value

    return gives


def run_of(flow, time=(1.0, 2.0, 4.0)):
    cycle = SimpleNamespace(
        passages=("inlet 1", "throttle 1", "exhaust 1"),
        curves=SimpleNamespace(
            time=np.array(time), flow=np.array([[9.0, one, 9.0] for one in flow])
        ),
    )
    return SimpleNamespace(fired=SimpleNamespace(cycle=cycle))


def test_throats_and_the_share_in_which_air_flows_through_one():
    """An inlet is open for 0.27 of the cycle: of four on one throttle there is always one."""
    cases = ((plain(), 1, 0.27), (plain(2), 1, 0.54), (plain(2, "separate"), 2, 0.27),
             (plain(4), 1, 1.0))  # fmt: skip
    for made, count, share in cases:
        assert venturi.throats(made) == count
        assert venturi.share_flowing(made) == pytest.approx(share)


def test_lift_and_skin_hold_fuel_back():
    """625 · 9.81 · 10 mm are 61.3125 Pa, four times 22 mN/m over 1.5 mm 58.667."""
    assert venturi.held_back(plain(), FUEL) == pytest.approx(61.3125 + 88.0 / 1.5)
    assert venturi.held_back(plain(), GAS) == 5e3
    jet = venturi.main_jet(plain(), GAS, 0.6e-3)
    assert jet == (pytest.approx(QUARTER * 0.36e-6), 0.7, 5e3)


def test_a_throats_area_and_the_peak_of_half_a_sine():
    """4 g/s on average, on two throttles: π/2 of 2 g/s over the 0.27 in which they flow."""
    assert venturi.throat_area(plain(), FUEL) == pytest.approx(0.85 * QUARTER * 144e-6)
    assert venturi.throat_area(plain(), GAS) == pytest.approx(0.85 * QUARTER * 196e-6)
    made = plain(2, "separate")
    assert venturi.peak(made, drawn()) == pytest.approx(2e-3 * math.pi / 2.0 / 0.27)
    idle = drawn(kind="idle", point=run_of((0.0, 2e-3, -1e-3)))
    assert venturi.peak(made, idle) == pytest.approx(2e-3)


def test_more_air_than_goes_through_leaves_no_depression():
    """At 0.8 of the pressure before it a throat has passed p √(7 (r^(2/1.4) - r^(2.4/1.4))/(R T))
    a m²: a fifth of 1 bar."""
    square = 7.0 * (0.8 ** (2.0 / 1.4) - 0.8 ** (2.4 / 1.4))
    square /= 8.314462618 / 28.966e-3 * 300.0
    flow = 1e-4 * 1e5 * math.sqrt(square)
    assert venturi.depression(flow, 1e-4, Air(300.0, 1e5)) == pytest.approx(0.2e5)
    assert venturi.depression(1.0, 1e-4, Air(300.0, 1e5)) == math.inf


@pytest.mark.parametrize("held", [5e3, 0.0])
def test_venturis_lie_between_25_kilopascals_and_twice_what_draws(held):
    """Twice the air is four times the depression: of 5 kPa held back 20. Isentropic as above.

    Peaks of 8 and 2 g/s on average are π/2 over 0.27 of that.
    """
    made = plain()
    made.gas_mixer.held_back = held
    found, narrow, wide = venturi.venturis(made, GAS, (drawn(8e-3), drawn(2e-3), drawn(5e-3)))

    def bore(flow, drop):
        ratio = 1.0 - drop / PRESSURE
        square = 7.0 * (ratio ** (2.0 / 1.4) - ratio ** (2.4 / 1.4)) / (287.04 * 300.0)
        passes = PRESSURE * math.sqrt(square)
        return math.sqrt(flow * math.pi / 2.0 / 0.27 / passes / 0.85 / QUARTER)

    assert found == 14e-3
    assert narrow == pytest.approx(bore(8e-3, 25e3))
    assert wide == (math.inf if held == 0.0 else pytest.approx(bore(2e-3, 20e3)))
    assert venturi.venturis(made, FUEL, (drawn(),))[0] == 12e-3


def test_a_jet_draws_as_the_air_goes_where_nothing_holds_it_back(monkeypatch):
    """By a depression of the square of flow over area the fuel is 0.7 · π/4 d² √(2 ρ) flow/area."""
    monkeypatch.setattr(mixer.law, "behind_throttle", lambda flow, area, _: (flow / area) ** 2)
    made = plain(2, "separate")
    made.gas_mixer.held_back = 0.0
    area = 0.85 * QUARTER * 196e-6
    found = mixer.main_fuel(made, GAS, drawn(), 3e-3)
    jet = 0.7 * QUARTER * 9e-6 * math.sqrt(2.0 * 2.0)
    assert found == pytest.approx(jet * 2e-3 / area)
    # along its own flow: 0, 2 and 1 mg/s at 1, 2 and 4 s are 4/3 on average; none flows back
    idle = drawn(kind="idle", point=run_of((0.0, 2e-6, 1e-6)))
    assert mixer.main_fuel(made, GAS, idle, 3e-3) == pytest.approx(jet * 4e-6 / 3.0 / area)
    back = drawn(kind="idle", point=run_of((-5e-6, 2e-6, 1e-6)))
    assert mixer.main_fuel(made, GAS, back, 3e-3) == pytest.approx(jet * 4e-6 / 3.0 / area)


def test_a_main_jet_is_wanted_by_what_one_of_a_square_metre_draws(monkeypatch):
    """2 kg/s a m²; 0.07 of 4 g/s on two throttles: 0.14 g/s want 70 mm²."""
    made = plain(2, "separate")
    monkeypatch.setattr(
        mixer, "main_fuel", asked_with(lambda *of: 2.0 * QUARTER * of[3] ** 2, made, FUEL, drawn())
    )
    monkeypatch.setattr(mixer, "fuel_share", lambda _: 0.07)
    found = mixer._wanted(made, FUEL, drawn())
    assert QUARTER * found**2 == pytest.approx(70e-6)
    monkeypatch.setattr(mixer, "main_fuel", lambda *_: 0.0)
    assert mixer._wanted(plain(), FUEL, drawn()) is None

    def choked(*_):
        raise OutsideValidity("choked")

    monkeypatch.setattr(mixer, "main_fuel", choked)
    assert mixer._wanted(plain(), FUEL, drawn()) is None


def test_port_and_bleed_alike_leave_an_idle_jet_half(monkeypatch):
    made = plain()
    made.surroundings.air_pressure = 1e5
    assert mixer.behind_idle(made, drawn()) == pytest.approx(0.1e5)


@pytest.fixture
def idling(monkeypatch):
    """200 Pa hold back, 1000 draw: 0.7 √(2 · 625 · 800) = 700 kg/s a m²."""
    made = plain(2, "separate")
    monkeypatch.setattr(mixer, "held_back", asked_with(200.0, made, FUEL))
    monkeypatch.setattr(venturi, "held_back", asked_with(200.0, made, FUEL))
    monkeypatch.setattr(
        mixer, "behind_idle", lambda *given: 1000.0 if given[0] == made else math.nan
    )
    monkeypatch.setattr(mixer, "main_fuel", asked_with(1e-5, made, FUEL))
    monkeypatch.setattr(mixer, "fuel_share", lambda _: 0.08)


@pytest.mark.usefixtures("idling")
def test_an_idle_jet_gives_what_the_venturi_does_not():
    """60 mg/s on two throttles are 30, of which the main jet draws 10: 20 mg/s by 700."""
    made = plain(2, "separate")
    found = SimpleNamespace(idle=drawn(fuel=6e-5))
    wanted = mixer._idle_wanted(made, FUEL, found, 0.5e-3)
    assert QUARTER * wanted**2 == pytest.approx(2e-5 / 700.0)
    assert mixer._idle_wanted(made, FUEL, SimpleNamespace(idle=drawn(fuel=2e-5)), 0.5e-3) is None
    assert mixer._idle_wanted(made, FUEL, found, None) is None
    assert mixer._idle_wanted(made, FUEL, SimpleNamespace(idle=None), 0.5e-3) is None


@pytest.mark.usefixtures("idling")
def test_a_drawing_at_a_point(monkeypatch):
    """A peak of 6 g/s by 1.2 kg/m³ and the throat's full area, over the air that just draws.

    That is area √(2 · 1.2 · 200). Of 4 g/s on two throttles 10 mg/s are a mixture of 0.005,
    against 0.08 for φ 1.1; at idle a jet of 0.2 mm gives 700 kg/s a m² more.
    """
    made, area = plain(2, "separate"), 0.85 * QUARTER * 144e-6
    monkeypatch.setattr(mixer, "peak", asked_with(6e-3, made))
    monkeypatch.setattr(mixer, "depression", lambda flow, area, _: flow / area)
    monkeypatch.setattr(mixer, "_wanted", asked_with(0.44e-3, made, FUEL))
    one = mixer._drawing(made, FUEL, drawn(), 0.5e-3, 0.2e-3)
    assert one.speed == pytest.approx(6e-3 / (1.2 * QUARTER * 144e-6))
    assert one.depression == pytest.approx(6e-3 / area)
    assert one.pull == pytest.approx(6e-3 / (area * math.sqrt(480.0)))
    assert one.wanted == 0.44e-3
    assert one.mixture == pytest.approx(1.1 * 0.005 / 0.08)
    idle = mixer._drawing(made, FUEL, drawn(kind="idle"), 0.5e-3, 0.2e-3)
    given = 1e-5 + 700.0 * QUARTER * 0.04e-6
    assert idle.mixture == pytest.approx(1.1 * given / 2e-3 / 0.08)
    assert mixer._drawing(made, FUEL, drawn(), None, None).mixture is None


def test_a_jets_span_is_a_tenth_of_its_area(monkeypatch):
    """0.5 mm: √0.9 and √1.1 of that; what is said goes before what is wanted."""
    asked = []

    def wanted(*given):
        asked.append(given)
        return 0.5e-3

    full = (drawn(),)
    found = SimpleNamespace(most=full[0], full=full, all=full, idle=None)
    monkeypatch.setattr(mixer, "_wanted", wanted)
    made = plain()
    monkeypatch.setattr(mixer, "_idle_wanted", lambda _, fuel, *__: 0.3e-3 if fuel == FUEL else 0)
    monkeypatch.setattr(mixer, "_drawing", lambda *given: given)
    monkeypatch.setattr(
        mixer, "venturis", lambda _, fuel, of: (12e-3, 10e-3, 16e-3) if fuel.name and of else 0
    )
    told = mixer.mixer_facts(made, FUEL, found)
    assert asked == [(made, FUEL, full[0])]
    assert (told.gas, told.count, told.venturi) == (False, 1, 12e-3)
    assert (told.narrowest, told.widest) == (10e-3, 16e-3)
    assert (told.jet, told.wanted, told.idle_jet, told.idle_wanted) == (
        0.5e-3, 0.5e-3, 0.3e-3, 0.3e-3,
    )  # fmt: skip
    assert told.jet_low == pytest.approx(0.5e-3 * math.sqrt(0.9))
    assert told.jet_high == pytest.approx(0.5e-3 * math.sqrt(1.1))
    assert told.drawings == ((made, FUEL, full[0], 0.5e-3, 0.3e-3),)
    has = mixer.mixer_facts(plain(main_jet=0.6e-3, idle_jet=0.4e-3), FUEL, found)
    assert (has.jet, has.wanted, has.idle_jet, has.idle_wanted) == (
        0.6e-3, 0.5e-3, 0.4e-3, 0.3e-3,
    )  # fmt: skip
    gas = mixer.mixer_facts(made, GAS, found)
    assert (gas.gas, gas.venturi, gas.idle_jet, gas.idle_wanted) == (True, 14e-3, None, None)


@pytest.mark.parametrize(
    ("said", "percent"), [(1.1, "121 %"), (1.08, "117 %"), (1.07, ""), (0.93, ""), (0.9, "81 %")]
)
def test_a_jets_area_may_be_fifteen_hundredths_off(said, percent):
    made = plain(main_jet=said * 0.5e-3)
    facts = SimpleNamespace(wanted=0.5e-3, idle_wanted=None, venturi=1.0, narrowest=0.0, widest=2.0)
    found = list(mixer_faults.mixer_faults(None, made, FUEL, facts))
    assert len(found) == bool(percent)
    if percent:
        assert f"it gives {percent} of the fuel" in found[0].fault
        assert found[0].cure == 'The nearest that works is "0.5 mm".'


@pytest.mark.parametrize(("bore", "fault"), [(9e-3, "chokes"), (17e-3, "hardly draws")])
def test_a_venturis_nearest_is_tried_on_the_engine(monkeypatch, bore, fault):
    asked = []

    def near(engine, path, bounds, stop):
        asked.append((engine, path, bounds("at", "full"), stop))
        return "11 mm"

    monkeypatch.setattr(mixer_faults, "nearest_bore", near)
    monkeypatch.setattr(mixer_faults, "venturis", lambda *given: given)
    facts = SimpleNamespace(
        wanted=None, idle_wanted=None, venturi=bore, narrowest=10e-3, widest=16e-3
    )
    (one,) = mixer_faults.mixer_faults("engine", plain(), FUEL, facts, "stop")
    assert fault in one.fault
    assert one.cure == 'The nearest that works is "11 mm".'
    assert asked == [
        ("engine", "carburettor.venturi_diameter", ("at", FUEL, "full"), "stop")
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("begins", "narrow", "wide", "found"),
    [
        (5e-3, 10e-3, 20e-3, "10.1 mm"),  # a hundredth wider than the narrowest
        (30e-3, 10e-3, 20.2e-3, "20 mm"),  # or narrower than the widest
        (15e-3, 10e-3, 20e-3, None),  # it does as it is: nothing was written
        (15e-3, 20e-3, 10e-3, None),
    ],
)
def test_the_nearest_bore_is_a_hundredth_inside(monkeypatch, begins, narrow, wide, found):
    monkeypatch.setattr(nearest, "resolve", lambda engine: engine)
    monkeypatch.setattr(nearest, "full_throttle", lambda plain, stop: (plain, stop))
    monkeypatch.setattr(
        nearest, "with_values", lambda _, put: float(put["path"].removesuffix(" mm")) / 1e3
    )

    def bounds(bore, full):
        assert full == (bore, "stop")
        return bore, narrow, wide

    assert nearest.nearest_bore(begins, "path", bounds, "stop") == found


def test_full_throttle_is_run_at_each_speed_the_slowest_first(monkeypatch):
    asked = []
    monkeypatch.setattr(
        nearest, "breathed", lambda *given, stop: asked.append((*given, stop)) or "at"
    )
    made = plain()
    found = nearest.full_throttle(made, "stop")
    assert asked == [(made, 200.0, 0.9, "stop"), (made, 400.0, 0.9, "stop")]
    assert [one.at for one in found] == ["at", "at"]


def fuel_of(carbon, hydrogen, oxygen, gas):
    row = SimpleNamespace(
        name="Propane (bottled)", si={"density": 500.0, "latent_heat": 425e3}.__getitem__
    )
    engine = SimpleNamespace(catalog=SimpleNamespace(row=lambda *_: row))
    made = SimpleNamespace(
        intake=SimpleNamespace(fuel="propane"),
        fuel=SimpleNamespace(carbon=carbon, hydrogen=hydrogen, oxygen=oxygen, gas=gas),
        surroundings=SimpleNamespace(air_pressure=1e5, air_temperature=300.0),
    )
    return liquid(engine, made)


def test_a_gas_is_as_dense_as_its_moles():
    """Three of 12.011 and eight of 1.008 are 44.097 g/mol; 1 bar and 300 K are 40.09 mol/m³."""
    found = fuel_of(3.0, 8.0, 0.0, gas=True)
    assert found.density == pytest.approx(44.097e-3 * 1e5 / (8.314462618 * 300.0))
    assert (found.name, found.gas, found.latent) == ("propane", True, 425e3)


def test_a_tenth_of_oxygen_makes_a_fuel_as_thick_as_ethanol():
    """Of C8H18 with one more O, 16 in 130 g, an eighth; without it none."""
    assert fuel_of(8.0, 18.0, 1.0, gas=False).viscosity == 1.5e-6
    assert fuel_of(8.0, 18.0, 0.5, gas=False).viscosity == 0.6e-6
    assert fuel_of(8.0, 18.0, 0.0, gas=False).density == 500.0
