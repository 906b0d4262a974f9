"""Chapters of setting up in JSON: SI, units beside the numbers, null for what has no meaning.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.number import Number
from firstfire.verdict.told.part import Told


class NumberTold(Told):
    """A number with what it is held against."""

    id: str
    words: str
    value: float | None = Field(description="SI; null: not judged, and `why` says why")
    unit: str
    limit: float | None
    side: Literal["at least", "at most", ""]
    holds: bool | None
    why: str
    source: str


class TableTold(Told):
    """Rows of words."""

    caption: str
    head: list[str]
    rows: list[list[str]] = Field(description="as many words as the head has")


class ChapterTold(Told):
    """One subject that an engine is set up by."""

    id: str
    title: str
    said: list[str] = Field(description="the sum of it first")
    numbers: list[NumberTold]
    tables: list[TableTold]
    caution: str = Field(description="empty where no action follows")
    files: list[str] = Field(description="beside setup.json: what else there is of it")


def chapter_told(chapter: Chapter) -> ChapterTold:
    """A chapter as the contract has it."""
    return ChapterTold(
        id=chapter.id,
        title=chapter.title,
        said=list(chapter.said),
        numbers=[number_told(number) for number in chapter.numbers],
        tables=[_table(table) for table in chapter.tables],
        caution=chapter.caution,
        files=list(chapter.files),
    )


def number_told(number: Number) -> NumberTold:
    """A number as the contract has it."""
    judged = number.judged
    return NumberTold(
        id=number.id,
        words=number.words,
        value=number.value if judged else None,
        unit=number.unit,
        limit=number.limit if judged else None,
        side=number.side,
        holds=number.holds if judged and number.limit is not None else None,
        why=number.why,
        source=number.source,
    )


def _table(table: Table) -> TableTold:
    return TableTold(caption=table.caption, head=list(table.head), rows=list(map(list, table.rows)))
