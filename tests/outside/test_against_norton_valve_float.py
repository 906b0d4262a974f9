"""Valve float of a 3-4-5 cam, after the force-closed follower of R. L. Norton.

Source: *Cam Design and Manufacturing Handbook*, 2nd ed.; F₀ + k x ≥ m |a| evaluated apart from
this code. Tolerance 0.2 %: the search over the rise and four printed figures.
"""

import math

import pytest

from firstfire.formulas import valve_float

LIFT, DURATION, CAM_SPEED = 5e-3, math.radians(60), 1500 * math.pi / 30
MASS, SEATED, RATE = 20e-3, 20.0, 2500.0


def lift_and_acceleration(x: float) -> tuple[float, float]:
    """3-4-5 rise s = 10x³ - 15x⁴ + 6x⁵ and its second derivative over time."""
    rise = LIFT * (10 * x**3 - 15 * x**4 + 6 * x**5)
    second = LIFT * (60 * x - 180 * x**2 + 120 * x**3)
    return rise, second * (CAM_SPEED / DURATION) ** 2


PLACES = [i / 20_000 for i in range(20_001)]


def test_largest_deceleration_and_the_force_it_asks() -> None:
    place = min(PLACES, key=lambda x: lift_and_acceleration(x)[1])
    lift, acceleration = lift_and_acceleration(place)
    assert acceleration == pytest.approx(-649.5, rel=2e-3)
    assert -MASS * acceleration == pytest.approx(12.99, rel=2e-3)
    spring_force = valve_float.spring_margin(SEATED, RATE, lift, MASS, 0.0)
    assert spring_force == pytest.approx(31.66, rel=2e-3)


def test_smallest_margin_and_float_speed() -> None:
    margins = {
        x: valve_float.spring_margin(SEATED, RATE, lift, MASS, acceleration)
        for x in PLACES
        for lift, acceleration in [lift_and_acceleration(x)]
        if acceleration < 0
    }
    place = min(margins, key=margins.__getitem__)
    assert margins[place] == pytest.approx(18.53, rel=2e-3)
    assert place == pytest.approx(0.761, abs=2e-3)
    speeds = [
        valve_float.float_speed(3000, SEATED + RATE * lift, MASS, -acceleration)
        for lift, acceleration in map(lift_and_acceleration, PLACES)
        if acceleration < -1e-6
    ]
    assert min(speeds) == pytest.approx(4680, rel=2e-3)


def test_float_speed_goes_with_the_root_of_force_over_mass() -> None:
    once = valve_float.float_speed(3000, 30, 20e-3, 650)
    assert valve_float.float_speed(3000, 120, 20e-3, 650) == pytest.approx(2 * once)
    assert valve_float.float_speed(3000, 30, 80e-3, 650) == pytest.approx(once / 2)
