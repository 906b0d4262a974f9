"""An engine made to hold, on the terminal: the way there, what it costs, what is left."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from firstfire.verdict.facts.margin import named
from firstfire.verdict.improve.contract import CAUTION
from firstfire.verdict.improve.improve import Improved
from firstfire.verdict.improve.words import (
    against_words,
    buys,
    cost,
    cost_words,
    sentence,
    step_words,
    two,
)
from firstfire.verdict.words.commands import Asked, in_lines, pieces
from firstfire.verdict.words.ledger import hours_words
from firstfire.verdict.words.text.lines import WIDTH, heading, wrapped


def improve_text(found: Improved, asked: Asked, written: str | None, *, width: int = WIDTH) -> str:
    """The whole as text.

    Parameters
    ----------
    found
        What came of it.
    asked, written
        The engine's file as it was asked for, and the better one where it was written.
    width
        Columns.
    """
    lines = wrapped(sentence(found), width=width)
    if found.steps:
        spent = cost_words(cost(found.steps))
        lines += [*heading("The way, step by step"), *_steps(found, width)]
        lines += [*heading("What it costs"), *wrapped(spent, 2, width=width)]
    after = found.after
    if after is not None:
        lines += heading("What it then says of itself")
        lines += wrapped(after.sentence, 2, width=width)
    if found.left:
        lines += [*heading("What is left, and why"), *_left(found, width)]
    lines += [*heading("Next"), *_next(found, asked, written, width)]
    return "\n".join([*lines, *heading("Caution"), *wrapped(CAUTION, 2, width=width)])


def _next(found: Improved, asked: Asked, written: str | None, width: int) -> list[str]:
    """What was written, or how to have it written; and the command that shows all of it."""
    if written is not None:
        told = (
            f"{written} is written: {asked.file} with its comments, and behind each change its "
            "why. See what it does:"
        )
        said = replace(asked, file=written, tried=())
    elif found.steps:
        told = "Nothing is written. Say -o better.toml to have the better file, or try it:"
        changes = tuple(f"{path}={value}" for path, value in found.changes.items())
        said = replace(asked, tried=(*asked.tried, *changes))
    else:
        told, said = "All that is known of it:", asked
    typed = in_lines(pieces(said.command("check")), width, 2, " \\")
    return [*wrapped(told, 2, width=width), *typed]


def _steps(found: Improved, width: int) -> Iterator[str]:
    for number, step in enumerate(found.steps, 1):
        change = step.change
        against = against_words(found.before, step)
        first, *rest = wrapped(f"Against: {against}.", 5, width=width)
        yield f"  {number}. {first.lstrip()}"
        yield from rest
        yield from wrapped(f"{change.text}. {step_words(step)}.", 5, width=width)
        hours = hours_words(change)
        bought = f", to buy: {change.parts}" if buys(change) else ""
        yield from wrapped(f"{hours}{bought}", 5, width=width)
        for path, value in change.set.items():
            yield f"       {path} = {value}"


def _left(found: Improved, width: int) -> Iterator[str]:
    result = found.after if found.after is not None else found.before
    for one in found.left:
        factor = two(one.margin.least)
        told = f"{named(result.plain, one.margin.way)} ({factor}): {one.why}."
        yield from wrapped(told, 2, width=width)
