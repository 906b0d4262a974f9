"""When and how fast a charge burns, from its state at the spark; and whether it lights at all."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from firstfire.cycle.records import BurnSpec
from firstfire.engine.description import CylinderParts
from firstfire.engine.fuel import Fuel
from firstfire.engine.geometry import mechanism, swept_volume
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import atmosphere, burn_duration, gas_transport, laminar_speed, slider_crank

# Misfire: leanest and richest mixture that lights in a running engine, and most burned gas.
# J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, sections 9.4 and 9.5 (lean limit
# 0.65 to 0.75, dilution limit some 25 to 30 %; from memory); rich limit common practice, no source.
LEANEST, RICHEST, MOST_BURNED = 0.65, 1.7, 0.30

# From spark to top centre a charge is pressed as a polytrope of 1.3, and what has burned by then
# presses the rest by another 30 %: the state the reference constants were set at.
_POLYTROPE, _PRESSED_BY_FLAME = 1.3, 1.3

# The constant of the law's first angle belongs to the state at a spark 25° before top. On the way
# through its 20° the reference engine's group falls; its mean (of the rate) over that at the spark
# is what the angle as a rate goes by. A test works it out again.
_ON_THE_WAY = 0.785
_STEP = math.radians(1.0)
_LONGEST = math.radians(180.0)
"""A kernel that has not taken a tenth by then doesn't any more."""


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


def flame_speed(fuel: Fuel, charge: Charge, temperature: float, pressure: float) -> float:
    """Laminar burning velocity of the charge pressed to a temperature and pressure, m/s.

    Of a mixture of fuels, the mean by their shares (between the speeds of its parts, which
    differ by a fifth: common practice, no source).
    """
    return math.fsum(
        share * _vapour_speed(name, charge, temperature, pressure) for name, share in fuel.vapours
    )


def _vapour_speed(fuel: str, charge: Charge, temperature: float, pressure: float) -> float:
    phi, burned = charge.equivalence_ratio, charge.burned_fraction
    if fuel == "petrol":
        pure = laminar_speed.rhodes_keck_petrol(phi, temperature, pressure)
        return pure * laminar_speed.rhodes_keck_dilution(burned)
    if fuel == "ethanol":
        pure = laminar_speed.gulder(phi, temperature, pressure, laminar_speed.GULDER_ETHANOL)
        return pure * laminar_speed.gulder_dilution(burned)
    pure = laminar_speed.metghalchi_keck(phi, temperature, pressure, _FITS[fuel])
    return pure * laminar_speed.metghalchi_keck_dilution(burned)


# n-Butane as propane: at most 40 against 42 cm/s in counterflow flames (S. G. Davis, C. K. Law,
# Combustion Science and Technology 140, 1998; from memory).
_FITS = {
    "iso_octane": laminar_speed.METGHALCHI_KECK_ISO_OCTANE,
    "propane": laminar_speed.METGHALCHI_KECK_PROPANE,
    "butane": laminar_speed.METGHALCHI_KECK_PROPANE,
    "methanol": laminar_speed.METGHALCHI_KECK_METHANOL,
}


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
    charge = with_steam(engine, charge)
    if not lights(charge):
        return None
    shape = _shape(parts)
    at_top = shape.volume(0.0)
    development = _development(engine, shape, charge, speed, spark)
    late = _group(engine, charge, speed, shape, at_top, _PRESSED_BY_FLAME)
    if development is None or late is None:
        return None
    doubt = engine.doubt.burn_duration
    rapid = burn_duration.rapid_burn_angle(late, shape.bore, at_top / shape.area) * doubt
    begins, duration = burn_duration.wiebe_span(development, rapid)
    start = spark + begins + engine.doubt.burn_phase
    return Burn(BurnSpec(start=start, duration=duration), development)


def with_steam(engine: PlainEngine, charge: Charge) -> Charge:
    """The charge with the steam of its air counted as burned gas: it dilutes the flame alike."""
    around = engine.surroundings
    ratio = atmosphere.humidity_ratio(around.air_pressure, around.air_temperature, around.humidity)
    steam = ratio / (1.0 + ratio)
    burned = charge.burned_fraction
    return replace(charge, burned_fraction=burned + (1.0 - burned) * steam)


def _development(
    engine: PlainEngine, shape: _Shape, charge: Charge, speed: float, spark: float
) -> float | None:
    """Crank angle from spark to a tenth burned, rad; None where the kernel doesn't live.

    The charge is pressed while the kernel grows, so the law's angle at each moment is used as a
    rate, and the tenth is there when the shares add up to one. (With the state at the spark alone
    a spark 20° earlier would come to nothing: a colder charge would take 20° longer.)
    """
    if _group(engine, charge, speed, shape, charge.volume, 1.0) is None:
        return None
    grown, turned = 0.0, 0.0
    while turned < _LONGEST:
        volume = shape.volume(spark + turned + _STEP / 2)
        group = _group(engine, charge, speed, shape, volume, 1.0)
        if group is not None:
            whole = burn_duration.development_angle(group) / _ON_THE_WAY
            step = _STEP / (whole * engine.doubt.burn_duration)
            if grown + step >= 1.0:
                return turned + _STEP * (1.0 - grown) / step
            grown += step
        turned += _STEP
    return None


@dataclass(frozen=True)
class _Shape:
    """A cylinder's measures, m, m² and m³."""

    bore: float
    area: float
    stroke: float
    clearance: float
    throw: float
    rod: float
    offset: float

    def volume(self, angle: float) -> float:
        """At a crank angle after top centre, m³."""
        travel = slider_crank.piston_travel(angle, self.throw, self.rod, self.offset)
        return self.clearance + self.area * travel


def _shape(parts: CylinderParts) -> _Shape:
    bore, stroke = parts.cylinder.bore, parts.cylinder.stroke
    clearance = swept_volume(parts) / (parts.cylinder.compression_ratio - 1)
    return _Shape(bore, math.pi / 4 * bore**2, stroke, clearance, *mechanism(parts))


# A flame slower than this is quenched by the walls. Common practice, no source.
SLOWEST = 0.03


def _group(
    engine: PlainEngine,
    charge: Charge,
    speed: float,
    shape: _Shape,
    volume: float,
    pressed_further: float,
) -> float | None:
    """The law's group with the charge pressed from its own volume to another; None: quenched."""
    pressing = max(charge.volume / volume, 0.1) ** _POLYTROPE * pressed_further
    pressure = charge.pressure * pressing
    temperature = charge.temperature * pressing ** (1 - 1 / _POLYTROPE)
    flame = flame_speed(engine.fuel, charge, temperature, pressure)
    if flame < SLOWEST:
        return None
    density = pressure / (285.0 * temperature)
    viscosity = gas_transport.viscosity(temperature) / density
    piston_speed = shape.stroke * speed / math.pi
    height = volume / shape.area
    return burn_duration.flame_group(shape.stroke, piston_speed, viscosity, height, flame)
