"""Angles that a start stops at: where a charge comes in, and where the wheel's edge passes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from firstfire.engine.resolve import PlainEngine
from firstfire.runs.point import spark_angle

_TURN, _CYCLE = 2 * math.pi, 4 * math.pi
INTAKE_TOP, INTAKE_BOTTOM, EDGE, OTHER_EDGE = "intake top", "intake bottom", "edge", "other edge"
CLOCK_EDGE = math.radians(90.0)
"""Before top centre: the edge from which a controller that fires by the clock waits. Common
practice, no source."""
_RUNS = 0.8
"""Share of the idle speed from which an engine is timed as running. Common practice, no source."""
_NEAR = 1e-7


@dataclass(frozen=True)
class Mark:
    """An angle, rad unwrapped, the cylinder it belongs to, from 0, and what it is."""

    angle: float
    cylinder: int
    kind: str


class Marks:
    """The marks of an engine, in the order that its shaft meets them.

    Parameters
    ----------
    plain
        Plain numbers.
    phases
        Firing top centre of each cylinder, rad.
    advance
        Spark before top centre until it is let go, rad; None: as the file has it.
    """

    def __init__(self, plain: PlainEngine, phases: Sequence[float], advance: float | None) -> None:
        self.plain, self.phases = plain, phases
        self.held = advance
        self.by_clock = plain.spark.timed_by == "clock"

    def asked(self, speed: float) -> float:
        """Advance asked for at a speed of the last turn, rad before top centre."""
        if self.held is not None:
            return self.held
        if speed < _RUNS * self.plain.use.idle_speed:
            return self.plain.spark.start_angle
        return -spark_angle(self.plain, speed, starting=False) + self.plain.spark.latency * speed

    def edge(self, speed: float) -> float:
        """Where the edge that a spark comes from passes, rad before top centre."""
        asked = self.asked(speed)
        return max(CLOCK_EDGE, asked) if self.by_clock else asked

    def wait(self, speed: float) -> float:
        """From the edge to the spark, s, as a controller reckons that knew this speed last."""
        waited = self.plain.spark.latency
        if self.by_clock:
            waited += (self.edge(speed) - self.asked(speed)) / speed
        return waited

    def after(self, angle: float, speed: float) -> list[Mark]:
        """What comes next beyond an angle, going forwards, all at one angle.

        `speed` is that of the last turn, rad/s.
        """
        edge = self.edge(speed)
        found = []
        for row, phase in enumerate(self.phases):
            for kind, at in (
                (INTAKE_TOP, phase - _TURN),
                (INTAKE_BOTTOM, phase - math.pi),
                (EDGE, phase - edge),
                (OTHER_EDGE, phase + _TURN - edge),
            ):
                turns = math.floor((angle + _NEAR - at) / _CYCLE) + 1
                found.append(Mark(at + turns * _CYCLE, row, kind))
        first = min(mark.angle for mark in found)
        return [mark for mark in found if mark.angle < first + _NEAR]
