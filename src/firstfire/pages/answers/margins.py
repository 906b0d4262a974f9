"""Margins of the event at hand, with spans as wide as they last were."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

from firstfire.engine.events import EVENTS
from firstfire.engine.resolve import PlainEngine
from firstfire.pages.answers.messages import Widths, width_key
from firstfire.runs.bout import Bout
from firstfire.runs.run import EventResult
from firstfire.verdict.facts.judge import judge
from firstfire.verdict.facts.margin import Margin, Word
from firstfire.verdict.result import Result

UNKNOWN = math.inf
"""In a width's third place: no factor is known to hold."""


def at_hand(
    plain: PlainEngine, event: str, bout: Bout, seconds: float | None, widths: Widths
) -> list[Margin]:
    """Every way to fail of one bout at one second, lowest factor first.

    Parameters
    ----------
    plain, bout
        The engine, and what was run of it.
    event
        At hand, with its speed's number where it has one.
    seconds
        None: when the event is judged.
    widths
        Of spans as they were last computed. What has none isn't judged yet unless it fails.
    """
    ident = event.partition("@")[0]
    when = EVENTS[ident].judged_at if seconds is None else seconds
    found = judge(EventResult(ident, plain, (bout,)), when)
    return [_spanned(margin, widths.get(width_key(event, margin.way.id))) for margin in found]


def _spanned(margin: Margin, width: tuple[float, float, float] | None) -> Margin:
    """A margin without a span, with one."""
    factor = margin.factor
    if factor is None:
        return margin
    if width is None:
        # Without a span nothing is known to hold.
        word: Word = "fails" if factor < 1 else "not judged"
        return replace(margin, factor_low=None, factor_high=None, survival=None, word=word)
    low, high, holding = width
    return replace(
        margin,
        factor_low=factor * low,
        factor_high=factor * high,
        survival=None,
        word=_word(margin, factor * low, holding),
    )


def _word(margin: Margin, low: float, holding: float) -> Word:
    """What a factor comes to.

    What throws, bursts or burns holds only where it is no worse than when its rare cycle was
    last looked at.
    """
    factor = margin.least
    if factor < 1:
        return "fails"
    if low < 1 or (margin.way.hazard and factor < holding):
        return "marginal"
    return "holds"


def widths_of(result: Result) -> dict[str, tuple[float, float, float]]:
    """How wide the spans of a whole check are, by event at hand and way."""
    found: dict[str, tuple[float, float, float]] = {}
    for event, margins in _by_event(result):
        for m in margins:
            if m.factor and m.factor_low is not None and m.factor_high is not None:
                ends = m.factor_low / m.factor, m.factor_high / m.factor
                if all(map(math.isfinite, ends)):
                    holding = m.factor if m.word == "holds" else UNKNOWN
                    found[width_key(event, m.way.id)] = (*ends, holding)
    return found


def _by_event(result: Result) -> Iterable[tuple[str, Sequence[Margin]]]:
    """Margins by event at hand: each of several speeds is one."""
    for event in result.events:
        for number, point in enumerate(event.points):
            at = f"{event.event}@{number}" if len(event.points) > 1 else event.event
            yield (
                at,
                [m for m in result.margins if (m.event, m.point) == (event.event, point.name)],
            )
