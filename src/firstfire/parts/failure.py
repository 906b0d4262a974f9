"""How a way to fail is declared: a name, words and sources, and one short function that judges.

A declaration beside its part reads::

    SLIPS = Failure(id="crank.joint.slip", part="crank joint", failure="slips", ...)

    @judges(SLIPS, where=built_up)
    def slips(moment: Moment) -> Way:
        return SLIPS.way(moment, demand=..., capacity=..., governs="friction")

What judges may raise `OutsideValidity` wherever a law does not hold: the record then says so.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from math import nan

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.engine.working import Wanted, working
from firstfire.errors import OutsideValidity
from firstfire.parts import events
from firstfire.parts.inputs import Input

Where = Callable[[Moment], bool]
_NOT_OPENED: tuple[Mapping[str, float], tuple[Line, ...]] = ({}, ())


def always(_: Moment) -> bool:
    """Of every engine."""
    return True


@dataclass(frozen=True)
class Example:
    """A case of a way to fail that was worked out outside of this program.

    It is of a cold single of 44 by 40 mm, all of it of dry PETG, at its first cycle.

    Attributes
    ----------
    by
        The arithmetic by hand with its numbers, and the book.
    demand, capacity
        What they come to, SI.
    said
        Values by path, as ``--set`` takes them, or a file has them.
    given
        Numbers by name in place of what loads, heat and rows give, SI.
    event, peak, rpm, cycles, hours
        Moment: absolute peak pressure, Pa; crank speed; cycles so far; hours since assembly.
    rises
        How much warmer than the air parts are, K, by part: face and back alike.
    within
        How near both must come, as a share: what reading a chart costs.
    """

    by: str
    demand: float
    capacity: float
    said: Mapping[str, object] = field(default_factory=dict)
    given: Mapping[str, float] = field(default_factory=dict)
    event: str = "full_throttle"
    peak: float = 35e5
    rpm: float = 3000.0
    cycles: float = 1.0
    hours: float = 12.0
    rises: Mapping[str, float] = field(default_factory=dict)
    within: float = 0.003


@dataclass(frozen=True)
class Failure:
    """What stays the same of a way to fail, whatever the numbers.

    Attributes
    ----------
    id
        Fixed, as ``crank.joint.slip``.
    part, failure
        In the trade's words; together a sentence: *crank joint slips*.
    unit
        SI unit of demand and capacity; "" for a pure number.
    formula, source
        What is compared with what, and the book it is from.
    hazard
        Whether it throws, bursts or burns.
    shared
        Whether it is of the whole engine, listed once, and not of each cylinder.
    reported
        Whether it is told without being the part's end: a charred skin.
    during
        What has to go on for it to matter (see `firstfire.parts.events`).
    demand_is, capacity_is
        Both in words, as the last lines of the working have them.
    examples
        Cases worked out by others or by hand, which a test reproduces.
    numbers
        What is put into it that `firstfire.parts.inputs` doesn't list, by name.
    """

    id: str
    part: str
    failure: str
    unit: str
    formula: str
    source: str
    hazard: bool = False
    shared: bool = False
    reported: bool = False
    during: frozenset[str] = events.GAS
    demand_is: str = "demand"
    capacity_is: str = "capacity"
    examples: tuple[Example, ...] = ()
    numbers: Mapping[str, Input] = field(default_factory=dict)

    def numbered(self, moment: Moment) -> str:
        """The id, for the second cylinder of a twin with ``#2`` behind it."""
        if self.shared or moment.cylinder == 0:
            return self.id
        return f"{self.id}#{moment.cylinder + 1}"

    def way(
        self,
        moment: Moment,
        *,
        demand: float,
        capacity: float,
        governs: str,
        temperature: float | None = None,
        raise_by: tuple[Raise, ...] = (),
        formula: str = "",
        source: str = "",
        demand_is: str = "",
        capacity_is: str = "",
    ) -> Way:
        """The record for these numbers; formula and source where they differ.

        Of a recorded moment it has its working too.
        """
        inputs, lines = _NOT_OPENED
        if moment.recorded:
            inputs, lines = working(
                Wanted("demand", demand, self.unit, demand_is or self.demand_is),
                Wanted("capacity", capacity, self.unit, capacity_is or self.capacity_is),
            )
        return Way(
            id=self.numbered(moment),
            part=self.part,
            failure=self.failure,
            demand=float(demand),
            capacity=max(float(capacity), 0.0),
            unit=self.unit,
            hazard=self.hazard,
            governs=governs,
            temperature=None if temperature is None else float(temperature),
            formula=formula or self.formula,
            source=source or self.source,
            inputs=inputs,
            raise_by=raise_by,
            working=lines,
        )

    def unjudged(self, moment: Moment, why_not: str) -> Way:
        """The record where no model holds."""
        return Way(
            id=self.numbered(moment),
            part=self.part,
            failure=self.failure,
            demand=nan,
            capacity=nan,
            unit=self.unit,
            hazard=self.hazard,
            governs="",
            temperature=None,
            formula=self.formula,
            source=self.source,
            judged=False,
            why_not=why_not,
        )


@dataclass(frozen=True)
class Judgement:
    """A failure with what judges it; called with a moment it gives the record.

    Attributes
    ----------
    failure
        What is declared.
    judge
        The short function.
    where
        Whether an engine has such a part at all.
    never
        Whether there is no model for it at all.
    """

    failure: Failure
    judge: Callable[[Moment], Way]
    where: Where = always
    never: bool = False

    def applies(self, moment: Moment) -> bool:
        """Whether this engine has such a part, and it is this cylinder's to be listed with."""
        if moment.cylinder and self.failure.shared:
            return False
        try:
            return self.where(moment)
        except OutsideValidity:
            return True  # not known, so that it is listed; judging it then says why it can't be

    def __call__(self, moment: Moment) -> Way:
        """The record: judged, or with the reason why not."""
        try:
            return self.judge(moment)
        except OutsideValidity as why:
            return self.failure.unjudged(moment, str(why))


def judges(
    failure: Failure, where: Where = always
) -> Callable[[Callable[[Moment], Way]], Judgement]:
    """Declare that the function below judges `failure`, in engines where it can happen."""

    def declared(judge: Callable[[Moment], Way]) -> Judgement:
        return Judgement(failure, judge, where)

    return declared


def not_judged(failure: Failure, why_not: str, where: Where = always) -> Judgement:
    """A part without a model: named, with the reason."""
    return Judgement(failure, lambda moment: failure.unjudged(moment, why_not), where, never=True)
