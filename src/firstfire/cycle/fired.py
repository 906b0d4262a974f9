"""A fired steady point: the cycle and its own burn, until they agree; then its scatter."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from firstfire.cycle.assembly import network
from firstfire.cycle.burn_plan import Burn, Charge, burn_plan
from firstfire.cycle.layout import State
from firstfire.cycle.limit_cycle import LimitCycle, limit_cycle
from firstfire.cycle.records import BurnSpec, EngineSpec
from firstfire.engine.geometry import firing_angles
from firstfire.engine.records import Walls
from firstfire.engine.resolve import PlainEngine

_FIRST_BURN = BurnSpec(start=math.radians(-10), duration=math.radians(60))
_AGREED = math.radians(0.3)
_MOST_ROUNDS = 8
_ROUGH = 5e-3


@dataclass(frozen=True)
class Fired:
    """A steady point with its burn.

    Attributes
    ----------
    spec
        The network.
    cycle
        The repeated cycle.
    burns
        Of each cylinder; None where it misfires.
    agreed
        Whether burn and cycle agreed to 0.3° of crank.
    """

    spec: EngineSpec
    cycle: LimitCycle
    burns: tuple[Burn | None, ...]
    agreed: bool


def fired_cycle(
    engine: PlainEngine,
    speed: float,
    spark: float,
    walls: Sequence[Walls],
    *,
    start: State | None = None,
    guess: Sequence[Burn | None] | None = None,
    stop: Callable[[], bool] | None = None,
) -> Fired:
    """The cycle that an engine repeats at a held speed with its spark at an angle.

    Parameters
    ----------
    engine
        Plain numbers.
    speed
        rad/s.
    spark
        Crank angle of the spark after firing top centre (negative before), rad.
    walls
        Of each cylinder.
    start
        State of a neighbouring point.
    guess
        Burns of a neighbouring point.
    stop
        Asked at least every 0.1 s.

    Raises
    ------
    OutsideValidity, Stopped
        As :func:`firstfire.cycle.limit_cycle.limit_cycle`.
    """
    specs: tuple[BurnSpec | None, ...] = (_FIRST_BURN,) * len(engine.cylinders)
    if guess is not None and None not in guess:
        specs = tuple(burn.spec if burn is not None else None for burn in guess)
    burns: tuple[Burn | None, ...] = ()
    agreed = False
    for _ in range(_MOST_ROUNDS):
        spec = network(engine, walls, specs)
        cycle = limit_cycle(spec, speed, start=start, change=_ROUGH, stop=stop)
        start = cycle.state
        burns = _plans(engine, cycle, speed, spark)
        agreed = _agree(specs, burns)
        if agreed:
            break
        specs = tuple(None if burn is None else burn.spec for burn in burns)
    spec = network(engine, walls, specs)
    final = limit_cycle(spec, speed, start=start, stop=stop)
    return Fired(spec, final, burns, agreed)


def _agree(specs: Sequence[BurnSpec | None], burns: Sequence[Burn | None]) -> bool:
    for old, new in zip(specs, burns, strict=True):
        if (old is None) != (new is None):
            return False
        if old is None or new is None:
            continue
        off = max(abs(old.start - new.spec.start), abs(old.duration - new.spec.duration))
        if off > _AGREED:
            return False
    return True


def _plans(
    engine: PlainEngine, cycle: LimitCycle, speed: float, spark: float
) -> tuple[Burn | None, ...]:
    phases = firing_angles(engine)
    return tuple(
        burn_plan(engine, parts, speed, spark, charge_at(cycle, row, phases[row], spark))
        for row, parts in enumerate(engine.cylinders)
    )


def charge_at(cycle: LimitCycle, row: int, phase: float, spark: float) -> Charge:
    """State of a cylinder's charge at an angle before it burns, from a cycle's curves."""
    curves, figures = cycle.curves, cycle.cylinders[row]
    local = (curves.angle - phase + 2 * math.pi) % (4 * math.pi) - 2 * math.pi
    place = int(np.argmin(np.abs(local - spark)))
    return Charge(
        pressure=float(curves.pressure[place, row]),
        temperature=float(curves.temperature[place, row]),
        volume=float(curves.volume[place, row]),
        burned_fraction=figures.residual_fraction,
        equivalence_ratio=figures.trapped_phi,
    )


def unfired_cycle(
    engine: PlainEngine,
    speed: float,
    walls: Sequence[Walls],
    *,
    start: State | None = None,
    stop: Callable[[], bool] | None = None,
) -> Fired:
    """The cycle that an engine repeats when it is turned at a held speed without fuel."""
    nothing = (None,) * len(engine.cylinders)
    spec = network(engine, walls, nothing)
    return Fired(spec, limit_cycle(spec, speed, start=start, stop=stop), nothing, agreed=True)
