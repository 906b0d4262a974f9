"""Edges of a turning shaft against closed forms and SciPy's root finder.

Sources: uniform acceleration and the pendulum-like swing by closed form; an uneven shaft
``Ω t + A sin ω t``, its passages found by `scipy.optimize.brentq` on the formula itself; normal
and Poisson laws, with bounds of five standard errors.
"""

import math

import numpy as np
import pytest
from scipy.interpolate import CubicHermiteSpline
from scipy.optimize import brentq

from firstfire.errors import OutsideValidity
from firstfire.formulas import hermite
from firstfire.formulas.sensor_edges import Sensor, Wheel, edge_times

TURN = 2 * math.pi


def uneven(t):
    """A cranked shaft: 40 rad/s, swinging by 12 rad/s at 15 Hz; never back."""
    return 40 * t + 12 / 94 * np.sin(94 * t), 40 + 12 * np.cos(94 * t)


@pytest.mark.parametrize("seed", range(3))
def test_between_rows_it_is_scipys_hermite_spline(seed):
    draw = np.random.default_rng(seed)
    time = np.cumsum(draw.uniform(0.1, 1.0, 40))
    value, slope = draw.normal(size=40), draw.normal(size=40)
    at = draw.uniform(time[0], time[-1], 500)
    theirs = CubicHermiteSpline(time, value, slope)
    assert hermite.interpolated(at, time, value, slope) == pytest.approx(theirs(at), abs=1e-13)
    shares = hermite.turning_shares(hermite.cubics(time, value, slope))
    turns = theirs.derivative().roots(extrapolate=False)
    step = np.searchsorted(time, turns, side="right") - 1
    wanted = (turns - time[step]) / np.diff(time)[step]
    inside = (shares > 0) & (shares < 1)
    assert inside.sum() == len(turns) > 20
    assert np.sort(shares[inside]) == pytest.approx(np.sort(wanted), abs=1e-9)


def test_a_doubled_row_divides_nothing_by_nothing():
    time, value, slope = np.array([0.0, 1.0, 1.0]), np.array([0.0, 1.0, 1.0]), np.ones(3)
    at = np.array([0.25, 1.0])
    assert hermite.interpolated(at, time, value, slope) == pytest.approx(at)
    # What jumps there is afterwards what it jumped to.
    time, value = np.array([0.0, 1.0, 1.0, 2.0]), np.array([0.0, 1.0, 5.0, 6.0])
    assert hermite.interpolated(np.array([1.0]), time, value, np.ones(4)) == pytest.approx([5.0])


@pytest.mark.parametrize(
    ("time", "rows", "said"),
    [
        ([0.0, 2.0, 1.0], 3, "goes back"),
        ([0.0, math.nan, 1.0], 3, "goes back"),
        ([0.0], 1, "two rows"),
        ([0.0, 1.0], 3, "alike"),
    ],
)
def test_what_is_no_record_is_refused(time, rows, said):
    with pytest.raises(OutsideValidity, match=said):
        hermite.cubics(np.array(time), np.zeros(rows), np.zeros(rows))


def test_nothing_is_told_outside_of_a_record():
    time = np.array([1.0, 2.0])
    for at in (0.99, 2.01, math.nan):
        with pytest.raises(OutsideValidity, match="outside of the record"):
            hermite.interpolated(np.array([1.5, at]), time, time, np.ones(2))


@pytest.mark.parametrize(
    "wheel",
    [Wheel(0), Wheel(3, missing=3), Wheel(3, missing=-1), Wheel(3, width=1.0),
     Wheel(3, turns_per_cycle=4)],
)  # fmt: skip
def test_a_wheel_that_cannot_be_is_refused(wheel):
    time = np.array([0.0, 1.0])
    with pytest.raises(OutsideValidity):
        edge_times(time, time, np.ones(2), wheel)
    with pytest.raises(OutsideValidity, match="dead time"):
        edge_times(time, time, np.ones(2), Wheel(3), Sensor(dead_time=-1.0))


def test_passages_at_uniform_acceleration_are_exact_over_any_step():
    # θ = 3 t + 5 t²: a parabola, which a cubic holds whole; one step of 4 s, 92 rad.
    time = np.array([0.0, 4.0])
    edges = edge_times(time, 3 * time + 5 * time**2, 3 + 10 * time, Wheel(12, first=0.1))
    rising = edges.angle[edges.rising]
    assert rising == pytest.approx(0.1 + TURN / 12 * np.arange(176))
    exact = (-3 + np.sqrt(9 + 20 * edges.angle)) / 10
    assert edges.time == pytest.approx(exact, rel=1e-12)


def passages(rows, wheel):
    time = np.linspace(0.0, 0.5, rows)
    return edge_times(time, *uneven(time), wheel)


def test_passages_of_an_uneven_shaft_are_the_root_finders_to_the_steps_fourth_power():
    wheel = Wheel(8, first=0.2)
    exact = np.array(
        [
            brentq(lambda t, a=angle: uneven(t)[0] - a, -0.1, 0.6, xtol=1e-15)
            for angle in passages(401, wheel).angle
        ]
    )
    errors = []
    for rows in (51, 101, 201):
        found = passages(rows, wheel).time
        assert len(found) == len(exact)
        errors.append(np.abs(found - exact).max())
    assert errors[2] < 1e-6
    # Halving the step takes the error down sixteenfold; 12 to 20 leaves room for where edges fall.
    assert 12 < errors[0] / errors[1] < 20
    assert 12 < errors[1] / errors[2] < 20


def test_a_swing_past_a_tooth_and_back_within_one_step():
    # θ = 1 - (t - 1)² turns at 1 rad; the tooth begins at 0.75 and ends at 1.5, out of reach.
    time = np.array([0.0, 2.5])
    wheel = Wheel(1, first=0.75, width=0.75 / TURN)
    edges = edge_times(time, 1 - (time - 1) ** 2, -2 * (time - 1), wheel)
    assert edges.time == pytest.approx([0.5, 1.5], rel=1e-12)
    assert edges.rising.tolist() == [True, False]
    assert edges.tooth.tolist() == [0, 0]


def test_turned_back_the_same_edges_come_in_reverse_with_levels_exchanged():
    # θ = 50 - 8 t²: 8 turns up to its highest at t = 0, and the same way back.
    time = np.linspace(-2.5, 2.5, 24)
    wheel = Wheel(6, missing=1, first=0.05, width=0.3)
    edges = edge_times(time, 50 - 8 * time**2, -16 * time, wheel)
    assert edges.time == pytest.approx(-edges.time[::-1], abs=1e-12)
    assert edges.rising.tolist() == (~edges.rising[::-1]).tolist()
    assert edges.tooth.tolist() == edges.tooth[::-1].tolist()
    assert edges.time[-1] == pytest.approx(math.sqrt((50 - edges.angle[-1]) / 8), rel=1e-12)
    begins = np.mod(edges.angle - 0.05 + 1e-9, TURN / 6) < 1e-6
    assert (begins == (edges.rising == (edges.time < 0))).all()


@pytest.mark.parametrize(
    ("wheel", "a_cycle"),
    [
        (Wheel(1), 2),
        (Wheel(1, turns_per_cycle=1), 1),
        (Wheel(36, missing=1, first=0.3), 70),
        (Wheel(60, missing=2, width=0.4), 116),
        (Wheel(5, missing=2, turns_per_cycle=1), 3),
    ],
)
@pytest.mark.parametrize("begun", [0.17, -31.0, 5000.123])
def test_every_tooth_of_every_turn_is_counted_once_each_side(wheel, a_cycle, begun):
    time = np.linspace(0.0, 1.0, 101)
    angle = begun + 3 * 2 * TURN * time
    for way in (1, -1):
        edges = edge_times(time, way * angle, np.full(101, way * 6 * TURN), wheel)
        assert edges.rising.sum() == (~edges.rising).sum() == 3 * a_cycle


def test_edges_on_a_row_of_the_record_are_counted_once():
    # Steps of a quarter turn from the middle of a gap: every edge falls on a row.
    time = np.arange(41) / 4
    edges = edge_times(time, TURN * (time - 0.25), np.full(41, TURN), Wheel(2, width=0.5))
    assert edges.rising.tolist() == [True, False] * 20
    assert edges.time == pytest.approx(0.25 * np.arange(1, 41), abs=1e-12)


@pytest.mark.parametrize("seed", range(5))
def test_edges_on_rows_of_any_bits_are_counted_once(seed):
    # Each row stands on an edge, but for a bit of rounding; the first and the last, which
    # rounding takes in or leaves out, are not looked at.
    draw = np.random.default_rng(seed)
    wheel = Wheel(7, first=0.1)
    time = 0.003 * np.arange(400)
    angle = wheel.first + wheel.pitch * np.arange(400)
    speed = wheel.pitch / 0.003 * draw.uniform(0.7, 1.3, 400)
    edges = edge_times(time, angle, speed, wheel)
    passed = np.round((edges.angle[edges.rising] - wheel.first) / wheel.pitch)
    inner = (passed > 0) & (passed < 399)
    assert np.array_equal(passed[inner], np.arange(1, 399))
    assert edges.time[edges.rising][inner] == pytest.approx(time[1:-1], abs=1e-12)
    assert (~edges.rising).sum() == 399


def test_the_gap_of_missing_teeth_is_as_long_as_they_are():
    time = np.linspace(0.0, 3.0, 50)
    edges = edge_times(time, 0.9 * TURN * time - 0.01, np.full(50, 0.9 * TURN), Wheel(12, 2, 1.0))
    rising = edges.angle[edges.rising]
    gaps = np.diff(rising) / (TURN / 12)
    assert set(np.round(gaps, 9)) == {1.0, 3.0}
    assert np.mod(rising[1:][gaps > 2], TURN) == pytest.approx(1.0)
    first = int(np.argmax(edges.rising))
    width = np.diff(edges.angle[first:])[::2]
    assert width == pytest.approx(0.5 * TURN / 12)


def test_a_standing_shaft_gives_no_edge_wherever_it_stands():
    time = np.array([0.0, 1.0, 1.0, 2.0])
    for angle in (0.0, 0.3, math.pi):
        assert edge_times(time, np.full(4, angle), np.zeros(4), Wheel(2)).time.size == 0


def turned(sensor, seed=0, turns=2000):
    time = np.linspace(0.0, turns / 50, 3)
    return edge_times(time, 50 * TURN * time - 0.1, np.full(3, 50 * TURN), Wheel(1), sensor,
                      seed=seed)  # fmt: skip


def test_latency_is_added_and_scatter_is_normal():
    true = turned(Sensor())
    assert turned(Sensor(latency=3e-4)).time == pytest.approx(true.time + 3e-4, abs=1e-12)
    late = np.sort(turned(Sensor(3e-4, scatter=1e-4), seed=5).time) - true.time
    count = len(late)
    assert late.mean() == pytest.approx(3e-4, abs=5 * 1e-4 / math.sqrt(count))
    assert late.std() == pytest.approx(1e-4, rel=5 / math.sqrt(2 * count))
    assert np.mean(np.abs(late - 3e-4) < 1e-4) == pytest.approx(0.6827, abs=5 * 0.465 / count**0.5)


def test_the_same_seed_gives_the_same_bits_and_another_gives_others():
    sensor = Sensor(1e-4, 1e-4, 2e-4, 20.0)
    for one, other in zip(turned(sensor, 7), turned(sensor, 7), strict=True):
        assert one.tobytes() == other.tobytes()
    assert turned(sensor, 7).time.tobytes() != turned(sensor, 8).time.tobytes()


def test_scatter_wider_than_a_tooth_still_comes_in_order_of_time():
    found = turned(Sensor(scatter=0.02), 3)
    assert np.all(np.diff(found.time) >= 0)
    assert np.any(np.diff(found.angle) < 0)


def test_nothing_is_recorded_within_the_dead_time():
    # Tooth and gap 10 ms each at 50 turns a second: 15 ms skip every second edge.
    kept = turned(Sensor(dead_time=0.015), turns=100)
    assert np.diff(kept.time).min() >= 0.015
    assert kept.time == pytest.approx(turned(Sensor(), turns=100).time[::2])
    assert np.all(kept.rising)
    assert turned(Sensor(dead_time=0.009), turns=100).time.size == 200


def test_stray_edges_come_at_their_rate_where_the_shaft_is():
    found = turned(Sensor(stray=30.0), 2)
    stray = found.tooth == -1
    wanted = 30.0 * 40.0
    assert stray.sum() == pytest.approx(wanted, abs=5 * math.sqrt(wanted))
    assert found.angle[stray] == pytest.approx(50 * TURN * found.time[stray] - 0.1)
    assert found.rising[stray].mean() == pytest.approx(0.5, abs=2.5 / math.sqrt(stray.sum()))
    assert (~stray).sum() == turned(Sensor()).time.size
