"""A check in three lines: the sentence, the odds, what to type next."""

from __future__ import annotations

from firstfire.verdict.facts.found import Found
from firstfire.verdict.words.commands import Asked
from firstfire.verdict.words.sentences import sentences
from firstfire.verdict.words.text.lines import WIDTH, wrapped
from firstfire.verdict.words.text.screen import commands


def brief_lines(result: Found, asked: Asked, *, width: int = WIDTH) -> list[str]:
    """What decides, how likely it survives, and the command that helps most, each from its line."""
    *said, odds = sentences(result, brief=2)
    typed = next(iter(commands(result, asked, whole=True)))
    return [*wrapped(" ".join(said), width=width), *wrapped(odds, width=width), typed]
