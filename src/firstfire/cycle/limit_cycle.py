"""A steady running point: cycles run until they repeat, and what the repeated cycle is."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.cycle_trace import CycleTrace, cycle_trace
from firstfire.cycle.figures import CylinderFigures, cylinder_figures
from firstfire.cycle.gas_table import gas_tables
from firstfire.cycle.health import closure
from firstfire.cycle.layout import Records, State
from firstfire.cycle.records import EngineSpec
from firstfire.cycle.run import run_traced
from firstfire.errors import OutsideValidity

Floats = NDArray[np.float64]

CYCLE = 4.0 * math.pi
FIRST_ANGLE = -2.0 * math.pi
"""Shaft angle at which a cycle is taken to begin: gas-exchange top centre of cylinder 1, rad."""


@dataclass(frozen=True)
class Health:
    """How good a steady point is; all three would be zero.

    Attributes
    ----------
    energy_closure, mass_closure
        See :class:`firstfire.cycle.health.Closure`.
    cycle_change
        Largest relative change from the last cycle but one to the last: of pressure, mass,
        residual and fuel at the shutting of the valves, and of imep over peak pressure.
    """

    energy_closure: float
    mass_closure: float
    cycle_change: float


@dataclass(frozen=True)
class LimitCycle:
    """A steady running point.

    Attributes
    ----------
    speed
        rad/s.
    converged, cycles
        Whether the change fell below what was asked, and after how many cycles.
    state
        At the end: to start the next point from.
    cylinders
        Figures of each cylinder, of the last cycle.
    curves
        The last cycle over crank angle.
    passages
        Names of the passages in the order of ``curves.flow``.
    mean_gas_torque
        Of the cycle, N m, before friction.
    health
        How good it is.
    """

    speed: float
    converged: bool
    cycles: int
    state: State
    cylinders: tuple[CylinderFigures, ...]
    curves: CycleTrace
    passages: tuple[str, ...]
    mean_gas_torque: float
    health: Health


def limit_cycle(
    spec: EngineSpec,
    speed: float,
    *,
    start: State | None = None,
    change: float = 5e-4,
    most_cycles: int = 60,
    stop: Callable[[], bool] | None = None,
) -> LimitCycle:
    """The cycle an engine repeats at a held speed.

    Parameters
    ----------
    spec
        The engine.
    speed
        Of the shaft, rad/s, above 0.
    start
        State of the same network to start from, such as that of a neighbouring point; None
        starts from fresh charge.
    change
        Stop when no quantity of :attr:`Health.cycle_change` changes more than this.
    most_cycles
        Give up converging after so many cycles; ``converged`` is then False.
    stop
        Asked at least every 0.1 s; true stops.

    Raises
    ------
    OutsideValidity
        A speed not above 0, or a start of another network.
    Stopped
        If ``stop`` said so.
    """
    if not speed > 0.0:
        raise OutsideValidity(f"speed is {speed:g} rad/s: a steady point needs it above 0.")
    engines = build_engine(spec)
    state = begin(spec, engines, speed, start)
    end = FIRST_ANGLE
    before = _marks(engines, state)
    cycles, moved = 0, math.inf
    # Every cycle is traced: that costs less than running the last one again.
    while cycles == 0 or (cycles < most_cycles and moved > change):
        end += CYCLE
        last = state
        state, trace = run_traced(engines, state, end, stop=stop)
        marks = _marks(engines, state, last)
        cycles += 1
        if cycles > 1:
            moved = float(np.max(np.abs(marks - before)))
        before = marks
    curves = cycle_trace(engines, trace, spec.ambient_pressure)
    books = closure(engines, gas_tables(spec.fuel, spec.equivalence_ratio), trace)
    return LimitCycle(
        speed=speed,
        converged=moved <= change,
        cycles=cycles,
        state=state,
        cylinders=tuple(
            cylinder_figures(spec, engines, trace, curves, row)
            for row in range(len(spec.cylinders))
        ),
        curves=curves,
        passages=tuple([item.name for item in spec.valves] + [item.name for item in spec.passages]),
        mean_gas_torque=float(np.trapezoid(curves.gas_torque, curves.angle)) / CYCLE,
        health=Health(books.energy, books.mass, moved),
    )


def begin(spec: EngineSpec, engines: Records, speed: float, start: State | None) -> State:
    """The given state turned back to the first angle at the new speed, or a fresh one."""
    fresh = start_state(spec, engines, FIRST_ANGLE, speed)
    if start is None:
        return fresh
    if start.values.size != fresh.values.size or len(start.cylinders) != len(fresh.cylinders):
        raise OutsideValidity("start is the state of another engine: its network differs.")
    values, events = start.values.copy(), start.cylinders.copy()
    turns = round((values[layout.ANGLE] - FIRST_ANGLE) / CYCLE)
    values[layout.ANGLE] -= CYCLE * turns
    if abs(values[layout.ANGLE] - FIRST_ANGLE) > 1e-6:
        raise OutsideValidity("start does not stand at the beginning of a cycle.")
    values[layout.ANGLE], values[layout.SPEED] = FIRST_ANGLE, speed
    values[int(engines[0]["moving"]) :] = 0.0
    # A burn under way keeps its share; when the next begins follows from the new engine.
    for row in range(len(events)):
        events["next_burn"][row] = fresh.cylinders["next_burn"][row]
        events["cycle"][row] = fresh.cylinders["cycle"][row]
        while events["burning"][row] and events["next_burn"][row] <= FIRST_ANGLE:
            events["next_burn"][row] += CYCLE
            events["cycle"][row] += 1
    return State(np.zeros(1), start.step.copy(), values, events)


def _marks(engines: Records, state: State, before: State | None = None) -> Floats:
    """What must repeat, each made relative: see :attr:`Health.cycle_change`."""
    events, engine = state.cylinders, engines[0]
    count = len(events)
    mass = np.maximum(events["reference_mass"], 1e-12)
    sums = int(engine["cylinder_sums_at"]) + layout.CYLINDER_SUMS * np.arange(count) + layout.WORK
    work = state.values[sums] - (0.0 if before is None else before.values[sums])
    swept = engine["cylinders"]["displacement"][:count]
    return np.concatenate(
        [
            np.log(events["reference_pressure"]),
            np.log(mass),
            events["reference_burned"] / mass,
            events["reference_fuel"] / mass * 10.0,
            work / swept / WORK_SCALE,
        ]
    )


WORK_SCALE = 1e6
"""Mean effective pressure that its change is taken relative to, Pa."""
