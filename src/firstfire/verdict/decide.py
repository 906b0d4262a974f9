"""What decides: the first event in an engine's life where something gives way."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.runs.run import EventResult
from firstfire.verdict.judge import joint_odds
from firstfire.verdict.margin import Margin, RunTime, Verdict, Word

_LIFE = ("cranking", "first_fire", "full_throttle")
_WORST: tuple[Word, ...] = ("fails", "marginal", "holds")


def verdict(
    results: Sequence[EventResult], margins: Sequence[Margin], limits: Sequence[RunTime]
) -> Verdict:
    """What decides among margins and run-time limits.

    Parameters
    ----------
    results
        Of every event run.
    margins
        Worst first.
    limits
        Soonest first.

    Notes
    -----
    The first event with something that fails decides, and there the lowest factor; else the first
    with something marginal; else the lowest factor of all. Limits of temperature belong to the
    clock, since they come with seconds and not with a cycle; a charred skin is only reported.
    """
    counted = [m for m in margins if m.factor is not None and not m.reported and m.way.unit != "K"]
    ending = [r for r in limits if not r.reported and r.seconds is not None]
    ends = min(ending, key=lambda r: r.seconds or 0.0, default=None)
    odds = joint_odds(results, counted)
    for word in _WORST:
        for event in _LIFE:
            here = [m for m in counted if m.word == word and m.event == event]
            if here:
                first = min(here, key=lambda m: m.rank)
                return Verdict(word, first, ends, odds)
    return Verdict("not judged", None, ends, odds)
