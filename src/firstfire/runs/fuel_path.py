"""The way of the fuel into a cylinder, and what becomes vapour at each place of it.

A port's wall, droplets in flight, a cylinder's walls: each takes liquid and gives back what is
still liquid and what is vapour, so that no fuel is made or lost.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

from firstfire.formulas import gas_transport, wall_film
from firstfire.formulas.distillation import volume
from firstfire.formulas.droplet import (
    INJECTED,
    Steady,
    share_evaporated,
    steady,
    torn_by_air,
    ventilation,
)
from firstfire.formulas.validity import require_positive
from firstfire.formulas.vapour_diffusion import surface
from firstfire.formulas.vapour_pressure import LIQUIDS, Blend, given_off, partial_pressures

Apart = tuple[dict[str, float], dict[str, float]]
"""What is still liquid, and what is vapour, kg of each component."""

Supply = Literal["injector", "carburettor", "gas_mixer"]

OPEN = 0.27
"""Share of a cycle that air flows in: some 195 of 720°."""
AIRBORNE: Mapping[str, float] = {"carburettor": 0.5, "injector": 0.3, "gas_mixer": 0.0}
"""Share of what is metered that passes a cold port as droplets. Aquino found 0.3 to 0.7 of a
throttle body's fuel on the walls; port injectors wet the valve's back (from memory; of small cold
ports no source)."""
THIN, _THIN_INSIDE = 20e-6, 20e-6
"""Thinnest film on a port's and on a cylinder's walls, m. Common practice, no source."""
_LARGEST = INJECTED[2]
_SLIP = 0.2
"""Share of the air's speed that droplets lag behind. Common practice, no source."""
_TENSION, _VISCOSITY = 22e-3, 0.6e-3
"""Of petrol and alcohols near room temperature, N/m and Pa s (handbooks; from memory)."""
_GAS = 287.04
_POLYTROPIC = 1.33
_STEPS = 3
_TRIED = 190.0
_TINY = 1e-15


@dataclass(frozen=True)
class FuelPath:
    """The way of the fuel of one cylinder.

    Attributes
    ----------
    by
        What meters it.
    port_diameter, port_length
        Of the part of port and runner that gets wet, m.
    bore, stroke, compression_ratio
        Of the cylinder.
    narrowest
        Area where a carburettor's fuel meets the air, m²: its venturi, or a choke's gap.
    droplet
        Sauter diameter of an injector's droplets, m.
    airborne
        Share of what is metered that flies on as droplets; None: :data:`AIRBORNE`'s.
    """

    by: Supply
    port_diameter: float
    port_length: float
    bore: float
    stroke: float
    compression_ratio: float
    narrowest: float = math.inf
    droplet: float = INJECTED[1]
    airborne: float | None = None

    @property
    def flying(self) -> float:
        """Share of what is metered that flies on as droplets."""
        return AIRBORNE[self.by] if self.airborne is None else self.airborne

    @property
    def swept(self) -> float:
        """Swept volume, m³."""
        return math.pi / 4.0 * self.bore**2 * self.stroke

    @property
    def clearance(self) -> float:
        """Volume over the piston at its top, m³."""
        return self.swept / (self.compression_ratio - 1.0)


class Charge(NamedTuple):
    """What a cycle draws in.

    Attributes
    ----------
    air
        kg.
    wall, warm
        Temperatures of the walls and of the air, K.
    pressure
        In the port, Pa.
    seconds
        Of the whole cycle, s.
    """

    air: float
    wall: float
    warm: float
    pressure: float
    seconds: float

    @property
    def density(self) -> float:
        """Of the air, kg/m³."""
        return self.pressure / (_GAS * self.warm)

    @property
    def flow(self) -> float:
        """While it flows in, m³/s."""
        return self.air / self.density / (OPEN * self.seconds)


def of(fuel: Blend, mass: float) -> dict[str, float]:
    """So much of a fuel, kg of each component."""
    whole = sum(fuel.values())
    require_positive(fuel=whole)
    return {name: mass * share / whole for name, share in fuel.items()}


def added(one: Blend, other: Blend) -> dict[str, float]:
    """Both together."""
    return {name: one.get(name, 0.0) + other.get(name, 0.0) for name in {**one, **other}}


def less(one: Blend, other: Blend) -> dict[str, float]:
    """One without the other, which is part of it."""
    return {name: max(mass - other.get(name, 0.0), 0.0) for name, mass in one.items()}


def times(blend: Blend, share: float) -> dict[str, float]:
    """A share of it."""
    return {name: share * mass for name, mass in blend.items()}


def wall(path: FuelPath) -> float:
    """Of the port that gets wet, m²."""
    return math.pi * path.port_diameter * path.port_length


def _thickness(film: Blend, path: FuelPath) -> float:
    return max(volume(film) / wall(path), THIN)


def port_contact(film: Blend, path: FuelPath, charge: Charge) -> float:
    """Share of the charge that comes to equilibrium with the film, standing and flowing by."""
    wet = min(volume(film) / (THIN * wall(path)), 1.0)
    if wet < 1e-9:
        return 0.0
    spread = surface(film, charge.wall, charge.pressure).diffusivity
    viscosity = gas_transport.viscosity(charge.warm) / charge.density
    flowing = wall_film.flowing_contact(
        path.port_diameter, wet * path.port_length, charge.flow, spread, viscosity
    )
    standing = wall_film.standing_contact(path.port_diameter, spread, (1.0 - OPEN) * charge.seconds)
    standing_air = wall(path) * path.port_diameter / 4.0 * charge.density
    in_port = wet * min(standing_air / charge.air, 1.0)
    return 1.0 - (1.0 - flowing) * (1.0 - in_port * standing)


def from_port(film: Blend, path: FuelPath, charge: Charge) -> Apart:
    """Film that stays, and vapour from it."""
    if sum(film.values()) < _TINY:
        return dict(film), {}
    near = port_contact(film, path, charge)
    return _apart(film, near * charge.air, charge)


def _apart(liquid: Blend, air: float, charge: Charge) -> Apart:
    """Liquid and vapour once it is in equilibrium with so much air at the walls' temperature."""
    if air <= 0.0:
        return dict(liquid), {}
    off = given_off(liquid, air, charge.wall, charge.pressure)
    return less(liquid, off), off


def creeping(film: Blend, path: FuelPath, charge: Charge) -> Apart:
    """Film that stays, and what the air drags into the cylinder."""
    if sum(film.values()) < _TINY:
        return dict(film), {}
    share = wall_film.dragged(
        _thickness(film, path), path.port_length, charge.flow, path.port_diameter,
        charge.density, _VISCOSITY, OPEN * charge.seconds,
    )  # fmt: skip
    crept = times(film, share)
    return less(film, crept), crept


def _sizes(path: FuelPath, fuel: Blend, charge: Charge) -> tuple[float, float]:
    """Droplets' diameter, m, and speed of the air past them, m/s."""
    slip = _SLIP * charge.flow / (math.pi / 4.0 * path.port_diameter**2)
    if path.by == "injector" or math.isinf(path.narrowest):
        return path.droplet, slip
    speed = charge.flow / path.narrowest
    dense = max(sum(fuel.values()) / volume(fuel), 700.0)
    return min(torn_by_air(speed, _TENSION, dense, _VISCOSITY), _LARGEST), slip


def in_flight(flying: Blend, path: FuelPath, charge: Charge) -> Apart:
    """Droplets left after intake and compression, and vapour from them."""
    left, off = dict(flying), dict[str, float]()
    if sum(flying.values()) < _TINY:
        return left, off
    size, slip = _sizes(path, flying, charge)
    first, first_volume = size, volume(flying)
    for warm, pressure, seconds, past in _way(path, charge, slip):
        if volume(left) < 1e-6 * first_volume:
            return {}, added(off, left)
        found = steady(left, warm, pressure)
        constant = found.constant * _blown(found, past, size, charge)
        room = volume(left) * share_evaporated(size, constant, seconds)
        going = _vapour_of(left, room, found.temperature)
        left, off = less(left, going), added(off, going)
        size = first * (volume(left) / first_volume) ** (1.0 / 3.0)
    return left, off


def _blown(found: Steady, past: float, size: float, charge: Charge) -> float:
    """How many times faster a droplet evaporates for the air past it."""
    if past <= 0.0:
        return 1.0
    # beyond where the law was tried a droplet is not left behind any more
    most = _TRIED * gas_transport.viscosity(charge.warm) / (charge.density * size)
    return ventilation(min(past, most), size, charge.warm, charge.pressure, found.schmidt)


def _vapour_of(left: Blend, room: float, wet: float) -> dict[str, float]:
    """So much volume of a liquid as the vapour over it takes it; of each no more than is there."""
    over = partial_pressures(left, wet)
    going = {name: one * LIQUIDS[name].molar_mass for name, one in over.items()}
    part = room / volume(going)
    return {name: min(part * mass, left[name]) for name, mass in going.items()}


def _way(path: FuelPath, charge: Charge, slip: float) -> list[tuple[float, float, float, float]]:
    """Temperature, pressure, time and air past a droplet, from the port to the top."""
    quarter = 0.25 * charge.seconds / _STEPS
    intake = [(charge.warm, charge.pressure, quarter, slip)] * _STEPS
    squeezed = []
    for step in range(_STEPS):
        angle = math.pi * (step + 0.5) / _STEPS
        room = path.clearance + 0.5 * path.swept * (1.0 + math.cos(angle))
        ratio = (path.clearance + path.swept) / room
        warm = charge.warm * ratio ** (_POLYTROPIC - 1.0)
        squeezed.append((warm, charge.pressure * ratio**_POLYTROPIC, quarter, 0.0))
    return intake + squeezed


def from_cylinder(inside: Blend, path: FuelPath, charge: Charge) -> Apart:
    """Liquid that stays on a cylinder's walls, and vapour from it.

    From intake to half the compression; later the charge's pressure keeps it down. Heat and mass go
    alike, with Woschni's law of gas exchange: Nu = 0.035 Re^0.8 with 6.18 times the piston's speed.
    """
    if sum(inside.values()) < _TINY:
        return dict(inside), {}
    spread = surface(inside, charge.wall, charge.pressure).diffusivity
    viscosity = gas_transport.viscosity(charge.warm) / charge.density
    speed = 6.18 * 4.0 * path.stroke / charge.seconds
    reynolds = speed * path.bore / viscosity
    sherwood = 0.035 * reynolds**0.8 * math.cbrt(viscosity / spread / 0.71)
    whole = math.pi / 2.0 * path.bore**2 + math.pi * path.bore * path.stroke
    area = min(volume(inside) / _THIN_INSIDE, whole)
    passed = sherwood * spread / path.bore * area * 0.375 * charge.seconds
    near = -math.expm1(-passed * charge.density / charge.air)
    return _apart(inside, near * charge.air, charge)


def held(vapour: Blend, there: Blend, charge: Charge) -> Apart:
    """Vapour that the whole charge can hold, and what falls out of it again.

    Droplets give off vapour into hot compressed air which its cold surroundings take back; that
    cold starts go by the mixture in equilibrium was found by tests (SAE paper 880044, 1988).
    """
    whole = sum(vapour.values())
    if whole < _TINY:
        return dict(vapour), {}
    most = given_off(there, charge.air, charge.warm, charge.pressure)
    kept = {name: min(mass, most.get(name, 0.0)) for name, mass in vapour.items()}
    return kept, less(vapour, kept)
