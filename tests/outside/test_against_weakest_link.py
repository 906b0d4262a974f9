"""Bent against pulled bars by integrating Weibull's weakest link; his shape by SciPy's.

W. Weibull 1939: survival exp(-∫(σ/σ0)^m dV). SciPy does the integrals.
"""

import pytest
from scipy.integrate import dblquad
from scipy.stats import weibull_min

from firstfire.errors import OutsideValidity
from firstfire.formulas.coupon import bent_over_pulled, cantilever_stress, weibull_shape


@pytest.mark.parametrize("shape", [3.0, 5.0, 7.4, 10.0, 20.0])
def test_bent_over_pulled_by_the_integral(shape: float) -> None:
    # Stress of a cantilever over its largest: (x/L)(y/(h/2)) on the pulled half of its depth.
    share, _ = dblquad(lambda y, x: (x * y) ** shape, 0, 1, 0, 1)
    effective = share / 2  # only half of the depth is pulled
    assert bent_over_pulled(shape) == pytest.approx((1 / effective) ** (1 / shape), rel=1e-6)


@pytest.mark.parametrize(("shape", "variation"), [(5, 0.2291), (10, 0.1203), (20, 0.0620)])
def test_shape_by_the_coefficient_of_variation(shape: float, variation: float) -> None:
    # SciPy's own distribution, and its figures to four decimals.
    law = weibull_min(shape)
    assert law.std() / law.mean() == pytest.approx(variation, abs=5e-5)
    assert weibull_shape(law.std() / law.mean()) == pytest.approx(shape, rel=1e-6)


def test_outside_of_what_was_compared() -> None:
    for variation in (0.01, 0.6):
        with pytest.raises(OutsideValidity):
            weibull_shape(variation)
    with pytest.raises(OutsideValidity):
        bent_over_pulled(1.0)


def test_a_cantilever_of_the_book() -> None:
    # M c / I: 100 N at 200 mm on 20 × 10 mm (10 along the force): 20 N·m × 5 mm / 1666.7 mm⁴.
    assert cantilever_stress(100.0, 0.2, 20e-3, 10e-3) == pytest.approx(60e6, rel=1e-9)
    with pytest.raises(OutsideValidity):
        cantilever_stress(100.0, 25e-3, 20e-3, 10e-3)
