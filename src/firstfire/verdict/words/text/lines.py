"""Lines of text on the terminal: as wide as it is, never broken within a word."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

WIDTH = 80
"""Columns that every terminal has, and that are written where nobody knows how many there are."""


def wrapped(
    text: str, indent: int = 0, *, width: int = WIDTH, hang: int | None = None
) -> list[str]:
    """`text` in lines of so many columns.

    Parameters
    ----------
    text
        Words.
    indent, hang
        Spaces before the first line, and before later ones: as many, if not said.
    width
        Columns.
    """
    return textwrap.wrap(
        text,
        width,
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent if hang is None else hang),
        break_long_words=False,
        break_on_hyphens=False,
    ) or [""]


def beside(head: str, text: str, at: int, *, width: int = WIDTH) -> list[str]:
    """`text` in a column of its own that begins at place `at`, behind `head`."""
    first, *rest = wrapped(text, width=width - at)
    return [f"{head:<{at}}{first}", *(f"{'':<{at}}{line}" for line in rest)]


def heading(word: str) -> list[str]:
    """A heading between rules of white space."""
    return ["", word, "-" * len(word)]


def pairs(rows: Iterable[tuple[str, str]], width: int = 34) -> Iterator[str]:
    """Names and values in two columns."""
    for name, value in rows:
        yield f"  {name:<{width}}{value}"
