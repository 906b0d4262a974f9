"""JSON of what to measure first, ``firstfire.doubt/1``: SI, null, never NaN.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from pydantic import Field

from firstfire.engine.engine import Engine
from firstfire.engine.unknowns import Unknown
from firstfire.verdict.doubt.doubt import BearsOn, Doubts, Worth
from firstfire.verdict.doubt.questions import Which
from firstfire.verdict.doubt.words import (
    NO_SOURCE,
    WHEN,
    bears_words,
    caution,
    instrument_words,
    sentence,
    span_words,
)
from firstfire.verdict.told.part import Told


class SharesTold(Told):
    """Shares of the doubt about each thing asked, 0 to 1; null where that is not in doubt."""

    odds: float | None = Field(
        description="whether anything gives way up to the first second of full throttle"
    )
    full_throttle: float | None = Field(description="how long full throttle lasts")
    idle: float | None = Field(description="how long it idles")


class SpanTold(Told):
    """One uncertain input as it is known now."""

    path: str = Field(description="where it is set in the engine file")
    distribution: Literal["normal", "lognormal", "loguniform", "uniform"]
    centre: float = Field(description="SI")
    low: float = Field(description="SI, 5 %")
    high: float = Field(description="SI, 95 %")
    shown: str = Field(description="the span as a person reads it")
    origin: str
    source: str


class BearsOnTold(Told):
    """The judgement that an input bears on most."""

    id: str
    point: str
    asked: Which = Field(description="what is asked, of which it is part")
    words: str


class InstrumentTold(Told):
    """What a reading is taken with."""

    key: str = Field(description="row of the catalog")
    words: str


class ReadingTold(Told):
    """One input: how it is measured, or why nobody can at home, and what it decides."""

    words: str
    spans: list[SpanTold] = Field(
        description="one for each cylinder that has its own; none where the file has no place"
    )
    at_home: bool
    why_not: str = Field(description="why nobody can measure it at home; empty where it can be")
    instrument: InstrumentTold | None
    how: str
    minutes: float | None = Field(description="for all cylinders")
    when: str = Field(description="when it can be had")
    span_left: float = Field(description="share of its span that a reading leaves")
    decides: SharesTold = Field(description="by a reading taken at home")
    decides_if_known: SharesTold = Field(description="if it were known without error")
    bears_on: BearsOnTold | None
    turns_the_engine: bool = Field(description="whether the engine is turned or run for it")
    source: str = Field(description="of instrument, minutes and what a reading leaves")


class DoubtTold(Told):
    """What to measure first."""

    schema_: Literal["firstfire.doubt/1"] = Field(
        default="firstfire.doubt/1", alias="schema", serialization_alias="schema"
    )
    engine: str
    sentence: str
    odds: float = Field(
        description="chance that nothing judged gives way up to the first second of full throttle"
    )
    in_doubt: list[Which] = Field(description="what is asked and in doubt")
    not_in_doubt: list[Which] = Field(description="what is asked and as good as sure")
    readings: list[ReadingTold] = Field(
        description="every input that can be measured at home, most worth first"
    )
    beyond: list[ReadingTold] = Field(
        description="every other one, what makes most of the doubt first"
    )
    caution: str


def told(found: Doubts) -> DoubtTold:
    """What to measure first, in its contract: every input, not only those worth telling."""
    return DoubtTold(
        engine=found.engine.name,
        sentence=sentence(found),
        odds=found.odds,
        in_doubt=list(found.doubtful),
        not_in_doubt=list(found.sure),
        readings=[_reading(found.engine, one) for one in found.readings],
        beyond=[_reading(found.engine, one) for one in found.beyond],
        caution=caution(found.worth_it),
    )


def _reading(engine: Engine, one: Worth) -> ReadingTold:
    reading = one.reading
    instrument = None
    if one.at_home:
        instrument = InstrumentTold(key=reading.instrument, words=instrument_words(engine, one))
    return ReadingTold(
        words=reading.words,
        spans=[_span(engine, span) for span in one.spans],
        at_home=one.at_home,
        why_not=reading.why_not,
        instrument=instrument,
        how=reading.how if one.at_home else "",
        minutes=one.minutes if one.at_home else None,
        when=WHEN[reading.stage] if one.at_home else "",
        span_left=one.left,
        decides=_shares(one.told),
        decides_if_known=_shares(one.known),
        bears_on=_bears(one.bears_on, engine.cylinders),
        turns_the_engine=reading.spins,
        source=NO_SOURCE,
    )


def _shares(shares: Mapping[Which, float]) -> SharesTold:
    return SharesTold(
        odds=shares.get("odds"),
        full_throttle=shares.get("full_throttle"),
        idle=shares.get("idle"),
    )


def _span(engine: Engine, span: Unknown) -> SpanTold:
    return SpanTold(
        path=span.path,
        distribution=span.distribution,
        centre=span.centre,
        low=span.low,
        high=span.high,
        shown=span_words(engine, span),
        origin=span.origin,
        source=span.source,
    )


def _bears(one: BearsOn | None, cylinders: int) -> BearsOnTold | None:
    if one is None:
        return None
    words = bears_words(one, cylinders)
    return BearsOnTold(id=one.way, point=one.point, asked=one.asked, words=words)
