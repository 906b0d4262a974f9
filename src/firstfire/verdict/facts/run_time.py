"""When each limit of a run is reached: the clock on every way to fail.

Times are those of the engines drawn: half of them are past the time given, one in twenty past its
high and nineteen in twenty past its low end. What a limit looks like when it comes is told of the
engine at its centre.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from firstfire.engine.records import Way
from firstfire.heat.answers import char_depths
from firstfire.parts.all import REPORTED
from firstfire.parts.failure import Judgement
from firstfire.runs.bout import Bout
from firstfire.runs.ensemble import Ensemble
from firstfire.runs.fate import COARSE, Following, gives_way, ways_of
from firstfire.runs.run import EventResult
from firstfire.runs.spread import Spread
from firstfire.verdict.facts.margin import RunTime
from firstfire.verdict.facts.spans import time_span

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

# A way belongs to the clock where heat takes more than this share of its factor within the run.
_FADES = 0.97


def run_times(*results: EventResult) -> list[RunTime]:
    """Every limit that heat brings during the bouts of results, soonest first."""
    found = []
    for result in results:
        for number, bout in enumerate(result.bouts):
            drawn = result.ensembles[number] if result.ensembles else None
            spread = result.spreads[number] if result.spreads else Spread((), {}, ())
            found += _of_bout(result, bout, spread, drawn)
    return sorted(found, key=lambda r: math.inf if r.seconds is None else r.seconds)


def _of_bout(
    result: EventResult, bout: Bout, spread: Spread, drawn: Ensemble | None
) -> list[RunTime]:
    following = Following(bout, {"": result.engine})
    last = len(following.seconds) - 1
    asked = (*range(0, last, 2 * COARSE), last)
    limits = []
    for name, judge, row in ways_of(bout):
        logs = [following.log_factor(name, judge, row, at) for at in asked]
        if any(math.isnan(one) for one in logs) or not _fades(logs):
            continue
        if drawn is None:
            seconds = np.array([gives_way(following, name, judge, row)])
        else:
            seconds = np.sort(drawn.seconds(name))
        ends = None if drawn is None else time_span(spread, drawn, name, bout.horizon)
        limits.append(_limit(following, judge, row, seconds, ends or ends_of(seconds)))
    return limits


def _fades(logs: Sequence[float]) -> bool:
    return min(logs) < math.log(_FADES) + logs[0]


Ends = tuple[float | None, float | None, float | None]
"""By when 1 in 20, half and 19 in 20 of the engines have given way, s; None: not by the end."""


def ends_of(rising: Floats) -> Ends:
    """Read off the engines themselves."""
    return share_past(rising, 0.05), share_past(rising, 0.5), share_past(rising, 0.95)


def _limit(
    following: Following, judge: Judgement, row: int, seconds: Floats, ends: Ends
) -> RunTime:
    """One way's times, and how it looks at the middle one."""
    bout = following.bout
    low, middle, high = ends
    then = bout.horizon if middle is None else middle
    first = judge(following.moment(row, 0, ""))
    at = judge(following.moment(row, following.at(then), ""))
    depths = char_depths(bout.histories[row], then)
    base = judge.failure.id
    part = {"piston": "crown", "head": "head", "liner": "liner"}.get(base.split(".")[0], "")
    return RunTime(
        event=bout.point.event,
        point=bout.point.name,
        way=at,
        seconds=middle,
        seconds_low=low,
        seconds_high=high,
        depth=depths.get(part),
        strength_left=_left(first, at),
        reported=base in REPORTED,
        chance_not_reached=float(np.mean(np.isinf(seconds))),
    )


def share_past(rising: Floats, share: float) -> float | None:
    """The time by which a share of the engines is past its limit, s; None beyond the horizon.

    Between two engines straight, the k-th of n standing for ``k/(n + 1)`` of all: so the next
    engine lies between two such times as often as they say (E. J. Gumbel, *Statistics
    of Extremes*, 1958, section 1.2.7, from memory).

    Examples
    --------
    >>> share_past(np.array([1.0, 2.0, 3.0, math.inf]), 0.5), share_past(np.array([1.0]), 0.05)
    (2.5, 1.0)
    """
    place = min(max(share * (rising.size + 1) - 1.0, 0.0), rising.size - 1.0)
    low, high = float(rising[math.floor(place)]), float(rising[math.ceil(place)])
    if math.isinf(high):
        return None if math.isinf(low) or place > math.floor(place) + 0.5 else low
    return low + (place - math.floor(place)) * (high - low)


def _left(first: Way, at: Way) -> float | None:
    """Capacity then over capacity at the start, of a strength; None for a temperature."""
    if at.unit == "K" or first.capacity <= 0:
        return None
    return min(at.capacity / first.capacity, 1.0)
