"""An injector's pulses, flows and pressures by hand, with stand-ins for what the gas would give.

It passes 1 g/s at 1 bar, so 1.5 at its regulator's 2.25, 1.6 at 2.56 and 1.7 g/s at 2.89 bar.
"""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from firstfire.engine.battery import Battery
from firstfire.setup.fuel import injector
from firstfire.setup.fuel.injector import (
    InjectorFacts,
    _pressures,
    cranking_voltage,
    flow_for,
    held_open,
    injector_facts,
    pressure_over,
    pulse_at,
)
from firstfire.setup.fuel.injector_faults import injector_faults, over_faults, voltage_fault

FUEL = SimpleNamespace(density=4 * 745.0)  # √(745 · 2980) = 1490
OWN, FIRES = (5.0, 9.0), (0.0, 3.0 * math.pi)


def plain(feeds="each", regulator="open_air", **put):
    told = {
        "feeds": feeds, "flow": 1e-3 / 1490.0, "flow_at": 1e5, "pressure": 2.25e5,
        "regulator": regulator, "voltage": 12.0, "dead_times": ((8.0, 2e-3), (12.0, 1e-3)),
        "smallest": 0.4e-3, "ends": "while_inlet_open", **put,
    }  # fmt: skip
    return SimpleNamespace(
        injector=SimpleNamespace(**told),
        surroundings=SimpleNamespace(air_pressure=1e5),
        spark=SimpleNamespace(coil_on="starter_battery"),
        starter=SimpleNamespace(ratio=4.0, no_load_speed=40.0),
        use=SimpleNamespace(cranking_speed=40.0),
        cylinders=OWN,
    )


def drawn(kind, fuel, intake, seconds, speed=300.0):
    at = SimpleNamespace(fuel=fuel, intake=(intake,) * 2, seconds=seconds, speed=speed)
    return SimpleNamespace(kind=kind, name=kind, at=at)


FULL = drawn("full", (16e-6, 24.96e-6), 0.69e5, 0.04)
IDLE = drawn("idle", (1.7e-6, 0.85e-6), 0.36e5, 0.1)
CRANK = drawn("cranking", (3.2e-6, 3.2e-6), 0.69e5, 0.3)


@pytest.fixture(autouse=True)
def stand_ins(monkeypatch):
    """Each cylinder is its own end angle; the battery has 12 V, 0.3 Ω in the motor, 0.1 outside."""
    monkeypatch.setattr(injector, "firing_angles", lambda _: FIRES)
    monkeypatch.setattr(injector, "arrives", lambda _, parts: parts)
    monkeypatch.setattr(injector, "end_angle", lambda _plain, parts, *_: parts)
    monkeypatch.setattr(injector, "battery_of", lambda _: Battery(12.0, 0.3, 0.1))
    monkeypatch.setattr(injector, "feeding", lambda _plain, at, arrive, flow: (at, arrive, flow))


def test_held_open_it_passes_by_the_root_of_density_and_pressure():
    assert held_open(plain(), FUEL, 1e5) == pytest.approx(1e-3)
    assert held_open(plain(), FUEL, 2.25e5) == pytest.approx(1.5e-3)
    assert held_open(plain(), SimpleNamespace(density=745.0), 1e5) == pytest.approx(0.5e-3)


def test_an_intakes_suction_adds_to_a_regulator_in_the_open_air():
    assert pressure_over(plain(), 0.69e5) == pytest.approx(2.56e5)
    assert pressure_over(plain(regulator="intake"), 0.69e5) == pytest.approx(2.25e5)


def test_a_battery_sags_while_the_starter_turns():
    """40 rad/s are 10 of the motor, of 40 free: three quarters of its stall, whose quarter sags.

    12 (1 - 0.75 · 0.25) = 9.75 V.
    """
    made = plain()
    assert cranking_voltage(made) == pytest.approx(9.75)
    made.spark.coil_on = "own"
    assert cranking_voltage(made) == pytest.approx(12.0)


def test_a_pulse_its_span_and_its_duty(monkeypatch):
    """16 mg at 1.6 g/s flow 10 ms, 24.96 flow 15.6; 1 ms is dead. 5 % of flow, 10 of dead time."""
    asked = []

    def ends(_plain, parts, speed, spray):
        asked.append((speed, spray))
        return parts

    monkeypatch.setattr(injector, "end_angle", ends)
    one = pulse_at(plain(), FUEL, FULL)
    assert (one.over, one.flow, one.dead_time) == pytest.approx((2.56e5, 1.6e-3, 1e-3))
    assert one.times == pytest.approx((11e-3, 16.6e-3))
    assert one.open_time == pytest.approx(10e-3)
    assert one.low == pytest.approx(16e-6 / 1.68e-3 + 0.9e-3)
    assert one.high == pytest.approx(16e-6 / 1.52e-3 + 1.1e-3)
    assert one.duty == pytest.approx(16.6 / 40)
    assert pulse_at(plain("all"), FUEL, FULL).duty == pytest.approx(27.6 / 40)
    spray = 0.8 * math.sqrt(2.0 * 2.56e5 / 2980.0)
    assert asked == [pytest.approx((300.0, spray))] * 4
    # 1.52 g/s for 11 - 1.1 ms; 1.68 for 11 - 0.9
    assert one.given == pytest.approx((1.52 * 9.9 / 16, 1.68 * 10.1 / 16))
    assert one.own_ends == OWN
    # 9 rad after a top that comes a turn and a half after the first, within two turns
    assert one.ends == pytest.approx((5.0, 9.0 - math.pi))
    assert one.feeding is None


def test_cranked_it_opens_as_late_as_at_what_the_battery_has_left():
    """9.75 V lie 2.25 of 4 below 12: 1 + 0.5625 ms."""
    assert pulse_at(plain(), FUEL, CRANK).dead_time == pytest.approx(1.5625e-3)


def test_flow_for_power_fits_into_what_a_cycle_leaves_open():
    """0.85 · 40 = 34 ms: less 1 ms for the larger of both, less 2 for both."""
    one = pulse_at(plain(), FUEL, FULL)
    assert flow_for(one, False) == pytest.approx(24.96e-6 / 33e-3)
    assert flow_for(one, True) == pytest.approx(1.28e-3)  # 40.96 mg in 32 ms


def facts(feeds, idle=IDLE, **put):
    found = SimpleNamespace(all=(CRANK, FULL) if idle is None else (CRANK, idle, FULL))
    return injector_facts(plain(feeds, **put), FUEL, found)


def test_what_an_engine_asks_of_one_for_all():
    """At 1.5 g/s where its regulator stands: power wants 1.28 of 1.6, idle takes 0.85 mg in 0.4 ms.

    So at least 1.28 · 1.5/1.6 = 1.2 g/s, at most 2.125 · 1.5/1.7 = 1.875. By pressure
    2.56 · (1.28/1.6)² - 0.31 = 1.3284 bar, and 2.89 · (2.125/1.7)² - 0.64 = 3.875625 bar.
    """
    found = facts("all")
    assert (found.shared, found.count, found.on_open) == (True, 1, True)
    assert found.flow == pytest.approx(1.5e-3)
    assert found.least_flow == pytest.approx(1.2e-3)
    assert found.most_flow == pytest.approx(1.875e-3)
    assert found.pressures == pytest.approx((1.3284e5, 3.875625e5))
    assert found.cranking_voltage == pytest.approx(9.75)
    assert [one.point.kind for one in found.pulses] == ["cranking", "idle", "full"]
    assert found.idle is found.pulses[1]
    assert found.hardest is found.pulses[2]
    at, arrive, flow = found.pulses[2].feeding
    assert at is FULL.at
    assert arrive == pytest.approx((5.0, 9.0 + 3.0 * math.pi))
    assert flow == pytest.approx(1.6e-3)


def test_what_it_asks_of_one_for_each():
    found = facts("each", ends="before_inlet_opens")
    assert (found.shared, found.count, found.on_open) == (False, 2, False)
    assert found.least_flow == pytest.approx(24.96e-6 / 33e-3 * 1.5 / 1.6)
    assert all(one.feeding is None for one in found.pulses)


def test_pressures_are_told_as_far_as_a_flow_can_be_scaled():
    """A quarter to four times of where it was told: 1.5 bar of 6, 3.6 of 0.9; none of 20."""
    pulses = facts("all").pulses
    fired = list(pulses[1:])

    def between(told, of=fired):
        return _pressures(plain("all", flow_at=told), of, True)

    assert between(6e5) == pytest.approx((1.5e5, 3.875625e5))
    assert between(0.9e5) == pytest.approx((1.3284e5, 3.6e5))
    assert between(20e5) is None
    assert between(1e5, [pulses[2]]) == pytest.approx((1.3284e5, 4e5))
    assert facts("all", idle=None).most_flow is None


def asked(least, most, pressures=None, flow=1.5e-3, idle=True):
    at_idle = SimpleNamespace(open_time=0.3e-3) if idle else None
    hard = SimpleNamespace(duty=0.97, point=SimpleNamespace(name="full throttle"))
    return SimpleNamespace(
        flow=flow, least_flow=least, most_flow=most, pressures=pressures, shared=False,
        hardest=hard, idle=at_idle, pulses=(),
    )  # fmt: skip


TOLD = {"flow": 60e-6 / 60.0, "flow_at": 1e5, "pressure": 2.25e5}
PETROL = SimpleNamespace(density=745.0)
HAS = 1.5 * 0.745e-3
"""kg/s of 60 cm³/min told at 1 bar, at 2.25 bar."""


def test_a_larger_injector_is_told_as_a_shop_tells_it():
    """A third more than it has, and a twentieth to be sure: 60 · 4/3 · 1.05 = 84 cm³/min."""
    found = asked(HAS * 4 / 3, None, (3e5, 9e5), HAS)
    (one,) = injector_faults(plain(**TOLD), PETROL, found)
    assert '"60 cm^3/min": too small' in one.fault
    assert "97 % of the cycle at full throttle" in one.fault
    assert 'works is "84 cm^3/min", or injector.pressure = "3.06 bar" with' in one.cure


def test_a_smaller_injector_is_told_so_too():
    """Seven tenths of what it has, a twentieth under: 60 · 0.7/1.05 = 40 cm³/min; 1.53/1.02 bar."""
    found = asked(0.1 * HAS, 0.7 * HAS, (0.5e5, 1.53e5), HAS)
    (one,) = injector_faults(plain(**TOLD), PETROL, found)
    assert "flow for 0.30 ms and it repeats from 0.40 ms on" in one.fault
    assert 'works is "40 cm^3/min", or injector.pressure = "1.5 bar" with' in one.cure


def test_a_pressure_is_not_told_where_its_room_is_narrower_than_the_margin():
    found = asked(HAS * 4 / 3, None, (3e5, 3.05e5), HAS)
    (one,) = injector_faults(plain(**TOLD), PETROL, found)
    assert "injector.pressure" not in one.cure


def test_an_injector_that_fits_has_no_fault_and_where_none_does_both_flows_are_told():
    assert not list(injector_faults(plain(**TOLD), PETROL, asked(HAS, HAS, None, HAS)))
    (one,) = injector_faults(plain(**TOLD), PETROL, asked(2.0 * HAS, 1.5 * HAS, None, HAS))
    assert 'wants "120 cm^3/min" at least and idle "90 cm^3/min" at most' in one.fault


@pytest.mark.parametrize(
    ("pressure", "nearest"), [(0.7e5, "0.75 bar"), (13e5, "12 bar"), (0.75e5, None), (12e5, None)]
)
def test_a_pressure_lies_within_a_quarter_and_four_times_of_where_flow_was_told(pressure, nearest):
    found = [one.cure for one in over_faults(plain(pressure=pressure, flow_at=3e5))]
    assert found == (
        [] if nearest is None else [f'The nearest that can be reckoned is "{nearest}".']
    )


def test_a_voltage_without_a_dead_time_is_told():
    """Told from 8 to 12 V: 9.75 while cranked lie within, 24 running do not."""
    (one,) = voltage_fault(plain(voltage=24.0))
    assert one.path == "injector.voltage"
    assert "24 V that it gets running: dead times are told from 8 to 12 V" in one.fault
    assert not list(voltage_fault(plain()))


def test_most_and_hardest_are_by_what_flows_and_what_is_on():
    pulses = tuple(
        SimpleNamespace(duty=duty, point=SimpleNamespace(kind="full")) for duty in (0.2, 0.7, 0.5)
    )
    found = InjectorFacts(False, 1, 0.0, 0.0, None, None, 12.0, pulses, False)
    assert found.hardest is pulses[1]
    assert found.idle is None
