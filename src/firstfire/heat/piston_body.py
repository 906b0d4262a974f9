"""What hangs on the crown: its rim at the top ring, ring belt, rings, skirt and bosses."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.heat import assumed
from firstfire.heat.layers import layer
from firstfire.heat.liner import Band
from firstfire.heat.network import Link, Lump
from firstfire.heat.stack import Stack

LEAST = 2e-3
"""Least length of a path through the piston, m."""


@dataclass(frozen=True)
class PistonShape:
    """Sizes of a piston below its crown, m.

    Attributes
    ----------
    belt
        Height of the ring belt: from under the crown to the top of the pin.
    belt_wall
        Its wall: groove and skirt behind it.
    skirt
        Height below the belt.
    gap
        Clearance on radius, 20 µm at least.
    rim, rim_wall
        Height and radial width of the crown's rim at the top ring: its groove and the land that
        bears it. No higher than from the top land to the pin, no wider than twice the groove's
        depth.
    """

    belt: float
    belt_wall: float
    skirt: float
    gap: float
    rim: float
    rim_wall: float


def piston_shape(parts: CylinderParts) -> PistonShape:
    """Sizes of a piston below its crown."""
    piston, pin, rings = parts.piston, parts.pin, parts.rings
    below_land = piston.compression_height - 0.5 * pin.diameter - piston.top_land
    belt = max(piston.compression_height - 0.5 * pin.diameter - piston.crown_thickness, LEAST)
    wall = piston.skirt_thickness + (parts.rings.groove_depth if parts.rings.count else 0.0)
    return PistonShape(
        belt=belt,
        belt_wall=min(wall, 0.45 * parts.cylinder.bore),
        skirt=max(piston.length - piston.crown_thickness - belt, LEAST),
        gap=max(0.5 * piston.skirt_clearance, 20e-6),
        rim=max(min(rings.groove_width + piston.top_land, below_land), LEAST),
        rim_wall=min(2.0 * rings.groove_depth, 0.45 * parts.cylinder.bore),
    )


def piston_lumps(engine: PlainEngine, parts: CylinderParts) -> tuple[Lump, ...]:
    """Ring belt (``land``), ``skirt``, ``boss`` with the pin in it; ``groove`` and ``ring``.

    The rim that the top ring sits in (``groove``) is followed apart from the belt below it,
    because it lies nearer the fire.
    """
    shape, piston, bore = piston_shape(parts), parts.piston, parts.cylinder.bore
    material, pin_metal = engine.materials[piston.material], engine.materials[parts.pin.material]
    below = engine.materials[piston.skirt_material or piston.material]
    heat = material["density"] * material["specific_heat"]
    belt = math.pi * (bore - shape.belt_wall) * shape.belt_wall * shape.belt
    skirt = math.pi * (bore - piston.skirt_thickness) * piston.skirt_thickness * shape.skirt
    pin = math.pi / 4 * (parts.pin.diameter**2 - parts.pin.inside_diameter**2) * parts.pin.length
    boss = math.pi / 4 * (1.8**2 - 1.0) * parts.pin.diameter**2 * piston.boss_width
    pin_heat = pin_metal["density"] * pin_metal["specific_heat"] * pin
    inside = math.pi * (bore - 2 * piston.skirt_thickness)
    lumps = [
        Lump("land", heat * belt, inside * shape.belt, shape.belt_wall),
        Lump(
            "skirt",
            below["density"] * below["specific_heat"] * skirt,
            inside * shape.skirt,
            piston.skirt_thickness,
        ),
        Lump(
            "boss",
            heat * boss + pin_heat,
            math.pi * 1.8 * parts.pin.diameter * piston.boss_width,
            0.4 * parts.pin.diameter,
        ),
    ]
    if parts.rings.count:
        rim = math.pi * (bore - shape.rim_wall) * shape.rim_wall * shape.rim
        cut = math.pi * (bore - parts.rings.groove_depth) * parts.rings.groove_depth
        rim = max(rim - cut * parts.rings.groove_width, 0.25 * rim)
        lumps.append(Lump("groove", heat * rim, 0.0, shape.rim))
        lumps.append(Lump("ring", _ring_heat(engine, parts), 0.0, parts.rings.section))
    return tuple(lumps)


def _ring_heat(engine: PlainEngine, parts: CylinderParts) -> float:
    rings, material = parts.rings, engine.materials[parts.rings.material]
    area = (
        math.pi / 4 * rings.section**2
        if rings.kind == "o_ring"
        else rings.section * rings.axial_height
    )
    length = math.pi * (parts.cylinder.bore - rings.section)
    return rings.count * area * length * material["density"] * material["specific_heat"]


def ring_film(engine: PlainEngine, parts: CylinderParts) -> tuple[float, float]:
    """Conductance from the middle of all rings to the bore and to their grooves, W/K.

    An O-ring touches over about half its section and heat crosses about half a section of
    rubber to get there, so that a ring passes ``k pi B`` on either side. A metal or PTFE ring
    touches the bore with its height and the groove with a flank.
    """
    rings, bore = parts.rings, parts.cylinder.bore
    conductivity = engine.materials[rings.material]["conductivity"]
    round_it = math.pi * bore * rings.count
    if rings.kind == "o_ring":
        return conductivity * round_it, conductivity * round_it
    across = 0.5 * rings.section / (conductivity * rings.axial_height)
    oiled = engine.case.lubrication in assumed.FLOODED and rings.kind == "metal"
    touching = assumed.RING_ON_OILED_BORE if oiled else assumed.VALVE_ON_SEAT
    onto_bore = 1.0 / (touching * rings.axial_height) + across
    along = 0.5 * rings.axial_height / (conductivity * rings.section)
    onto_flank = assumed.CONTACT_SEATED / rings.section + along
    return round_it / onto_bore, round_it / onto_flank


def piston_links(
    engine: PlainEngine, parts: CylinderParts, crown: Stack, bore_bands: tuple[Band, ...]
) -> tuple[Link, ...]:
    """Paths from crown and bore to ring belt, rings, skirt and bosses."""
    shape, piston, bore = piston_shape(parts), parts.piston, parts.cylinder.bore
    solid = layer("crown", engine.materials[piston.material], piston.crown_thickness, made=piston)
    conductivity = solid.solid.conductivity
    lower = conductivity
    if piston.skirt_material is not None:
        lower = min(conductivity, engine.materials[piston.skirt_material]["conductivity"])
    belt_area = math.pi * (bore - shape.belt_wall) * shape.belt_wall
    skirt_area = math.pi * (bore - piston.skirt_thickness) * piston.skirt_thickness
    pillar = 1.8 * parts.pin.diameter * piston.boss_width
    below = max(piston.compression_height - piston.crown_thickness, LEAST)
    first, last = crown.starts[-2], crown.cells - 1
    halfway = crown.cell_at(crown.thickness - 0.5 * piston.crown_thickness)
    to_belt = 0.5 * (piston.crown_thickness + shape.belt)
    links = [
        Link("crown", max(halfway, first), "land", conductivity * belt_area / to_belt),
        Link("crown", last, "boss", conductivity * pillar / below),
        Link("land", 0, "skirt", lower * skirt_area / (0.5 * (shape.belt + shape.skirt))),
        Link("boss", 0, "skirt", lower * pillar / (0.25 * bore)),
    ]
    oiled = engine.case.lubrication in assumed.FLOODED
    gap = (assumed.OILED_CREVICE if oiled else assumed.CREVICE_CONDUCTIVITY) / shape.gap
    above = assumed.CREVICE_CONDUCTIVITY / max(0.5 * piston.land_clearance, 20e-6)
    round_it = math.pi * bore

    def across(film: float, height: float, wall: float) -> float:
        """Through the clearance and a third of the wall, to where its mean temperature is, W/K.

        A slab warmed on one face stands at its mean a third of its thickness below that face
        (Carslaw and Jaeger, 2nd ed., section 3.8): next to nothing in metal, most of it in print.
        """
        return round_it * height / (1.0 / film + wall / (3.0 * conductivity))

    to_bore = {
        "land": across(above, 0.5 * shape.belt, shape.belt_wall),
        "skirt": across(gap, shape.skirt, piston.skirt_thickness),
    }
    if parts.rings.count:
        onto_bore, onto_groove = ring_film(engine, parts)
        links.append(Link("ring", 0, "groove", onto_groove))
        links += _rim_links(parts, crown, conductivity)
        to_bore["ring"] = onto_bore
        to_bore["groove"] = across(above, 0.5 * shape.rim, shape.rim_wall)
    for band in bore_bands:
        share = band.share_of_stroke(parts.cylinder.stroke)
        links += [Link(band.name, 0, name, share * one) for name, one in to_bore.items()]
    return tuple(one for one in links if one.conductance > 0)


def _rim_links(parts: CylinderParts, crown: Stack, conductivity: float) -> list[Link]:
    """From the crown down its top land and outwards to the rim, and from the rim to the belt."""
    piston, bore, shape = parts.piston, parts.cylinder.bore, piston_shape(parts)
    front = crown.thickness - piston.crown_thickness
    ring = math.pi * (bore - shape.rim_wall) * shape.rim_wall
    down = 0.5 * min(piston.top_land, piston.crown_thickness)
    links = [
        Link("crown", crown.cell_at(front + down), "groove",
             conductivity * ring / (0.5 * (piston.top_land + shape.rim))),
        Link("groove", 0, "land", conductivity * ring / (0.5 * (shape.rim + shape.belt))),
    ]  # fmt: skip
    beside = min(piston.crown_thickness - piston.top_land, shape.rim)
    if beside > 0:
        core = math.pi * (bore - 2.0 * shape.rim_wall) * beside
        middle = crown.cell_at(front + piston.top_land + 0.5 * beside)
        links.append(Link("crown", middle, "groove", conductivity * core / shape.rim_wall))
    return links
