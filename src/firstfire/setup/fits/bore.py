"""The bore as it was measured: three heights, two directions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

HEIGHTS = ("top", "middle", "bottom")
WAYS = ("along", "across")
"""Along the crank, and across it."""
PLACES = tuple(f"{height} {way}" for height in HEIGHTS for way in WAYS)
HOW = (
    "Measure the bore 10 mm below its top, in the middle of the stroke and 10 mm above its "
    "bottom, each along the crank and across it: six readings, the caliper's inside jaws rocked "
    "until they read most. A bought tube is never a fit."
)


@dataclass(frozen=True)
class Bore:
    """Readings of a bore.

    Attributes
    ----------
    readings
        By place, m.
    """

    readings: Mapping[str, float]

    @property
    def mean(self) -> float:
        """Of all readings, m."""
        return sum(self.readings.values()) / len(self.readings)

    @property
    def least(self) -> float:
        """The narrowest, m."""
        return min(self.readings.values())

    @property
    def most(self) -> float:
        """The widest, m."""
        return max(self.readings.values())

    @property
    def missing(self) -> tuple[str, ...]:
        """Places that were not read."""
        return tuple(place for place in PLACES if place not in self.readings)

    @property
    def oval(self) -> float | None:
        """Largest difference of both ways at one height, m; None where no height has both."""
        apart = [
            abs(self.readings[f"{height} along"] - self.readings[f"{height} across"])
            for height in HEIGHTS
            if f"{height} along" in self.readings and f"{height} across" in self.readings
        ]
        return max(apart, default=None)

    @property
    def taper(self) -> float | None:
        """How much wider the bottom is than the top, m; None where one wasn't read."""
        top, bottom = self._at("top"), self._at("bottom")
        return None if top is None or bottom is None else bottom - top

    def _at(self, height: str) -> float | None:
        read = [size for place, size in self.readings.items() if place.startswith(height)]
        return sum(read) / len(read) if read else None
