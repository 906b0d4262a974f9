"""Fuel that is there or isn't: liquid in port and cylinder, and what of it is vapour, by cycles.

Of what is metered a share flies on with the air as droplets, the rest lands on the port's wall.
While the port is shut the air in it takes up vapour from that film; while air flows, a little of it
comes near, and drags some liquid on. Droplets shrink in the intake and in the compression. What is
left of them, and what was dragged in, wets the cylinder and gives off vapour from there. No charge
gets more vapour than all of it would hold in equilibrium. A gas is there at once.

Every gram is kept account of: what was metered is vapour drawn, film, liquid inside, or lost.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from firstfire.errors import OutsideValidity
from firstfire.formulas import priming, wall_film
from firstfire.formulas.carburettor import Air, Carburettor, fuel_flow, over_pulses
from firstfire.formulas.distillation import volume
from firstfire.formulas.validity import require_not_negative, require_positive
from firstfire.formulas.vapour_pressure import Blend
from firstfire.runs.fuel_path import (
    OPEN,
    THIN,
    Charge,
    FuelPath,
    added,
    creeping,
    from_cylinder,
    from_port,
    held,
    in_flight,
    less,
    of,
    port_contact,
    times,
    wall,
)

LOST = 0.1
"""Share of the liquid in a cylinder that a cycle takes away past rings and exhaust. No source."""


@dataclass(frozen=True)
class FuelState:
    """Fuel of one cylinder after a cycle.

    Attributes
    ----------
    film, inside
        Liquid on its port's wall, and in the cylinder, kg of each component.
    vapour
        In the charge of this cycle, kg of each.
    metered, drawn, lost
        Put in, gone into charges as vapour, and gone as liquid, all so far, kg.
    """

    film: Blend = field(default_factory=dict)
    inside: Blend = field(default_factory=dict)
    vapour: Blend = field(default_factory=dict)
    metered: float = 0.0
    drawn: float = 0.0
    lost: float = 0.0

    @property
    def liquid(self) -> float:
        """In port and cylinder, kg."""
        return sum(self.film.values()) + sum(self.inside.values())


class Cycle(NamedTuple):
    """What a cycle has: the fuel after it, vapour in its charge, liquid in its cylinder, kg."""

    state: FuelState
    vapour_mass: float
    liquid_mass: float


def primed(state: FuelState, fuel: Blend, mass: float) -> FuelState:
    """With so much fuel put into the port by hand or by pulses before the first turn, kg."""
    require_not_negative(mass=mass)
    film = added(state.film, of(fuel, mass))
    return replace(state, film=film, metered=state.metered + mass)


def next_cycle(
    state: FuelState,
    path: FuelPath,
    *,
    fuel: Blend,
    air_mass: float,
    port_temperature: float,
    air_temperature: float,
    air_pressure: float,
    metered_mass: float,
    cycle_seconds: float,
) -> Cycle:
    """One cycle more: what vapour its charge gets, and where the rest of the fuel is.

    Parameters
    ----------
    state, path
        The fuel that is there, and the way it goes.
    fuel
        Composition by mass, by names of :data:`firstfire.formulas.vapour_pressure.LIQUIDS`.
    air_mass
        Drawn in, kg.
    port_temperature
        Of the walls of port and cylinder, K.
    air_temperature, air_pressure
        Of the air in the port, K and Pa.
    metered_mass
        Fuel that is added, kg.
    cycle_seconds
        Two turns, s.

    Raises
    ------
    OutsideValidity
        Without air or time, for less than no fuel, outside of 230 to 450 K.
    """
    require_positive(air_mass=air_mass, cycle_seconds=cycle_seconds, air_pressure=air_pressure)
    require_not_negative(metered_mass=metered_mass)
    charge = Charge(air_mass, port_temperature, air_temperature, air_pressure, cycle_seconds)
    new = of(fuel, metered_mass)
    gas = path.by == "gas_mixer"
    liquid = {} if gas else new
    flying = times(liquid, path.flying)
    landed = less(liquid, flying)
    there = added(added(state.film, state.inside), liquid)

    film, off = from_port(added(state.film, landed), path, charge)
    film, crept = creeping(film, path, charge)
    flown, shrunk = in_flight(flying, path, charge)
    inside, from_wall = from_cylinder(added(added(state.inside, crept), flown), path, charge)
    vapour = added(added(off, shrunk), from_wall)
    vapour, back = held(vapour, there, charge)
    inside = added(inside, back)
    gone = times(inside, LOST)
    inside = less(inside, gone)
    if gas:
        vapour = added(vapour, new)
    after = FuelState(
        film,
        inside,
        vapour,
        state.metered + metered_mass,
        state.drawn + sum(vapour.values()),
        state.lost + sum(gone.values()),
    )
    return Cycle(after, sum(vapour.values()), sum(inside.values()))


def mixture(cycle: Cycle, air_mass: float) -> float:
    """Equivalence ratio of a cycle's vapour in its air."""
    return priming.equivalence_ratio(cycle.state.vapour, air_mass)


def wet_plug(state: FuelState, path: FuelPath) -> bool:
    """Whether so much liquid is in a cylinder that its plug is wet."""
    return priming.flooded(volume(state.inside), path.clearance)


def piston_stopped(state: FuelState, path: FuelPath) -> bool:
    """Whether liquid all but fills a cylinder's clearance: it must not be turned."""
    return priming.locked(volume(state.inside), path.clearance)


def carburetted(
    made: Carburettor,
    air_mass: float,
    cycle_seconds: float,
    fuel_density: float,
    air: Air,
    *,
    throttle: float = math.inf,
    choke: float = math.inf,
) -> float:
    """Fuel that a carburettor or gas mixer gives to one cylinder's pulses in a cycle, kg.

    Parameters
    ----------
    made, fuel_density, air, throttle, choke
        As of :func:`firstfire.formulas.carburettor.fuel_flow`.
    air_mass, cycle_seconds
        Drawn in a cycle, kg, and its time, s.
    """

    def drawn(flow: float) -> float:
        return fuel_flow(made, flow, fuel_density, air, throttle=throttle, choke=choke)

    return cycle_seconds * over_pulses(drawn, air_mass / cycle_seconds, OPEN)


def contact(path: FuelPath, film: Blend, charge_air: float, around: Air, seconds: float) -> float:
    """Share of a charge that comes to equilibrium with the film in its port.

    Parameters
    ----------
    path, film
        Its way, and the liquid there, kg of each component.
    charge_air, seconds
        Air of a cycle, kg, and its time, s.
    around
        Temperature of wall and air, and pressure.
    """
    there = Charge(charge_air, around.temperature, around.temperature, around.pressure, seconds)
    return port_contact(film, path, there)


def priming_pulses(
    path: FuelPath, fuel: Blend, *, air_mass: float, around: Air, each: float,
    cycle_seconds: float, aim: float = 0.9,
) -> int:  # fmt: skip
    """Pulses, or strokes of a primer, before the first turn, for its first charge to burn.

    Parameters
    ----------
    path, fuel
        The way, and the composition by mass.
    air_mass, cycle_seconds
        As of :func:`next_cycle`.
    around
        Temperature of wall and air, and pressure.
    each
        Fuel of one, kg.
    aim
        Equivalence ratio of the vapour.

    Raises
    ------
    OutsideValidity
        Where no priming makes that mixture, or none that would not wet the plug.
    """
    at = (around.temperature, around.pressure)
    everywhere = of(fuel, 1e3 * THIN * wall(path))
    share = contact(path, everywhere, air_mass, around, cycle_seconds)
    count = max(priming.pulses(priming.liquid_wanted(fuel, aim, air_mass, share, *at), each), 1)
    while not priming.flooded(volume(film := of(fuel, count * each)), path.clearance):
        share = contact(path, film, air_mass, around, cycle_seconds)
        if priming.vapour_phi(film, air_mass, share, *at) >= aim:
            return count
        count += 1
    most = priming.richest(fuel, *at)
    raise OutsideValidity(
        f"No priming short of a wet plug makes a mixture of {aim:.2g} here: air that is full of "
        f"this fuel's vapour has {most:.2g}, and little of it comes near. Warm it."
    )


def warm_cycle(
    film: float, path: FuelPath, *, metered_mass: float, speed: float, pressure: float
) -> tuple[float, float]:
    """Film after a cycle of a warm engine and what the cycle gets, kg: Aquino's law as fitted.

    Parameters
    ----------
    film, path
        Film before, kg, and the way; an injector's fuel comes at once, a carburettor's evenly.
    metered_mass
        Fuel of the cycle, kg.
    speed, pressure
        Of the crankshaft, rad/s, and in the manifold, Pa.
    """
    if path.by == "gas_mixer":
        return film, metered_mass
    landing = wall_film.landing_share_warm(speed, pressure)
    tau = wall_film.time_constant_warm(speed, pressure)
    seconds = 4.0 * math.pi / speed
    if path.by == "injector":
        return wall_film.after_pulse(film, metered_mass, landing, tau, seconds)
    return wall_film.after_feed(film, metered_mass / seconds, landing, tau, seconds)
