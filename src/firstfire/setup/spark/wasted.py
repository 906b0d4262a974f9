"""The second spark of a pair: where it falls in the other stroke, and what lies there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.cam_lift import spans, valve_of, valve_rise
from firstfire.engine.coils import paired
from firstfire.engine.resolve import PlainEngine

_TURN = 2.0 * math.pi
_OPEN = 0.2e-3
"""Lift from which fresh charge comes in that a spark may light, m. Common practice, no source."""


@dataclass(frozen=True)
class Wasted:
    """A spark near the top of the exhaust stroke.

    Attributes
    ----------
    own
        Where it falls after the overlap top of its own cylinder, rad.
    inlet, exhaust
        Lift of the valves then, m; the inlet's None where suction opens it.
    paired
        Whether two cylinders share a coil whose both ends go to a plug.
    """

    own: float
    inlet: float | None
    exhaust: float
    paired: bool

    @property
    def spits(self) -> bool:
        """Whether it may light what comes in."""
        return self.inlet is not None and self.inlet >= _OPEN


def both_each_time(plain: PlainEngine) -> bool:
    """Whether one set of points serves two cylinders, so that each opening fires both plugs."""
    return plain.spark.source == "points" and len(plain.cylinders) == 2 and not plain.spark.wasted


def wasted(plain: PlainEngine) -> Wasted | None:
    """The wasted spark of an engine in running; None where it has none."""
    if not plain.spark.wasted:
        return None
    parts = plain.cylinders[0]
    after = _TURN - plain.spark.running_angle
    lifts = {
        which: valve_rise(valve_of(parts, which), span, after)
        for which, span in spans(parts).items()
    }
    return Wasted(
        own=-plain.spark.running_angle,
        inlet=None if parts.valves.inlet.worked == "suction" else lifts["inlet"],
        exhaust=lifts["exhaust"],
        paired=paired(plain),
    )
