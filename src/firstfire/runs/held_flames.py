"""What lights at a held speed, how it burns, and the cycle that repeats so."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from firstfire.cycle.burn_plan import Burn, Charge, burn_plan
from firstfire.cycle.fired import Fired, fired_cycle
from firstfire.cycle.flame_cycle import Light, flame_cycle
from firstfire.cycle.flame_plan import Flame, flame_of
from firstfire.cycle.layout import State
from firstfire.engine.events import EVENTS
from firstfire.engine.records import Walls
from firstfire.engine.resolve import PlainEngine


def burned_cycle(
    engine: PlainEngine,
    event: str,
    speed: float,
    spark: float,
    walls: Sequence[Walls],
    *,
    start: State | None = None,
    guess: Sequence[Burn | None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Fired:
    """The cycle that an engine repeats at a held speed, burning as it does in an event.

    Parameters
    ----------
    engine, speed, spark, walls, start, guess, stop
        As :func:`firstfire.cycle.fired.fired_cycle` has them.
    event
        Id of the event.

    Raises
    ------
    OutsideValidity, Stopped
        As :func:`firstfire.cycle.limit_cycle.limit_cycle`.
    """
    if EVENTS[event].burning == "by law":
        return fired_cycle(engine, speed, spark, walls, start=start, guess=guess, stop=stop)
    light = lighter(engine, speed, spark)
    return flame_cycle(engine, speed, spark, walls, light, start=start, guess=guess, stop=stop)


def lighter(plain: PlainEngine, speed: float, spark: float) -> Light:
    """The flame that a held speed's sparks light.

    What can burn is lit, however weak its spark, as at a first combustion: what has to hold is not
    spared by that. A `start` that is lived tells whether the spark does it.

    Parameters
    ----------
    plain
        Plain numbers.
    speed
        rad/s.
    spark
        Crank angle after firing top centre, rad.
    """
    intake_seconds, at = math.pi / speed, spark + plain.doubt.burn_phase

    def light(row: int, charge: Charge) -> Flame | None:
        parts = plain.cylinders[row]
        if burn_plan(plain, parts, speed, at, charge) is None:
            return None
        return flame_of(plain, parts, charge, intake_seconds)

    return light
