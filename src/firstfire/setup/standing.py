"""An engine that stands, cold or evenly warm, as its parts judge it: no gas, no motion."""

from __future__ import annotations

import numpy as np

from firstfire.engine.moment import Moment
from firstfire.engine.records import Loads, PartTemperature, Temperatures
from firstfire.engine.resolve import PlainEngine

NIGHT = 12.0
"""Hours of a night's rest, the event ``night``."""
FRESH = 1 / 60
"""Hours: a minute after, when what was put together is first left alone."""

_PARTS = (
    "crown", "shield", "head", "chamber_plate", "liner", "body", "ring", "skirt", "boss", "land",
    "exhaust_port", "valves", "seats", "small_end", "big_end", "webs", "crankpin", "crankcase",
)  # fmt: skip
_NONE = np.zeros(1)


def standing(
    plain: PlainEngine, cylinder: int = 0, *, hours: float = NIGHT, rise: float = 0.0
) -> Moment:
    """A moment in which nothing moves and nothing presses but fits and screws.

    Parameters
    ----------
    plain
        The engine.
    cylinder
        From 0.
    hours
        Since it was put together.
    rise
        Of every part over the air, K.
    """
    air = plain.surroundings
    warm = air.air_temperature + rise
    even = PartTemperature(warm, warm, np.array([0.0, 1e-3]), np.array([warm, warm]))
    return Moment(
        engine=plain,
        event="night",
        seconds=0.0,
        cycles=1.0,
        cylinder=cylinder,
        peak_pressure=air.air_pressure,
        crankcase_pressure=air.air_pressure,
        speed=0.0,
        loads=Loads((), _NONE, _NONE, {}, {}, (), 0.0, 0.0),
        temperatures=Temperatures(0.0, dict.fromkeys(_PARTS, even)),
        resting_hours=hours,
    )
