"""Lobes, outlines and springs of cams against calculus, envelopes and other solvers.

Sources: the laws' boundary conditions solved anew; R. L. Norton, *Cam Design and Manufacturing
Handbook*, 2nd ed. (an envelope of follower positions is the cam; curvature of the follower's path
less its radius is that of the cam); SciPy for the least spring and for motion on a spring.
"""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import linprog

from firstfire.errors import OutsideValidity
from firstfire.formulas import cam_law, cam_lobe, cam_path, cam_spring, suction_valve
from firstfire.formulas.cam_lobe import Lobe, lobe_motion

LOBE = Lobe(cam_law.polynomial_4567, 4.5e-3, 1.0, 1.25, 0.35, 0.12e-3)
JOINS = (-1.35, -1.0, 0.0, 1.25, 1.6)
BASE, ROLLER, ARM = 12e-3, 7e-3, 26e-3
ROUND = np.linspace(-math.pi, math.pi, 2881)


def polynomial(conditions):
    """The one polynomial that has given derivatives at 0 and 1: (place, order, value)."""
    n = len(conditions)
    rows = []
    for place, order, _ in conditions:
        row = [0.0] * n
        for power in range(order, n):
            row[power] = math.perm(power, order) * float(place) ** (power - order)
        rows.append(row)
    return np.polynomial.Polynomial(np.linalg.solve(rows, [c[2] for c in conditions]))


@pytest.mark.parametrize(
    ("law", "orders", "peaks"),
    [
        (cam_law.polynomial_345, 2, (1.875, 5.7735, 60.0)),
        (cam_law.polynomial_4567, 3, (2.1875, 7.5132, 52.5)),
    ],
)
def test_a_polynomial_law_is_the_one_of_its_ends(law, orders, peaks):
    """Zero up to the second or third derivative at both ends; peaks as Norton's chapter 3."""
    ends = [(0, 0, 0.0), (1, 0, 1.0)]
    ends += [(place, order, 0.0) for place in (0, 1) for order in range(1, orders + 1)]
    solved = polynomial(ends)
    at = np.linspace(1e-6, 1 - 1e-6, 4001)
    told = np.array([law(float(x)) for x in at])
    for order in range(4):
        want = solved.deriv(order)(at) if order else solved(at)
        assert told[:, order] == pytest.approx(want, abs=1e-8)
    for order, peak in enumerate(peaks, start=1):
        assert np.abs(solved.deriv(order)(at)).max() == pytest.approx(peak, rel=1e-4)


@pytest.mark.parametrize(
    ("law", "peaks"),
    [
        (cam_law.cycloidal, (2.0, 6.2832, 39.478)),
        (cam_law.modified_sine, (1.7596, 5.5280, 69.466)),
    ],
)
def test_a_law_by_angle_is_the_derivative_of_itself(law, peaks):
    """Differences of the rise give velocity, of that acceleration and so on; Norton's peaks."""
    at, step = np.linspace(0.001, 0.999, 3997), 1e-6
    for order, peak in enumerate(peaks, start=1):
        slope = np.array(
            [(law(x + step)[order - 1] - law(x - step)[order - 1]) / (2 * step) for x in at]
        )
        told = np.array([law(float(x))[order] for x in at])
        jumps = np.abs(slope - told) > 1e-4 * peak  # a third derivative may jump at a join
        assert jumps.sum() <= 2 * (order == 3)
        near = np.abs([law(x)[order] for x in (1e-7, *at, 1 - 1e-7)]).max()
        assert near == pytest.approx(peak, rel=1e-3)


@pytest.mark.parametrize("law", [cam_law.polynomial_4567, cam_law.polynomial_345])
def test_derivatives_of_a_lobe_are_those_of_its_rise(law):
    lobe, step = LOBE._replace(law=law), 1e-6
    for angle in np.linspace(-1.3, 1.55, 401):
        before, after = lobe_motion(lobe, angle - step), lobe_motion(lobe, angle + step)
        here = lobe_motion(lobe, float(angle))
        assert here.slope == pytest.approx((after.rise - before.rise) / (2 * step), abs=2e-8)
        if min(abs(angle - join) for join in JOINS) > 2e-6:  # there 3-4-5 leaps
            curve = (after.second - before.second) / (2 * step)
            assert here.third == pytest.approx(curve, abs=2e-4)
        assert here.second == pytest.approx((after.slope - before.slope) / (2 * step), abs=2e-6)


def test_a_lobe_of_4567_is_smooth_to_the_third_derivative_and_345_to_the_second():
    for law, jumps in ((cam_law.polynomial_4567, False), (cam_law.polynomial_345, True)):
        lobe = LOBE._replace(law=law)
        leaps = []
        for join in JOINS:
            below, above = lobe_motion(lobe, join - 1e-9), lobe_motion(lobe, join + 1e-9)
            assert below[:3] == pytest.approx(above[:3], abs=1e-8)
            leaps.append(abs(below.third - above.third) > 1e-6)
        assert any(leaps) is jumps


def follower(kind, angle):
    m = lobe_motion(LOBE, angle)
    if kind == "swinging":
        return cam_path.swinging_path(BASE + ROLLER, ARM, m.rise, m.slope, m.second)
    return cam_path.radial_path(BASE + ROLLER, m.rise, m.slope, m.second)


@pytest.mark.parametrize("kind", ["radial", "swinging"])
def test_a_round_follower_touches_its_outline_everywhere_and_cuts_it_nowhere(kind):
    both = [(follower(kind, angle), angle) for angle in ROUND]
    edge = np.array([cam_path.round_outline(path, angle, ROLLER) for path, angle in both])
    # Chords of 0.13 degrees: what lies between two points of the edge is nearer by a micrometre.
    for path, angle in both[::97]:
        centre = path.at * np.exp(1j * angle)
        assert np.abs(edge - centre).min() == pytest.approx(ROLLER, abs=2e-6)


@pytest.mark.parametrize("kind", ["radial", "swinging"])
def test_bend_of_an_outline_is_that_of_the_path_less_the_follower(kind):
    step = 1e-4
    for angle in (-1.2, -0.7, -0.35, 0.0, 0.3, 0.9, 1.3, 2.5):
        edge = [
            cam_path.round_outline(follower(kind, a), a, ROLLER)
            for a in (angle - step, angle, angle + step)
        ]
        first, second = (
            (edge[2] - edge[0]) / (2 * step),
            (edge[2] - 2 * edge[1] + edge[0]) / step**2,
        )
        bend = (first.conjugate() * second).imag / abs(first) ** 3
        told = cam_path.path_radius(follower(kind, angle)) - ROLLER
        assert told == pytest.approx(1 / bend, rel=2e-3)


@pytest.mark.parametrize("kind", ["radial", "swinging"])
def test_push_angle_by_virtual_work(kind):
    """Without friction the push does the cam's work: torque × turn = force × cos × travel.

    The push goes through the point of contact, square to the edge; its lever about the axis times
    the turn is the travel of the follower along its way times the cosine.
    """
    for angle in (-0.8, -0.4, 0.5, 1.0):
        path, m = follower(kind, angle), lobe_motion(LOBE, angle)
        touch = cam_path.round_outline(path, angle, ROLLER) * np.exp(-1j * angle)
        push = (path.at - touch) / abs(path.at - touch)
        lever = abs((touch.conjugate() * push).imag)
        assert lever == pytest.approx(abs(m.slope) * math.cos(cam_path.push_angle(path)), rel=1e-9)


def test_a_flat_foot_rests_on_its_outline():
    """No point of the cam is above the foot, and one touches it: with a base without undercut."""
    base, motions = 30e-3, [lobe_motion(LOBE, a) for a in ROUND]
    edge = np.array(
        [
            cam_path.flat_outline(base, m.rise, m.slope, a)
            for m, a in zip(motions, ROUND, strict=True)
        ]
    )
    for m, angle in list(zip(motions, ROUND, strict=True))[::89]:
        heights = (edge * np.exp(-1j * angle)).real
        assert heights.max() == pytest.approx(base + m.rise, abs=2e-6)


def test_flanks_for_stated_events():
    """A flank that is at a stated lift where it is asked to be."""
    for law in (cam_law.polynomial_345, cam_law.modified_sine):
        for stated in (0.0, 0.3e-3, 1.27e-3, 4e-3):
            flank = cam_lobe.flank_for_event(law, 5e-3, stated, 0.8)
            assert 5e-3 * law(1 - 0.8 / flank)[0] == pytest.approx(stated, abs=1e-9)
    with pytest.raises(OutsideValidity, match="above the stated"):
        cam_lobe.flank_for_event(cam_law.cycloidal, 5e-3, 5e-3, 0.8)


def test_least_spring_is_the_linear_programs():
    """min F0 + k L under F0 + k x >= needed, F0 >= seat, F0 <= share × full; SciPy's simplex."""
    rng = np.random.default_rng(5)
    for _ in range(40):
        lift, seat = rng.uniform(2e-3, 8e-3), rng.uniform(1.0, 120.0)
        x = rng.uniform(0.3, 1.0, 30) * lift
        needed = rng.uniform(5.0, 80.0, 30)
        line = cam_spring.least_spring(x.tolist(), needed.tolist(), lift, seat)
        rows = [[-1.0, -one] for one in x] + [[-1.0, 0.0], [0.3, -0.7 * lift], [0.0, -1.0]]
        solved = linprog(
            [1.0, lift], rows, [*(-needed), -seat, 0.0, 0.0], bounds=[(None, None)] * 2
        )
        full = line.preload + line.rate * lift
        assert np.all(line.preload + line.rate * x >= needed * (1 - 1e-12))
        assert line.preload >= seat * (1 - 1e-12)
        # Shares of the seat are tried in steps of 1.4 %.
        assert solved.fun * (1 - 1e-9) <= full <= solved.fun * 1.02


def test_shutting_time_of_a_suction_valve_as_integrated():
    mass, rate, preload, lift = 6e-3, 150.0, 0.5, 3.5e-3
    hit = lambda _t, y: y[0]  # noqa: E731
    hit.terminal = True
    lived = solve_ivp(
        lambda _t, y: (y[1], -(preload + rate * y[0]) / mass), (0.0, 1.0), (lift, 0.0),
        events=hit, rtol=1e-10, atol=1e-12,
    )  # fmt: skip
    told = suction_valve.shutting_time(mass, rate, preload, lift)
    assert told == pytest.approx(lived.t[-1], rel=1e-7)
    assert suction_valve.swing_frequency(mass, rate) == pytest.approx(
        1 / (4 * suction_valve.shutting_time(mass, rate, 0.0, lift)), rel=1e-12
    )


def test_suction_opens_and_gas_pushes_by_hand():
    # 0.5 N on 113.1 mm² are 4421 Pa; 3 l/s through 60 mm² are 50 m/s: 1500 Pa on 113.1 mm².
    assert suction_valve.opening_suction(0.5, 113.1e-6) == pytest.approx(4421.0, rel=1e-4)
    assert suction_valve.gas_push(3e-3, 60e-6, 113.1e-6, 1.2) == pytest.approx(0.16965, rel=1e-9)
