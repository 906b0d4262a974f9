"""What to expect of a fuel and its carburettor before anything turns."""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.formulas import gas_transport, priming, wall_film
from firstfire.formulas.carburettor import (
    Air,
    Carburettor,
    Jet,
    held_back,
    jet_area,
    starts_at,
)
from firstfire.formulas.distillation import (
    boiling_point,
    distilled,
    petrol,
    reid_pressure,
    volume,
)
from firstfire.formulas.droplet import evaporation_constant, lifetime
from firstfire.formulas.vapour_diffusion import surface
from firstfire.formulas.vapour_pressure import Blend, vapour_share
from firstfire.runs.fuel_path import OPEN, THIN, FuelPath

_SUMMER, _WINTER = (288.15, 60e3), (273.15, 90e3)
"""From which temperature, K, petrol as sold has which vapour pressure, Pa: the upper limits of
EN 228 in summer and in a hard winter (from memory); which day's petrol is in a can no one knows."""
_LIFT, _MOUTH, _TENSION = 10e-3, 1.5e-3, 22e-3
"""Of a small carburettor: its nozzle over the float's level and its mouth's diameter, m, and the
fuel's surface tension, N/m. Common practice, no source."""
_GAS_DENSITY = 10.0
_VENTURI, _JET = 0.85, 0.7
"""Discharge coefficients (Heywood 1988, section 7.2, from memory)."""


class Outlook(NamedTuple):
    """What a fuel gives off.

    Attributes
    ----------
    share
        Of it that would be vapour in equilibrium with the air that just burns it.
    richest
        Equivalence ratio that air over ever so much of it comes to; infinite where it boils.
    reid_pressure
        Vapour pressure as Reid's bomb shows it, Pa.
    boils_from
        K, at 1 atm.
    distilled
        Shares by volume at 70, 100 and 150 °C.
    droplet_lasts
        How long a droplet lasts in still air, s.
    """

    share: float
    richest: float
    reid_pressure: float
    boils_from: float
    distilled: tuple[float, float, float]
    droplet_lasts: float


def outlook(fuel: Blend, around: Air, air_fuel: float, droplet: float) -> Outlook:
    """What a liquid fuel gives off in that air.

    Parameters
    ----------
    fuel
        Composition by mass.
    around
        Temperature and pressure.
    air_fuel
        By mass, that just burns it.
    droplet
        Diameter of its droplets, m.
    """
    at = (around.temperature, around.pressure)
    seventy, hundred, hot = (distilled(fuel, 273.15 + warm) for warm in (70.0, 100.0, 150.0))
    return Outlook(
        vapour_share(fuel, air_fuel, *at),
        priming.richest(fuel, *at),
        reid_pressure(fuel),
        boiling_point(fuel),
        (seventy, hundred, hot),
        lifetime(droplet, evaporation_constant(fuel, *at)),
    )


def petrol_as_sold(air_temperature: float) -> dict[str, float]:
    """Petrol as it is sold while the air is so warm, K: composition by mass."""
    (warm, least), (cold, most) = _SUMMER, _WINTER
    part = min(max((warm - air_temperature) / (warm - cold), 0.0), 1.0)
    return petrol(least + part * (most - least))


def usual_carburettor(
    bore: float, *, full_flow: float, fuel_air: float, fuel_density: float, around: Air
) -> Carburettor:
    """One cylinder's carburettor without an idle jet, its main jet sized for full flow.

    Parameters
    ----------
    bore
        Of its venturi, m.
    full_flow, fuel_air
        Mean air of its cylinder at full speed, kg/s, which comes in pulses, and fuel over air by
        mass that it is to get there.
    fuel_density
        kg/m³; under 10 kg/m³ it is a gas, which a zero governor holds at the air's pressure.
    around
        Air before it.

    Raises
    ------
    OutsideValidity
        Where the venturi is so wide that it draws nothing, or so narrow that it chokes the air.
    """
    area = _VENTURI * math.pi / 4.0 * bore**2
    gas = fuel_density < _GAS_DENSITY
    back = 0.0 if gas else held_back(fuel_density, _LIFT, _TENSION, _MOUTH)
    jet = Jet(1.0, _JET, back)
    size = jet_area(area, jet, full_flow, fuel_air, (fuel_density, around.density), OPEN)
    return Carburettor(area, jet._replace(area=size))


def pull(made: Carburettor, air_mass: float, cycle_seconds: float, around: Air) -> float:
    """Peak of a cylinder's air over that from which an open venturi draws; below one: choke it.

    Parameters
    ----------
    made
        The carburettor; infinite of one that nothing holds back.
    air_mass, cycle_seconds
        Air of a cycle, kg, and its time, s.
    around
        Air before it.
    """
    from_there = starts_at(made.venturi, made.main, around.density)
    peak = air_mass / cycle_seconds * math.pi / (2.0 * OPEN)
    return peak / from_there if from_there > 0.0 else math.inf


def film_lasts(path: FuelPath, fuel: Blend, *, flow: float, around: Air) -> float:
    """Time constant of a thin film of fresh fuel in the port, s: how slowly it follows.

    Parameters
    ----------
    path, fuel
        The way, and the composition by mass.
    flow
        Of the air, m³/s.
    around
        Temperature of wall and air, and pressure.
    """
    over = surface(fuel, around.temperature, around.pressure)
    viscosity = gas_transport.viscosity(around.temperature) / around.density
    reynolds = 4.0 * flow / (math.pi * path.port_diameter * viscosity)
    sherwood = wall_film.pipe_sherwood(
        reynolds, viscosity / over.diffusivity, path.port_length / path.port_diameter
    )
    carried = around.density * over.diffusivity
    dense = sum(fuel.values()) / volume(fuel)
    return wall_film.film_time_constant(
        THIN, dense, sherwood, path.port_diameter, carried, over.spalding
    )
