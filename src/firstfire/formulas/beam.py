"""Bending of bars: section properties, stress and deflection of the cases an engine has."""

from __future__ import annotations

from firstfire.formulas.validity import require_positive


def rectangle_second_moment(width: float, depth: float) -> float:
    """Second moment of a rectangle, m⁴: I = b h³/12, h in the direction of bending.

    Parameters
    ----------
    width, depth
        Width b and depth h, m.

    Raises
    ------
    OutsideValidity
        If a size is not above zero.

    References
    ----------
    R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., Table A-18.

    Examples
    --------
    >>> round(rectangle_second_moment(14e-3, 8e-3) * 1e12, 1)
    597.3
    """
    require_positive(width=width, depth=depth)
    return width * depth**3 / 12
