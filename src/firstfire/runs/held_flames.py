"""What lights at a held speed, how it burns, and the cycle that repeats so."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from firstfire.cycle.burn_plan import Burn, Charge
from firstfire.cycle.fired import Fired, fired_cycle
from firstfire.cycle.flame_cycle import Light, flame_cycle
from firstfire.cycle.flame_plan import Flame, flame_of
from firstfire.cycle.layout import State
from firstfire.engine.events import EVENTS
from firstfire.engine.records import Walls
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.ignition_coil import coil_energy
from firstfire.runs.lit import not_lit
from firstfire.runs.sparked import coil_of, spark_timing


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
    light = lighter(engine, speed)
    return flame_cycle(engine, speed, spark, walls, light, start=start, guess=guess, stop=stop)


def lighter(plain: PlainEngine, speed: float) -> Light:
    """What lights a charge at a held speed, and how it then burns: as in a start that is lived.

    Parameters
    ----------
    plain
        Plain numbers.
    speed
        rad/s.
    """
    energy, intake_seconds = spark_energy(plain, speed), math.pi / speed

    def light(row: int, charge: Charge) -> Flame | None:
        parts = plain.cylinders[row]
        flame = flame_of(plain, parts, charge, intake_seconds)
        why = not_lit(
            plain, parts, charge, energy, flame.flame_intensity, flame.flame_length
        )  # fmt: skip
        return flame if why is None else None

    return light


def spark_energy(plain: PlainEngine, speed: float) -> float:
    """Energy in the coil at each spark of a held speed, J.

    Points feed it while their tooth passes, a controller from spark to spark.
    """
    timing, coil = spark_timing(plain), coil_of(plain)
    fed = timing.turn / speed
    if timing.by == "points":
        fed = (timing.leading - timing.trailing) / speed + timing.latency
    return coil_energy(coil.energy, min(fed, coil.dwell), coil.time_constant)
