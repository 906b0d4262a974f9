"""A starter on a battery with a resistance: what it turns, and what it leaves the coil."""

from __future__ import annotations

import math

import pytest
from tests.engine.by_hand import plain as plain_of
from tests.engine.by_hand import refused, unknown
from tests.runs.start.books import RPM, engine, read

from firstfire.engine.battery import battery_of, torque_at_a_stand
from firstfire.engine.resolve import resolve
from firstfire.runs.cranking import cranked
from firstfire.runs.spun import starter_line
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.faults.all import with_faults
from firstfire.runs.start.life import Life

MOTOR = {"starter__kind": "electric_motor"}


def motor(**more):
    return engine("wren", **MOTOR, **{f"starter__{name}": value for name, value in more.items()})


def test_the_rows_battery_by_hand():
    """12 V, 8 N·m, 1500 rpm: 12²/(8 × 157.08) = 0.1146 ohm; 0.025 before it keep 0.8209: 6.567 N·m
    and 85.96 A."""
    starter = motor().starter
    battery = battery_of(starter)
    assert battery.winding == pytest.approx(0.11459, rel=1e-4)
    assert battery.share == pytest.approx(0.82091, rel=1e-4)
    assert battery.stall_current == pytest.approx(85.96, rel=1e-3)
    assert torque_at_a_stand(starter) == pytest.approx(6.5672, rel=1e-4)
    # Geared 1 to 2 the crank has twice the torque and half the speed; the free speed stays.
    geared = starter_line(motor(ratio=0.5))
    assert geared.starter_stall == pytest.approx(13.134, rel=1e-4)
    assert geared.starter_free == pytest.approx(750 * RPM)


def test_a_stiff_battery_or_an_arm_loses_nothing():
    assert battery_of(motor(battery_resistance="0 ohm").starter) is None
    assert torque_at_a_stand(motor(battery_resistance="0 ohm").starter) == pytest.approx(8.0)
    assert battery_of(engine("wren").starter) is None
    rope = engine("plover", starter__battery_voltage="12 V", starter__battery_resistance="1 ohm")
    assert torque_at_a_stand(rope.starter) == rope.starter.stall_torque


def test_a_drill_with_a_cold_pack_cranks_slower():
    """50 N·m at 450 rpm on 18 V are 0.1375 ohm; as much again halves it."""
    lines = {"starter__battery_voltage": "18 V", "starter__battery_resistance": "0.1375 ohm"}
    cold = engine("wren", **lines)
    assert torque_at_a_stand(cold.starter) == pytest.approx(25.0, rel=1e-3)
    assert cold.spark.coil_on == "own"
    assert cranked(cold, 2.0).least_speed < cranked(engine("wren"), 2.0).least_speed


@pytest.mark.parametrize("coupling", ["one_way", "rigid"])
def test_the_spark_that_is_left(coupling):
    """Energies over those of a coil on a battery of its own: (U/12 V)², U by the shaft's speed."""
    heavy = {"flywheel__inertia": "0.01 kg*m^2", "starter__inertia": "0.002 kg*m^2", **MOTOR}
    sags = {"starter__battery_resistance": "0.15 ohm", "starter__coupling": coupling}
    plain = engine("wren", **heavy, **sags)
    own = plain.model_copy(update={"spark": plain.spark.model_copy(update={"coil_on": "own"})})
    assert plain.spark.coil_on == "starter_battery"
    asked = Asked(seconds=1.2, after=0.6, fires_from=0.5, mixture=0.01)
    shared, alone = (Life(one, asked) for one in (plain, own))
    sparks = [life.lived().sparks for life in (shared, alone)]
    assert len(sparks[0]) == len(sparks[1]) > 3
    assert sparks[0][-1].seconds > 1.21
    battery, free = battery_of(plain.starter), shared.shaft.starter_free
    assert (shared.shaft.rotor > 0.0) == (coupling == "one_way")
    for one, other in zip(*sparks, strict=True):
        share = one.energy / other.energy
        if one.seconds > 1.21:
            assert share == 1.0
            continue
        draws = 1.0 - one.speed / free
        left = 12.0 - draws * battery.stall_current * battery.added
        assert share == pytest.approx((left / 12.0) ** 2, rel=0.03)
        assert share < 0.95


def test_a_low_battery_has_the_same_motor():
    changed, asked = with_faults(read("wren", **MOTOR), Asked(), ["low_battery=0.75"])
    weak, whole = (battery_of(one.starter) for one in (resolve(changed), motor()))
    assert weak.voltage == pytest.approx(9.0)
    assert weak.winding == pytest.approx(whole.winding, rel=1e-4)
    assert asked.wrong.spark_share == pytest.approx(0.5625)


def test_how_uncertain_and_what_is_refused():
    line = {"starter.kind": "electric_motor", "starter.battery_resistance": "0.03 ohm"}
    ohms = unknown(line)["starter.battery_resistance"]
    assert (ohms.low, ohms.high) == pytest.approx((0.015, 0.06))
    assert "starter.battery_resistance" not in unknown({})
    alone = refused({"starter.battery_resistance": "0.03 ohm"})
    assert 'battery_voltage = "12 V"' in alone["starter.battery_resistance"]
    assert "no battery" in refused({"spark.coil_on": "starter_battery"})["spark.coil_on"]
    assert plain_of({"starter.kind": "electric_motor"}).spark.coil_on == "starter_battery"
    assert math.isclose(plain_of(line).starter.battery_voltage, 12.0)
