"""Piston, shield, rings and pin, across the crank and along it."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.drawing.making import hatch, made
from firstfire.drawing.model import Disc, Loop, Part, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import line, mirrored, polygon, rectangle, shifted, slot
from firstfire.drawing.sizes import CylinderSizes
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.shapes import BOSS_OUTSIDE

BETWEEN = 1.5  # mm of land between two grooves, as the file's own check counts
BELOW = 1.5  # mm of land below the last groove


@dataclass(frozen=True)
class _Piston:
    """Radii and levels of a piston, mm."""

    outside: float
    groove: float
    belt: float
    skirt_in: float
    top: float
    under: float
    grooves: tuple[tuple[float, float], ...]
    belt_end: float
    skirt: float


def _sizes(s: CylinderSizes) -> _Piston:
    piston, rings = s.parts.piston, s.parts.rings
    outside = s.bore - 500 * piston.skirt_clearance
    count = rings.count if rings.kind != "none" else 0
    groove = outside - (1e3 * rings.groove_depth if count else 0.0)
    shield = 1e3 * (piston.shield.thickness + piston.shield.air_gap)
    top = s.crown - (shield if piston.shield.thickness > 0 else 0.0)
    upper = s.crown - 1e3 * piston.top_land
    wide = 1e3 * rings.groove_width
    grooves = tuple(
        (upper - k * (wide + BETWEEN) - wide, upper - k * (wide + BETWEEN)) for k in range(count)
    )
    under = top - 1e3 * piston.crown_thickness
    end = (grooves[-1][0] - BELOW) if grooves else under
    skirt_in = outside - 1e3 * piston.skirt_thickness
    belt = min(skirt_in, groove - max(1.5, 600 * piston.skirt_thickness)) if grooves else skirt_in
    return _Piston(outside, groove, belt, skirt_in, top, under, grooves, min(end, under), s.skirt)


def piston(plain: PlainEngine, s: CylinderSizes, *, along: bool = False) -> list[Part]:
    """Piston with crown, lands, shield, rings and bosses; its pin is `pin`."""
    p, n, said = _sizes(s), s.number, s.parts
    fill = hatch(plain.materials[said.piston.material])
    wall = polygon(
        (p.belt, p.under), (p.groove, p.under), (p.groove, p.belt_end), (p.outside, p.belt_end),
        (p.outside, p.skirt), (p.skirt_in, p.skirt), (p.skirt_in, p.belt_end - 1.0),
        (p.belt, p.belt_end),
    )  # fmt: skip
    crown = Region((shifted(rectangle(-p.groove, p.under, p.groove, p.top), s.x, 0),), fill, None)
    found = [
        made(plain, "bosses", n, *_bosses(plain, s, p, along=along)),
        made(plain, "piston-crown", n, crown),
    ]
    if p.grooves:
        lands = [Region(tuple(_pair_loops(s, loop)), fill, None) for loop in _lands(p)]
        found.append(made(plain, "ring-land", n, *lands))
    # the edge of all of them lies over the hatches
    edge = Region((_edge(s, p),), "none")
    found.append(made(plain, "piston", n, _pair(s, wall, fill), edge))
    if said.piston.shield.thickness > 0:
        found.append(_shield(plain, s, p))
    if p.grooves:
        found.append(_rings(plain, s, p))
    return found


def _pair_loops(s: CylinderSizes, loop: Loop) -> tuple[Loop, Loop]:
    return shifted(loop, s.x, 0), shifted(mirrored(loop), s.x, 0)


def _pair(s: CylinderSizes, loop: Loop, fill: str, pen: str | None = None) -> Region:
    return Region(_pair_loops(s, loop), fill, pen)  # type: ignore[arg-type]


def _lands(p: _Piston) -> list[Loop]:
    """Rings of material from the grooves' bottom out, between crown, grooves and skirt."""
    tops = [p.top, *(low for low, _ in p.grooves)]
    lows = [*(high for _, high in p.grooves), p.grooves[-1][0] - BELOW]
    return [
        rectangle(p.groove, low, p.outside, top)
        for top, low in zip(tops, lows, strict=True)
        if top > low
    ]


def _edge(s: CylinderSizes, p: _Piston) -> Loop:
    """Outline of the whole piston in section, grooves and hollow."""
    right: list[Point] = [(p.outside, p.top)]
    for low, high in p.grooves:
        right += [(p.outside, high), (p.groove, high), (p.groove, low), (p.outside, low)]
    right += [(p.outside, p.skirt), (p.skirt_in, p.skirt), (p.skirt_in, p.belt_end - 1.0)]
    if p.belt_end < p.under:
        right += [(p.belt, p.belt_end), (p.belt, p.under)]
    else:
        right += [(p.skirt_in, p.under)]
    left = [(-x, y) for x, y in reversed(right)]
    return shifted(polygon(*right, *left), s.x, 0)


def _bosses(plain: PlainEngine, s: CylinderSizes, p: _Piston, *, along: bool) -> list[Shape]:
    radius = BOSS_OUTSIDE * 500 * s.parts.pin.diameter
    low = max(s.pin - radius, p.skirt)
    if along:
        out = min(500 * s.parts.pin.length, p.skirt_in)
        start = out - 500 * s.parts.piston.boss_width
        loop = rectangle(max(start, 0.5), low, p.skirt_in, p.under)
        return [_pair(s, loop, hatch(plain.materials[s.parts.piston.material]), "outline")]
    wide = min(radius, p.belt - 0.5)
    loop = (
        (s.x - wide, p.under, 0.0), (s.x - wide, s.pin, 1.0), (s.x + wide, s.pin, 0.0),
        (s.x + wide, p.under, 0.0),
    )  # fmt: skip
    return [Region((loop,), "paper", "outline")]


def _shield(plain: PlainEngine, s: CylinderSizes, p: _Piston) -> Part:
    said = s.parts.piston.shield
    half = 500 * said.diameter
    fill = hatch(plain.materials[said.material], left=True)
    low = s.crown - 1e3 * said.thickness
    shapes: list[Shape] = [
        Region((shifted(rectangle(-half, low, half, s.crown), s.x, 0),), fill, "outline")
    ]
    if said.screws:
        # turned into the section; sunk heads, as anything above the sheet would glow
        deep = min(0.8 * 1e3 * s.parts.piston.crown_thickness, 5.0)
        for side in (-1, 1):
            x = s.x + side * 0.62 * half
            screw = polygon((x - 1.6, s.crown), (x + 1.6, s.crown), (x + 0.8, low), (x + 0.8,
                            p.top - deep), (x - 0.8, p.top - deep), (x - 0.8, low))  # fmt: skip
            shapes.append(Region((screw,), "paper", "thin"))
    return made(plain, "shield", s.number, *shapes)


def _rings(plain: PlainEngine, s: CylinderSizes, p: _Piston) -> Part:
    """In their grooves and on the bore: an O-ring as it is squeezed there."""
    said = s.parts.rings
    shapes: list[Shape] = []
    for low, high in p.grooves:
        middle = (low + high) / 2
        if said.kind == "o_ring":
            gland = s.bore - p.groove
            across = min(gland, 1e3 * said.section)
            tall = min((1e3 * said.section) ** 2 / across, high - low)
            half = max((tall - across) / 2, 1e-3)
            x = p.groove + gland / 2
            loop = slot((x, middle - half), (x, middle + half), across / 2)
            shapes.append(_pair(s, loop, "rubber", "outline"))
            continue
        tall = min(1e3 * said.axial_height, high - low)
        # it rests on the groove's lower side
        loop = rectangle(s.bore - min(1e3 * said.section, s.bore - p.groove), low, s.bore,
                         low + tall)  # fmt: skip
        fill = hatch(plain.materials[said.material])
        shapes.append(_pair(s, loop, fill, "outline"))
    return made(plain, "rings", s.number, *shapes)


def piston_pin(plain: PlainEngine, s: CylinderSizes, *, along: bool = False) -> Part:
    """The pin: its end across the crank, its length along it."""
    radius, hole = 500 * s.parts.pin.diameter, 500 * s.parts.pin.inside_diameter
    fill = hatch(plain.materials[s.parts.pin.material])
    if not along:
        ring = [Disc((s.x, s.pin), radius, fill)]
        if hole:
            ring.append(Disc((s.x, s.pin), hole, "paper"))
        return made(plain, "piston-pin", s.number, *ring)
    half = 500 * s.parts.pin.length
    shapes: list[Shape] = [
        Region((rectangle(s.x - half, s.pin - radius, s.x + half, s.pin + radius),))
    ]
    if hole:
        for side in (-hole, hole):
            shapes.append(Stroke(line((s.x - half, s.pin + side), (s.x + half, s.pin + side)),
                                 "hidden"))  # fmt: skip
    if s.parts.pin.retention == "circlips":
        for side in (-1, 1):
            x = s.x + side * (half + 0.4)
            for level in (s.pin - radius, s.pin + radius):
                shapes.append(Disc((x, level), 0.5, "solid", "thin"))
    return made(plain, "piston-pin", s.number, *shapes)
