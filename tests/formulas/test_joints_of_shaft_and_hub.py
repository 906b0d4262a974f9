"""Joints that carry torque: what must hold for every size."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import (
    bonded_joint,
    clamp,
    cross_pin,
    interference,
    key,
    polygon_joint,
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


def test_a_plastic_hub_lets_go_of_steel_as_it_warms() -> None:
    cold, warm = 100e-6, interference.interference_when_warm(100e-6, 12e-3, 60, 12e-6, 68e-6)
    assert warm < cold
    assert interference.interference_when_warm(cold, 12e-3, 60, 12e-6, 12e-6) == cold
    assert interference.interference_after_smoothing(cold, 0.0, 0.0) == cold


@given(st.floats(1e-4, 40.0))
def test_glue_between_equal_parts_peaks_by_coth(run: float) -> None:
    # kL/2 coth(kL/2) at both ends, and the mean as k goes to nought
    length = 20e-3
    stiffness = 2 * 1e9 / (0.1e-3 * (run / length) ** 2)
    peaks = bonded_joint.lap_peaks(
        1000.0,
        length,
        20e-3,
        first_stiffness=stiffness,
        second_stiffness=stiffness,
        film_thickness=0.1e-3,
        film_shear_modulus=1e9,
    )
    mean = 1000.0 / (length * 20e-3)
    assert peaks.entering == pytest.approx(mean * run / 2 / math.tanh(run / 2), rel=1e-6)
    assert peaks.leaving == pytest.approx(peaks.entering)
    if run < 1e-2:
        assert peaks.entering == pytest.approx(mean, rel=1e-4)


def test_a_pin_and_hub_of_equal_twist_stiffness_peak_alike() -> None:
    outer = (12e-3**4 * (1 + 79.3 / 0.75)) ** 0.25
    peaks = bonded_joint.torsion_peaks(
        10.0,
        12e-3,
        20e-3,
        hub_outer_diameter=outer,
        pin_shear_modulus=79.3e9,
        hub_shear_modulus=0.75e9,
        film_thickness=0.1e-3,
        film_shear_modulus=1e9,
    )
    assert peaks.entering == pytest.approx(peaks.leaving)


@given(st.floats(0.05e-3, 2e-3))
def test_a_softer_film_peaks_less_but_never_below_the_mean(thickness: float) -> None:
    def peaks(film: float) -> bonded_joint.EndPeaks:
        return bonded_joint.axial_peaks(
            1000.0,
            12e-3,
            20e-3,
            hub_outer_diameter=30e-3,
            pin_modulus=206e9,
            hub_modulus=2e9,
            film_thickness=film,
            film_shear_modulus=1e9,
        )

    thin, thick = peaks(thickness), peaks(2 * thickness)
    assert max(thick) < max(thin)
    assert max(thick) >= 1000.0 / (math.pi * 12e-3 * 20e-3)


def test_a_key_of_the_length_asked_reaches_exactly_the_strength() -> None:
    length = key.length_for_shear(8.0, 15e-3, 5e-3, 30e6, 2.0)
    assert key.shear_stress(8.0, 15e-3, 5e-3, length) == pytest.approx(15e6)
    length = key.length_for_bearing(8.0, 15e-3, 5e-3, 60e6, 1.5)
    assert key.bearing_stress(8.0, 15e-3, 5e-3, length) == pytest.approx(40e6)


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


def test_an_even_clamp_slips_where_its_pressure_says() -> None:
    pressure = clamp.clamp_pressure(4000.0, 12e-3, 20e-3)
    even = press_fit.slip_torque(pressure, 12e-3, 20e-3, 0.15)
    assert clamp.slip_torque(4000.0, 12e-3, 0.15) == pytest.approx(even)
    assert clamp.slip_torque(4000.0, 12e-3, 0.15, closeness=1.0) < even
    assert clamp.lever_force(2000.0, 24e-3, 12e-3) == pytest.approx(4000.0)


def test_spline_teeth_carry_the_torque() -> None:
    sizes = {"teeth": 6, "root_diameter": 13e-3, "length": 20e-3}
    pressure = spline.tooth_pressure(10.0, outside_diameter=16e-3, bearing_share=1.0, **sizes)
    assert pressure * 6 * 1.5e-3 * 20e-3 * 14.5e-3 / 2 == pytest.approx(10.0)
    shear = spline.tooth_root_shear(10.0, tooth_width=3.5e-3, **sizes)
    assert shear * 6 * 3.5e-3 * 20e-3 * 6.5e-3 == pytest.approx(10.0)


def test_a_rounded_polygon_of_more_throw_grips_better() -> None:
    more = polygon_joint.three_lobe_pressure(25.0, 20e-3, 0.7e-3, 20e-3)
    less = polygon_joint.three_lobe_pressure(25.0, 20e-3, 1.0e-3, 20e-3)
    assert less < more


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: press_fit.contact_pressure(1e-3, 12e-3, **PRINTED_HUB), "small elastic strain"),
        (lambda: press_fit.hub_hoop_stress(1e6, 30e-3, 12e-3), "must be more than"),
        (lambda: press_fit.slip_torque(-1e6, 12e-3, 20e-3, 0.2), "must not be negative"),
        (lambda: polygon_joint.side(20, 10e-3), "no polygon joint"),
        (lambda: polygon_joint.three_lobe_pressure(1, 20e-3, 5e-3, 1e-2), "standard's profiles"),
        (lambda: cross_pin.shear_stress(10, 12e-3, 14e-3), "shaft diameter"),
        (lambda: clamp.slip_torque(1e3, 12e-3, 0.1, closeness=2), "two lines"),
        (lambda: clamp.lever_force(1e3, 10e-3, 12e-3), "beyond the shaft"),
        (lambda: key.surface_force(1.0, float("nan")), "more than zero"),
        (
            lambda: spline.tooth_root_shear(
                1.0, teeth=30, root_diameter=13e-3, tooth_width=3e-3, length=1e-2
            ),
            "do not fit",
        ),
    ],
)
def test_what_the_laws_do_not_hold_for_is_refused(call, words: str) -> None:
    with pytest.raises(OutsideValidity, match=words):
        call()
