"""One engine against another: which judgements moved, and the numbers people compare by."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.verdict.compare.records import Column, Figure, Pair, Sense, Shift
from firstfire.verdict.facts.margin import Margin, RunTime, Word, named
from firstfire.verdict.numbers import figures
from firstfire.verdict.result import Result
from firstfire.verdict.words.sentences import strongest

_WORDS: tuple[Word, ...] = ("fails", "marginal", "holds")
_NOISE = 0.01
"""Share by which a factor must move to be told: repeated cycles agree to a few thousandths."""
_CLOCK_NOISE = 0.03
"""Share by which a limit's time must move to be told: it lies between steps of a factor of two."""
_AMPLE = 99.0
"""Factors beyond this are told as *99+*, and a change among them as none."""


def pair(before: Column, after: Column) -> Pair:
    """The first engine against another, from the results both have."""
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
        clocks=tuple(_clocks(before.result, after.result, by_cylinder)),
    )


def _worst_first(shifts: Sequence[Shift]) -> tuple[Shift, ...]:
    return tuple(sorted(shifts, key=lambda shift: shift.least))


_Key = tuple[str, str]


def _worst(result: Result, by_cylinder: bool) -> dict[_Key, Margin]:
    """Of each way to fail at each event the worst, as the ledger counts them."""
    found: dict[_Key, Margin] = {}
    for margin in sorted(result.margins, key=lambda m: m.least):
        if margin.factor is None or margin.reported or margin.way.unit == "K":
            continue
        way = _way(margin.way.id, by_cylinder)
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


def _moved(a: float, b: float, *, more_is: Sense, noise: float = _NOISE) -> Sense:
    """Which way a number went, if further than noise and seen in what is printed of it."""
    if figures(a, 2) == figures(b, 2) or abs(b - a) <= noise * max(abs(a), abs(b)):
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
    sense = _later(first, second)
    return Figure(
        "run_time", "full throttle held from cold", first, second, _spanned(a), _spanned(b), "s",
        sense,
    )  # fmt: skip


def _later(first: float | None, second: float | None) -> Sense:
    """Whether a limit comes later; None is beyond the horizon."""
    if first is None and second is None:
        return "alike"
    if first is None or second is None:
        return "better" if second is None else "worse"
    return _moved(first, second, more_is="better", noise=_CLOCK_NOISE)


def _clocks(old: Result, new: Result, by_cylinder: bool) -> list[Figure]:
    """Limits that come sooner or later in the second, of what both engines have."""
    first, second = _soonest(old, by_cylinder), _soonest(new, by_cylinder)
    both = _ways(old, by_cylinder) & _ways(new, by_cylinder)
    found = []
    for way in dict.fromkeys((*first, *second)):
        a, b = first.get(way), second.get(way)
        times = (None if a is None else a.seconds, None if b is None else b.seconds)
        sense = _later(*times)
        shown, plain = (b, new.plain) if b is not None else (a, old.plain)
        if way in both and sense != "alike" and shown is not None:
            found.append(
                Figure(way, named(plain, shown.way), *times, _spanned(a), _spanned(b), "s", sense)
            )
    return sorted(found, key=lambda f: min(t for t in (f.before, f.after) if t is not None))


def _soonest(result: Result, by_cylinder: bool) -> dict[str, RunTime]:
    """Of each limit where it comes soonest; skins that are only reported are left out."""
    found: dict[str, RunTime] = {}
    for limit in result.run_times:
        if not limit.reported:
            found.setdefault(_way(limit.way.id, by_cylinder), limit)
    return found


def _ways(result: Result, by_cylinder: bool) -> set[str]:
    return {_way(m.way.id, by_cylinder) for m in result.margins if m.factor is not None}


def _way(identity: str, by_cylinder: bool) -> str:
    return identity if by_cylinder else identity.partition("#")[0]


def _spanned(ends: RunTime | None) -> tuple[float | None, float | None] | None:
    return None if ends is None else (ends.seconds_low, ends.seconds_high)
