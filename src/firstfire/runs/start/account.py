"""All that is found out about an engine's start, one thing after the other."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import Stopped
from firstfire.formulas.normal import NINETY
from firstfire.runs.cranking import Cranked, cranked
from firstfire.runs.moved import Trials
from firstfire.runs.start.asked import Asked, Lived
from firstfire.runs.start.bangs import Bang, bangs
from firstfire.runs.start.best_advance import Advance, best_advance
from firstfire.runs.start.changes import Change, changes
from firstfire.runs.start.going import SPEEDS, AtSpeed, at_speed, least_speed
from firstfire.runs.start.heard import Puffs, puffs
from firstfire.runs.start.idle import Idling, idling
from firstfire.runs.start.kick_back import KickBack, kick_back
from firstfire.runs.start.knocking import Knocking, knocking
from firstfire.runs.start.leaks import Tightness, tightness
from firstfire.runs.start.odds import TRIES, Odds, odds
from firstfire.runs.start.overrun import OverRun, over_run
from firstfire.runs.start.priming import Priming, priming
from firstfire.runs.start.seen import seen
from firstfire.runs.start.strong_burn import Strong, strong_burn
from firstfire.runs.start.turned_by import turned_by

Stop = Callable[[], bool]
Progress = Callable[[float], None]

_HEARD, _HEARD_RIGID = 1.5, 1.15
"""An engine is heard to run once it turns so many times as fast as its starter would; less where
it drags a rigid starter along. Common practice, no source."""
SURE = 0.95
"""Where so many of the engines drawn start, no change is tried."""
_TOLD = 40
_ABOVE = 1.1
"""Times the least speed that it goes on from, at which it is let go."""


@dataclass(frozen=True)
class Account:
    """What is found out about an engine's start.

    Attributes
    ----------
    engine, plain
        The engine, and its plain numbers.
    asked
        How it is started.
    cranked
        How its starter turns it.
    kick
        Which sparks throw it back.
    advance
        Which is best.
    speeds
        Its torque at held speeds.
    least, weak_least
        The lowest speed from which it runs on, and that with every burn a 1-in-20 slow one, rad/s.
    idling
        How it idles.
    lived
        One start of the engine as it is written, its cycles those of the seed.
    strong
        What a strong combustion of it asks.
    odds
        Of engines drawn from what is uncertain.
    changes
        What was tried to better them, the best first; nothing where they are good already.
    leaks
        How tight each cylinder is at a stand, and where it leaks.
    runs_away
        What becomes of it with its throttle left open; None: it doesn't run by itself.
    priming
        Pulses of fuel that it wants beforehand without choke or start map; None: it is a gas.
    knock
        Whether that start knocks.
    bangs
        What burns in its exhaust, or back into its intake.
    exhaust
        What its exhausts push out along that start.
    """

    engine: Engine
    plain: PlainEngine
    asked: Asked
    cranked: Cranked
    kick: KickBack
    advance: Advance
    speeds: tuple[AtSpeed, ...]
    least: float
    weak_least: float
    idling: Idling
    lived: Lived
    strong: Strong
    odds: Odds
    changes: tuple[Change, ...]
    leaks: tuple[Tightness, ...]
    runs_away: OverRun | None
    priming: Priming | None
    knock: Knocking
    bangs: tuple[Bang, ...]
    exhaust: Puffs


def heard_at(plain: PlainEngine) -> float:
    """Speed at which a person hears an engine run by itself, rad/s."""
    free = plain.starter.no_load_speed * plain.starter.ratio
    rigid = plain.starter.coupling == "rigid" and plain.starter.pull_force is None
    return (_HEARD_RIGID if rigid else _HEARD) * min(free, plain.use.cranking_speed)


def _silent(_what: str, _share: float) -> None:
    """Tell nobody."""


def account(
    engine: Engine,
    asked: Asked,
    *,
    count: int = _TOLD,
    tries: int = TRIES,
    stop: Stop | None = None,
    on_progress: Callable[[str, float], None] | None = None,
) -> Account:
    """Find out all about an engine's start.

    Parameters
    ----------
    engine
        The engine with its unknowns.
    asked
        How it is started.
    count, tries
        How many engines are drawn, and how often each is tried.
    stop, on_progress
        Asked at least every 0.1 s; told what is being done and the share of it.

    Raises
    ------
    Stopped
        If `stop` said so.
    """
    tell = on_progress or _silent
    trials = Trials(engine)
    plain = trials.centre
    tell("cranking", 0.0)
    turned = cranked(plain, stop=stop, shaft=turned_by(plain, asked.wrong))
    tell("kick-back", 0.0)
    kick = kick_back(plain, turned.shaft, stop)
    tell("torque by speed", 0.0)
    speeds = tuple(at_speed(plain, asked, speed, stop) for speed in SPEEDS)
    weak = replace(asked, strong=-NINETY)
    least = least_speed(plain, asked, stop=stop)
    asked = _let_go_in_time(asked, least)
    weak_least = least_speed(plain, weak, stop=stop)
    tell("advance", 0.0)
    advance = best_advance(plain, asked, kick, turned.mean_speed, stop)
    tell("idle", 0.0)
    idle = idling(plain, asked, stop)
    tell("priming", 0.0)
    primed = priming(plain, replace(asked, enriched=1.0), turned.shaft, stop)
    tell("story", 0.0)
    whole = seen(plain, replace(asked, seed=asked.seed or 0), turned.shaft, stop)
    strong = strong_burn(plain, asked, turned, stop)
    tell("over-run", 0.0)
    away = over_run(plain, asked, least, stop)
    found = odds(
        trials, asked, count, tries=tries, stop=stop, on_progress=lambda share: tell("odds", share)
    )
    found, better = _helped(engine, asked, advance.start, found, stop, tell)
    return Account(
        engine, plain, asked, turned, kick, advance, speeds, least, weak_least, idle, whole.lived,
        strong, found, better, tightness(engine, plain), away, primed, knocking(engine, whole),
        bangs(whole), puffs(whole),
    )  # fmt: skip


def _helped(
    engine: Engine,
    asked: Asked,
    spark: float,
    found: Odds,
    stop: Stop | None,
    tell: Callable[[str, float], None],
) -> tuple[Odds, tuple[Change, ...]]:
    """The odds, and what betters them; stopped on the way, what is known stands without changes."""
    if found.share >= SURE or found.stopped:
        return found, ()
    try:
        return found, changes(
            engine, asked, spark, stop=stop, on_progress=lambda share: tell("changes", share)
        )
    except Stopped:
        return replace(found, stopped=True), ()


def _let_go_in_time(asked: Asked, least: float) -> Asked:
    """The same, not let go before it turns fast enough to go on by itself."""
    if asked.let_go_at is None or not math.isfinite(least):
        return asked
    return replace(asked, let_go_at=max(asked.let_go_at, _ABOVE * least))


def told_every(lived: Lived) -> Iterator[tuple[float, float]]:
    """Moments of a start and its mean speed about each, s and rad/s, some forty of them."""
    ends = float(lived.spun.time[-1])
    step = ends / _TOLD
    for place in range(_TOLD):
        yield (place + 0.5) * step, lived.mean_speed(place * step, (place + 1) * step)
