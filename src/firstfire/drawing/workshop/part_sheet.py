"""One part's sheet: its views in first-angle projection, at the largest scale that paper holds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstfire.drawing.making import layer_of
from firstfire.drawing.model import Box, Drawing, Part, Region, Shape
from firstfire.drawing.outlines import rectangle
from firstfire.drawing.pdf import PAPERS, Paper
from firstfire.drawing.workshop.arranged import arranged
from firstfire.drawing.workshop.block import Words, foot, words
from firstfire.drawing.workshop.laid import Laid, laid
from firstfire.drawing.workshop.view import PartDrawing, Slot, View
from firstfire.errors import OutsideValidity

_SCALES = (0.5, 1.0, 2.0, 5.0, 10.0, 20.0)  # ISO 5455
_MARGIN = 4.0  # left free all round, so that any printer's page holds the drawing
_FILING, _BORDER = 20.0, 10.0  # from the paper's edge to the frame (ISO 5457)
_INSIDE = 2.0


@dataclass(frozen=True)
class _Page:
    """One way to lay a sheet: its paper, its frame, mm of paper from the lower left corner."""

    wide: float
    high: float
    frame: Box


def part_sheet(drawing: PartDrawing, name: str, paper: Paper = "A4") -> Drawing:
    """A whole sheet of one part.

    Parameters
    ----------
    drawing
        What goes on it.
    name
        Of the engine.
    paper
        ``A4`` or ``Letter``.

    Raises
    ------
    OutsideValidity
        Where no scale of ISO 5455 down to 1 : 20 fits on it.
    """
    crowded: Drawing | None = None
    for unit in _SCALES:
        views = drawing.views(unit)
        own = [laid(view, unit) for view in views]
        limits = tuple(dict.fromkeys(_limits(views)))
        for page in _pages(paper):
            said = words(drawing, limits, page.frame.width)
            placed = arranged(own, _room(page, said, unit), unit)
            if placed is None:
                continue
            made = _sheet(drawing, name, paper, page, said, placed, unit)
            if all(view.clear for view in placed):
                return made
            crowded = crowded or made
    if crowded is not None:
        return crowded
    raise OutsideValidity(
        f"The {drawing.title.lower()} of {name} is too large for {paper} even at 1 : "
        f"{_SCALES[-1]:g}. Check its lengths."
    )


def _limits(views: Sequence[View]) -> Iterator[str]:
    for view in views:
        yield from (size.limits for size in view.sizes if size.limits)
        yield from (pointer.limits for pointer in view.pointers if pointer.limits)


def _pages(paper: Paper) -> Iterator[_Page]:
    short, long = PAPERS[paper]
    for wide, high in ((short, long), (long, short)):
        yield _Page(wide, high, Box(_FILING, _BORDER, wide - _BORDER, high - _BORDER))


def _room(page: _Page, said: Words, unit: float) -> Box:
    """What is left over the foot for views, mm of the part."""
    frame = page.frame
    low = frame.bottom + said.high
    return Box(
        (frame.left + _INSIDE) * unit, (low + _INSIDE) * unit,
        (frame.right - _INSIDE) * unit, (frame.top - _INSIDE) * unit,
    )  # fmt: skip


def _sheet(
    drawing: PartDrawing,
    name: str,
    paper: Paper,
    page: _Page,
    said: Words,
    placed: Sequence[Laid],
    unit: float,
) -> Drawing:
    frame = page.frame
    edge = rectangle(*(unit * x for x in (frame.left, frame.bottom, frame.right, frame.top)))
    legend: list[Shape] = [Region((edge,), "none", "heavy")]
    legend += [mark for view in placed for mark in view.marks]
    legend += foot(
        drawing, name, said, paper, frame.left * unit, frame.bottom * unit, frame.width, unit
    )
    labels = tuple(label for view in placed for label in view.labels)
    numbers = ", ".join(f"{x.dimension.path} {x.words}" for x in labels)
    return Drawing(
        name=name,
        title=f"{drawing.title}, to be made",
        description=f"{drawing.title} in {len(placed)} views, sizes in mm: {numbers}.",
        parts=tuple(
            Part(f"{drawing.kind}-{number}", f"{drawing.title}, {_SEEN[view.slot]}",
                 layer_of(drawing.kind), view.shapes)
            for number, view in enumerate(placed, start=1)
        ),
        labels=labels,
        centrelines=tuple(axis for view in placed for axis in view.axes),
        arrows=(),
        legend=tuple(legend),
        box=Box(_MARGIN * unit, _MARGIN * unit, (page.wide - _MARGIN) * unit,
                (page.high - _MARGIN) * unit),
        unit=unit,
        crank_angle=0.0,
    )  # fmt: skip


_SEEN: dict[Slot, str] = {
    "front": "front", "right": "from the left", "left": "from the right", "below": "from above",
    "above": "from below",
    "detail": "detail",
}  # fmt: skip
