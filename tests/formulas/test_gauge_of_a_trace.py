"""A gauge behind its check valve: first-order filling by closed form and by SciPy's integrator.

What flows through a choked valve is held to the handbook's 0.0404 √K A p/√T of air (B. S. Massey,
*Mechanics of Fluids*; from memory).
"""

import itertools
import math
from dataclasses import dataclass

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from firstfire.errors import OutsideValidity
from firstfire.formulas.compression_gauge import Gauge, filling_time, gauge_trace

AIR = 1e5
LARGE = math.inf


def steady(time, gauge, chamber=LARGE, pressure=8e5):
    return gauge_trace(
        time, np.full(len(time), pressure), gauge, chamber_volume=chamber, air_pressure=AIR
    )


def strokes(time, peak=9e5, rate=6.0):
    """Pulses of a cranked cylinder, from air to a peak and back, six a second."""
    return AIR + (peak - AIR) * np.maximum(np.sin(2 * np.pi * rate * time), 0.0) ** 4


def test_a_steady_pressure_is_neared_as_a_first_order_law_has_it():
    time = np.array([0.0, 0.01, 0.013, 0.05])
    shown = steady(time, Gauge(8e-6, 0.02))
    assert shown == pytest.approx(7e5 * (1 - np.exp(-time / 0.02)))
    lifted = steady(time, Gauge(8e-6, 0.02, opens=0.5e5))
    assert lifted == pytest.approx(6.5e5 * (1 - np.exp(-time / 0.02)))


def test_a_leak_as_quick_as_the_filling_halves_the_reading():
    time = np.array([0.0, 0.004, 1.0])
    shown = steady(time, Gauge(8e-6, 0.02, leak_down=50.0))
    assert shown == pytest.approx(3.5e5 * (1 - np.exp(-100.0 * time)))


def test_a_straight_rise_is_followed_late_by_its_time_constant():
    time = np.array([0.0, 0.4, 1.0])
    shown = gauge_trace(
        time, AIR + 3e5 * time, Gauge(8e-6, 0.02), chamber_volume=LARGE, air_pressure=AIR
    )
    assert shown == pytest.approx(3e5 * (time - 0.02 * (1 - np.exp(-time / 0.02))))


def test_a_chamber_shares_its_gas_with_the_hose():
    # 8 bar in 6 cm³ and 1 bar in 9 cm³ behind the valve: Boyle and Mariotte.
    shown = steady(np.array([0.0, 5.0]), Gauge(9e-6, 0.01), chamber=6e-6)[-1]
    assert shown + AIR == pytest.approx((8e5 * 6 + 1e5 * 9) / 15)


def test_a_quick_gauge_on_a_large_cylinder_holds_the_highest_yet():
    time = np.linspace(0.0, 2.0, 4001)
    pressure = strokes(time) * (1 + 0.2 * time)
    shown = gauge_trace(
        time, pressure, Gauge(1e-9, 1e-7, opens=1e4), chamber_volume=LARGE, air_pressure=AIR
    )
    highest = np.maximum(np.maximum.accumulate(pressure) - 1e4, AIR) - AIR
    assert shown == pytest.approx(highest, rel=1e-4, abs=10.0)


def test_strokes_climb_in_a_geometric_row():
    # Each takes it the share 1/(1 + hose over chamber) of the way that is left.
    time = np.linspace(0.0, 8 / 6, 8001)
    shown = gauge_trace(
        time, strokes(time), Gauge(12e-6, 1e-6), chamber_volume=8e-6, air_pressure=AIR
    )
    at = np.searchsorted(time, (np.arange(1, 9) - 0.25) / 6)
    assert 8e5 - shown[at] == pytest.approx(8e5 * (12 / 20) ** np.arange(1, 9), rel=2e-3)


def integrated(time, gauge, ratio):
    """The same law by SciPy, with the gas that a stroke gave as a state of its own.

    Strokes are told apart by the clock here.
    """
    held, given, found = AIR, 0.0, [0.0]

    def rates(t, y):
        drive = np.interp(t, time, strokes(time)) - ratio * y[1] - gauge.opens - y[0]
        flow = max(drive, 0.0) / gauge.filling_time
        return [flow - gauge.leak_down * (y[0] - AIR), flow]

    for start, end in itertools.pairwise(time):
        if math.floor(start * 6) != math.floor((start - 2e-3) * 6):
            given = 0.0
        ended = solve_ivp(rates, (start, end), [held, given], rtol=1e-9, atol=1e-3)
        held, given = ended.y[:, -1]
        found.append(held - AIR)
    return np.array(found)


@dataclass(frozen=True)
class Case:
    gauge: Gauge
    ratio: float
    within: float


@pytest.mark.parametrize(
    "case",
    [
        Case(Gauge(8e-6, 0.015), 0.0, 1e-5),
        Case(Gauge(8e-6, 0.015, 0.3e5), 0.8, 1e-5),
        # What leaks while the valve is open counts as not given: of a stroke's 1e-2 a hundredth.
        Case(Gauge(8e-6, 0.015, 0.3e5, 0.3), 0.8, 3e-3),
    ],
)
def test_strokes_are_what_an_integrator_makes_of_the_law(case):
    time = np.linspace(0.0, 0.6, 301)
    chamber = case.gauge.hose_volume / case.ratio if case.ratio else LARGE
    shown = gauge_trace(time, strokes(time), case.gauge, chamber_volume=chamber, air_pressure=AIR)
    wanted = integrated(time, case.gauge, case.ratio)
    assert wanted[-1] > 3e5
    assert shown == pytest.approx(wanted, abs=case.within * wanted[-1])


def test_the_needle_never_falls_without_a_leak_and_falls_by_its_share_with_one():
    time = np.concatenate([np.linspace(0.0, 1.0, 700), [3.0, 5.0]])
    pressure = np.concatenate([strokes(time[:700]), [AIR, AIR]])
    sound = Gauge(8e-6, 0.01)
    shown = gauge_trace(time, pressure, sound, chamber_volume=9e-6, air_pressure=AIR)
    assert np.all(np.diff(shown) >= 0)
    assert shown[-1] == shown[-2] == shown[-3]
    leaks = gauge_trace(
        time, pressure, sound._replace(leak_down=0.2), chamber_volume=9e-6, air_pressure=AIR
    )
    assert leaks[-1] / leaks[-2] == pytest.approx(math.exp(-0.4))
    assert np.all(leaks[1:] <= shown[1:])


def test_a_step_cut_in_two_gives_the_same():
    time = np.linspace(0.0, 1.0, 90)
    finer = np.sort(np.concatenate([time, 0.37 * time[:-1] + 0.63 * time[1:]]))
    gauge = Gauge(8e-6, 0.012, 0.2e5, 0.1)
    shown = [
        gauge_trace(
            rows, np.interp(rows, time, strokes(time)), gauge, chamber_volume=9e-6, air_pressure=AIR
        )
        for rows in (time, finer)
    ]
    # Nearly: what leaked before a cut is told apart from what was given.
    assert np.interp(time, finer, shown[1]) == pytest.approx(shown[0], rel=1e-3)
    tight = gauge._replace(leak_down=0.0)
    shown = [
        gauge_trace(
            rows, np.interp(rows, time, strokes(time)), tight, chamber_volume=9e-6, air_pressure=AIR
        )
        for rows in (time, finer)
    ]
    assert np.interp(time, finer, shown[1]) == pytest.approx(shown[0], rel=1e-9)


def nozzle(ratio):
    """Isentropic flow of air over its choked one: any text on gas dynamics."""
    if ratio < (2 / 2.4) ** 3.5:
        return 1.0
    flow = math.sqrt(7.0 * (ratio ** (2 / 1.4) - ratio ** (2.4 / 1.4)))
    return flow / (math.sqrt(1.4) * (2 / 2.4) ** 3)


def test_a_hose_is_19_twentieths_full_when_a_nozzle_has_filled_it():
    # Choked air by the handbook: 0.0404 √K A p/√T; into 8 cm³ at 350 K from 6 bar.
    rate = 0.0404 * 2.4e-6 / math.sqrt(350.0) * 287.0 * 350.0 / 8e-6

    def full(_, x):
        return x[0] - 0.95

    full.terminal = True
    filled = solve_ivp(
        lambda _, x: [rate * nozzle(x[0])], (0.0, 1.0), [0.0], events=full, rtol=1e-8, max_step=1e-4
    )
    constant = filling_time(8e-6, 2.4e-6, 350.0)
    # The ellipse for the nozzle's curve is some tenths of a percent off (ISO 6358).
    assert 1 - math.exp(-filled.t[-1] / constant) == pytest.approx(0.95, abs=1e-3)


def test_a_trace_that_goes_back_in_time_is_refused():
    with pytest.raises(OutsideValidity, match="go back"):
        steady(np.array([0.0, 0.2, 0.1]), Gauge(8e-6, 0.01))
    with pytest.raises(OutsideValidity, match="filling time"):
        steady(np.array([0.0, 0.2]), Gauge(8e-6, 0.0))
