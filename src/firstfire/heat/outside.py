"""Cooling of an engine's outside: still air, a fan or a water jacket, and radiation.

References
----------
Correlations in `firstfire.formulas.free_convection` (Churchill and Chu) and
`firstfire.formulas.forced_convection` (Churchill and Bernstein); the doubt about them is the
engine's ``doubt.outside_cooling``.
"""

from __future__ import annotations

import math

from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import forced_convection, free_convection
from firstfire.formulas.ambient_air import dry_air
from firstfire.heat import assumed
from firstfire.heat.exposure import Cooling
from firstfire.heat.layers import Layer

MILD, WARM = 20.0, 120.0
"""Rises over the air between which still air is drawn as a power law, K."""


def outside(engine: PlainEngine, diameter: float, skin: Layer, *, standing: bool) -> Cooling:
    """What cools the outside of a round part.

    Parameters
    ----------
    engine
        Its surroundings and doubt.
    diameter
        Of the part, m.
    skin
        Its outermost layer, which radiates.
    standing
        Whether the engine stands; a fan on its shaft then stands too.
    """
    around, doubt = engine.surroundings, engine.doubt.outside_cooling
    emissivity = assumed.EMISSIVITY_METAL if skin.metal else assumed.EMISSIVITY_PLASTIC
    if around.cooling == "water_jacket":
        return Cooling(around.water_temperature, constant=doubt * assumed.WATER_FILM)
    air = around.air_temperature
    blown = around.cooling == "fan" and around.air_speed > 0 and not standing
    if blown:
        film = fan_film(around.air_speed, diameter, air, around.air_pressure)
        return Cooling(air, constant=doubt * film, emissivity=emissivity)
    free, exponent = still_film(diameter, air, around.air_pressure)
    return Cooling(air, free=doubt * free, exponent=exponent, emissivity=emissivity)


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
    return forced_convection.film_coefficient(nusselt, film.conductivity, diameter)


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
    return forced_convection.film_coefficient(nusselt, film.conductivity, diameter)
