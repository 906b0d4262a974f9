"""The card on the terminal."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.verdict.facts.found import Found
from firstfire.verdict.words.card import CardLine, card
from firstfire.verdict.words.text.lines import WIDTH, beside

_VALUES = 20
"""Place of the values: behind the longest name."""


def card_lines(result: Found, *, width: int = WIDTH, whole: bool = True) -> Iterator[str]:
    """Names and values, two columns; what isn't known yet says so.

    Parameters
    ----------
    result
        Of a check.
    width
        Columns.
    whole
        Whether all is told, or only what fits one line each.
    """
    for line in card(result):
        yield from _line(line, width, whole)


def _line(line: CardLine, width: int, whole: bool) -> list[str]:
    told = line.whole if whole else line.value
    return beside(f"  {line.name}", told, _VALUES, width=width)
