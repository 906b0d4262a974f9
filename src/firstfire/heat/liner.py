"""The bore: liner in its body, as one round wall, or as two bands where it conducts badly."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.heat import assumed
from firstfire.heat.fins import FinnedFace, round_fins, weighed
from firstfire.heat.layers import Layer, gap_resistance, layer
from firstfire.heat.stack import Stack, round_stack

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Band:
    """A ring of the bore, from one depth below its top to another, m.

    Attributes
    ----------
    name
        Of its stack and, with ``body`` for ``liner``, of its parts.
    top, bottom
        m below the bore's top.
    """

    name: str
    top: float
    bottom: float

    @property
    def length(self) -> float:
        """m."""
        return self.bottom - self.top

    def share_open(self, exposed: Floats) -> Floats:
        """Part of it that gas touches where so much of the bore is open, 0 to 1."""
        return np.asarray(np.clip((exposed - self.top) / self.length, 0.0, 1.0))

    def share_of_stroke(self, stroke: float) -> float:
        """Part of the stroke that lies in it, 0 to 1."""
        return max(min(self.bottom, stroke) - min(self.top, stroke), 0.0) / stroke


def bands(engine: PlainEngine, parts: CylinderParts) -> tuple[Band, ...]:
    """One band in a metal bore, which evens itself out; a hot top and the rest in any other."""
    length = max(parts.liner.length, parts.cylinder.stroke)
    if engine.materials[parts.liner.material]["conductivity"] > assumed.METAL:
        return (Band("liner", 0.0, length),)
    top = assumed.TOP_BAND * parts.cylinder.stroke
    return Band("liner", 0.0, top), Band("liner_low", top, length)


def liner_stack(engine: PlainEngine, parts: CylinderParts, band: Band) -> Stack:
    """One band of liner and body: gas inside, open air outside."""
    bore = parts.cylinder.bore
    liner, body = parts.liner, parts.body
    below = band.name.removeprefix("liner")
    wall = 0.5 * (liner.outside_diameter - bore)
    layers = [layer(band.name, engine.materials[liner.material], wall, made=liner, flow="radial")]
    around = 0.5 * (body.outside_diameter - liner.outside_diameter)
    if around > 1e-4:
        layers.append(
            layer(f"body{below}", engine.materials[body.material], around,
                  contact=_on_body(engine, parts), made=body, flow="radial")
        )  # fmt: skip
    stack = round_stack(band.name, _kept(layers), bore, band.length)
    return weighed(stack, body_fins(engine, parts, band))


def body_fins(engine: PlainEngine, parts: CylinderParts, band: Band) -> FinnedFace | None:
    """Fins round the part of the body that a band is; None where there are none.

    They stand along the whole body, evenly: a band has its share of their number.
    """
    body = parts.body
    outside = max(body.outside_diameter, parts.liner.outside_diameter)
    metal = layer("body", engine.materials[body.material], body.fins.length, made=body).solid
    whole = bands(engine, parts)
    found = round_fins(body.fins, outside, whole[-1].bottom, metal)
    return None if found is None else found.share(band.length / whole[-1].bottom)


def _kept(layers: list[Layer]) -> tuple[Layer, ...]:
    return tuple(one for one in layers if one.thickness > 0)


def _on_body(engine: PlainEngine, parts: CylinderParts) -> float:
    """Resistance between liner and body, m² K/W: none where they are one print."""
    liner, body = parts.liner, parts.body
    conducts = min(engine.materials[one.material]["conductivity"] for one in (liner, body))
    pressed = assumed.CONTACT_METAL_FIT if conducts > assumed.METAL else assumed.CONTACT_PRESSED
    pressed /= engine.doubt.contact
    if liner.kind == "bare_print" and liner.material == body.material:
        return 0.0
    if liner.fit_interference >= 0:
        return pressed
    return pressed + gap_resistance(-0.5 * liner.fit_interference)
