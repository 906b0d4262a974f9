"""The head: chamber plate and plastic, valves, their seats, and the exhaust port."""

from __future__ import annotations

import math

from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.valves import Exhaust, Inlet
from firstfire.heat import assumed
from firstfire.heat.fins import FinnedFace, upright_fins, weighed
from firstfire.heat.layers import Layer, coating, layer
from firstfire.heat.network import Link, Lump
from firstfire.heat.stack import Stack, flat_stack, round_stack


def valve_area(valve: Inlet | Exhaust) -> float:
    """Face of a valve in the chamber, m²."""
    return math.pi / 4 * valve.head_diameter**2


def beside(parts: CylinderParts) -> bool:
    """Whether the valves stand beside the bore, in the cylinder's own metal."""
    return parts.valves.placed == "side"


def _valves(parts: CylinderParts) -> tuple[Inlet, Exhaust]:
    return parts.valves.inlet, parts.valves.exhaust


def head_stack(engine: PlainEngine, parts: CylinderParts) -> Stack:
    """Fire on the chamber's roof less its valves, open air behind.

    A metal head spreads heat over its whole diameter; a plastic one does not.
    """
    head = parts.head
    roof = math.pi / 4 * parts.cylinder.bore**2
    heads = sum(valve_area(valve) for valve in _valves(parts))
    fire = max(roof - heads, 0.2 * roof)
    if beside(parts):
        roof += assumed.POCKET_ROOF * heads
        fire = roof
    if head.chamber_plate is not None and head.chamber_plate_thickness > 0:
        plate = engine.materials[head.chamber_plate]
        layers: tuple[Layer, ...] = (layer("chamber_plate", plate, head.chamber_plate_thickness),)
        metals = min(engine.materials[one]["conductivity"]
                     for one in (head.chamber_plate, head.material))  # fmt: skip
        metal = metals > assumed.METAL
        contact = assumed.CONTACT_METAL_HELD if metal else assumed.CONTACT_HELD
        contact /= engine.doubt.contact
    else:
        layers, contact = coating("head", head.coating), 0.0
    block = layer(
        "head", engine.materials[head.material], head.thickness, contact=contact, made=head
    )
    whole = math.pi / 4 * head.diameter**2
    area = max(whole, roof) if block.metal else roof
    back = head_face(parts) if block.metal else area
    stack = flat_stack("head", (*layers, block), area, fire_area=fire, back_area=back)
    return weighed(stack, head_fins(engine, parts))


def head_face(parts: CylinderParts) -> float:
    """Outer face of a head that spreads its heat: back and rim, m²."""
    head, roof = parts.head, math.pi / 4 * parts.cylinder.bore**2
    rim = math.pi * head.diameter * head.thickness
    return max(math.pi / 4 * head.diameter**2, roof) + rim


def head_fins(engine: PlainEngine, parts: CylinderParts) -> FinnedFace | None:
    """Fins on the head; None where there are none."""
    head = parts.head
    metal = layer("head", engine.materials[head.material], head.fins.length, made=head).solid
    return upright_fins(head.fins, head.diameter, head_face(parts), metal)


def valve_stack(engine: PlainEngine, parts: CylinderParts) -> Stack:
    """Both valves' heads as one steel disc: fire before, ports behind."""
    inlet, exhaust = _valves(parts)
    area = valve_area(inlet) + valve_area(exhaust)
    across = sum(valve_area(valve) * valve.head_diameter for valve in (inlet, exhaust))
    thickness = assumed.VALVE_HEAD_THICKNESS * across / area
    solid = layer("valves", engine.materials[exhaust.material], thickness)
    return flat_stack("valves", (solid,), area)


def seats(
    engine: PlainEngine, parts: CylinderParts, valves: Stack, holder: Stack
) -> tuple[Lump, tuple[Link, ...]]:
    """The seat rings: heat from the closed valves, handed on to what holds them: head or body.

    A ring is as wide and twice as high as a tenth of its bore (common practice, no source).
    """
    capacity = touching = outside = 0.0
    for valve in _valves(parts):
        material = engine.materials[valve.seat_material]
        width = 0.1 * valve.head_diameter
        ring = math.pi * valve.head_diameter
        capacity += material["density"] * material["specific_heat"] * ring * 2.0 * width**2
        touching += ring * 0.05 * valve.head_diameter
        outside += ring * 2.0 * width
    holding = holder.starts[0] if holder.parts[0] == "chamber_plate" else holder.starts[-2]
    closed = assumed.VALVE_ON_SEAT * engine.doubt.contact
    links = (
        Link("valves", valves.cells - 1, "seats", closed * touching),
        Link(holder.name, holding, "seats", outside / _seated(engine, parts)),
    )
    return Lump("seats", capacity, outside, 0.1 * parts.valves.exhaust.head_diameter), links


def _seated(engine: PlainEngine, parts: CylinderParts) -> float:
    """Between seat rings and what they are pressed into, m² K/W."""
    holder = parts.body if beside(parts) else parts.head
    conducts = engine.materials[holder.material]["conductivity"]
    pressed = assumed.CONTACT_METAL_FIT if conducts > assumed.METAL else assumed.CONTACT_SEATED
    return pressed / engine.doubt.contact


def port_stack(engine: PlainEngine, parts: CylinderParts) -> Stack:
    """The exhaust port: hot gas inside, head round it, open air outside."""
    bore = parts.valves.exhaust.throat_diameter
    holder = parts.body if beside(parts) else parts.head
    wall = layer("exhaust_port", engine.materials[holder.material], assumed.PORT_WALL,
                 made=holder)  # fmt: skip
    return round_stack("exhaust_port", (wall,), bore, assumed.PORT_LENGTH * bore)
