import cmath
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline

from firstfire.errors import OutsideValidity
from firstfire.formulas import cam_law
from firstfire.formulas.cam_law import RiseLaw
from firstfire.formulas.cam_path import swinging_flat
from firstfire.formulas.lift_curve import curve_motion, lift_curve

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


@given(st.integers(0, 2**32 - 1), st.integers(3, 40))
def test_the_curve_through_a_table_is_scipys_clamped_spline(seed: int, rows: int) -> None:
    """SciPy's CubicSpline with slope 0 at both ends: value and three derivatives."""
    chance = np.random.default_rng(seed)
    places = np.cumsum(chance.uniform(0.02, 0.3, rows))
    lifts = chance.uniform(0.0, 8e-3, rows)
    lifts[0] = lifts[-1] = 0.0
    curve = lift_curve(tuple(places.tolist()), tuple(lifts.tolist()))
    asked = chance.uniform(places[0], places[-1], 50)
    for order in range(4):
        want = CubicSpline(places, lifts, bc_type="clamped")(asked, order)
        found = [curve_motion(curve, float(at))[order] for at in asked]
        assert found == pytest.approx(want, abs=1e-9 * max(1.0, float(np.abs(want).max())))
    for beyond in (places[0] - 1e-6, places[-1] + 1e-6):
        assert curve_motion(curve, float(beyond)) == (0.0, 0.0, 0.0, 0.0)


@pytest.mark.parametrize("rows", [((0.0, 1.0), (0.0, 0.0)), ((0.0, 1.0, 1.0), (0.0, 1.0, 0.0))])
def test_a_table_that_no_curve_follows(rows: tuple[tuple[float, ...], tuple[float, ...]]) -> None:
    with pytest.raises(OutsideValidity, match="three rows"):
        lift_curve(*rows)


@given(
    st.floats(5e-3, 30e-3), st.floats(10e-3, 60e-3), st.floats(0.0, 6e-3), st.floats(-8e-3, 8e-3),
    st.floats(-0.02, 0.02), st.floats(-0.1, 0.1),
)  # fmt: skip
def test_a_swinging_foots_edge_is_the_envelope_of_its_lines(
    base: float, arm: float, rise: float, slope: float, second: float, third: float
) -> None:
    """Where two lines of the foot a hair of a turn apart meet, and how that place moves on."""

    def line(turned: float) -> tuple[complex, complex]:
        s = rise + slope * turned + second * turned**2 / 2 + third * turned**3 / 6
        way = cmath.exp(1j * (math.pi / 2 - s / arm + turned))
        return complex(base, -arm) * cmath.exp(1j * turned), way

    def crossed(turned: float, hair: float = 1e-5) -> complex:
        (p, u), (q, v) = line(turned - hair), line(turned + hair)
        along = ((q - p).conjugate() * v).imag / (u.conjugate() * v).imag
        return p + along * u

    touch = swinging_flat(base, arm, rise, slope, second)
    assert abs(touch.at - crossed(0.0)) < 1e-7
    step = crossed(1e-4) - crossed(-1e-4)
    # along the edge it goes by its radius times what the foot's normal turns on the cam
    assert step.real * math.cos(math.pi / 2 - rise / arm) + step.imag * math.sin(
        math.pi / 2 - rise / arm
    ) == pytest.approx(2e-4 * touch.radius * (1 - slope / arm), abs=1e-8)
    assert abs(touch.at - complex(base, -arm)) == pytest.approx(abs(arm + touch.aside), abs=1e-12)
