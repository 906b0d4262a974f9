"""The rod's plain ends: where pin rubs in eye, and what carries that heat away.

Half of the friction's heat is set free on either side of the film between them; which side takes
more follows from what lies behind. Behind the eye's face lies print, which takes up little; behind
the crankpin its metal, the webs it is held in and the air they stir. A printed crankpin takes as
much as the eye does, in a skin of its own. The piston pin hands its share to the bosses.

References
----------
H. S. Carslaw, J. C. Jaeger, *Conduction of Heat in Solids*, 2nd ed., section 2.14 (two bodies
that meet over a film).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.solid import Solid
from firstfire.heat import assumed
from firstfire.heat.layers import Layer, layer
from firstfire.heat.network import Link, Lump
from firstfire.heat.stack import Stack, round_stack

PLAIN = ("plain", "bush")
"""Ends that slide; needles and balls roll, and set next to no heat free."""

CELLS, GROWTH = 8, 1.5
"""Of an eye's wall: coarse, since no cycle swings in it."""


@dataclass(frozen=True)
class RodEnd:
    """One sliding end of a rod: its stack's name, pin, width, and whether a bush lies between."""

    name: str
    hole: float
    width: float
    bushed: bool

    @property
    def face(self) -> float:
        """Of the sliding surface, m²."""
        return math.pi * self.hole * self.width


def rod_ends(engine: PlainEngine, parts: CylinderParts) -> tuple[RodEnd, ...]:
    """Those ends of a rod that slide on their pin."""
    rod = parts.rod
    ends = (
        ("big_end", rod.big_end, engine.crank.crankpin_diameter, rod.big_end_width),
        ("small_end", rod.small_end, parts.pin.diameter, rod.small_end_width),
    )
    return tuple(
        RodEnd(name, hole, width, kind == "bush") for name, kind, hole, width in ends
        if kind in PLAIN
    )  # fmt: skip


def rod_stacks(engine: PlainEngine, parts: CylinderParts) -> tuple[Stack, ...]:
    """The eyes' walls from the sliding face outwards."""
    return tuple(_eye(engine, parts, end) for end in rod_ends(engine, parts))


def _eye(engine: PlainEngine, parts: CylinderParts, end: RodEnd) -> Stack:
    rod = parts.rod
    eye = layer(end.name, engine.materials[rod.material], rod.eye_wall, made=rod, flow="radial",
                contact=assumed.CONTACT_PRESSED if end.bushed else 0.0)  # fmt: skip
    bush = Layer(f"{end.name}_bush", Solid(*assumed.BUSH), assumed.BUSH_WALL)
    layers = (bush, eye) if end.bushed else (eye,)
    stack = round_stack(end.name, layers, end.hole, end.width, growth=GROWTH, least=CELLS)
    return replace(stack, swept=False)


def crank_lumps(engine: PlainEngine, parts: CylinderParts) -> tuple[Lump, ...]:
    """A metal ``crankpin`` under a sliding big end, and the metal ``webs`` it is held in."""
    if not _has_metal_pin(engine, parts):
        return ()
    crank, pin = engine.crank, engine.materials[engine.crank.crankpin_material]
    rods = _rods_on_pin(engine)
    free = max(crank.crankpin_length / rods - parts.rod.big_end_width, 0.0)
    volume = math.pi / 4 * crank.crankpin_diameter**2 * _pin_length(engine) / rods
    lumps = [
        Lump("crankpin", pin["density"] * pin["specific_heat"] * volume,
             math.pi * crank.crankpin_diameter * free, 0.5 * crank.crankpin_diameter)
    ]  # fmt: skip
    webs = _webs(engine, parts)
    if webs is not None:
        material, face, thickness = webs
        heat = engine.materials[material]["density"] * engine.materials[material]["specific_heat"]
        share = 1 / rods
        lumps.append(Lump("webs", share * 2 * heat * face * thickness, share * 2 * face, thickness))
    return tuple(lumps)


def rod_links(
    engine: PlainEngine, parts: CylinderParts, stacks: tuple[Stack, ...]
) -> tuple[Link, ...]:
    """From each eye's face across the film to its pin, and from the crankpin to its webs."""
    links = []
    metal = _has_metal_pin(engine, parts)
    known = {stack.name for stack in stacks}
    for end in rod_ends(engine, parts):
        across = assumed.PLAIN_FILM * end.face
        if end.name in known and (end.name == "small_end" or metal):
            links.append(
                Link(end.name, 0, "boss" if end.name == "small_end" else "crankpin", across)
            )
    if metal and _webs(engine, parts) is not None:
        conductivity = engine.materials[engine.crank.crankpin_material]["conductivity"]
        section = math.pi / 4 * engine.crank.crankpin_diameter**2
        along = 2 * conductivity * section / (0.5 * engine.crank.crankpin_length)
        holding = math.pi * engine.crank.crankpin_diameter * _held(engine)
        onto = 2 * holding / assumed.CONTACT_IN_METAL
        # each rod of a common pin has its share of pin and webs, and of the way between them
        both = along * onto / (along + onto)
        links.append(Link("crankpin", 0, "webs", both / _rods_on_pin(engine)))
    return tuple(links)


def rod_sources(
    engine: PlainEngine, parts: CylinderParts, big_end: float, small_end: float
) -> Mapping[str, float]:
    """Heat of friction on both sides of each film, W, by stack and lump."""
    powers = {"big_end": big_end, "small_end": small_end}
    pins = {"big_end": "crankpin", "small_end": "boss"}
    metal = _has_metal_pin(engine, parts)
    found: dict[str, float] = {}
    for end in rod_ends(engine, parts):
        found[end.name] = 0.5 * powers[end.name]
        if end.name == "small_end" or metal:
            found[pins[end.name]] = 0.5 * powers[end.name]
    # what rolls hands its little heat to the pin
    found.setdefault("boss", small_end)
    return found


def rod_limits(engine: PlainEngine, parts: CylinderParts) -> Mapping[str, float]:
    """Where a printed eye is molten and rubs no more, K, by stack; without a known limit, none.

    The pin's side of the film fades with the eye's, a little late: it is a little cooler.
    """
    limit = engine.materials[parts.rod.material].get("decomposition")
    if limit is None:
        return {}
    names = [end.name for end in rod_ends(engine, parts)]
    return dict.fromkeys([*names, "crankpin"], limit)


def _has_metal_pin(engine: PlainEngine, parts: CylinderParts) -> bool:
    pin = engine.materials[engine.crank.crankpin_material]
    return parts.rod.big_end in PLAIN and pin["conductivity"] > assumed.METAL


def _rods_on_pin(engine: PlainEngine) -> int:
    """Two big ends on the common pin of a V-twin or an opposed twin share it and its webs."""
    twin = engine.layout.kind in ("v_twin", "opposed_twin")
    common = twin and engine.layout.crank_offset == 0
    return len(engine.cylinders) if common else 1


def _held(engine: PlainEngine) -> float:
    """Length of the pin in one web, m."""
    crank = engine.crank
    return crank.joint.length if crank.built == "built_up" else crank.cheek_thickness


def _pin_length(engine: PlainEngine) -> float:
    return engine.crank.crankpin_length + 2 * _held(engine)


def _webs(engine: PlainEngine, parts: CylinderParts) -> tuple[str, float, float] | None:
    """Metal that holds the pin: its material, one face in m² and thickness in m; None of print.

    A steel plate screwed to a printed cheek covers its face.
    """
    crank = engine.crank
    face = crank.cheek_width * (0.5 * parts.cylinder.stroke + crank.cheek_width)
    if engine.materials[crank.material]["conductivity"] > assumed.METAL:
        return crank.material, face, crank.cheek_thickness
    plate = crank.joint.plate
    if crank.built == "built_up" and plate is not None and crank.joint.plate_thickness > 0:
        return plate, face, crank.joint.plate_thickness
    return None
