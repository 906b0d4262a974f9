"""Joints that carry torque: what must hold for every size."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.formulas import (
    cross_pin,
    interference,
    press_fit,
    spline,
)

PRINTED_HUB = {
    "hub_outer_diameter": 30e-3,
    "hub_modulus": 2.0e9,
    "hub_poisson": 0.38,
    "shaft_modulus": 206e9,
    "shaft_poisson": 0.29,
}


@given(st.floats(0.0, 0.2e-3), st.floats(0.0, 2.0))
def test_slip_torque_is_linear_in_interference_and_nought_at_nought(
    fit: float, multiple: float
) -> None:
    def torque(value: float) -> float:
        pressure = press_fit.contact_pressure(value, 12e-3, **PRINTED_HUB)
        return press_fit.slip_torque(pressure, 12e-3, 20e-3, 0.2)

    assert torque(fit * multiple) == pytest.approx(multiple * torque(fit), rel=1e-9, abs=1e-12)
    assert torque(-fit) == 0


@given(st.floats(13e-3, 60e-3), st.floats(1.01, 2.0))
def test_a_thicker_hub_grips_harder(outer: float, times: float) -> None:
    thin = press_fit.contact_pressure(0.1e-3, 12e-3, **PRINTED_HUB | {"hub_outer_diameter": outer})
    thick = press_fit.contact_pressure(
        0.1e-3, 12e-3, **PRINTED_HUB | {"hub_outer_diameter": outer * times}
    )
    assert thick > thin


@given(st.floats(0.1, 0.95))
def test_at_the_yield_pressure_hoop_and_pressure_make_the_yield_strength(ratio: float) -> None:
    pressure = press_fit.hub_yield_pressure(ratio, 1.0, 45e6)
    hoop = press_fit.hub_hoop_stress(pressure, ratio, 1.0)
    assert hoop + pressure == pytest.approx(45e6)


def test_a_plastic_hub_lets_go_of_steel_as_it_warms() -> None:
    cold, warm = 100e-6, interference.interference_when_warm(100e-6, 12e-3, 60, 12e-6, 68e-6)
    assert warm < cold
    assert interference.interference_when_warm(cold, 12e-3, 60, 12e-6, 12e-6) == cold
    assert interference.interference_after_smoothing(cold, 0.0, 0.0) == cold


def test_a_cross_pin_carries_the_torque_on_two_cuts() -> None:
    stress = cross_pin.shear_stress(10.0, 12e-3, 4e-3)
    assert stress * math.pi / 4 * 4e-3**2 * 12e-3 == pytest.approx(10.0)
    mean = cross_pin.hub_bearing_stress(10.0, 12e-3, 4e-3, 9e-3)
    assert mean * 4e-3 * 9e-3 * (12e-3 + 9e-3) == pytest.approx(10.0)
    # Linear pressure from the axis: 2 ∫ p (x/r) x d_p dx = p d_p d²/6
    peak = cross_pin.shaft_bearing_stress(10.0, 12e-3, 4e-3)
    assert peak * 4e-3 * 12e-3**2 / 6 == pytest.approx(10.0)
    side = cross_pin.lengthwise_bearing_stress(10.0, 12e-3, 4e-3, 20e-3)
    assert side * 2e-3 * 20e-3 * 6e-3 == pytest.approx(10.0)


def test_spline_teeth_carry_the_torque() -> None:
    sizes = {"teeth": 6, "root_diameter": 13e-3, "length": 20e-3}
    pressure = spline.tooth_pressure(10.0, outside_diameter=16e-3, bearing_share=1.0, **sizes)
    assert pressure * 6 * 1.5e-3 * 20e-3 * 14.5e-3 / 2 == pytest.approx(10.0)
    shear = spline.tooth_root_shear(10.0, tooth_width=3.5e-3, **sizes)
    assert shear * 6 * 3.5e-3 * 20e-3 * 6.5e-3 == pytest.approx(10.0)


def test_rocking_pressure_carries_the_moment() -> None:
    # Midpoint sum of p_b (2x/L) cos²θ over the cylinder; 200 × 200 cells.
    moment, diameter, length = 10.0, 12e-3, 20e-3
    peak = press_fit.rocking_pressure(moment, diameter, length)
    cells = 200
    total = 0.0
    for i in range(cells):
        x = (-0.5 + (i + 0.5) / cells) * length
        for j in range(cells):
            angle = 2 * math.pi * (j + 0.5) / cells
            force = peak * 2 * x / length * math.cos(angle) ** 2 * diameter / 2
            total += force * x * (2 * math.pi / cells) * (length / cells)
    assert total == pytest.approx(moment, rel=1e-3)
