"""Refusals that name the argument."""

from __future__ import annotations

import math

from firstfire.errors import OutsideValidity


def refuse_outside(ranges: dict[str, tuple[float, float, float]]) -> None:
    """Refuse the first number that is not strictly between its two limits.

    Raises
    ------
    OutsideValidity
        Naming it.
    """
    for name, (value, low, high) in ranges.items():
        if not low < value < high:
            limit = f"above {low:g}" if math.isinf(high) else f"between {low:g} and {high:g}"
            raise OutsideValidity(f"{name} is {value:g}: it must be {limit} (SI, radians).")


def refuse_below_zero(numbers: dict[str, float]) -> None:
    """Refuse the first number that is negative or no number.

    Raises
    ------
    OutsideValidity
        Naming it.
    """
    for name, value in numbers.items():
        if not (value >= 0.0 and math.isfinite(value)):
            raise OutsideValidity(f"{name} is {value:g}: it must be 0 or more.")
