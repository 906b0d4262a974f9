"""What a view of a part shows, before anything is known of the sheet: shapes, sizes, marks."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

from firstfire.drawing.model import Centreline, Point, Shape
from firstfire.drawing.workshop.fitted import Fitted, bare

Side = Literal["above", "below", "left", "right"]

Slot = Literal["front", "above", "below", "left", "right", "detail"]
"""Where a view stands. In first-angle projection the view from the left stands on the right, the
view from above stands below, and so on (ISO 128-3). A detail has a title and stands anywhere."""


@dataclass(frozen=True)
class Size:
    """A size between two points, level or upright.

    Attributes
    ----------
    path
        Of the engine file: the number itself, or what it follows from.
    value
        m.
    text
        As written.
    first, second
        Between which it is measured, mm.
    side
        On which its line stands; of a level one above or below, of an upright one left or right.
    at
        Where its line runs instead, mm: a height, or a distance to the right.
    limits
        For the table of limits.
    """

    path: str
    value: float
    text: str
    first: Point
    second: Point
    side: Side
    at: float | None = None
    limits: str = ""

    @property
    def level(self) -> bool:
        """Whether its line is level."""
        return self.side in ("above", "below")


@dataclass(frozen=True)
class Pointer:
    """Words that point at something, with a size or without.

    Attributes
    ----------
    text
        As written.
    tip
        What is pointed at, mm.
    toward
        In which direction words best stand, degrees anticlockwise from the right.
    path, value
        As in `Size`; "" and None where there is no number.
    limits
        For the table of limits.
    finish
        Whether the words are a roughness and stand in its sign (ISO 21920-1).
    inside
        Whether words may stand within the view, where it is empty.
    """

    text: str
    tip: Point
    toward: float
    path: str = ""
    value: float | None = None
    limits: str = ""
    finish: bool = False
    inside: bool = False


@dataclass(frozen=True)
class View:
    """One view.

    Attributes
    ----------
    slot
        Where it stands.
    shapes
        From the back to the front, mm.
    axes
        Centre lines.
    sizes, pointers
        What is written round it.
    title
        Above it; "" for the usual views.
    """

    slot: Slot
    shapes: tuple[Shape, ...]
    axes: tuple[Centreline, ...] = ()
    sizes: tuple[Size, ...] = ()
    pointers: tuple[Pointer, ...] = ()
    title: str = ""


@dataclass(frozen=True)
class PartDrawing:
    """All that goes on one part's sheet.

    Attributes
    ----------
    part
        As it is asked for: ``rod``.
    kind
        Of the drawing's parts, for ids and layers.
    title
        What it is called.
    material
        In words.
    pieces
        How many an engine has.
    finish
        Coat, or as machined.
    views
        For mm of the part to one of paper.
    notes
        What else to know for making it.
    open
        What the file has no number for.
    """

    part: str
    kind: str
    title: str
    material: str
    pieces: int
    finish: str
    views: Callable[[float], tuple[View, ...]]
    notes: tuple[str, ...] = ()
    open: tuple[str, ...] = field(default_factory=tuple)


def level(
    path: str, value: float, a: Point, b: Point, side: Side = "below", text: str = ""
) -> Size:
    """A plain size; its text is the number unless told otherwise."""
    return Size(path, value, text or bare(value), a, b, side)


def with_fit(
    path: str, value: float, made: Fitted, a: Point, b: Point, side: Side, at: float | None = None
) -> Size:
    """A size with a tolerance class."""
    return Size(path, value, made.text, a, b, side, at, made.limits)


def finish(roughness: float, tip: Point, toward: float, *, inside: bool = False) -> Pointer:
    """The sign for a roughness Ra, µm, at a face."""
    return Pointer(f"Ra {roughness:g}", tip, toward, finish=True, inside=inside)
