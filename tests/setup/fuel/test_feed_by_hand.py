"""Tank, hose, pump, throttle and air cleaner by hand: stand-ins take the place of gas that is run.

Petrol of 750 kg/m³ and 0.6 mm²/s; laminar hoses by Hagen and Poiseuille, 128 ρ ν L q/(π d⁴).
"""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from firstfire.setup.fuel import feed
from firstfire.setup.fuel.feed import _bore, _throttle, _throttle_bounds, feed_facts, feed_faults
from firstfire.setup.fuel.liquid import Liquid

PETROL = Liquid("petrol", False, 750.0, 0.6e-6, 350e3)
GAS = Liquid("propane", True, 2.0, 0.6e-6, 425e3)
G = 9.81


def plain(mixture_by="carburettor", cleaner="foam", cylinders=1, kind="plenum", **tank):
    put = {
        "feed": "gravity", "volume": 250e-6, "hose_bore": 3e-3, "hose_length": 0.4, "head": 0.1,
        "pump_flow": None, **tank,
    }  # fmt: skip
    return SimpleNamespace(
        tank=SimpleNamespace(**put),
        intake=SimpleNamespace(
            mixture_by=mixture_by, air_cleaner=cleaner, kind=kind, throttle_diameter=10e-3
        ),
        injector=SimpleNamespace(pressure=3e5, voltage=12.5),
        surroundings=SimpleNamespace(air_pressure=287.04 * 300.0 * 1.2, air_temperature=300.0),
        cylinders=(None,) * cylinders,
    )


def point(fuel, air=1.2e-3):
    return SimpleNamespace(at=SimpleNamespace(fuel_flow=fuel, air_flow=air))


def points(fuel, idle=None):
    most = point(fuel)
    return SimpleNamespace(most=most, full=(most,), idle=None if idle is None else point(idle))


def test_a_tank_and_its_hose_by_gravity():
    """0.75 g/s is 1 cm³/s: 250 s of a tank of 250 cm³; a tenth of it at idle, 2500 s.

    The hose costs 128 · 750 · 0.6e-6 · 0.4 · 1e-6 = 2.304e-8 over π (3 mm)⁴: 90.5 Pa.
    """
    found = feed_facts(plain(), PETROL, points(0.75e-3, 0.075e-3))
    assert found.most == pytest.approx(1e-6)
    assert found.idle == pytest.approx(1e-7)
    assert found.tank_full == pytest.approx(250.0)
    assert found.tank_idle == pytest.approx(2500.0)
    loss = 2.304e-8 / (math.pi * 81e-12)
    assert found.hose_loss == pytest.approx(loss)
    assert found.head_wanted == pytest.approx(0.01 + 3.0 * loss / (750.0 * G))
    assert (found.pump_flow, found.pump_pressure, found.pump_power) == (None, None, None)
    assert (found.pump_current, found.chill) == (None, None)
    assert feed_facts(plain(), PETROL, points(0.75e-3)).tank_idle is None


def test_a_pump_gives_half_more_than_the_most_fuel():
    """1.5 cm³/s at 3 bar are 0.45 W, of 15 % 3 W: 0.24 A at 12.5 V. A float wants 0.2 bar."""
    found = feed_facts(plain("injector", feed="pump"), PETROL, points(0.75e-3))
    assert found.pump_flow == pytest.approx(1.5e-6)
    assert found.pump_pressure == pytest.approx(3e5)
    assert found.pump_power == pytest.approx(3.0)
    assert found.pump_current == pytest.approx(0.24)
    assert found.head_wanted is None
    assert feed_facts(
        plain(feed="pump"), PETROL, points(0.75e-3)
    ).pump_power == pytest.approx(0.2)  # fmt: skip


def test_a_bottle_takes_up_the_heat_that_its_gas_evaporates_with():
    """0.2 g/s of 425 kJ/kg are 85 W; as it is metered, at 2 kg/m³, 100 cm³/s."""
    found = feed_facts(plain(feed="bottle"), GAS, points(0.2e-3))
    assert found.chill == pytest.approx(85.0)
    assert found.most == pytest.approx(1e-4)
    assert (found.tank_full, found.tank_idle, found.hose_loss, found.hose_bore) == (None,) * 4


@pytest.mark.parametrize(
    ("kind", "face"), [("foam", 1e-3), ("none", 1e-3), ("paper", 1e-2 / 3), ("gauze", 1e-3 / 3)]
)
def test_a_cleaners_face_lets_the_mean_air_through_at_its_kinds_speed(kind, face):
    """1.2 g/s of 1.2 kg/m³ are a litre a second: at 1, 0.3 and 3 m/s."""
    found = feed_facts(plain(cleaner=kind), PETROL, points(0.75e-3))
    assert found.cleaner_area == pytest.approx(face)


def test_a_hose_carries_full_power_by_the_head_it_has():
    """40 mm less 10 for the float, a third of it to spare: 10 mm are 73.575 Pa for 1 cm³/s.

    So d⁴ = 2.304e-8/(π 73.575), 3.16 mm.
    """
    wanted = (2.304e-8 / (math.pi * 73.575)) ** 0.25
    assert wanted == pytest.approx(3.16e-3, rel=1e-3)
    found = _bore(plain(head=0.04), PETROL, 1e-6)
    assert wanted <= found <= wanted + 1e-9
    assert _bore(plain(head=0.01), PETROL, 1e-6) is None
    assert _bore(plain(head=0.5), PETROL, 1e-8) == pytest.approx(2e-3)  # dirt
    assert _bore(plain(), GAS, 1e-6) is None


def test_a_pumps_hose_may_cost_five_kilopascals():
    """4 cm³/s of 1.5 mm²/s through 4 m: 128 · 750 · 1.5e-6 · 4 · 4e-6 = 2.304e-6."""
    thick = PETROL._replace(viscosity=1.5e-6)
    wanted = (2.304e-6 / (math.pi * 5e3)) ** 0.25
    found = _bore(plain(feed="pump", hose_length=4.0), thick, 4e-6)
    assert wanted <= found <= wanted + 1e-9


@pytest.mark.parametrize(
    ("cylinders", "kind", "air", "mean", "share"),
    [
        (1, "plenum", 1.2e-3, 1e-3, 0.27),
        (2, "separate", 4.8e-3, 2e-3, 0.27),  # each its own
        (2, "plenum", 2.4e-3, 2e-3, 0.54),
        (4, "plenum", 4.8e-3, 4e-3, 1.0),  # 1.08 is always
    ],
)
def test_air_in_a_throttle_is_half_a_sine_while_inlets_are_open(cylinders, kind, air, mean, share):
    """Its peak is π/2 of the mean over the share of the cycle; 10 mm are π/4 of 1 cm².

    So the speed is 2 mean/(share · 1e-4 m²), and the bore at v m/s √(2 mean/(share v)).
    """
    made = plain(cylinders=cylinders, kind=kind)
    full = (point(0.75e-3, air), point(0.5e-3, 0.5 * air))
    found, speed, narrow, wide = _throttle(made, full)
    assert found == pytest.approx(mean)
    assert speed == pytest.approx(2.0 * mean / share / 1e-4)
    assert narrow == pytest.approx(math.sqrt(2.0 * mean / share / 150.0))
    assert wide == pytest.approx(math.sqrt(2.0 * mean / share / 15.0))
    assert _throttle_bounds(made, full) == (10e-3, narrow, wide)
    told = feed_facts(made, PETROL, SimpleNamespace(most=full[0], full=full, idle=None))
    assert (told.throttle, told.throttle_speed) == (10e-3, speed)
    assert (told.throttle_narrow, told.throttle_wide) == (narrow, wide)
    assert told.cleaner_area == pytest.approx(mean)  # foam, 1 m/s


FITS = SimpleNamespace(
    head_wanted=None, hose_bore=None, pump_flow=None, pump_pressure=None, throttle=10e-3,
    throttle_narrow=5e-3, throttle_wide=20e-3, throttle_speed=60.0,
)  # fmt: skip


def facts(**put):
    return SimpleNamespace(**{**vars(FITS), **put})


def test_what_fits_has_no_fault():
    assert not list(feed_faults(None, plain(), PETROL, facts()))


def test_an_injectors_pressure_is_told_as_a_head():
    """2.943 bar of 750 kg/m³ and 9.81 m/s² are 40 m."""
    made = plain("injector")
    made.injector.pressure = 2.943e5
    (one,) = feed_faults(None, made, PETROL, facts())
    assert "a head of 40 m" in one.fault


def test_a_small_pumps_nearest_is_a_hundredth_more_than_is_wanted():
    """100 cm³/min wanted."""
    wanted = 100e-6 / 60.0
    made = plain("injector", feed="pump", pump_flow=0.99 * wanted)
    (one,) = feed_faults(None, made, PETROL, facts(pump_flow=wanted, pump_pressure=3e5))
    assert 'is "99 cm^3/min"' in one.fault
    assert 'nearest that works is "101 cm^3/min" at 3 bar' in one.cure
    made.tank.pump_flow = wanted
    assert not list(feed_faults(None, made, PETROL, facts(pump_flow=wanted)))


def test_a_low_tanks_nearest_head_is_whole_millimetres():
    made = plain(head=0.02)
    (one,) = feed_faults(None, made, PETROL, facts(head_wanted=0.0321, hose_bore=3.5e-3))
    assert "wants 33 mm" in one.fault
    assert '"33 mm", or tank.hose_bore = "3.5 mm", or' in one.cure
    made.tank.head = 0.0321
    assert not list(feed_faults(None, made, PETROL, facts(head_wanted=0.0321)))


@pytest.mark.parametrize(("bore", "what"), [(4e-3, "too narrow"), (21e-3, "like a switch")])
def test_a_throttles_nearest_is_tried_on_the_engine(monkeypatch, bore, what):
    asked = []

    def nearest(engine, path, bounds, stop):
        asked.append((engine, path, bounds, stop))
        return "11 mm"

    monkeypatch.setattr(feed, "nearest_bore", nearest)
    (one,) = feed_faults("engine", plain(), PETROL, facts(throttle=bore), "stop")
    assert what in one.fault
    assert one.fault.endswith("60 m/s")
    assert one.cure == 'The nearest that works is "11 mm".'
    assert asked == [("engine", "intake.throttle_diameter", _throttle_bounds, "stop")]
