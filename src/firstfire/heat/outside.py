"""Cooling of an engine's outside: still air, a fan or a water jacket, fins, and radiation.

References
----------
Correlations in `firstfire.formulas.free_convection` (Churchill and Chu) and
`firstfire.formulas.forced_convection` (Churchill and Bernstein); the doubt about them is the
engine's ``doubt.outside_cooling``.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import forced_convection, free_convection
from firstfire.formulas.ambient_air import dry_air
from firstfire.heat import assumed
from firstfire.heat.exposure import Cooling
from firstfire.heat.fins import FinnedFace
from firstfire.heat.layers import Layer

MILD, WARM = 20.0, 120.0
"""Rises over the air between which still air is drawn as a power law, K."""


TYPICAL = 80.0
"""Rise over the air at which the efficiency of fins in still air is taken, K."""


def outside(
    engine: PlainEngine,
    diameter: float,
    skin: Layer,
    *,
    speed: float,
    fins: FinnedFace | None = None,
) -> Cooling:
    """What cools the outside of a round part, for each square metre of the face without fins.

    Parameters
    ----------
    engine
        Its surroundings and doubt.
    diameter
        Of the part, m.
    skin
        Its outermost layer, which radiates.
    speed
        Of the engine, rad/s; 0 where it stands, and a fan on its shaft stands too.
    fins
        On it; None: none.
    """
    around, doubt = engine.surroundings, engine.doubt.outside_cooling
    emissivity = assumed.EMISSIVITY_METAL if skin.metal else assumed.EMISSIVITY_PLASTIC
    if around.cooling == "water_jacket":
        return Cooling(around.water_temperature, constant=doubt * assumed.WATER_FILM)
    air = around.air_temperature
    stream = air_speed(engine, speed)
    if fins is not None:
        return _finned(fins, Surrounding(air, around.air_pressure, stream, doubt, emissivity))
    if stream > 0:
        film = fan_film(stream, diameter, air, around.air_pressure)
        return Cooling(air, constant=doubt * film, emissivity=emissivity)
    free, exponent = still_film(diameter, air, around.air_pressure)
    return Cooling(air, free=doubt * free, exponent=exponent, emissivity=emissivity)


def air_speed(engine: PlainEngine, speed: float) -> float:
    """Speed of the fan's air at a speed of the engine, m/s; 0 where no fan blows.

    Air that a fan on the crank moves is as much faster as the crank; a fan of its own blows on as
    long as the engine turns.
    """
    around = engine.surroundings
    if around.cooling != "fan" or speed <= 0:
        return 0.0
    share = 1.0 if around.air_speed_at is None else speed / around.air_speed_at
    return around.air_speed * share


class Surrounding(NamedTuple):
    """Air round a finned part: K, Pa, m/s, the doubt about its film, and the part's emissivity."""

    air: float
    pressure: float
    stream: float
    doubt: float
    emissivity: float


def _finned(fins: FinnedFace, around: Surrounding) -> Cooling:
    """Cooling through fins, their envelope radiating."""
    emissivity = around.emissivity * fins.envelope / fins.bare
    if around.stream > 0:
        film = around.doubt * fins.stream_film(around.stream)
        return Cooling(around.air, constant=film * fins.times(film), emissivity=emissivity)
    mild, warm = (fins.rising_film(around.air, rise, around.pressure) for rise in (MILD, WARM))
    exponent = math.log(warm / mild) / math.log(WARM / MILD)
    free = around.doubt * mild / MILD**exponent
    counts = fins.times(free * TYPICAL**exponent)
    return Cooling(around.air, free=free * counts, exponent=exponent, emissivity=emissivity)


def fan_film(speed: float, diameter: float, air: float, pressure: float) -> float:
    """Coefficient of a stream across a round part some 60 K warmer, W/(m² K).

    Examples
    --------
    >>> round(fan_film(4.0, 0.060, 293.15, 101.3e3), 1)
    29.1
    """
    film = dry_air(air + 30.0, pressure)
    reynolds = forced_convection.reynolds(speed, diameter, film.kinematic_viscosity)
    nusselt = forced_convection.across_tube_nusselt(reynolds, film.prandtl)
    return forced_convection.film_coefficient(
        nusselt, conductivity=film.conductivity, length=diameter
    )


def still_film(diameter: float, air: float, pressure: float) -> tuple[float, float]:
    """Coefficient of rising air round a part as ``a ΔT^n``: a and n.

    Examples
    --------
    >>> free, exponent = still_film(0.060, 293.15, 101.3e3)
    >>> round(free * 60.0**exponent, 2)
    6.38
    """
    mild, warm = (_rising(diameter, air, rise, pressure) for rise in (MILD, WARM))
    exponent = math.log(warm / mild) / math.log(WARM / MILD)
    return mild / MILD**exponent, exponent


def _rising(diameter: float, air: float, rise: float, pressure: float) -> float:
    film = dry_air(air + 0.5 * rise, pressure)
    rayleigh = free_convection.rayleigh(
        diameter, air + rise, air, film.kinematic_viscosity, film.prandtl
    )
    nusselt = free_convection.level_tube_nusselt(rayleigh, film.prandtl)
    return forced_convection.film_coefficient(
        nusselt, conductivity=film.conductivity, length=diameter
    )
