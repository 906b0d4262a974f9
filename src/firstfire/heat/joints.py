"""Joints between two walls: head on cylinder, exhaust port in its head, body on its case."""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.heat import assumed
from firstfire.heat.network import Link, Lump
from firstfire.heat.stack import Stack

LEAST_CAPACITY = 1.0
"""Of a joint's own matter, J/K: some grams of gasket."""

Place = tuple[Stack, int]
"""A wall and one of its cells."""


class Joint(NamedTuple):
    """A small lump between two walls, and its links to both."""

    lump: Lump
    links: tuple[Link, Link]


def joined(
    name: str, one: Place, other: Place, conductance: float, capacity: float = LEAST_CAPACITY
) -> Joint:
    """Two walls joined through a lump that takes the mean of both.

    Parameters
    ----------
    name
        Of the lump.
    one, other
        Each wall and the cell that the path ends in.
    conductance
        From wall to wall, W/K.
    capacity
        Of what lies between, J/K.
    """
    lump = Lump(name, capacity, 0.0, assumed.SHOWN)
    links = tuple(Link(stack.name, cell, name, 2.0 * conductance) for stack, cell in (one, other))
    return Joint(lump, (links[0], links[1]))


def head_on_cylinder(engine: PlainEngine, parts: CylinderParts, head: Stack, liner: Stack) -> Joint:
    """Gasket and bolts: from the head's face along half the body.

    Bolts pass on what their section conducts, over the length that they clamp.
    """
    gasket, body = parts.gasket, engine.materials[parts.body.material]
    ring = math.pi * (gasket.inside_diameter + gasket.width) * gasket.width
    sealed = 2.0 * assumed.CONTACT_METAL_HELD
    if gasket.kind != "none":
        sealed += gasket.thickness / engine.materials[gasket.material]["conductivity"]
    inside = parts.liner.outside_diameter
    section = math.pi / 4 * max(parts.body.outside_diameter**2 - inside**2, 0.0)
    section = max(section, math.pi * inside * 1e-3)
    along = 0.5 * parts.liner.length / (body["conductivity"] * section)
    block = engine.materials[parts.head.material]
    across = 0.5 * parts.head.thickness / (block["conductivity"] * ring)
    place = head.starts[0] if head.parts[0] == "chamber_plate" else head.starts[-2]
    capacity = 2e6 * ring * max(gasket.thickness, 0.1e-3)
    through = 1.0 / (sealed / ring + along + across)
    return joined("joint", (head, place), (liner, liner.cells - 1), through,
                  max(capacity, LEAST_CAPACITY))  # fmt: skip


def port_in_metal(port: Stack, holder: Stack) -> Joint:
    """A port cast or bored in a metal head or body, over about its own wall once more of metal."""
    through = port.layers[-1].solid.conductivity * port.back_area / assumed.PORT_WALL
    middle = (holder.starts[-2] + holder.cells) // 2
    return joined("port_joint", (port, port.cells - 1), (holder, middle), through)
