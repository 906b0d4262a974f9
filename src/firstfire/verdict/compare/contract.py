"""The comparison's JSON contract, ``firstfire.compare/1``: SI, units in names, null for no meaning.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
from typing import Literal

from pydantic import AliasPath, Field

from firstfire.verdict.compare.alike import why_the_same
from firstfire.verdict.compare.metal import metal
from firstfire.verdict.compare.metal_words import would_metal_help
from firstfire.verdict.compare.records import Column, Figure, Pair, SideBySide
from firstfire.verdict.compare.words import overall
from firstfire.verdict.facts.differences import Difference
from firstfire.verdict.told.part import Finite, ProvenanceTold, Told, finite

SenseTold = Literal["better", "worse", "alike"]


class ColumnTold(Told):
    """One engine compared."""

    letter: str
    label: str
    name: str = Field(validation_alias=AliasPath("engine", "name"))
    where: str = Field(
        validation_alias=AliasPath("engine", "where"), description="the file it was read from"
    )
    sentence: str = Field(validation_alias=AliasPath("result", "sentence"))
    word: Literal["fails", "marginal", "holds", "not judged"] = Field(
        validation_alias=AliasPath("result", "verdict", "word")
    )
    provenance: ProvenanceTold = Field(validation_alias="result")


class SaidTold(Told):
    """One engine's value at a path."""

    letter: str
    value: float | None = Field(description="SI; null for a word, a list or no value")
    written: str
    layer: str = Field(description="who said it; empty where the engine has no such thing")
    kind: str


class DifferenceTold(Told):
    """A path at which values differ."""

    path: str
    said_by_someone: bool = Field(description="false where it follows by rule or catalog")
    each: list[SaidTold]


class JudgedTold(Told):
    """One judgement in short."""

    word: Literal["fails", "marginal", "holds", "not judged"]
    factor: Finite
    factor_low: Finite
    factor_high: Finite
    point: str


class ShiftTold(Told):
    """One way to fail in both engines."""

    id: str
    event: str
    name: str
    sense: SenseTold
    before: JudgedTold | None
    after: JudgedTold | None


class FigureTold(Told):
    """One number that engines are compared by."""

    id: str
    name: str
    unit: str = Field(description="SI; empty for a share")
    before: float | None = Field(description="null beyond the run's horizon or unfired")
    after: float | None
    before_low: float | None
    before_high: float | None
    after_low: float | None
    after_high: float | None
    sense: SenseTold


class MetalCostTold(Told):
    """What one kind of part of metal costs; common practice, and no price is known."""

    part: str
    pieces: int
    hand_seconds: float = Field(validation_alias="seconds")
    hand_seconds_low: float = Field(validation_alias="seconds_low")
    hand_seconds_high: float = Field(validation_alias="seconds_high")
    to_buy: str = Field(validation_alias="parts")


class MetalTold(Told):
    """One engine's parts of metal where the other's are of plastic."""

    metal: str = Field(
        validation_alias=AliasPath("metal", "letter"), description="letter of the engine with metal"
    )
    other: str = Field(validation_alias=AliasPath("other", "letter"))
    costs: list[MetalCostTold]
    other_values_that_differ: int = Field(validation_alias="besides")


class PairTold(Told):
    """The first engine against another."""

    before: str = Field(description="letter")
    after: str
    overall: Literal["better", "worse", "alike", "mixed"] = Field(
        description="better only where nothing that is judged got worse"
    )
    sentence: str
    figures: list[FigureTold]
    worse: list[ShiftTold] = Field(description="worst first")
    better: list[ShiftTold]
    clocks: list[FigureTold] = Field(
        description="limits that heat brings at full throttle and that moved, soonest first"
    )
    new: list[ShiftTold] = Field(description="judged in the second only")
    gone: list[ShiftTold] = Field(description="judged in the first only")
    why_the_same: list[str] = Field(
        default_factory=list,
        description="where both come to the same: a sentence for what was said otherwise",
    )
    would_metal_help: str | None = Field(
        default=None, description="a sentence; null where neither has metal for the other's plastic"
    )
    metal: list[MetalTold] = Field(
        default_factory=list, description="both engines where each has some"
    )


class CompareTold(Told):
    """Engines side by side."""

    schema_: Literal["firstfire.compare/1"] = Field(
        default="firstfire.compare/1", alias="schema", serialization_alias="schema"
    )
    columns: list[ColumnTold]
    differences: list[DifferenceTold]
    pairs: list[PairTold]


def told(comparison: SideBySide) -> CompareTold:
    """A comparison as the contract has it."""
    return CompareTold(
        columns=ColumnTold.each_of(comparison.columns),
        differences=[_difference(d, comparison.columns) for d in comparison.differences],
        pairs=[_pair(pair) for pair in comparison.pairs],
    )


def comparison_json(comparison: SideBySide, indent: int | None = 2) -> str:
    """A comparison as JSON text."""
    data = told(comparison).model_dump(by_alias=True)
    return json.dumps(data, indent=indent, ensure_ascii=False, allow_nan=False)


def _difference(difference: Difference, columns: tuple[Column, ...]) -> DifferenceTold:
    return DifferenceTold(
        path=difference.path,
        said_by_someone=difference.own,
        each=[
            SaidTold(
                letter=column.letter,
                value=_number(said.value),
                written=said.written if said.there else "",
                layer=said.layer,
                kind=said.kind,
            )
            for column, said in zip(columns, difference.each, strict=True)
        ],
    )


def _number(value: object) -> float | None:
    plain = isinstance(value, int | float) and not isinstance(value, bool)
    return finite(float(value)) if plain else None  # type: ignore[arg-type]


def _pair(pair: Pair) -> PairTold:
    return PairTold(
        before=pair.before.letter,
        after=pair.after.letter,
        overall=pair.overall,
        sentence=overall(pair),
        figures=[_figure(figure) for figure in pair.figures],
        worse=ShiftTold.each_of(pair.worse),
        better=ShiftTold.each_of(pair.better),
        clocks=[_figure(clock) for clock in pair.clocks],
        new=ShiftTold.each_of(pair.new),
        gone=ShiftTold.each_of(pair.gone),
        why_the_same=why_the_same(pair),
        would_metal_help=would_metal_help(pair) or None,
        metal=MetalTold.each_of(metal(pair)),
    )


def _figure(figure: Figure) -> FigureTold:
    before, after = figure.before_span or (None, None), figure.after_span or (None, None)
    return FigureTold(
        id=figure.id,
        name=figure.name,
        unit=figure.unit,
        before=finite(figure.before),
        after=finite(figure.after),
        before_low=before[0],
        before_high=before[1],
        after_low=after[0],
        after_high=after[1],
        sense=figure.sense,
    )
