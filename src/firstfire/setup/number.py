"""A number to set up by, with what it is held against, why, and where that is from."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from firstfire.verdict.numbers import THIN, figures, shown

_UNITS = {
    "m": "mm", "rad": "deg", "Pa": "MPa", "rad/s": "rpm", "N": "N", "m/s": "m/s",
    "m/s^2": "m/s^2", "m^3/s": "cm^3/min", "N/m": "N/mm", "s": "ms",
}  # fmt: skip


@dataclass(frozen=True)
class Number:
    """One number.

    Attributes
    ----------
    id
        Fixed: ``nose_radius``.
    words
        What it is.
    value, unit
        SI.
    limit, side
        What it is held against, and from which side; None and "" where it is only told.
    why
        How it was found, and why the limit.
    source
        Of both.
    """

    id: str
    words: str
    value: float
    unit: str
    limit: float | None = None
    side: Literal["at least", "at most", ""] = ""
    why: str = ""
    source: str = ""

    @property
    def holds(self) -> bool:
        """Whether it keeps to its limit; true where it has none."""
        if self.limit is None:
            return True
        if self.side == "at least":
            return self.value >= self.limit
        return self.value <= self.limit

    @property
    def judged(self) -> bool:
        """Whether it could be found; where not, `why` says why not."""
        return not math.isnan(self.value)

    @property
    def text(self) -> str:
        """Its value in the unit of the trade."""
        return number_text(self.value, self.unit)

    @property
    def against(self) -> str:
        """What it is held against, in words; "" where it is only told."""
        if self.limit is None:
            return ""
        word = "holds" if self.holds else "fails"
        sign = ">" if self.side == "at least" else "<"
        return f"{word} {sign}{number_text(self.limit, self.unit)}".replace(THIN, "")


def number_text(value: float, unit: str) -> str:
    """An SI value in the unit of the trade.

    Examples
    --------
    >>> number_text(0.0125, "m").split(THIN), number_text(2.5e6, "m/s^3").split(THIN)
    (['12.5', 'mm'], ['2.5·10⁶', 'm/s³'])
    """
    if unit == "m/s^3":
        return f"{value / 1e6:.3g}·10⁶{THIN}m/s³"
    if unit == "m" and abs(value) >= 1.0:
        return f"{value:.2g}{THIN}m"
    if unit == "Pa" and 0.0 < abs(value) < 1e4:
        return shown(value, "mbar")
    if not unit:
        return figures(value)
    return shown(value, _UNITS.get(unit, unit))
