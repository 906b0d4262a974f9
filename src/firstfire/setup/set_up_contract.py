"""Setting up as JSON, ``firstfire.setup/1``: timing, steps, chapters, sheets. SI, units in names.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from pydantic import Field

from firstfire.setup.chapter import Chapter
from firstfire.setup.chapter_contract import ChapterTold, chapter_told
from firstfire.setup.compression.readings import Compression
from firstfire.setup.order import order
from firstfire.setup.timing.contract import TimingTold, timing_told
from firstfire.setup.timing.steps import steps
from firstfire.setup.timing.timing import Timing
from firstfire.verdict.facts.cautions import cautions
from firstfire.verdict.start.contract_parts import CrankingTold, cranking_told
from firstfire.verdict.told.part import CautionTold, ProvenanceTold, Told


class StepTold(Told):
    """One thing to do."""

    title: str
    do: list[str]
    caution: str = Field(description="empty where nothing more than always")


class TurnTold(Told):
    """One step of the whole, and the section that says how."""

    do: str
    section: str = Field(description="id of a chapter, or steps")


class SheetTold(Told):
    """A template, or the diagram of its wires."""

    slug: str
    title: str
    files: list[str] = Field(description="beside setup.json")
    paper: Literal["A4", "Letter"]
    pages: int = Field(description="of the PDF")
    width_m: float
    height_m: float
    notes: list[str]
    to_scale: bool = Field(description="drawn at true size; a diagram isn't")


class CompressionTold(CrankingTold):
    """What a gauge should read while its starter turns it, as a start is told to begin."""

    gauge_pa_each: list[float] = Field(description="dry, of each cylinder, above the air")


class SetUpTold(Told):
    """All that an engine is set up by."""

    schema_: Literal["firstfire.setup/1"] = Field(
        default="firstfire.setup/1", alias="schema", serialization_alias="schema"
    )
    name: str
    order: list[TurnTold] = Field(description="from the test pieces to the first spin")
    timing: TimingTold
    steps: list[StepTold]
    chapters: list[ChapterTold] = Field(description="what else it is set up by, in order")
    compression: CompressionTold
    sheets: list[SheetTold]
    beside: list[str] = Field(
        description="further files: lists, tables for a controller, numbers in SI, things to print"
    )
    cautions: list[CautionTold]
    provenance: ProvenanceTold


def set_up_told(
    found: Timing, chapters: Sequence[Chapter], cranked: Compression, sheets: list[SheetTold],
    beside: list[str],
) -> SetUpTold:  # fmt: skip
    """A timing with its steps, chapters, compression and sheets as the contract has it."""
    timing = timing_told(found)
    return SetUpTold(
        name=found.engine.name,
        order=[
            TurnTold(do=turn.do, section=turn.section)
            for turn in order(found.plain, [chapter.id for chapter in chapters])
        ],
        timing=timing,
        steps=[
            StepTold(title=step.title, do=list(step.do), caution=step.caution)
            for step in steps(found)
        ],
        chapters=[chapter_told(chapter) for chapter in chapters],
        compression=CompressionTold(
            **cranking_told(cranked.turned).model_dump(), gauge_pa_each=list(cranked.dry)
        ),
        sheets=sheets,
        beside=beside,
        cautions=CautionTold.each_of(cautions(found.engine, found.plain)),
        provenance=timing.provenance,
    )
