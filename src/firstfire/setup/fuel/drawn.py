"""The points that an engine's fuel is sized by: full throttle at its speeds, idle, cranking."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.runs.breathed import Breathed, breathed, of_point
from firstfire.runs.idling import Idle
from firstfire.runs.point import operating_point, spark_angle
from firstfire.runs.walls import assumed_warm, cold

Stop = Callable[[], bool] | None
Kind = Literal["full", "idle", "cranking"]
_RPM = math.pi / 30.0


@dataclass(frozen=True)
class Drawn:
    """A point that fuel is sized by.

    Attributes
    ----------
    kind, name
        What it is, and what to call it.
    at
        What is drawn there.
    """

    kind: Kind
    name: str
    at: Breathed


@dataclass(frozen=True)
class Points:
    """All of them.

    Attributes
    ----------
    full
        At full throttle, by rising speed.
    idle
        None: it can't idle.
    cranking
        Turned by its starter without fire.
    why_no_idle
        Why not, as a sentence; "" where it does.
    """

    full: tuple[Drawn, ...]
    idle: Drawn | None
    cranking: Drawn
    why_no_idle: str = ""

    @property
    def fired(self) -> tuple[Drawn, ...]:
        """Those in which it runs, idle first."""
        return (self.idle, *self.full) if self.idle else self.full

    @property
    def most(self) -> Drawn:
        """Where most fuel flows."""
        return max(self.full, key=lambda one: one.at.fuel_flow)

    @property
    def all(self) -> tuple[Drawn, ...]:
        """Every point, the slowest first."""
        return (self.cranking, *self.fired)


def points(
    plain: PlainEngine, stop: Stop = None, tell: Callable[[str, float], None] | None = None
) -> Points:
    """Run an engine at the points that its fuel is sized by.

    Parameters
    ----------
    plain
        Plain numbers.
    stop, tell
        Asked at least every 0.1 s; told what is run and the share done.

    Raises
    ------
    OutsideValidity, Stopped
        As a run does.
    """
    said = tell or silent
    speeds = sorted(plain.use.full_throttle_speeds)
    full, near = [], None
    for place, speed in enumerate(speeds):
        name = f"full throttle, {speed / _RPM:.0f} rpm"
        said(name, place / (len(speeds) + 2))
        near = breathed(plain, speed, plain.intake.throttle_opening, near=near, stop=stop)
        full.append(Drawn("full", name, near))
    said("idle", len(speeds) / (len(speeds) + 2))
    idle, why = _idle(plain, stop)
    said("cranking", (len(speeds) + 1) / (len(speeds) + 2))
    return Points(tuple(full), idle, _cranking(plain, stop), why)


def silent(what: str, share: float) -> None:
    """Tells nobody what is run."""


def _idle(plain: PlainEngine, stop: Stop) -> tuple[Drawn | None, str]:
    speed = plain.use.idle_speed
    name = f"idle, {speed / _RPM:.0f} rpm"
    spark = spark_angle(plain, speed, starting=False)
    try:
        point = Idle(plain, name, speed, spark, stop).point(assumed_warm(plain))
    except OutsideValidity as why:
        return None, str(why)
    return Drawn("idle", name, of_point(plain, point, point.throttle or 0.0)), ""


def _cranking(plain: PlainEngine, stop: Stop) -> Drawn:
    speed = plain.use.cranking_speed
    name = f"cranking, {speed / _RPM:.0f} rpm"
    point = operating_point(
        plain, "cranking", name, speed, cold(plain), None, with_peaks=False, stop=stop
    )
    return Drawn("cranking", name, of_point(plain, point, plain.intake.throttle_opening))
