"""The first combustion: a charge that no burned gas has thinned, lit from cranking, cold walls."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from firstfire.cycle.assembly import network
from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.burn_plan import Burn, burn_plan
from firstfire.cycle.cycle_trace import cycle_trace
from firstfire.cycle.figures import cylinder_figures
from firstfire.cycle.fired import Fired, charge_at
from firstfire.cycle.gas_table import gas_tables
from firstfire.cycle.health import closure
from firstfire.cycle.layout import AMOUNT, DURATION, PHASE, Records, State
from firstfire.cycle.limit_cycle import CYCLE, Health, LimitCycle
from firstfire.cycle.records import BurnSpec, EngineSpec
from firstfire.cycle.run import Floats, Trace, run_to, run_traced
from firstfire.cycle.scatter import Shift, peaks_from
from firstfire.engine.geometry import firing_angles
from firstfire.engine.records import Peaks, Walls
from firstfire.engine.resolve import PlainEngine

_TURNED = 3
"""Cycles turned without spark before the first combustion, so that mixture fills the cylinders."""

_NEVER = BurnSpec(start=math.radians(100), duration=math.radians(50))
"""Stands in while it is only asked what charge a spark would find."""


@dataclass(frozen=True)
class FirstCombustion:
    """One combustion in each cylinder, and what its strong and rare ones reach."""

    fired: Fired
    peaks: tuple[Peaks, ...]


def first_combustion(
    engine: PlainEngine,
    speed: float,
    spark: float,
    walls: Sequence[Walls],
    *,
    stop: Callable[[], bool] | None = None,
) -> FirstCombustion:
    """One combustion in each cylinder after turning with mixture and without spark.

    Parameters
    ----------
    engine
        Plain numbers.
    speed
        About top centre, rad/s, held.
    spark
        Crank angle after firing top centre, rad.
    walls
        Of each cylinder.
    stop
        Asked at least every 0.1 s.

    Notes
    -----
    It happens once: ``cycle.converged`` is False and ``cycle_change`` 0.
    """
    phases = firing_angles(engine)
    count = len(phases)
    waiting = _Turned(engine, speed, walls, [_NEVER] * count, phases, stop)
    charges = [charge_at(waiting.cycle(None), row, phases[row], spark) for row in range(count)]
    burns: tuple[Burn | None, ...] = tuple(
        burn_plan(engine, parts, speed, spark, charge)
        for parts, charge in zip(engine.cylinders, charges, strict=True)
    )
    specs = [None if burn is None else burn.spec for burn in burns]
    lit = _Turned(engine, speed, walls, specs, phases, stop)
    fired = Fired(lit.spec, lit.cycle(None), burns, agreed=True)
    return FirstCombustion(fired, peaks_from(fired, phases, engine.fuel, lit.peaks))


class _Turned:
    """An engine turned with mixture up to its first combustion, ready to burn once in many ways."""

    def __init__(
        self,
        engine: PlainEngine,
        speed: float,
        walls: Sequence[Walls],
        burns: Sequence[BurnSpec | None],
        phases: Sequence[float],
        stop: Callable[[], bool] | None,
    ) -> None:
        self.spec: EngineSpec = network(engine, walls, burns, first=True)
        self.engines: Records = build_engine(self.spec)
        self.speed, self.phases, self.stop = speed, phases, stop
        begins = _middle_of_longest_gap(phases)
        fresh = start_state(self.spec, self.engines, begins, speed)
        self.numbers = [int(n) for n in fresh.cylinders["cycle"]]
        self.begins = begins + _TURNED * CYCLE
        self.state: State = run_to(
            self.engines, fresh, self.begins, stop=stop, factors=self._factors(None)
        )

    def _factors(self, shifts: Sequence[Shift] | None) -> Floats:
        """No burn for the cycles turned, then one: shifted and stretched as asked."""
        factors = np.zeros((_TURNED + 1, len(self.phases), 3))
        factors[:, :, DURATION] = 1.0
        for row, number in enumerate(self.numbers):
            burns = (number + _TURNED) % (_TURNED + 1)
            factors[burns, row, AMOUNT] = 1.0
            if shifts is not None:
                factors[burns, row, PHASE], factors[burns, row, DURATION] = shifts[row]
        return factors

    def trace(self, shifts: Sequence[Shift] | None) -> tuple[State, Trace]:
        """The cycle that holds the one combustion of each cylinder."""
        return run_traced(
            self.engines, self.state, self.begins + CYCLE, self.stop, self._factors(shifts)
        )

    def peaks(self, shifts: Sequence[Shift]) -> list[float]:
        """Peak pressure of each cylinder with its burn shifted and stretched."""
        curves = cycle_trace(self.engines, self.trace(shifts)[1], self.spec.ambient_pressure)
        return [float(curves.pressure[:, row].max()) for row in range(len(self.phases))]

    def cycle(self, shifts: Sequence[Shift] | None) -> LimitCycle:
        """That cycle with its figures."""
        final, trace = self.trace(shifts)
        curves = cycle_trace(self.engines, trace, self.spec.ambient_pressure)
        gas = gas_tables(self.spec.fuel, self.spec.equivalence_ratio, self.spec.water)
        books = closure(self.engines, gas, trace)
        figures = [
            cylinder_figures(self.spec, self.engines, trace, curves, row)
            for row in range(len(self.phases))
        ]
        names = [v.name for v in self.spec.valves] + [p.name for p in self.spec.passages]
        return LimitCycle(
            speed=self.speed,
            converged=False,
            cycles=_TURNED + 1,
            state=final,
            cylinders=tuple(figures),
            curves=curves,
            passages=tuple(names),
            mean_gas_torque=float(np.trapezoid(curves.gas_torque, curves.angle)) / CYCLE,
            health=Health(books.energy, books.mass, 0.0),
        )


def _middle_of_longest_gap(phases: Sequence[float]) -> float:
    """A shaft angle as far from any firing as can be, so that no burn is cut in two."""
    order = sorted(phases)
    gaps = [(b - a, a) for a, b in zip(order, [*order[1:], order[0] + CYCLE], strict=True)]
    gap, after = max(gaps)
    return after + gap / 2 - CYCLE
