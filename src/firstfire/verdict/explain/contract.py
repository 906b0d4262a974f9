"""JSON of an opened judgement, ``firstfire.explanation/1``, and of their list: SI, null, never NaN.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Literal

from pydantic import AliasPath, Field

from firstfire.verdict.explain.find import Listed
from firstfire.verdict.explain.opened import Explanation
from firstfire.verdict.told.part import Finite, Told


class NumberTold(Told):
    """One number put in."""

    name: str = Field(description="path of the engine file, or name among the inputs")
    words: str
    value: Finite = Field(description="SI")
    shown: str = Field(validation_alias="value_text", description="as a person reads it")
    unit_shown: str = Field(validation_alias="unit_text")
    known: str = Field(
        validation_alias="kind",
        description="given, measured, learned, tried, catalog, default, assumed or computed",
    )
    origin: str = Field(validation_alias="origin_text")
    source: str


class WorkLineTold(Told):
    """One line of the substitution."""

    name: str
    words: str
    symbolic: str
    substituted: str
    result: str = Field(validation_alias="result_text", description="as a person reads it")
    value: Finite = Field(description="SI")
    unit: str = Field(description="SI unit of the value")


class MakerTold(Told):
    """What makes part of the span."""

    words: str
    share_of_variance: float = Field(validation_alias="share")


class ChangeTold(Told):
    """A change that was really tried."""

    text: str
    set: dict[str, str] = Field(description="path: value, as --set takes them")
    factor_after: float
    next_to_fail: str = Field(validation_alias="next_text")
    effort: str = Field(validation_alias="effort_text")


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
    factor: Finite = Field(description="null where nothing is asked or it isn't judged")
    factor_low: Finite = Field(description="5 %")
    factor_high: Finite = Field(description="95 %")
    formula: str
    source: str
    numbers: list[NumberTold]
    working: list[WorkLineTold]
    span: str = Field(validation_alias="span_text")
    printed: str = Field(description="what walls and infill of a print make of it; empty for none")
    clock: str = Field(description="when it comes while held from cold; empty where not known")
    makers: list[MakerTold] = Field(description="biggest first")
    movers: list[str] = Field(description="what moves the factor most, first")
    raise_by: list[ChangeTold] = Field(validation_alias="raises")
    caution: str


class JudgementTold(Told):
    """One line of the list."""

    id: str = Field(validation_alias=AliasPath("way", "id"))
    part: str = Field(validation_alias=AliasPath("way", "part"))
    failure: str = Field(validation_alias=AliasPath("way", "failure"))
    event: str
    point: str
    factor: Finite
    factor_low: Finite
    factor_high: Finite
    word: Literal["fails", "marginal", "holds", "not judged"]
    reported: bool = Field(description="told, but not the part's end")
    why_not: str = Field(validation_alias=AliasPath("way", "why_not"))


class JudgementsTold(Told):
    """Every judgement of an engine, worst first."""

    schema_: Literal["firstfire.judgements/1"] = Field(
        default="firstfire.judgements/1", alias="schema", serialization_alias="schema"
    )
    judgements: list[JudgementTold]


def told(one: Explanation) -> ExplanationTold:
    """An explanation in its contract."""
    return ExplanationTold.made_of(one)


def told_list(found: Sequence[Listed]) -> JudgementsTold:
    """The list in its contract: every place of every way, in the order of the list."""
    return JudgementsTold(judgements=JudgementTold.each_of(m for one in found for m in one.places))


def as_json(one: Told) -> str:
    """Either contract as JSON text."""
    plain = one.model_dump(by_alias=True)
    return json.dumps(plain, indent=2, ensure_ascii=False, allow_nan=False)
