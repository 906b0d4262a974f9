import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import burn_duration, burn_law, knock, laminar_speed


@given(st.floats(0.01, 2.0), st.floats(2.0, 8.0), st.floats(0.5, 4.0))
def test_wiebe_rate_is_the_derivative(progress: float, a: float, m: float) -> None:
    step = 1e-6
    rise = burn_law.wiebe(progress + step, a, m) - burn_law.wiebe(progress - step, a, m)
    assert rise / (2 * step) == pytest.approx(burn_law.wiebe_rate(progress, a, m), abs=1e-5)


@given(st.floats(-1.0, 3.0), st.floats(-1.0, 3.0))
def test_burned_fraction_only_grows(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert 0 <= burn_law.wiebe(low, 5.0, 2.0) <= burn_law.wiebe(high, 5.0, 2.0) <= 1


def test_nothing_burns_before_the_start() -> None:
    assert burn_law.wiebe(-0.1, 5.0, 2.0) == burn_law.wiebe_rate(-0.1, 5.0, 2.0) == 0


@given(st.floats(0.2, 1.5), st.floats(0.2, 1.0))
def test_wiebe_span_gives_both_angles_back(development: float, rapid: float) -> None:
    start, duration = burn_duration.wiebe_span(development, rapid)
    tenth = start + duration * burn_law.wiebe_progress(0.1, 5.0, 2.0)
    nine = start + duration * burn_law.wiebe_progress(0.9, 5.0, 2.0)
    assert nine - tenth == pytest.approx(rapid)
    assert start >= 0
    if start > 0:
        assert tenth == pytest.approx(development)


def group(scale: float = 1.0, speed: float = 4.0, laminar: float = 0.6) -> float:
    return burn_duration.flame_group(0.04 * scale, speed * scale, 6e-6, 0.012 * scale, laminar)


def test_engines_of_one_shape_burn_alike_at_one_speed() -> None:
    assert group(scale=2.0) == pytest.approx(group())


def test_slow_flames_and_fast_pistons_take_more_angle() -> None:
    assert group(laminar=0.3) == pytest.approx(group() * 2 ** (2 / 3))
    assert group(speed=8.0) == pytest.approx(group() * 2 ** (1 / 3))


def test_flat_chambers_burn_longer() -> None:
    tall = burn_duration.rapid_burn_angle(0.02, 0.044, 0.008)
    flat = burn_duration.rapid_burn_angle(0.02, 0.044, 0.004)
    assert flat == pytest.approx(2 * tall)


def test_spread_widens_off_the_correlations_ground() -> None:
    home = burn_duration.burn_duration_spread(300.0, 1.0, 0.1)
    assert home == (0.7, 1.4)
    for elsewhere in ((60.0, 1.0, 0.1), (300.0, 0.6, 0.1), (300.0, 1.0, 0.35)):
        assert burn_duration.burn_duration_spread(*elsewhere) == (0.5, 2.0)


def test_taylor_refuses_cranking() -> None:
    with pytest.raises(OutsideValidity, match="speed in rpm"):
        burn_duration.taylor_burn_duration(30.0, 14.6)


@given(st.floats(0.5, 2.0), st.floats(250, 1000), st.floats(0.2e5, 50e5), st.floats(0.0, 0.6))
def test_no_speed_is_negative(phi: float, t: float, p: float, burned: float) -> None:
    for fuel in (laminar_speed.METGHALCHI_KECK_PROPANE, laminar_speed.METGHALCHI_KECK_METHANOL):
        assert laminar_speed.metghalchi_keck(phi, t, p, fuel) >= 0
    assert laminar_speed.rhodes_keck_petrol(phi, t, p) >= 0
    assert laminar_speed.gulder(phi, t, p, laminar_speed.GULDER_ETHANOL) >= 0
    for dilution in (
        laminar_speed.metghalchi_keck_dilution,
        laminar_speed.rhodes_keck_dilution,
        laminar_speed.gulder_dilution,
    ):
        assert 0 <= dilution(burned) <= 1


def test_laminar_range_names_what_is_outside() -> None:
    laminar_speed.laminar_speed_range(1.0, 600.0, 1e6, 0.1)
    with pytest.raises(OutsideValidity, match="phi"):
        laminar_speed.laminar_speed_range(0.4, 600.0, 1e6, 0.1)
    with pytest.raises(OutsideValidity, match="burned"):
        laminar_speed.laminar_speed_range(1.0, 600.0, 1e6, 0.5)


def test_better_petrol_waits_longer_and_hot_gas_less() -> None:
    wait = knock.douaud_eyzat(95.0, 3e6, 800.0)
    assert knock.douaud_eyzat(98.0, 3e6, 800.0) > wait
    assert knock.douaud_eyzat(95.0, 3e6, 850.0) < wait
    assert knock.douaud_eyzat(95.0, 4e6, 800.0) < wait
    with pytest.raises(OutsideValidity, match="octane"):
        knock.douaud_eyzat_range(110.0)


def test_knock_integral_halves_with_twice_the_speed() -> None:
    times = [1e-5 * i for i in range(300)]
    delays = [5e-3 * math.exp(-i / 300) for i in range(300)]
    slow = knock.livengood_wu(times, delays)
    assert knock.livengood_wu([t / 2 for t in times], delays) == pytest.approx(slow / 2)
