"""A coil's current, heat and voltage by their differential equations, which SciPy integrates.

Breaker points by a mass on a spring over the 3-4-5 lobe, differentiated by NumPy.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from firstfire.errors import OutsideValidity
from firstfire.formulas import breaker_points as points
from firstfire.formulas import ignition_coil as coil
from firstfire.formulas import spark_gap
from firstfire.formulas.cam_law import polynomial_345

VOLTS = st.floats(4.0, 30.0)
OHMS = st.floats(0.3, 12.0)
HENRY = st.floats(0.5e-3, 60e-3)
TIMES = st.floats(1e-4, 60e-3)


@given(VOLTS, OHMS, HENRY, TIMES)
def test_current_and_heat_are_those_of_the_circuit(volts, ohms, henry, lasts):
    # L di/dt = U - R i, and dQ/dt = R i².
    found = solve_ivp(
        lambda _, y: [(volts - ohms * y[0]) / henry, ohms * y[0] ** 2], (0.0, lasts), [0.0, 0.0],
        rtol=1e-9, atol=1e-12,
    ).y[:, -1]  # fmt: skip
    assert coil.rising_current(volts, ohms, henry, lasts) == pytest.approx(found[0], rel=1e-6)
    assert coil.charging_heat(volts, ohms, henry, lasts) == pytest.approx(
        found[1], rel=1e-5, abs=1e-9
    )


@given(VOLTS, OHMS, HENRY, TIMES)
def test_energy_in_is_energy_held_and_heat(volts, ohms, henry, lasts):
    # ∫ U i dt = L i²/2 + ∫ R i² dt; and ∫ i dt = (U t - L i)/R.
    current = coil.rising_current(volts, ohms, henry, lasts)
    taken = volts * (volts * lasts - henry * current) / ohms
    kept = coil.stored_energy(henry, current) + coil.charging_heat(volts, ohms, henry, lasts)
    assert kept == pytest.approx(taken, rel=1e-6, abs=1e-9)


@given(VOLTS, OHMS, HENRY, st.floats(0.01, 0.98))
def test_dwell_for_a_current_brings_it_there(volts, ohms, henry, share):
    wanted = share * volts / ohms
    dwell = coil.dwell_for_current(wanted, volts, ohms, henry)
    assert coil.rising_current(volts, ohms, henry, dwell) == pytest.approx(wanted, rel=1e-9)
    assert coil.dwell_for_current(1.01 * volts / ohms, volts, ohms, henry) == math.inf


def test_the_peak_is_that_of_winding_and_capacities_swinging():
    # All energy in the primary's inductance, both capacities seen from the primary: L C'' = -i.
    henry, turns, condenser, own, begins = 6e-3, 80.0, 0.22e-6, 100e-12, 3.0
    whole = condenser + turns**2 * own
    swings = solve_ivp(
        lambda _, y: [-y[1] / henry, y[0] / whole], (0.0, math.pi * math.sqrt(henry * whole)),
        [begins, 0.0], rtol=1e-9, atol=1e-12, max_step=1e-6,
    )  # fmt: skip
    peak = turns * swings.y[1].max()
    energy = coil.stored_energy(henry, begins)
    assert coil.secondary_voltage(energy, own, condenser, turns) == pytest.approx(peak, rel=1e-4)
    back = coil.energy_for_voltage(peak, own, condenser, turns)
    assert back == pytest.approx(energy, rel=2e-4)


def test_the_lobe_at_its_bounce_speed_needs_all_of_the_springs_force():
    force, mass, rise, ramp = 6.0, 3e-3, 0.5e-3, math.radians(30)
    speed = points.bounce_speed(force, mass, rise, ramp)
    share = np.linspace(0.0, 1.0, 20001)
    lift = rise * np.array([polynomial_345(one)[0] for one in share])
    time = share * ramp / speed
    slows = -np.gradient(np.gradient(lift, time), time)[5:-5].min()
    fastest = -np.gradient(np.gradient(lift, time), time)[5:-5].max()
    assert mass * max(abs(slows), abs(fastest)) == pytest.approx(force, rel=1e-3)


@given(st.floats(0.0, 0.2e-3), st.floats(0.25e-3, 0.6e-3), st.floats(0.0, 0.3e-3))
def test_points_open_later_by_what_the_lobe_has_to_rise_more(less, gap, clear):
    rise, ramp = gap + clear, math.radians(28)
    shift = points.opening_shift(less, gap, rise, ramp)
    before = points.risen_at(clear, rise, ramp)
    risen = rise * polynomial_345((before + shift) / ramp)[0]
    assert risen == pytest.approx(clear + less, abs=1e-9)


def test_points_with_no_gap_left_never_open():
    with pytest.raises(OutsideValidity, match="where the lobe rises"):
        points.opening_shift(0.35e-3, 0.35e-3, 0.5e-3, 0.5)


@given(st.floats(0.3e-3, 1.5e-3), st.floats(2e5, 20e5), st.floats(280.0, 750.0))
def test_the_widest_gap_is_the_one_that_wants_the_voltage(gap, pressure, temperature):
    try:
        volts = spark_gap.breakdown_voltage(gap, pressure, temperature)
    except OutsideValidity:
        return
    assert spark_gap.widest_gap(volts, pressure, temperature) == pytest.approx(gap, rel=1e-9)
