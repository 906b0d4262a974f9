"""A number of a cam, with what it is held against, why, and where that is from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class CamNumber:
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
