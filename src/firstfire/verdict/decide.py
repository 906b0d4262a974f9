"""What decides: the first event in an engine's life where something gives way."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.engine.resolve import PlainEngine
from firstfire.runs.run import EventResult
from firstfire.verdict.margin import Margin, RunTime, Verdict, Word
from firstfire.verdict.odds import joint_odds

_LIFE = ("cranking", "first_fire", "idle", "full_throttle", "free_rev")
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
    with something marginal; else the lowest factor of all. A free rev comes last in a life, and
    leads only where nothing keeps the engine from it: it drives nothing and has no limiter. It is
    left out of the odds, which are those up to the first second of full throttle. Limits of
    temperature belong to the clock, since they come with seconds and not with a cycle; a charred
    skin and lost breath are only reported.
    """
    counted = _counted(margins)
    ends, idles = (first_limit(limits, event) for event in ("full_throttle", "idle"))
    odds = joint_odds(results, in_the_odds(margins))
    for word in _WORST:
        for event in _life(results):
            here = [m for m in counted if m.word == word and m.event == event]
            if here:
                first = min(here, key=lambda m: m.rank)
                return Verdict(word, first, ends, odds, idles)
    return Verdict("not judged", None, ends, odds, idles)


def _counted(margins: Sequence[Margin]) -> list[Margin]:
    return [m for m in margins if m.factor is not None and not m.reported and m.way.unit != "K"]


def in_the_odds(margins: Sequence[Margin]) -> list[Margin]:
    """Margins that count in the odds up to the first second of full throttle."""
    return [m for m in _counted(margins) if m.event != "free_rev"]


def _life(results: Sequence[EventResult]) -> tuple[str, ...]:
    """The events that may decide: a free rev only of an engine that can run away."""
    kept = bool(results) and is_kept(results[0].engine)
    return tuple(event for event in _LIFE if not (kept and event == "free_rev"))


def is_kept(plain: PlainEngine) -> bool:
    """Whether a load or a limiter keeps an engine from its free speed."""
    limited = plain.spark.limit_speed is not None and plain.spark.limited_by != "nothing"
    return limited or plain.load.kind != "none"


def first_limit(limits: Sequence[RunTime], event: str) -> RunTime | None:
    """The limit that ends an event first; None where nothing does within its horizon."""
    ending = [r for r in limits if r.event == event and not r.reported and r.seconds is not None]
    return min(ending, key=lambda r: r.seconds or 0.0, default=None)
