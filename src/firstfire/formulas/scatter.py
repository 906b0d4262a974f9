"""Scatter: Weibull strength, load against strength, size, and tests without failure."""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative, require_positive, require_within


def weibull_variation(shape: float) -> float:
    """Coefficient of variation of a Weibull quantity: √(Γ(1 + 2/b)/Γ(1 + 1/b)² - 1).

    Parameters
    ----------
    shape
        Shape b, 0.5 to 200; about 1.2 over the variation.

    Raises
    ------
    OutsideValidity
        If b is outside 0.5 to 200.

    References
    ----------
    W. Weibull, *J. Appl. Mech.* 18 (1951) 293; R. G. Budynas, J. K. Nisbett, *Shigley's
    Mechanical Engineering Design*, 9th ed., Eq. 20-29.

    Examples
    --------
    >>> round(weibull_variation(10), 4)
    0.1203
    """
    require_within(0.5, 200.0, because="no strength scatters so", shape=shape)
    mean = math.lgamma(1 + 1 / shape)
    return math.sqrt(math.expm1(math.lgamma(1 + 2 / shape) - 2 * mean))


def weibull_shape(variation: float) -> float:
    """Shape b of a Weibull quantity from its coefficient of variation.

    Parameters
    ----------
    variation
        Coefficient of variation, 0.01 to 1.

    Raises
    ------
    OutsideValidity
        If the variation is outside 0.01 to 1.

    References
    ----------
    `weibull_variation`, turned round by halving.

    Examples
    --------
    >>> round(weibull_shape(0.1203), 1)
    10.0
    """
    require_within(0.01, 1.0, because="no strength scatters so", variation=variation)
    low, high = 0.9, 150.0
    for _ in range(60):
        middle = math.sqrt(low * high)
        if weibull_variation(middle) > variation:
            low = middle
        else:
            high = middle
    return math.sqrt(low * high)


def weibull_survival(load_over_mean: float, shape: float) -> float:
    """Share of parts that survive a load given over the mean strength.

    R = exp(-(x Γ(1 + 1/b))^b)

    Parameters
    ----------
    load_over_mean
        Load over mean strength x.
    shape
        Shape b, 0.5 to 200.

    Raises
    ------
    OutsideValidity
        If the load is negative or b outside 0.5 to 200.

    References
    ----------
    As `weibull_variation`.

    Examples
    --------
    >>> round(weibull_survival(0.7, 10), 4)
    0.983
    """
    require_not_negative(load_over_mean=load_over_mean)
    require_within(0.5, 200.0, because="no strength scatters so", shape=shape)
    scaled = load_over_mean * math.exp(math.lgamma(1 + 1 / shape))
    if scaled == 0:
        return 1.0
    return math.exp(-math.exp(min(700.0, shape * math.log(scaled))))


def size_factor(volume_ratio: float, shape: float) -> float:
    """Strength of a larger part over that of a smaller one: (V/V₀)^(-1/b), the weakest link.

    Parameters
    ----------
    volume_ratio
        Stressed volume V over that of the specimen V₀.
    shape
        Shape b of the specimen's strength.

    Raises
    ------
    OutsideValidity
        If the ratio is not above zero or b outside 0.5 to 200.

    References
    ----------
    W. Weibull 1939, weakest link.

    Examples
    --------
    >>> round(size_factor(8.0, 10), 4)
    0.8123
    """
    require_positive(volume_ratio=volume_ratio)
    require_within(0.5, 200.0, because="no strength scatters so", shape=shape)
    return float(volume_ratio ** (-1 / shape))


def safety_index(
    strength: float, strength_variation: float, load: float, load_variation: float
) -> float:
    """Standard deviations between load and strength, both normal: z = (μ_S - μ_L)/√(σ_S² + σ_L²).

    Parameters
    ----------
    strength, load
        Mean strength and mean load, in one unit, above zero.
    strength_variation, load_variation
        Coefficient of variation of each, not both zero.

    Raises
    ------
    OutsideValidity
        If a mean is not above zero, or nothing scatters.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 5-40 (normal interference).

    Examples
    --------
    >>> round(safety_index(40.0, 0.08, 30.0, 0.05), 2)
    2.83
    """
    require_positive(strength=strength, load=load)
    require_not_negative(strength_variation=strength_variation, load_variation=load_variation)
    spread = math.hypot(strength * strength_variation, load * load_variation)
    require_positive(scatter=spread)
    return (strength - load) / spread


def lognormal_safety_index(
    strength: float, strength_variation: float, load: float, load_variation: float
) -> float:
    """Standard deviations between load and strength, both lognormal, about their means.

    z = ln((μ_S/μ_L) √((1 + C_L²)/(1 + C_S²)))/√(ln((1 + C_S²)(1 + C_L²)))

    Parameters
    ----------
    strength, strength_variation, load, load_variation
        As `safety_index`. Use it for wide scatter, where a normal strength would reach below
        zero.

    Raises
    ------
    OutsideValidity
        As `safety_index`.

    References
    ----------
    *Shigley's*, 9th ed., Eq. 5-43.

    Examples
    --------
    >>> round(lognormal_safety_index(40.0, 0.08, 30.0, 0.05), 2)
    3.03
    """
    require_positive(strength=strength, load=load)
    require_not_negative(strength_variation=strength_variation, load_variation=load_variation)
    strong, laid = math.log1p(strength_variation**2), math.log1p(load_variation**2)
    require_positive(scatter=strong + laid)
    return (math.log(strength / load) + (laid - strong) / 2) / math.sqrt(strong + laid)


def failure_probability(index: float) -> float:
    """Chance that load passes strength, Φ(-z), from a safety index.

    Parameters
    ----------
    index
        z of `safety_index` or `lognormal_safety_index`.

    References
    ----------
    Standard normal distribution.

    Examples
    --------
    >>> round(failure_probability(2.830), 5)
    0.00233
    """
    # erfc keeps its figures where 1 - Φ loses them
    return math.erfc(index / math.sqrt(2)) / 2


def failure_free_tests(reliability: float, confidence: float) -> float:
    """Number of tests, none failing, that show a reliability: ln(1 - C)/ln R. Round up.

    Parameters
    ----------
    reliability, confidence
        R and C, between 0 and 1.

    Raises
    ------
    OutsideValidity
        If R or C is not between 0 and 1.

    References
    ----------
    Success-run theorem, binomial.

    Examples
    --------
    >>> round(failure_free_tests(0.90, 0.90), 2)
    21.85
    """
    require_positive(
        reliability=reliability,
        confidence=confidence,
        unreliability=1 - reliability,
        doubt=1 - confidence,
    )
    return math.log1p(-confidence) / math.log(reliability)


def reliability_shown(tests: int, confidence: float) -> float:
    """Reliability shown by a number of tests, none failing: (1 - C)^(1/n).

    Parameters
    ----------
    tests
        Number n of tests, 1 or more.
    confidence
        C, between 0 and 1.

    Raises
    ------
    OutsideValidity
        If there is no test or C is not between 0 and 1.

    References
    ----------
    As `failure_free_tests`.

    Examples
    --------
    >>> round(reliability_shown(22, 0.90), 3)
    0.901
    """
    require_positive(tests=tests, confidence=confidence, doubt=1 - confidence)
    return float((1 - confidence) ** (1 / tests))
