"""Torque at a held speed by another sum; from which speed it goes on; its idle."""

from __future__ import annotations

import math

import pytest
from tests.runs.start.books import RPM, engine, summed, torques

from firstfire.cycle.records import ShaftSpec
from firstfire.errors import Stopped
from firstfire.runs.spun import starter_line
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.going import at_speed, least_speed, let_loose, runs_on
from firstfire.runs.start.idle import idling
from firstfire.runs.start.life import Life

OPEN = Asked()


@pytest.mark.parametrize(("name", "rpm"), [("wren", 400), ("wren", 2000), ("plover", 1200)])
def test_torque_at_a_speed_is_that_of_its_own_books(name, rpm):
    """What gas gives against the case less friction and load, over the same four cycles.

    Net torque is told from how a wheel of 50 kg·m² quickens: 0.5 % of the gas's.
    """
    plain = engine(name)
    found = at_speed(plain, OPEN, rpm * RPM)
    life = Life(plain, Asked(seconds=math.inf, speed=rpm * RPM, charged=True), ShaftSpec(50.0))
    begins = life.angle
    while life.angle < begins + 32 * math.pi - 1e-9:
        life.step(begins + 32 * math.pi)
    spun = life.told().spun
    last = spun.since(spun.time[(spun.angle < begins + 16 * math.pi - 1e-9).sum()])
    gas, friction, load, _ = torques(plain, life.spec, last)
    net = summed(gas - friction - load, last.angle) / (16 * math.pi)
    assert found.net == pytest.approx(net, abs=5e-3 * found.gas)
    assert found.burned == 1.0
    assert found.peak == pytest.approx(spun.pressure[:, : len(plain.cylinders)].max())
    assert found.gas == pytest.approx(summed(gas, last.angle) / (16 * math.pi), rel=2e-3)


def test_a_held_speed_is_held_and_its_starter_left_out():
    strong = at_speed(engine("wren", starter__stall_torque="200 N*m"), OPEN, 750 * RPM)
    assert strong.net == at_speed(engine("wren"), OPEN, 750 * RPM).net


def test_without_spark_or_mixture_it_only_takes():
    dry = at_speed(engine("wren"), Asked(mixture=0.3), 1000 * RPM)
    assert dry.burned == 0.0
    assert dry.net < dry.gas < 0.0
    assert dry.peak < 20e5


def test_above_its_least_speed_it_goes_on_and_below_it_stops():
    """5 and 30 % above, 10 % below: found to 5 %."""
    plain = engine("plover")
    least = least_speed(plain, OPEN)
    assert 100 * RPM < least < 2000 * RPM
    assert runs_on(plain, OPEN, 1.05 * least)
    assert runs_on(plain, OPEN, 1.3 * least)
    assert not runs_on(plain, OPEN, 0.9 * least)


def test_a_heavier_flywheel_lowers_it():
    """2800, 1500 and 690 rpm: a light wheel is stopped by the next compression."""
    light, own, heavy = (
        least_speed(engine("wren", flywheel__inertia=f"{inertia} kg*m^2"), OPEN)
        for inertia in (0.0004, 0.00135, 0.006)
    )
    assert light > 1.3 * own > 1.3 * 1.3 * heavy


def test_with_its_throttle_shut_it_goes_on_from_no_speed():
    assert least_speed(engine("wren"), Asked(throttle=0.003)) == math.inf


def test_what_is_let_loose_turns_by_itself_alone():
    """Without its starter: its wheel and crank only, and a rigid one's rotor gone as well."""
    for coupling in ("one_way", "rigid"):
        plain = engine("wren", starter__coupling=coupling)
        life = let_loose(plain, OPEN, 1800 * RPM)
        shaft = life.engines[0]["shaft"]
        own = starter_line(plain)
        rotor = 0.0 if own.rotor else plain.starter.inertia / plain.starter.ratio**2
        assert shaft["inertia"] == pytest.approx(own.inertia - rotor)
        assert shaft["starter_stall"] == 0.0
        assert shaft["rotor"] == 0.0


def test_idle_balances_what_its_throttle_gives():
    """At that opening its torque is just over none, and 6 % less of it is under."""
    plain = engine("plover")
    found = idling(plain, Asked(seed=1))
    speed = plain.use.idle_speed

    def net(opening):
        return at_speed(plain, Asked(throttle=opening), speed).net

    assert net(found.opening) > 0.0 > net(found.opening / 1.06)
    # A balance found with a wheel that evens all out: by itself, uneven, it settles near.
    assert found.speed == pytest.approx(speed, rel=0.25)
    assert 0.0 < found.unsteady < 0.1


def test_an_engine_that_gives_nothing_has_no_idle():
    found = idling(engine("wren"), Asked(mixture=0.3, seed=1))
    assert found.opening is None
    assert found.speed == 0.0


def test_it_stops_when_told():
    with pytest.raises(Stopped):
        at_speed(engine("wren"), OPEN, 2000 * RPM, lambda: True)
