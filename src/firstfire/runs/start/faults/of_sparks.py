"""Faults of the spark: none, weak, elsewhere, or more than there should be."""

from __future__ import annotations

import math

from firstfire.engine.quantity import write_quantity
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.start.faults.fault import (
    DoesNotApplyError,
    Fault,
    Layer,
    Obeyed,
    angle,
    obeys,
    sized,
)


def _by(plain: PlainEngine, earlier: float) -> tuple[Layer, Obeyed]:
    """All that a spark is asked for, earlier by so much, rad."""
    spark = plain.spark
    layer: dict[str, object] = {
        "spark.start_angle": angle(spark.start_angle + earlier),
        "spark.running_angle": angle(spark.running_angle + earlier),
    }
    if spark.advance_table:
        layer["spark.advance_table"] = [
            [write_quantity(speed, "speed", digits=6), angle(advance + earlier)]
            for speed, advance in spark.advance_table
        ]
    return layer, {"advance": earlier}


def _half_a_cycle(plain: PlainEngine, _size: float) -> tuple[Layer, Obeyed]:
    if plain.spark.wasted:
        raise DoesNotApplyError("it sparks at every top, so that half a cycle off is none")
    return {}, {"spark_shift": 2 * math.pi}


def _return_lead(plain: PlainEngine, _size: float) -> tuple[Layer, Obeyed]:
    if any(plain.materials[parts.head.material].metal for parts in plain.cylinders):
        raise DoesNotApplyError("its head is of metal, which brings the current back")
    return {"plug.return_lead": False}, {}


def _swapped(plain: PlainEngine, _size: float) -> tuple[Layer, Obeyed]:
    if len(plain.cylinders) < 2:
        raise DoesNotApplyError("it has one plug")
    if plain.spark.wasted:
        raise DoesNotApplyError("one coil fires both its plugs at once")
    return {}, {"swapped": True}


def _has_controller(plain: PlainEngine) -> None:
    if plain.spark.source == "points":
        raise DoesNotApplyError("it has breaker points and no controller")


def _last_turn(plain: PlainEngine, _size: float) -> tuple[Layer, Obeyed]:
    _has_controller(plain)
    return {"spark.timed_by": "clock"}, {}


def _noise(plain: PlainEngine, size: float) -> tuple[Layer, Obeyed]:
    _has_controller(plain)
    return {}, {"stray": size}


def _resets(plain: PlainEngine, size: float) -> tuple[Layer, Obeyed]:
    _has_controller(plain)
    if not on_a_battery(plain):
        raise DoesNotApplyError("its starter draws nothing from a battery")
    return {}, {"resets_at": size}


def on_a_battery(plain: PlainEngine) -> bool:
    """Whether a battery turns it over: not an arm, and no mains."""
    return plain.starter.pull_force is None and plain.starter.kind not in ("hand", "mains")


SPARKS: tuple[Fault, ...] = (
    Fault("spark_never", "no spark at all", "it cranks and never fires", obeys(no_spark=True)),
    Fault("spark_weak", "a weak spark", "it fires now and then, or never",
          sized("spark_share"), "share of the coil's energy", "ratio", "0.05", "0", "1"),
    Fault("spark_180", "spark half a cycle off",
          "never a combustion: its timing mark flashes a turn off", _half_a_cycle),
    Fault("spark_early", "spark too early", "it kicks, or drags at each firing",
          _by, "earlier by", "angle", "20 deg", "0 deg", "90 deg"),
    Fault("spark_late", "spark too late", "hot exhaust, no power",
          lambda plain, size: _by(plain, -size), "later by", "angle", "20 deg", "0 deg", "90 deg"),
    Fault("last_turn", "timed by the clock from the last turn", "it kicks while it is slow",
          _last_turn),
    Fault("no_return_lead", "no lead from the plug's shell back to the coil",
          "a spark in the hand, none in the engine", _return_lead),
    Fault("sensor_noise", "false edges from sparks, a starter's brushes or a loose lead",
          "bangs and kicks out of time, sparks where no mark is", _noise,
          "false edges a second", "ratio", "20", "0", "1000"),
    Fault("controller_resets", "its controller hangs on the starter's battery and resets at each "
          "dip", "no spark while it is cranked; it may catch as the starter is let go", _resets,
          "starter's torque over its stall torque from which it resets", "ratio", "0.1",
          "0.01", "1"),
    Fault("leads_swapped", "plug leads swapped, or a wrong firing order", "bangs, no running",
          _swapped),
)  # fmt: skip
"""In the order in which they are listed."""
