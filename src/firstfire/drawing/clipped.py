"""Parts cut off at an upright line, where two cylinders stand wall to wall."""

from __future__ import annotations

from dataclasses import replace

from firstfire.drawing.model import Disc, Loop, Part, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import flattened, polygon


def clipped(part: Part, side: float) -> Part:
    """What of a part lies on one side of x = 0; areas only, lines and circles stay as they are."""
    shapes: list[Shape] = []
    for shape in part.shapes:
        if not isinstance(shape, Region):
            shapes.append(shape)
            continue
        kept = [loop for loop in shape.loops if _outline(loop, shape, side)]
        loops = tuple(x for x in (_cut(loop, side) for loop in kept) if x)
        if loops:
            shapes.append(replace(shape, loops=loops))
    return replace(part, shapes=tuple(shapes))


def _outline(loop: Loop, shape: Region, side: float) -> bool:
    """Not a hole that the line would cut through: what stood in it is left out too."""
    first = loop is shape.loops[0]
    return first or all(side * x >= 0 for x, _, _ in loop) or _pair(shape)


def _pair(shape: Region) -> bool:
    """Whether its outlines lie beside each other, as both sides of a wall do."""
    lows = [min(x for x, _, _ in loop) for loop in shape.loops]
    highs = [max(x for x, _, _ in loop) for loop in shape.loops]
    return len(lows) == 2 and (lows[0] >= highs[1] or lows[1] >= highs[0])


def beyond(part: Part, side: float) -> Part:
    """What of a part lies wholly on the outer side of its own middle."""
    middle = _middle(part)
    shapes: list[Shape] = []
    for shape in part.shapes:
        if isinstance(shape, Region):
            loops = tuple(x for x in shape.loops if side * (_centre(x) - middle) > 0)
            if loops:
                shapes.append(replace(shape, loops=loops))
        elif isinstance(shape, Stroke):
            if side * (_centre(shape.vertices) - middle) > 0:
                shapes.append(shape)
        elif not isinstance(shape, Disc) or side * (shape.centre[0] - middle) > 0:
            shapes.append(shape)
    return replace(part, shapes=tuple(shapes))


def _middle(part: Part) -> float:
    places = [x for s in part.shapes if isinstance(s, Region) for loop in s.loops
              for x, _, _ in loop]  # fmt: skip
    return (min(places) + max(places)) / 2


def _centre(loop: Loop) -> float:
    return sum(x for x, _, _ in loop) / len(loop)


def _cut(loop: Loop, side: float) -> Loop:
    """Sutherland and Hodgman's clipping, at one line; untouched where nothing is cut off."""
    if all(side * x >= -1e-9 for x, _, _ in loop):
        return loop
    points = flattened(loop)
    kept: list[Point] = []
    for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
        if side * x0 >= 0:
            kept.append((x0, y0))
        if (side * x0 >= 0) != (side * x1 >= 0):
            kept.append((0.0, y0 + (y1 - y0) * x0 / (x0 - x1)))
    return polygon(*kept) if len(kept) > 2 else ()
