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
from dataclasses import dataclass
from math import nan

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.parts import events

Where = Callable[[Moment], bool]


def always(_: Moment) -> bool:
    """Of every engine."""
    return True


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
    working
        Lines of arithmetic from the numbers put in to demand and capacity.
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
    working: tuple[Line, ...] = ()

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
        inputs: Mapping[str, float] | None = None,
        raise_by: tuple[Raise, ...] = (),
        formula: str = "",
        source: str = "",
        first: tuple[Line, ...] = (),
        working: tuple[Line, ...] = (),
    ) -> Way:
        """The record for these numbers; formula and source where they differ.

        Lines in `first` stand before those declared, `working` in place of them.
        """
        return Way(
            id=self.numbered(moment),
            part=self.part,
            failure=self.failure,
            demand=demand,
            capacity=max(capacity, 0.0),
            unit=self.unit,
            hazard=self.hazard,
            governs=governs,
            temperature=temperature,
            formula=formula or self.formula,
            source=source or self.source,
            inputs=inputs or {},
            raise_by=raise_by,
            working=first + (working or self.working),
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
    """

    failure: Failure
    judge: Callable[[Moment], Way]
    where: Where = always

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
    return Judgement(failure, lambda moment: failure.unjudged(moment, why_not), where)
