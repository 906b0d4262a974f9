"""A comparison on the terminal: who is better at what, what differs, what got worse."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from firstfire.verdict.compare.metal_words import would_metal_help
from firstfire.verdict.compare.records import Figure, Pair, Sense, Shift, SideBySide
from firstfire.verdict.compare.words import (
    clock_words,
    difference_values,
    figure_line,
    gains,
    opening,
    shift_words,
)
from firstfire.verdict.words.sentences import listed
from firstfire.verdict.words.text.lines import WIDTH, heading, wrapped

_SENSES: tuple[Sense, ...] = ("better", "worse")
_MOST_SHIFTS = 12
_MOST_FOLLOWING = 14
_MOST_CLOCKS = 6


def compare_text(comparison: SideBySide, *, width: int = WIDTH) -> str:
    """The whole comparison as text."""
    names, *verdicts = opening(comparison)
    lines = [*wrapped(names, width=width), ""]
    for verdict in verdicts:
        lines += wrapped(verdict, width=width)
    lines.append("")
    if not comparison.differences:
        first = comparison.columns[0]
        return "\n".join([*lines, *wrapped(first.result.sentence, width=width)])
    lines += _sentences(comparison, width=width)
    for told in filter(None, map(would_metal_help, comparison.pairs)):
        lines += ["", *wrapped(told, width=width)]
    lines += heading("Which is better at what")
    for pair in comparison.pairs:
        lines += _gains(pair, width=width)
    lines += [*heading("What differs"), *_differences(comparison, width=width)]
    for pair in comparison.pairs:
        lines += _pair(pair, several=len(comparison.pairs) > 1, width=width)
    lines += ["", *wrapped("Factors are capacity over demand with their 5-95 %; all are estimates. "
                           "A change within rounding is not told.", width=width)]  # fmt: skip
    return "\n".join(lines)


def _sentences(comparison: SideBySide, *, width: int) -> Iterator[str]:
    """What each engine's check says, once for those of which it says the same."""
    letters: dict[str, list[str]] = {}
    for column in comparison.columns:
        letters.setdefault(column.result.sentence, []).append(column.letter)
    for sentence, who in letters.items():
        yield from _hung(f"{listed(who)}: {sentence}", 0, 3, width=width)


def _gains(pair: Pair, *, width: int) -> Iterator[str]:
    """What the second is better and worse at, a line each."""
    for sense in _SENSES:
        name = f"{pair.after.letter} is {sense} at"
        for told in gains(pair, sense) or ["nothing that is judged"]:
            yield from _hung(f"{name:<15}{told}", 2, 17, width=width)
            name = ""


def _hung(text: str, indent: int, hang: int, *, width: int) -> list[str]:
    return textwrap.wrap(
        text, width, initial_indent=" " * indent, subsequent_indent=" " * hang,
        break_on_hyphens=False,
    )  # fmt: skip


def _differences(comparison: SideBySide, *, width: int) -> Iterator[str]:
    said = [d for d in comparison.differences if d.own]
    follows = [d for d in comparison.differences if not d.own]
    for difference in said:
        yield from _hung(
            f"{difference.path}: {difference_values(difference, comparison.columns)}",
            2,
            6,
            width=width,
        )
    if follows:
        yield ""
        yield "  From these follow, by rule or catalog:"
    for difference in follows[:_MOST_FOLLOWING]:
        yield from _hung(
            f"{difference.path}: {difference_values(difference, comparison.columns)}",
            4,
            8,
            width=width,
        )
    if len(follows) > _MOST_FOLLOWING:
        yield f"    and {len(follows) - _MOST_FOLLOWING} more; --json has them all"


def _pair(pair: Pair, *, several: bool, width: int) -> list[str]:
    """What the second engine of a pair does otherwise than the first."""
    against = f": {pair.after.letter} against {pair.before.letter}" if several else ""
    lines = [*heading(f"What it does{against}")]
    for figure in pair.figures:
        mark = {"better": "better", "worse": "worse", "alike": ""}[figure.sense]
        lines += _hung(f"{figure.name:<29}{mark:<8}{figure_line(figure)}", 2, 39, width=width)
    for sense, shifts in (("worse", pair.worse), ("better", pair.better)):
        clocks = [clock for clock in pair.clocks if clock.sense == sense]
        none = "" if clocks else "Nothing that is judged."
        lines += _shifts(f"What got {sense}", shifts, none, width=width)
        lines += _clocks(clocks, width=width)
    if pair.new:
        lines += _shifts(f"Judged in {pair.after.letter} only", pair.new, "", width=width)
    if pair.gone:
        lines += _shifts(f"Judged in {pair.before.letter} only", pair.gone, "", width=width)
    return lines


def _clocks(clocks: Sequence[Figure], *, width: int) -> list[str]:
    """Limits of heat that come sooner or later, soonest first."""
    lines = []
    for clock in clocks[:_MOST_CLOCKS]:
        name, when = clock_words(clock)
        lines += [*_hung(name, 4, 8, width=width), *_hung(when, 8, 10, width=width)]
    if len(clocks) > _MOST_CLOCKS:
        lines.append(f"    and {len(clocks) - _MOST_CLOCKS} later limits; --json has them")
    return lines


def _shifts(title: str, shifts: Sequence[Shift], nothing: str, *, width: int) -> list[str]:
    lines = ["", f"  {title}, worst first" if len(shifts) > 1 else f"  {title}"]
    if not shifts:
        return [*lines, f"    {nothing}"] if nothing else lines
    alike: dict[str, list[Shift]] = {}
    for shift in shifts:
        alike.setdefault(shift.name, []).append(shift)
    for same in list(alike.values())[:_MOST_SHIFTS]:
        name, both = shift_words(same[0])
        others = len(same) - 1
        more = f", and at {others} other event{'s' * (others > 1)}" if others else ""
        lines += _hung(f"{name}{more}", 4, 8, width=width)
        lines += _hung(both, 8, 10, width=width)
    if len(alike) > _MOST_SHIFTS:
        lines.append(
            f"    and {len(alike) - _MOST_SHIFTS} more with larger factors; --json has them"
        )
    return lines
