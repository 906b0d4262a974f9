"""A fired steady point: the cycle and its own burn, until they agree; then its scatter."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from firstfire.cycle import layout
from firstfire.cycle.assembly import network
from firstfire.cycle.build import volumes_at
from firstfire.cycle.burn_plan import Burn, Charge, burn_plan
from firstfire.cycle.flame_plan import Flame
from firstfire.cycle.layout import Records, State
from firstfire.cycle.limit_cycle import LimitCycle, limit_cycle
from firstfire.cycle.records import BurnSpec, EngineSpec
from firstfire.cycle.run import Trace
from firstfire.engine.records import Walls
from firstfire.engine.resolve import PlainEngine

FIRST_BURN = BurnSpec(start=math.radians(-10), duration=math.radians(60))
_AGREED = math.radians(0.1)
FOLLOWED = 12
"""Cycles after which a burn stays as it is: one whose cycles never repeat would chase them."""
MOST = 24


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
        Whether burn and cycle agreed to 0.1° of crank.
    flames
        Of each cylinder where it burned by a travelling flame, None where it misfires; None as a
        whole where it burned by Wiebe's law.
    """

    spec: EngineSpec
    cycle: LimitCycle
    burns: tuple[Burn | None, ...]
    agreed: bool
    flames: tuple[Flame | None, ...] | None = None


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
    specs = first_burns(engine, guess)
    spec = network(engine, walls, specs)
    start = None if start is None else without_flame(start)
    planned: tuple[Burn | None, ...] = ()
    off, followed = math.inf, 0

    def adapt(engines: Records, state: State, trace: Trace) -> tuple[State, float]:
        """Let the next cycle burn as the charge of this one would."""
        nonlocal specs, planned, off, followed
        followed += 1
        planned = tuple(
            burn_plan(engine, parts, speed, spark, charge_in(engines, trace, row, spark))
            for row, parts in enumerate(engine.cylinders)
        )
        off = _apart(specs, planned)
        if off <= 1.0 or followed > FOLLOWED:
            return state, off
        specs = tuple(None if burn is None else burn.spec for burn in planned)
        return set_burns(engines, state, specs), off

    cycle = limit_cycle(spec, speed, start=start, adapt=adapt, most_cycles=MOST, stop=stop)
    return Fired(with_burns(spec, specs), cycle, planned, off <= 1.0)


def first_burns(
    engine: PlainEngine, guess: Sequence[Burn | None] | None
) -> tuple[BurnSpec | None, ...]:
    """Burns of the first cycle: those of a neighbouring point where all of it lights."""
    if guess is not None and None not in guess:
        return tuple(burn.spec if burn is not None else None for burn in guess)
    return (FIRST_BURN,) * len(engine.cylinders)


def without_flame(state: State) -> State:
    """A state whose burns go by Wiebe's law, one under way from here on."""
    cylinders = state.cylinders.copy()
    cylinders["flame"] = 0
    return state._replace(cylinders=cylinders)


def with_burns(spec: EngineSpec, specs: Sequence[BurnSpec | None]) -> EngineSpec:
    """A network whose cylinders burn so."""
    each = zip(spec.cylinders, specs, strict=True)
    return replace(spec, cylinders=tuple(replace(one, burn=burn) for one, burn in each))


def _apart(specs: Sequence[BurnSpec | None], burns: Sequence[Burn | None]) -> float:
    """How far two sets of burns are apart, in units of what counts as agreed."""
    furthest = 0.0
    for old, new in zip(specs, burns, strict=True):
        if (old is None) != (new is None):
            return math.inf
        if old is None or new is None:
            continue
        off = max(abs(old.start - new.spec.start), abs(old.duration - new.spec.duration))
        furthest = max(furthest, off / _AGREED)
    return furthest


def set_burns(engines: Records, state: State, specs: Sequence[BurnSpec | None]) -> State:
    """Give an engine's record new burns; the state that follows, burns ahead moved along."""
    events = state.cylinders.copy()
    for row, spec in enumerate(specs):
        record = engines[0]["cylinders"][row]
        record["fire"] = spec is not None
        if spec is not None:
            events["next_burn"][row] += spec.start - record["burn_start"]
            record["burn_start"], record["burn_duration"] = spec.start, spec.duration
            record["wiebe_a"], record["wiebe_m"] = spec.wiebe_a, spec.wiebe_m
    return state._replace(cylinders=events)


def charge_in(engines: Records, trace: Trace, row: int, spark: float) -> Charge:
    """State of a cylinder's charge at an angle before it burns, from one traced cycle."""
    engine = engines[0]
    begins = float(trace.angle[0])
    phase = float(engine["cylinders"]["phase"][row])
    angle = begins + (phase + spark - begins) % (4 * math.pi)
    at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE
    gas = np.array([np.interp(angle, trace.angle, trace.values[:, at + n]) for n in range(5)])
    air, fuel, burned = (float(mass) for mass in gas[layout.AIR : layout.BURNED + 1])
    stoichiometric = float(engine["gas"]["stoichiometric_air_fuel_ratio"])
    return Charge(
        pressure=float(gas[layout.PRESSURE]),
        temperature=float(gas[layout.TEMPERATURE]),
        volume=float(volumes_at(engines, angle)[row]),
        burned_fraction=burned / (air + fuel + burned),
        equivalence_ratio=fuel / air * stoichiometric if air > 0.0 else 0.0,
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
