"""Whether anything of a template falls on a page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from firstfire.drawing.model import Box, Disc, Lettering, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import flattened
from firstfire.drawing.templates.template import corners

Ink = tuple[Point, ...]
"""A line from point to point that is drawn, or round lettering."""


def inks(shapes: Iterable[Shape]) -> Iterator[Ink]:
    """The lines of shapes, mm: templates fill nothing, so that what is drawn is their outlines."""
    for shape in shapes:
        if isinstance(shape, Region):
            for loop in shape.loops:
                points = flattened(loop)
                yield (*points, points[0])
        elif isinstance(shape, Stroke):
            yield tuple(flattened(shape.vertices, closed=False))
        elif isinstance(shape, Disc):
            (x, y), r = shape.centre, shape.radius
            points = flattened(((x - r, y, 1.0), (x + r, y, 1.0)))
            yield (*points, points[0])
        elif isinstance(shape, Lettering):
            points = corners(shape)
            low, high = points[::2], points[1::2]
            yield (*low, *reversed(high), low[0])


def crosses(drawn: Sequence[Ink], box: Box) -> bool:
    """Whether any line lies in a box or goes through it."""
    return any(_through(start, end, box) for line in drawn for start, end in pairwise(line))


def _through(start: Point, end: Point, box: Box) -> bool:
    """Whether a straight line from point to point meets a box.

    References
    ----------
    Y.-D. Liang, B. A. Barsky, *A new concept and method for line clipping*, ACM Transactions on
    Graphics 3 (1984) 1-22: what is left of 0 to 1 after all four sides.

    Examples
    --------
    >>> _through((-1.0, 0.5), (0.5, 2.0), Box(0.0, 0.0, 1.0, 1.0))
    False
    >>> _through((-1.0, 0.5), (2.0, 0.6), Box(0.0, 0.0, 1.0, 1.0))
    True
    """
    first, last = 0.0, 1.0
    sides = ((0, box.left, box.right), (1, box.bottom, box.top))
    for axis, low, high in sides:
        begins, way = start[axis], end[axis] - start[axis]
        if way == 0.0:
            if not low <= begins <= high:
                return False
            continue
        in_, out = sorted(((low - begins) / way, (high - begins) / way))
        first, last = max(first, in_), min(last, out)
    return first <= last
