"""The comparison's JSON contract, ``firstfire.compare/1``: SI, units in names, null for no meaning.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
import math
from typing import Literal

from pydantic import Field

from firstfire.verdict.alike import why_the_same
from firstfire.verdict.compare_metal import Metal, metal
from firstfire.verdict.compare_metal_words import would_metal_help
from firstfire.verdict.compare_records import Column, Figure, Pair, Shift, SideBySide
from firstfire.verdict.compare_words import overall
from firstfire.verdict.contract import ProvenanceTold, Told
from firstfire.verdict.differences import Difference
from firstfire.verdict.margin import Margin

SenseTold = Literal["better", "worse", "alike"]


class ColumnTold(Told):
    """One engine compared."""

    letter: str
    label: str
    name: str
    where: str = Field(description="the file it was read from")
    sentence: str
    word: Literal["fails", "marginal", "holds", "not judged"]
    provenance: ProvenanceTold


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
    factor: float | None
    factor_low: float | None
    factor_high: float | None
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
    hand_seconds: float
    hand_seconds_low: float
    hand_seconds_high: float
    to_buy: str


class MetalTold(Told):
    """One engine's parts of metal where the other's are of plastic."""

    metal: str = Field(description="letter of the engine with metal")
    other: str
    costs: list[MetalCostTold]
    other_values_that_differ: int


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
        columns=[_column(column) for column in comparison.columns],
        differences=[_difference(d, comparison.columns) for d in comparison.differences],
        pairs=[_pair(pair) for pair in comparison.pairs],
    )


def comparison_json(comparison: SideBySide, indent: int | None = 2) -> str:
    """A comparison as JSON text."""
    data = told(comparison).model_dump(by_alias=True)
    return json.dumps(data, indent=indent, ensure_ascii=False, allow_nan=False)


def _column(column: Column) -> ColumnTold:
    result = column.result
    return ColumnTold(
        letter=column.letter,
        label=column.label,
        name=column.engine.name,
        where=column.engine.where,
        sentence=result.sentence,
        word=result.verdict.word,
        provenance=ProvenanceTold(
            version=result.version,
            engine_file_sha256=column.engine.sha256,
            inputs_sha256=result.plain.sha256,
        ),
    )


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
    return _finite(float(value)) if plain else None  # type: ignore[arg-type]


def _finite(value: float | None) -> float | None:
    return value if value is not None and math.isfinite(value) else None


def _pair(pair: Pair) -> PairTold:
    return PairTold(
        before=pair.before.letter,
        after=pair.after.letter,
        overall=pair.overall,
        sentence=overall(pair),
        figures=[_figure(figure) for figure in pair.figures],
        worse=[_shift(s) for s in pair.worse],
        better=[_shift(s) for s in pair.better],
        clocks=[_figure(clock) for clock in pair.clocks],
        new=[_shift(s) for s in pair.new],
        gone=[_shift(s) for s in pair.gone],
        why_the_same=why_the_same(pair),
        would_metal_help=would_metal_help(pair) or None,
        metal=[_metal(one) for one in metal(pair)],
    )


def _metal(one: Metal) -> MetalTold:
    return MetalTold(
        metal=one.metal.letter,
        other=one.other.letter,
        costs=[
            MetalCostTold(
                part=cost.part,
                pieces=cost.pieces,
                hand_seconds=cost.seconds,
                hand_seconds_low=cost.seconds_low,
                hand_seconds_high=cost.seconds_high,
                to_buy=cost.parts,
            )
            for cost in one.costs
        ],
        other_values_that_differ=one.besides,
    )


def _figure(figure: Figure) -> FigureTold:
    before, after = figure.before_span or (None, None), figure.after_span or (None, None)
    return FigureTold(
        id=figure.id,
        name=figure.name,
        unit=figure.unit,
        before=_finite(figure.before),
        after=_finite(figure.after),
        before_low=before[0],
        before_high=before[1],
        after_low=after[0],
        after_high=after[1],
        sense=figure.sense,
    )


def _shift(shift: Shift) -> ShiftTold:
    return ShiftTold(
        id=shift.id,
        event=shift.event,
        name=shift.name,
        sense=shift.sense,
        before=_judged(shift.before),
        after=_judged(shift.after),
    )


def _judged(margin: Margin | None) -> JudgedTold | None:
    if margin is None:
        return None
    return JudgedTold(
        word=margin.word,
        factor=_finite(margin.factor),
        factor_low=_finite(margin.factor_low),
        factor_high=_finite(margin.factor_high),
        point=margin.point,
    )
