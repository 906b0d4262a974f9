"""An engine made to hold, on the terminal: the way there, what it costs, what is left."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.verdict.improve import Improved
from firstfire.verdict.improve_contract import CAUTION
from firstfire.verdict.improve_words import (
    against_words,
    cost,
    cost_words,
    sentence,
    set_words,
    step_words,
    two,
)
from firstfire.verdict.margin import named
from firstfire.verdict.text.show import heading, wrapped


def improve_text(found: Improved, file: str, written: str | None) -> str:
    """The whole as text of 80 columns.

    Parameters
    ----------
    found
        What came of it.
    file, written
        The engine's file, and the better one where it was written.
    """
    lines = wrapped(sentence(found))
    if found.steps:
        lines += [*heading("The way, step by step"), *_steps(found)]
        lines += [*heading("What it costs"), *wrapped(cost_words(cost(found.steps)), 2)]
    after = found.after
    if after is not None:
        lines += [*heading("What it then says of itself"), *wrapped(after.sentence, 2)]
    if found.left:
        lines += [*heading("What is left, and why"), *_left(found)]
    lines += heading("Next")
    if written is not None:
        told = f"{written} is written: {file} with its comments, and behind each change its why."
        lines += wrapped(f"{told} See all of it: firstfire check {written}", 2)
    elif found.steps:
        told = "Nothing is written. Say -o better.toml to have the better file, or try it:"
        lines += wrapped(told, 2)
        lines.append(f"  firstfire check {file} {set_words(found.changes)}")
    else:
        lines += wrapped(f"firstfire check {file} says all that is known.", 2)
    return "\n".join([*lines, *heading("Caution"), *wrapped(CAUTION, 2)])


def _steps(found: Improved) -> Iterator[str]:
    for number, step in enumerate(found.steps, 1):
        change = step.change
        against = against_words(found.before, step)
        first, *rest = wrapped(f"Likeliest to end it: {against}.", 5)
        yield f"  {number}. {first.lstrip()}"
        yield from rest
        yield from wrapped(f"{change.text}. {step_words(step)}.", 5)
        hours = f"{two(change.print_hours)} h print, {two(change.hand_hours)} h hand"
        bought = f", to buy: {change.parts}" if change.parts else ""
        yield from wrapped(f"{hours}{bought}", 5)
        for path, value in change.set.items():
            yield f"       {path} = {value}"


def _left(found: Improved) -> Iterator[str]:
    result = found.after if found.after is not None else found.before
    for one in found.left:
        factor = two(one.margin.least)
        yield from wrapped(f"{named(result.plain, one.margin.way)} ({factor}): {one.why}.", 2)
