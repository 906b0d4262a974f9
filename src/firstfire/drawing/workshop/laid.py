"""A view laid out: its sizes and words set round it, and the room that all of it takes."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from firstfire.drawing.frame import Frame
from firstfire.drawing.model import (
    Box,
    Centreline,
    Disc,
    Label,
    Lettering,
    Point,
    Region,
    Shape,
    Stroke,
)
from firstfire.drawing.outlines import box_of, flattened, reach
from firstfire.drawing.workshop.pointing import pointed
from firstfire.drawing.workshop.stacks import label_box, stacked
from firstfire.drawing.workshop.taken import Line, Taken, words_box
from firstfire.drawing.workshop.view import Slot, View

_TITLE = 3.5
_COARSE = 0.2  # rad


@dataclass(frozen=True)
class Laid:
    """A view with all that is written round it.

    Attributes
    ----------
    slot
        Where it stands on the sheet.
    shapes, axes, labels, marks
        Of the view; marks are signs and words without a number.
    box
        What all of it covers, mm.
    clear
        Whether everything written had room of its own.
    """

    slot: Slot
    shapes: tuple[Shape, ...]
    axes: tuple[Centreline, ...]
    labels: tuple[Label, ...]
    marks: tuple[Shape, ...]
    box: Box
    clear: bool

    def moved(self, right: float, up: float) -> Laid:
        """Somewhere else on the sheet."""
        place = Frame(origin=(right, up))
        box = Box(self.box.left + right, self.box.bottom + up, self.box.right + right,
                  self.box.top + up)  # fmt: skip
        return replace(
            self,
            shapes=tuple(place.shape(shape) for shape in self.shapes),
            marks=tuple(place.shape(shape) for shape in self.marks),
            axes=tuple(Centreline(place.point(a.start), place.point(a.end)) for a in self.axes),
            labels=tuple(_moved(label, place) for label in self.labels),
            box=box,
        )


def laid(view: View, unit: float) -> Laid:
    """A view with its words, at mm of the part to one of paper."""
    drawn = [s for s in view.shapes if not isinstance(s, Lettering)]
    box = box_of(reach(drawn))
    axes = [(axis.start, axis.end) for axis in view.axes]
    words = [_lettering_box(s, unit) for s in view.shapes if isinstance(s, Lettering)]
    taken = Taken(tuple(words), (*pieces(drawn), *axes))
    labels, taken, roomy = stacked(view.sizes, box, taken, unit)
    more, marks, taken, free = pointed(view.pointers, box, taken, unit)
    whole = _whole(box, taken)
    if view.title:
        at = (box.left + box.right) / 2, whole.top + 3.0 * unit
        title = Lettering(at, view.title, _TITLE, "middle")
        marks = (*marks, title)
        whole = _joined([whole, _lettering_box(title, unit)])
    return Laid(view.slot, view.shapes, view.axes, (*labels, *more), marks, whole, roomy and free)


def _whole(box: Box, taken: Taken) -> Box:
    ends = [end for line in taken.lines for end in line]
    return _joined([box, *taken.words, *([box_of(ends)] if ends else [])])


def _joined(boxes: Iterable[Box]) -> Box:
    corners = [corner for b in boxes for corner in ((b.left, b.bottom), (b.right, b.top))]
    return box_of(corners)


def _lettering_box(shape: Lettering, unit: float) -> Box:
    middle = shape.at[0], shape.at[1] + 0.5 * shape.height * unit
    return words_box(middle, shape.text, shape.height, unit, shape.anchor)


def pieces(shapes: Iterable[Shape]) -> Iterator[Line]:
    """Straight pieces of the outlines of shapes."""
    for shape in shapes:
        if isinstance(shape, Disc):
            (x, y), r = shape.centre, shape.radius
            yield from _closed(flattened(((x - r, y, 1.0), (x + r, y, 1.0)), step=_COARSE))
        elif isinstance(shape, Region):
            for loop in shape.loops:
                yield from _closed(flattened(loop, step=_COARSE))
        elif isinstance(shape, Stroke):
            points = flattened(shape.vertices, closed=False, step=_COARSE)
            yield from itertools.pairwise(points)


def _closed(points: list[Point]) -> Iterator[Line]:
    return zip(points, [*points[1:], points[0]], strict=True)


def _moved(label: Label, place: Frame) -> Label:
    d = label.dimension
    start, end = d.line
    dimension = replace(
        d, first=place.point(d.first), second=place.point(d.second),
        line=(place.point(start), place.point(end)),
    )  # fmt: skip
    leader = tuple(place.point(point) for point in label.leader)
    return replace(label, dimension=dimension, at=place.point(label.at), leader=leader)


__all__ = ["Laid", "label_box", "laid", "pieces"]
