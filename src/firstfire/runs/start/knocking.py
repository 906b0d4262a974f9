"""Knock along a start: whether the end gas of a burn lights by itself before the flame is there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from firstfire.cycle import layout
from firstfire.engine.engine import Engine
from firstfire.errors import OutsideValidity
from firstfire.formulas import knock
from firstfire.runs.start.seen import Seen

_HIGHEST = 100.0
_ENOUGH_LEFT = 0.05
"""Share of what is to burn that has to be unburned for its lighting to be heard. Common practice,
no source."""


@dataclass(frozen=True)
class EndGas:
    """The end gas of one burn.

    Attributes
    ----------
    cylinder
        Counted from 0.
    seconds, speed
        Where it lit by itself, or else where the burn was over: s and rad/s.
    waited
        The integral of ignition delay by then: at 1 it lights.
    left
        Share of what was to burn that was unburned then.
    """

    cylinder: int
    seconds: float
    speed: float
    waited: float
    left: float

    @property
    def knocks(self) -> bool:
        """Whether enough of it lights by itself to be heard."""
        return self.waited >= 1.0 and self.left >= _ENOUGH_LEFT


@dataclass(frozen=True)
class Knocking:
    """Knock along a start.

    Attributes
    ----------
    octane
        Of the fuel, research.
    burns
        End gas of each burn, in time; none where it isn't judged.
    why_not
        Why it isn't judged; "" where it is.
    """

    octane: float
    burns: tuple[EndGas, ...]
    why_not: str = ""

    @property
    def heard(self) -> tuple[EndGas, ...]:
        """Burns that knock."""
        return tuple(one for one in self.burns if one.knocks)

    @property
    def most(self) -> float:
        """The largest integral; 0 without a burn."""
        return max((one.waited for one in self.burns), default=0.0)


def knocking(engine: Engine, seen: Seen) -> Knocking:
    """Whether, and when, a start knocks.

    Parameters
    ----------
    engine
        For the fuel's octane number.
    seen
        One start, step by step.

    Notes
    -----
    Douaud and Eyzat's delay at the pressure of the cylinder and the temperature of its unburned
    zone, from the shutting of its valves on. Of a fuel above 100 octane the answer for 100 bounds
    it: where that one doesn't knock it doesn't either; where it does nothing is said.
    """
    datum = engine.catalog.row("fuel", seen.life.plain.intake.fuel).get("octane")
    if datum is None:
        return Knocking(0.0, (), "the catalog has no octane number of this fuel")
    octane = float(datum.si)
    try:
        knock.douaud_eyzat_range(min(octane, _HIGHEST))
    except OutsideValidity:
        return Knocking(octane, (), "the law of its delay was fitted to 80 octane and more")
    burns = sorted(_burns(seen, min(octane, _HIGHEST)), key=lambda one: one.seconds)
    found = Knocking(octane, tuple(burns))
    if octane > _HIGHEST and found.heard:
        why = f"a fuel of 100 octane would knock; the law of delay ends there, below {octane:.0f}"
        return Knocking(octane, (), why)
    return found


def _burns(seen: Seen, octane: float) -> Iterator[EndGas]:
    for row in range(len(seen.life.phases)):
        burning = seen.events["burning"][:, row] == 1
        edges = np.flatnonzero(np.diff(burning.astype(int)))
        for begins in edges[~burning[edges]]:
            ends = next((int(one) for one in edges if one > begins), len(burning) - 1)
            yield _end_gas(seen, row, int(begins) + 1, ends, octane)


def _end_gas(seen: Seen, row: int, begins: int, ends: int, octane: float) -> EndGas:
    """The integral from the last shutting of the valves to the burn's end, or to where it is 1."""
    shut = seen.events["closed"][:, row] == 1
    first = begins
    while first > 0 and shut[first - 1]:
        first -= 1
    steps, name = slice(first, ends + 1), f"cylinder {row + 1}"
    time = seen.time[steps].tolist()
    pressures = seen.of(name, steps, layout.PRESSURE).tolist()
    warm = seen.of(name, steps, layout.TEMPERATURE).tolist()
    delays = [knock.douaud_eyzat(octane, p, t) for p, t in zip(pressures, warm, strict=True)]
    waited, at = 0.0, first
    for step in range(1, len(time)):
        waited += knock.livengood_wu(time[step - 1 : step + 1], delays[step - 1 : step + 1])
        at = first + step
        if waited >= 1.0:
            break
    return EndGas(row, float(seen.time[at]), seen.speed(at), waited, _left(seen, row, at))


def _left(seen: Seen, row: int, step: int) -> float:
    """Share of what was to burn that is unburned at a step."""
    unburned = sum(
        float(seen.of(f"cylinder {row + 1}", step, what))
        for what in (layout.AIR, layout.FUEL, layout.BURNED)
    )
    burned = float(seen.zone(row, step))
    amount = float(seen.events["amount"][step, row])
    return max(1.0 - burned / (amount * (burned + unburned)), 0.0)
