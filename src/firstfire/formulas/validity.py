"""What a law asks of its arguments before it answers."""

from __future__ import annotations

import math
from itertools import pairwise

from firstfire.errors import OutsideValidity


def require_positive(**quantities: float) -> None:
    """Refuse quantities that are not above zero; give their names as keywords.

    Raises
    ------
    OutsideValidity
        For the first quantity that is zero, negative or not a number.

    Examples
    --------
    >>> require_positive(bore_diameter=44e-3)
    """
    for name, value in quantities.items():
        if not value > 0:
            raise OutsideValidity(f"{_spoken(name)} is {value:.6g}: it must be more than zero.")


def require_not_negative(**quantities: float) -> None:
    """Refuse quantities below zero; give their names as keywords.

    Raises
    ------
    OutsideValidity
        For the first quantity that is negative or not a number.

    Examples
    --------
    >>> require_not_negative(friction=0.0)
    """
    for name, value in quantities.items():
        if not value >= 0:
            raise OutsideValidity(f"{_spoken(name)} is {value:.6g}: it must not be negative.")


def require_within(low: float, high: float, *, because: str, **quantities: float) -> None:
    """Refuse quantities outside low to high, both ends allowed, and say why the range is so.

    Parameters
    ----------
    low, high
        Ends of the range in which the law holds.
    because
        What fails outside, as a clause without a full stop.
    **quantities
        The quantities to judge, by name.

    Raises
    ------
    OutsideValidity
        For the first quantity outside the range.

    Examples
    --------
    >>> require_within(0.0, 0.5, because="rubber splits", squeeze=0.2)
    """
    for name, value in quantities.items():
        # asked a million times over, so that what is well inside costs one look
        if low <= value <= high:
            continue
        # a ratio that rounding puts a hair outside is at the end, not beyond it
        if not (math.isclose(value, low) or math.isclose(value, high)):
            raise OutsideValidity(
                f"{_spoken(name)} is {value:.6g}, outside {low:.6g} to {high:.6g}: {because}."
            )


def require_ordered(**sizes: float) -> None:
    """Refuse sizes that do not rise from first to last, such as bore, interface, outside.

    Raises
    ------
    OutsideValidity
        For the first size that is not above the one before it.

    Examples
    --------
    >>> require_ordered(bore=0.0, outer_diameter=30e-3)
    """
    names = list(sizes)
    for smaller, larger in pairwise(names):
        if not sizes[smaller] < sizes[larger]:
            raise OutsideValidity(
                f"{_spoken(larger)} ({sizes[larger]:.6g}) must be more than "
                f"{_spoken(smaller)} ({sizes[smaller]:.6g})."
            )


def _spoken(name: str) -> str:
    return name.replace("_", " ")
