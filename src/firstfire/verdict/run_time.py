"""When each limit of a run is reached: the clock on every way to fail."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from firstfire.engine.records import Way
from firstfire.heat.answers import char_depths
from firstfire.parts.all import REPORTED, ways
from firstfire.runs.bout import Bout
from firstfire.runs.moments import judged_peak, loads_at, moment
from firstfire.runs.run import EventResult
from firstfire.runs.spread import Spread
from firstfire.verdict.margin import RunTime

_TIMES = (0.25, 0.5, 1.0, 2.0, 4.0, 8.0, 15.0, 30.0, 60.0, 120.0, 300.0, 600.0,
          1200.0, 2400.0, 3600.0)  # fmt: skip
_NINETY = 1.6449
# A way belongs to the clock where heat takes more than this share of its factor within the run.
_FADES = 0.97
# Never surer of a time than this: heat of small plastic walls is known to half and twice.
_LEAST_DEVIATION = math.log(2.0) / _NINETY


def run_times(*results: EventResult) -> list[RunTime]:
    """Every limit that heat brings during the bouts of results, soonest first."""
    found = []
    for result in results:
        for number, bout in enumerate(result.bouts):
            spread = result.spreads[number] if result.spreads else Spread((), {}, ())
            found += _of_bout(result, bout, spread)
    return sorted(found, key=lambda r: math.inf if r.seconds is None else r.seconds)


def _of_bout(result: EventResult, bout: Bout, spread: Spread) -> list[RunTime]:
    times = [t for t in _TIMES if t <= bout.horizon]
    rows: dict[str, list[Way]] = {}
    for seconds in times:
        peaks = [judged_peak(bout, row, seconds) for row in range(len(bout.gases))]
        felt = loads_at(bout, result.engine, peaks)
        for row in range(len(bout.gases)):
            for way in ways(moment(bout, result.engine, row, seconds, peaks, felt)):
                if way.judged:
                    rows.setdefault(way.id, []).append(way)
    kept = {way: found for way, found in rows.items() if len(found) == len(times)}
    return [_limit(bout, found, times, spread) for found in kept.values() if _fades(found)]


def _fades(found: Sequence[Way]) -> bool:
    factors = [way.factor for way in found]
    return min(factors) < _FADES * min(factors[0], 1e9)


def _limit(bout: Bout, found: Sequence[Way], times: Sequence[float], spread: Spread) -> RunTime:
    """The moment one way's factor passes 1, and the moments its span does."""
    base, _, number = found[0].id.partition("#")
    cylinder = int(number or 1) - 1
    logs = [math.log(min(max(way.factor, 1e-9), 1e9)) for way in found]
    size = max(spread.deviation(found[0].id), _slope_floor(logs, times))
    seconds = _crossing(logs, times, 0.0)
    at = found[-1] if seconds is None else found[int(np.searchsorted(times, seconds)) % len(found)]
    depths = char_depths(bout.histories[cylinder], bout.horizon if seconds is None else seconds)
    part = {"piston": "crown", "head": "head", "liner": "liner"}.get(base.split(".")[0], "")
    return RunTime(
        event=bout.point.event,
        point=bout.point.name,
        way=at,
        seconds=seconds,
        seconds_low=_crossing(logs, times, _NINETY * size),
        seconds_high=_crossing(logs, times, -_NINETY * size),
        depth=depths.get(part),
        strength_left=_left(found, at),
        reported=base in REPORTED,
    )


def _slope_floor(logs: Sequence[float], times: Sequence[float]) -> float:
    """Deviation of the factor that answers to half and twice the time, where it falls steepest."""
    falls = [
        (a - b) / math.log(t / s)
        for a, b, s, t in zip(logs, logs[1:], times, times[1:], strict=False)
        if -3.0 < b <= a
    ]
    return _LEAST_DEVIATION * max(falls, default=0.0)


def _crossing(logs: Sequence[float], times: Sequence[float], level: float) -> float | None:
    """First time at which a falling logarithm passes `level`, s; None if it never does."""
    if logs[0] < level:
        return 0.0
    for at in range(1, len(logs)):
        if logs[at] < level:
            share = (logs[at - 1] - level) / (logs[at - 1] - logs[at])
            before, after = math.log(times[at - 1]), math.log(times[at])
            return math.exp(before + share * (after - before))
    return None


def _left(found: Sequence[Way], at: Way) -> float | None:
    """Capacity then over capacity at the start, of a strength; None for a temperature."""
    if at.unit == "K" or found[0].capacity <= 0:
        return None
    return min(at.capacity / found[0].capacity, 1.0)
