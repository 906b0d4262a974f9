"""When the spark really comes: closed forms of uniform acceleration, and how a controller errs.

Motions are made up as parabolas or by hand, so that each edge and spark is where a pocket
calculator says. A coil's current by its differential equation, which SciPy integrates.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from firstfire.errors import OutsideValidity
from firstfire.formulas.clock_timing import (
    clock_advance,
    clock_delay,
    measured_speed,
    table_advance,
)
from firstfire.formulas.ignition_coil import coil_energy
from firstfire.formulas.sensor_edges import Sensor
from firstfire.formulas.spark_clock import Coil, SparkClock, Timing
from firstfire.formulas.sparks_along import sparks_along, wheel_of

TURN = 2 * math.pi
RPM = math.pi / 30
DEGREE = math.pi / 180
COIL = Coil(30e-3, 2e-3)
EDGE = Timing("edge", 25 * DEGREE, 5 * DEGREE, 5 * DEGREE, ((0.0, 25 * DEGREE),), 60.0)
CLOCK = Timing(
    "clock", 70 * DEGREE, 50 * DEGREE, 5 * DEGREE, ((0.0, 5 * DEGREE), (400.0, 35 * DEGREE)), 20.0
)
POINTS = Timing("points", 140 * DEGREE, 22 * DEGREE, 22 * DEGREE, ((0.0, 22 * DEGREE),))


def even(speed, turns, timing, *, from_angle=-3.0, **more):
    time = np.linspace(0.0, turns * TURN / speed, 7)
    return sparks_along(time, from_angle + speed * time, np.full(7, speed), timing, COIL, **more)


def uniform(speed, acceleration, timing, *, turns=1.4):
    """From before one tooth to behind the next at whose leading side the shaft has that speed."""
    at_edge = TURN - timing.leading
    lasts = (speed - math.sqrt(speed**2 - 2 * acceleration * turns * TURN)) / acceleration
    time = np.array([-lasts, 0.0, 0.9 * timing.leading / speed * 1.6])
    angle = at_edge + speed * time + 0.5 * acceleration * time**2
    return sparks_along(time, angle, speed + acceleration * time, timing, COIL)


# Laws


def test_a_table_is_straight_between_its_rows_and_level_beyond():
    speeds, angles = np.array([50.0, 120.0, 300.0]), np.array([0.05, 0.3, 0.42])
    table = list(zip(speeds.tolist(), angles.tolist(), strict=True))
    for speed in np.linspace(0.0, 400.0, 81).tolist():
        assert table_advance(speed, table) == pytest.approx(np.interp(speed, speeds, angles))
    assert table_advance(77.0, table[:1]) == 0.05
    for wrong in ([], [(2.0, 0.1), (2.0, 0.2)], [(2.0, 0.1), (1.0, 0.2)]):
        with pytest.raises(OutsideValidity, match="advance table"):
            table_advance(1.5, wrong)


@given(st.floats(1e-4, 0.05), st.floats(2e-4, 0.02))
def test_a_coil_holds_half_its_inductance_times_current_squared(charging, constant):
    # L di/dt = U - R i with U = 12 V, R = 3 ohms, L = R τ.
    inductance = 3.0 * constant
    current = solve_ivp(
        lambda _, i: (12.0 - 3.0 * i) / inductance, (0.0, charging), [0.0], rtol=1e-9, atol=1e-12
    ).y[0, -1]
    full = 0.5 * inductance * (12.0 / 3.0) ** 2
    held = coil_energy(full, charging, constant)
    assert held == pytest.approx(0.5 * inductance * current**2, rel=1e-6)


def test_a_coil_given_no_time_is_empty_and_given_long_is_full():
    assert coil_energy(30e-3, 0.0, 2e-3) == 0.0
    assert coil_energy(30e-3, 1.0, 2e-3) == pytest.approx(30e-3)
    with pytest.raises(OutsideValidity, match="charging time"):
        coil_energy(30e-3, -1e-3, 2e-3)


def test_waiting_by_the_clock():
    # 40° at 1000 rpm: 6000° a second.
    assert clock_delay(60 * DEGREE, 20 * DEGREE, 1000 * RPM) == pytest.approx(40 / 6000)
    assert clock_delay(20 * DEGREE, 30 * DEGREE, 1000 * RPM) == 0.0
    with pytest.raises(OutsideValidity, match="measured speed"):
        clock_delay(1.0, 0.5, 0.0)


@given(st.floats(10.0, 400.0), st.floats(-2000.0, 2000.0), st.floats(0.05, 12.6))
def test_measured_speed_is_span_over_the_time_it_took(speed, acceleration, span):
    if speed**2 - 2 * acceleration * span < 1.0:
        return
    took = span / measured_speed(speed, acceleration, span)
    assert speed * took - 0.5 * acceleration * took**2 == pytest.approx(span, rel=1e-9)


def test_a_shaft_that_stood_less_than_the_span_ago_is_refused():
    with pytest.raises(OutsideValidity, match="speed a span ago"):
        measured_speed(10.0, 10.0, 6.0)


def test_a_slowing_crank_by_hand():
    # 400 rpm = 41.888 rad/s; a turn ago √(41.888² + 800·2π) = 82.35; measured 62.12 rad/s; 60° in
    # 16.858 ms; turned 41.888·0.016858 - 200·0.016858² = 0.6493 rad = 37.20°; so 32.80° early.
    found = clock_advance(70 * DEGREE, 10 * DEGREE, 400 * RPM, -400.0)
    assert found / DEGREE == pytest.approx(32.80, abs=0.01)


@given(st.floats(20.0, 400.0), st.floats(0.0, 2e-3))
def test_at_steady_speed_it_is_late_by_latency_times_speed(speed, latency):
    found = clock_advance(1.2, 0.3, speed, 0.0, latency=latency)
    assert found == pytest.approx(0.3 - latency * speed)


@given(st.floats(40.0, 400.0), st.floats(1.0, 120.0), st.floats(0.02, 6.3))
def test_a_slowing_shaft_fires_early_and_a_quickening_one_late(speed, rate, span):
    early = clock_advance(1.2, 0.3, speed, -rate, span=span)
    late = clock_advance(1.2, 0.3, speed, rate, span=span)
    assert early > 0.3 > late


def test_measured_over_a_tooth_it_errs_less_than_over_a_turn():
    errors = [clock_advance(1.2, 0.3, 100.0, -300.0, span=span) - 0.3 for span in (0.1, 1.0, TURN)]
    assert 0 < errors[0] < errors[1] < errors[2]


# Along a record


@pytest.mark.parametrize("latency", [0.0, 3e-4])
@pytest.mark.parametrize("measured", ["turn", "tooth"])
def test_by_the_clock_at_steady_speed(measured, latency):
    timing = CLOCK._replace(latency=latency, measured=measured)
    found = even(200.0, 6, timing)
    # 200 rad/s is half way through the table: 20°.
    assert found.asked == pytest.approx(20 * DEGREE)
    assert found.advance == pytest.approx(20 * DEGREE - 200.0 * latency)
    assert len(found.time) == (6 if measured == "tooth" else 5)


@pytest.mark.parametrize("acceleration", [-600.0, -90.0, 90.0, 250.0])
@pytest.mark.parametrize("measured", ["turn", "tooth"])
def test_by_the_clock_at_uniform_acceleration(acceleration, measured):
    timing = CLOCK._replace(
        running=((0.0, 10 * DEGREE),), latency=1e-4, measured=measured, running_from=0.0
    )
    speed, reference, span = 75.0, timing.leading, TURN
    found = uniform(speed, acceleration, timing)
    if measured == "tooth":
        reference, span = timing.trailing, 20 * DEGREE
        speed = math.sqrt(speed**2 + 2 * acceleration * span)
    wanted = clock_advance(reference, 10 * DEGREE, speed, acceleration, latency=1e-4, span=span)
    assert found.advance[-1] == pytest.approx(wanted, abs=1e-9)
    if abs(acceleration) > 200 and measured == "turn":
        assert (found.advance[-1] > found.asked[-1]) == (acceleration < 0)


@pytest.mark.parametrize("speed", [30.0, 300.0])
def test_by_an_edge_it_is_late_by_latency_times_speed_however_it_slows(speed):
    timing = EDGE._replace(latency=2e-4)
    found = even(speed, 8, timing)
    wanted = 25 * DEGREE if speed > 60 else 5 * DEGREE
    assert found.advance[2:] == pytest.approx(wanted - 2e-4 * speed)
    slowing = uniform(80.0, -300.0, timing)
    assert slowing.advance[-1] == pytest.approx(25 * DEGREE - 80 * 2e-4 + 150 * 4e-8, abs=1e-9)


def test_the_first_spark_is_the_late_edges_until_a_turn_has_been_measured():
    found = even(300.0, 5, EDGE)
    assert found.advance / DEGREE == pytest.approx([5, 25, 25, 25, 25])
    assert found.asked / DEGREE == pytest.approx([5, 25, 25, 25, 25])


def test_of_an_edge_the_side_nearer_to_the_advance_asked():
    for asked, wanted in ((14.0, 5.0), (16.0, 25.0), (40.0, 25.0)):
        timing = EDGE._replace(running=((0.0, asked * DEGREE),))
        assert even(300.0, 5, timing).advance[1:] / DEGREE == pytest.approx(wanted)


def test_by_the_clock_nothing_fires_before_a_speed_is_known():
    found = even(100.0, 4, CLOCK, from_angle=-2.0)
    assert found.angle[0] == pytest.approx(TURN - found.asked[0])
    late = even(100.0, 4, CLOCK._replace(least_speed=101.0))
    assert len(late.time) == 0


def test_no_spark_above_the_limit():
    limited = CLOCK._replace(limit_speed=150.0)
    assert len(even(149.0, 6, limited).time) == 5
    assert len(even(151.0, 6, limited).time) == 0
    # Points know no speed, but can't follow their lobe either: only before it is measured.
    assert len(even(151.0, 6, POINTS._replace(limit_speed=150.0)).time) == 1


def test_on_the_camshaft_half_as_many_sparks_each_before_a_firing_top():
    crank, cam = even(200.0, 12, POINTS), even(200.0, 12, POINTS._replace(turn=2 * TURN))
    assert crank.firing.tolist() == [True, False] * 6
    assert cam.firing.tolist() == [True] * 6
    assert cam.time == pytest.approx(crank.time[::2])
    assert cam.advance == pytest.approx(22 * DEGREE)


def test_another_cylinders_sparks_come_by_its_own_top():
    own, second = even(200.0, 8, POINTS), even(200.0, 8, POINTS, top=3 * math.pi)
    assert second.advance == pytest.approx(22 * DEGREE)
    for angle, firing in zip(second.angle, second.firing, strict=True):
        beyond = angle + 22 * DEGREE - 3 * math.pi
        assert firing == (abs(math.remainder(beyond, 2 * TURN)) < 1e-6)
    assert len(own.time) == len(second.time)


def test_points_fire_as_they_open_and_feed_the_coil_while_shut():
    found = even(100.0, 6, POINTS)
    shut = (140 - 22) * DEGREE / 100.0
    assert found.advance == pytest.approx(22 * DEGREE)
    assert found.energy[1:] == pytest.approx(30e-3 * (1 - math.exp(-shut / 2e-3)) ** 2)
    fast = even(1500.0, 6, POINTS)
    assert fast.energy[1:] == pytest.approx(30e-3 * (1 - math.exp(-shut / 15 / 2e-3)) ** 2)


def test_a_controllers_coil_is_fed_from_spark_to_spark_at_most_for_its_dwell():
    between = TURN / 1500.0
    for latency in (0.0, 1e-3):
        fast = even(1500.0, 8, EDGE._replace(latency=latency))
        assert fast.energy[2:] == pytest.approx(30e-3 * (1 - math.exp(-between / 2e-3)) ** 2)
    time = np.array([0.0, 1.0])
    dwelt = sparks_along(time, 100 * time, np.full(2, 100.0), EDGE, Coil(30e-3, 2e-3, dwell=3e-3))
    assert dwelt.energy[1:] == pytest.approx(30e-3 * (1 - math.exp(-1.5)) ** 2)


def test_a_record_that_begins_late_begins_with_an_empty_coil():
    time = np.array([7.0, 7.1])
    found = sparks_along(time, 100 * (time - 7.0) - 0.3, np.full(2, 100.0), EDGE, COIL)
    flows = (0.3 - 5 * DEGREE) / 100
    assert found.energy[0] == pytest.approx(30e-3 * (1 - math.exp(-flows / 2e-3)) ** 2)


def test_a_spark_due_after_the_record_is_not_in_it():
    whole, cut = even(200.0, 6, CLOCK), even(200.0, 5.4, CLOCK)
    # The last tooth has passed 70° before top, the spark would be 20° before.
    ended = math.remainder(-3.0 + 5.4 * TURN, TURN) / DEGREE
    assert -70 < ended < -20
    assert len(whole.time) - len(cut.time) == 1


def test_by_the_tooths_end_in_starting_and_then_by_the_clock():
    timing = CLOCK._replace(by="edge_then_clock", trailing=5 * DEGREE, running_from=100.0)
    slow, fast = even(50.0, 6, timing), even(200.0, 6, timing._replace(latency=1e-4))
    assert slow.advance / DEGREE == pytest.approx([5.0] * 6)
    late = 200.0 * 1e-4 / DEGREE
    assert fast.advance / DEGREE == pytest.approx([5 - late] + [20 - late] * 5)


def test_points_of_a_shaft_thrown_back_fire_where_they_would_shut():
    # Up to 60° before top at t = 0, and back: the tooth was entered at 140° and is left there.
    time = np.array([-0.3, 0.0, 0.3])
    found = sparks_along(time, -60 * DEGREE - 40 * time**2, -80 * time, POINTS, COIL)
    assert found.advance / DEGREE == pytest.approx([140.0])
    assert found.time == pytest.approx([math.sqrt(80 * DEGREE / 40)])


def test_a_controller_does_not_see_that_the_shaft_goes_back():
    # Over the late edge it fires; thrown back from top over the tooth it sees it begin anew.
    time = np.array([-0.4, 0.0, 0.4])
    found = sparks_along(time, 3 * DEGREE - 40 * time**2, -80 * time, EDGE, COIL)
    ahead = math.sqrt(8 * DEGREE / 40)
    back = math.sqrt(28 * DEGREE / 40)
    speed = TURN / (ahead + back)
    assert speed < 60
    assert found.time == pytest.approx([-ahead, back])
    assert found.advance / DEGREE == pytest.approx([5.0, 25.0])


def supply_lost(timing, lost):
    time = np.arange(0.0, 0.4, 1e-3)
    return sparks_along(time, 200 * time - 3.0, np.full(len(time), 200.0), timing, COIL,
                        supplied=~((time > lost[0]) & (time < lost[1])))  # fmt: skip


def test_after_a_dip_of_the_battery_it_learns_its_speed_anew():
    sound, dipped = supply_lost(CLOCK, (1.0, 2.0)), supply_lost(CLOCK, (0.12, 0.13))
    missed = set(np.round(sound.time, 6)) - set(np.round(dipped.time, 6))
    edges = (TURN * np.arange(12) + 3.0 - 70 * DEGREE) / 200
    next_edge = edges[edges > 0.13][0]
    due_then = sound.time[(sound.time > 0.12) & (sound.time < next_edge + TURN / 200)]
    assert missed == set(np.round(due_then, 6))
    assert 1 <= len(missed) <= 2
    late = supply_lost(EDGE, (0.12, 0.13))
    again = late.time > 0.13
    assert late.advance[again][:2] / DEGREE == pytest.approx([5.0, 25.0])
    # Current flows into the coil again from the first step with voltage on.
    flows = late.time[again][0] - 0.13
    assert late.energy[again][0] == pytest.approx(30e-3 * (1 - math.exp(-flows / 2e-3)) ** 2)


def test_a_spark_due_while_the_voltage_is_low_does_not_come():
    sound = supply_lost(CLOCK, (1.0, 2.0))
    at = float(sound.time[4])
    dipped = supply_lost(CLOCK, (at - 2e-3, at + 2e-3))
    assert np.min(np.abs(dipped.time - at)) > 1e-3


def test_a_scattering_sensor_scatters_the_spark_by_its_seed():
    sensor = Sensor(scatter=2e-5)
    one, same, other = (even(200.0, 400, EDGE, sensor=sensor, seed=seed) for seed in (4, 4, 5))
    assert one.time.tobytes() == same.time.tobytes()
    assert one.time.tobytes() != other.time.tobytes()
    assert one.advance[1:].std() == pytest.approx(200.0 * 2e-5, rel=5 / math.sqrt(800))


# Step by step


@pytest.mark.parametrize("timing", [EDGE, CLOCK, CLOCK._replace(measured="tooth"), POINTS])
def test_edge_by_edge_it_is_what_it_is_along_a_record(timing):
    """A run that goes to each edge and then to what is due, found by its own closed form."""
    speed, slows = 220.0, 40.0
    time = np.linspace(0.0, 1.2, 5)
    angle = -3.0 + speed * time - 0.5 * slows * time**2
    along = sparks_along(time, angle, speed - slows * time, timing, COIL)

    def passes(at):
        return (speed - math.sqrt(speed**2 - 2 * slows * (at + 3.0))) / slows

    clock, found = SparkClock(timing, COIL), []
    for top in np.arange(0, 40) * TURN:
        for side, rising in ((timing.leading, True), (timing.trailing, False)):
            at = passes(top - side)
            before = clock
            clock, due = clock.at_edge(at, rising)
            assert before.at_edge(at, rising) == (clock, due)
            if due is not None:
                found.append(due)
    found = [due for due in found if due.time <= 1.2]
    assert len(found) == len(along.time) > 30
    assert along.time == pytest.approx([due.time for due in found])
    assert along.energy == pytest.approx([due.energy for due in found])
    assert along.asked == pytest.approx([due.asked for due in found])


def test_without_supply_an_edge_begins_it_anew():
    clock = SparkClock(EDGE, COIL)
    for at in (0.1, 0.2, 0.3):
        clock, _ = clock.at_edge(at, True)
    assert clock.speed == pytest.approx(TURN / 0.1)
    begun, due = clock.at_edge(0.4, True, supplied=False)
    assert due is None
    assert begun == SparkClock(EDGE, COIL, charged_from=0.4) == clock.reset(0.4)


def test_the_tooth_of_a_timing():
    wheel = wheel_of(POINTS, 1.0)
    assert wheel.first == pytest.approx(1.0 - 140 * DEGREE)
    assert wheel.width * TURN == pytest.approx(118 * DEGREE)
    assert wheel_of(POINTS._replace(turn=2 * TURN)).turns_per_cycle == 1
    with pytest.raises(OutsideValidity, match="trailing side"):
        wheel_of(POINTS._replace(leading=0.1))
