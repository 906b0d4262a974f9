"""How far a factor may be off: what engines drawn at random say, made smooth by the slopes.

A factor is drawn over its own first-order sum of what the unknowns do: a parabola through the
engines drawn, and a rest that scatters about it. Where the first order is right nothing is left
over; where it isn't, the engines outvote it. So a few dozen engines tell the ends of a span as many
hundred would. What lies on the parabola is either the factor's logarithm, as where strengths and
losses multiply, or how much of what holds is used, as where an unknown adds to a load that may
shrink to nothing: whichever foretells an engine left out of the fit better.
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

_POINTS = 48
"""Equal shares of a bell that each engine's scatter is laid over."""
_FEWEST = 12
"""Engines in which a way is judged, below which the first order stands."""
_BEYOND = 20.0
"""Logarithm of a factor beyond any doubt, either way: its part isn't loaded, or is gone."""
_NO_SLOPE = 1e-3
_USED = 4.0
"""Times what is used at the centre beyond which it is gone, by however much."""
_LEAST = math.exp(-_BEYOND)
_UNLOADED, _GONE = -1e3, 1e9
"""What is used by engines whose part isn't loaded, and by those where it is gone, beyond doubt."""


@dataclass(frozen=True)
class Bend:
    """How a factor lies over the first-order sum: ``centre + slope u + bend (u² - s²)``.

    Attributes
    ----------
    centre, slope, bend
        Of the parabola.
    size
        Standard deviation s of the sum u.
    rest
        Standard deviation of what scatters about the parabola.
    left
        That scatter of each engine drawn; what scatters in one way scatters in others with it.
    used
        Whether it is of how much of what holds is used, over that at the engine's own centre; else
        of the factor's logarithm, as a difference from the centre's.
    """

    centre: float
    slope: float
    bend: float
    size: float
    rest: float
    left: tuple[float, ...] = ()
    used: bool = False

    def over(self, summed: Floats, scattered: Floats) -> Floats:
        """Logarithm of the factor over that of the centre, for sums and scatter in deviations."""
        along = self.centre + self.slope * summed + self.bend * (summed**2 - self.size**2)
        found = np.asarray(along + self.rest * scattered, dtype=np.float64)
        return -np.log(np.clip(found, _LEAST, 1 / _LEAST)) if self.used else found


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
    rising = np.sort(_likely(found, np.array(found.left)))
    low, high = np.quantile(rising, (0.05, 0.95))
    return Span(float(low), float(high), rising)


def _likely(found: Bend, left: Floats) -> Floats:
    """Equally likely values: along the parabola in fine steps, each with an engine's scatter."""
    bell = _bell(max(_POINTS, left.size))
    scattered = np.resize(left / found.rest, bell.size) if found.rest > 0 else np.zeros(1)
    return found.over(found.size * bell, scattered)


@lru_cache(maxsize=8)
def _bell(engines: int) -> Floats:
    """So many equal shares of a bell that each engine's scatter meets all of it."""
    normal, count = NormalDist(), _POINTS * engines
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
    """The parabola through the engines in which the way is judged; None where they are too few.

    The squared error of one engine foretold by the others, over the scatter of all, decides
    between the two forms.
    """
    logs = np.clip(ensemble.logs(way), -_BEYOND, _BEYOND)
    judged = np.isfinite(logs)
    known = judged & (np.abs(logs) < _BEYOND)
    if known.sum() < _FEWEST:
        return None
    over = logs[known] - centre
    forms = [
        _parabola(over, spread, ensemble, way, known),
        _parabola(np.minimum(np.exp(-over), _USED), spread, ensemble, way, known),
    ]
    used = forms[1].foretold < forms[0].foretold
    fitted = forms[used]
    left = _of_all(fitted.left, known, judged, logs, used=used)
    return replace(fitted.bend, left=left, used=used)


@dataclass(frozen=True)
class _Fitted:
    """A parabola through engines.

    Attributes
    ----------
    bend
        Itself.
    left
        What each engine is off it.
    foretold
        Mean square of what each is off the parabola through the others, over that off the mean.
    """

    bend: Bend
    left: Floats
    foretold: float


def _parabola(
    over: Floats, spread: Spread, ensemble: Ensemble, way: str, known: NDArray[np.bool_]
) -> _Fitted:
    """The parabola through some engines over their first-order sums."""
    size = spread.deviation(way)
    if size < _NO_SLOPE:
        middle, rest = float(over.mean()), float(over.std(ddof=1))
        return _Fitted(Bend(middle, 0.0, 0.0, size, rest), over - over.mean(), 1.0)
    summed = _sums(spread, ensemble, way)[known]
    terms = np.column_stack([np.ones(over.size), summed, summed**2 - size**2])
    found, *_ = np.linalg.lstsq(terms, over, rcond=None)
    left = over - terms @ found
    rest = math.sqrt(float(left @ left) / (over.size - 3))
    bent = Bend(float(found[0]), float(found[1]), float(found[2]), size, rest)
    pull = np.sum(np.linalg.qr(terms).Q ** 2, axis=1)  # of each engine on its own place
    alone = float(np.mean((left / np.maximum(1 - pull, 1e-3)) ** 2))
    return _Fitted(bent, left, alone / max(float(np.var(over)), 1e-12))


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
    fitted = _parabola(logs - logs.mean(), spread, ensemble, way, np.ones(logs.size, dtype=bool))
    found, left = fitted.bend, fitted.left
    if found.rest <= 0:
        return None
    over = _likely(found, left)
    low, middle, high = (
        float(np.exp(logs.mean() + q)) for q in np.quantile(over, (0.05, 0.5, 0.95))
    )
    return low, min(middle, horizon), high if high < horizon else None


def _of_all(
    left: Floats, known: NDArray[np.bool_], judged: NDArray[np.bool_], logs: Floats, *, used: bool
) -> tuple[float, ...]:
    """What is left over of every engine: all of one beyond any doubt, nothing of one not judged."""
    beyond = np.where(logs > 0, _UNLOADED, _GONE) if used else logs
    found = np.where(judged, beyond, 0.0)
    found[known] = left
    return tuple(found.tolist())


def _sums(spread: Spread, ensemble: Ensemble, way: str) -> Floats:
    slopes = np.array(spread.slopes[way])
    telling = np.flatnonzero(np.abs(slopes) > 1e-6)
    names = [spread.names[at] for at in telling]
    return np.asarray(ensemble.places(names, piece_of(way)) @ slopes[telling], dtype=np.float64)
