"""Sizes as a machinist reads them: millimetres without a unit, a fit's class and its limits."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas import fits


class Fitted(NamedTuple):
    """A size with a fit.

    Attributes
    ----------
    text
        At the dimension: ``Ø12 h6``.
    limits
        In the table of limits: ``Ø12 h6: 0 / −0.011``; "" where the standard's table that is
        kept here doesn't reach.
    """

    text: str
    limits: str


def bare(metres: float, digits: int = 2) -> str:
    """A size in millimetres without its unit, to a hundredth.

    Examples
    --------
    >>> bare(0.03976), bare(0.012), bare(0.0096, 3)
    ('39.76', '12', '9.6')
    """
    text = f"{1e3 * metres:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return text.replace("-", "−")


def diameter(metres: float) -> str:
    """A diameter.

    Examples
    --------
    >>> diameter(0.11)
    'Ø110'
    """
    return f"Ø{bare(metres)}"


def fitted(metres: float, code: str, sign: str = "Ø") -> Fitted:
    """A size with its tolerance class of ISO 286; a capital letter is a hole's.

    Parameters
    ----------
    metres
        Nominal size, m.
    code
        Such as ``h6`` or ``F8``.
    sign
        Before the number: Ø, or nothing for a width.

    Examples
    --------
    >>> fitted(0.012, "h6")
    Fitted(text='Ø12 h6', limits='Ø12 h6: 0 / −0.011')
    >>> fitted(0.015, "js6").limits, fitted(0.005, "JS9", "").limits
    ('Ø15 js6: ±0.0055', '5 JS9: ±0.015')
    >>> fitted(0.1, "H7")
    Fitted(text='Ø100 H7', limits='')
    """
    # a fit is of micrometres: a size in inches keeps its third decimal
    text = f"{sign}{bare(metres, 3)} {code}"
    try:
        limits = (fits.hole_limits if code[0].isupper() else fits.shaft_limits)(metres, code)
    except OutsideValidity:
        return Fitted(text, "")
    if limits.lower == -limits.upper:
        return Fitted(text, f"{text}: ±{bare(limits.upper, 4)}")
    return Fitted(text, f"{text}: {_signed(limits.upper)} / {_signed(limits.lower)}")


def _signed(metres: float) -> str:
    text = bare(metres, 3)
    if text in ("0", "−0"):
        return "0"
    return text if text.startswith("−") else f"+{text}"
