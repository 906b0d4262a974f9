"""An opened judgement: what stands behind one number, ready to be shown anywhere."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

MARKS = {
    "given": ("=", "written in the file"),
    "measured": ("+", "measured on the part"),
    "learned": ("^", "learned from tests"),
    "tried": ("?", "tried for this run"),
    "catalog": ("*", "looked up"),
    "default": ("-", "a rule of thumb, not said"),
    "assumed": ("~", "assumed"),
    "computed": (">", "computed"),
}
"""A small mark for each way in which a number can be known, and what it means."""


@dataclass(frozen=True)
class NumberPut:
    """One number put in.

    Attributes
    ----------
    name
        Its path, or its name among the inputs.
    words
        What it is.
    value
        SI.
    unit_text
        Unit in which it is shown.
    value_text
        Value with that unit.
    kind
        How it is known: a key of `MARKS`.
    origin_text
        Who said it, or what computed it.
    source
        The book, table or reason behind it; "" where there is none to name.
    """

    name: str
    words: str
    value: float
    unit_text: str
    value_text: str
    kind: str
    origin_text: str
    source: str

    @property
    def mark(self) -> str:
        """Its small mark."""
        return MARKS[self.kind][0]


@dataclass(frozen=True)
class WorkLine:
    """One line of the substitution.

    Attributes
    ----------
    words
        What it finds.
    symbolic
        The arithmetic in words.
    substituted
        The same in numbers, in the units shown; a last factor turns units into one another.
    result_text
        What it comes to, with its unit.
    name, value, unit
        As the working has it; SI.
    turned
        Whether a last factor turns units.
    """

    words: str
    symbolic: str
    substituted: str
    result_text: str
    name: str = ""
    value: float = 0.0
    unit: str = ""
    turned: bool = False

    @property
    def plainly(self) -> bool:
        """Whether it only repeats a number: nothing is worked out in it."""
        return self.substituted == self.result_text.rstrip("°").split("\u202f")[0]


class Maker(NamedTuple):
    """What makes part of a span, and its share of the variance."""

    words: str
    share: float


@dataclass(frozen=True)
class RaiseShown:
    """A change that was really tried.

    Attributes
    ----------
    text
        As an order.
    set
        Written values by path.
    factor_after
        Of this way to fail.
    after_text, next_text, effort_text
        The factor then, what fails next, and the work, in words.
    """

    text: str
    set: dict[str, str]
    factor_after: float
    after_text: str
    next_text: str
    effort_text: str


@dataclass(frozen=True)
class Explanation:
    """What stands behind one judged number.

    Attributes
    ----------
    id, event, point
        Which one.
    title
        Part and failure.
    sentence
        What is said of it, and where.
    formula
        What is compared, in words.
    numbers
        Every number put in.
    working
        The substitution, line by line, to demand, capacity and factor.
    span_text
        Low and high, in words.
    makers
        What makes most of the span, with its share of the variance, biggest first.
    movers
        What moves the factor, and by how much.
    raises
        Changes that were tried, those that do it with least work first.
    source
        Of the formula.
    clock
        When it comes while the point is held from cold; "" where that is not known.
    caution
        Where an action follows; "" where none does.
    word, factor, factor_low, factor_high
        As the margin has them.
    printed
        What walls and infill make of it, where the part is a print; "" where that wasn't tried.
    """

    id: str
    event: str
    point: str
    title: str
    sentence: str
    formula: str
    numbers: tuple[NumberPut, ...]
    working: tuple[WorkLine, ...]
    span_text: str
    makers: tuple[Maker, ...]
    movers: tuple[str, ...]
    raises: tuple[RaiseShown, ...]
    source: str
    clock: str
    caution: str
    word: str
    factor: float | None
    factor_low: float | None
    factor_high: float | None
    printed: str = ""
