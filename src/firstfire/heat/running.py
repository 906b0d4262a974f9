"""From what the gas does and what rubs to what the walls are exposed to."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from firstfire.engine.description import CylinderParts
from firstfire.engine.records import GasCycle
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.solid import Solid
from firstfire.heat import assumed
from firstfire.heat.case import INSIDE, WALL, case_width, into_case
from firstfire.heat.exposure import Cooling, Exposure, Film
from firstfire.heat.gas_side import GasSide, gas_side
from firstfire.heat.head import head_fins, valve_area
from firstfire.heat.layers import layer
from firstfire.heat.liner import bands, body_fins
from firstfire.heat.network import Network
from firstfire.heat.outside import outside
from firstfire.heat.piston_body import piston_shape, ring_film
from firstfire.heat.rod_ends import rod_limits, rod_sources

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

BLOW_BY_HEAT = 1250.0
"""Specific heat of burned gas at some 1200 K, J/(kg K)."""


def running(
    engine: PlainEngine,
    cylinder: int,
    walls: Network,
    cycle: GasCycle,
    *,
    ring_power: float = 0.0,
    skirt_power: float = 0.0,
    pin_power: float = 0.0,
    big_end_power: float = 0.0,
    exhaust: GasSide | None = None,
    case_power: float = 0.0,
) -> Exposure:
    """What the walls of a running cylinder are exposed to.

    Parameters
    ----------
    engine, cylinder
        Resolved; its place in ``engine.cylinders``, from 0.
    walls
        Its network.
    cycle
        Of its gas; the doubt about wall heat is already in the coefficient.
    ring_power, skirt_power, pin_power, big_end_power
        Heat of friction, mean over the cycle, W: of rings, skirt, and the rod's small and big end.
    exhaust
        What the exhaust port feels; None: nothing.
    case_power
        Heat of bearings that oil carries into the crankcase, W.

    Raises
    ------
    OutsideValidity
        Where the shaft does not turn forwards throughout.
    """
    parts = engine.cylinders[cylinder]
    air = engine.surroundings.air_temperature
    chamber = gas_side(cycle)
    gas = {"crown": chamber, "head": chamber, "valves": chamber}
    exposed = _open_bore(parts, cycle)
    for band in bands(engine, parts):
        gas[band.name] = gas_side(cycle, band.share_open(exposed))
    if exhaust is not None:
        gas["exhaust_port"] = exhaust
    # two turns a cycle
    cooling = _cooling(engine, parts, walls, speed=4.0 * math.pi / chamber.period)
    cooling["valves"] = _ports(parts, air, exhaust, engine.doubt.port_film)
    speed = parts.cylinder.stroke * 2.0 / (chamber.period / 2.0)
    return Exposure(
        gas=gas,
        films=_blow_by(engine, parts, cycle),
        sources={
            **_friction(engine, parts, speed, (ring_power, skirt_power)),
            **rod_sources(engine, parts, big_end_power, pin_power),
            INSIDE: case_power,
        },
        limits=rod_limits(engine, parts),
        cooling=cooling,
        links=into_case(engine, parts, walls, standing=False),
    )


def resting(engine: PlainEngine, cylinder: int, walls: Network) -> Exposure:
    """What the walls of a standing cylinder are exposed to: no gas, no friction, still air.

    What is left of gas in the cylinder carries next to nothing between its walls.
    """
    parts = engine.cylinders[cylinder]
    air = engine.surroundings.air_temperature
    cooling = _cooling(engine, parts, walls, speed=0.0)
    cooling["valves"] = Cooling(air, constant=assumed.STILL_FILM)
    return Exposure(cooling=cooling, links=into_case(engine, parts, walls, standing=True))


def _cooling(
    engine: PlainEngine, parts: CylinderParts, walls: Network, *, speed: float
) -> dict[str, Cooling]:
    """Of head, port, case and every band of the bore, outside.

    A port in a metal head has no outside of its own.
    """
    around = max(parts.body.outside_diameter, parts.liner.outside_diameter)
    faces = {"head": (parts.head.diameter, head_fins(engine, parts)),
             WALL: (case_width(engine), None)}  # fmt: skip
    if not walls.stack("exhaust_port").layers[-1].metal:
        faces["exhaust_port"] = (parts.head.diameter, None)
    faces |= {band.name: (around, body_fins(engine, parts, band)) for band in bands(engine, parts)}
    return {
        name: outside(engine, diameter, walls.stack(name).layers[-1], speed=speed, fins=fins)
        for name, (diameter, fins) in faces.items()
    }


def _open_bore(parts: CylinderParts, cycle: GasCycle) -> Floats:
    """Length of bore that gas touches at each angle, m."""
    area = math.pi / 4 * parts.cylinder.bore**2
    deck = max(parts.cylinder.deck, 0.0)
    return np.asarray((cycle.volume - cycle.volume.min()) / area + deck, dtype=np.float64)


def _ports(parts: CylinderParts, air: float, exhaust: GasSide | None, doubt: float) -> Cooling:
    """Behind the valves: fresh charge on the inlet, burned gas on the exhaust."""
    inlet, outlet = valve_area(parts.valves.inlet), valve_area(parts.valves.exhaust)
    films = [(assumed.PORT_FILM * doubt * inlet, air)]
    if exhaust is not None:
        films.append((exhaust.mean_coefficient * outlet, exhaust.mean_temperature))
    total = sum(film for film, _ in films)
    mean = sum(film * temperature for film, temperature in films) / total
    return Cooling(mean, constant=total / (inlet + outlet))


def _blow_by(engine: PlainEngine, parts: CylinderParts, cycle: GasCycle) -> dict[str, Film]:
    """Gas that leaks past the rings gives its heat to lands and bore in the narrow gap."""
    outwards = np.clip(cycle.leak_to_crankcase, 0.0, None)
    slowness = 1.0 / cycle.speed
    period = np.trapezoid(slowness, cycle.angle)
    flow = float(np.trapezoid(outwards * slowness, cycle.angle) / period)
    if flow <= 0.0:
        return {}
    warmth = np.trapezoid(outwards * cycle.gas_temperature * slowness, cycle.angle) / period
    film = flow * BLOW_BY_HEAT
    temperature = float(warmth) / flow
    share = assumed.BLOW_BY_TO_PISTON
    films = {"groove" if parts.rings.count else "land": Film(share * film, temperature)}
    for band in bands(engine, parts):
        part = band.share_of_stroke(parts.cylinder.stroke)
        films[band.name] = Film((1.0 - share) * film * part, temperature)
    return films


def _friction(
    engine: PlainEngine, parts: CylinderParts, speed: float, powers: tuple[float, float]
) -> dict[str, float]:
    """Heat of friction shared out to what rubs.

    The bore's skin is rubbed for a moment and cools till the next stroke; ring and skirt are
    rubbed all the time. The heat divides as the conductances away from the contact: into the
    bore ``4/3 * sqrt(pi)``-fold smaller than ``e / sqrt(t)`` of a half space under a flux for the
    time t of contact (its mean rise is ``4 q sqrt(t / pi) / (3 e)``), into ring and skirt
    their own conduction.

    References
    ----------
    H. S. Carslaw, J. C. Jaeger, *Conduction of Heat in Solids*, 2nd ed., section 2.9;
    J. C. Jaeger, *Proc. Roy. Soc. N.S.W.* 76, 1942, 203-224 (moving contact, from memory).
    """
    ring_power, skirt_power = powers
    bore_bands = bands(engine, parts)
    bore = engine.materials[parts.liner.material]
    solid = Solid(bore["conductivity"], bore["density"], bore["specific_heat"])
    circle = math.pi * parts.cylinder.bore

    def into_bore(width: float) -> float:
        seconds = width / speed
        return 0.75 * math.sqrt(math.pi / seconds) * solid.effusivity * circle * width

    into_ring = 0.0
    sources = {"skirt": 0.0}
    if parts.rings.count:
        rings = parts.rings
        width = 0.5 * rings.section if rings.kind == "o_ring" else rings.axial_height
        own = ring_film(engine, parts)[0]
        into_ring = own / (own + rings.count * into_bore(width))
        sources["ring"] = ring_power * into_ring
    shape, piston = piston_shape(parts), parts.piston
    of = engine.materials[piston.skirt_material or piston.material]
    skirt = layer("skirt", of, piston.skirt_thickness, made=piston,
                  flow="radial")  # fmt: skip
    own = skirt.solid.conductivity / (0.5 * piston.skirt_thickness) * circle * shape.skirt
    into_skirt = own / (own + into_bore(shape.skirt))
    sources["skirt"] = skirt_power * into_skirt
    left = ring_power * (1.0 - into_ring) + skirt_power * (1.0 - into_skirt)
    for band in bore_bands:
        sources[band.name] = left * band.share_of_stroke(parts.cylinder.stroke)
    return sources
