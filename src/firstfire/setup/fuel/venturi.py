"""A throat and its jet: the air that pulses through it, what that draws, how wide it may be."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas import carburettor as law
from firstfire.formulas import nozzle_flow
from firstfire.runs.fuel_path import OPEN
from firstfire.setup.fuel.drawn import Drawn
from firstfire.setup.fuel.liquid import Liquid

Floats = NDArray[np.float64]

VENTURI, JET = 0.85, 0.7
"""Discharge coefficients (Heywood 1988, section 7.2, from memory)."""
_MOUTH, _TENSION = 1.5e-3, 22e-3
"""Mouth of the nozzle, m, and surface tension of petrol, N/m. Common practice, no source."""
SURELY = 2.0
"""Peak of the air over that from which a venturi draws, with which it surely does. Common
practice, no source."""
CHOKES = 25e3
"""Depression at a throat's peak that costs full power dear, Pa. Common practice, no source."""
GAS, GAMMA = 287.04, 1.4


def throats(plain: PlainEngine) -> int:
    """How many throttles, and with them carburettors, an engine has."""
    return len(plain.cylinders) if plain.intake.kind == "separate" else 1


def around(plain: PlainEngine) -> law.Air:
    """Air before it."""
    return law.Air(plain.surroundings.air_temperature, plain.surroundings.air_pressure)


def held_back(plain: PlainEngine, fuel: Liquid) -> float:
    """Depression that just draws no fuel, Pa."""
    if fuel.gas:
        return plain.gas_mixer.held_back
    return law.held_back(fuel.density, plain.carburettor.lift, _TENSION, _MOUTH)


def main_jet(plain: PlainEngine, fuel: Liquid, diameter: float) -> law.Jet:
    """A main jet or orifice of a diameter, m."""
    return law.Jet(math.pi / 4 * diameter**2, JET, held_back(plain, fuel))


def throat_area(plain: PlainEngine, fuel: Liquid) -> float:
    """Effective area of the venturi's throat, m²."""
    made = plain.gas_mixer if fuel.gas else plain.carburettor
    return VENTURI * math.pi / 4 * made.venturi_diameter**2


def share_flowing(plain: PlainEngine) -> float:
    """Of the cycle in which air flows through one throat."""
    return min(OPEN * len(plain.cylinders) / throats(plain), 1.0)


def peak(plain: PlainEngine, point: Drawn) -> float:
    """Most air that flows through one throat, kg/s: half a sine while inlets are open."""
    if point.kind == "idle":
        return float(through(point)[1].max())
    return point.at.air_flow / throats(plain) * math.pi / (2.0 * share_flowing(plain))


def through(point: Drawn) -> tuple[Floats, Floats]:
    """Air through the first throttle over a cycle, s and kg/s."""
    cycle = point.at.point.fired.cycle
    place = next(n for n, name in enumerate(cycle.passages) if name.startswith("throttle"))
    return cycle.curves.time, cycle.curves.flow[:, place]


def depression(flow: float, area: float, air: law.Air) -> float:
    """Depression in a throat, Pa; infinite where so much does not go through."""
    try:
        return law.behind_throttle(flow, area, air)
    except OutsideValidity:
        return math.inf


def venturis(
    plain: PlainEngine, fuel: Liquid, full: tuple[Drawn, ...]
) -> tuple[float, float, float]:
    """The venturi, and the narrowest and widest that work, m.

    Full power's peak may cost 25 kPa; the slowest full throttle's is to be twice what draws.
    """
    air = around(plain)

    def bore(flow: float, drawn: float) -> float:
        each = nozzle_flow.mass_flow(
            1.0, air.pressure, air.temperature, GAS, GAMMA, air.pressure - drawn
        )
        return math.sqrt(flow / each / VENTURI * 4.0 / math.pi)

    most = max(peak(plain, one) for one in full)
    least = min(peak(plain, one) for one in full)
    back = SURELY**2 * held_back(plain, fuel)
    made = plain.gas_mixer if fuel.gas else plain.carburettor
    wide = bore(least, back) if back > 0.0 else math.inf
    return made.venturi_diameter, bore(most, CHOKES), wide
