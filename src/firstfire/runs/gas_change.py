"""How a cylinder's cycle changes when something moves it, so that a like cycle can follow."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.figures import CylinderFigures
from firstfire.engine.records import GasCycle

Floats = NDArray[np.float64]

ANGLE: Floats = np.linspace(-2 * math.pi, 2 * math.pi, 721)
_MOST = 4.0
"""A ratio beyond this, or below one over it, is of a coefficient at a change of sign."""


@dataclass(frozen=True)
class GasChange:
    """The changed cycle over the one before, by the cylinder's own crank angle.

    Attributes
    ----------
    peak
        Ratio of peak pressures.
    pressure, crankcase_pressure, gas_temperature, coefficient
        Ratios at each whole degree of the cycle; (721).
    leak
        Ratio of what leaks past the rings on balance outwards.
    speed
        Ratio of mean speeds.
    exhaust
        Ratios of what the exhaust port feels: its coefficient, and its temperature.
    work
        Ratio of the work that a cycle gives, or takes where it is turned.
    shut, spat
        How much later the inlet shuts, rad; how much more of the charge it spits back.
    """

    peak: float
    pressure: Floats
    crankcase_pressure: Floats
    gas_temperature: Floats
    coefficient: Floats
    leak: float
    speed: float = 1.0
    exhaust: tuple[float, float] = (1.0, 1.0)
    work: float = 1.0
    shut: float = 0.0
    spat: float = 0.0

    def breathing(self, figures: CylinderFigures) -> CylinderFigures:
        """A like cycle's figures, its inlet shutting and spitting back as this one made it."""
        return replace(
            figures,
            inlet_shut=figures.inlet_shut + self.shut,
            spat_back=min(max(figures.spat_back + self.spat, 0.0), 1.0),
        )

    def changed(self, gas: GasCycle) -> GasCycle:
        """A like cycle, changed as this one was."""

        def share(ratio: Floats) -> Floats:
            return np.asarray(np.interp(gas.angle, ANGLE, ratio), dtype=np.float64)

        return replace(
            gas,
            pressure=gas.pressure * share(self.pressure),
            crankcase_pressure=gas.crankcase_pressure * share(self.crankcase_pressure),
            gas_temperature=gas.gas_temperature * share(self.gas_temperature),
            coefficient=gas.coefficient * share(self.coefficient),
            leak_to_crankcase=gas.leak_to_crankcase * self.leak,
            speed=gas.speed * self.speed,
        )


@dataclass(frozen=True)
class BothWays:
    """What an unknown does to each cylinder's cycle, a deviation to one side and to the other.

    Attributes
    ----------
    forth
        To the side that slopes are taken on.
    back
        To the other; None where it can't be run there.
    """

    forth: tuple[GasChange, ...]
    back: tuple[GasChange, ...] | None

    def towards(self, row: int, places: float) -> tuple[GasChange, float]:
        """The change of a cylinder on the side asked for, and how many times over.

        Where both sides change the peak alike, as a mixture does about its best, the centre lies on
        a top or in a trough: what it does grows with the square. A speed is what it is asked to be,
        on either side.
        """
        if self.back is None:
            return self.forth[row], places
        forth, back = self.forth[row], self.back[row]
        held = math.isclose(forth.speed, back.speed, rel_tol=1e-6)
        over = held and (forth.peak - 1.0) * (back.peak - 1.0) > 0
        times = places**2 if over else abs(places)
        return (back if places < 0 else forth), times


def all_at_once(moves: Sequence[tuple[GasChange, float]]) -> GasChange:
    """Several changes at once, each so many times over.

    Ratios multiply; no cycle is changed beyond what one change may do to it.
    """

    def ratio(name: str) -> Floats:
        total = np.zeros(ANGLE.size)
        for change, times in moves:
            total += times * np.log(getattr(change, name))
        return np.asarray(np.clip(np.exp(total), 1 / _MOST, _MOST), dtype=np.float64)

    def product(name: str) -> float:
        total = math.fsum(t * math.log(max(getattr(change, name), 1e-3)) for change, t in moves)
        return math.exp(total)

    over = [
        math.exp(math.fsum(t * math.log(change.exhaust[at]) for change, t in moves))
        for at in (0, 1)
    ]
    return GasChange(
        peak=product("peak"),
        pressure=ratio("pressure"),
        crankcase_pressure=ratio("crankcase_pressure"),
        gas_temperature=ratio("gas_temperature"),
        coefficient=ratio("coefficient"),
        leak=product("leak"),
        speed=product("speed"),
        exhaust=(over[0], over[1]),
        work=product("work"),
        shut=math.fsum(t * change.shut for change, t in moves),
        spat=math.fsum(t * change.spat for change, t in moves),
    )


def gas_change(
    before: GasCycle,
    after: GasCycle,
    peak: float,
    exhaust: tuple[float, float] = (1.0, 1.0),
) -> GasChange:
    """What makes one cycle the other.

    Parameters
    ----------
    before, after
        Of the same cylinder, each on its own angles.
    peak
        Ratio of their peaks, found more finely than the cycles are laid out.
    exhaust
        Ratios of what the exhaust port feels.
    """

    def ratio(name: str) -> Floats:
        old, new = (np.interp(ANGLE, g.angle, getattr(g, name)) for g in (before, after))
        sound = (old > 0) & (new > 0)
        found = np.where(sound, new / np.where(sound, old, 1.0), 1.0)
        return np.asarray(np.clip(found, 1 / _MOST, _MOST), dtype=np.float64)

    return GasChange(
        peak=peak,
        pressure=ratio("pressure"),
        crankcase_pressure=ratio("crankcase_pressure"),
        gas_temperature=ratio("gas_temperature"),
        coefficient=ratio("coefficient"),
        leak=_outwards(after) / _outwards(before) if _outwards(before) > 0 else 1.0,
        speed=float(np.mean(after.speed) / np.mean(before.speed)),
        exhaust=exhaust,
        work=_more_work(_work(before), _work(after)),
    )


def _more_work(before: float, after: float) -> float:
    """Ratio of two works of a cycle, both given or both taken; 1 where it has no meaning."""
    return after / before if before * after > 0 else 1.0


def _work(gas: GasCycle) -> float:
    return float(np.trapezoid(gas.pressure, gas.volume))


def _outwards(gas: GasCycle) -> float:
    flow = np.clip(gas.leak_to_crankcase, 0.0, None) / gas.speed
    return float(np.trapezoid(flow, gas.angle))
