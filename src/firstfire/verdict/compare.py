"""Engines side by side: what differs between them, and what that did."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from firstfire.engine.engine import Engine
from firstfire.verdict.check import check
from firstfire.verdict.differences import Difference, differences
from firstfire.verdict.margin import Margin, RunTime, Word, named
from firstfire.verdict.numbers import figures
from firstfire.verdict.result import Result
from firstfire.verdict.words import strongest

Progress = Callable[[str, float], None]
Sense = Literal["better", "worse", "alike"]

_WORDS: tuple[Word, ...] = ("fails", "marginal", "holds")
_NOISE = 0.01
"""Share by which a factor must move to be told: repeated cycles agree to a few thousandths."""
_AMPLE = 99.0
"""Factors beyond this are told as *99+*, and a change among them as none."""


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
    def rank(self) -> float:
        """For sorting, worst first: the lower factor of the two."""
        each = [m.rank for m in (self.before, self.after) if m is not None]
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
    """

    before: Column
    after: Column
    shifts: tuple[Shift, ...]
    new: tuple[Shift, ...]
    gone: tuple[Shift, ...]
    figures: tuple[Figure, ...]

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
        senses: set[Sense] = {s.sense for s in self.shifts} | {f.sense for f in self.figures}
        if any(s.after is not None and s.after.word != "holds" for s in self.new):
            senses.add("worse")
        senses.discard("alike")
        if len(senses) > 1:
            return "mixed"
        return "better" if "better" in senses else "worse" if "worse" in senses else "alike"


@dataclass(frozen=True)
class Comparison:
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

    def __str__(self) -> str:
        """The comparison as text of 80 columns."""
        from firstfire.verdict.text.compare import compare_text

        return compare_text(self)


def compare(
    engines: Sequence[tuple[str, Engine]],
    *,
    printed_masses: Sequence[float | None] | None = None,
    stop: Callable[[], bool] | None = None,
    on_progress: Progress | None = None,
) -> Comparison:
    """Check every engine and set them side by side.

    Parameters
    ----------
    engines
        What to call each, and the engine; two or more.
    printed_masses
        Mass of each one's printed parts, kg, where known.
    stop
        Asked at least every 0.1 s; true stops with `Stopped`.
    on_progress
        Told which engine is being checked, and the share of all that is done.

    Raises
    ------
    ValueError
        With fewer than two engines.
    Stopped
        If ``stop`` said so.
    OutsideValidity
        Where not even the geometry of one can be answered.
    """
    if len(engines) < 2:
        raise ValueError("a comparison is of two engines or more")
    masses = printed_masses or [None] * len(engines)
    done: list[tuple[Engine, Result]] = []
    for place, (label, engine) in enumerate(engines):
        telling = _telling(on_progress, label, place, len(engines))
        again = next((result for known, result in done if _same_words(known, engine)), None)
        result = again or check(engine, stop=stop, on_progress=telling)
        done.append((engine, replace(result, engine=engine)))
    columns = tuple(
        Column(letter(place), label, engine, done[place][1], masses[place])
        for place, (label, engine) in enumerate(engines)
    )
    return side_by_side(columns)


def side_by_side(columns: Sequence[Column]) -> Comparison:
    """The comparison of engines that were checked already; pure, no gas."""
    first = columns[0]
    return Comparison(
        columns=tuple(columns),
        differences=differences(
            [c.engine for c in columns], [c.result.plain for c in columns]
        ),
        pairs=tuple(_pair(first, other) for other in columns[1:]),
    )  # fmt: skip


def letter(place: int) -> str:
    """A for the first, B for the second."""
    return chr(ord("A") + place)


def _telling(told: Progress | None, label: str, place: int, count: int) -> Progress | None:
    if told is None:
        return None

    def tell(what: str, share: float) -> None:
        told(f"{label}: {what}" if what else label, (place + min(share, 1.0)) / count)

    return tell


def _same_words(a: Engine, b: Engine) -> bool:
    """Whether two engines say the same of everything, so that one check does for both."""
    return (
        a.sha256 == b.sha256
        and a.catalog == b.catalog
        and [(x.name, x.entries) for x in a.stack.layers]
        == [(x.name, x.entries) for x in b.stack.layers]
    )


def _pair(before: Column, after: Column) -> Pair:
    by_cylinder = len(before.result.plain.cylinders) == len(after.result.plain.cylinders)
    old, new = _worst(before.result, by_cylinder), _worst(after.result, by_cylinder)
    shifts, come, gone = [], [], []
    for key in dict.fromkeys((*old, *new)):
        shift = _shift(key, before, after, old.get(key), new.get(key))
        if shift.before is None:
            come.append(shift)
        elif shift.after is None:
            gone.append(shift)
        elif shift.sense != "alike":
            shifts.append(shift)
    return Pair(
        before=before,
        after=after,
        shifts=_worst_first(shifts),
        new=_worst_first(come),
        gone=_worst_first(gone),
        figures=tuple(_figures(before, after)),
    )


def _worst_first(shifts: Sequence[Shift]) -> tuple[Shift, ...]:
    return tuple(sorted(shifts, key=lambda shift: shift.rank))


_Key = tuple[str, str]


def _worst(result: Result, by_cylinder: bool) -> dict[_Key, Margin]:
    """Of each way to fail at each event the worst, as the ledger counts them."""
    found: dict[_Key, Margin] = {}
    for margin in sorted(result.margins, key=lambda m: m.rank):
        if margin.factor is None or margin.reported or margin.way.unit == "K":
            continue
        way = margin.way.id if by_cylinder else margin.way.id.partition("#")[0]
        found.setdefault((way, margin.event), margin)
    return found


def _shift(
    key: _Key, before: Column, after: Column, old: Margin | None, new: Margin | None
) -> Shift:
    shown, plain = (new, after.result.plain) if new is not None else (old, before.result.plain)
    name = named(plain, shown.way) if shown is not None else key[0]
    sense: Sense = "alike"
    if old is not None and new is not None:
        sense = _sense(old, new)
    return Shift(key[0], key[1], name, old, new, sense)


def _sense(old: Margin, new: Margin) -> Sense:
    """Better or worse where the word changed, or the factor beyond rounding."""
    if old.word != new.word and old.word in _WORDS and new.word in _WORDS:
        return "better" if _WORDS.index(new.word) > _WORDS.index(old.word) else "worse"
    a, b = min(old.factor or 0.0, _AMPLE), min(new.factor or 0.0, _AMPLE)
    return _moved(a, b, more_is="better")


def _moved(a: float, b: float, *, more_is: Sense) -> Sense:
    """Which way a number went, if further than noise and seen in what is printed of it."""
    if figures(a, 2) == figures(b, 2) or abs(b - a) <= _NOISE * max(abs(a), abs(b)):
        return "alike"
    other: Sense = "worse" if more_is == "better" else "better"
    return more_is if b > a else other


def _figures(before: Column, after: Column) -> list[Figure]:
    old, new = before.result, after.result
    found = [_run_time(old, new)]
    found.append(_figure("power", "most power", _most_power(old), _most_power(new), "W", "better"))
    found.append(_figure("peak_pressure", "peak pressure, 1 in 20", _peak(old), _peak(new), "Pa",
                         "worse"))  # fmt: skip
    found.append(_figure("odds", "odds that nothing gives way", old.verdict.odds, new.verdict.odds,
                         "", "better"))  # fmt: skip
    found.append(_figure("moving_mass", "mass going up and down", _moving(old),
                         _moving(new), "kg", "worse"))  # fmt: skip
    if before.printed_mass is not None and after.printed_mass is not None:
        found.append(_figure("printed_mass", "mass of printed parts", before.printed_mass,
                             after.printed_mass, "kg", "worse"))  # fmt: skip
    return found


def _figure(
    name: str, words: str, a: float | None, b: float | None, unit: str, more_is: Sense
) -> Figure:
    sense: Sense = "alike"
    if a is not None and b is not None:
        sense = _moved(a, b, more_is=more_is)
    return Figure(name, words, a, b, None, None, unit, sense)


def _most_power(result: Result) -> float | None:
    best = strongest(result)
    return None if best is None else best.brake_power


def _peak(result: Result) -> float | None:
    strong = [p.strong for point in result.points if point.spark is not None for p in point.peaks]
    return max(strong, default=None)


def _moving(result: Result) -> float:
    return max(c.reciprocating_mass for c in result.geometry.cylinders)


def _run_time(old: Result, new: Result) -> Figure:
    """How long full throttle may be held; nothing that ends it is beyond the horizon."""
    a, b = old.verdict.ends_first, new.verdict.ends_first
    first, second = (None if x is None else x.seconds for x in (a, b))
    sense: Sense = "alike"
    if first is None or second is None:
        if (first is None) != (second is None):
            sense = "better" if second is None else "worse"
    else:
        sense = _moved(first, second, more_is="better")
    return Figure(
        "run_time", "full throttle held from cold", first, second, _spanned(a), _spanned(b), "s",
        sense,
    )  # fmt: skip


def _spanned(ends: RunTime | None) -> tuple[float | None, float | None] | None:
    return None if ends is None else (ends.seconds_low, ends.seconds_high)
