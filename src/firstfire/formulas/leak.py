"""Leak paths of a cylinder as areas: ring gaps, annular clearances, scratches.

A leak is an area, never a percentage: what it costs depends on speed. All areas are geometric;
multiply by a discharge coefficient (0.6 to 0.9; 1 is the worst case).

References
----------
Plain geometry. That a sound metal ring set loses 0.5 to 2 % of its charge: common trade figure.
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative


def ring_gap_area(gap: float, clearance: float) -> float:
    """Area of a ring's end gap: gap width times clearance of piston land to wall, m².

    Raises
    ------
    OutsideValidity
        If a size is negative.

    Examples
    --------
    >>> round(1e6 * ring_gap_area(0.3e-3, 0.05e-3), 3)
    0.015
    """
    require_not_negative(gap=gap, clearance=clearance)
    return gap * clearance


def annular_area(diameter: float, radial_clearance: float) -> float:
    """Area of the gap all round a piston or stem, m²; without a seal, it leaks all of it.

    Raises
    ------
    OutsideValidity
        If a size is negative.

    Examples
    --------
    >>> round(1e6 * annular_area(0.044, 0.05e-3), 2)
    6.91
    """
    require_not_negative(diameter=diameter, clearance=radial_clearance)
    return math.pi * diameter * radial_clearance


def in_series(*areas: float) -> float:
    """One area that leaks about as much as several, one after the other, m².

    ``1/A² = Σ 1/A_i²``: each takes its share of the pressure drop; for small drops.

    Examples
    --------
    >>> round(in_series(1e-6, 1e-6) * 1e6, 4)
    0.7071
    """
    if min(areas) <= 0.0:
        return 0.0
    return 1.0 / math.sqrt(sum(1.0 / area**2 for area in areas))
