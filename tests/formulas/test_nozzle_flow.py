import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.formulas import nozzle_flow as nf


@pytest.mark.parametrize("band", [1e-6, nf.BAND, 5e-3])
def test_slope_is_finite_at_equal_pressures(band: float) -> None:
    def flow(drop: float) -> float:
        return nf.mass_flow(1.0, 1.0, 1.0, 1.0, 1.35, 1 - drop, band)

    first, half = flow(1e-6 * band), flow(2e-6 * band)
    assert half == pytest.approx(2 * first, rel=1e-4)  # straight, to rounding of 1 - drop
    assert first / (1e-6 * band) == pytest.approx(15 / 8 * math.sqrt(2 / band), rel=1e-4)


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
