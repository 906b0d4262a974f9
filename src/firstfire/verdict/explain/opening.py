"""Opening a judgement: every number behind it, followed to the factor, and what moves it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from firstfire.engine.arithmetic import NotArithmeticError, worked_out
from firstfire.engine.engine import Engine
from firstfire.engine.grammar import leaves
from firstfire.engine.records import Line, Way
from firstfire.formulas.normal import NINETY
from firstfire.parts.all import put_in
from firstfire.verdict.explain.bench_units import plain, words_of
from firstfire.verdict.explain.numbers_put import numbers_put
from firstfire.verdict.explain.opened import Explanation, Maker, NumberPut, RaiseShown, WorkLine
from firstfire.verdict.explain.words import (
    caution,
    clock,
    sentence,
    span_text,
    title,
    unknown_words,
)
from firstfire.verdict.explain.working import Followed, followed
from firstfire.verdict.facts.margin import Margin, Raised
from firstfire.verdict.numbers import FAR_MORE, beyond_telling, figures
from firstfire.verdict.result import Result
from firstfire.verdict.words.ledger import hours_words, two

__all__ = ["Explanation", "NumberPut", "RaiseShown", "WorkLine", "explanation"]

_MOST_MOVERS = 6
_TENTH = 1.1
_FELT = 0.01


def explanation(result: Result, margin: Margin) -> Explanation:
    """What stands behind one judged number.

    Parameters
    ----------
    result
        From `check`, or from `look_into`.
    margin
        One of its margins; changes it carries are told, none is tried here.
    """
    way = result.opened(margin)
    work = followed(way) if way.judged else None
    return Explanation(
        id=way.id,
        event=margin.event,
        point=margin.point,
        title=title(result.plain, margin),
        sentence=sentence(result.plain, margin),
        formula=way.formula,
        numbers=_numbers(result, margin, way, work) if work else (),
        working=(*work.lines, *_factor_line(way, work)) if work else (),
        span_text=span_text(margin),
        makers=tuple(_makers(result.engine, margin)),
        movers=tuple(movers(way)) if way.judged else (),
        raises=tuple(_shown(raised) for raised in margin.raise_by),
        source=way.source,
        clock=_clock(result, margin),
        caution=caution(margin, acts=bool(margin.raise_by)),
        word=margin.word,
        factor=margin.factor,
        factor_low=margin.factor_low,
        factor_high=margin.factor_high,
    )


def _numbers(result: Result, margin: Margin, way: Way, work: Followed) -> tuple[NumberPut, ...]:
    read = result.read(margin)
    return tuple(numbers_put(result.engine, result.plain, way, work.digits, read))


def _clock(result: Result, margin: Margin) -> str:
    """When it comes, as the result's run times have it."""
    for limit in result.run_times:
        if limit.way.id == margin.way.id and limit.point == margin.point:
            return clock(limit)
    return ""


def _factor_line(way: Way, work: Followed) -> Iterator[WorkLine]:
    """Capacity over demand, in the units of the lines above it."""
    if not way.working or way.demand <= 0:
        return
    lines = {line.name: line for line in work.lines}
    numbers = [_number_of(lines[name].result_text) for name in ("capacity", "demand")]
    yield WorkLine(
        words="factor",
        symbolic="capacity ÷ demand",
        substituted=f"{numbers[0]} ÷ {numbers[1]}",
        result_text=FAR_MORE if beyond_telling(way.factor) else plain(way.factor, work.digits),
        name="factor",
        value=way.factor,
    )


def _number_of(text: str) -> str:
    """The number of a shown value, without its unit."""
    return text.rstrip("°").split("\u202f")[0]


def _makers(engine: Engine, margin: Margin) -> Iterator[Maker]:
    """What makes the span: share of the variance of the logarithm of the factor, biggest first.

    Of the span's own variance, or of what its makers come to each alone where that is more: drawn
    together some of them take from one another.
    """
    low, high = margin.factor_low, margin.factor_high
    if not low or not high or not math.isfinite(high) or high <= low:
        return
    alone = sum(dependence.elasticity**2 for dependence in margin.depends_on)
    whole = max((math.log(high / low) / (2 * NINETY)) ** 2, alone)
    left = 1.0
    for dependence in margin.depends_on:
        share = dependence.elasticity**2 / whole
        left -= share
        if share >= _FELT:
            yield Maker(unknown_words(engine, dependence.path), share)
    if _FELT < left < 1:
        yield Maker("all else together", left)


def movers(way: Way) -> list[str]:
    """What moves the factor and by how much, most first: each number put in moved by a tenth.

    A temperature is moved by ten kelvin and a count by one.
    """
    found = []
    for name, value in way.inputs.items():
        moved, words = _moved(name, value)
        factor = _factor_with(way.working, {**way.inputs, name: moved}) if words else None
        if factor is None or not 0 < way.factor < math.inf or factor <= 0:
            continue
        times = factor / way.factor
        if abs(math.log(times)) > _FELT / 2:
            found.append((abs(math.log(times)), f"{words}: factor × {figures(times)}"))
    return [text for _, text in sorted(found, key=lambda pair: -pair[0])[:_MOST_MOVERS]]


def _moved(name: str, value: float) -> tuple[float, str]:
    """A number moved by a step one can picture, and how that is said; "" where there is none."""
    leaf = leaves().get(name)
    words = words_of(name)
    if leaf is None and (not put_in(name).words or put_in(name).kind == "assumed"):
        return value, ""
    if name.endswith("_leaves"):
        return value, ""
    dimension = leaf.dimension if leaf else put_in(name).dimension
    if leaf is not None and leaf.form == "integer":
        return value + 1, f"{words}, one more ({value + 1:.0f})"
    if dimension == "temperature":
        return value + 10, f"{words} 10 K higher"
    if value == 0:
        return value, ""
    return value * _TENTH, f"{words} 10 % more"


def _factor_with(working: Sequence[Line], inputs: Mapping[str, float]) -> float | None:
    """Factor of a working with other numbers put in; None where it can't be worked out."""
    values = dict(inputs)
    try:
        for line in working:
            values[line.name] = worked_out(line.expression, values)
    except NotArithmeticError:
        return None
    demand, capacity = values["demand"], max(values["capacity"], 0.0)
    return capacity / demand if demand > 0 else None


def _shown(raised: Raised) -> RaiseShown:
    gone = raised.factor_after > 1e5
    effort = hours_words(raised)
    return RaiseShown(
        text=raised.text,
        set={path: str(value) for path, value in raised.set.items()},
        factor_after=raised.factor_after,
        after_text="it no longer applies" if gone else f"factor {two(raised.factor_after)}",
        next_text=raised.next_to_fail,
        effort_text=f"{effort}; {raised.parts}" if raised.parts else effort,
    )
