"""An engine that has stood and is cold: what its rings hold, when they are loose, its thick oil."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.engine.by_hand import plain as plain_of
from tests.engine.by_hand import refused, unknown
from tests.runs.start.books import DEG, RPM, engine, summed, thicker, torques, walther

from firstfire.cycle.let_rub import let_rub
from firstfire.cycle.rubbing import rubbing
from firstfire.formulas import oring_friction, slider_crank
from firstfire.runs.cranking import cranked
from firstfire.runs.spun import on_its_shaft, starter_line
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.life import Life
from firstfire.runs.stood import break_loose, oil_now, sticks
from firstfire.runs.walls import cold

NIGHT, MONTH = 12 * 3600.0, 30 * 86_400.0


def stood(name, time, **more):
    return engine(name, use__stood=time, **more)


def test_o_rings_stick_and_others_do_not():
    """A night by hand: 1 + 2 log(43201)/log(864001) = 2.5617; at half the doubt 1.7808."""
    assert sticks(engine("wren"), NIGHT) == pytest.approx(2.5617, rel=1e-4)
    assert sticks(engine("wren", doubt__friction__stuck="0.5"), NIGHT) == pytest.approx(
        1.7808, rel=1e-4
    )
    assert sticks(engine("wren"), 0.0) == 1.0
    assert sticks(engine("plover"), NIGHT) == 1.0


def test_what_breaking_loose_asks_is_the_rings_at_their_longest_arm():
    """Rings by the handbook's line and area with nothing over them, times 3, times the slope of the
    slider-crank; the rest is what an engine without any stick asks, to 2 % where both peak."""
    plain = engine("wren")
    shaft, begins = starter_line(plain), 10 * DEG
    free = break_loose(plain, shaft, begins, 0.0)
    long = break_loose(plain, shaft, begins, MONTH)
    rubs, parts = rubbing(plain, 0), plain.cylinders[0]
    each = oring_friction.running_friction(rubs.line_level, rubs.ring_length, rubs.ring_area, 0.0)
    force = parts.rings.count * each * rubs.ring_doubt
    throw, rod = parts.cylinder.stroke / 2, parts.rod.length
    arm = max(
        -slider_crank.piston_height_slope(angle, throw, rod, 0.0)
        for angle in np.linspace(0.2, math.pi, 400)
    )
    assert free.factor == 1.0
    assert long.factor == pytest.approx(3.0)
    assert long.asks - free.asks == pytest.approx(2.0 * force * arm, rel=0.02)
    assert long.gives == pytest.approx(plain.starter.stall_torque)
    assert long.lacks == 0.0


@pytest.mark.parametrize("share", [0.9, 3.0])
def test_a_starter_breaks_it_loose_from_what_that_asks_on(share):
    """By stepping it: below the torque asked it stays within its first stroke. Above, what is
    drawn out behind a piston that leaves a shut chamber has to be overcome besides."""
    plain = stood("wren", "30 day", starter__inertia="0 kg*m^2")
    asks = break_loose(plain, starter_line(plain), 10 * DEG).asks
    torque = f"{share * asks:.6g} N*m"
    weak = stood("wren", "30 day", starter__inertia="0 kg*m^2", starter__stall_torque=torque)
    found = break_loose(weak, starter_line(weak), 10 * DEG)
    assert found.lacks == pytest.approx(max(1.0 - share, 0.0) * asks, rel=1e-3, abs=1e-9)
    turned = np.ptp(cranked(weak, 1.5).spun.angle)
    assert (turned >= math.pi) == (share > 1.0)


def test_rings_are_loose_after_half_a_turn_and_stay_so():
    plain = stood("wren", "30 day")
    life = Life(plain, Asked(seconds=0.6, after=0.0, fires_from=9.0))
    doubt = life.engines[0]["rubbing"]["ring_doubt"]
    running = rubbing(plain, 0).ring_doubt
    assert doubt[0] == pytest.approx(3.0 * running)
    begins, held = life.angle, True
    while life.now < 0.5:
        life.step()
        if held and doubt[0] < 2.0 * running:
            held = False
            assert life.angle - begins == pytest.approx(math.pi, abs=1e-5)
    assert doubt[0] == pytest.approx(running)
    assert not held


@pytest.mark.parametrize("way", ["start", "cranking"])
def test_energy_closes_with_stuck_rings_and_cold_oil(way):
    """Friction of the first half turn with rings of three times, of the rest with once, in the
    cold: starter and gas give that and what the shaft holds, to 2e-3 of what friction takes."""
    frost = {"surroundings__air_temperature": "-15 °C", "starter__coupling": "rigid"}
    cold_one = stood("wren", "30 day", **frost)
    if way == "start":
        life = Life(cold_one, Asked(seconds=0.6, after=0.0, fires_from=9.0))
        spun, spec, shaft = life.lived().spun, life.spec, life.shaft
    else:
        turned = cranked(cold_one, 0.6)
        spun, shaft = turned.spun, turned.shaft
        spec = on_its_shaft(cold_one, cold(cold_one), shaft, 0.2).spec
    doubt = cold_one.doubt
    rings = doubt.friction.model_copy(update={"ring": 3.0 * doubt.friction.ring})
    stuck_one = cold_one.model_copy(update={"doubt": doubt.model_copy(update={"friction": rings})})
    gas, once, load, moved = torques(cold_one, spec, spun)
    thrice = torques(stuck_one, spec, spun)[1]
    first = spun.angle < spun.angle[0] + math.pi
    friction = np.where(first, thrice, once)
    starter = np.maximum(shaft.starter_stall * (1 - spun.speed / shaft.starter_free), -math.inf)
    given = summed(starter + gas - friction - load, spun.angle)
    held = 0.5 * (shaft.inertia + moved) * spun.speed**2
    takes = summed(friction, spun.angle)
    assert takes > 5.0
    assert abs(given - (held[-1] - held[0])) < 2e-3 * takes


def test_cold_oil_by_the_chart_and_by_palmgren():
    plain = engine("wren", surroundings__air_temperature="-15 °C")
    assert 1e6 * oil_now(plain) == pytest.approx(walther(plain), rel=1e-6)
    assert oil_now(engine("wren", surroundings__air_temperature="-39 °C")) < 1.0
    record = on_its_shaft(plain, cold(plain), starter_line(plain), 0.2).engines[0]
    at_speed = float(record["shaft_rubbing"]["bearing_drag"]) * (500 * RPM) ** (2 / 3)
    running = np.zeros(1, record["shaft_rubbing"].dtype)
    let_rub(records := np.array([record.copy()]), plain)
    running = float(records[0]["shaft_rubbing"]["bearing_drag"]) * (500 * RPM) ** (2 / 3)
    assert at_speed - running == pytest.approx(float(thicker(plain, 500 * RPM)), rel=1e-6)
    assert at_speed > 10.0 * running


def test_an_oil_that_has_set_is_a_million_times_water():
    lines = {"case__viscosity_40": "500 mm^2/s", "case__viscosity_100": "20 mm^2/s"}
    assert oil_now(engine("wren", surroundings__air_temperature="-39 °C", **lines)) == 1.0


def test_it_is_not_made_to_stick_where_it_does_not_stand():
    life = Life(stood("wren", "30 day"), Asked(seconds=1.0, speed=60.0))
    assert not life.stood.acts
    other = Life(stood("wren", "30 day"), Asked(seconds=1.0)).again()
    assert other.stood.engines is other.engines


def test_oil_by_what_lubricates_and_what_is_refused():
    grease, oil = plain_of({}).case, plain_of({"case.lubrication": "splash"}).case
    assert (grease.viscosity_40, grease.viscosity_100) == pytest.approx((100e-6, 11e-6))
    assert (oil.viscosity_40, oil.viscosity_100) == pytest.approx((93e-6, 10.8e-6))
    said = refused({"case.viscosity_40": "10 mm^2/s", "case.viscosity_100": "11 mm^2/s"})
    assert "thin as they warm" in said["case.viscosity_100"]
    assert plain_of({}).use.stood == 60.0


def test_how_uncertain_sticking_is():
    found = unknown({})["doubt.friction.stuck"]
    assert (found.low, found.high) == pytest.approx((0.5, 2.0))
    assert "doubt.friction.stuck" not in unknown({"rings.kind": "ptfe"})
    assert "doubt.friction.stuck" not in unknown({"use.stood": "0 s"})
