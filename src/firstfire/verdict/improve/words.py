"""What an engine that was made to hold says of itself, in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firstfire.engine.events import first_second
from firstfire.verdict.facts.margin import Raised, named
from firstfire.verdict.improve.improve import Improved, Step
from firstfire.verdict.numbers import figures
from firstfire.verdict.result import Result
from firstfire.verdict.words.sentences import (
    described,
    factor_words,
    listed,
    odds_until,
    odds_words,
)

_GONE = 1e5
_SMALL = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


@dataclass(frozen=True)
class Cost:
    """What all changes together take: hours of printing and by hand, and what is to be bought."""

    print_hours: float
    hand_hours: float
    parts: tuple[str, ...]


def cost(steps: Sequence[Step]) -> Cost:
    """The work of all steps; what prints or opens the same part twice is counted once."""
    once: dict[tuple[str, float, float, str], Raised] = {}
    for step in steps:
        change = step.change
        part = min(change.set, default="").split(".")[0]
        once[part, change.print_hours, change.hand_hours, change.parts] = change
    each = list(once.values())
    return Cost(
        sum(change.print_hours for change in each),
        sum(change.hand_hours for change in each),
        tuple(dict.fromkeys(change.parts for change in each if buys(change))),
    )


def buys(change: Raised) -> bool:
    """Whether a change takes anything that is to be bought."""
    return change.parts not in ("", "nothing to buy")


def sentence(found: Improved) -> str:
    """What came of it, and that it is an estimate."""
    engine = f"{found.before.engine.name}, {described(found.before)}"
    until = odds_until(found.before)
    was = odds_words(found.before.verdict.odds)
    start = f"{engine}: {was[0].lower()}{was[1:]} that it survives {until}"
    count = len(found.steps)
    if found.stopped:
        return f"{start}. Stopped after {changes_words(count)}, before they were checked in full."
    if not count:
        enough = found.before.verdict.odds >= found.target
        why = "It needs no change" if enough else "No change known to firstfire gains anything"
        return f"{start}. {why}; an estimate."
    after = found.after if found.after is not None else found.before
    then = odds_words(after.verdict.odds)
    short = "" if after.verdict.odds >= found.target else "; what is left has no known change"
    return f"{start}. With {changes_words(count)}, {then[0].lower()}{then[1:]}{short}; an estimate."


def changes_words(count: int) -> str:
    """So many changes.

    Examples
    --------
    >>> changes_words(1), changes_words(4), changes_words(12)
    ('one change', 'four changes', '12 changes')
    """
    number = _SMALL[count] if count < len(_SMALL) else str(count)
    return f"{number} change{'' if count == 1 else 's'}"


def against_words(result: Result, step: Step) -> str:
    """What was likeliest to end the engine before a step."""
    margin = step.against
    name = named(result.plain, margin.way)
    return f"{name} {first_second(margin.event)} ({factor_words(margin)})"


def step_words(step: Step) -> str:
    """What a step does to the factor and the odds."""
    factor = step.change.factor_after
    then = "that can no longer happen" if factor > _GONE else f"its factor is then {two(factor)}"
    before, after = (odds_words(odds, inside=True) for odds in (step.odds_before, step.odds_after))
    odds = f"{odds_words(step.odds_before)} become {after}"
    if before == after:
        odds = f"the odds stay at {after}"
    return f"{then[0].upper()}{then[1:]}; {odds[0].lower()}{odds[1:]}"


def two(value: float) -> str:
    """A factor in two figures."""
    return figures(value, 2)


def cost_words(spent: Cost) -> str:
    """Hours, and what is to be bought."""
    hours = f"{two(spent.print_hours)} h of printing, {two(spent.hand_hours)} h by hand"
    bought = f"; to buy: {listed(list(spent.parts))}" if spent.parts else "; nothing to buy"
    return f"{hours}{bought}. Prices are not known."


def reasons(found: Improved) -> dict[str, str]:
    """By path, why it is changed: written behind it in the better file."""
    told: dict[str, str] = {}
    for step in found.steps:
        name = named(found.before.plain, step.against.way)
        for path in step.change.set:
            told[path] = f"improve: {name} ({two(step.against.least)})"
    return told
