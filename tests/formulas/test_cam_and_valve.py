import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.formulas import cam_law, valve_lift
from firstfire.formulas.cam_law import RiseLaw

LAWS = [
    cam_law.polynomial_345,
    cam_law.polynomial_4567,
    cam_law.cycloidal,
    cam_law.harmonic,
    cam_law.modified_trapezoid,
    cam_law.modified_sine,
]
KINKS = [1 / 8, 3 / 8, 5 / 8, 7 / 8]


@pytest.mark.parametrize("law", LAWS)
@given(x=st.floats(0.001, 0.999))
def test_each_column_is_the_derivative_of_the_one_before(law: RiseLaw, x: float) -> None:
    step = 1e-6
    if any(abs(x - kink) < 2 * step for kink in KINKS):
        return  # jerk jumps there in the modified laws
    before, here, after = law(x - step), law(x), law(x + step)
    for order in range(3):
        slope = (after[order] - before[order]) / (2 * step)
        assert slope == pytest.approx(here[order + 1], abs=2e-3)


@pytest.mark.parametrize("law", LAWS)
@given(x=st.floats(0.0, 1.0))
def test_rise_is_the_fall_turned_round(law: RiseLaw, x: float) -> None:
    assert law(x)[0] + law(1 - x)[0] == pytest.approx(1.0, abs=1e-12)
    assert law(x)[1] == pytest.approx(law(1 - x)[1], abs=1e-9)


@pytest.mark.parametrize("law", LAWS)
def test_dwell_before_and_after(law: RiseLaw) -> None:
    assert law(-0.1) == law(0.0) == (0, 0, 0, 0)
    assert law(1.1) == law(1.0) == (1, 0, 0, 0)


@pytest.mark.parametrize("law", LAWS[-2:])
@pytest.mark.parametrize("kink", KINKS)
def test_modified_laws_join_smoothly(law: RiseLaw, kink: float) -> None:
    before, after = law(kink - 1e-9), law(kink + 1e-9)
    assert before[:3] == pytest.approx(after[:3], abs=1e-6)


@given(st.floats(-30.0, 30.0), st.floats(0.0, 0.8))
def test_valve_lift_slope_and_curvature_are_derivatives(angle: float, dwell: float) -> None:
    profile = (0.4, 2.1, 5e-3, dwell)
    step = 1e-6
    rise = valve_lift.valve_lift(angle + step, *profile) - valve_lift.valve_lift(
        angle - step, *profile
    )
    slope = valve_lift.valve_lift_slope(angle, *profile)
    assert rise / (2 * step) == pytest.approx(slope, abs=1e-6)
    rise = valve_lift.valve_lift_slope(angle + step, *profile)
    rise -= valve_lift.valve_lift_slope(angle - step, *profile)
    curvature = valve_lift.valve_lift_curvature(angle, *profile)
    flank = 0.5 * 2.1 * (1 - dwell)
    # One step's worth of jerk, which is largest at the ends of the flanks.
    assert rise / (2 * step) == pytest.approx(curvature, abs=60 * 5e-3 / flank**3 * 2 * step)


@given(st.floats(-30.0, 30.0))
def test_valve_lift_repeats_every_cam_turn_and_is_its_own_mirror(angle: float) -> None:
    profile = (0.4, 2.1, 5e-3)
    lift = valve_lift.valve_lift(angle, *profile)
    assert valve_lift.valve_lift(angle + 2 * math.pi, *profile) == pytest.approx(lift, abs=1e-15)
    middle = 0.4 + 1.05
    assert valve_lift.valve_lift(2 * middle - angle, *profile) == pytest.approx(lift, abs=1e-15)


@given(st.floats(-30.0, 30.0), st.floats(0.0, 0.8))
def test_valve_lift_is_the_law_on_the_phase(angle: float, dwell: float) -> None:
    phase, slope = valve_lift.cam_phase(angle, 0.4, 2.1, dwell)
    rise, velocity, _, _ = cam_law.polynomial_345(phase)
    lift = valve_lift.valve_lift(angle, 0.4, 2.1, 5e-3, dwell)
    assert lift == pytest.approx(5e-3 * rise, abs=1e-15)
    found = valve_lift.valve_lift_slope(angle, 0.4, 2.1, 5e-3, dwell)
    assert found == pytest.approx(5e-3 * velocity * slope, abs=1e-12)


def test_dwell_holds_the_valve_open() -> None:
    lifts = [valve_lift.valve_lift(x, 0.0, 2.0, 5e-3, 0.3) for x in (0.71, 1.0, 1.29)]
    assert lifts == pytest.approx([5e-3] * 3, rel=1e-12)
    assert valve_lift.valve_lift(0.69, 0.0, 2.0, 5e-3, 0.3) < 5e-3
