"""The vector model of a drawing: parts made of shapes, dimensions, centre lines, arrows.

Everything is in millimetres of the real engine, x to the right and y up. Line widths and
lettering are in millimetres of paper; `Drawing.unit` says how many millimetres of the engine one
of the paper is.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal

Point = tuple[float, float]

Vertex = tuple[float, float, float]
"""x, y and bulge: tangent of a quarter of the angle of the arc to the next vertex, positive
anticlockwise, 0 for a straight line."""

Loop = tuple[Vertex, ...]

Fill = Literal[
    "none", "paper", "metal", "metal left", "plastic", "plastic left", "rubber", "solid",
    "fresh", "burned", "exhaust", "holds", "marginal", "fails", "not judged",
]  # fmt: skip
"""How an area is filled. ``none`` lets through what lies behind; ``paper`` hides it: a part that
is seen, or one that is not hatched though it is cut. The last four are the patterns of what is
said of a part."""

Pen = Literal["outline", "heavy", "thin", "hidden", "centre", "phantom", "dimension"]

Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True)
class Region:
    """An area within closed outlines; every second one is a hole. Without a pen it has no edge."""

    loops: tuple[Loop, ...]
    fill: Fill = "paper"
    pen: Pen | None = "outline"


@dataclass(frozen=True)
class Disc:
    """A circle."""

    centre: Point
    radius: float
    fill: Fill = "paper"
    pen: Pen | None = "outline"


@dataclass(frozen=True)
class Stroke:
    """An open line of straight pieces and arcs."""

    vertices: Loop
    pen: Pen = "outline"


@dataclass(frozen=True)
class Lettering:
    """Words, `height` in mm of paper; level, or turned anticlockwise by `turn`, rad."""

    at: Point
    text: str
    height: float = 2.5
    anchor: Anchor = "start"
    turn: float = 0.0


Shape = Region | Disc | Stroke | Lettering


@dataclass(frozen=True)
class Part:
    """One part of the engine as it is drawn.

    Attributes
    ----------
    id
        A slug; parts of a cylinder end in its number: ``piston-crown-1``.
    title
        As a person names it, the same as in the ledger.
    layer
        In words, for writers that have layers.
    shapes
        From the back to the front.
    word
        What is said of it, or "".
    """

    id: str
    title: str
    layer: str
    shapes: tuple[Shape, ...]
    word: str = ""

    @property
    def line_word(self) -> str:
        """What its lines show: its word where it has no area to hatch, and not that it holds."""
        areas = (s.fill for s in self.shapes if isinstance(s, Region | Disc))
        bare = all(fill in ("none", "fresh", "burned", "exhaust") for fill in areas)
        return self.word if bare and self.word != "holds" else ""


@dataclass(frozen=True)
class Dimension:
    """A number of the engine file, measured in the drawing.

    Attributes
    ----------
    path
        Of the engine file.
    label, text
        The name in short, and the number with its unit as it is shown everywhere.
    value
        SI.
    first, second
        The points between which it is measured, mm.
    line
        Where its line runs, from end to end: parallel to the two points.
    to_scale
        False where the drawing could not keep to the file's number; the number is then
        underlined (ISO 129-1).
    """

    path: str
    label: str
    text: str
    value: float
    first: Point
    second: Point
    line: tuple[Point, Point]
    to_scale: bool = True


@dataclass(frozen=True)
class Label:
    """A dimension's words with the line that leads to them.

    Attributes
    ----------
    dimension
        Whose.
    at
        Where its words stand.
    anchor
        Which end of the words is there.
    leader
        From the dimension to the words; empty where they stand on the dimension's own line.
    turn
        Of the words, rad anticlockwise.
    outside
        Whether arrows point inwards from outside, where there is no room between.
    overshoot
        mm of paper by which the lines from what is measured reach past the dimension's line.
    pointed
        Whether a dimension without a line of its own is pointed at by an arrow, not by a dot.
    """

    dimension: Dimension
    at: Point
    anchor: Anchor
    leader: tuple[Point, ...]
    turn: float = 0.0
    outside: bool = False
    overshoot: float = 0.0
    pointed: bool = False

    @property
    def words(self) -> str:
        """Name, where it has one, and number."""
        return f"{self.dimension.label} {self.dimension.text}".strip()


@dataclass(frozen=True)
class Centreline:
    """An axis, chain-dotted."""

    start: Point
    end: Point


@dataclass(frozen=True)
class Arrow:
    """A force laid over the drawing, from where it acts.

    Attributes
    ----------
    name
        What pushes: ``gas``, ``inertia``, ``rod``, ``side``, ``crankpin``.
    cylinder
        Counted from 1.
    force
        N.
    start, end
        mm; the length is the force over `Drawing.newtons_per_mm`.
    """

    name: str
    cylinder: int
    force: float
    start: Point
    end: Point


@dataclass(frozen=True)
class Box:
    """Left, bottom, right and top, mm."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom

    def grown(self, by: float) -> Box:
        """With a margin all round."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)


@dataclass(frozen=True)
class Drawing:
    """A sheet.

    Attributes
    ----------
    name
        Of the engine, as its builder wrote it.
    title, description
        What is drawn, in words.
    parts
        From the back to the front.
    labels, centrelines, arrows
        What is written over them.
    legend
        What the hatches, patterns and arrows mean, and the title block: shapes.
    box
        What the sheet covers.
    unit
        Millimetres of the engine to one of the paper: 2 on a sheet at 1:2.
    crank_angle
        rad after the firing top centre of cylinder 1.
    newtons_per_mm
        Scale of the arrows; 0 where there are none.
    points
        Named places, for whoever measures: ``crank``, ``crankpin-1``, ``pin-1`` ...
    first
        Id of the part that gives way first, "" where none is told apart.
    """

    name: str
    title: str
    description: str
    parts: tuple[Part, ...]
    labels: tuple[Label, ...]
    centrelines: tuple[Centreline, ...]
    arrows: tuple[Arrow, ...]
    legend: tuple[Shape, ...]
    box: Box
    unit: float
    crank_angle: float
    newtons_per_mm: float = 0.0
    points: Mapping[str, Point] = field(default_factory=dict)
    first: str = ""

    def part(self, ident: str) -> Part:
        """The part of that id.

        Raises
        ------
        KeyError
            Where there is none.
        """
        for part in self.parts:
            if part.id == ident:
                return part
        raise KeyError(ident)

    @property
    def dimensions(self) -> tuple[Dimension, ...]:
        """What is measured in it."""
        return tuple(label.dimension for label in self.labels)

    def shapes(self) -> Iterator[Shape]:
        """Every shape of every part, from the back to the front."""
        for part in self.parts:
            yield from part.shapes
