"""From numbers to places on the paper."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from firstfire.report.charts.ticks import even_ticks, log_ticks

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Scale:
    """One axis.

    Attributes
    ----------
    low, high
        Numbers at its ends.
    start, end
        Places of those, in the picture's units.
    logarithmic
        Whether equal ratios are equally far apart.
    """

    low: float
    high: float
    start: float
    end: float
    logarithmic: bool = False

    def __call__(self, values: ArrayLike) -> Floats:
        """Places of some numbers.

        Examples
        --------
        >>> float(Scale(0.0, 10.0, 0.0, 100.0)(2.5))
        25.0
        """
        given = np.asarray(values, dtype=np.float64)
        if self.logarithmic:
            share = np.log(given / self.low) / np.log(self.high / self.low)
        else:
            share = (given - self.low) / (self.high - self.low)
        return np.asarray(self.start + share * (self.end - self.start), dtype=np.float64)

    def at(self, value: float) -> float:
        """Place of one number."""
        return float(self(value))

    def ticks(self, most: int = 6) -> tuple[float, ...]:
        """Round numbers along it."""
        if self.logarithmic:
            return log_ticks(self.low, self.high)
        return even_ticks(self.low, self.high, most)
