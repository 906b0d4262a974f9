"""The piston's crown: coating or shield, what lies between, and the crown itself."""

from __future__ import annotations

import math

from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.heat import assumed
from firstfire.heat.layers import Layer, coating, gap_resistance, layer
from firstfire.heat.network import Link, Lump
from firstfire.heat.stack import Stack, flat_stack


def crown_stack(engine: PlainEngine, parts: CylinderParts) -> Stack:
    """Fire on the crown, crankcase behind it.

    A shield is taken to cover all of the crown, though a rim of some 1.5 mm round it stays bare:
    the plastic there is a little warmer than this says. Its screws are followed apart
    (`screw_lump`).
    """
    piston = parts.piston
    layers: tuple[Layer, ...] = ()
    contact = 0.0
    if piston.shield.thickness > 0:
        shield = engine.materials[piston.shield.material]
        layers = (layer("shield", shield, piston.shield.thickness),)
        contact = _behind_shield(engine, parts)
    else:
        layers = coating("crown", piston.coating)
    crown = layer(
        "crown",
        engine.materials[piston.material],
        piston.crown_thickness,
        contact=contact,
        made=piston,
    )
    area = math.pi / 4 * parts.cylinder.bore**2
    return flat_stack("crown", (*layers, crown), area)


def _behind_shield(engine: PlainEngine, parts: CylinderParts) -> float:
    shield = parts.piston.shield
    if shield.air_gap > 0:
        return gap_resistance(shield.air_gap)
    held = assumed.CONTACT_HELD if shield.screws else assumed.CONTACT_BONDED
    if shield.screws and engine.materials[parts.piston.material]["conductivity"] > assumed.METAL:
        held = assumed.CONTACT_METAL_HELD
    return held / engine.doubt.contact


def screw_lump(parts: CylinderParts) -> tuple[Lump, ...]:
    """The screws that hold a shield: as warm as the plastic round their threads."""
    shield = parts.piston.shield
    if shield.thickness <= 0 or not shield.screws:
        return ()
    volume = math.pi / 4 * assumed.SCREW_DIAMETER**2 * _engaged(parts)
    heat = assumed.SCREW_HEAT * shield.screws * volume
    return (Lump("shield_screws", heat, 0.0, 0.5 * assumed.SCREW_DIAMETER),)


def screw_links(engine: PlainEngine, parts: CylinderParts, crown: Stack) -> tuple[Link, ...]:
    """From the sheet under the screws' heads down their shanks, and out into the crown.

    Into the plastic heat goes round each screw, from its radius to three times that.
    """
    if not screw_lump(parts):
        return ()
    piston, engaged = parts.piston, _engaged(parts)
    count, diameter = piston.shield.screws, assumed.SCREW_DIAMETER
    section = math.pi / 4 * diameter**2
    down = assumed.SCREW_CONDUCTIVITY * section / (0.5 * engaged)
    under_head = 3.0 * section / assumed.CONTACT_IN_METAL * engine.doubt.contact
    plastic = layer("crown", engine.materials[piston.material], piston.crown_thickness,
                    made=piston)  # fmt: skip
    out = 2.0 * math.pi * plastic.solid.conductivity * engaged / math.log(3.0)
    front = crown.thickness - piston.crown_thickness
    return (
        Link("crown", crown.starts[1] - 1, "shield_screws",
             count * down * under_head / (down + under_head)),
        Link("crown", crown.cell_at(front + 0.5 * engaged), "shield_screws", count * out),
    )  # fmt: skip


def _engaged(parts: CylinderParts) -> float:
    """Length of thread in the crown, m: two and a half diameters where it is so thick."""
    return min(2.5 * assumed.SCREW_DIAMETER, parts.piston.crown_thickness)
