"""How far a factor may be off: what engines drawn at random say, made smooth by the slopes.

A factor's logarithm is drawn over its own first-order sum of what the unknowns do: a parabola
through the engines drawn, and a rest that scatters about it. Where the first order is right the
parabola is the line through the centre and nothing is left over; where it isn't, the engines
outvote it. So a few dozen engines tell the ends of a span as many hundred would.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from statistics import NormalDist
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

import numpy as np

from firstfire.runs.drawn import piece_of
from firstfire.runs.ensemble import Ensemble
from firstfire.runs.spread import Spread

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

_NINETY = 1.6449
_POINTS = 48
"""Equal shares of a bell that a span is read off, each way."""
_FEWEST = 12
"""Engines in which a way is judged, below which the first order stands."""
_BEYOND = 20.0
"""Logarithm of a factor beyond any doubt, either way: its part isn't loaded, or is gone."""
_NO_SLOPE = 1e-3


@dataclass(frozen=True)
class Bend:
    """A factor's logarithm over the first-order sum: ``centre + slope u + bend (u² - s²)``.

    Attributes
    ----------
    centre, slope, bend
        Of the parabola; centre as a difference from the engine at its own centre.
    size
        Standard deviation s of the sum u.
    rest
        Standard deviation of what scatters about the parabola.
    left
        That scatter of each engine drawn; what scatters in one way scatters in others with it.
    """

    centre: float
    slope: float
    bend: float
    size: float
    rest: float
    left: tuple[float, ...] = ()

    def over(self, summed: Floats, scattered: Floats) -> Floats:
        """Logarithm of the factor over that of the centre, for sums and scatter in deviations."""
        along = self.centre + self.slope * summed + self.bend * (summed**2 - self.size**2)
        return np.asarray(along + self.rest * scattered, dtype=np.float64)


@dataclass(frozen=True)
class Span:
    """A factor's 5 and 95 % ends as logarithms over its centre, and its whole spread.

    Attributes
    ----------
    low, high
        Logarithms over the centre's.
    over
        Equally likely logarithms over the centre's, rising.
    """

    low: float
    high: float
    over: Floats

    def survival(self, factor: float) -> float:
        """Chance that the factor is 1 or more, given the centre's."""
        if not math.isfinite(factor):
            return 1.0
        if factor <= 0:
            return 0.0
        below = np.searchsorted(self.over, -math.log(factor), side="left")
        return 1.0 - float(below) / self.over.size


def span(spread: Spread, ensemble: Ensemble | None, way: str, factor: float) -> Span:
    """The span of one way's factor.

    Parameters
    ----------
    spread, ensemble
        Of its bout.
    way
        Its id.
    factor
        At the centre and the second that the ensemble was judged.
    """
    return _read_off(bend(spread, ensemble, way, factor))


@lru_cache(maxsize=4096)
def _read_off(found: Bend) -> Span:
    bell = _bell()
    if found.rest > 0:
        scattered = np.array(found.left) / found.rest
        over = found.over(found.size * bell[:, None], scattered[None, :]).ravel()
    else:
        over = found.over(found.size * _fine_bell(), np.zeros(1))
    rising = np.sort(over)
    low, high = np.quantile(rising, (0.05, 0.95))
    return Span(float(low), float(high), rising)


@lru_cache(maxsize=1)
def _bell() -> Floats:
    return _shares(_POINTS)


@lru_cache(maxsize=1)
def _fine_bell() -> Floats:
    return _shares(_POINTS**2)


def _shares(count: int) -> Floats:
    normal = NormalDist()
    return np.array([normal.inv_cdf((at + 0.5) / count) for at in range(count)])


_FITTED: WeakKeyDictionary[Ensemble, dict[str, Bend]] = WeakKeyDictionary()


def bend(spread: Spread, ensemble: Ensemble | None, way: str, factor: float) -> Bend:
    """How one way's factor lies over its first-order sum; arguments as `span`."""
    size = spread.deviation(way)
    straight = Bend(0.0, 1.0, 0.0, size, 0.0)
    if ensemble is None or not 0 < factor < math.inf or abs(math.log(factor)) > _BEYOND:
        return straight
    kept = _FITTED.setdefault(ensemble, {})
    if way not in kept:
        kept[way] = _fitted(spread, ensemble, way, math.log(factor)) or straight
    return kept[way]


def _fitted(spread: Spread, ensemble: Ensemble, way: str, centre: float) -> Bend | None:
    """The parabola through the engines in which the way is judged; None where they are too few."""
    logs = np.clip(ensemble.logs(way), -_BEYOND, _BEYOND)
    judged = np.isfinite(logs)
    known = judged & (np.abs(logs) < _BEYOND)
    if known.sum() < _FEWEST:
        return None
    found, left = _parabola(logs[known] - centre, spread, ensemble, way, known)
    return replace(found, left=_of_all(left, known, judged, logs))


def _parabola(
    over: Floats, spread: Spread, ensemble: Ensemble, way: str, known: NDArray[np.bool_]
) -> tuple[Bend, Floats]:
    """The parabola through some engines over their first-order sums, and what each is off it."""
    size = spread.deviation(way)
    if size < _NO_SLOPE:
        middle, rest = float(over.mean()), float(over.std(ddof=1))
        return Bend(middle, 0.0, 0.0, size, rest), over - over.mean()
    summed = _sums(spread, ensemble, way)[known]
    terms = np.column_stack([np.ones(over.size), summed, summed**2 - size**2])
    found, *_ = np.linalg.lstsq(terms, over, rcond=None)
    left = over - terms @ found
    rest = math.sqrt(float(left @ left) / (over.size - 3))
    return Bend(float(found[0]), float(found[1]), float(found[2]), size, rest), left


def time_span(
    spread: Spread, ensemble: Ensemble, way: str, horizon: float
) -> tuple[float, float, float | None] | None:
    """By when 1 in 20, half and 19 in 20 give way, s, smooth as a factor's span is.

    Parameters
    ----------
    spread, ensemble
        Of its bout.
    way
        Its id.
    horizon
        Of the bout, s.

    Returns
    -------
    low, middle, high
        `high` is None beyond the horizon. None for all where one engine gave way at once or held
        to the horizon: then its time is no number, and the engines speak for themselves.
    """
    seconds = ensemble.seconds(way)
    if seconds.size < _FEWEST or not (np.isfinite(seconds) & (seconds > 0)).all():
        return None
    logs = np.log(seconds)
    found, left = _parabola(
        logs - logs.mean(), spread, ensemble, way, np.ones(logs.size, dtype=bool)
    )
    if found.rest <= 0:
        return None
    over = found.over(found.size * _bell()[:, None], (left / found.rest)[None, :]).ravel()
    low, middle, high = (
        float(np.exp(logs.mean() + q)) for q in np.quantile(over, (0.05, 0.5, 0.95))
    )
    return low, min(middle, horizon), high if high < horizon else None


def _of_all(
    left: Floats, known: NDArray[np.bool_], judged: NDArray[np.bool_], logs: Floats
) -> tuple[float, ...]:
    """What is left over of every engine: all of one beyond any doubt, nothing of one not judged."""
    found = np.where(judged, logs, 0.0)
    found[known] = left
    return tuple(found.tolist())


def _sums(spread: Spread, ensemble: Ensemble, way: str) -> Floats:
    slopes = np.array(spread.slopes[way])
    telling = np.flatnonzero(np.abs(slopes) > 1e-6)
    names = [spread.names[at] for at in telling]
    return np.asarray(ensemble.places(names, piece_of(way)) @ slopes[telling], dtype=np.float64)
