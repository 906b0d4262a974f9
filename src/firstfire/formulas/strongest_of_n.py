"""The strongest of n: what peak to expect when a cycle is drawn many times."""

from __future__ import annotations

import math
from statistics import NormalDist

from firstfire.formulas.validity import require_within

_NORMAL = NormalDist()


def expected_strongest(count: float) -> float:
    """Mean of the largest of n normal draws, in standard deviations above their mean.

    E = ∫₀^∞ (1 - Φⁿ) dx - ∫_-∞^0 Φⁿ dx, by the trapezium rule.

    Parameters
    ----------
    count
        Number n of draws, 1 to 10⁹; need not be whole.

    Raises
    ------
    OutsideValidity
        If n is outside 1 to 10⁹. Real peaks have a ceiling (a cycle burned at constant
        volume) that a normal tail passes: cut it there.

    References
    ----------
    L. H. C. Tippett, *Biometrika* 17 (1925) 364.

    Examples
    --------
    >>> round(expected_strongest(10), 4), round(expected_strongest(1000), 3)
    (1.5388, 3.241)
    """
    require_within(1.0, 1e9, because="too few or too many draws", count=count)
    step = 0.02
    total = 0.0
    for i in range(-450, 451):
        x = i * step
        # log Φ from the small tail, so that Φⁿ keeps its figures for large n
        below = math.exp(count * math.log1p(-math.erfc(x / math.sqrt(2)) / 2)) if x > -8 else 0.0
        # the trapezium has its break at zero, where both integrands meet
        total += 0.5 - below if i == 0 else (1.0 - below if i > 0 else -below)
    return total * step


def strongest_quantile(count: float, probability: float) -> float:
    """Level that none of n normal draws passes with a given probability, in deviations.

    z = Φ⁻¹(p^(1/n))

    Parameters
    ----------
    count
        Number n of draws, 1 to 10⁹.
    probability
        p, 10⁻⁶ to 1 - 10⁻⁶.

    Raises
    ------
    OutsideValidity
        If n or p is outside its range.

    References
    ----------
    Distribution of the largest of n: Φ(z)ⁿ.

    Examples
    --------
    >>> round(strongest_quantile(1000, 0.5), 3)
    3.198
    """
    require_within(1.0, 1e9, because="too few or too many draws", count=count)
    require_within(1e-6, 1 - 1e-6, because="no test reaches there", probability=probability)
    passed = -math.expm1(math.log(probability) / count)  # chance that one draw passes it
    return -_NORMAL.inv_cdf(passed)


def one_in(count: float) -> float:
    """Level that one draw in n passes, in standard deviations: Φ⁻¹(1 - 1/n).

    Parameters
    ----------
    count
        n, 2 to 10⁹: 20 for the one-in-twenty peak, 1000 for the one-in-a-thousand.

    Raises
    ------
    OutsideValidity
        If n is outside 2 to 10⁹.

    References
    ----------
    Standard normal distribution.

    Examples
    --------
    >>> round(one_in(20), 3), round(one_in(1000), 3)
    (1.645, 3.09)
    """
    require_within(2.0, 1e9, because="fewer than two have no rare one", count=count)
    return -_NORMAL.inv_cdf(1 / count)
