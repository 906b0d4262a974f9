"""How far a drawing reaches to either side, height by height."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable
from dataclasses import dataclass

from firstfire.drawing.model import Disc, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import flattened

_STEP = 2.0  # mm
_COARSE = math.radians(15)


@dataclass(frozen=True)
class Profile:
    """Left and right ends of what is drawn, in strips `_STEP` high; from `profile`."""

    strips: dict[int, tuple[float, float]]

    def between(self, low: float, high: float) -> tuple[float, float]:
        """Ends between two heights; (inf, -inf) where nothing is drawn."""
        here = [
            self.strips[strip]
            for strip in range(math.floor(low / _STEP), math.floor(high / _STEP) + 1)
            if strip in self.strips
        ]
        return (
            min((left for left, _ in here), default=math.inf),
            max((right for _, right in here), default=-math.inf),
        )


def profile(shapes: Iterable[Shape]) -> Profile:
    """Of the outlines of shapes; lettering is left out."""
    strips: dict[int, tuple[float, float]] = {}
    for shape in shapes:
        for points in _outlines(shape):
            for start, end in itertools.pairwise(points):
                _add(strips, start, end)
    return Profile(strips)


def _add(strips: dict[int, tuple[float, float]], start: Point, end: Point) -> None:
    left, right = (start[0], end[0]) if start[0] < end[0] else (end[0], start[0])
    low, high = (start[1], end[1]) if start[1] < end[1] else (end[1], start[1])
    for strip in range(math.floor(low / _STEP), math.floor(high / _STEP) + 1):
        known = strips.get(strip)
        if known is None:
            strips[strip] = (left, right)
        elif left < known[0] or right > known[1]:
            strips[strip] = (min(left, known[0]), max(right, known[1]))


def _outlines(shape: Shape) -> list[list[Point]]:
    if isinstance(shape, Disc):
        (x, y), r = shape.centre, shape.radius
        ring = flattened(((x - r, y, 1.0), (x + r, y, 1.0)), step=_COARSE)
        return [[*ring, ring[0]]]
    if isinstance(shape, Stroke):
        return [flattened(shape.vertices, closed=False, step=_COARSE)]
    if isinstance(shape, Region):
        rings = [flattened(loop, step=_COARSE) for loop in shape.loops[:2]]
        return [[*ring, ring[0]] for ring in rings]
    return []
