"""The first combustion: a charge that no burned gas has thinned, lit as its starter turns it."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from firstfire.cycle import layout
from firstfire.cycle.burn_plan import Burn
from firstfire.cycle.cycle_trace import CycleTrace, cycle_trace
from firstfire.cycle.figures import cylinder_figures
from firstfire.cycle.fired import Fired, with_burns
from firstfire.cycle.flame_burn import told_burn
from firstfire.cycle.gas_table import gas_tables
from firstfire.cycle.health import closure
from firstfire.cycle.limit_cycle import Health, LimitCycle
from firstfire.cycle.records import ShaftSpec
from firstfire.cycle.scatter import bounded
from firstfire.engine.records import Peaks
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.normal import NINETY, RARE
from firstfire.runs.spun import PAST_TOP
from firstfire.runs.start.asked import Asked, Wrong
from firstfire.runs.start.first_burn import FirstBurn
from firstfire.runs.steadily import Steadily, steadily

Stop = Callable[[], bool]

_CYCLE = 4 * math.pi
_HELD = 50.0
"""Inertia of a wheel that holds any small engine to its speed, kg·m²."""
_SLOWEST = math.pi
"""A shaft is held to no less than this, rad/s: what the gas side covers."""


@dataclass(frozen=True)
class FirstCombustion:
    """A cylinder's first combustion, and what its strong and rare ones reach.

    Attributes
    ----------
    fired
        The cycle that holds it, over the angle. It happens once: its ``converged`` is False and
        ``cycle_change`` 0.
    peaks
        Of this cylinder.
    spark
        Where its spark truly comes, rad after firing top centre.
    speed
        Of the shaft then, rad/s.
    held
        Whether its shaft was held to that speed: its starter doesn't turn it, or the mean
        combustion stops it or throws it back.
    """

    fired: Fired
    peaks: Peaks
    spark: float
    speed: float
    held: bool


def first_combustions(
    plain: PlainEngine, *, quicker: float = 1.0, stop: Stop | None = None
) -> tuple[FirstCombustion, ...]:
    """Each cylinder's combustion as the first that a cold engine has, as its starter turns it.

    All its cylinders, runners and plenum hold mixture from turns without spark; its exhaust holds
    air. Which of two cylinders is lit first is chance, and what comes second finds a faster shaft:
    each is told as the first.

    Parameters
    ----------
    plain
        Plain numbers.
    quicker
        Times the starter's torque and speed, as it happens to turn.
    stop
        Asked at least every 0.1 s.

    Notes
    -----
    What its starter doesn't turn, and what a mean combustion stops or throws back, is held to the
    speed it has at its spark, as if something stronger turned it: it then goes over its top with
    all of it.
    """
    turned = steadily(plain, stop)
    rows = range(len(plain.cylinders))
    if turned is None:
        speed = plain.use.cranking_speed * quicker
        return tuple(_held(plain, row, speed, stop) for row in rows)
    turned = turned.quicker(quicker)
    return tuple(_free(plain, row, turned, stop) for row in rows)


def _free(plain: PlainEngine, row: int, turned: Steadily, stop: Stop | None) -> FirstCombustion:
    """On the shaft as its starter turns it."""
    ready, mean = _quicker(ready_to_light(plain, row, turned.shaft, turned.speed, stop), row, stop)
    if ready.stands or mean.stalled.stood:
        speed = mean.sparks[0].speed if mean.sparks else turned.at_top
        return _held(plain, row, max(speed, _SLOWEST), stop)
    return _told(plain, row, ready, mean, stop, held=False)


def _held(plain: PlainEngine, row: int, speed: float, stop: Stop | None) -> FirstCombustion:
    """On a shaft that keeps its speed."""
    held = ready_to_light(plain, row, ShaftSpec(inertia=_HELD), speed, stop)
    return _told(plain, row, *_quicker(held, row, stop), stop, held=True)


def _quicker(ready: FirstBurn, row: int, stop: Stop | None) -> tuple[FirstBurn, FirstBurn]:
    """The same, burning by whichever of two ways presses higher, and its mean combustion.

    Slowly turned the travelling flame is the quicker, at thousands of rpm the published law: there
    the flame is later than is measured of engines. What may burst is asked of the quicker.
    """
    lawful = ready.by_law()
    each = [(one, one.burned(0.0, stop)) for one in (ready, lawful)]
    return max(each, key=lambda pair: _peak(pair[1], row))


def ready_to_light(
    plain: PlainEngine, row: int, shaft: ShaftSpec, speed: float, stop: Stop | None
) -> FirstBurn:
    """An engine past its turns without spark, at the beginning of the cycle that is lit.

    Parameters
    ----------
    plain
        Plain numbers.
    row
        Cylinder that is lit first, counted from 0.
    shaft, speed
        What turns it, and how fast it turns just past a firing top, rad/s.
    stop
        Asked at least every 0.1 s.
    """
    asked = Asked(
        seconds=math.inf, begins=PAST_TOP, speed=speed, charged=True, evaporated=False,
        wrong=Wrong(spark_shift=plain.doubt.burn_phase),
    )  # fmt: skip
    return FirstBurn(plain, asked, shaft, row).turned(stop)


def _told(
    plain: PlainEngine, row: int, ready: FirstBurn, mean: FirstBurn, stop: Stop | None, *,
    held: bool,
) -> FirstCombustion:  # fmt: skip
    spark = next((one for one in mean.sparks if one.cylinder == row), None)
    angle, speed = -plain.spark.start_angle, ready.speed
    if spark is not None:
        angle, speed = spark.angle, spark.speed
    fired = _fired(mean, speed)
    strong, rare = (_peak(ready.burned(off, stop), row) for off in (NINETY, RARE))
    peaks = bounded(fired, row, (strong, rare), ready.phases[row], plain.fuel)
    return FirstCombustion(fired, peaks, angle, speed, held)


def _first_spark(life: FirstBurn, row: int) -> float | None:
    """Where a cylinder was lit, rad after its firing top centre; None: it was not."""
    return next((s.angle for s in life.sparks if s.cylinder == row and s.missed is None), None)


def _peak(life: FirstBurn, row: int) -> float:
    """Highest pressure in a cylinder, Pa."""
    place = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE + layout.PRESSURE
    return float(life.trace.values[:, place].max())


def _fired(mean: FirstBurn, speed: float) -> Fired:
    """The cycle of a mean combustion with its figures."""
    rows = range(len(mean.phases))
    lit = [_first_spark(mean, row) for row in rows]
    trace, spec, engines = mean.trace, mean.spec, mean.engines
    curves = cycle_trace(engines, trace, spec.ambient_pressure)
    burns = tuple(
        None if spark is None else _burn(curves, row, mean.phases[row], spark)
        for row, spark in enumerate(lit)
    )
    spec = with_burns(spec, [None if burn is None else burn.spec for burn in burns])
    gas = gas_tables(spec.fuel, spec.equivalence_ratio, spec.water)
    books = closure(engines, gas, trace)
    cycle = LimitCycle(
        speed=speed,
        converged=False,
        cycles=1,
        state=mean.state,
        cylinders=tuple(cylinder_figures(spec, engines, trace, curves, row) for row in rows),
        curves=curves,
        passages=tuple([v.name for v in spec.valves] + [p.name for p in spec.passages]),
        mean_gas_torque=float(np.trapezoid(curves.gas_torque, curves.angle)) / _CYCLE,
        health=Health(books.energy, books.mass, 0.0),
    )
    return Fired(spec, cycle, burns, agreed=True)


def _burn(curves: CycleTrace, row: int, phase: float, spark: float) -> Burn:
    """When a flame burned: from its spark on."""
    share = curves.burned_fraction[:, row]
    first = float(curves.angle[np.flatnonzero(share > 0.0)[0]])
    begins = _CYCLE * round((first - phase - spark) / _CYCLE) + phase + spark
    return told_burn(curves.angle - begins, share, spark)
