"""The sparks of an engine along the record of its start, as its points or controller make them."""

from __future__ import annotations

import math
from typing import Literal

from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.trigger import trigger
from firstfire.formulas.clock_timing import clock_advance
from firstfire.formulas.firing import CYCLE, TURN
from firstfire.formulas.sensor_edges import SURE, Sensor
from firstfire.formulas.spark_clock import Coil, Timing
from firstfire.formulas.sparks_along import Sparks, sparks_along
from firstfire.runs.spun import Spun

_RUNNING_FROM = 0.6
# Above 0.6 of idle an engine is taken to run. Common practice, no source.


def spark_timing(plain: PlainEngine, *, measured: Literal["turn", "tooth"] = "turn") -> Timing:
    """What its spark goes by.

    A spark that is not wasted has its wheel on the camshaft. An edge that has an advance table
    besides serves for starting, and the clock when running.

    Parameters
    ----------
    plain
        Plain numbers.
    measured
        By the clock: from turn to turn of the wheel, or over its tooth.
    """
    spark = plain.spark
    running = spark.advance_table or ((0.0, spark.running_angle),)
    by, leading, trailing = trigger(plain)
    return Timing(
        by=by,
        leading=leading,
        trailing=trailing,
        start=spark.start_angle,
        running=tuple(running),
        running_from=_RUNNING_FROM * plain.use.idle_speed,
        latency=spark.latency,
        measured=measured,
        turn=TURN if spark.wasted else CYCLE,
        limit_speed=_limit(plain),
    )


def _limit(plain: PlainEngine) -> float:
    limit = plain.spark.limit_speed
    return math.inf if limit is None or plain.spark.limited_by != "spark" else limit


def coil_of(plain: PlainEngine) -> Coil:
    """What feeds its sparks: points for as long as they are shut, a controller for its dwell."""
    spark, coil = plain.spark, plain.spark.coil
    constant = coil.inductance / (coil.resistance + coil.resistor)
    return Coil(spark.coil_energy, constant, math.inf if spark.source == "points" else coil.dwell)


def sparks_of(
    plain: PlainEngine, spun: Spun, *, sensor: Sensor = SURE, seed: int = 0
) -> tuple[Sparks, ...]:
    """The sparks of each cylinder while an engine turned.

    Parameters
    ----------
    plain
        Plain numbers.
    spun
        How it turned.
    sensor, seed
        What its sensor adds to the latency, and the seed of its chance; every cylinder has its own.
    """
    timing, coil = spark_timing(plain), coil_of(plain)
    return tuple(
        sparks_along(
            spun.time,
            spun.angle,
            spun.speed,
            timing,
            coil,
            top=top,
            sensor=sensor,
            seed=seed + number,
        )
        for number, top in enumerate(firing_angles(plain))
    )


def advance_while(plain: PlainEngine, speed: float, acceleration: float) -> float:
    """Where before top centre it fires in a shaft that slows or quickens evenly, rad.

    As it would in starting: by an edge or points later by its latency, by the clock as
    :func:`firstfire.formulas.clock_timing.clock_advance` has it.

    Parameters
    ----------
    plain
        Plain numbers.
    speed
        As the edge that it goes by passes, rad/s.
    acceleration
        rad/s², negative while it slows.

    Raises
    ------
    OutsideValidity
        By the clock, where the shaft stood less than a turn of its wheel ago.
    """
    timing = spark_timing(plain)
    if timing.by == "clock":
        return clock_advance(
            timing.leading,
            timing.start,
            speed,
            acceleration,
            latency=timing.latency,
            span=timing.turn,
        )
    return timing.start - (speed + 0.5 * acceleration * timing.latency) * timing.latency
