"""Left alone with its throttle open: how fast it runs, how soon, and what it passes on the way."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from firstfire.engine.events import EVENTS
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.runs.bout import held
from firstfire.runs.free_rev import FASTEST, highest
from firstfire.runs.point import spark_angle
from firstfire.runs.spun import Spun
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.going import let_loose
from firstfire.runs.start.life import Life
from firstfire.runs.start.speed_limits import SpeedLimits, speed_limits

Held = Literal["limiter", "friction", "beyond"]
"""What ends it: its limiter; friction, load and breathing; or nothing as far as it is followed."""
Stop = Callable[[], bool]

_TURN = 2 * math.pi
_ABOVE = 1.1
"""Times the least speed that it goes on from, where it is let go."""
_HEARD, _GAINS = 0.4, 0.005
"""It has settled once it gains no more than such a share in so many seconds."""
_LONGEST = 15.0
_MOST_OF_IT = 0.95
_NEAR_LIMIT = 0.97


@dataclass(frozen=True)
class OverRun:
    """What becomes of an engine left alone with its throttle open.

    Attributes
    ----------
    begins
        Speed at which it is let go, rad/s.
    reached
        Mean speed that it comes to, rad/s.
    seconds
        From being let go until it has 95 % of the way to that behind it, s.
    held
        What ends it there.
    curve
        Moments since it was let go, s, and the mean speed of the two turns before each, rad/s.
    limits
        What it passes on the way; None where its gas couldn't be computed.
    """

    begins: float
    reached: float
    seconds: float
    held: Held
    curve: tuple[tuple[float, float], ...]
    limits: SpeedLimits | None

    def seconds_to(self, speed: float) -> float | None:
        """When it first turns so fast, s after it was let go; None: it never does."""
        return next((seconds for seconds, mean in self.curve if mean >= speed), None)


def over_run(
    plain: PlainEngine, asked: Asked, least: float, stop: Stop | None = None
) -> OverRun | None:
    """Let an engine run away, every cycle the mean one; None where it stops instead.

    Parameters
    ----------
    plain
        Plain numbers.
    asked
        How it is started; throttle and spark are those of a warm run, throttle open.
    least
        Lowest speed from which it goes on by itself, rad/s; infinite: from none.
    stop
        Asked at least every 0.1 s.
    """
    if not math.isfinite(least):
        return None
    # What may burst is asked of the quicker of two laws, as a free rev is: at speed the flame comes
    # later than is measured of engines.
    open_throttle = replace(
        asked, throttle=1.0, advance=None, seed=None, strong=0.0, flame="by_law"
    )  # fmt: skip
    begins = max(_ABOVE * least, plain.use.idle_speed)
    life = let_loose(plain, open_throttle, begins, stop)
    began = life.now
    if not _let_run(life, stop):
        return None
    lived = life.told()
    reached = lived.mean_speed(life.now - _HEARD)
    ran = OverRun(
        begins, reached, 0.0, _held(plain, reached), _curve(lived.spun.since(began)),
        _limits(plain, reached, stop),
    )  # fmt: skip
    most = ran.seconds_to(begins + _MOST_OF_IT * (reached - begins)) if reached > begins else 0.0
    return replace(ran, seconds=most or 0.0)


def _curve(spun: Spun) -> tuple[tuple[float, float], ...]:
    """Moments a turn apart, and the mean speed over the cycle before each."""
    turns = np.arange(spun.angle[0], spun.angle[-1], _TURN)
    at = np.interp(turns, spun.angle, spun.time)
    means = 2 * _TURN / (at[2:] - at[:-2])
    return tuple(zip((at[2:] - at[0]).tolist(), means.tolist(), strict=True))


def _let_run(life: Life, stop: Stop | None) -> bool:
    """Whether it still turns once it gains no more, or is faster than is followed."""
    began, before, asked_at = life.now, 0.0, life.now + _HEARD
    while life.now < began + _LONGEST and life.last_turn < FASTEST:
        life.step()
        life.checked(stop)
        if life.speed <= 0.0:
            return False
        if life.now >= asked_at:
            mean = life.told().mean_speed(life.now - _HEARD)
            if mean < (1.0 + _GAINS) * before:
                break
            before, asked_at = mean, life.now + _HEARD
    return True


def _held(plain: PlainEngine, reached: float) -> Held:
    top = highest(plain)
    if reached < _NEAR_LIMIT * top:
        return "friction"
    return "limiter" if top < FASTEST else "beyond"


def _limits(plain: PlainEngine, reached: float, stop: Stop | None) -> SpeedLimits | None:
    try:
        speed = min(reached, highest(plain))
        spark = spark_angle(plain, speed, starting=False)
        name = f"free rev {speed * 30 / math.pi:.0f} rpm"
        bout = held(plain, "free_rev", name, speed, spark, EVENTS["free_rev"].horizon, stop=stop)
    except OutsideValidity:
        return None
    return speed_limits(plain, bout)
