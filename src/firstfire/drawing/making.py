"""How a part of the drawing is put together: its id, its title and its shapes."""

from __future__ import annotations

from collections.abc import Iterable

from firstfire.drawing.model import Fill, Part, Shape
from firstfire.drawing.naming import PARTS, part_slug
from firstfire.engine.materials import Material
from firstfire.engine.resolve import PlainEngine
from firstfire.parts.softness import is_metal

_RUBBER = 0.5e9  # Pa: below it a material bends like rubber


def made(plain: PlainEngine, kind: str, number: int | None, *shapes: Shape) -> Part:
    """A part of a kind, of a cylinder counted from 1 or of the whole engine."""
    return Part(part_slug(kind, number), title(plain, kind, number), layer_of(kind), shapes)


def title(plain: PlainEngine, kind: str, number: int | None = None) -> str:
    """What a part is called, as the ledger calls it; for a twin with its cylinder."""
    first = plain.cylinders[(number or 1) - 1]
    said = {
        "rings": "O-ring" if first.rings.kind == "o_ring" else "piston ring",
        "gasket": "sealant under the head" if first.gasket.kind == "cured_sealant" else "",
        "inlet-valve": "suction inlet valve" if first.valves.inlet.worked == "suction" else "",
        "cam-drive": "cam belt" if plain.cam_drive.kind == "belt" else "",
    }.get(kind) or PARTS[kind].title
    if len(plain.cylinders) > 1 and number and not PARTS[kind].shared:
        return f"{said} of cylinder {number}"
    return said


_LAYERS = {
    "head": ("head", "chamber-face", "chamber-plate", "exhaust-port", "inlet-port", "seats"),
    "valve gear": (
        "inlet-valve", "exhaust-valve", "springs", "cam", "cam-bracket", "cam-drive", "cam-pulleys",
    ),
    "cylinder": ("charge", "liner", "bore", "body", "gasket"),
    "piston": ("piston", "piston-crown", "shield", "ring-land", "bosses", "piston-pin", "rings"),
    "con rod": ("rod", "big-end", "small-end", "rod-ends", "rod-cap"),
    "crank": (
        "crankpin", "through-rod", "cheek", "joint", "joint-plate", "shaft", "flywheel", "load",
    ),
    "case": ("case", "main-bearing", "bearing-seat"),
    "screws": ("fasteners", "washers", "plug"),
    "pipes": ("intake", "exhaust"),
}  # fmt: skip
_LAYER_OF = {kind: layer for layer, kinds in _LAYERS.items() for kind in kinds}
LAYERS = tuple(_LAYERS)
"""Layers of parts, in words."""


def layer_of(kind: str) -> str:
    """The layer a kind of part lies on."""
    return _LAYER_OF[kind]


def hatch(material: Material, *, left: bool = False) -> Fill:
    """The hatch of a material in section; neighbours lean to different sides (ISO 128-3)."""
    if is_metal(material):
        return "metal left" if left else "metal"
    if material.structure == "elastomer" or (material.get("modulus_in_plane") or 1e9) < _RUBBER:
        return "rubber"
    return "plastic left" if left else "plastic"


def joined(parts: Iterable[Part]) -> tuple[Part, ...]:
    """Parts of one id as one, where the first of them stands."""
    found: dict[str, Part] = {}
    for part in parts:
        if part.id in found:
            first = found[part.id]
            part = Part(part.id, part.title, part.layer, first.shapes + part.shapes)  # noqa: PLW2901
        found[part.id] = part
    return tuple(found.values())
