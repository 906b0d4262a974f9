"""Which form of a sum fits when a way to fail ends engines drawn.

With a few dozen engines drawn, a correlation of how long they last with any one of ninety inputs is
mostly noise. So what each input does is known from engines in which it alone was moved
(`firstfire.runs.one_by_one`), and the engines drawn only say which form fits and how much is left.
Three forms are tried for each way to fail:

by factor
    Its factor is drawn as spans are (`firstfire.verdict.facts.spans`), and when it gives way is
    read off the centre's own curve of that factor through time; what heat, friction and softening
    do besides is a sum in the logarithm of time.
by time
    What each input does is a sum in the logarithm of time; the curve serves only what was not
    moved, such as strengths. A part that softens all at once goes by this one.
by course
    What each input does to its factor is a sum at every second. What recovers as the rest of the
    engine warms up, if it holds so long, goes by this one.

Where neither fits better than the mean of the engines drawn, none is used: what is not understood
then counts as nobody's.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

import numpy as np

from firstfire.runs.drawn import piece_of
from firstfire.runs.ensemble import Ensemble
from firstfire.runs.fate import FIRST, Fate
from firstfire.runs.one_by_one import SIDE, OneByOne
from firstfire.runs.spread import Spread
from firstfire.verdict.doubt.enders import Curve, Ender, Swayed, added
from firstfire.verdict.facts.spans import Bend

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

Off = TypeVar("Off", float, "Floats")

_TELLING = 2e-3
"""What an input adds to a logarithm below which it adds nothing."""
_FAR = 5.0
"""A logarithm beyond which nothing is about to give way, whatever moves it."""
_FEWEST = 3
"""Seconds of a curve, below which there is none."""


def enders(
    point: str, moved: OneByOne, spread: Spread, ensemble: Ensemble, bends: Mapping[str, Bend]
) -> list[Ender]:
    """Every way followed at one operating point, in the form that fits the engines drawn best.

    Parameters
    ----------
    point
        Its name.
    moved
        What each input does by itself.
    spread, bends
        Slopes at the second judged, and how they are bent, by way.
    ensemble
        The engines drawn.
    """
    found = []
    for way in moved.logs:
        forms = [_by_mean(point, way, moved)]
        curve = _curve(moved, way)
        if curve is not None:
            forms += [
                _by_factor(point, way, moved, spread, curve, bends[way]),
                _by_time(point, way, moved, spread, curve),
                _by_course(point, way, moved, spread),
            ]
        fitted = [_fitted(form, ensemble) for form in forms]
        found.append(min(fitted, key=lambda form: float(np.mean(form.left**2))))
    return found


def _fitted(form: Ender, ensemble: Ensemble) -> Ender:
    """A form with what it leaves over of each engine drawn."""
    piece = piece_of(form.id)

    def places(name: str) -> Floats:
        return ensemble.places([name], piece)[:, 0]

    with np.errstate(divide="ignore"):
        times = form.clipped(np.log(ensemble.seconds(form.id)))
    if form.curve is None:
        middle = float(times.mean())
        return replace(form, start=middle, left=times - middle)
    logs = ensemble.logs(form.id)
    spare = form.factor + added(form.in_factor, places, logs.size)
    if form.bend is not None:  # its own factor is known of each
        spare = np.where(np.isfinite(logs), logs, spare)
    return replace(form, left=times - form.at(spare, places))


def _by_mean(point: str, way: str, moved: OneByOne) -> Ender:
    horizon = math.log(moved.horizon)
    return Ender(way, point, horizon, 0.0, None, 0.0, {}, {}, None, np.zeros(0))


def _curve(moved: OneByOne, way: str) -> Curve | None:
    """The factor's curve at the centre; None where it is hardly judged there."""
    logs = moved.logs[way]
    judged = np.isfinite(logs)
    if way not in moved.centre.factors or judged.sum() < _FEWEST:
        return None
    lost = np.maximum.accumulate(moved.centre.factors[way] - logs[judged])
    return Curve(np.log(np.array(moved.seconds)[judged]), lost + 1e-9 * np.arange(lost.size))


def _by_factor(
    point: str, way: str, moved: OneByOne, spread: Spread, curve: Curve, bend: Bend
) -> Ender:
    """A factor drawn as its span is, and a sum in the logarithm of time besides."""
    factor = moved.centre.factors[way]
    slopes = zip(spread.names, spread.slopes.get(way, ()), strict=False)
    in_factor = {name: (slope, 0.0) for name, slope in slopes if abs(slope) > _TELLING}

    def besides(fate: Fate) -> float | None:
        """What the time is over what the factor alone would give."""
        if way not in fate.factors:
            return None
        alone = float(curve.when(np.array([fate.factors[way]]))[0])
        seconds = fate.seconds[way]
        sound = FIRST < seconds < moved.horizon and math.log(FIRST) < alone < math.inf
        return math.log(seconds) - alone if sound else None

    start = besides(moved.centre) or 0.0
    in_time = _terms(moved, besides, start)
    horizon = math.log(moved.horizon)
    return Ender(
        way, point, horizon, factor, curve, start, in_factor, in_time, bend, np.zeros(0)
    )  # fmt: skip


def _by_time(point: str, way: str, moved: OneByOne, spread: Spread, curve: Curve) -> Ender:
    """A sum in the logarithm of time; what was not moved goes by the factor."""
    factor, centre = moved.centre.factors[way], moved.centre.seconds[way]

    def log_time(fate: Fate) -> float | None:
        seconds = fate.seconds.get(way, math.inf)
        both = FIRST < seconds < moved.horizon and FIRST < centre < moved.horizon
        return math.log(seconds) if both else None

    alone = float(curve.when(np.array([factor]))[0])
    known = log_time(moved.centre)
    start = known - alone if known is not None and math.isfinite(alone) else 0.0
    in_time = {} if known is None else _terms(moved, log_time, known)
    slopes = zip(spread.names, spread.slopes.get(way, ()), strict=False)
    in_factor = {
        name: (slope, 0.0) for name, slope in slopes if name not in moved.up and slope**2 > 0
    }
    in_factor |= {
        name: terms
        for name, terms in _terms(moved, lambda fate: fate.factors.get(way), factor).items()
        if name not in in_time
    }
    horizon = math.log(moved.horizon)
    return Ender(
        way, point, horizon, factor, curve, start, in_factor, in_time, None, np.zeros(0)
    )  # fmt: skip


def _by_course(point: str, way: str, moved: OneByOne, spread: Spread) -> Ender:
    """A sum in the factor at every second; what was not moved adds what it adds when judged."""
    judged = np.isfinite(moved.logs[way])
    centre = np.minimum(moved.logs[way], _FAR)

    def off(fate: Fate | None) -> Floats | None:
        if fate is None or way not in fate.courses:
            return None
        found = np.minimum(fate.courses[way], _FAR)[judged] - centre[judged]
        return np.where(np.isfinite(found), found, 0.0)

    terms = {}
    for name, fate in moved.up.items():
        up, down = off(fate), off(moved.down.get(name))
        sides = _sides(up, down)
        if sides is not None and max(np.abs(sides[0]).max(), np.abs(sides[1]).max()) > _TELLING:
            terms[name] = _line_and_bend(*sides)
    slopes = zip(spread.names, spread.slopes.get(way, ()), strict=False)
    in_factor = {
        name: (slope, 0.0) for name, slope in slopes if name not in moved.up and slope**2 > 0
    }
    through = Swayed(np.log(np.array(moved.seconds)[judged]), centre[judged], terms)
    factor, horizon = moved.centre.factors[way], math.log(moved.horizon)
    return Ender(
        way, point, horizon, factor, through, 0.0, in_factor, {}, None, np.zeros(0)
    )  # fmt: skip


def _terms(
    moved: OneByOne, of: Callable[[Fate], float | None], centre: float
) -> dict[str, tuple[float, float]]:
    """What each input moved adds, and its square: from both sides, or the one that is known."""
    found = {}
    for name, fate in moved.up.items():
        up = of(fate)
        down = of(moved.down[name]) if name in moved.down else None
        forth = None if up is None else up - centre
        back = None if down is None else down - centre
        sides = _sides(forth, back)
        if sides is not None and max(map(abs, sides)) > _TELLING:
            found[name] = _line_and_bend(*sides)
    return found


def _line_and_bend(forth: Off, back: Off) -> tuple[Off, Off]:
    """What a deviation adds and what its square does, from what `SIDE` each way add."""
    return (0.5 / SIDE * (forth - back), 0.5 / SIDE**2 * (forth + back))


def _sides(forth: Off | None, back: Off | None) -> tuple[Off, Off] | None:
    """What a deviation up and one down add; the one that isn't known is the other's opposite."""
    if forth is None:
        return None if back is None else (-back, back)
    return (forth, -forth) if back is None else (forth, back)
