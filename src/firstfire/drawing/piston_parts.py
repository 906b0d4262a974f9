"""Piston, shield, rings, pin and con rod, across the crank and along it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.drawing.making import hatch, made
from firstfire.drawing.model import Disc, Loop, Part, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import line, mirrored, polygon, rectangle, shifted, slot
from firstfire.drawing.sizes import CylinderSizes
from firstfire.engine.resolve import PlainEngine

_BETWEEN = 1.5  # mm of land between two grooves, as the file's own check counts
_BELOW = 1.5  # mm of land below the last groove
_BOSS = 1.8  # outside of a boss, in pins, as the file's rule for the piston's mass has it


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
        (upper - k * (wide + _BETWEEN) - wide, upper - k * (wide + _BETWEEN)) for k in range(count)
    )
    under = top - 1e3 * piston.crown_thickness
    end = (grooves[-1][0] - _BELOW) if grooves else under
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
    lows = [*(high for _, high in p.grooves), p.grooves[-1][0] - _BELOW]
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
    radius = _BOSS * 500 * s.parts.pin.diameter
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


def rod_across(plain: PlainEngine, s: CylinderSizes) -> list[Part]:
    """The rod from its face: two eyes and a shank; not hatched, though it lies in the plane."""
    said, n = s.parts.rod, s.number
    small, big = (s.x, s.pin), s.crankpin
    pin, crankpin = 500 * s.parts.pin.diameter, 500 * plain.crank.crankpin_diameter
    wall, half = 1e3 * said.eye_wall, 500 * said.shank_width
    ends = [
        ("small-end", small, pin, pin + wall), ("big-end", big, crankpin, crankpin + wall),
    ]  # fmt: skip
    sizes = small, big, ends[0][3], ends[1][3], half
    found = [made(plain, "rod", n, Region((_shank(*sizes),)), *_panel(*sizes))]
    for kind, centre, inner, outer in ends:
        found.append(made(plain, kind, n, Region((_circle(centre, outer), _circle(centre, inner)))))
    linings = _lining(said.small_end), _lining(said.big_end)
    lined = [
        Disc(centre, inner + lining, "none", "thin")
        for (_, centre, inner, _), lining in zip(ends, linings, strict=True)
        if lining
    ]
    bores = [Disc(centre, inner, "none", "heavy") for _, centre, inner, _ in ends]
    found.append(made(plain, "rod-ends", n, *lined, *bores))
    if said.split:
        found.append(_cap(plain, s, small, big, crankpin, crankpin + wall))
    return found


def _lining(kind: str) -> float:
    return {"plain": 0.0, "bush": 1.2, "needle": 2.0, "ball": 4.0}[kind]


def _circle(centre: Point, radius: float) -> Loop:
    x, y = centre
    return ((x - radius, y, 1.0), (x + radius, y, 1.0))


def _axes(small: Point, big: Point) -> tuple[Point, Point]:
    apart = math.dist(small, big)
    down = ((big[0] - small[0]) / apart, (big[1] - small[1]) / apart)
    return down, (-down[1], down[0])


def _flanks(
    small: Point, big: Point, eye: float, end: float, half: float
) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
    """Both sides of the shank, from where they leave the small eye to the big one."""
    down, side = _axes(small, big)
    a, b = min(half, 0.97 * eye), min(half * 1.12, 0.97 * end)
    first, last = math.sqrt(eye**2 - a**2), math.sqrt(end**2 - b**2)

    def place(along_from: Point, along: float, across: float) -> Point:
        return (along_from[0] + along * down[0] + across * side[0],
                along_from[1] + along * down[1] + across * side[1])  # fmt: skip

    return (
        (place(small, first, a), place(big, -last, b)),
        (place(small, first, -a), place(big, -last, -b)),
    )


def _shank(small: Point, big: Point, eye: float, end: float, half: float) -> Loop:
    left, right = _flanks(small, big, eye, end, half)
    return polygon(*left, *reversed(right))


def _panel(small: Point, big: Point, eye: float, end: float, half: float) -> list[Shape]:
    """Thin lines along the shank, for its rounded edges."""
    left, right = _flanks(small, big, eye, end, half)
    down, side = _axes(small, big)
    inset = 0.3 * half
    lines: list[Shape] = []
    for (top, low), sign in ((left, -1.0), (right, 1.0)):
        across = (sign * inset * side[0], sign * inset * side[1])
        start = top[0] + 2 * down[0] + across[0], top[1] + 2 * down[1] + across[1]
        finish = low[0] - 2 * down[0] + across[0], low[1] - 2 * down[1] + across[1]
        lines.append(Stroke(line(start, finish), "thin"))
    return lines


def _cap(
    plain: PlainEngine, s: CylinderSizes, small: Point, big: Point, inner: float, outer: float
) -> Part:
    """The parting line of a big end that opens, and its two bolts."""
    down, side = _axes(small, big)
    shapes: list[Shape] = []
    for sign in (-1.0, 1.0):
        from_, to = (
            (big[0] + sign * r * side[0], big[1] + sign * r * side[1]) for r in (inner, outer)
        )
        shapes.append(Stroke(line(from_, to), "outline"))
        middle = ((from_[0] + to[0]) / 2, (from_[1] + to[1]) / 2)
        shapes.append(
            Stroke(
                line(
                    (middle[0] - 0.7 * outer * down[0], middle[1] - 0.7 * outer * down[1]),
                    (middle[0] + 0.7 * outer * down[0], middle[1] + 0.7 * outer * down[1]),
                ),
                "centre",
            )
        )
    start = math.atan2(-side[1], -side[0])
    half_ring = tuple(
        (big[0] + r * math.cos(a), big[1] + r * math.sin(a), b)
        for r, a, b in (
            (outer, start, 1.0), (outer, start + math.pi, 0.0),
            (inner, start + math.pi, -1.0), (inner, start, 0.0),
        )
    )  # fmt: skip
    return made(plain, "rod-cap", s.number, Region((half_ring,)), *shapes)


def rod_along(plain: PlainEngine, s: CylinderSizes, x: float, crankpin: float) -> list[Part]:
    """The rod from its edge, standing at `x`, its big end at the level of the crankpin."""
    said, n = s.parts.rod, s.number
    wall = 1e3 * said.eye_wall
    pin, big = 500 * s.parts.pin.diameter, 500 * plain.crank.crankpin_diameter
    thick = 500 * said.shank_thickness
    eyes = (("small-end", s.pin, pin, 500 * said.small_end_width),
            ("big-end", crankpin, big, 500 * said.big_end_width))  # fmt: skip
    low, high = sorted((s.pin - pin - wall, crankpin + big + wall))
    found = [made(plain, "rod", n, Region((rectangle(x - thick, low, x + thick, high),)))]
    bores: list[Shape] = []
    for kind, level, inner, half in eyes:
        found.append(
            made(
                plain,
                kind,
                n,
                Region(
                    (rectangle(x - half, level - inner - wall, x + half, level + inner + wall),)
                ),
            )
        )
        for edge in (level - inner, level + inner):
            bores.append(Stroke(line((x - half, edge), (x + half, edge)), "heavy"))
    found.append(made(plain, "rod-ends", n, *bores))
    if said.split:
        parting = Stroke(line((x - 500 * said.big_end_width, crankpin),
                           (x + 500 * said.big_end_width, crankpin)))  # fmt: skip
        found.append(made(plain, "rod-cap", n, parting))
    return found
