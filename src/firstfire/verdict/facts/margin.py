"""A judgement: one way to fail with its factor, its span, its odds and its word."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import Literal

from firstfire.engine.events import LIFE
from firstfire.engine.records import Way
from firstfire.engine.resolve import PlainEngine

Word = Literal["fails", "marginal", "holds", "not judged"]

FINEST = 0.005
"""Chances are ranked no finer: what ends fewer engines is a matter of a tail that nobody knows."""


@dataclass(frozen=True)
class Dependence:
    """How a factor hangs on one uncertain input.

    Attributes
    ----------
    path
        Where that input is set.
    elasticity
        Change of the factor's logarithm for one standard deviation of the input.
    """

    path: str
    elasticity: float


@dataclass(frozen=True)
class Effort:
    """What a change takes: hours of printer and hands, and what to buy; common practice."""

    print_hours: float
    hand_hours: float
    parts: str


@dataclass(frozen=True)
class Raised:
    """A change that was really tried.

    Attributes
    ----------
    text
        As an order.
    set
        Written values by path.
    factor_after
        Of this way to fail, with the change.
    next_to_fail
        What then has the lowest factor at the same event, with that factor; "" where nothing
        below 2 is left.
    print_hours, hand_hours, parts
        Effort, common practice.
    """

    text: str
    set: dict[str, str]
    factor_after: float
    next_to_fail: str
    print_hours: float
    hand_hours: float
    parts: str

    @property
    def effort(self) -> Effort:
        """What it takes."""
        return Effort(self.print_hours, self.hand_hours, self.parts)


@dataclass(frozen=True)
class Margin:
    """One way to fail, judged.

    Attributes
    ----------
    way
        What was computed at the centre.
    event, point, at_seconds
        When.
    factor, factor_low, factor_high
        Capacity over demand, and its 5-95 % span; None where not judged.
    word
        What it comes to.
    survival
        Probability that it holds; None where not judged.
    depends_on
        What moves it most, largest first.
    raise_by
        Changes that were tried.
    reported
        Told, but not the part's end: a charred or softened skin.
    ends
        Share of engines like it that this ends, in the order of their life; None where it can't:
        it is only told, comes with the clock, or its event is kept from coming about.
    """

    way: Way
    event: str
    point: str
    at_seconds: float
    factor: float | None
    factor_low: float | None
    factor_high: float | None
    word: Word
    survival: float | None
    depends_on: tuple[Dependence, ...]
    raise_by: tuple[Raised, ...] = ()
    reported: bool = False
    ends: float | None = None

    @property
    def rank(self) -> tuple[int, int, int, float]:
        """The one ranking, for sorting: likeliest to end the engine first.

        Of what ends none, what is likeliest to give way at all and, if it may, the earlier in its
        life; then the lower factor. What isn't judged comes last.
        """
        gives_way = 0 if self.survival is None else round((1.0 - self.survival) / FINEST)
        early = LIFE.index(self.event) if gives_way else 0
        ends = 1 if self.ends is None else -round(self.ends / FINEST)
        return (ends, -gives_way, early, self.least)

    @property
    def least(self) -> float:
        """The factor, for finding the lowest; infinite where it isn't judged."""
        return inf if self.factor is None else self.factor


@dataclass(frozen=True)
class RunTime:
    """When a limit is reached at one operating point.

    Attributes
    ----------
    event, point
        Where.
    way
        What ends, as it stands when it ends.
    seconds, seconds_low, seconds_high
        Until then, and the 5-95 % span; None beyond the horizon.
    depth
        How deep its part is softened or charred by then, m; None where that has no meaning.
    strength_left
        Capacity then over capacity cold; None where it is a temperature.
    reported
        Told, but not the part's end.
    chance_not_reached
        Share of the engines drawn in which it isn't reached within the horizon.
    """

    event: str
    point: str
    way: Way
    seconds: float | None
    seconds_low: float | None
    seconds_high: float | None
    depth: float | None
    strength_left: float | None
    reported: bool
    chance_not_reached: float = 0.0


@dataclass(frozen=True)
class Verdict:
    """What decides.

    Attributes
    ----------
    word
        The worst word of anything that can end it up to the first second of running.
    first
        The margin that is likeliest to end it, or None where nothing is judged.
    ends_first
        The run-time limit that comes first at full throttle, or None.
    odds
        Probability that nothing breaks up to the first second of full throttle.
    ends_idle
        The run-time limit that comes first at idle, or None.
    """

    word: Word
    first: Margin | None
    ends_first: RunTime | None
    odds: float
    ends_idle: RunTime | None = None


def named(plain: PlainEngine, way: Way) -> str:
    """A way in words: *crank joint slips*, for a twin with its cylinder."""
    base, mark, number = way.id.partition("#")
    del base
    place = f" of cylinder {number or 1}" if len(plain.cylinders) > 1 and mark else ""
    return f"{way.part}{place} {way.failure}"
