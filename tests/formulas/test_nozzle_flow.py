import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.formulas import nozzle_flow as nf

gammas = st.floats(1.1, 1.6)


def textbook(ratio: float, gamma: float) -> float:
    """Heywood, Eq. C.8, without any smoothing; not choked."""
    bracket = 1 - ratio ** ((gamma - 1) / gamma)
    return ratio ** (1 / gamma) * math.sqrt(2 * gamma / (gamma - 1) * bracket)


@given(st.floats(nf.BAND * 1.001, 0.4), gammas)
def test_outside_the_band_it_is_the_textbook_law(drop: float, gamma: float) -> None:
    assert nf.flow_function(1 - drop, gamma) == pytest.approx(textbook(1 - drop, gamma), rel=1e-7)


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0), gammas)
def test_more_back_pressure_never_gives_more_flow(one: float, other: float, gamma: float) -> None:
    low, high = sorted((one, other))
    # The series and the power meet within 1e-7.
    assert nf.flow_function(high, gamma) <= nf.flow_function(low, gamma) * (1 + 1e-7)


@pytest.mark.parametrize("gamma", [1.15, 1.3, 1.4])
@pytest.mark.parametrize("join", [nf.BAND, 0.01])
def test_no_step_where_two_forms_meet(join: float, gamma: float) -> None:
    below = nf.flow_function(1 - join * (1 + 1e-9), gamma)
    above = nf.flow_function(1 - join * (1 - 1e-9), gamma)
    assert below == pytest.approx(above, rel=1e-7)


@pytest.mark.parametrize("gamma", [1.15, 1.3, 1.4])
def test_choking_sets_in_smoothly(gamma: float) -> None:
    ratio = nf.critical_pressure_ratio(gamma)
    choked = nf.flow_function(ratio * 0.999, gamma)
    assert choked == nf.flow_function(0.2, gamma)
    assert nf.flow_function(ratio * 1.001, gamma) == pytest.approx(choked, rel=1e-6)


@pytest.mark.parametrize("band", [1e-6, nf.BAND, 5e-3])
def test_slope_is_finite_at_equal_pressures(band: float) -> None:
    def flow(drop: float) -> float:
        return nf.mass_flow(1.0, 1.0, 1.0, 1.0, 1.35, 1 - drop, band)

    first, half = flow(1e-6 * band), flow(2e-6 * band)
    assert half == pytest.approx(2 * first, rel=1e-4)  # straight, to rounding of 1 - drop
    assert first / (1e-6 * band) == pytest.approx(15 / 8 * math.sqrt(2 / band), rel=1e-4)


def test_slope_does_not_jump_at_the_edge_of_the_band() -> None:
    def slope(drop: float) -> float:
        step = 1e-6
        return (nf.flow_function(1 - drop - step, 1.4) - nf.flow_function(1 - drop, 1.4)) / step

    assert slope(nf.BAND * 1.01) == pytest.approx(slope(nf.BAND * 0.98), rel=0.02)


def test_swapped_ends_swap_the_flow() -> None:
    # The stepper asks from the end with the higher pressure; from the other there is none.
    assert nf.mass_flow(1e-6, 2e5, 500.0, 287.0, 1.35, 1e5) > 0
    assert nf.mass_flow(1e-6, 1e5, 300.0, 287.0, 1.40, 2e5) == 0


@given(st.floats(0.1, 10), st.floats(200, 2500), st.floats(0.3, 0.999))
def test_flow_goes_with_area_and_with_the_root_of_temperature(
    area: float, temperature: float, ratio: float
) -> None:
    flow = nf.mass_flow(area, 1e5, temperature, 287.0, 1.35, 1e5 * ratio)
    unit = nf.mass_flow(1.0, 1e5, 300.0, 287.0, 1.35, 1e5 * ratio)
    assert flow == pytest.approx(unit * area * math.sqrt(300 / temperature), rel=1e-9)
