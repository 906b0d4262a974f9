"""How long an engine lasts, as a sum of what each uncertain input does to its ways to fail."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from firstfire.runs.fate import FIRST
from firstfire.verdict.facts.spans import Bend

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

_FURTHEST = 2.5
"""Deviations beyond which a bend is not carried on."""
_FLAT = 2e-3
"""Fall of a factor's logarithm below which it isn't carried on past the end of its curve."""
_BEYOND = 5.0
"""Logarithm of time past the end of the curve beyond which nothing is read off."""
_LAST = 3

Places = Callable[[str], "Floats"]
"""Where each engine's input stands, in deviations, by its name."""


@dataclass(frozen=True, eq=False)
class Curve:
    """A factor's logarithm at the centre, from one second to the next.

    Attributes
    ----------
    log_seconds
        Rising.
    lost
        How far it has fallen below what it is at the second judged, never falling.
    """

    log_seconds: Floats
    lost: Floats

    def when(self, spare: Floats) -> Floats:
        """Logarithm of the time by which so much is lost; infinite: never.

        Parameters
        ----------
        spare
            Logarithm of the factor at the second judged.
        """
        times = np.interp(spare, self.lost, self.log_seconds)
        slope = (self.lost[-1] - self.lost[-_LAST]) / (
            self.log_seconds[-1] - self.log_seconds[-_LAST]
        )
        beyond = spare - self.lost[-1]
        with np.errstate(divide="ignore", invalid="ignore"):
            further = np.where(slope > _FLAT, beyond / slope, np.inf)
        further = np.where(further > _BEYOND, np.inf, further)
        times = np.where(beyond > 0, self.log_seconds[-1] + further, times)
        return np.asarray(np.where(spare < self.lost[0], math.log(FIRST), times))


Terms = Mapping[str, tuple[float, float]]
"""By input, what one deviation adds, and what its square adds."""


@dataclass(frozen=True, eq=False)
class Swayed:
    """A factor's logarithm through time, and what each input adds to it at every second.

    Attributes
    ----------
    log_seconds
        Rising.
    centre
        The logarithm at each.
    terms
        By input, at each, what one deviation adds and what its square adds.
    """

    log_seconds: Floats
    centre: Floats
    terms: Mapping[str, tuple[Floats, Floats]]

    def when(self, more: Floats, places: Places) -> Floats:
        """Logarithm of the time by which nothing is left; infinite: never.

        Parameters
        ----------
        more
            Added to the logarithm at every second, of each engine.
        places
            Of their inputs.
        """
        times = np.full(more.size, math.inf)
        before = np.zeros(more.size)
        for at, (second, centre) in enumerate(zip(self.log_seconds, self.centre, strict=True)):
            terms = {name: (a[at], b[at]) for name, (a, b) in self.terms.items()}
            here = centre + more + added(terms, places, more.size)
            gone = (here < 0) & np.isinf(times)
            if at == 0:
                times[gone] = math.log(FIRST)
            else:
                share = before[gone] / (before[gone] - here[gone])
                earlier = self.log_seconds[at - 1]
                times[gone] = earlier + share * (second - earlier)
            before = here
        return times


@dataclass(frozen=True, eq=False)
class Ender:
    """One way that may end an engine at one operating point.

    Attributes
    ----------
    id, point
        The way's, and the operating point's name.
    horizon
        Logarithm of how long it was followed.
    factor
        Logarithm at the second judged, at the centre.
    curve
        Of that factor through time, alone or with what inputs add; None: only `start` is known.
    start
        Added to the logarithm of the time.
    in_factor, in_time
        What each input adds to either.
    bend
        Bends the sum in the factor as a span is bent; None: it is straight.
    left
        What is left over in the logarithm of the time, of each engine drawn.
    """

    id: str
    point: str
    horizon: float
    factor: float
    curve: Curve | Swayed | None
    start: float
    in_factor: Terms
    in_time: Terms
    bend: Bend | None
    left: Floats

    def drawn(self, places: Places, engine: NDArray[np.int64]) -> Floats:
        """Logarithm of the time at which it gives way in engines drawn.

        Parameters
        ----------
        places
            Of their inputs.
        engine
            For each, which of the engines followed lends it what is left over.
        """
        spare = self.factor + added(self.in_factor, places, engine.size)
        if self.bend is not None:
            scattered = np.zeros(1)
            if self.bend.left and self.bend.rest > 0:
                scattered = (np.array(self.bend.left) / self.bend.rest)[engine]
            spare = self.factor + self.bend.over(spare - self.factor, scattered)
        return self.clipped(self.at(spare, places) + self.left[engine])

    def at(self, spare: Floats, places: Places) -> Floats:
        """The same but for what is left over, for factors that are known."""
        if isinstance(self.curve, Swayed):
            times = self.curve.when(spare - self.factor, places)
        else:
            times = np.zeros(spare.size) if self.curve is None else self.curve.when(spare)
        return self.clipped(times + self.start + added(self.in_time, places, spare.size))

    def clipped(self, times: Floats) -> Floats:
        """Within the first second asked and how long it was followed."""
        return np.clip(times, math.log(FIRST), self.horizon)

    @property
    def names(self) -> frozenset[str]:
        """Every input that moves it."""
        through = self.curve.terms if isinstance(self.curve, Swayed) else {}
        return frozenset(self.in_factor) | frozenset(self.in_time) | frozenset(through)


def added(terms: Terms, places: Places, count: int) -> Floats:
    """What inputs add together, for so many engines."""
    total = np.zeros(count)
    for name, (slope, bend) in terms.items():
        place = places(name)
        total += slope * place + bend * np.clip(place, -_FURTHEST, _FURTHEST) ** 2
    return total


def first_of(
    found: Sequence[Ender], places_of: Callable[[str], Places], engine: NDArray[np.int64]
) -> tuple[Floats, NDArray[np.int64]]:
    """Logarithm of the time at which each engine drawn ends, and which of the enders ends it.

    Parameters
    ----------
    found
        At least one, all followed as long.
    places_of
        Of a way, where each engine's inputs stand.
    engine
        As `Ender.drawn` takes it.
    """
    first = np.full(engine.size, math.inf)
    which = np.zeros(engine.size, dtype=np.int64)
    for number, ender in enumerate(found):
        times = ender.drawn(places_of(ender.id), engine)
        which = np.where(times < first, number, which)
        first = np.minimum(first, times)
    return first, which
