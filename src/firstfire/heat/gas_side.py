"""What one wall feels of hot gas over a cycle: coefficient and temperature, evenly in time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from firstfire.engine.records import GasCycle
from firstfire.formulas.validity import require_positive

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

SAMPLES = 256
"""Samples of one cycle, 2.8° of crank each."""


@dataclass(frozen=True)
class GasSide:
    """Hot gas on a wall over one cycle.

    Attributes
    ----------
    period
        Of the cycle, s.
    coefficient
        Mean within each of the equal intervals of the cycle, W/(m² K).
    temperature
        Gas temperature there, weighted with the coefficient, K.
    """

    period: float
    coefficient: Floats
    temperature: Floats

    @property
    def steady(self) -> bool:
        """Whether nothing swings."""
        return bool(np.ptp(self.coefficient) == 0.0 and np.ptp(self.temperature) == 0.0)

    @property
    def mean_coefficient(self) -> float:
        """Mean over the cycle, W/(m² K)."""
        return float(self.coefficient.mean())

    @property
    def mean_temperature(self) -> float:
        """Gas temperature weighted with the coefficient, K: what a wall without swing feels."""
        total = self.coefficient.sum()
        if total <= 0.0:
            return float(self.temperature.mean())
        return float((self.coefficient * self.temperature).sum() / total)

    def scaled(self, factor: float) -> GasSide:
        """The same gas with a coefficient so many times as large."""
        return GasSide(self.period, self.coefficient * factor, self.temperature)


def steady_gas(coefficient: float, temperature: float, period: float = 0.04) -> GasSide:
    """Gas that does not change: W/(m² K), K."""
    return GasSide(period, np.full(2, float(coefficient)), np.full(2, float(temperature)))


def gas_side(cycle: GasCycle, share: Floats | None = None, samples: int = SAMPLES) -> GasSide:
    """What a wall feels of a cylinder's gas.

    Coefficient and flux are averaged over each interval, so that no peak falls between samples
    and the heat of the cycle is kept.

    Parameters
    ----------
    cycle
        Its angles may be uneven; the doubt about wall heat is already in its coefficient.
    share
        Part of the wall that gas touches at each angle, 0 to 1; None: all of it.
    samples
        Intervals of the cycle.

    Raises
    ------
    OutsideValidity
        Where the shaft does not turn forwards throughout.
    """
    require_positive(slowest_speed=float(np.min(cycle.speed)))
    slowness = 1.0 / cycle.speed
    steps = np.diff(cycle.angle) * 0.5 * (slowness[1:] + slowness[:-1])
    seconds = np.concatenate(([0.0], np.cumsum(steps)))
    touched = cycle.coefficient if share is None else cycle.coefficient * share
    coefficient = _interval_means(seconds, touched, samples)
    flux = _interval_means(seconds, touched * cycle.gas_temperature, samples)
    plain = _interval_means(seconds, cycle.gas_temperature, samples)
    felt = np.where(coefficient > 0.0, flux / np.where(coefficient > 0.0, coefficient, 1.0), plain)
    return GasSide(float(seconds[-1]), coefficient, felt)


def _interval_means(seconds: Floats, values: Floats, samples: int) -> Floats:
    """Means over equal intervals of a line through points."""
    steps = np.diff(seconds)
    pieces = 0.5 * steps * (values[1:] + values[:-1])
    whole = np.concatenate(([0.0], np.cumsum(pieces)))
    edges = np.linspace(0.0, seconds[-1], samples + 1)
    # the integral of a straight piece is a parabola, not a line, between its points
    piece = np.clip(np.searchsorted(seconds, edges, side="right") - 1, 0, steps.size - 1)
    into = edges - seconds[piece]
    slope = (values[piece + 1] - values[piece]) / steps[piece]
    integral = whole[piece] + into * (values[piece] + 0.5 * slope * into)
    return np.asarray(np.diff(integral) * (samples / seconds[-1]), dtype=np.float64)
