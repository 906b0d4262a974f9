"""Which spark is best for starting, and how it may grow with speed."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from firstfire.engine.resolve import PlainEngine
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.going import SPEEDS, at_speed
from firstfire.runs.start.kick_back import KickBack

Stop = Callable[[], bool]

_ADVANCES = tuple(math.radians(degrees) for degrees in range(0, 45, 5))
_MARGIN = math.radians(5.0)
_GIVEN_UP = 0.03
"""Of the most torque: the latest spark that gives up no more is told."""
_GROWS_AT = tuple(rpm * math.pi / 30 for rpm in (500, 1000, 2000, 4000))


@dataclass(frozen=True)
class Advance:
    """Which spark is best for starting, and how it may grow with speed.

    Attributes
    ----------
    start
        Before top centre at cranking speed, rad: the latest that gives all but 3 % of most torque,
        is 5° later than the earliest safe one, or more, and no earlier than it runs with.
    grows
        Pairs of speed, rad/s, and such an advance there, rad, none above the safe one below the
        idle speed.
    """

    start: float
    grows: tuple[tuple[float, float], ...]


def best_advance(
    plain: PlainEngine, asked: Asked, kick: KickBack, cranking: float, stop: Stop | None = None
) -> Advance:
    """Which spark is best for starting, and how it may grow with speed.

    Parameters
    ----------
    plain
        Plain numbers.
    asked
        How it is started.
    kick
        Which sparks throw it back.
    cranking
        Mean speed as its starter turns it, rad/s.
    stop
        Asked at least every 0.1 s.
    """
    safe = kick.strong - _MARGIN

    def best(speed: float, most: float) -> float:
        tried = [angle for angle in _ADVANCES if angle <= most] or [0.0]
        gives = [at_speed(plain, replace(asked, advance=angle), speed, stop).gas for angle in tried]
        enough = max(gives) - _GIVEN_UP * abs(max(gives))
        good = [angle for angle, gas in zip(tried, gives, strict=True) if gas >= enough]
        return good[0]

    start = best(max(cranking, SPEEDS[0]), min(safe, plain.spark.running_angle))
    grows = tuple(
        (speed, best(speed, safe if speed < plain.use.idle_speed else math.inf))
        for speed in _GROWS_AT
        if speed < (plain.spark.limit_speed or math.inf)
    )
    return Advance(start, grows)
