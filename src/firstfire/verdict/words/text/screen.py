"""The first screen of a check: the answer, the card, what is likeliest to end it, what is next."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product
from typing import Literal

from firstfire.verdict.facts.found import Found
from firstfire.verdict.words.commands import Asked
from firstfire.verdict.words.ledger import LedgerLine, ledger, move
from firstfire.verdict.words.sentences import SAYS_WHEN, sentence, sentences
from firstfire.verdict.words.text.card import card_lines
from firstfire.verdict.words.text.lines import WIDTH, wrapped

LINES = 24
"""Lines that every terminal has."""

_SPARED = ("  keeps going", "  measure first")
_TOLD = 3
_COMMANDS = 9
"""Place of the commands: behind the longest word of what each is for."""


def screen_text(result: Found, asked: Asked, *, width: int = WIDTH, most: int = LINES) -> str:
    """What a check comes to, on one screen.

    Parameters
    ----------
    result
        Of the check.
    asked
        How it was asked for: what comes next is asked of the same engine.
    width, most
        Columns and lines. Where there is too much, the sentence first leaves out what stands
        below it, then empty lines go, then the last of what is likeliest to end it, then the card's
        line that `firstfire start` tells too, then what to measure first. With empty lines to
        spare, one is left for the prompt that follows.
    """
    card = list(card_lines(result, width=width, whole=False))
    last = [_caution(result, width), *_next(result, asked, width)]
    said = [wrapped(one, width=width) for one in _said(result)]
    found: list[str] = []
    fewer = [[line for line in card if not line.startswith(_SPARED[:n])] for n in (1, 2)]
    for lines, told, (spaces, brief) in product((card, *fewer), (_TOLD, 2, 1), _SHORTER):
        blocks = [said[brief], lines, _likeliest(result, told, width), last]
        found = _apart([block for block in blocks if block], spaces)
        if _rows(found, width) + (spaces > 1) <= most:
            break
    return "\n".join(found)


def _rows(lines: Sequence[str], width: int) -> int:
    """Lines of the terminal that they take: a command that is too long for one isn't broken."""
    return sum(max(math.ceil(len(line) / width), 1) for line in lines)


_SHORTER: tuple[tuple[int, Literal[0, 1, 2]], ...] = (
    (3, 0), (3, 1), (2, 0), (2, 1), (1, 0), (1, 1), (0, 1), (1, 2), (0, 2),
)  # fmt: skip
"""Empty lines, and how brief the sentence is, in the order in which they are tried."""


def _said(result: Found) -> list[str]:
    """The sentence, ever shorter; a check that was stopped has only its own."""
    if result.sentence != sentence(result):
        return [result.sentence] * 3
    return [result.sentence, *(" ".join(sentences(result, brief=b)) for b in _BRIEFLY)]


_BRIEFLY: tuple[Literal[1, 2], ...] = (1, 2)


def _apart(blocks: Sequence[Sequence[str]], spaces: int) -> list[str]:
    """Blocks one below the other, so many of them behind an empty line, the first ones first."""
    lines: list[str] = []
    for at, block in enumerate(blocks):
        lines += [""] if 0 < at <= spaces else []
        lines += block
    return lines


def _likeliest(result: Found, most: int, width: int) -> list[str]:
    """What is likeliest to end the engine, each with the change that helps most."""
    listed = ledger(result.margins, result.plain)[:most]
    if not listed:
        return []
    title = "Nearest to giving way" if result.verdict.word == "holds" else "Likeliest to end it"
    lines = [f"{title}: what it holds over what it feels, with its 5–95 %"]
    for number, one in enumerate(listed, 1):
        lines += _ender(number, one, width)
    return lines


def _ender(number: int, line: LedgerLine, width: int) -> Iterator[str]:
    margin = line.margin
    event = "" if SAYS_WHEN.search(line.name) else f", {margin.event.replace('_', ' ')}"
    told = f"{number}. {line.name}{event}: {margin.word}, {line.span}"
    if not margin.raise_by:
        none = "; no change offered" if margin.word in ("fails", "marginal") else ""
        told += none if len(told + none) + 2 <= width else ""
    yield from wrapped(told, 2, width=width, hang=5)
    if not margin.raise_by:
        return
    best = move(margin.raise_by[0])
    after = "that can't happen then" if best.after == "gone" else f"then {best.after}"
    short, long = f"{best.raised.text}: {after}", f"{best.raised.text}: {after} ({best.effort})"
    yield from wrapped(long if len(long) + 5 <= width else short, 5, width=width)


def _caution(result: Found, width: int) -> str:
    """The hazards of a start by name, as many as a line has room for, and where all are told."""
    names = [c.hazard.partition(":")[0] for c in result.cautions]
    hazards = sorted(dict.fromkeys(name for name in names if name not in _NO_HAZARD), key=_urgent)
    for told in range(len(hazards), 0, -1):
        more = " and more" if told < len(hazards) else ""
        line = f"Before a start, mind {', '.join(hazards[:told])}{more}: --full"
        if len(line) <= width:
            return line
    return "Before a start, mind all cautions: --full"


_NO_HAZARD = ("estimates", "stop", "proving with pressure")
_FIRST = ("burst", "fuel", "fumes", "high voltage", "rotating parts", "starter")


def _urgent(hazard: str) -> int:
    """Place of a hazard: first what every engine has."""
    return _FIRST.index(hazard) if hazard in _FIRST else len(_FIRST)


def _next(result: Found, asked: Asked, width: int) -> list[str]:
    """What to type next, and what for."""
    lines = list(commands(result, asked, whole=True))
    if max(map(len, lines)) <= width or not asked.options:
        return lines
    return [*commands(result, asked, whole=False), f"{'':<{_COMMANDS}}each with {_SAME}"]


_SAME = "the same --set and --layer as now"


def commands(result: Found, asked: Asked, *, whole: bool) -> Iterator[str]:
    """What to type next and what for, what helps most first; `whole` with its trial values."""
    first = result.verdict.first
    if result.verdict.word in ("fails", "marginal"):
        better = "better.toml" if asked.file != "better.toml" else "better_still.toml"
        typed = asked.command("improve", "-o", better, life=True, options=whole)
        yield f"{'mend it':<{_COMMANDS}}{typed}"
    if first is not None:
        typed = asked.command("explain", first.way.id, options=whole)
        yield f"{'see why':<{_COMMANDS}}{typed}"
    typed = asked.command("check", "--full", life=True, options=whole)
    yield f"{'see all':<{_COMMANDS}}{typed}"
