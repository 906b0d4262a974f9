"""The con rod, from its face across the crank and from its edge along it."""

from __future__ import annotations

import math

from firstfire.drawing.making import made
from firstfire.drawing.model import Disc, Loop, Part, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import line, polygon, rectangle
from firstfire.drawing.sizes import CylinderSizes
from firstfire.engine.resolve import PlainEngine


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
