"""A suction-opened inlet as traced with the gas, and what is advised."""

import math
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.signal import find_peaks

import firstfire as ff
from firstfire.cycle.build import build_engine
from firstfire.cycle.run import run_traced
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.formulas import suction_valve
from firstfire.runs.point import operating_point
from firstfire.runs.walls import cold
from firstfire.setup.cams.suction_gas import hovering
from firstfire.setup.cams.suction_inlet import (
    at_speed,
    chosen,
    lift_traced,
    openings,
    suction_inlet,
)

ENGINES = Path(__file__).resolve().parents[2] / "engines"
PLOVER = ff.read(ENGINES / "plover.toml")
HERE = "valves.inlet."
RPM = math.pi / 30


@pytest.fixture(scope="module")
def found():
    return suction_inlet(resolve(PLOVER))


def test_it_shuts_late_where_its_builder_expects_it(found):
    """At 2000 rpm it shuts more than 60° late, and filling falls from about 1500."""
    by_speed = {one.speed / RPM: one for one in found.speeds}
    near = min(by_speed, key=lambda rpm: abs(rpm - 2000))
    assert math.degrees(by_speed[near].shuts) > 60
    slow = by_speed[min(by_speed)]
    assert slow.well
    assert by_speed[min(by_speed, key=lambda rpm: abs(rpm - 1530))].filling < slow.filling - 0.1
    assert 800 <= found.well_to / RPM < 1600


def test_its_plain_numbers_by_hand(found):
    # 0.5 N over a throat of 13.5 mm with a stem of 3.1: √(0.15 N/mm/6 g)/2π.
    valve = resolve(PLOVER).cylinders[0].valves.inlet
    throat = math.pi / 4 * (valve.throat_diameter**2 - valve.stem_diameter**2)
    assert found.opens_at == pytest.approx(0.5 / throat)
    assert found.swing == pytest.approx(math.sqrt(150 / 6e-3) / 2 / math.pi)
    assert found.spring_on_stop == pytest.approx(0.5 + 0.15 * 3.5)
    late = math.sqrt(6e-3 / 150) * math.acos(0.5 / (0.5 + 0.15 * 3.5))
    assert found.shutting == pytest.approx(late)
    assert found.shutting_angle == pytest.approx(late * 3000 * RPM)


def test_a_stiffer_spring_and_lighter_valve_shut_it_sooner():
    soft = at_speed(resolve(PLOVER), 2000 * RPM)
    changed = {HERE + "mass": "3 g", HERE + "spring_rate": "1 N/mm"}
    hard = at_speed(resolve(with_values(PLOVER, changed)), 2000 * RPM)
    assert hard.shuts < soft.shuts - math.radians(20)
    assert hard.back < soft.back


def test_a_spring_that_suction_hardly_opens_fills_little():
    stiff = with_values(PLOVER, {HERE + "spring_preload": "8 N"})
    told = suction_inlet(resolve(stiff))
    assert told.speeds[0].filling < 0.7
    assert any("hardly opens at cranking speed" in line for line in told.advice)
    assert not any("hardly opens" in line for line in suction_inlet(resolve(PLOVER)).advice)


def test_the_lift_that_is_counted_is_the_kernels():
    plain = resolve(PLOVER)
    point = operating_point(plain, "cranking", "x", 1500 * RPM, cold(plain), None, with_peaks=False)
    lift = lift_traced(point.fired)
    # The kernel steps up to a micrometre and a hair past seat and stop before it bounces.
    assert -1.1e-6 <= lift.min() <= lift.max() <= 3.5e-3 + 1.1e-6
    assert lift.max() > 1e-3
    assert openings(lift, 3.5e-3) == at_speed(plain, 1500 * RPM).openings >= 1


def test_openings_are_counted_from_shut():
    wave = np.array([0, 1, 2, 3, 2.0, 0.05, 0.0, 0.5, 0.0, 2.0, 0.0])
    assert openings(wave, 4.0) == 2  # 0.5 of 4 is a bounce on the seat
    assert openings(np.zeros(5), 4.0) == 0


def test_what_is_chosen_is_well_further_up(found):
    put, then = chosen(PLOVER)
    assert set(put) == {HERE + "mass", HERE + "spring_rate", HERE + "spring_preload"}
    assert then.well_to > 1.3 * found.well_to
    assert min(one.filling for one in then.speeds) > min(one.filling for one in found.speeds)


DANCERS = [(0.15, 6.0, 1000), (0.5, 3.0, 2000), (1.0, 1.0, 3000), (2.0, 1.0, 3000)]


@pytest.mark.parametrize(("rate", "grams", "rpm"), DANCERS)
def test_it_dances_as_a_mass_between_spring_and_gas(rate, grams, rpm):
    """Peaks of the traced lift in the intake stroke against the closed form, within a fifth.

    A swing about the steady balance of gap and spring (M. Costagliola's), its stiffness the
    spring's and twice the force over the lift; worked out here from that balance anew. What is
    traced leaves its seat and meets its stop, so it isn't a small swing.
    """
    changed = {HERE + "spring_rate": f"{rate} N/mm", HERE + "spring_preload": "0.5 N",
               HERE + "mass": f"{grams} g"}  # fmt: skip
    plain = resolve(with_values(PLOVER, changed))
    valve, cylinder = plain.cylinders[0].valves.inlet, plain.cylinders[0].cylinder
    throw, rod = cylinder.stroke / 2, plain.cylinders[0].rod.length
    turned = np.linspace(0, math.pi, 2001)
    height = throw * np.cos(turned) + np.sqrt(rod**2 - (throw * np.sin(turned)) ** 2)
    fastest = np.abs(np.gradient(height, turned)).max() * rpm * RPM
    drawn = fastest * math.pi / 4 * cylinder.bore**2
    edge = 0.6 * math.pi * valve.throat_diameter * math.cos(valve.seat_angle)
    head, density = math.pi / 4 * valve.head_diameter**2, 101325 / (287.05 * 293.15)

    def pull(x):
        return density / 2 * (drawn / (edge * x)) ** 2 * head - 0.5 - 1e3 * rate * x

    balance = brentq(pull, 1e-6, 0.1)
    assert hovering(plain, rpm * RPM) == pytest.approx(balance, rel=0.02)
    # the force's slope by lift at the balance, by differences
    stiff = -(pull(balance * 1.0001) - pull(balance * 0.9999)) / (2e-4 * balance)
    dances = math.sqrt(stiff / (1e-3 * grams)) / (2 * math.pi)
    assert suction_valve.dance_frequency(1e-3 * grams, 1e3 * rate, 0.5, balance) == pytest.approx(
        dances, rel=1e-4
    )
    point = operating_point(plain, "cranking", "x", rpm * RPM, cold(plain), None, with_peaks=False)
    engines, state = build_engine(point.fired.spec), point.fired.cycle.state
    _, run = run_traced(engines, state, float(state.values[0]) + 4 * math.pi)
    lift = lift_traced(point.fired)
    inside = (np.degrees(run.angle) % 720 > 365) & (np.degrees(run.angle) % 720 < 560)
    peaks, _ = find_peaks(lift[inside], prominence=2e-4)
    assert len(peaks) > 1
    seen = 1 / float(np.diff(run.time[inside][peaks]).mean())
    assert seen == pytest.approx(dances, rel=0.2)
    # The spring alone swings at half of that or less: the gas is the greater part of it.
    assert suction_valve.swing_frequency(1e-3 * grams, 1e3 * rate) < 0.65 * seen


def test_it_rests_on_its_stop_where_the_gas_pushes_more_than_the_spring():
    """A soft spring and a stop of 1 mm: the steady balance lies beyond the stop."""
    changed = {HERE + "lift": "1 mm", HERE + "mass": "1 g"}
    plain = resolve(with_values(PLOVER, changed))
    assert hovering(plain, 2000 * RPM) > 1e-3
    point = operating_point(plain, "cranking", "x", 2000 * RPM, cold(plain), None, with_peaks=False)
    engines, state = build_engine(point.fired.spec), point.fired.cycle.state
    _, run = run_traced(engines, state, float(state.values[0]) + 4 * math.pi)
    own = np.degrees(run.angle) % 720
    middle = lift_traced(point.fired)[(own > 420) & (own < 470)]
    assert np.mean(middle > 0.97e-3) > 0.8
