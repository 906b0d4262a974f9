"""Scatter against Weibull, normal interference, Dixon and Mood, and Tippett.

Sources: W. Weibull 1951; *Shigley's Mechanical Engineering Design*, 9th ed., Eq. 5-40; the
success-run theorem; W. J. Dixon, A. M. Mood 1948 and ISO 12107 (form from memory); L. H. C.
Tippett 1925. Evaluated apart from this code, 0.1 %; and SciPy's distributions.
"""

import math

import pytest
from scipy import stats

from firstfire.formulas import scatter, staircase, strongest_of_n

FOUR_FIGURES = 1e-3


@pytest.mark.parametrize(
    ("shape", "variation", "survival"),
    [(5, 0.2291, 0.8961), (10, 0.1203, 0.9830), (20, 0.0620, 0.9995)],
)
def test_weibull(shape: float, variation: float, survival: float) -> None:
    assert scatter.weibull_variation(shape) == pytest.approx(variation, rel=FOUR_FIGURES)
    assert scatter.weibull_survival(0.7, shape) == pytest.approx(survival, rel=FOUR_FIGURES)
    reference = stats.weibull_min(shape)
    assert scatter.weibull_variation(shape) == pytest.approx(reference.std() / reference.mean())
    assert scatter.weibull_survival(0.7, shape) == pytest.approx(
        reference.sf(0.7 * reference.mean())
    )


def test_eight_times_the_volume() -> None:
    assert scatter.size_factor(8.0, 10) == pytest.approx(0.8123, rel=FOUR_FIGURES)


def test_normal_interference() -> None:
    index = scatter.safety_index(40.0, 0.08, 30.0, 0.05)
    assert index == pytest.approx(2.830, rel=FOUR_FIGURES)
    assert scatter.failure_probability(index) == pytest.approx(0.00233, rel=FOUR_FIGURES)
    for z in (-2.0, 0.0, 3.0, 8.0):
        assert scatter.failure_probability(z) == pytest.approx(stats.norm.sf(z))


def test_lognormal_interference_by_the_logs_themselves() -> None:
    # Two lognormals: the difference of their logs is normal.
    strong, laid = math.log1p(0.2**2), math.log1p(0.1**2)
    difference = stats.norm(
        (math.log(40) - strong / 2) - (math.log(30) - laid / 2), math.sqrt(strong + laid)
    )
    index = scatter.lognormal_safety_index(40.0, 0.2, 30.0, 0.1)
    assert scatter.failure_probability(index) == pytest.approx(difference.cdf(0.0))


def test_success_run() -> None:
    tests = scatter.failure_free_tests(0.90, 0.90)
    assert tests == pytest.approx(21.85, rel=FOUR_FIGURES)
    assert scatter.reliability_shown(22, 0.90) > 0.90 > scatter.reliability_shown(21, 0.90)


def test_dixon_mood_staircase() -> None:
    found = staircase.dixon_mood(400.0, 25.0, [1, 3, 2], of_failures=True)
    assert found.mean == pytest.approx(416.7, rel=FOUR_FIGURES)
    assert found.deviation == pytest.approx(20.30, rel=FOUR_FIGURES)


@pytest.mark.parametrize(
    ("count", "mean"),
    [
        # Tippett's mean of the largest of n: exact 1/√π and 3/2√π for 2 and 3, tabled above.
        (1, 0.0),
        (2, 1 / math.sqrt(math.pi)),
        (3, 1.5 / math.sqrt(math.pi)),
        (10, 1.53875),
        (100, 2.50759),
        (1000, 3.24144),
    ],
)
def test_tippetts_largest_of_n(count: int, mean: float) -> None:
    # 2·10⁻⁵: the table's five decimals and the step of the integration.
    assert strongest_of_n.expected_strongest(count) == pytest.approx(mean, abs=2e-5)


def test_quantiles_of_the_largest() -> None:
    assert strongest_of_n.one_in(20) == pytest.approx(stats.norm.isf(0.05))
    assert strongest_of_n.one_in(1000) == pytest.approx(stats.norm.isf(0.001))
    for count, probability in ((10, 0.5), (1e4, 0.9), (1e9, 0.99)):
        level = strongest_of_n.strongest_quantile(count, probability)
        passed = math.exp(count * math.log1p(-stats.norm.sf(level)))
        assert passed == pytest.approx(probability, rel=1e-6)
