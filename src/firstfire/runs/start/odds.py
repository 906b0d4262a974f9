"""How likely a start is: engines drawn from what is uncertain, each tried until it runs."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import Stopped
from firstfire.runs.cranking import driven, gauge_reading
from firstfire.runs.drawn import SEED, drawn, engine_at
from firstfire.runs.hands import shared_out
from firstfire.runs.moved import Trials
from firstfire.runs.start.asked import Asked, Lived
from firstfire.runs.start.life import Life
from firstfire.runs.start.turned_by import turned_by

Why = Literal["torque", "kick", "mixture", "flooded", "spark", "dies", "flywheel"]
"""Its starter doesn't turn it over; it kicks; too lean or rich to light; liquid fuel wets its plug
or stops its piston; its spark lights nothing; it burns and yet slows; it was running and doesn't
come over the next top once let go."""

TRIES = 5
FEWEST = 8
"""Engines of which odds are told."""
_OVER = 8 * math.pi
"""What has turned two cycles has come over its tops, rad."""
_RUNNING = 0.5
"""After it was let go an engine runs if it still turns so fast, as a share of that speed."""
_TELLS = 0.4
"""A reading tells nothing where it leaves a larger share of the rarer kind on the wrong side."""
_GAUGED = 2.0
"""For how long a gauge is pumped up, s."""


@dataclass(frozen=True)
class Tried:
    """What became of one engine.

    Attributes
    ----------
    started_at
        At which try it ran, from 1; None: at none.
    gauge
        What a compression gauge shows on its cylinder 1, above the air, Pa.
    lit, sparked
        Sparks of its first try that lit, and all of them.
    over
        Whether its starter brings it over the top.
    kicked
        Whether a try threw the shaft back.
    why
        What kept its last try from running; None: it runs.
    """

    started_at: int | None
    gauge: float
    lit: int
    sparked: int
    over: bool
    kicked: bool
    why: Why | None


@dataclass(frozen=True)
class Odds:
    """How many of the engines drawn start.

    Attributes
    ----------
    tries, seconds
        How often each was tried, and for how long the starter was held on, s.
    each
        What became of them.
    stopped
        Whether fewer were tried than were to be.
    """

    tries: int
    seconds: float
    each: tuple[Tried, ...]
    stopped: bool = False

    @property
    def share(self) -> float:
        """Of the engines that start within all tries."""
        return sum(one.started_at is not None for one in self.each) / len(self.each)

    @property
    def span(self) -> tuple[float, float]:
        """That share, 5 to 95 %, by Wilson's interval for so few engines.

        E. B. Wilson, *Journal of the American Statistical Association* 22, 1927, 209-212.
        """
        return wilson(sum(one.started_at is not None for one in self.each), len(self.each))

    @property
    def needs_gauge(self) -> float | None:
        """Gauge reading that best tells those that start from those that don't, Pa; None: neither
        kind is missing, or it tells nothing."""
        return threshold([(one.gauge, one.started_at is not None) for one in self.each])


def wilson(hits: int, count: int, deviations: float = 1.6449) -> tuple[float, float]:
    """Share of hits, low and high.

    Examples
    --------
    >>> [round(end, 3) for end in wilson(10, 10)]
    [0.787, 1.0]
    """
    share, square = hits / count, deviations**2
    middle = (share + square / (2 * count)) / (1 + square / count)
    half = deviations / (1 + square / count)
    half *= math.sqrt(share * (1 - share) / count + square / (4 * count**2))
    # At either end the root takes all of the middle, but for rounding.
    return 0.0 if hits == 0 else middle - half, 1.0 if hits == count else middle + half


def threshold(readings: Sequence[tuple[float, bool]]) -> float | None:
    """The reading from which on engines start, with the fewest on its wrong side.

    Halfway between two readings; None where all start, none does, or higher readings start no
    oftener.

    Examples
    --------
    >>> threshold([(4.0, False), (5.0, False), (7.0, True), (9.0, True)])
    6.0
    >>> threshold([(4.0, True), (5.0, True)]) is None
    True
    """
    order = sorted(readings)
    starts = [start for _, start in order]
    if all(starts) or not any(starts):
        return None
    wrong = [
        sum(starts[:cut]) + sum(not start for start in starts[cut:])
        for cut in range(len(order) + 1)
    ]
    best = int(np.argmin(wrong))
    if best in (0, len(order)) or wrong[best] > _TELLS * min(
        sum(starts), len(starts) - sum(starts)
    ):
        return None
    return (order[best - 1][0] + order[best][0]) / 2


def runs_by_itself(lived: Lived) -> bool:
    """Whether an engine still fires and turns at the end, as fast as half of when it was let go."""
    if lived.let_go is None or lived.reversed_at is not None or not lived.burns:
        return False
    ended = float(lived.spun.time[-1])
    before = lived.mean_speed(lived.let_go - 0.1, lived.let_go)
    turns = lived.mean_speed(ended - 0.3) > _RUNNING * before
    return turns and lived.burns[-1].seconds > ended - 0.5


def why_not(lived: Lived, driven_at: float) -> Why | None:
    """What kept a start from coming to a running engine; None: it runs.

    `driven_at` is how fast its starter alone turns it, rad/s.
    """
    if runs_by_itself(lived):
        return None
    if lived.locked is not None:
        return "flooded"
    if not lived.sparks:
        turned = float(lived.spun.angle[-1] - lived.spun.angle[0])
        return "spark" if abs(turned) > _OVER else "torque"
    if lived.kicked:
        return "kick"
    if not lived.burns:
        reasons = {spark.missed for spark in lived.sparks}
        if "wet" in reasons:
            return "flooded"
        return "mixture" if reasons & {"lean", "rich", "thinned"} else "spark"
    let_go = lived.let_go if lived.let_go is not None else math.inf
    return "flywheel" if lived.mean_speed(let_go - 0.1, let_go) > driven_at else "dies"


def tried(plain: PlainEngine, asked: Asked, seed: int, tries: int = TRIES) -> Tried:
    """Try one engine until it runs, as often as that.

    Parameters
    ----------
    plain
        Plain numbers.
    asked
        How each try is made.
    seed
        Of its cycles.
    tries
        At most.
    """
    shaft = driven(plain, shaft=turned_by(plain, asked.wrong))
    gauge = gauge_reading(plain, shaft, _GAUGED)
    lives: list[Lived] = []
    for number in range(1, tries + 1):
        each = replace(asked, seed=seed * 100 + number, charged=number > 1)
        left = lives[-1].left if lives else ()
        lives.append(Life(plain, each, shaft, left).lived())
        if runs_by_itself(lives[-1]):
            break
    first, why = lives[0], why_not(lives[-1], plain.use.cranking_speed)
    return Tried(
        started_at=len(lives) if why is None else None,
        gauge=gauge,
        lit=len(first.burns),
        sparked=len(first.sparks),
        over=bool(first.sparks),
        kicked=any(lived.kicked for lived in lives),
        why=why,
    )


def odds(
    trials: Trials,
    asked: Asked,
    count: int,
    *,
    tries: int = TRIES,
    stop: Callable[[], bool] | None = None,
    on_progress: Callable[[float], None] | None = None,
    hands: int | None = None,
    numbers: Sequence[int] | None = None,
) -> Odds:
    """Draw engines from one's unknowns and try each.

    Stopped once :data:`FEWEST` were tried, it gives these.

    Parameters
    ----------
    trials
        The engine and its unknowns.
    asked
        How each try is made; its seed is that of the draw's cycles.
    count, tries
        How many engines, and how often each is tried.
    stop, on_progress
        Asked every 0.05 s; told the share done.
    hands
        Processes, which changes nothing else.
    numbers
        Which of those drawn are tried; None: all.

    Raises
    ------
    Stopped
        If `stop` said so before.
    """
    draws = drawn(trials, count, SEED)
    which = range(count) if numbers is None else numbers

    def one(place: int) -> Tried:
        number = which[place]
        plain = engine_at(trials, trials.unknowns, draws[number])
        return tried(plain, asked, (asked.seed or 0) * 10_000 + number, tries)

    kept: dict[int, Tried] = {}
    try:
        each = shared_out(
            one, len(which), stop=stop, on_progress=on_progress, hands=hands, kept=kept
        )  # fmt: skip
    except Stopped:
        if len(kept) < FEWEST:
            raise
        done = tuple(kept[place] for place in sorted(kept))
        return Odds(tries, asked.seconds, done, stopped=True)
    return Odds(tries, asked.seconds, tuple(each))
