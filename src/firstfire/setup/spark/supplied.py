"""What voltage is left for the coil while the starter turns the engine."""

from __future__ import annotations

import math

from firstfire.engine.battery import battery_of
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.cranking import Cranked


def left_at_cranking(plain: PlainEngine, turned: Cranked) -> float:
    """Least voltage at the coil's battery in the last second of cranking, V.

    At rest where it has a battery of its own, or one that doesn't sag.
    """
    rest = plain.spark.coil.voltage
    battery = battery_of(plain.starter) if plain.spark.coil_on == "starter_battery" else None
    if battery is None:
        return rest
    shaft, spun = turned.shaft, turned.spun
    late = spun.since(float(spun.time[-1]) - 1.0)
    turns = (late.rotor if shaft.rotor > 0.0 else late.speed) / math.copysign(
        abs(shaft.starter_free), shaft.starter_free
    )
    return rest * battery.left(float(turns.min()), 1.0) / battery.voltage
