"""Where it is asked to fire, where it truly does, and how that scatters: cranked and at speeds."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas.breaker_points import opening_shift
from firstfire.formulas.normal import NINETY
from firstfire.formulas.sensor_edges import Sensor
from firstfire.formulas.sparks_along import Sparks
from firstfire.runs.cranking import Cranked
from firstfire.runs.point import OperatingPoint
from firstfire.runs.sparked import sparks_of
from firstfire.setup.spark.motion import sparks_while

STALLS = "its starter doesn't turn it over its tops"
_LATE = 2.0
_TRIES, _CYCLES = 8, 80
_EVEN = 1.0 / math.sqrt(3.0)
"""Standard deviation over half width of what lies evenly within bounds."""


@dataclass(frozen=True)
class TrueAngle:
    """Asked and true at one speed.

    Attributes
    ----------
    name, speed
        What it is, and the mean speed, rad/s.
    asked, true
        Before the firing top, rad, the true one in the mean.
    scatter
        5-95 % either way, rad.
    why_not
        Why there is none; "" where there is.
    """

    name: str
    speed: float
    asked: float
    true: float
    scatter: float
    why_not: str = ""

    @property
    def early(self) -> float:
        """By how much it comes before what was asked, rad."""
        return self.true - self.asked


def sensor_of(plain: PlainEngine) -> Sensor:
    """Chance that its sensor adds; points have none."""
    if plain.spark.source == "points":
        return Sensor()
    return Sensor(scatter=plain.spark.sensor.scatter)


def play_angle(plain: PlainEngine) -> float:
    """Crank angle that play of the trigger is worth either way, rad."""
    spark = plain.spark
    share = 1.0 if spark.wasted else 0.5
    if spark.source == "sensor":
        return spark.sensor.play / spark.sensor.radius / share
    points = spark.points
    try:
        return (
            opening_shift(spark.sensor.play, points.gap, points.lobe_rise, points.lobe_ramp) / share
        )
    except OutsideValidity:
        return math.inf


def cranked_angle(plain: PlainEngine, turned: Cranked) -> TrueAngle:
    """While it is cranked, from the record of its last seconds."""
    if not turned.over:
        return TrueAngle("cranked", turned.mean_speed, math.nan, math.nan, math.nan, STALLS)
    late = turned.spun.since(float(turned.spun.time[-1]) - _LATE)
    found: list[float] = []
    asked: list[float] = []
    for seed in range(_TRIES):
        for sparks in sparks_of(plain, late, sensor=sensor_of(plain), seed=100 * seed):
            found += sparks.advance[sparks.firing].tolist()
            asked += sparks.asked[sparks.firing].tolist()
    return _told(plain, "cranked", turned.mean_speed, asked, found)


def running_angle(plain: PlainEngine, point: OperatingPoint, name: str) -> TrueAngle:
    """At a held speed, the shaft going as unevenly as its gas makes it."""
    found: list[float] = []
    asked: list[float] = []
    for seed, top in enumerate(firing_angles(plain)):
        sparks = sparks_while(
            plain, point, cycles=_CYCLES, top=top, sensor=sensor_of(plain), seed=seed
        )
        if sparks is None:
            return TrueAngle(name, point.speed, math.nan, math.nan, math.nan,
                             "its flywheel is too light for this speed: it would stop")  # fmt: skip
        settled = _settled(sparks)
        found += sparks.advance[settled].tolist()
        asked += sparks.asked[settled].tolist()
    return _told(plain, name, point.speed, asked, found)


def _settled(sparks: Sparks) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """Firing sparks after the first few, which know no speed yet."""
    late = np.arange(len(sparks.time)) >= 2
    return np.asarray(late & sparks.firing)


def _told(
    plain: PlainEngine, name: str, speed: float, asked: list[float], found: list[float]
) -> TrueAngle:
    if not found:
        why = "no spark comes: the points' limit or the limiter is passed, or no speed is known"
        return TrueAngle(name, speed, math.nan, math.nan, math.nan, why)
    played = _EVEN * play_angle(plain)
    spread = NINETY * math.hypot(float(np.std(found)), played)
    return TrueAngle(name, speed, float(np.mean(asked)), float(np.mean(found)), spread)
