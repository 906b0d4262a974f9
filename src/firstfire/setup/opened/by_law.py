"""A number of setting up that a law of the parts finds: its working is the law's own."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.moment import Moment
from firstfire.engine.records import Way
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.working import Wanted, recorded, working
from firstfire.setup.number import Number
from firstfire.setup.opened.levers import of_the_file, what_moves
from firstfire.verdict.explain.numbers_put import numbers_put
from firstfire.verdict.explain.opened import NumberPut, WorkLine
from firstfire.verdict.explain.opening import movers
from firstfire.verdict.explain.working import followed

__all__ = ["ByLaw", "by_law", "recorded"]


@dataclass(frozen=True)
class ByLaw:
    """A working that a law wrote itself.

    Attributes
    ----------
    plain
        What it was worked out of.
    way
        With numbers put in and lines.
    """

    plain: PlainEngine
    way: Way

    def shown(self, engine: Engine) -> tuple[tuple[NumberPut, ...], tuple[WorkLine, ...]]:
        """Every number put in with its source, and the lines that follow."""
        work = followed(self.way)
        return tuple(numbers_put(engine, self.plain, self.way, work.digits)), work.lines

    def moved_by(self) -> list[str]:
        """What moves it: its factor where it has one, else the number itself."""
        if any(line.name == "demand" for line in self.way.working):
            return movers(self.way)
        return what_moves(self.way.inputs, self.way.working, of_the_file)


def by_law(moment: Moment, number: Number, value: float) -> tuple[Number, ByLaw]:
    """A number with the working of its recorded value.

    Parameters
    ----------
    moment
        Recorded: what the law was asked with.
    number
        What it is, and where it is from.
    value
        Recorded, as the law found it.
    """
    inputs, lines = working(Wanted("value", value, number.unit, number.words))
    way = Way(
        id=number.id, part="", failure="", demand=float(value), capacity=float(value),
        unit=number.unit, hazard=False, governs="section", temperature=None, formula=number.why,
        source=number.source, inputs=inputs, working=lines,
    )  # fmt: skip
    return number, ByLaw(moment.engine, way)
