"""Odds from step to step of a way of changes, in an order in which none lowers them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from firstfire.engine.engine import Engine
from firstfire.runs.hands import Stop, shared_out
from firstfire.verdict.facts.over_life import over_life
from firstfire.verdict.result import Result

_NOTHING = 0.01
"""Odds that a step may seem to lower."""

Changes = Mapping[str, str]


def on_the_way(
    engine: Engine,
    before: Result,
    after: Result,
    steps: Sequence[Changes],
    stop: Stop | None = None,
) -> list[tuple[int, float]]:
    """The steps' numbers in their order, each with the odds once it is made.

    A step that would lower the odds by itself goes behind the next.

    Parameters
    ----------
    engine
        As written down.
    before, after
        Its full checks, without and with all steps.
    steps
        Written values by path, of each step.
    stop
        Asked now and then.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    """
    order = list(range(len(steps)))

    def made(count: int) -> dict[str, str]:
        return {path: value for at in order[:count] for path, value in steps[at].items()}

    def tried(count: int) -> float | None:
        found = over_life(engine, before.events, made(count), None)
        return None if found is None else found.odds

    between = shared_out(lambda number: tried(number + 1), len(steps) - 1, stop=stop)
    odds = [before.verdict.odds]
    for one in between:
        odds.append(odds[-1] if one is None else one)
    odds.append(after.verdict.odds)
    for _ in steps:
        low = [n for n in range(len(steps) - 1) if odds[n + 1] < odds[n] - _NOTHING]
        falls = next((n for n in low if _apart(steps[order[n]], steps[order[n + 1]])), None)
        if falls is None:
            break
        order[falls : falls + 2] = order[falls + 1], order[falls]
        odds[falls + 1] = tried(falls + 1) or odds[falls]
    return list(zip(order, odds[1:], strict=True))


def _apart(one: Changes, other: Changes) -> bool:
    """Whether two steps change nothing that the other does, so that they may change places."""
    return not set(one) & set(other)
