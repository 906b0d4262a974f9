"""The working of a law: a moment whose numbers are recorded, and the lines that found them."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple, TypeVar

from firstfire.engine.fields import Section
from firstfire.engine.moment import Moment
from firstfire.engine.records import Line
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.recorded import Recorded, put_in, written

Part = TypeVar("Part", bound=Section)

_OF_MOMENT = ("seconds", "cycles", "speed", "resting_hours")


def recorded(moment: Moment) -> Moment:
    """The same moment, whose numbers know how they are found.

    Values of the engine file go by their paths; what else is put in goes by the name that
    `Moment.given` gives it.
    """
    own = {name: put_in(name, getattr(moment, name)) for name in _OF_MOMENT}
    return replace(moment, engine=_engine(moment.engine), recorded=True, **own)  # type: ignore[arg-type]


def _engine(plain: PlainEngine) -> PlainEngine:
    shared = _part(plain, "")
    return shared.model_copy(update={"cylinders": tuple(_part(c, "") for c in plain.cylinders)})


def _part(part: Part, path: str) -> Part:
    """A part of an engine with each of its numbers recorded under its path."""
    update: dict[str, object] = {}
    for name in type(part).model_fields:
        value = getattr(part, name)
        if isinstance(value, Section):
            update[name] = _part(value, f"{path}{name}.")
        elif isinstance(value, float):  # counts stay whole numbers: laws that use them say so
            update[name] = put_in(f"{path}{name}", value)
    return part.model_copy(update=update)


_AGAIN = {2: "other", 3: "third", 4: "fourth"}
"""What the same law, asked again with other numbers, is told apart by."""


class Wanted(NamedTuple):
    """What the last lines of a working find: name, value, unit and words."""

    name: str
    value: float
    unit: str
    words: str


def working(*wanted: Wanted) -> tuple[dict[str, float], tuple[Line, ...]]:
    """Numbers put in, and the lines from them to some results.

    Parameters
    ----------
    *wanted
        Recorded numbers. One that has a line of its own keeps its words.

    Returns
    -------
    tuple[dict[str, float], tuple[Line, ...]]
        Value by name, SI, in the order they are used; lines of which each uses only what stands
        before it.
    """
    pages = _Pages()
    for one in wanted:
        pages.end(one)
    return pages.inputs, tuple(pages.lines.values())


class _Pages:
    """A working as it is written, from the numbers put in on.

    Numbers are not changed: judges share them, and another's working calls them otherwise.
    """

    def __init__(self) -> None:
        self.inputs: dict[str, float] = {}
        self.lines: dict[str, Line] = {}
        self._seen: dict[int, Recorded] = {}
        self._called: dict[int, str] = {}

    def end(self, one: Wanted) -> None:
        """The lines that a result needs, and its own."""
        value = one.value
        if type(value) is Recorded and value.name and value.how and id(value) not in self._seen:
            self._before(value, one.name)
            return
        self._before(value)
        self.lines[one.name] = Line(one.name, written(value, self._called), one.unit, one.words)

    def _before(self, value: float, name: str = "") -> None:
        """Whatever stands before a number, and its line where it has one."""
        if type(value) is not Recorded or id(value) in self._seen:
            return
        self._seen[id(value)] = value
        if value.how is None:
            self.inputs.setdefault(value.name, float(value))
            return
        for part in value.how[1]:
            self._before(part)
        if value.name:
            self._line(value, name or value.name)

    def _line(self, value: Recorded, wanted: str) -> None:
        text, name, again = written(value, self._called, opened=True), wanted, 1
        while name in self.inputs or (name in self.lines and self.lines[name].expression != text):
            again += 1
            name = f"{wanted}_{again}"
        self._called[id(value)] = name
        words = value.words if again == 1 else f"{_AGAIN.get(again, 'another')} {value.words}"
        self.lines.setdefault(name, Line(name, text, value.unit, words))
