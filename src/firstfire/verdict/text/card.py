"""The card on the terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from firstfire.verdict.card import card
from firstfire.verdict.result import Result


def card_lines(result: Result) -> Iterator[str]:
    """Names and values, two columns; what isn't known yet says so."""
    for line in card(result):
        yield from textwrap.wrap(
            line.value, 80, initial_indent=f"  {line.name:<24}", subsequent_indent=" " * 26
        )
