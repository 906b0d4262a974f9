import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import burn_duration, knock, laminar_speed


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
