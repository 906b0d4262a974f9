import math
from collections.abc import Callable
from functools import partial

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


Fit = Callable[[float, float, float], float]

FITS: list[tuple[Fit, float]] = [
    (laminar_speed.rhodes_keck_petrol, laminar_speed.rhodes_keck_dilution(0.08)),
    *(
        (
            partial(laminar_speed.metghalchi_keck, fuel=fuel),
            laminar_speed.metghalchi_keck_dilution(0.1),
        )
        for fuel in (
            laminar_speed.METGHALCHI_KECK_METHANOL,
            laminar_speed.METGHALCHI_KECK_PROPANE,
            laminar_speed.METGHALCHI_KECK_ISO_OCTANE,
        )
    ),
    *(
        (partial(laminar_speed.gulder, fuel=fuel), laminar_speed.gulder_dilution(0.1))
        for fuel in (
            laminar_speed.GULDER_ISO_OCTANE,
            laminar_speed.GULDER_PROPANE,
            laminar_speed.GULDER_METHANOL,
            laminar_speed.GULDER_ETHANOL,
        )
    ),
]


@pytest.mark.parametrize(("fit", "dilution"), FITS)
@given(st.floats(0.7, 1.4), st.floats(250, 1000), st.floats(0.2e5, 50e5))
def test_each_fit_is_a_power_law(
    fit: Fit, dilution: float, phi: float, temperature: float, pressure: float
) -> None:
    law = laminar_speed.power_law(fit, phi, dilution)
    found = laminar_speed.power_law_speed(law, temperature, pressure)
    assert found == pytest.approx(dilution * fit(phi, temperature, pressure), rel=1e-12)
    assert law.speed == pytest.approx(dilution * fit(phi, 300.0, 101_325.0), rel=1e-12)


def test_powers_are_those_of_the_fits() -> None:
    # Heywood 1988, Eqs. 9.33 and 9.34 (from memory): 2.18 and -0.16 at phi 1; petrol 2.4 - 0.271
    # and -0.357 + 0.14.
    propane = partial(laminar_speed.metghalchi_keck, fuel=laminar_speed.METGHALCHI_KECK_PROPANE)
    assert laminar_speed.power_law(propane, 1.0, 1.0)[1:] == pytest.approx((2.18, -0.16))
    petrol = laminar_speed.power_law(laminar_speed.rhodes_keck_petrol, 1.0, 0.7)
    assert petrol[1:] == pytest.approx((2.129, -0.217))


def test_a_mixture_of_fuels_is_nearly_a_power_law() -> None:
    def both(phi: float, temperature: float, pressure: float) -> float:
        ethanol = laminar_speed.gulder(phi, temperature, pressure, laminar_speed.GULDER_ETHANOL)
        petrol = laminar_speed.rhodes_keck_petrol(phi, temperature, pressure)
        return 0.5 * (ethanol + petrol)

    law = laminar_speed.power_law(both, 1.0, 1.0)
    here = laminar_speed.power_law_speed(law, 600.0, 10 * 101_325.0)
    assert here == pytest.approx(both(1.0, 600.0, 10 * 101_325.0), rel=1e-12)
    for temperature, pressure in ((450.0, 3e5), (700.0, 20e5), (850.0, 40e5)):
        found = laminar_speed.power_law_speed(law, temperature, pressure)
        # Half of a per cent off at most; the fits themselves are good to 10 %.
        assert found == pytest.approx(both(1.0, temperature, pressure), rel=0.005)


def test_what_does_not_burn_has_a_power_law_of_nothing() -> None:
    law = laminar_speed.power_law(laminar_speed.rhodes_keck_petrol, 1.0, 0.0)
    assert laminar_speed.power_law_speed(law, 700.0, 20e5) == 0.0
    propane = partial(laminar_speed.metghalchi_keck, fuel=laminar_speed.METGHALCHI_KECK_PROPANE)
    assert laminar_speed.power_law(propane, 0.5, 1.0) == (0.0, 0.0, 0.0)
