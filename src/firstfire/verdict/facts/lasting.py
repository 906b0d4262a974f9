"""One curve an event: the chance that nothing judged has given way by each second of it.

Joint over the engines drawn: each gives way when the first of its parts does, at whichever speed
that comes soonest. What takes them away is counted engine by engine.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firstfire.engine.events import CLOCKED
from firstfire.parts.all import REPORTED, failures
from firstfire.runs.fate import clock
from firstfire.runs.run import EventResult
from firstfire.verdict.facts.run_time import share_past

_DECLARED = {failure.id: failure for failure in failures()}


@dataclass(frozen=True)
class Ender:
    """One thing that takes engines away.

    Attributes
    ----------
    id, part, failure
        Of the way to fail.
    share
        Of all engines drawn.
    seconds
        When it does so in the middle one of those, s.
    """

    id: str
    part: str
    failure: str
    share: float
    seconds: float


@dataclass(frozen=True)
class Lasting:
    """How long an event lasts.

    Attributes
    ----------
    event
        Its id.
    horizon
        How long it was followed, s.
    engines
        How many were drawn.
    seconds, chance
        The curve: chance that nothing judged has given way by then.
    nineteen, even, one
        By when 1 in 20 have given way, half of them, 19 in 20, s; None: not within the horizon.
    takes
        What takes them away, most first.
    """

    event: str
    horizon: float
    engines: int
    seconds: tuple[float, ...]
    chance: tuple[float, ...]
    nineteen: float | None
    even: float | None
    one: float | None
    takes: tuple[Ender, ...]


def lasting_of(results: Sequence[EventResult]) -> tuple[Lasting, ...]:
    """The curve of each event that was followed by the clock."""
    return tuple(_of(one) for one in results if one.event in CLOCKED and one.ensembles)


def _of(result: EventResult) -> Lasting:
    firsts = [_first(result, engine) for engine in range(len(result.ensembles[0].fates))]
    times = np.sort([seconds for seconds, _ in firsts])
    horizon = max(bout.horizon for bout in result.bouts)
    asked = (0.0, *clock(horizon))
    return Lasting(
        event=result.event,
        horizon=horizon,
        engines=times.size,
        seconds=asked,
        chance=tuple(float(np.mean(times > at)) for at in asked),
        nineteen=share_past(times, 0.05),
        even=share_past(times, 0.5),
        one=share_past(times, 0.95),
        takes=_takes(firsts),
    )


def _first(result: EventResult, engine: int) -> tuple[float, str]:
    """When one engine's first part gives way, and which; of several at once the weakest."""
    found = (math.inf, math.inf, "")
    for ensemble in result.ensembles:
        fate = ensemble.fates[engine]
        for way, seconds in fate.seconds.items():
            here = (seconds, fate.factors.get(way, math.inf), way)
            if here < found and seconds < math.inf and way.partition("#")[0] not in REPORTED:
                found = here
    return found[0], found[2]


def _takes(firsts: Sequence[tuple[float, str]]) -> tuple[Ender, ...]:
    counted = Counter(way for _, way in firsts if way)
    found = []
    for way, count in counted.most_common():
        declared = _DECLARED[way.partition("#")[0]]
        middle = float(np.median([seconds for seconds, one in firsts if one == way]))
        share = count / len(firsts)
        found.append(Ender(way, declared.part, declared.failure, share, middle))
    return tuple(found)
