"""What a change of the file did: a check against the one before, in at most three lines."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.verdict.compare.compare import Column
from firstfire.verdict.compare.pairs import pair
from firstfire.verdict.compare.records import Pair
from firstfire.verdict.compare.words import figure_change
from firstfire.verdict.facts.margin import Margin, named
from firstfire.verdict.result import Result
from firstfire.verdict.words.ledger import two
from firstfire.verdict.words.text.lines import WIDTH, wrapped

MOST = 3
"""Lines."""
_FIGURES = {"odds": "odds", "run_time": "full throttle held", "power": "most power"}


def since(before: Result, after: Result, width: int = WIDTH) -> list[str]:
    """What became otherwise: odds, run time and power; the headline; what crossed a word.

    Parameters
    ----------
    before, after
        The check before, and the one now.
    width
        Columns.
    """
    shifts = pair(
        Column("A", "before", before.engine, before), Column("B", "now", after.engine, after)
    )
    told = [
        _fitting("Since the last: ", _figures(shifts), width),
        _headline(before, after),
        _fitting("Now otherwise: ", _crossed(shifts), width),
    ]
    lines: list[str] = []
    for sentence in filter(None, told):
        more = wrapped(sentence, width=width)
        lines += more if len(lines) + len(more) <= MOST else []
    return lines or ["Nothing that is judged changed."]


def _figures(shifts: Pair) -> list[str]:
    return [
        f"{_FIGURES[figure.id]} {figure_change(figure)}"
        for figure in sorted(shifts.figures, key=lambda figure: _place(figure.id))
        if figure.id in _FIGURES and figure.sense != "alike"
    ]


def _place(figure: str) -> int:
    known = list(_FIGURES)
    return known.index(figure) if figure in known else len(known)


def _headline(before: Result, after: Result) -> str:
    """What leads now, where another does or its factor moved."""
    old, new = before.verdict.first, after.verdict.first
    if new is None:
        return "" if old is None else "Nothing leads any more."
    name = f"{named(after.plain, new.way)}"
    if old is None or _key(old) != _key(new):
        return f"Likeliest to end it is now: {name} ({two(new.factor)})."
    if two(old.factor) == two(new.factor):
        return ""
    return f"Still likeliest to end it: {name} ({two(old.factor)} → {two(new.factor)})."


def _key(margin: Margin) -> tuple[str, str]:
    return margin.way.id, margin.event


def _crossed(shifts: Pair) -> list[str]:
    """What has another word than before; of one way the first of its events."""
    found: dict[str, str] = {}
    for shift in (*shifts.worse, *shifts.better):
        if shift.before is None or shift.after is None or shift.before.word == shift.after.word:
            continue
        found.setdefault(shift.name, f"{shift.name}, {shift.before.word} → {shift.after.word}")
    for shift in shifts.new:
        if shift.after is not None and shift.after.word != "holds":
            found.setdefault(shift.name, f"{shift.name}, new: {shift.after.word}")
    return list(found.values())


def _fitting(head: str, items: Sequence[str], width: int) -> str:
    """As many items as one line holds, and how many more there are."""
    for told in range(len(items), 0, -1):
        rest = len(items) - told
        line = f"{head}{'; '.join(items[:told])}{f'; {rest} more' if rest else ''}."
        if len(line) <= width or told == 1:
            return line
    return ""
