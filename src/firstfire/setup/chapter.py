"""A chapter of setting up: what it says, its numbers and tables, for terminal, page and JSON."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.setup.number import Number

_SENTENCE = 60


@dataclass(frozen=True)
class Table:
    """Rows of words under a heading each.

    Attributes
    ----------
    caption, head, rows
        What it is, its columns, and as many words a row.
    """

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    @property
    def wordy(self) -> bool:
        """Whether its rows hold sentences: a narrow page sets them one below the other."""
        return any(len(cell) > _SENTENCE for row in self.rows for cell in row)


@dataclass(frozen=True)
class Chapter:
    """One subject that an engine is set up by.

    Attributes
    ----------
    id, title
        Fixed: ``cams``; and as a person says it.
    said
        Sentences, the sum of it first.
    numbers
        Each with what it is held against; an id may say whose: ``intake.nose_radius``.
    tables
        What is not one number.
    caution
        Where an action follows; "" where none does.
    files
        Names below the folder of what else there is of it.
    """

    id: str
    title: str
    said: tuple[str, ...]
    numbers: tuple[Number, ...] = ()
    tables: tuple[Table, ...] = ()
    caution: str = ""
    files: tuple[str, ...] = ()
