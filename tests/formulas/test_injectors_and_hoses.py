"""Injector, shared injector and fuel hose: closed forms, a flow library, SciPy's quadrature."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from firstfire.errors import OutsideValidity
from firstfire.formulas import injector as law
from firstfire.formulas.pipe_flow import bore_wanted, pressure_loss, pump_power, reynolds
from firstfire.formulas.shared_feed import CYCLE, Draw, shares

fluids = pytest.importorskip("fluids", reason="a development dependency")
DEAD = [(8.0, 2.9e-3), (10.0, 1.9e-3), (12.0, 1.3e-3), (14.0, 1.0e-3)]


def test_flow_goes_with_the_square_roots_of_pressure_and_density() -> None:
    """An orifice's law: four times the pressure, twice the flow (any fluids text)."""
    one = law.mass_flow(100e-6 / 60, 3e5, 3e5, 745.0)
    assert one == pytest.approx(100e-6 / 60 * 745.0, rel=1e-12)
    assert law.mass_flow(100e-6 / 60, 3e5, 12e5, 745.0) == pytest.approx(2.0 * one, rel=1e-12)
    thick = law.mass_flow(100e-6 / 60, 3e5, 3e5, math.sqrt(745.0 * 789.0))
    area = 100e-6 / 60 * math.sqrt(745.0 / (2.0 * 3e5))
    assert thick == pytest.approx(area * math.sqrt(2.0 * 789.0 * 3e5), rel=1e-12)
    for beyond in (0.5e5, 16e5):
        with pytest.raises(OutsideValidity):
            law.mass_flow(100e-6 / 60, 3e5, beyond, 745.0)


@given(st.floats(1e-7, 1e-4), st.floats(1e-4, 1e-2), st.floats(0.0, 5e-3))
def test_a_pulse_gives_the_mass_it_was_for(mass: float, flow: float, dead: float) -> None:
    assert law.mass_given(law.pulse(mass, flow, dead), flow, dead) == pytest.approx(mass, rel=1e-9)


def test_a_pulse_by_hand() -> None:
    """3 mg at 1.5 g/s is 2 ms, and 1.2 ms to open: 3.2 ms; none for none."""
    assert law.pulse(3e-6, 1.5e-3, 1.2e-3) == pytest.approx(3.2e-3, rel=1e-12)
    assert law.pulse(0.0, 1.5e-3, 1.2e-3) == 0.0
    assert law.mass_given(1.1e-3, 1.5e-3, 1.2e-3) == 0.0


def test_the_flow_that_is_wanted_just_does() -> None:
    """3 mg within 85 % of a cycle of 30 ms."""
    flow = law.flow_wanted(3e-6, 0.85 * 30e-3, 1.2e-3)
    assert law.pulse(3e-6, flow, 1.2e-3) == pytest.approx(0.85 * 30e-3, rel=1e-12)
    with pytest.raises(OutsideValidity):
        law.flow_wanted(3e-6, 1e-3, 1.2e-3)


def test_the_largest_flow_just_repeats() -> None:
    most = law.largest_flow(1.2e-6, 0.6e-3)
    assert law.pulse(1.2e-6, most, 1.1e-3) - 1.1e-3 == pytest.approx(0.6e-3, rel=1e-12)


def test_the_regulator_that_is_wanted_just_does() -> None:
    at = law.regulator_for(1.5e-3, 1.2e-3, 3e5)
    flow = 1.2e-3 / 745.0
    assert law.mass_flow(flow, 3e5, at, 745.0) == pytest.approx(1.5e-3, rel=1e-12)


def test_dead_time_goes_straight_between_what_was_told() -> None:
    assert [round(1e3 * law.dead_time(v, DEAD), 9) for v in (8, 9, 12, 12.6, 14)] == [
        2.9, 2.4, 1.3, 1.21, 1.0
    ]  # fmt: skip
    for beyond in (7.9, 14.1):
        with pytest.raises(OutsideValidity):
            law.dead_time(beyond, DEAD)
    with pytest.raises(OutsideValidity):
        law.dead_time(12.0, DEAD[::-1])


def test_a_spray_is_bernoullis_less_a_fifth() -> None:
    assert law.spray_speed(3e5, 745.0) == pytest.approx(0.8 * math.sqrt(2 * 3e5 / 745.0))


@given(st.floats(0.0, CYCLE), st.floats(0.01, 6.0), st.floats(0.1, 3.0), st.floats(0.0, CYCLE))
def test_no_fuel_of_a_shared_injector_is_lost(
    begins: float, lasts: float, air: float, second: float
) -> None:
    draws = [Draw(6.0, 4.0, 1.0), Draw(second, 4.0, air)]
    assert sum(shares(begins, lasts, draws)) == pytest.approx(1.0, rel=1e-9)


def test_fuel_parts_as_the_air_does() -> None:
    """Two half sines that overlap, against SciPy's quadrature of the first's share."""
    one, other = Draw(0.0, 4.0, 1.0), Draw(2.0, 4.0, 2.0)
    begins, lasts = 2.2, 1.5

    def share(angle: float) -> float:
        first = math.sin(math.pi * angle / 4.0)
        return first / (first + 2.0 * math.sin(math.pi * (angle - 2.0) / 4.0))

    mean = quad(share, begins, begins + lasts)[0] / lasts
    assert shares(begins, lasts, [one, other])[0] == pytest.approx(mean, rel=1e-4)


def test_what_comes_while_nobody_draws_is_the_next_ones() -> None:
    """Fires at 0 and 270°: inlets from 350 and from 620°; between 580 and 620° nobody draws."""
    draws = [Draw(math.radians(350), math.radians(230), 1.0),
             Draw(math.radians(620), math.radians(230), 1.0)]  # fmt: skip
    gap = shares(math.radians(585), math.radians(30), draws)
    assert gap == (0.0, 1.0)
    after = shares(math.radians(135), math.radians(200), draws)
    assert after == (1.0, 0.0)
    with pytest.raises(OutsideValidity):
        shares(0.0, 1.0, [Draw(0.0, 4.0, 0.0)])


def test_a_draw_is_all_its_air() -> None:
    draw = Draw(12.0, 4.0, 3.0)
    assert quad(draw.flow, 12.0, 16.0, limit=200)[0] == pytest.approx(3.0, rel=1e-6)
    assert draw.flow(11.9) == draw.flow(16.1) == 0.0
    assert draw.flow(14.0 - CYCLE) == pytest.approx(draw.flow(14.0))


@pytest.mark.parametrize("flow", [1e-8, 1e-7, 1e-6, 2e-6, 2e-5, 1e-4])
def test_loss_in_a_hose_is_the_flow_librarys(flow: float) -> None:
    """`fluids` 1.x: Re, laminar and Blasius friction factors, K from f, dP from K."""
    bore, length, density, viscosity = 4e-3, 0.4, 745.0, 0.6e-6
    speed = flow / (math.pi / 4 * bore**2)
    number = fluids.Reynolds(V=speed, D=bore, nu=viscosity)
    assert reynolds(flow, bore, viscosity) == pytest.approx(number, rel=1e-12)
    # `fluids` has Fanning's factor of Blasius times four
    factor = 64.0 / number if number < 2300 else fluids.friction.Blasius(number)
    book = fluids.dP_from_K(fluids.K_from_f(factor, length, bore), density, speed)
    assert pressure_loss(flow, bore, length, density, viscosity) == pytest.approx(book, rel=1e-3)


def test_a_slow_flow_is_poiseuilles() -> None:
    """128 µ L q/(π d⁴)."""
    book = 128 * 745.0 * 0.6e-6 * 0.4 * 1e-7 / (math.pi * 2e-3**4)
    assert pressure_loss(1e-7, 2e-3, 0.4, 745.0, 0.6e-6) == pytest.approx(book, rel=1e-12)


@given(st.floats(1e-8, 1e-5), st.floats(50.0, 1e4), st.floats(0.05, 2.0))
def test_the_bore_that_is_wanted_just_carries(flow: float, there: float, length: float) -> None:
    bore = bore_wanted(flow, there, length, 745.0, 0.6e-6)
    assert pressure_loss(flow, bore, length, 745.0, 0.6e-6) <= there
    if bore > 0.21e-3:
        wider = pressure_loss(flow, 0.99 * bore, length, 745.0, 0.6e-6)
        # where a hose turns turbulent its loss jumps
        assert wider > there or reynolds(flow, bore, 0.6e-6) > 2200


def test_no_head_carries_nothing() -> None:
    with pytest.raises(OutsideValidity):
        bore_wanted(1e-6, 0.0, 0.4, 745.0, 0.6e-6)
    with pytest.raises(OutsideValidity):
        bore_wanted(1.0, 1.0, 0.4, 745.0, 0.6e-6)


def test_a_pumps_power_is_flow_times_pressure_over_its_share() -> None:
    assert pump_power(1e-5, 3e5, 0.15) == pytest.approx(20.0, rel=1e-12)
