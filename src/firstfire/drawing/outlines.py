"""Closed and open outlines from few numbers, and how far shapes reach. All in mm."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from firstfire.drawing.model import Box, Disc, Loop, Point, Region, Shape, Stroke, Vertex


def polygon(*points: Point) -> Loop:
    """Straight pieces between points."""
    return tuple((x, y, 0.0) for x, y in points)


def rectangle(left: float, bottom: float, right: float, top: float) -> Loop:
    """Upright, anticlockwise from its lower left corner."""
    return polygon((left, bottom), (right, bottom), (right, top), (left, top))


def line(*points: Point) -> Loop:
    """An open line; the same as `polygon`, named for what it is used for."""
    return polygon(*points)


def bulge(turn: float) -> float:
    """Bulge of an arc that turns by an angle, rad, anticlockwise positive.

    Examples
    --------
    >>> round(bulge(math.pi), 12)
    1.0
    """
    return math.tan(turn / 4)


def at(centre: Point, radius: float, angle: float) -> Point:
    """A point at a distance and an angle, rad anticlockwise from the right."""
    return centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)


def slot(first: Point, second: Point, radius: float, far: float | None = None) -> Loop:
    """Two half circles and what lies between them; `far` is the second one's radius.

    With unequal radii the sides are the two outer tangents.
    """
    far = radius if far is None else far
    direction = math.atan2(second[1] - first[1], second[0] - first[0])
    apart = math.dist(first, second)
    lean = math.asin(max(-1.0, min(1.0, (radius - far) / apart))) if apart > 0 else 0.0
    side = math.pi / 2 - lean
    return (
        (*at(first, radius, direction + side), bulge(2 * math.pi - 2 * side)),
        (*at(first, radius, direction - side), 0.0),
        (*at(second, far, direction - side), bulge(2 * side)),
        (*at(second, far, direction + side), 0.0),
    )


def sides(loop: Loop, closed: bool = True) -> Iterable[tuple[Vertex, Vertex]]:
    """Each vertex with the one after it."""
    following = loop[1:] + loop[:1] if closed else loop[1:]
    return zip(loop, following, strict=False)


def mirrored(loop: Loop) -> Loop:
    """The other side of the y axis."""
    return tuple((-x, y, -b) for x, y, b in loop)


def shifted(loop: Loop, right: float, up: float) -> Loop:
    """Moved without turning."""
    return tuple((x + right, y + up, b) for x, y, b in loop)


def flattened(loop: Loop, closed: bool = True, step: float = math.radians(6)) -> list[Point]:
    """The same outline in straight pieces, each a few degrees of an arc at most."""
    points: list[Point] = [] if closed or not loop else [loop[0][:2]]
    for (x0, y0, b), (x1, y1, _) in sides(loop, closed):
        if b and (x0, y0) != (x1, y1):
            points += _along_arc((x0, y0), (x1, y1), b, step)
        points.append((x1, y1))
    return points


def _along_arc(start: Point, end: Point, b: float, step: float) -> list[Point]:
    centre, radius, first, turn = arc_of(start, end, b)
    pieces = max(2, math.ceil(abs(turn) / step))
    return [at(centre, radius, first + turn * n / pieces) for n in range(1, pieces)]


def arc_of(start: Point, end: Point, b: float) -> tuple[Point, float, float, float]:
    """Centre, radius, angle of the start and turn of an arc by its ends and bulge."""
    (x0, y0), (x1, y1) = start, end
    chord = math.hypot(x1 - x0, y1 - y0)
    radius = chord * (1 + b * b) / (4 * abs(b))
    # from the chord's middle to the centre, to the left of the way for a small positive bulge
    off = chord * (1 - b * b) / (4 * b)
    cx = (x0 + x1) / 2 - off * (y1 - y0) / chord
    cy = (y0 + y1) / 2 + off * (x1 - x0) / chord
    return (cx, cy), radius, math.atan2(y0 - cy, x0 - cx), 4 * math.atan(b)


def reach(shapes: Iterable[Shape]) -> list[Point]:
    """Points that hold all of the shapes between them; lettering is left out."""
    found: list[Point] = []
    for shape in shapes:
        if isinstance(shape, Disc):
            (x, y), r = shape.centre, shape.radius
            found += [(x - r, y - r), (x + r, y + r)]
        elif isinstance(shape, Stroke):
            found += _corners(shape.vertices, closed=False)
        elif isinstance(shape, Region):
            # holes lie within
            found += _corners(shape.loops[0], closed=True)
            for loop in shape.loops[1:]:
                found += [(x, y) for x, y, _ in loop]
    return found


def _corners(loop: Loop, *, closed: bool) -> list[Point]:
    if not any(b for _, _, b in loop):
        return [(x, y) for x, y, _ in loop]
    return flattened(loop, closed, math.radians(15))


def box_of(points: Sequence[Point]) -> Box:
    """The smallest box that holds them."""
    across, along = zip(*points, strict=True)
    return Box(min(across), min(along), max(across), max(along))
