"""Whether the starter brings the engine over its top, and how it turns it: on the free shaft."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field, replace

import numpy as np

from firstfire.cycle.records import ShaftSpec
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.comes_over import (
    LEAST_SPEED,
    LONGEST_COAST,
    TRIED,
    coasted,
    comes_over,
    passes,
    stroke_of,
)
from firstfire.runs.cranking import driven, gauge_reading
from firstfire.runs.from_a_stand import turned_from_a_stand
from firstfire.runs.point import OperatingPoint
from firstfire.runs.spun import PAST_TOP, Spun, on_its_shaft, starter_line
from firstfire.runs.steadily import heard, slowest_top
from firstfire.runs.walls import cold

Stop = Callable[[], bool]

_CYCLE = 4 * math.pi
_CRANKED = 5.0
"""How long a gauge's reading is cranked for, s."""
_LAST = 1.0
_HALVINGS = 9
_LEAST_STALL, _MOST_STALL = 1e-3, 1e4


@dataclass(frozen=True)
class TurnOver:
    """What a starter makes of an engine.

    Attributes
    ----------
    mean_torque, peak_torque
        That turning it at the speed asked for takes, at the crank, N·m.
    stall_torque
        That the starter gives at a stand, at the crank, N·m.
    inertia
        Of all that turns with the crank, and the starter's rotor, at the crank, kg·m².
    compression_energy
        Taken by the hardest way from bottom to firing top at that speed, J.
    stored_energy
        Of the shaft at the speed reached, J; at a stand there is none.
    over
        Whether it comes over the top at all, with the run-up a person can give it.
    from_rest
        Whether also from a standstill at the bottom before any compression.
    lacking_torque
        What the starter lacks at a stand to come over with that run-up, N·m; 0 where it does.
    speed
        Mean speed that the starter reaches, as the crank would have it, no more than was asked for,
        rad/s; 0 where it doesn't come over.
    crank_speed
        Mean speed of the crank then, rad/s: more where a clutch lets it run ahead.
    slowest, at_top
        Least speed then, and speed at the slowest firing top, rad/s.
    gauge
        What a gauge with a check valve shows of each cylinder, above the air around, Pa; empty
        where it doesn't come over.
    pulls
        Compressions that one pull of a rope brings it over; None for any other starter.
    spun
        How it turns at last, every step; None where it doesn't come over.
    shaft
        What turns it, its trigger let back if it would run faster than asked.
    """

    mean_torque: float
    peak_torque: float
    stall_torque: float
    inertia: float
    compression_energy: float
    stored_energy: float
    over: bool
    from_rest: bool
    lacking_torque: float
    speed: float
    crank_speed: float
    slowest: float
    at_top: float
    gauge: tuple[float, ...]
    pulls: int | None
    spun: Spun | None = field(repr=False)
    shaft: ShaftSpec


def turned_over(
    plain: PlainEngine, cranked: OperatingPoint, stop: Stop | None = None, *, gauged: bool = True
) -> TurnOver:
    """What the engine's starter makes of it.

    Parameters
    ----------
    plain
        Plain numbers.
    cranked
        The point at which it is cranked at a held speed: what turning it takes there.
    stop
        Asked at least every 0.1 s.
    gauged
        Whether its gauge is read too.
    """
    full = starter_line(plain)
    tops = firing_angles(plain)
    over = comes_over(plain, stop=stop)
    against = cranked.friction.torque - cranked.fired.cycle.curves.gas_torque
    base = TurnOver(
        mean_torque=-cranked.brake_torque,
        peak_torque=float(against.max()),
        stall_torque=full.starter_stall,
        inertia=full.inertia + full.rotor,
        compression_energy=max(_taken(cranked, top) for top in tops),
        stored_energy=0.0,
        over=over,
        from_rest=over and _from_rest(plain, full, stop),
        lacking_torque=0.0,
        speed=0.0, crank_speed=0.0, slowest=0.0, at_top=0.0, gauge=(), pulls=None, spun=None,
        shaft=full,
    )  # fmt: skip
    if not over:
        return replace(base, lacking_torque=_lacking(plain, full, stop))
    base = _turning(plain, base, stop)
    return replace(base, gauge=_gauges(plain, base.shaft, stop)) if gauged else base


def _taken(cranked: OperatingPoint, top: float) -> float:
    """Energy that the half turn before a firing top takes, J."""
    curves = cranked.fired.cycle.curves
    against = cranked.friction.torque - curves.gas_torque
    order = np.argsort(curves.angle % _CYCLE)
    half = np.linspace(top - math.pi, top, 361)
    taken = np.interp(half, (curves.angle % _CYCLE)[order], against[order], period=_CYCLE)
    return max(float(np.trapezoid(taken, half)), 0.0)


def _is_rope(plain: PlainEngine) -> bool:
    return math.isfinite(stroke_of(plain))


def _from_rest(plain: PlainEngine, shaft: ShaftSpec, stop: Stop | None) -> bool:
    return all(passes(plain, shaft, top - math.pi, top, stop) for top in firing_angles(plain))


def _turning(plain: PlainEngine, base: TurnOver, stop: Stop | None) -> TurnOver:
    """The record with what the shaft does once it turns."""
    shaft = driven(plain, stop)
    if _is_rope(plain):
        return replace(_pulled(plain, base, stop), shaft=shaft)
    start = min(firing_angles(plain)) + PAST_TOP
    turning = on_its_shaft(plain, cold(plain), shaft, start)
    spun = turned_from_a_stand(plain, turning, TRIED, stop)[1]
    late = spun.since(spun.time[-1] - _LAST)
    return _with_speeds(plain, replace(base, shaft=shaft), late)


def _pulled(plain: PlainEngine, base: TurnOver, stop: Stop | None) -> TurnOver:
    """One pull of the rope, from behind the first firing top; its last whole cycle is told."""
    start = min(firing_angles(plain)) + PAST_TOP
    ends = start + stroke_of(plain)
    turning = on_its_shaft(plain, cold(plain), base.shaft, start)
    turning, spun = turned_from_a_stand(plain, turning, LONGEST_COAST, stop, until_angle=ends)
    whole = spun.angle >= max(ends - _CYCLE, start)
    late = Spun(*(getattr(spun, name)[whole] for name in Spun.__dataclass_fields__))
    reached = coasted(plain, turning, base.shaft, math.inf, stop)
    first = [start + (top - start) % _CYCLE for top in firing_angles(plain)]
    passed = sum(math.floor((reached - top) / _CYCLE) + 1 for top in first)
    return replace(_with_speeds(plain, base, late), pulls=passed)


def _with_speeds(plain: PlainEngine, base: TurnOver, late: Spun) -> TurnOver:
    mean = late.mean_speed
    rotor = heard(base.shaft, late)
    stored = 0.5 * (base.shaft.inertia * mean**2 + base.shaft.rotor * rotor**2)
    return replace(
        base, speed=rotor, crank_speed=mean, slowest=float(late.speed.min()), spun=late,
        at_top=slowest_top(plain, late), stored_energy=stored,
    )  # fmt: skip


def _gauges(plain: PlainEngine, shaft: ShaftSpec, stop: Stop | None) -> tuple[float, ...]:
    return tuple(
        gauge_reading(plain, shaft, _CRANKED, stop, cylinder=row)
        for row in range(len(plain.cylinders))
    )


def _lacking(plain: PlainEngine, shaft: ShaftSpec, stop: Stop | None) -> float:
    """Torque at a stand that brings it over with its run-up, less what there is, N·m.

    A starter without a speed, which no torque helps, lacks nothing that is told.
    """
    if shaft.starter_free <= LEAST_SPEED:
        return 0.0

    def enough(stall: float) -> bool:
        return comes_over(plain, replace(shaft, starter_stall=stall), stop)

    low, high = shaft.starter_stall, max(2.0 * shaft.starter_stall, _LEAST_STALL)
    while not enough(high) and high < _MOST_STALL:
        low, high = high, 2.0 * high
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if enough(middle) else (middle, high)
    return high - shaft.starter_stall
