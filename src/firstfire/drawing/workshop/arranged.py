"""Views about the front one: in line with it in first-angle projection, details beside or below."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfire.drawing.model import Box
from firstfire.drawing.workshop.laid import Laid

GAP = 6.0
"""Between views, mm of paper."""


def arranged(views: Sequence[Laid], room: Box, unit: float) -> tuple[Laid, ...] | None:
    """All views in the middle of the room; None where they don't go in.

    Parameters
    ----------
    views
        One of them the front one.
    room
        mm of the part.
    unit
        mm of the part to one of paper.
    """
    for found in _ways(views, GAP * unit):
        whole = around(found)
        if whole.width <= room.width and whole.height <= room.height:
            right = (room.left + room.right - whole.left - whole.right) / 2
            up = (room.bottom + room.top - whole.bottom - whole.top) / 2
            return tuple(view.moved(right, up) for view in found)
    return None


def around(views: Sequence[Laid]) -> Box:
    """What views cover together."""
    return Box(
        min(v.box.left for v in views), min(v.box.bottom for v in views),
        max(v.box.right for v in views), max(v.box.top for v in views),
    )  # fmt: skip


def _ways(views: Sequence[Laid], gap: float) -> Iterator[list[Laid]]:
    """Ways to place details: in a row to the right, in a row below, in a column to the right."""
    fixed = _projected(views, gap)
    details = [view for view in views if view.slot == "detail"]
    if not details:
        yield fixed
        return
    whole = around(fixed)
    yield [*fixed, *_row(details, whole.right + gap, (whole.bottom + whole.top) / 2, gap)]
    wide = sum(view.box.width for view in details) + gap * (len(details) - 1)
    high = max(view.box.height for view in details)
    left = (whole.left + whole.right - wide) / 2
    yield [*fixed, *_row(details, left, whole.bottom - gap - high / 2, gap)]
    yield [*fixed, *_column(details, whole.right + gap, whole.top, gap)]


def _row(details: Sequence[Laid], left: float, middle: float, gap: float) -> Iterator[Laid]:
    for view in details:
        box = view.box
        yield view.moved(left - box.left, middle - (box.bottom + box.top) / 2)
        left += box.width + gap


def _column(details: Sequence[Laid], left: float, top: float, gap: float) -> Iterator[Laid]:
    for view in details:
        yield view.moved(left - view.box.left, top - view.box.top)
        top -= view.box.height + gap


def _projected(views: Sequence[Laid], gap: float) -> list[Laid]:
    """The front view and those in line with it."""
    front = next(view for view in views if view.slot == "front")
    found = [front]
    for view in views:
        box = view.box
        if view.slot == "right":
            found.append(view.moved(front.box.right + gap - box.left, 0.0))
        elif view.slot == "left":
            found.append(view.moved(front.box.left - gap - box.right, 0.0))
        elif view.slot == "below":
            found.append(view.moved(0.0, front.box.bottom - gap - box.top))
        elif view.slot == "above":
            found.append(view.moved(0.0, front.box.top + gap - box.bottom))
    return found
