"""When and how fast a charge burns, from its state at the spark; and whether it lights at all."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.cycle.records import BurnSpec
from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import burn_duration, gas_transport, laminar_speed, slider_crank

# Misfire: leanest and richest mixture that lights in a running engine, and most burned gas.
# J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, sections 9.4 and 9.5 (lean limit
# 0.65 to 0.75, dilution limit some 25 to 30 %; from memory); rich limit common practice, no source.
LEANEST, RICHEST, MOST_BURNED = 0.65, 1.7, 0.30

# From spark to top centre a charge is pressed as a polytrope of 1.3, and what has burned by then
# presses the rest by another 30 %: the state the reference constants were set at.
_POLYTROPE, _PRESSED_BY_FLAME = 1.3, 1.3


@dataclass(frozen=True)
class Charge:
    """The charge at the spark.

    Attributes
    ----------
    pressure, temperature, volume
        Pa, K, m³.
    burned_fraction
        By mass.
    equivalence_ratio
        Of its fresh part.
    """

    pressure: float
    temperature: float
    volume: float
    burned_fraction: float
    equivalence_ratio: float


def lights(charge: Charge) -> bool:
    """Whether the charge burns at all."""
    rich_enough = LEANEST <= charge.equivalence_ratio <= RICHEST
    return rich_enough and charge.burned_fraction <= MOST_BURNED


def flame_speed(fuel: str, charge: Charge, temperature: float, pressure: float) -> float:
    """Laminar burning velocity of the charge pressed to a temperature and pressure, m/s."""
    phi, burned = charge.equivalence_ratio, charge.burned_fraction
    if fuel in ("petrol", "e10"):
        pure = laminar_speed.rhodes_keck_petrol(phi, temperature, pressure)
        return pure * laminar_speed.rhodes_keck_dilution(burned)
    if fuel == "ethanol":
        pure = laminar_speed.gulder(phi, temperature, pressure, laminar_speed.GULDER_ETHANOL)
        return pure * laminar_speed.gulder_dilution(burned)
    fits = {
        "iso_octane": laminar_speed.METGHALCHI_KECK_ISO_OCTANE,
        "propane": laminar_speed.METGHALCHI_KECK_PROPANE,
        "methanol": laminar_speed.METGHALCHI_KECK_METHANOL,
    }
    pure = laminar_speed.metghalchi_keck(phi, temperature, pressure, fits[fuel])
    return pure * laminar_speed.metghalchi_keck_dilution(burned)


@dataclass(frozen=True)
class Burn:
    """A planned burn and the angle its phase scatters by.

    Attributes
    ----------
    spec
        For the kernel.
    development
        Crank angle from spark to a tenth burned, rad.
    """

    spec: BurnSpec
    development: float


def burn_plan(
    engine: PlainEngine, parts: CylinderParts, speed: float, spark: float, charge: Charge
) -> Burn | None:
    """How a charge burns when sparked; None where it doesn't light.

    Parameters
    ----------
    engine, parts
        Plain numbers.
    speed
        rad/s.
    spark
        Crank angle after firing top centre (negative before), latency included, rad.
    charge
        Its state at the spark.
    """
    if not lights(charge):
        return None
    area = math.pi / 4 * parts.cylinder.bore**2
    throw, rod, offset = parts.cylinder.stroke / 2, parts.rod.length, parts.cylinder.offset
    stroke = slider_crank.stroke(throw, rod, offset)
    at_top = area * stroke / (parts.cylinder.compression_ratio - 1)
    squeezed = max(charge.volume / at_top, 1.0)
    top_pressure = charge.pressure * squeezed**_POLYTROPE * _PRESSED_BY_FLAME
    top_temperature = charge.temperature * squeezed ** (_POLYTROPE - 1)
    top_temperature *= _PRESSED_BY_FLAME ** (1 - 1 / _POLYTROPE)
    early = _group(engine, charge, speed, stroke, charge.volume / area,
                   charge.temperature, charge.pressure)  # fmt: skip
    late = _group(engine, charge, speed, stroke, at_top / area, top_temperature, top_pressure)
    if early is None or late is None:
        return None
    doubt = engine.doubt.burn_duration
    development = burn_duration.development_angle(early) * doubt
    rapid = burn_duration.rapid_burn_angle(late, parts.cylinder.bore, at_top / area) * doubt
    begins, duration = burn_duration.wiebe_span(development, rapid)
    start = spark + begins + engine.doubt.burn_phase
    return Burn(BurnSpec(start=start, duration=duration), development)


# A flame slower than this is quenched by the walls. Common practice, no source.
_SLOWEST = 0.03


def _group(
    engine: PlainEngine,
    charge: Charge,
    speed: float,
    stroke: float,
    height: float,
    temperature: float,
    pressure: float,
) -> float | None:
    flame = flame_speed(engine.intake.fuel, charge, temperature, pressure)
    if flame < _SLOWEST:
        return None
    density = pressure / (285.0 * temperature)
    viscosity = gas_transport.viscosity(temperature) / density
    return burn_duration.flame_group(stroke, stroke * speed / math.pi, viscosity, height, flame)
