"""What a set of changes does over an engine's whole life: every event run anew at its centre.

How far each factor may be off is taken over from the engine as it was, so that a set of changes is
tried in the time of its gas and walls alone; what is chosen is checked in full afterwards.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from statistics import NormalDist

from firstfire.engine.engine import Engine
from firstfire.engine.events import EVENTS
from firstfire.engine.read import with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import FirstfireError, Stopped
from firstfire.runs.bout import Bout
from firstfire.runs.run import EventResult
from firstfire.runs.together import Stop
from firstfire.verdict.facts.anew import again, felt_by_gas
from firstfire.verdict.facts.judge import doubt_of, judge_bout
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.facts.odds import joint_odds
from firstfire.verdict.facts.ranking import counts, life, ranked

UNKNOWN = 0.25
"""Deviation of a factor's logarithm that the engine as it was knows nothing of."""

_FLOOR = 1e-3
_BELL = NormalDist()


@dataclass(frozen=True)
class Tried:
    """An engine with changes, over its life.

    Attributes
    ----------
    margins
        Ranked.
    odds
        That nothing judged gives way up to the last event's first second.
    score
        Rises with every factor that comes nearer to holding, also where the odds don't yet.
    """

    margins: tuple[Margin, ...]
    odds: float
    score: float


def judged_over_life(results: Sequence[EventResult], margins: Sequence[Margin]) -> Tried:
    """The odds and the score of margins over the events that can end an engine."""
    can = life(results)
    counted = [m for m in margins if counts(m) and m.event in can]
    odds = joint_odds(results, [m for m in counted if EVENTS[m.event].in_the_odds])
    return Tried(tuple(margins), odds, math.fsum(_score(m) for m in counted))


def _score(margin: Margin) -> float:
    """Logarithm of the chance that it holds, and what is lacking where it fails; 0 at best."""
    lacking = min(math.log(max(margin.least, 1e-6)), 0.0)
    return math.log(max(margin.survival or 0.0, _FLOOR)) + lacking


def over_life(
    engine: Engine,
    results: Sequence[EventResult],
    changes: Mapping[str, str],
    stop: Stop | None = None,
) -> Tried | None:
    """The engine with changes through every event that can end it; None where it can't be.

    Parameters
    ----------
    engine
        As written down.
    results
        Its events, with what is known of how far each factor may be off.
    changes
        Written values by path.
    stop
        Asked at least every 0.1 s.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    """
    try:
        plain = resolve(with_values(engine, dict(changes), origin="a change that was tried"))
        can = life(results)
        found = [
            margin
            for result in results
            if result.event in can
            for margin in _of_event(result, plain, changes, stop)
        ]
    except Stopped:
        raise
    except FirstfireError:
        return None
    return judged_over_life(results, ranked(results, found))


def _of_event(
    result: EventResult, plain: PlainEngine, changes: Mapping[str, str], stop: Stop | None
) -> list[Margin]:
    """Margins of one event with the changes made."""
    anew = felt_by_gas(changes)
    bouts = tuple(_named_as(again(plain, one, stop), one) if anew else one for one in result.bouts)
    changed = replace(result, engine=plain, bouts=bouts)
    seconds = EVENTS[result.event].judged_at
    found = []
    for number, bout in enumerate(bouts):
        doubt = doubt_of(result, number)
        known = doubt.spread.slopes
        for margin in judge_bout(changed, bout, doubt, seconds):
            new = margin.factor is not None and margin.way.id not in known
            found.append(_unsure(margin) if new else margin)
    return found


def _named_as(bout: Bout, before: Bout) -> Bout:
    """A bout that goes by the name of another: its speed may have become another one."""
    return replace(bout, point=replace(bout.point, name=before.point.name))


def _unsure(margin: Margin) -> Margin:
    """A way to fail that the engine as it was didn't have."""
    log = math.log(min(max(margin.least, 1e-6), 1e6))
    return replace(margin, survival=_BELL.cdf(log / UNKNOWN))
