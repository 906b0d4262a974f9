"""Leak-down testers and thumbs: closed forms, SciPy, and the law that reads a tester backwards."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from firstfire.bench.learned_leak import leak_down_area
from firstfire.errors import OutsideValidity
from firstfire.formulas import leak_down as ld
from firstfire.formulas.nozzle_flow import mass_flow

AIR = 101_325.0


def textbook(up: float, down: float) -> float:
    """Flow of an area over area and √(R T), written down once more: Heywood, Eq. C.8 and C.9."""
    ratio = max(down / up, (2 / 2.4) ** 3.5)
    return up * math.sqrt(2.8 / 0.4 * (ratio ** (2 / 1.4) - ratio ** (2.4 / 1.4)))


@pytest.mark.parametrize("leak", [0.01e-6, 0.1e-6, 0.6e-6, 3e-6, 20e-6])
def test_held_pressure_is_where_scipy_has_it(leak: float) -> None:
    orifice, supply = 0.61e-6, 5.52e5

    def left_over(held: float) -> float:
        return orifice * textbook(supply + AIR, held) - leak * textbook(held, AIR)

    held = brentq(left_over, AIR * (1 + 1e-9), (supply + AIR) * (1 - 1e-9), xtol=1e-3)
    # near equal pressures the nozzle's law is smoothed over 0.05 % of the pressure
    assert ld.held_pressure(supply, orifice, leak, AIR) == pytest.approx(held - AIR, abs=500.0)


@given(st.floats(0.02e-6, 5e-6), st.floats(0.5e5, 8e5))
def test_a_tester_read_backwards_gives_the_leak_again(leak: float, supply: float) -> None:
    held = ld.held_pressure(supply, 0.61e-6, leak, AIR)
    assert leak_down_area(supply, held, 0.61e-6, AIR) == pytest.approx(leak, rel=1e-6)


def test_small_pressures_go_as_those_of_water() -> None:
    """Two openings in a row, each with its square root of the drop: 1/(1 + (leak/orifice)²)."""
    for ratio in (0.5, 1.0, 2.0):
        held = ld.held_pressure(1000.0, 1e-6, ratio * 1e-6, AIR)
        assert held / 1000.0 == pytest.approx(1 / (1 + ratio**2), rel=0.01)


def test_no_leak_holds_all_and_more_leak_holds_less() -> None:
    held = [ld.held_pressure(5e5, 0.6e-6, leak, AIR) for leak in (0.0, 1e-8, 1e-7, 1e-6, 1e-5)]
    assert held[0] == pytest.approx(5e5, rel=1e-6)
    assert held == sorted(held, reverse=True)
    assert held[-1] < 0.05 * 5e5


def test_the_tester_is_that_of_the_circular() -> None:
    """FAA AC 43.13-1B, 8-14: 0.040 in at 80 psi."""
    assert pytest.approx(1.016e-3, rel=1e-9) == ld.ORIFICE
    assert pytest.approx(5.516e5, rel=1e-3) == ld.SUPPLY


@pytest.mark.parametrize(
    ("begins", "ends"), [(7e5, 3e5), (5e5, 2.5e5), (2e5, 1e5), (0.8e5, 0.4e5), (0.3e5, 0.05e5)]
)
def test_a_thumb_as_scipy_steps_it(begins: float, ends: float) -> None:
    """Mass balance of a vessel that keeps its warmth, with the flow law of the stepper."""
    volume, leak, warm = 8.2e-6, 0.05e-6, 293.0

    def falls(_: float, pressure: list[float]) -> list[float]:
        goes = mass_flow(leak, pressure[0], warm, 287.0, 1.4, AIR)
        return [-287.0 * warm / volume * goes]

    def there(_: float, pressure: list[float]) -> float:
        return pressure[0] - AIR - ends

    there.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(falls, (0.0, 60.0), [AIR + begins], events=there, rtol=1e-9, atol=1e-3)
    found = ld.seconds_to_fall(begins, ends, volume, leak, AIR, warm)
    assert found == pytest.approx(run.t_events[0][0], rel=1e-5)


def test_choked_it_is_a_half_life() -> None:
    """While choked, pressure falls by equal shares in equal times, whatever it is."""
    from_to = [(15e5, 7e5), (7e5, 3e5)]
    times = [ld.seconds_to_fall(a, b, 1e-5, 1e-7, 1e5, 300.0) for a, b in from_to]
    assert times[0] == pytest.approx(times[1], rel=1e-12)
    assert times[0] == pytest.approx(
        math.log(2) * 1e-5 / (1e-7 * 0.684731 * math.sqrt(287 * 300)), rel=1e-5
    )


@given(st.floats(1e4, 1e6), st.floats(0.01, 0.99), st.floats(0.01, 0.99))
def test_one_fall_after_another_takes_both_times(begins: float, one: float, two: float) -> None:
    middle, ends = one * begins, one * two * begins

    def takes(a: float, b: float) -> float:
        return ld.seconds_to_fall(a, b, 1e-5, 1e-7, AIR, 300.0)

    assert takes(begins, ends) == pytest.approx(
        takes(begins, middle) + takes(middle, ends), rel=1e-9, abs=1e-12
    )


def test_without_a_leak_it_stays() -> None:
    assert ld.seconds_to_fall(1e5, 0.5e5, 1e-5, 0.0, AIR, 300.0) == math.inf


@pytest.mark.parametrize(
    "wrong", [(0.0, 0.0, 1e-5, 1e-7), (1e5, 2e5, 1e-5, 1e-7), (1e5, 0.0, 0.0, 1e-7),
              (1e5, 0.0, 1e-5, -1e-7)]
)  # fmt: skip
def test_what_can_not_be_is_refused(wrong: tuple[float, float, float, float]) -> None:
    with pytest.raises(OutsideValidity):
        ld.seconds_to_fall(*wrong, AIR, 300.0)
    with pytest.raises(OutsideValidity):
        ld.held_pressure(wrong[0] - 1e9, 1e-6, 1e-6, AIR)
