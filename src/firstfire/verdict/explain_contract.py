"""JSON of an opened judgement, ``firstfire.explanation/1``, and of their list: SI, null, never NaN.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from typing import Literal

from pydantic import Field

from firstfire.verdict.contract import Told
from firstfire.verdict.explain_find import Listed
from firstfire.verdict.explanation import Explanation, NumberPut, RaiseShown, WorkLine
from firstfire.verdict.margin import Margin


class NumberTold(Told):
    """One number put in."""

    name: str = Field(description="path of the engine file, or name among the inputs")
    words: str
    value: float | None = Field(description="SI")
    shown: str = Field(description="as a person reads it")
    unit_shown: str
    known: str = Field(
        description="given, measured, learned, tried, catalog, default, assumed or computed"
    )
    origin: str
    source: str


class WorkLineTold(Told):
    """One line of the substitution."""

    name: str
    words: str
    symbolic: str
    substituted: str
    result: str = Field(description="as a person reads it")
    value: float | None = Field(description="SI")
    unit: str = Field(description="SI unit of the value")


class MakerTold(Told):
    """What makes part of the span."""

    words: str
    share_of_variance: float


class ChangeTold(Told):
    """A change that was really tried."""

    text: str
    set: dict[str, str] = Field(description="path: value, as --set takes them")
    factor_after: float
    next_to_fail: str
    effort: str


class ExplanationTold(Told):
    """One judgement, opened."""

    schema_: Literal["firstfire.explanation/1"] = Field(
        default="firstfire.explanation/1", alias="schema", serialization_alias="schema"
    )
    id: str
    event: str
    point: str
    title: str
    sentence: str
    word: Literal["fails", "marginal", "holds", "not judged"]
    factor: float | None = Field(description="null where nothing is asked or it isn't judged")
    factor_low: float | None = Field(description="5 %")
    factor_high: float | None = Field(description="95 %")
    formula: str
    source: str
    numbers: list[NumberTold]
    working: list[WorkLineTold]
    span: str
    printed: str = Field(description="what walls and infill of a print make of it; empty for none")
    clock: str = Field(description="when it comes while held from cold; empty where not known")
    makers: list[MakerTold] = Field(description="biggest first")
    movers: list[str] = Field(description="what moves the factor most, first")
    raise_by: list[ChangeTold]
    caution: str


class JudgementTold(Told):
    """One line of the list."""

    id: str
    part: str
    failure: str
    event: str
    point: str
    factor: float | None
    factor_low: float | None
    factor_high: float | None
    word: Literal["fails", "marginal", "holds", "not judged"]
    reported: bool = Field(description="told, but not the part's end")
    why_not: str


class JudgementsTold(Told):
    """Every judgement of an engine, worst first."""

    schema_: Literal["firstfire.judgements/1"] = Field(
        default="firstfire.judgements/1", alias="schema", serialization_alias="schema"
    )
    judgements: list[JudgementTold]


def told(one: Explanation) -> ExplanationTold:
    """An explanation in its contract."""
    return ExplanationTold(
        id=one.id,
        event=one.event,
        point=one.point,
        title=one.title,
        sentence=one.sentence,
        word=one.word,  # type: ignore[arg-type]
        factor=_finite(one.factor),
        factor_low=_finite(one.factor_low),
        factor_high=_finite(one.factor_high),
        formula=one.formula,
        source=one.source,
        numbers=[_number(number) for number in one.numbers],
        working=[_line(line) for line in one.working],
        span=one.span_text,
        clock=one.clock,
        printed=one.printed,
        makers=[MakerTold(words=words, share_of_variance=share) for words, share in one.makers],
        movers=list(one.movers),
        raise_by=[_change(change) for change in one.raises],
        caution=one.caution,
    )


def _finite(value: float | None) -> float | None:
    return value if value is not None and math.isfinite(value) else None


def _number(one: NumberPut) -> NumberTold:
    return NumberTold(
        name=one.name,
        words=one.words,
        value=_finite(one.value),
        shown=one.value_text,
        unit_shown=one.unit_text,
        known=one.kind,
        origin=one.origin_text,
        source=one.source,
    )


def _line(one: WorkLine) -> WorkLineTold:
    return WorkLineTold(
        name=one.name,
        words=one.words,
        symbolic=one.symbolic,
        substituted=one.substituted,
        result=one.result_text,
        value=_finite(one.value),
        unit=one.unit,
    )


def _change(one: RaiseShown) -> ChangeTold:
    return ChangeTold(
        text=one.text,
        set=one.set,
        factor_after=one.factor_after,
        next_to_fail=one.next_text,
        effort=one.effort_text,
    )


def told_list(found: Sequence[Listed]) -> JudgementsTold:
    """The list in its contract: every place of every way, in the order of the list."""
    return JudgementsTold(judgements=[_judgement(margin) for one in found for margin in one.places])


def _judgement(margin: Margin) -> JudgementTold:
    return JudgementTold(
        id=margin.way.id,
        part=margin.way.part,
        failure=margin.way.failure,
        event=margin.event,
        point=margin.point,
        factor=_finite(margin.factor),
        factor_low=_finite(margin.factor_low),
        factor_high=_finite(margin.factor_high),
        word=margin.word,
        reported=margin.reported,
        why_not=margin.way.why_not,
    )


def as_json(one: Told) -> str:
    """Either contract as JSON text."""
    plain = one.model_dump(by_alias=True)
    return json.dumps(plain, indent=2, ensure_ascii=False, allow_nan=False)
