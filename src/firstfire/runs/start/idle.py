"""Idle by the engine's own life: how far open its throttle is, how steady, whether it stays."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from firstfire.engine.resolve import PlainEngine
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.going import at_speed, let_loose

_LEAST, _MOST = 0.005, 1.0
_NARROW = 1.05
_LEFT_OUT, _FOLLOWED = 1.0, 4.0


@dataclass(frozen=True)
class Idling:
    """How an engine idles.

    Attributes
    ----------
    opening
        Of the throttle, 0 to 1, at which it just keeps its idle speed; None: none does.
    speed
        Mean speed it then runs at by itself, each cycle a little different, rad/s; 0: it stops.
    unsteady
        Deviation of the speed of single turns from that, as a share of it.
    """

    opening: float | None
    speed: float
    unsteady: float


def idling(plain: PlainEngine, asked: Asked, stop: Callable[[], bool] | None = None) -> Idling:
    """Find the throttle of an idle, and let the engine run by itself with it.

    Parameters
    ----------
    plain
        Plain numbers.
    asked
        Mixture, flame and the seed of its cycles.
    stop
        Asked at least every 0.1 s.
    """
    speed = plain.use.idle_speed

    def spare(opening: float) -> float:
        return at_speed(plain, replace(asked, throttle=opening, seed=None), speed, stop).net

    low, high = _LEAST, _MOST
    if spare(high) <= 0.0:
        return Idling(None, 0.0, math.nan)
    while high > _NARROW * low:
        middle = math.sqrt(low * high)
        low, high = (low, middle) if spare(middle) > 0.0 else (middle, high)
    seeded = replace(asked, throttle=high, seed=asked.seed or 0)
    life = let_loose(plain, seeded, speed, stop)
    ends = life.now + _LEFT_OUT + _FOLLOWED
    begins = life.now + _LEFT_OUT
    while life.now < ends and life.speed > 0.0:
        life.step()
        life.checked(stop)
    if life.speed <= 0.0:
        return Idling(high, 0.0, math.nan)
    spun = life.told().spun.since(begins)
    turns = np.arange(spun.angle[0], spun.angle[-1], 2 * math.pi)
    lasted = np.diff(np.interp(turns, spun.angle, spun.time))
    each = 2 * math.pi / lasted
    return Idling(high, spun.mean_speed, float(each.std() / each.mean()))
