"""Which part gives way first as an engine turns faster, and at which speed."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from firstfire.engine.records import Way
from firstfire.engine.resolve import PlainEngine
from firstfire.loads import loads
from firstfire.parts.all import JUDGEMENTS
from firstfire.parts.events import GAS, TURNING, WARM
from firstfire.parts.failure import Judgement
from firstfire.runs.bout import Bout
from firstfire.runs.free_rev import FASTEST
from firstfire.runs.moments import judged_peak, moment, stronger, temperatures

_SECONDS = 3.0
"""How long the parts have been warmed, s, as the event ``free_rev`` has it."""
SLOW, FAST = 500 * math.pi / 30, 1.5 * FASTEST
"""What holds at the first and not at the last has a speed between them, rad/s."""
_STEP, _NARROW = 1.1, 1e-3
_GOES_ON = GAS | TURNING | WARM


@dataclass(frozen=True)
class SpeedLimit:
    """Where one way to fail has nothing to spare.

    Attributes
    ----------
    id, part, failure
        Of the way.
    speed
        At which capacity is demand, rad/s.
    hazard
        Whether it throws, bursts or burns.
    """

    id: str
    part: str
    failure: str
    speed: float
    hazard: bool


@dataclass(frozen=True)
class SpeedLimits:
    """What a rising speed does to an engine's parts, under the gas of a free rev.

    Attributes
    ----------
    passed
        Ways that hold when it turns slowly and not when it turns fast, the lowest speed first.
    already
        Ids of ways that the same gas breaks at any speed: no run-away is needed for them.
    unjudged
        Ids of ways of turning parts that no model judges here.
    """

    passed: tuple[SpeedLimit, ...]
    already: tuple[str, ...]
    unjudged: tuple[str, ...]


def speed_limits(plain: PlainEngine, bout: Bout) -> SpeedLimits:
    """At which speed each way to fail has nothing to spare, with the same gas at any speed.

    Gas by crank angle, its count of cycles and the warmth of the parts stay those of the bout, so
    that what is told is of speed alone. What gives way already when it turns slowly has no speed.

    Parameters
    ----------
    plain
        Plain numbers.
    bout
        A free rev.
    """
    asks = _Asked(plain, bout)
    slow = asks.at(SLOW)
    held = {name for name, way in slow.items() if way.judged and way.factor >= 1.0}
    already = tuple(n for n, way in slow.items() if way.judged and way.factor < 1.0)
    found: list[SpeedLimit] = []
    below = SLOW
    while held and below < FAST:
        above = min(_STEP * below, FAST)
        ways = asks.at(above)
        for name in [n for n in held if not ways[n].judged or ways[n].factor < 1.0]:
            held.remove(name)
            if ways[name].judged:
                found.append(_limit(ways[name], asks.crossing(name, below, above)))
        below = above
    return SpeedLimits(
        passed=tuple(sorted(found, key=lambda limit: limit.speed)),
        already=already,
        unjudged=tuple(name for name, way in slow.items() if not way.judged),
    )


def _limit(way: Way, speed: float) -> SpeedLimit:
    return SpeedLimit(way.id, way.part, way.failure, speed, way.hazard)


class _Asked:
    """The parts of an engine under one gas, asked at any speed."""

    def __init__(self, plain: PlainEngine, bout: Bout) -> None:
        self.plain, self.bout = plain, bout
        self.rows = range(len(bout.gases))
        self.peaks = [judged_peak(bout, row, _SECONDS) for row in self.rows]
        self.gases = [stronger(g, p) for g, p in zip(bout.gases, self.peaks, strict=True)]
        self.warmth = [temperatures(bout, row, _SECONDS) for row in self.rows]

    def at(self, speed: float) -> Mapping[str, Way]:
        """Every way by its id, at a crank speed, rad/s."""
        faster = speed / self.bout.point.speed
        felt = loads(self.plain, [replace(gas, speed=gas.speed * faster) for gas in self.gases])
        found: dict[str, Way] = {}
        for row in self.rows:
            seen = moment(self.bout, self.plain, row, _SECONDS, self.peaks, felt, self.warmth[row])
            here = replace(seen, speed=speed)
            found |= {way.id: way for way in (j(here) for j in _ASKED if j.applies(here))}
        return found

    def crossing(self, name: str, low: float, high: float) -> float:
        """Speed between two at which a way that holds at the first gives way, rad/s."""
        while high > (1.0 + _NARROW) * low:
            middle = math.sqrt(low * high)
            way = self.at(middle)[name]
            held = way.judged and way.factor >= 1.0
            low, high = (middle, high) if held else (low, middle)
        return math.sqrt(low * high)


def _has_a_speed(judgement: Judgement) -> bool:
    """Whether turning can break it; skins that are only told of, and what has no model at all,
    are left out."""
    failure = judgement.failure
    return bool(failure.during & _GOES_ON) and not failure.reported and not judgement.never


_ASKED = tuple(judgement for judgement in JUDGEMENTS if _has_a_speed(judgement))
