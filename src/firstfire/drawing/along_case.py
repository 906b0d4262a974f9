"""The crankcase cut along the crank: end walls with the bearings, roof and floor."""

from __future__ import annotations

import itertools

from firstfire.drawing.along_sizes import AlongSizes
from firstfire.drawing.barrel import case_flange
from firstfire.drawing.making import hatch, made
from firstfire.drawing.model import Loop, Part, Point, Region, Shape
from firstfire.drawing.outlines import polygon, rectangle
from firstfire.engine.resolve import PlainEngine


def case(plain: PlainEngine, z: AlongSizes) -> Part:
    """Above and below the crank, each side open to the cylinders that stand there."""
    fill = hatch(plain.materials[plain.case.material])
    room = z.room
    inside = rectangle(z.wall_left[0], -room.inside, z.wall_right[0], room.inside)
    shapes: list[Shape] = [Region((inside,), "paper", None)]
    for up in (1.0, -1.0):
        there = [c for c, frame in enumerate(z.frames) if (frame.turned == 0.0) == (up > 0)]
        loops = _side(plain, z, there)
        shapes += [Region((tuple((x, up * y, up * b) for x, y, b in loop),), fill)
                   for loop in loops]  # fmt: skip
    return made(plain, "case", None, *shapes)


def _side(plain: PlainEngine, z: AlongSizes, there: list[int]) -> list[Loop]:
    """Pieces of wall above the crank, from left to right."""
    seat = 500 * plain.crank.main_bearing_outside
    room, (in_left, out_left), (in_right, out_right) = z.room, z.wall_left, z.wall_right
    if not there:
        return [polygon(
            (in_left, seat), (out_left, seat), (out_left, room.outside),
            (out_right, room.outside), (out_right, seat), (in_right, seat),
            (in_right, room.inside), (in_left, room.inside),
        )]  # fmt: skip
    ordered = sorted(there, key=lambda c: z.frames[c].origin[0])
    loops = [_end(z, ordered[0], in_left, out_left, seat, -1.0)]
    for left, right in itertools.pairwise(ordered):
        loops.append(_between(plain, z, left, right))
    return [*loops, _end(z, ordered[-1], in_right, out_right, seat, 1.0)]


def _end(z: AlongSizes, c: int, wall_in: float, wall_out: float, seat: float, side: float) -> Loop:
    """An end wall with what leads from it to the cylinder next to it."""
    s, room, middle = z.drawn[c], z.room, z.frames[c].origin[0]
    opening = middle + side * 500 * s.parts.liner.outside_diameter
    edge = middle + side * room.half[c]
    top, flange = room.tops[c], case_flange(s)
    points: list[Point] = [(opening, top), (edge, top)]
    beyond = side * edge >= side * wall_out
    shoulder = top - flange if beyond else min(room.outside, top)
    points += [(edge, shoulder), (wall_out, shoulder), (wall_out, seat), (wall_in, seat)]
    if side * wall_in < side * opening:
        # the wall reaches under the liner
        under = min(s.liner_end - 1.0, top - flange)
        points += [(wall_in, under), (opening, under)]
    else:
        roof = min(room.inside, shoulder - 2.0)
        points += [(wall_in, roof), (opening, roof)]
    return polygon(*points)


def _between(plain: PlainEngine, z: AlongSizes, left: int, right: int) -> Loop:
    """What stands between two cylinders, with the seat of a bearing in the middle."""
    s = z.drawn[left]
    start = z.frames[left].origin[0] + 500 * s.parts.liner.outside_diameter
    end = z.frames[right].origin[0] - 500 * z.drawn[right].parts.liner.outside_diameter
    top, low = z.room.tops[left], z.room.tops[left] - case_flange(s)
    middle = [b for b in z.bearings if start < b < end]
    if not middle:
        return polygon((start, top), (end, top), (end, low), (start, low))
    half = 500 * plain.crank.main_bearing_width + 0.5
    seat = 500 * plain.crank.main_bearing_outside
    return polygon(
        (start, top), (end, top), (end, low), (middle[0] + half, low), (middle[0] + half, seat),
        (middle[0] - half, seat), (middle[0] - half, low), (start, low),
    )  # fmt: skip
