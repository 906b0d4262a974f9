"""Staircase tests: mean and scatter of a strength from parts tried one step up or down."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from firstfire.formulas.validity import require_not_negative, require_positive, require_within


class Staircase(NamedTuple):
    """What a staircase test shows of a strength.

    Attributes
    ----------
    mean
        Mean strength, in the unit of the levels.
    deviation
        Standard deviation, in the same unit.
    """

    mean: float
    deviation: float


def dixon_mood(
    lowest: float, step: float, counts: Sequence[int], *, of_failures: bool
) -> Staircase:
    """Mean and standard deviation from the rarer event's counts at each level.

    mean = S₀ + d (A/F ± ½), deviation = 1.62 d ((F B - A²)/F² + 0.029), with F = Σ nᵢ, A = Σ i nᵢ,
    B = Σ i² nᵢ; minus for failures, plus for survivals.

    Parameters
    ----------
    lowest
        Lowest level S₀ at which the event was seen.
    step
        Distance d of the levels.
    counts
        Events at S₀, S₀ + d, and so on.
    of_failures
        Whether the counted event is failure (the rarer of the two).

    Returns
    -------
    Staircase
        Mean and standard deviation.

    Raises
    ------
    OutsideValidity
        If nothing was counted, or the bracket is 0.3 or less: the steps are too wide for the
        scatter, and only the mean may be used.

    References
    ----------
    W. J. Dixon, A. M. Mood, *J. Am. Stat. Assoc.* 43 (1948) 109; ISO 12107 (form from memory).

    Examples
    --------
    >>> found = dixon_mood(400.0, 25.0, [1, 3, 2], of_failures=True)
    >>> round(found.mean, 1), round(found.deviation, 2)
    (416.7, 20.3)
    """
    mean = dixon_mood_mean(lowest, step, counts, of_failures=of_failures)
    total, first, second = _moments(counts)
    bracket = (total * second - first**2) / total**2
    require_within(
        0.3,
        math.inf,
        because="the steps are too wide for the scatter, use the mean only",
        bracket_of_the_counts=bracket,
    )
    return Staircase(mean, 1.62 * step * (bracket + 0.029))


def dixon_mood_mean(
    lowest: float, step: float, counts: Sequence[int], *, of_failures: bool
) -> float:
    """Mean strength alone, which holds also where the scatter cannot be told.

    Parameters
    ----------
    lowest, step, counts, of_failures
        As `dixon_mood`.

    Raises
    ------
    OutsideValidity
        If nothing was counted, a count is negative or the step not above zero.

    References
    ----------
    As `dixon_mood`.

    Examples
    --------
    >>> dixon_mood_mean(400.0, 25.0, [3], of_failures=True)
    387.5
    """
    require_positive(step=step)
    total, first, _ = _moments(counts)
    return lowest + step * (first / total + (-0.5 if of_failures else 0.5))


def _moments(counts: Sequence[int]) -> tuple[int, int, int]:
    for count in counts:
        require_not_negative(count=count)
    total = sum(counts)
    require_positive(events_counted=total)
    first = sum(i * count for i, count in enumerate(counts))
    return total, first, sum(i * i * count for i, count in enumerate(counts))
