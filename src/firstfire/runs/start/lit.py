"""Does a spark light the charge that is there: its energy, its gap, and whether the flame lives."""

from __future__ import annotations

import math

from firstfire.cycle.burn_plan import Charge, flame_speed, with_steam
from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas import gas_transport, ignition, spark_gap
from firstfire.runs.start.asked import Missed

_RISE = 1900.0
"""By which a flame warms a charge without burned gas, K: stoichiometric fuels in air 1850 to 2000
(Cantera, gri30 and NASA data; from memory)."""
_HEAT_CAPACITY = 1050.0
_CAPACITY = 20e-12
"""Of a plug and its lead, F: 10 to 50 pF (from memory)."""
_WOUND, _ACROSS, _TO_AIR = 100e-12, 10e-12, 3e-12
# Capacities, F: of a coil's winding and lead, of a plug across its gap, and of a plug's shell, with
# what little metal touches it, to all round. Of the last: a bare disc of 4 cm has 8 eps0 r, 1.4 pF.
# Common practice, no source.
_LEAN, _RICH, _THINNED = 0.85, 1.35, 0.2
"""What is named when a flame dies, in this order: too lean, too rich, too much burned gas."""


def not_lit(
    plain: PlainEngine,
    parts: CylinderParts,
    charge: Charge,
    energy: float,
    intensity: float,
    length: float,
) -> Missed | None:
    """Why a spark lights nothing; None: it lights.

    Parameters
    ----------
    plain, parts
        Plain numbers.
    charge
        At the spark.
    energy
        Of the coil, J.
    intensity, length
        Of the turbulence, m/s and m.

    Notes
    -----
    Of the two theories of the least energy, a factor of three apart with measured energies between
    them, their geometric mean counts. A flame that lives through its kernel is put out where
    turbulence tears it faster than it burns (:func:`firstfire.formulas.ignition.stretch`).
    """
    diluted = with_steam(plain, charge)
    laminar = flame_speed(plain.fuel, diluted, charge.temperature, charge.pressure)
    density = charge.pressure / (287.0 * charge.temperature)
    viscosity = gas_transport.viscosity(charge.temperature) / density
    if ignition.stretch(intensity, laminar, length, viscosity) >= ignition.STRONGEST_STRETCH:
        return _named(charge)
    diffusivity = ignition.thermal_diffusivity(charge.temperature, density)
    height = charge.volume / (math.pi / 4 * parts.cylinder.bore**2)
    if laminar < ignition.least_speed_between_walls(diffusivity, height):
        return _named(charge)
    thickness = ignition.flame_thickness(diffusivity, laminar)
    ball = ignition.critical_diameter(thickness)
    if parts.plug.gap < ball:
        return "quenched"
    heat = density * _HEAT_CAPACITY * _RISE * (1.0 - charge.burned_fraction)
    least = ignition.kernel_energy(heat, ball)
    most = ignition.flame_energy(heat, thickness, ignition.quenching_distance(thickness))
    volts = _volts(parts, charge)
    given = ignition.energy_into_gas(energy, volts, _CAPACITY, ignition.GLOW_LEAST)
    if not _comes_back(plain, parts):
        given = _without_return(energy, volts)
    return "weak" if given**2 < least * most else None


def _named(charge: Charge) -> Missed:
    if charge.equivalence_ratio < _LEAN:
        return "lean"
    if charge.equivalence_ratio > _RICH:
        return "rich"
    return "thinned" if charge.burned_fraction > _THINNED else "quenched"


def _volts(parts: CylinderParts, charge: Charge) -> float:
    """What the plug's gap asks for, V; 0 where no law of gaps reaches so far."""
    try:
        return spark_gap.breakdown_voltage(parts.plug.gap, charge.pressure, charge.temperature)
    except OutsideValidity:
        return 0.0


def _comes_back(plain: PlainEngine, parts: CylinderParts) -> bool:
    """Whether a spark's current finds its way back to the coil: by a lead, or a head of metal."""
    return parts.plug.return_lead or bool(plain.materials[parts.head.material].metal)


def _without_return(energy: float, volts: float) -> float:
    """What a spark gives the gas where nothing but air takes its current on, J.

    Its shell hangs in the air: a coil's voltage falls mostly between shell and all round it, and
    the gap has the share that two capacities in series leave it. If that breaks it, what fills
    them is all there is; no current glows on.
    """
    has = math.sqrt(2.0 * energy / _WOUND) * _TO_AIR / (_TO_AIR + _ACROSS)
    if has < volts:
        return 0.0
    return ignition.BREAKDOWN * 0.5 * (_ACROSS + _TO_AIR) * volts**2
