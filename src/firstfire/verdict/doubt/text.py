"""What to measure first, on the terminal: 80 columns, the answer first."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping

from firstfire.verdict.doubt.doubt import Doubts, Worth
from firstfire.verdict.doubt.questions import Which
from firstfire.verdict.doubt.words import (
    NO_SOURCE,
    SHORT,
    WHEN,
    bears_words,
    caution,
    instrument_words,
    left_words,
    minutes_words,
    per_hundred,
    sentence,
    span_words,
    together,
)
from firstfire.verdict.words.text.lines import WIDTH, heading, wrapped

_MOST, _MOST_BEYOND = 8, 8
_COLUMN = 6
_NUMBERS = 6 + _COLUMN * len(SHORT)
"""Columns that the shares take, with the margins beside them."""
_SURE = {
    "odds": "whether it holds up to the first second of full throttle",
    "full_throttle": "how long full throttle lasts",
    "idle": "how long it idles",
}


def doubt_text(found: Doubts, *, width: int = WIDTH) -> str:
    """What to measure first, then what nobody can measure at home.

    Parameters
    ----------
    found
        From `firstfire.verdict.doubt.doubt.doubts`.
    """
    lines = wrapped(sentence(found), width=width)
    if not found.doubtful:
        return "\n".join(lines)
    worths = found.worth_it[:_MOST]
    if worths:
        lines += [*heading("What to measure, most worth first"), *_head(width=width)]
        for number, one in enumerate(worths, start=1):
            lines += _worth_lines(found, one, number, width=width)
        lines += _together_lines(found, width=width)
    beyond = found.out_of_reach[:_MOST_BEYOND]
    if beyond:
        lines += [*heading("What nobody can measure at home"), *_head(width=width)]
        for one in beyond:
            lines += _beyond_lines(one, width=width)
    lines += ["", *_notes(found, width=width)]
    minded = caution(worths)
    if minded:
        lines += [*heading("Caution"), *wrapped(minded, 2, width=width)]
    return "\n".join(lines)


def _head(*, width: int) -> list[str]:
    names = "".join(f"{name:>{_COLUMN}}" for name in SHORT.values())
    *before, last = _in_words("Of 100 parts of the doubt about each, decided:", width)
    return [*(f"  {line}" for line in before), f"  {last:<{width - _NUMBERS}}{names}"]


def _shares(first: str, shares: Mapping[Which, float], *, width: int) -> Iterator[str]:
    """Words, the last line of them followed by the shares."""
    *before, last = _in_words(first, width)
    yield from (f"  {line}" for line in before)
    numbers = "".join(f"{per_hundred(shares.get(which)):>{_COLUMN}}" for which in SHORT)
    yield f"  {last:<{width - _NUMBERS}}{numbers}"


def _in_words(text: str, width: int) -> list[str]:
    """Lines that leave room for the shares."""
    return textwrap.wrap(
        text, width - _NUMBERS, subsequent_indent="   ", break_on_hyphens=False
    )  # fmt: skip


def _worth_lines(found: Doubts, one: Worth, number: int, *, width: int) -> Iterator[str]:
    yield from _shares(f"{number}. {one.reading.words}", one.told, width=width)
    tool = instrument_words(found.engine, one)
    yield from wrapped(f"{tool}, {minutes_words(one)}, {WHEN[one.reading.stage]}", 5, width=width)
    paths = ", ".join(span.path for span in one.spans)
    span = span_words(found.engine, one.spans[0])
    yield from wrapped(f"{paths}: {span} now; {left_words(one)}", 5, width=width)
    if one.bears_on is not None:
        yield from wrapped(
            f"bears on: {bears_words(one.bears_on, found.engine.cylinders)}", 5, width=width
        )
    yield from wrapped(one.reading.how, 5, width=width)


def _together_lines(found: Doubts, *, width: int) -> Iterator[str]:
    if len(found.worth_it) > 1:
        whole = together(found.worth_it, found.doubtful)
        yield from _shares(f"All {len(found.worth_it)} of them, at the least", whole, width=width)


def _beyond_lines(one: Worth, *, width: int) -> Iterator[str]:
    yield from _shares(f"{one.reading.words}: {one.reading.why_not}", one.known, width=width)


def _notes(found: Doubts, *, width: int) -> Iterator[str]:
    said = (
        "odds: whether anything gives way up to the first second of full throttle; full, idle: how "
        "long each lasts from cold. What several inputs decide only together is in no line."
    )
    if found.sure:
        said += f" Not in doubt: {', '.join(_SURE[which] for which in found.sure)}."
    said += (
        " A value measured is written as { value = ..., with = ... }, or with its own low and high;"
        f" see docs/engine-file.md. Instruments, minutes and what a reading leaves: {NO_SOURCE}."
    )
    yield from textwrap.wrap(said, width, break_on_hyphens=False)
