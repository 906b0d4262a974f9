"""Fits of holes and shafts: limits by letter and grade, clearance and interference."""

from __future__ import annotations

import math
import re
from bisect import bisect_left
from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas.validity import require_positive, require_within

LARGEST = 80e-3
GROUND_BAR = "h6"
"""Limits that ground bar for pins and journals is asked for and turned to: drawing and shopping
list say the same (bright drawn bar is h9 or h8 and too loose for a press; common practice)."""
"""Largest size that the tables below cover, m."""

# Upper ends of the ranges "over … up to and including …", mm, and widths of the grades in µm:
# ISO 286-1:2010, Table 1, read in tables that makers print.
_RANGES = (3, 6, 10, 18, 30, 50, 80)
_GRADES = {
    5: (4, 5, 6, 8, 9, 11, 13),
    6: (6, 8, 9, 11, 13, 16, 19),
    7: (10, 12, 15, 18, 21, 25, 30),
    8: (14, 18, 22, 27, 33, 39, 46),
    9: (25, 30, 36, 43, 52, 62, 74),
    10: (40, 48, 58, 70, 84, 100, 120),
    11: (60, 75, 90, 110, 130, 160, 190),
}
# Fundamental deviations of shafts, µm: the upper one of d to h, the lower one of k to p.
_UPPER = {
    "d": (-20, -30, -40, -50, -65, -80, -100),
    "e": (-14, -20, -25, -32, -40, -50, -60),
    "f": (-6, -10, -13, -16, -20, -25, -30),
    "g": (-2, -4, -5, -6, -7, -9, -10),
    "h": (0,) * 7,
}
_LOWER = {
    "k": (0, 1, 1, 1, 2, 2, 2),
    "m": (2, 4, 6, 7, 8, 9, 11),
    "n": (4, 8, 10, 12, 15, 17, 20),
    "p": (6, 12, 15, 18, 22, 26, 32),
}
_SHAFT_GRADES = range(5, 8)  # the lower deviations above hold for these


class Limits(NamedTuple):
    """Limits of a size, m over its nominal value.

    Attributes
    ----------
    lower, upper
        Lower and upper deviation, m.
    """

    lower: float
    upper: float


class Fit(NamedTuple):
    """What a hole and a shaft make together, m on diameter.

    Attributes
    ----------
    least, most
        Least and most clearance; negative for an interference.
    """

    least: float
    most: float


def tolerance(diameter: float, grade: int) -> float:
    """Width of a tolerance grade, m.

    Parameters
    ----------
    diameter
        Nominal size, m, above 0 to 80 mm.
    grade
        IT grade, 5 to 11.

    Raises
    ------
    OutsideValidity
        If size or grade is outside the table.

    References
    ----------
    ISO 286-1:2010, Table 1.

    Examples
    --------
    >>> round(tolerance(15e-3, 7) * 1e6)
    18
    """
    if grade not in _GRADES:
        raise OutsideValidity(f"Grade IT{grade} is not tabled here: IT5 to IT11 are.")
    return _GRADES[grade][_range(diameter)] * 1e-6


def tolerance_unit(diameter: float) -> float:
    """Tolerance unit, m: i = 0.45 D^⅓ + 0.001 D (µm, D in mm the range's geometric mean).

    IT6 is 10 i, IT7 16 i, IT8 25 i, before rounding.

    Parameters
    ----------
    diameter
        Nominal size, m, above 3 to 80 mm.

    Raises
    ------
    OutsideValidity
        If the size is outside 3 to 80 mm.

    References
    ----------
    ISO 286-1, annex on the basis of the system.

    Examples
    --------
    >>> round(16 * tolerance_unit(15e-3) * 1e6, 1)
    17.3
    """
    require_within(0.003, 0.080, because="the ranges tabled here end there", diameter=diameter)
    place = max(1, _range(diameter))
    mean = math.sqrt(_RANGES[place - 1] * _RANGES[place])
    return (0.45 * math.cbrt(mean) + 0.001 * mean) * 1e-6


def hole_limits(diameter: float, code: str) -> Limits:
    """Limits of a hole, m: D, E, F, G, H and JS at any grade tabled.

    A hole of these letters is as far above its size as the shaft of the same letter is below it.

    Parameters
    ----------
    diameter
        Nominal size, m, above 0 to 80 mm.
    code
        Such as "H7" or "F8".

    Raises
    ------
    OutsideValidity
        If the code is none of these or the size is outside the table.

    References
    ----------
    ISO 286-1, general rule for the deviations of holes; ISO 286-2.

    Examples
    --------
    >>> round(hole_limits(15e-3, "H7").upper * 1e6)
    18
    >>> limits = hole_limits(15e-3, "F8")
    >>> round(limits.lower * 1e6), round(limits.upper * 1e6)
    (16, 43)
    """
    letter, grade = _split(code)
    width, place = tolerance(diameter, grade), _range(diameter)
    if letter == "JS":
        return Limits(-width / 2, width / 2)
    if letter.isupper() and letter.lower() in _UPPER:
        lower = -_UPPER[letter.lower()][place] * 1e-6
        return Limits(lower, lower + width)
    raise OutsideValidity(
        f'"{code}" is not tabled here: holes are D, E, F, G, H and JS at grades 5 to 11.'
    )


def shaft_limits(diameter: float, code: str) -> Limits:
    """Limits of a shaft, m: d to h and js at any grade tabled; k, m, n, p at grades 5 to 7.

    Parameters
    ----------
    diameter
        Nominal size, m, above 0 to 80 mm.
    code
        Such as "h6" or "p6".

    Raises
    ------
    OutsideValidity
        If the code or the size is outside the table.

    References
    ----------
    ISO 286-2.

    Examples
    --------
    >>> limits = shaft_limits(15e-3, "p6")
    >>> round(limits.lower * 1e6), round(limits.upper * 1e6)
    (18, 29)
    """
    letter, grade = _split(code)
    width, place = tolerance(diameter, grade), _range(diameter)
    if letter == "js":
        return Limits(-width / 2, width / 2)
    if letter in _UPPER:
        upper = _UPPER[letter][place] * 1e-6
        return Limits(upper - width, upper)
    if letter in _LOWER and grade in _SHAFT_GRADES:
        lower = _LOWER[letter][place] * 1e-6
        return Limits(lower, lower + width)
    raise OutsideValidity(
        f'"{code}" is not tabled here: shafts are d to h and js at grades 5 to 11, '
        "k, m, n and p at grades 5 to 7."
    )


def fit(hole: Limits, shaft: Limits) -> Fit:
    """Least and most clearance of a hole and a shaft, m.

    Parameters
    ----------
    hole, shaft
        Limits of each over the same nominal size.

    References
    ----------
    ISO 286-1.

    Examples
    --------
    >>> tight = fit(hole_limits(15e-3, "H7"), shaft_limits(15e-3, "p6"))
    >>> round(tight.least * 1e6), round(tight.most * 1e6)
    (-29, 0)
    """
    return Fit(hole.lower - shaft.upper, hole.upper - shaft.lower)


def _range(diameter: float) -> int:
    require_positive(diameter=diameter)
    require_within(0.0, 0.080, because="the ranges tabled here end there", diameter=diameter)
    # "up to and including": a size on the border belongs to the smaller range
    return min(bisect_left(_RANGES, round(diameter * 1e3, 9)), len(_RANGES) - 1)


def _split(code: str) -> tuple[str, int]:
    found = re.fullmatch(r"([A-Za-z]{1,2})(\d{1,2})", code)
    if found is None:
        raise OutsideValidity(f'"{code}" is no tolerance code. Write a letter and a grade: "h6".')
    return found[1], int(found[2])
