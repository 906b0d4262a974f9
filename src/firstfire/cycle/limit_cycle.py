"""A steady running point: cycles run until they repeat, and what the repeated cycle is."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields

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
from firstfire.cycle.run import MOST_TRACED, Trace, run_traced
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
        Whether the change fell below what was asked, and after how many cycles. Where it never
        does, figures and torque are means over the last cycles, and the curves those of the last.
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


Adapt = Callable[[Records, State, Trace], tuple[State, float]]
"""Changes an engine's record after a cycle; gives the state to go on from, and how far it moved
the engine: up to 1 is as good as not at all."""

MEANT_OVER = 8
"""Cycles that figures are the mean of where no cycle repeats; fewer if they have more steps than
there is room for."""

SLOW, CARE_WHEN_SLOW = 100.0 * math.pi / 30.0, 0.1
"""Below this speed, rad/s, so much of the usual error is allowed a step: a cycle's work is small
there, and takes so long that what steps leave over adds up."""


def limit_cycle(
    spec: EngineSpec,
    speed: float,
    *,
    start: State | None = None,
    adapt: Adapt | None = None,
    made: Callable[[EngineSpec], Records] | None = None,
    change: float = 5e-4,
    most_cycles: int = 40,
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
    adapt
        What to change in the engine after each cycle, such as a burn that follows its charge:
        it has to come to rest as well.
    made
        Makes the kernel's record of the engine; None: as it is built of what is described.
    change
        Stop when no quantity of :attr:`Health.cycle_change` changes more than this.
    most_cycles
        Give up converging after so many cycles; ``converged`` is then False.
    stop
        Asked at least every 0.1 s; true stops.

    Raises
    ------
    OutsideValidity
        A speed not above 0, or so low that a cycle takes too many steps; a
        start of another network.
    Stopped
        If ``stop`` said so.
    """
    if not speed > 0.0:
        raise OutsideValidity(f"speed is {speed:g} rad/s: a steady point needs it above 0.")
    engines = (made or build_engine)(spec)
    if speed < SLOW:
        engines["step"]["relative"] *= CARE_WHEN_SLOW
    state = begin(spec, engines, speed, start)
    end = FIRST_ANGLE
    before = _marks(engines, state)
    cycles, moved, off = 0, math.inf, 0.0
    last_traces: list[Trace] = []
    # Every cycle is traced: that costs less than running the last one again.
    while cycles == 0 or (cycles < most_cycles and (moved > change or off > 1.0)):
        end += CYCLE
        last = state
        state, trace = run_traced(engines, state, end, stop=stop)
        marks = _marks(engines, state, last)
        cycles += 1
        if cycles > 1:
            moved = float(np.max(np.abs(marks - before)))
        before = marks
        last_traces = _kept([*last_traces[1 - MEANT_OVER :], trace])
        if adapt is not None and not (cycles > 1 and cycles == most_cycles):
            state, off = adapt(engines, state, trace)
    converged = moved <= change and off <= 1.0
    return _told(spec, engines, state, last_traces, converged, cycles, moved)


def _kept(traces: Sequence[Trace]) -> list[Trace]:
    """As many of the last traces as there is room for, the last at least."""
    kept: list[Trace] = []
    for trace in reversed(traces):
        if kept and sum(t.values.nbytes for t in [*kept, trace]) > MOST_TRACED:
            break
        kept.insert(0, trace)
    return kept


def _told(
    spec: EngineSpec,
    engines: Records,
    state: State,
    traces: Sequence[Trace],
    converged: bool,
    cycles: int,
    moved: float,
) -> LimitCycle:
    """The last cycle with its figures; where none repeats, with the means of the last few."""
    trace = traces[-1]
    curves = cycle_trace(engines, trace, spec.ambient_pressure)
    books = closure(engines, gas_tables(spec.fuel, spec.equivalence_ratio, spec.water), trace)
    rows = range(len(spec.cylinders))
    figures = [cylinder_figures(spec, engines, trace, curves, row) for row in rows]
    torque = _mean_torque(curves)
    if not converged:
        others = [(t, cycle_trace(engines, t, spec.ambient_pressure)) for t in traces[:-1]]
        torque = (torque + sum(_mean_torque(c) for _, c in others)) / len(traces)
        figures = [
            _mean([figures[row], *(cylinder_figures(spec, engines, *o, row) for o in others)])
            for row in rows
        ]
    return LimitCycle(
        speed=float(state.values[layout.SPEED]),
        converged=converged,
        cycles=cycles,
        state=state,
        cylinders=tuple(figures),
        curves=curves,
        passages=tuple([item.name for item in spec.valves] + [item.name for item in spec.passages]),
        mean_gas_torque=torque,
        health=Health(books.energy, books.mass, moved),
    )


def _mean_torque(curves: CycleTrace) -> float:
    return float(np.trapezoid(curves.gas_torque, curves.angle)) / CYCLE


def _mean(found: Sequence[CylinderFigures]) -> CylinderFigures:
    """Each figure's mean; of one that some cycles lack, of those that have it."""

    def mean(name: str) -> float | tuple[float, ...] | None:
        values = [v for v in (getattr(figures, name) for figures in found) if v is not None]
        if not values:
            return None
        if isinstance(values[0], tuple):
            return tuple(float(v) for v in np.mean(values, axis=0))
        return float(np.mean(values))

    return CylinderFigures(**{item.name: mean(item.name) for item in fields(CylinderFigures)})  # type: ignore[arg-type]


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
