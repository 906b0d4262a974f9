"""Engines side by side, as records: columns, shifts of judgements, figures, pairs."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

from firstfire.engine.engine import Engine
from firstfire.verdict.facts.differences import Difference
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.result import Result

Sense = Literal["better", "worse", "alike"]


@dataclass(frozen=True)
class Column:
    """One engine in the comparison.

    Attributes
    ----------
    letter, label
        *B*, and what to call it.
    engine, result
        As written down, and what its check found.
    printed_mass
        Of its printed parts, kg, where the caller knows it.
    """

    letter: str
    label: str
    engine: Engine = field(repr=False)
    result: Result = field(repr=False)
    printed_mass: float | None = None


@dataclass(frozen=True)
class Shift:
    """One way to fail in the first engine and in another.

    Attributes
    ----------
    id, event
        Which, where it is worst among the points of that event.
    name
        In words.
    before, after
        Its margin in either; None where it has none.
    sense
        What became of it.
    """

    id: str
    event: str
    name: str
    before: Margin | None
    after: Margin | None
    sense: Sense

    @property
    def least(self) -> float:
        """For sorting, worst first: the lower factor of the two."""
        each = [m.least for m in (self.before, self.after) if m is not None]
        return min(each, default=math.inf)


@dataclass(frozen=True)
class Figure:
    """One number that a person compares engines by.

    Attributes
    ----------
    id, name
        Fixed, and in words.
    before, after
        In SI; None where it has no meaning, or lies beyond the run's horizon.
    before_span, after_span
        Low and high of each, where there is a span.
    unit
        SI.
    sense
        Which way it went, seen from the second.
    """

    id: str
    name: str
    before: float | None
    after: float | None
    before_span: tuple[float | None, float | None] | None
    after_span: tuple[float | None, float | None] | None
    unit: str
    sense: Sense


@dataclass(frozen=True)
class Pair:
    """The first engine against another.

    Attributes
    ----------
    before, after
        The two.
    shifts
        Ways to fail judged in both whose word or factor changed, worst first.
    new, gone
        Judged in the second only, or in the first only.
    figures
        Run time, power, peak pressure, odds, masses.
    clocks
        Limits that heat brings at full throttle and that come sooner or later, soonest first:
        one figure each, its id that of the way to fail.
    """

    before: Column
    after: Column
    shifts: tuple[Shift, ...]
    new: tuple[Shift, ...]
    gone: tuple[Shift, ...]
    figures: tuple[Figure, ...]
    clocks: tuple[Figure, ...] = ()

    @property
    def worse(self) -> tuple[Shift, ...]:
        """What got worse, worst first."""
        return tuple(s for s in self.shifts if s.sense == "worse")

    @property
    def better(self) -> tuple[Shift, ...]:
        """What got better, worst first."""
        return tuple(s for s in self.shifts if s.sense == "better")

    @property
    def overall(self) -> Literal["better", "worse", "alike", "mixed"]:
        """The second against the first: better only where nothing at all got worse."""
        senses: set[Sense] = {s.sense for s in self.shifts} | {
            f.sense for f in (*self.figures, *self.clocks)
        }
        if any(s.after is not None and s.after.word != "holds" for s in self.new):
            senses.add("worse")
        senses.discard("alike")
        if len(senses) > 1:
            return "mixed"
        return "better" if "better" in senses else "worse" if "worse" in senses else "alike"


@dataclass(frozen=True)
class SideBySide:
    """Engines side by side, the first being what the others are held against.

    Attributes
    ----------
    columns
        In the order given.
    differences
        Paths whose value differs after resolving, those somebody said first.
    pairs
        The first against each other.
    """

    columns: tuple[Column, ...]
    differences: tuple[Difference, ...]
    pairs: tuple[Pair, ...]
