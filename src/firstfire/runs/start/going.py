"""Does an engine keep itself going: its torque at a held speed, and from which speed it runs on."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from firstfire.cycle import layout
from firstfire.cycle.build import widening_along
from firstfire.cycle.records import ShaftSpec
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.spun import Spun, starter_line
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.life import Life
from firstfire.runs.start.turned_by import dragged

_RPM = math.pi / 30
_CYCLE = 4 * math.pi
_HELD = 50.0
"""Inertia of a wheel that holds any small engine to its speed for some cycles, kg·m²."""
_SETTLE, _COUNTED = 4, 4
"""Cycles until what it breathes repeats, and over which torque is counted."""
SPEEDS = tuple(rpm * _RPM for rpm in (200, 300, 400, 550, 750, 1000, 1400, 2000, 2800, 4000, 5600))
"""At which its torque is told, rad/s: four to the tenfold."""
_ALONE = 1.0
_RAN_UP, _TURNS = 1.4, 3
_PLACES = 4
_NARROW = 0.05


@dataclass(frozen=True)
class AtSpeed:
    """What an engine gives at a held speed.

    Attributes
    ----------
    speed
        rad/s.
    gas, net
        Mean torque of its gas against what stands under its pistons, pumping included, and what
        is left of it after friction and load, N·m.
    burned
        Share of its sparks that lit.
    peak
        Highest pressure in a cylinder, Pa.
    """

    speed: float
    gas: float
    net: float
    burned: float
    peak: float


def at_speed(
    plain: PlainEngine, asked: Asked, speed: float, stop: Callable[[], bool] | None = None
) -> AtSpeed:
    """Torque of an engine whose shaft is held to a speed.

    Parameters
    ----------
    plain
        Plain numbers.
    asked
        Throttle, mixture and flame; how it is turned is left out.
    speed
        rad/s.
    stop
        Asked at least every 0.1 s.
    """
    life = _held(plain, asked, speed)
    _turned(life, _SETTLE, stop)
    began, work, fast, sparks = life.now, _work(life), life.speed, len(life.sparks)
    _turned(life, _COUNTED, stop)
    lasted = life.now - began
    counted = life.sparks[sparks:]
    lit = sum(spark.missed is None for spark in counted)
    spun = life.told().spun
    gained = _work(life) - work - _work_under(life, spun.since(began))
    return AtSpeed(
        speed=speed,
        gas=gained / (_COUNTED * _CYCLE),
        net=_HELD * (life.speed - fast) / lasted,
        burned=lit / len(counted) if counted else 0.0,
        peak=float(spun.pressure[:, : len(plain.cylinders)].max()),
    )


def _held(plain: PlainEngine, asked: Asked, speed: float) -> Life:
    """An engine on a wheel so heavy that it keeps its speed, without its starter."""
    held = replace(
        asked, seconds=math.inf, speed=speed, charged=True, let_go_at=None,
        in_time=False, wrong=replace(asked.wrong, backwards=False),
    )  # fmt: skip
    return Life(plain, held, dragged(ShaftSpec(inertia=_HELD), asked.wrong))


def _turned(life: Life, cycles: float, stop: Callable[[], bool] | None) -> None:
    until = life.angle + cycles * _CYCLE
    while life.angle < until - 1e-9:
        life.step(until)
        life.checked(stop)


def _work(life: Life) -> float:
    """Work of the gas on all pistons so far, J."""
    engine = life.engines[0]
    first = int(engine["cylinder_sums_at"]) + layout.WORK
    count = int(engine["cylinder_count"])
    return float(sum(life.state.values[first + n * layout.CYLINDER_SUMS] for n in range(count)))


def _work_under(life: Life, spun: Spun) -> float:
    """Work of all pistons on a case's gas, over whole cycles, J: nothing on still air."""
    done = 0.0
    for row in range(int(life.engines[0]["cylinder_count"])):
        below = int(life.engines[0]["cylinders"]["crankcase"][row])
        if below >= 0:
            widens = widening_along(life.engines, spun.angle, row)
            done += float(np.trapezoid(spun.pressure[:, below] * widens, spun.angle))
    return done


def let_loose(
    plain: PlainEngine, asked: Asked, speed: float, stop: Callable[[], bool] | None = None
) -> Life:
    """An engine that breathes and burns as it does at a speed, from now on left to itself.

    Parameters
    ----------
    plain, asked, speed, stop
        As `at_speed` has them.
    """
    life = _held(plain, asked, speed)
    _turned(life, _SETTLE, stop)
    _loosen(life)
    return life


def _loosen(life: Life) -> None:
    own, starter = starter_line(life.plain), life.plain.starter
    rotor = 0.0 if own.rotor else starter.inertia / starter.ratio**2
    life.engines[0]["shaft"]["inertia"] = max(own.inertia - rotor, 1e-9)


def runs_on(
    plain: PlainEngine, asked: Asked, speed: float, stop: Callable[[], bool] | None = None
) -> bool:
    """Whether an engine that breathes and burns goes on by itself, whenever it is let go.

    Tried from four places of its cycle: just after a combustion it has most to go on with, just
    before the next compression least.

    Parameters
    ----------
    plain, asked, speed, stop
        As `at_speed` has them.
    """
    held = _held(plain, asked, speed)
    _turned(held, _SETTLE, stop)
    for _ in range(_PLACES):
        _turned(held, 1.0 / _PLACES, stop)
        life = held.again()
        _loosen(life)
        if not _goes_on(life, speed, stop):
            return False
    return True


def _goes_on(life: Life, speed: float, stop: Callable[[], bool] | None) -> bool:
    ends, begun = life.now + _ALONE, life.angle
    while life.now < ends:
        life.step()
        life.checked(stop)
        if life.speed <= 0.0:
            return False
        if life.last_turn > _RAN_UP * speed and life.angle > begun + _TURNS * _CYCLE:
            return True
    return True


def least_speed(
    plain: PlainEngine,
    asked: Asked,
    speeds: Sequence[float] = SPEEDS,
    stop: Callable[[], bool] | None = None,
) -> float:
    """The lowest speed from which it goes on, let go at any moment, rad/s; infinite: from none.

    Found to 5 %. Above it the engine runs; a higher speed at which friction outdoes it again is
    where it would settle, not where it would stop.

    Parameters
    ----------
    plain, asked, stop
        As `at_speed` has them.
    speeds
        Tried first, in rising order, rad/s.
    """
    below = 0.5 * speeds[0]
    for speed in speeds:
        if runs_on(plain, asked, speed, stop):
            break
        below = speed
    else:
        return math.inf
    while speed > (1.0 + _NARROW) * below and speed > 0.55 * speeds[0]:
        middle = math.sqrt(below * speed)
        below, speed = (below, middle) if runs_on(plain, asked, middle, stop) else (middle, speed)
    return speed
