"""A root of a costly function, looked for with few calls."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True)
class Bracket:
    """Two places a function changes sign between.

    Attributes
    ----------
    low, high
        Places.
    at_low, at_high
        Values there, of different sign.
    """

    low: float
    high: float
    at_low: float
    at_high: float


def near_root(
    asked: Callable[[float], float],
    bracket: Bracket,
    *,
    small: float,
    narrow: float,
    most: int = 8,
) -> Bracket:
    """A bracket narrowed until one of its ends is nearly a root, or until it is narrow.

    Parameters
    ----------
    asked
        The function, each call costly.
    bracket
        To begin with.
    small
        A value at or below which, either way, a place is good enough.
    narrow
        Width over the higher place at or below which the bracket is: a jump is then between.
    most
        Calls.

    References
    ----------
    M. Dowell, P. Jarratt, *A modified regula falsi method*, BIT 11 (1971) 168-174: the Illinois
    rule, which halves the value of an end that stays.

    Examples
    --------
    >>> found = near_root(lambda x: x * x - 2, Bracket(1.0, 2.0, -1.0, 2.0), small=1e-3, narrow=0)
    >>> round(min(found.low, found.high, key=lambda x: abs(x * x - 2)), 3)
    1.414
    """
    low, high = bracket.low, bracket.high
    at_low, at_high = bracket.at_low, bracket.at_high
    weight_low = weight_high = 1.0
    kept = ""
    for _ in range(most):
        if min(abs(at_low), abs(at_high)) <= small or high - low <= narrow * high:
            break
        pulled_low, pulled_high = weight_low * at_low, weight_high * at_high
        middle = (low * pulled_high - high * pulled_low) / (pulled_high - pulled_low)
        found = asked(middle)
        if (found < 0) == (at_low < 0):
            low, at_low, weight_low = middle, found, 1.0
            weight_high, kept = (weight_high / 2, "high") if kept == "high" else (1.0, "high")
        else:
            high, at_high, weight_high = middle, found, 1.0
            weight_low, kept = (weight_low / 2, "low") if kept == "low" else (1.0, "low")
    return Bracket(low, high, at_low, at_high)
