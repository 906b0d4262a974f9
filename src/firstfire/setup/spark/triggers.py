"""Points or sensor in numbers: angles, lengths, bounce, what a missed or a doubled edge does."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.resolve import PlainEngine
from firstfire.engine.trigger import trigger
from firstfire.errors import OutsideValidity
from firstfire.formulas import breaker_points, spark_gap
from firstfire.formulas.clock_timing import clock_delay
from firstfire.setup.spark.angles import play_angle
from firstfire.setup.spark.circuit import Circuit

_WORN = 0.05e-3
_AIR_LEAST = 327.0
"""Least voltage that breaks down air however narrow the gap, V: Paschen's minimum (handbooks)."""


@dataclass(frozen=True)
class PointsSet:
    """Breaker points.

    Attributes
    ----------
    shuts, opens
        Before firing top, rad of the crank.
    shut_angle, lobe_angle
        How long they are shut, rad of the crank and of the lobe.
    gap
        m.
    bounces_at
        Crank speed above which the arm leaves its lobe, rad/s.
    fastest
        That the engine is asked for, rad/s.
    worn_shift
        By which they open later once 0.05 mm of heel is worn, rad of the crank.
    breaks_at
        Voltage across them as they open, V.
    condenser_for
        Condenser that keeps it below what air always bears, F; 0 where none is needed.
    """

    shuts: float
    opens: float
    shut_angle: float
    lobe_angle: float
    gap: float
    bounces_at: float
    fastest: float
    worn_shift: float
    breaks_at: float
    condenser_for: float

    @property
    def bounces(self) -> bool:
        """Whether they do at a speed that is asked for."""
        return self.bounces_at < self.fastest

    @property
    def arcs(self) -> bool:
        """Whether air in the narrowest gap may break down."""
        return self.breaks_at > _AIR_LEAST


@dataclass(frozen=True)
class SensorSet:
    """A sensor with its tooth or magnet.

    Attributes
    ----------
    kind
        ``hall`` or ``reed``.
    leading, trailing
        Edges before firing top, rad of the crank.
    width, width_angle
        Of the tooth at its radius, m, and rad of the crank.
    late
        By which its delay makes it late at the top speed, rad.
    scatter
        Of that, one standard deviation, rad.
    play
        What play is worth either way, rad.
    fastest
        Top speed, rad/s.
    missed, doubled
        By the clock: by how much the next spark comes early after an edge that was missed, or
        counted twice half a turn of its wheel apart, rad; None where it fires on the edge.
    blanked, blanked_at_least, blanked_at_most
        For so long no second edge is taken, and the least and most that serve, s.
    """

    kind: str
    leading: float
    trailing: float
    width: float
    width_angle: float
    late: float
    scatter: float
    play: float
    fastest: float
    missed: float | None
    doubled: float | None
    blanked: float
    blanked_at_least: float
    blanked_at_most: float


_REED_BOUNCES, _SPARK_RINGS = 0.5e-3, 0.3e-3
"""How long a reed's tongue bounces, and a spark disturbs. Common practice, no source."""


def fastest(plain: PlainEngine) -> float:
    """Top speed that it is asked for, rad/s."""
    return max(*plain.use.full_throttle_speeds, plain.spark.limit_speed or 0.0)


def points_set(plain: PlainEngine, feeds: Circuit) -> PointsSet:
    """The points of an engine that has some."""
    passes, points = trigger(plain), plain.spark.points
    share = 1.0 if plain.spark.wasted else 0.5
    bounce = breaker_points.bounce_speed(
        points.spring_force, points.arm_mass, points.lobe_rise, points.lobe_ramp
    )
    try:
        worn = (
            breaker_points.opening_shift(_WORN, points.gap, points.lobe_rise, points.lobe_ramp)
            / share
        )
    except OutsideValidity:
        worn = math.inf
    charging = feeds.charging(plain.use.cranking_speed)
    volts = feeds.unclamped(charging, feeds.voltage) / feeds.turns
    return PointsSet(
        shuts=passes.leading,
        opens=passes.trailing,
        shut_angle=passes.leading - passes.trailing,
        lobe_angle=share * (passes.leading - passes.trailing),
        gap=points.gap,
        bounces_at=bounce / share,
        fastest=fastest(plain),
        worn_shift=worn,
        breaks_at=volts,
        condenser_for=_condenser(feeds, feeds.passed_on * feeds.energy(charging, feeds.voltage)),
    )


def _condenser(feeds: Circuit, energy: float) -> float:
    """``2 E/V² - N² C_2``, so that all of it stands below what air always bears."""
    return max(2.0 * energy / _AIR_LEAST**2 - feeds.turns**2 * feeds.capacitance, 0.0)


def sensor_set(plain: PlainEngine) -> SensorSet:
    """The sensor of an engine that has one."""
    spark, sensor, passes = plain.spark, plain.spark.sensor, trigger(plain)
    share = 1.0 if spark.wasted else 0.5
    top = fastest(plain)
    width = passes.leading - passes.trailing
    missed = doubled = None
    if "clock" in passes.by:
        asked = spark.advance_table[-1][1] if spark.advance_table else spark.running_angle
        missed = _early(passes.leading, asked, 0.5)
        doubled = _early(passes.leading, asked, 2.0)
    rings = _REED_BOUNCES if sensor.kind == "reed" else 0.0
    return SensorSet(
        kind=sensor.kind,
        leading=passes.leading,
        trailing=passes.trailing,
        width=share * width * sensor.radius,
        width_angle=width,
        late=spark.latency * top,
        scatter=sensor.scatter * top,
        play=play_angle(plain),
        fastest=top,
        missed=missed,
        doubled=doubled,
        blanked=sensor.blanked,
        blanked_at_least=max(rings, _SPARK_RINGS),
        blanked_at_most=0.5 * (2.0 if spark.wasted else 4.0) * math.pi / top,
    )


def _early(reference: float, asked: float, read: float) -> float:
    """How early a spark comes whose speed is read wrong by a factor, rad."""
    turned = clock_delay(reference, asked, read)
    return (reference - turned) - asked


def spark_in_air(volts: float) -> float:
    """Gap in open air that a voltage just jumps, m; 50 mm where it is more."""
    try:
        return spark_gap.widest_gap(volts, 101_325.0, 293.15)
    except OutsideValidity:
        return 50e-3 if volts > 20e3 else 0.13e-3
