"""How a cylinder's cycle changes when something moves it, so that a like cycle can follow."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.records import GasCycle

Floats = NDArray[np.float64]

_ANGLE: Floats = np.linspace(-2 * math.pi, 2 * math.pi, 721)
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
    """

    peak: float
    pressure: Floats
    crankcase_pressure: Floats
    gas_temperature: Floats
    coefficient: Floats
    leak: float

    def changed(self, gas: GasCycle) -> GasCycle:
        """A like cycle, changed as this one was."""

        def share(ratio: Floats) -> Floats:
            return np.asarray(np.interp(gas.angle, _ANGLE, ratio), dtype=np.float64)

        return replace(
            gas,
            pressure=gas.pressure * share(self.pressure),
            crankcase_pressure=gas.crankcase_pressure * share(self.crankcase_pressure),
            gas_temperature=gas.gas_temperature * share(self.gas_temperature),
            coefficient=gas.coefficient * share(self.coefficient),
            leak_to_crankcase=gas.leak_to_crankcase * self.leak,
        )


def gas_change(before: GasCycle, after: GasCycle, peak: float) -> GasChange:
    """What makes one cycle the other.

    Parameters
    ----------
    before, after
        Of the same cylinder, each on its own angles.
    peak
        Ratio of their peaks, found more finely than the cycles are laid out.
    """

    def ratio(name: str) -> Floats:
        old, new = (np.interp(_ANGLE, g.angle, getattr(g, name)) for g in (before, after))
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
    )


def _outwards(gas: GasCycle) -> float:
    flow = np.clip(gas.leak_to_crankcase, 0.0, None) / gas.speed
    return float(np.trapezoid(flow, gas.angle))
