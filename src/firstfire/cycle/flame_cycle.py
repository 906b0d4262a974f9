"""A steady point that burns by a travelling flame, lit at the true spark of each of its cycles."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from firstfire.cycle.assembly import network
from firstfire.cycle.build import build_engine
from firstfire.cycle.burn_plan import Burn, Charge
from firstfire.cycle.cycle_trace import CycleTrace
from firstfire.cycle.fired import (
    FOLLOWED,
    MOST,
    Fired,
    charge_in,
    first_burns,
    set_burns,
    with_burns,
)
from firstfire.cycle.flame_burn import told_burn
from firstfire.cycle.flame_plan import Flame, let_travel
from firstfire.cycle.layout import Records, State
from firstfire.cycle.limit_cycle import CYCLE, limit_cycle
from firstfire.cycle.records import BurnSpec, EngineSpec
from firstfire.cycle.run import Trace
from firstfire.engine.geometry import firing_angles
from firstfire.engine.records import Walls
from firstfire.engine.resolve import PlainEngine

Light = Callable[[int, Charge], Flame | None]
"""The flame that a spark lights in a cylinder's charge; None: it lights none."""

_ALIKE = 2e-3
"""Flames whose speeds differ by less part by under 0.1° of crank over the 50° that they burn."""


def flame_cycle(
    engine: PlainEngine,
    speed: float,
    spark: float,
    walls: Sequence[Walls],
    light: Light,
    *,
    start: State | None = None,
    guess: Sequence[Burn | None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Fired:
    """The cycle that an engine repeats at a held speed, a flame lit at its spark.

    Each cycle burns with the flame that the charge of the one before it lights; once cycles repeat,
    that is the charge's own.

    Parameters
    ----------
    engine, speed, spark, walls, start, guess, stop
        As :func:`firstfire.cycle.fired.fired_cycle` has them.
    light
        What a spark lights.

    Raises
    ------
    OutsideValidity, Stopped
        As :func:`firstfire.cycle.limit_cycle.limit_cycle`.
    """
    at = spark + engine.doubt.burn_phase
    spec = network(engine, walls, _first(engine, at, start, guess))
    flames: tuple[Flame | None, ...] = ()
    off, followed = math.inf, 0

    def made(of: EngineSpec) -> Records:
        engines = build_engine(of)
        let_travel(engines, engine)
        return engines

    def adapt(engines: Records, state: State, trace: Trace) -> tuple[State, float]:
        """Let the next cycle burn as a flame in the charge of this one would."""
        nonlocal flames, off, followed
        followed += 1
        rows = range(len(engine.cylinders))
        planned = tuple(light(row, charge_in(engines, trace, row, at)) for row in rows)
        off = _apart(flames, planned)
        if off <= 1.0 or followed > FOLLOWED:
            return state, off
        flames = planned
        return _lit(engines, state, flames, at), off

    cycle = limit_cycle(
        spec, speed, start=start, adapt=adapt, made=made, most_cycles=MOST, stop=stop
    )
    burns = tuple(
        _burn(cycle.curves, row, phase, at) if flames[row] else None
        for row, phase in enumerate(firing_angles(engine))
    )
    spec = with_burns(spec, [None if burn is None else burn.spec for burn in burns])
    return Fired(spec, cycle, burns, off <= 1.0, flames)


def _first(
    engine: PlainEngine, at: float, start: State | None, guess: Sequence[Burn | None] | None
) -> tuple[BurnSpec | None, ...]:
    """Burns of the first cycle: from the spark on where it starts with flames to burn by."""
    specs = first_burns(engine, guess)
    if start is None or not start.cylinders["flame"].all():
        return specs
    return tuple(None if one is None else replace(one, start=at) for one in specs)


def _apart(flames: Sequence[Flame | None], planned: Sequence[Flame | None]) -> float:
    """How far two sets of flames are apart, in units of what counts as alike."""
    if len(flames) != len(planned):
        return math.inf
    furthest = 0.0
    for old, new in zip(flames, planned, strict=True):
        if (old is None) != (new is None):
            return math.inf
        if old is not None and new is not None:
            furthest = max(furthest, _differ(old, new) / _ALIKE)
    return furthest


def _differ(old: Flame, new: Flame) -> float:
    """Largest difference of two flames: of speed and density as a share, of the speed's powers."""
    speed = max(old.flame_speed, new.flame_speed)
    return max(
        abs(old.flame_speed - new.flame_speed) / speed if speed > 0.0 else 0.0,
        abs(math.log(new.flame_density / old.flame_density)),
        abs(old.flame_temperature_power - new.flame_temperature_power),
        abs(old.flame_pressure_power - new.flame_pressure_power),
    )


def _lit(engines: Records, state: State, flames: Sequence[Flame | None], at: float) -> State:
    """The state that goes on with flames, each lit at its cylinder's spark."""
    shown = BurnSpec(start=at, duration=math.pi)
    state = set_burns(engines, state, [None if flame is None else shown for flame in flames])
    for row, flame in enumerate(flames):
        if flame is not None:
            flame.put_in(state.cylinders, row)
    return state


def _burn(curves: CycleTrace, row: int, phase: float, at: float) -> Burn | None:
    """When a cylinder burned in a cycle that may begin amid its burn; None: it didn't."""
    since = (curves.angle - phase - at) % CYCLE
    order = np.argsort(since, kind="stable")
    share = curves.burned_fraction[order, row]
    return told_burn(since[order], share, at) if (share > 0.0).any() else None
