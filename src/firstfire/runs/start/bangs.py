"""After-fire and spit-back along a start: what burns in the exhaust, or back into the intake."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from firstfire.formulas import pipe_burn
from firstfire.runs.start.asked import Sparked
from firstfire.runs.start.seen import Gas, Seen

Kind = Literal["after_fire", "spit_back"]
Why = Literal["hot_gas_meets_it", "meets_hot_gas", "still_burning", "sparked_open"]
"""Burned gas comes to an unburned charge in the pipe; an unburned charge comes to burned gas there;
its flame is alive as the valve opens; a spark jumps while the valve is open."""

_FEW = 0.05
"""Of the charge: what is left of less is burned on the way out and heard by none. Common practice,
no source."""


@dataclass(frozen=True)
class Bang:
    """A charge that lights where it should not.

    Attributes
    ----------
    kind, why
        Where, and how it comes to it.
    cylinder
        Counted from 0.
    seconds, speed
        When, s, and how fast it turned then, rad/s.
    heat
        What that charge gives as far as its air goes, J.
    rise
        The most by which the pipe's pressure may rise, shut in, Pa.
    """

    kind: Kind
    why: Why
    cylinder: int
    seconds: float
    speed: float
    heat: float
    rise: float


def bangs(seen: Seen) -> tuple[Bang, ...]:
    """What burns in exhaust and intake along a start, in time.

    Parameters
    ----------
    seen
        One start, step by step.

    Notes
    -----
    Looked for at each opening of the exhaust, where what is in the cylinder meets what is in the
    pipe, and at each spark into an open cylinder. A flame that is alive as the exhaust opens is
    taken to go on as fast as it did then: where that lasts until the inlet opens, it spits back.
    The gas goes on as the kernel has it: nothing that is told here moves the shaft.
    """
    found = [*_at_openings(seen), *_at_sparks(seen)]
    return tuple(sorted(found, key=lambda one: one.seconds))


def _at_openings(seen: Seen) -> Iterator[Bang]:
    for row in range(len(seen.life.phases)):
        for step in seen.openings(row):
            if 0.0 < seen.place(row, step) < 2 * math.pi:
                yield from _at_exhaust(seen, row, step)


def _at_exhaust(seen: Seen, row: int, step: int) -> Iterator[Bang]:
    """What an exhaust that opens brings together."""
    if seen.events["burning"][step, row] == 1:
        yield from _alive(seen, row, step)
        return
    charge, pipe = seen.gas(f"cylinder {row + 1}", step), seen.gas(f"stub {row + 1}", step)
    if _burns(seen, pipe) and _hot(charge):
        yield _bang(seen, "after_fire", "hot_gas_meets_it", row, step, pipe, pipe)
    elif _burns(seen, charge) and _hot(pipe):
        yield _bang(seen, "after_fire", "meets_hot_gas", row, step, _filling(charge, pipe), pipe)


def _alive(seen: Seen, row: int, step: int) -> Iterator[Bang]:
    """A flame that is not done: it goes out into the exhaust, and may meet the next charge."""
    left = seen.gas(f"cylinder {row + 1}", step)
    burned = float(seen.zone(row, step))
    keeps = 1.0 - float(seen.events["amount"][step, row])
    to_burn = left.mass - keeps * (left.mass + burned)
    if to_burn <= _FEW * (left.mass + burned):
        return
    pipe = seen.gas(f"stub {row + 1}", step)
    yield _bang(seen, "after_fire", "still_burning", row, step, _filling(left, pipe), pipe)
    before = float(seen.zone(row, step - 1))
    rate = (burned - before) / float(seen.time[step] - seen.time[step - 1])
    lasts = to_burn / rate if rate > 0.0 else math.inf
    runner = seen.gas(f"runner {row + 1}", step)
    if lasts > _until_inlet(seen, row, step) and _burns(seen, runner):
        yield _bang(seen, "spit_back", "still_burning", row, step, runner, runner)


def _until_inlet(seen: Seen, row: int, step: int) -> float:
    """Time from an opening of the exhaust to that of the inlet, at the speed it has, s."""
    valve = seen.life.plain.cylinders[row].valves.inlet
    early = valve.opens_before_top if valve.worked == "cam" else 0.0
    angle = 2 * math.pi - early - seen.place(row, step)
    return max(angle, 0.0) / max(seen.speed(step), 1e-6)


def _at_sparks(seen: Seen) -> Iterator[Bang]:
    """Sparks into a charge that burns, with a valve open."""
    for spark in seen.lived.sparks:
        if spark.missed == "open" and pipe_burn.can_burn(spark.mixture, spark.burned):
            step = max(int(seen.time.searchsorted(spark.seconds)) - 1, 0)
            yield _sparked(seen, spark, step)


def _sparked(seen: Seen, spark: Sparked, step: int) -> Bang:
    # From the top between exhaust and inlet on the inlet is what stands open.
    kind: Kind = "spit_back" if spark.angle < 0.0 else "after_fire"
    name = "runner" if kind == "spit_back" else "stub"
    row = spark.cylinder
    pipe = seen.gas(f"{name} {row + 1}", step)
    charge = seen.gas(f"cylinder {row + 1}", step)
    lit = pipe if _burns(seen, pipe) else _filling(charge, pipe)
    return _bang(seen, kind, "sparked_open", row, step, lit, pipe)


def _burns(seen: Seen, gas: Gas) -> bool:
    stoichiometric = float(seen.life.engines[0]["gas"]["stoichiometric_air_fuel_ratio"])
    return pipe_burn.can_burn(gas.mixture(stoichiometric), gas.burned / gas.mass)


def _hot(gas: Gas) -> bool:
    """Whether it is burned gas that lights another."""
    return gas.temperature >= pipe_burn.LIGHTS and gas.burned > 0.5 * gas.mass


def _filling(charge: Gas, pipe: Gas) -> Gas:
    """That part of a charge which fills a pipe, let down to the pipe's pressure without heat."""
    let_down = charge.temperature * (pipe.pressure / charge.pressure) ** (0.3 / 1.3)
    room = charge.volume * (charge.pressure / pipe.pressure) * let_down / charge.temperature
    share = min(pipe.volume / room, 1.0)
    return Gas(
        pipe.pressure, let_down, share * charge.air, share * charge.fuel, share * charge.burned,
        pipe.volume,
    )  # fmt: skip


def _bang(seen: Seen, kind: Kind, why: Why, row: int, step: int, charge: Gas, pipe: Gas) -> Bang:
    gas = seen.life.engines[0]["gas"]
    heat = pipe_burn.heat_in(
        charge.air, charge.fuel, float(gas["stoichiometric_air_fuel_ratio"]),
        float(gas["lower_heating_value"]),
    )  # fmt: skip
    rise = pipe_burn.shut_in_rise(heat, pipe.volume)
    return Bang(kind, why, row, float(seen.time[step]), seen.speed(step), heat, rise)
