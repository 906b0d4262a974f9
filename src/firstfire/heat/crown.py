"""The piston's crown: coating or shield, what lies between, and the crown itself."""

from __future__ import annotations

import math

from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.heat import assumed
from firstfire.heat.layers import Layer, coating, gap_resistance, layer
from firstfire.heat.stack import Stack, flat_stack


def crown_stack(engine: PlainEngine, parts: CylinderParts) -> Stack:
    """Fire on the crown, crankcase behind it.

    A shield is taken to cover all of the crown, though a rim of some 1.5 mm round it stays bare,
    and its screws are left out: both warm the plastic a little more than this says.
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
    if shield.screws and engine.materials[parts.piston.material]["conductivity"] > assumed.METAL:
        return assumed.CONTACT_METAL_HELD
    return assumed.CONTACT_HELD if shield.screws else assumed.CONTACT_BONDED
