"""What to measure first, as the page has it: the sentence, and the first three readings."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.verdict.doubt.doubt import Doubts, Worth, doubts
from firstfire.verdict.doubt.words import (
    WHEN,
    bears_words,
    caution,
    decided,
    instrument_words,
    left_words,
    minutes_words,
    said,
    span_words,
)
from firstfire.verdict.facts.decide import in_the_odds
from firstfire.verdict.result import Result

_MOST = 3


@dataclass(frozen=True)
class ReadingShown:
    """One reading, ready to be shown.

    Attributes
    ----------
    words, how, decides, bears
        What is measured, how, what it decides, and the judgement it bears on most.
    tool
        With what, in how long, and when.
    paths, span
        Where it is set in the engine file, and what it may be now.
    """

    words: str
    tool: str
    how: str
    decides: str
    bears: str
    paths: tuple[str, ...]
    span: str


@dataclass(frozen=True)
class MeasureShown:
    """What to measure first: the sentence, the readings, and what to mind."""

    sentence: str
    readings: tuple[ReadingShown, ...]
    caution: str


def measure(result: Result) -> MeasureShown | None:
    """What to measure first; None where nothing was judged.

    Parameters
    ----------
    result
        From `check`.
    """
    if not in_the_odds(result.margins):
        return None
    found = doubts(result)
    first = found.worth_it[:_MOST]
    return MeasureShown(said(found), tuple(_shown(found, one) for one in first), caution(first))


def _shown(found: Doubts, one: Worth) -> ReadingShown:
    tool = instrument_words(found.engine, one)
    span = span_words(found.engine, one.spans[0])
    bears = bears_words(one.bears_on, found.engine.cylinders) if one.bears_on else ""
    return ReadingShown(
        words=one.reading.words,
        tool=f"{tool}, {minutes_words(one)}, {WHEN[one.reading.stage]}",
        how=one.reading.how.replace("`", ""),
        decides=decided(one.told),
        bears=bears,
        paths=tuple(unknown.path for unknown in one.spans),
        span=f"{span} now; {left_words(one)}",
    )
