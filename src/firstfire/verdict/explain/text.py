"""An opened judgement on the terminal, and the list of all: the answer first."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence

from firstfire.engine.resolve import PlainEngine
from firstfire.verdict.explain.find import Listed
from firstfire.verdict.explain.opened import (
    MARKS,
    Explanation,
    Maker,
    NumberPut,
    RaiseShown,
    WorkLine,
)
from firstfire.verdict.explain.words import NOTE_MOVERS, NOTE_PI, NOTE_TURNED
from firstfire.verdict.facts.margin import Margin, Word, named
from firstfire.verdict.words.commands import in_lines, set_words
from firstfire.verdict.words.ledger import line as ledger_line
from firstfire.verdict.words.ledger import two
from firstfire.verdict.words.text.lines import WIDTH, heading, wrapped

_VALUE, _ORIGIN, _LEAST = 36, 52, 20
"""Where values and origins begin, and how many columns an origin needs beside them."""
_MOST_PLACES = 6


def explain_text(one: Explanation, elsewhere: Sequence[Margin] = (), *, width: int = WIDTH) -> str:
    """A judgement opened, from the sentence to the caution.

    Parameters
    ----------
    one
        From `explanation`.
    elsewhere
        The same way to fail at other events and points.
    """
    lines = [*wrapped(one.sentence, width=width), *_elsewhere(elsewhere, width=width)]
    lines += wrapped(one.printed, width=width) if one.printed else []
    lines += wrapped(one.clock, width=width) if one.clock else []
    lines += [*heading("What is compared"), *wrapped(one.formula, 2, width=width)]
    if one.numbers:
        lines += [*heading("Numbers put in"), *number_lines(one.numbers, width=width)]
    if one.working:
        lines += [
            *heading("Follow it with a calculator"),
            *working_lines(one.working, width=width),
        ]
    if one.span_text:
        lines += [
            *heading("Low and high"),
            *wrapped(one.span_text, 2, width=width),
            *_maker_lines(one.makers, width=width),
        ]
    if one.movers:
        lines += [
            *heading("What moves it"),
            *_listed(one.movers, width=width),
            "",
            *wrapped(NOTE_MOVERS, 2, width=width),
        ]
    if one.raises:
        lines += [
            *heading("What raises it: tried, least work first"),
            *_raise_lines(one.raises, width=width),
        ]
    lines += [*heading("Where the formula is from"), *wrapped(one.source, 2, width=width)]
    if one.caution:
        lines += [*heading("Caution"), *wrapped(one.caution, 2, width=width)]
    return "\n".join(lines)


def _elsewhere(margins: Sequence[Margin], *, width: int) -> list[str]:
    if not margins:
        return []
    worst: dict[str, Margin] = {}
    for margin in margins:
        worst.setdefault(margin.point, margin)
    said = [f"{_place(m)} {two(m.factor)} {m.word}" for m in worst.values()]
    return wrapped(f"Elsewhere: {', '.join(said[:_MOST_PLACES])}.", width=width)


def _place(margin: Margin) -> str:
    cylinder = margin.way.id.partition("#")[2]
    return f"{margin.point}, cylinder {cylinder}:" if cylinder else f"{margin.point}:"


def _hung(text: str, indent: int, hang: int, *, width: int) -> list[str]:
    return textwrap.wrap(
        text, width, initial_indent=" " * indent, subsequent_indent=" " * hang,
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip


def number_lines(numbers: Sequence[NumberPut], *, width: int) -> Iterator[str]:
    """Mark, words and value; beside them where it is from."""
    for one in numbers:
        words = f"{one.words:<{_VALUE - 4}}"
        space = "" if words.endswith(" ") else "  "
        head = f"  {one.mark} {words}{space}{one.value_text}  "
        if width < _ORIGIN + _LEAST:
            yield from _hung(f"{head.strip()}  {one.origin_text}", 2, 6, width=width)
            continue
        yield from textwrap.wrap(
            one.origin_text, width, initial_indent=f"{head:<{_ORIGIN}}",
            subsequent_indent=" " * _ORIGIN, break_long_words=False, break_on_hyphens=False,
            drop_whitespace=True,
        )  # fmt: skip
    yield ""
    used = dict.fromkeys(one.kind for one in numbers)
    marks = ", ".join(f"{MARKS[k][0]} {MARKS[k][1]}" for k in MARKS if k in used)
    yield from _hung(f"Marks: {marks}.", 2, 2, width=width)
    yield from _sources(numbers, width=width)


def _sources(numbers: Sequence[NumberPut], *, width: int) -> Iterator[str]:
    """Books and tables behind the numbers, each once, with what stands on it."""
    behind: dict[str, list[str]] = {}
    for one in numbers:
        if one.source and one.kind == "catalog":
            behind.setdefault(one.source, []).append(one.words)
    for source, words in behind.items():
        yield from _hung(f"{', '.join(words)}: {source}", 2, 4, width=width)


def working_lines(working: Sequence[WorkLine], *, width: int) -> Iterator[str]:
    """Each line in words and in numbers."""
    for number, one in enumerate(working, start=1):
        called = f"{number:>2}. {_ENDS.get(one.name, '')}{one.words}"
        if one.plainly:
            yield from _hung(f"{called}: {one.result_text}", 2, 6, width=width)
            continue
        yield from _hung(called, 2, 6, width=width)
        yield from _hung(f"= {one.symbolic}", 6, 8, width=width)
        yield from _hung(f"= {one.substituted} = {one.result_text}", 6, 8, width=width)
    notes = [NOTE_TURNED] if any(one.turned for one in working) else []
    if any("π" in one.substituted for one in working):
        notes.append(NOTE_PI)
    if notes:
        yield ""
        yield from wrapped(" ".join(notes), 2, width=width)


_ENDS = {"demand": "Demand: ", "capacity": "Capacity: "}


def _maker_lines(makers: Iterable[Maker], *, width: int) -> Iterator[str]:
    made = list(makers)
    if made:
        yield "  Of that spread:"
    for words, share in made:
        bar = "#" * max(round(10 * share), 1)
        yield from _hung(f"{100 * share:3.0f} %  {bar:<10}  {words}", 4, 23, width=width)


def _listed(texts: Iterable[str], *, width: int) -> Iterator[str]:
    for text in texts:
        yield from _hung(text, 2, 4, width=width)


def _raise_lines(raises: Iterable[RaiseShown], *, width: int) -> Iterator[str]:
    for one in raises:
        following = f"; next: {one.next_text}" if one.next_text else ""
        yield from _hung(f"{one.text}: {one.after_text}{following}.", 2, 4, width=width)
        yield from _hung(f"({one.effort_text})", 4, 4, width=width)
        yield from in_lines(set_words(one.set), width, 4)


_HEADS: tuple[tuple[Word, str], ...] = (
    ("fails", "Fails"),
    ("marginal", "Marginal: holds at the centre, not over the whole spread"),
    ("holds", "Holds"),
)


def list_text(found: Sequence[Listed], plain: PlainEngine, *, width: int = WIDTH) -> str:
    """All judgements, worst first, under their words."""
    lines = wrapped(
        "Every judgement where it is worst: factor (5-95 %), id, where; below it in words "
        "and where else. `firstfire explain FILE ID` opens one.", width=width,
    )  # fmt: skip
    judged = [one for one in found if one.worst.word != "not judged"]
    for word, head in _HEADS:
        here = [one for one in judged if one.worst.word == word and not one.worst.reported]
        if here:
            lines += [*heading(head), *_judged_lines(here, plain, width=width)]
    told = [one for one in judged if one.worst.reported]
    if told:
        lines += [
            *heading("Told, but not the part's end"),
            *_judged_lines(told, plain, width=width),
        ]
    unjudged = [one for one in found if one.worst.word == "not judged"]
    if unjudged:
        lines += heading("Not judged")
        for one in unjudged:
            way = one.worst.way
            lines += _hung(
                f"{way.id}: {named(plain, way)}: {way.why_not.rstrip('.')}.", 2, 4, width=width
            )
    return "\n".join(lines)


def _judged_lines(found: Sequence[Listed], plain: PlainEngine, *, width: int) -> Iterator[str]:
    for one in found:
        line = ledger_line(one.worst, plain)
        where = one.worst.point.removesuffix(" before top")
        head = f"{line.span:<18} {one.worst.way.id:<27} {where}".rstrip()
        yield from _hung(head, 2, 21, width=width)
        others = ", ".join(f"{m.event.replace('_', ' ')} {two(m.factor)}" for m in one.others)
        yield from _hung(f"{line.name}{f'; {others}' if others else ''}", 6, 8, width=width)
