import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import slider_crank as sc

angles = st.floats(-20.0, 20.0)
mechanisms = st.tuples(st.floats(0.005, 0.05), st.floats(1.6, 6.0), st.floats(-0.4, 0.4)).map(
    lambda m: (m[0], m[0] * m[1], m[0] * m[2])
)

Mechanism = tuple[float, float, float]


@given(angles, mechanisms)
def test_slope_and_curvature_are_derivatives(angle: float, mechanism: Mechanism) -> None:
    step = 1e-5
    throw = mechanism[0]
    before = sc.piston_height(angle - step, *mechanism)
    after = sc.piston_height(angle + step, *mechanism)
    slope = sc.piston_height_slope(angle, *mechanism)
    assert (after - before) / (2 * step) == pytest.approx(slope, abs=1e-6 * throw)
    before = sc.piston_height_slope(angle - step, *mechanism)
    after = sc.piston_height_slope(angle + step, *mechanism)
    curvature = sc.piston_height_curvature(angle, *mechanism)
    # Central difference: its own error is of the size of step² times the fourth derivative.
    assert (after - before) / (2 * step) == pytest.approx(curvature, abs=1e-5 * throw)


@given(angles, mechanisms)
def test_mirrored_offset_turned_backwards_is_the_same_engine(
    angle: float, mechanism: Mechanism
) -> None:
    throw, rod, offset = mechanism
    height = sc.piston_height(angle, throw, rod, offset)
    assert sc.piston_height(-angle, throw, rod, -offset) == pytest.approx(height, rel=1e-12)


@given(angles, mechanisms)
def test_piston_stays_between_its_dead_centres(angle: float, mechanism: Mechanism) -> None:
    travel = sc.piston_travel(angle, *mechanism)
    assert -1e-12 <= travel <= sc.stroke(*mechanism) + 1e-12


@given(mechanisms)
def test_dead_centres_stand_still_a_stroke_apart(mechanism: Mechanism) -> None:
    top, bottom = sc.top_centre_angle(*mechanism), sc.bottom_centre_angle(*mechanism)
    assert sc.piston_height_slope(top, *mechanism) == pytest.approx(0, abs=1e-14)
    assert sc.piston_height_slope(bottom, *mechanism) == pytest.approx(0, abs=1e-14)
    fall = sc.piston_height(top, *mechanism) - sc.piston_height(bottom, *mechanism)
    assert fall == pytest.approx(sc.stroke(*mechanism), rel=1e-12)
    assert sc.throw_for_stroke(fall, *mechanism[1:]) == pytest.approx(mechanism[0], rel=1e-9)


@given(angles, mechanisms)
def test_rod_keeps_its_length(angle: float, mechanism: Mechanism) -> None:
    throw, rod, offset = mechanism
    rise = sc.piston_height(angle, *mechanism) - throw * math.cos(angle)
    across = throw * math.sin(angle) - offset
    assert math.hypot(rise, across) == pytest.approx(rod, rel=1e-12)
    assert math.tan(sc.rod_angle(angle, *mechanism)) == pytest.approx(across / rise, abs=1e-12)


@pytest.mark.parametrize(
    ("throw", "rod", "offset"), [(0.018, 0.018, 0.0), (0.018, 0.020, 0.003), (0.0, 0.02, 0.0)]
)
def test_a_mechanism_that_cannot_turn_is_refused(throw: float, rod: float, offset: float) -> None:
    with pytest.raises(OutsideValidity, match="longer than both"):
        sc.slider_crank_range(throw, rod, offset)


def test_a_mechanism_that_turns_is_accepted() -> None:
    sc.slider_crank_range(0.018, 0.030, -0.003)
