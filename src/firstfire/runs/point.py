"""One operating point: the gas, its peaks and the friction, at one held speed."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from firstfire.cycle.burn_plan import Burn
from firstfire.cycle.fired import Fired, unfired_cycle
from firstfire.cycle.flame_scatter import peaks_of
from firstfire.cycle.friction_along import Friction, friction_along
from firstfire.cycle.layout import State
from firstfire.cycle.records import CylinderSpec, EngineSpec
from firstfire.engine.records import Peaks, Walls
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import slider_crank
from firstfire.formulas.clock_timing import table_advance
from firstfire.runs.held_flames import burned_cycle

_CYCLE = 4 * math.pi


@dataclass(frozen=True)
class OperatingPoint:
    """A steady point.

    Attributes
    ----------
    event, name
        Id of the event, and what to call the point.
    speed
        rad/s.
    walls
        Each cylinder's wall temperatures.
    spark
        Crank angle of the spark after firing top centre, rad; None unfired.
    fired
        The repeated cycle with its network and burns.
    peaks
        Each cylinder's peak pressures.
    friction
        Torques along the cycle.
    displacement
        Of all cylinders, m³.
    walls_worked_out
        Whether the walls follow from the heat, or were assumed.
    throttle
        How far the throttle is open where it was looked for, 0 to 1; None: as the file has it.
    """

    event: str
    name: str
    speed: float
    walls: tuple[Walls, ...]
    spark: float | None
    fired: Fired
    peaks: tuple[Peaks, ...]
    friction: Friction
    displacement: float
    walls_worked_out: bool = False
    throttle: float | None = None

    @property
    def brake_torque(self) -> float:
        """Mean torque at the shaft, N·m; what a starter must give is negative."""
        return self.fired.cycle.mean_gas_torque - self.friction.mean_torque

    @property
    def brake_power(self) -> float:
        """Mean power at the shaft, W."""
        return self.brake_torque * self.speed

    @property
    def friction_mep(self) -> float:
        """Friction as a mean effective pressure, Pa."""
        return self.friction.mean_torque * _CYCLE / self.displacement

    @property
    def misfires(self) -> tuple[int, ...]:
        """Numbers of the cylinders that don't light, counted from 1."""
        if self.spark is None:
            return ()
        return tuple(n for n, burn in enumerate(self.fired.burns, start=1) if burn is None)


def spark_angle(engine: PlainEngine, speed: float, *, starting: bool) -> float:
    """Crank angle at which the plug really fires, after firing top centre, rad.

    The angle asked for at this speed, later by what the shaft turns during the latency.
    """
    spark = engine.spark
    asked = spark.start_angle if starting else spark.running_angle
    if not starting and spark.advance_table:
        asked = table_advance(speed, spark.advance_table)
    return -asked + spark.latency * speed


def operating_point(
    engine: PlainEngine,
    event: str,
    name: str,
    speed: float,
    walls: Sequence[Walls],
    spark: float | None,
    *,
    start: State | None = None,
    guess: Sequence[Burn | None] | None = None,
    with_peaks: bool = True,
    stop: Callable[[], bool] | None = None,
) -> OperatingPoint:
    """The steady point of an engine at a held speed.

    Parameters
    ----------
    engine
        Plain numbers.
    event, name
        What it belongs to, which says how it burns, and is called.
    speed
        rad/s.
    walls
        Of each cylinder.
    spark
        Crank angle after firing top centre, rad; None turns it without fuel.
    start, guess
        State and burns of a neighbouring point.
    with_peaks
        Whether strong and rare cycles are looked for; else they are given as the mean.
    stop
        Asked at least every 0.1 s.

    Raises
    ------
    OutsideValidity
        Where the models don't hold.
    Stopped
        If ``stop`` said so.
    """
    if spark is None:
        fired = unfired_cycle(engine, speed, walls, start=start, stop=stop)
    else:
        fired = burned_cycle(
            engine, event, speed, spark, walls, start=start, guess=guess, stop=stop
        )
    found = tuple(
        Peaks(c.peak_pressure, c.peak_pressure, c.peak_pressure, c.peak_angle)
        for c in fired.cycle.cylinders
    )
    if with_peaks:
        found = peaks_of(engine, fired)
    return OperatingPoint(
        event=event,
        name=name,
        speed=speed,
        walls=tuple(walls),
        spark=spark,
        fired=fired,
        peaks=found,
        friction=friction_along(engine, fired.spec, fired.cycle.curves),
        displacement=displacement_of(fired.spec),
    )


def displacement_of(spec: EngineSpec) -> float:
    """Of all cylinders of a network, m³."""
    return math.fsum(_swept(cylinder) for cylinder in spec.cylinders)


def _swept(cylinder: CylinderSpec) -> float:
    travel = slider_crank.stroke(cylinder.throw, cylinder.rod, cylinder.offset)
    return math.pi / 4 * cylinder.bore**2 * travel
