"""What decides: what is likeliest to end the engine, and what ends a run that is held."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.engine.events import EVENTS
from firstfire.runs.run import EventResult
from firstfire.verdict.facts.margin import Margin, RunTime, Verdict, Word
from firstfire.verdict.facts.odds import joint_odds
from firstfire.verdict.facts.ranking import counts, life

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
        Ranked.
    limits
        Soonest first.

    Notes
    -----
    What is likeliest to end the engine leads. A free rev counts only where nothing keeps the engine
    from it: it drives nothing and has no limiter. It is left out of the odds, which are those up to
    the first second of full throttle.
    """
    events = life(results)
    counted = [m for m in margins if counts(m) and m.event in events]
    ends, idles = (first_limit(limits, event) for event in ("full_throttle", "idle"))
    odds = joint_odds(results, in_the_odds(margins))
    first = min(counted, key=lambda m: m.rank, default=None)
    words = [word for word in _WORST if any(m.word == word for m in counted)]
    return Verdict(words[0] if words else "not judged", first, ends, odds, idles)


def in_the_odds(margins: Sequence[Margin]) -> list[Margin]:
    """Margins that count in the odds up to the first second of full throttle."""
    return [m for m in margins if counts(m) and EVENTS[m.event].in_the_odds]


def first_limit(limits: Sequence[RunTime], event: str) -> RunTime | None:
    """The limit that ends an event first; None where nothing does within its horizon."""
    ending = [r for r in limits if r.event == event and not r.reported and r.seconds is not None]
    return min(ending, key=lambda r: r.seconds or 0.0, default=None)
