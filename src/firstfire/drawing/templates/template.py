"""What a template is: shapes at true size, a title, and the sentences that go with it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from firstfire.drawing.model import (
    Box,
    Disc,
    Lettering,
    Loop,
    Part,
    Pen,
    Point,
    Region,
    Shape,
    Stroke,
)
from firstfire.drawing.outlines import at, box_of, bulge, line, reach
from firstfire.drawing.text import width_of
from firstfire.engine.resolve import PlainEngine

SMALL = 2.0
"""Height of lettering on a template, mm."""

Layer = Literal["cut", "marks", "words"]


@dataclass(frozen=True)
class Template:
    """One thing to print at true size.

    Attributes
    ----------
    slug
        What its files are called: ``degree-wheel``.
    engine, title
        Of whom, and what it is.
    parts
        Its shapes, mm, on the layers ``cut``, ``marks`` and ``words``.
    notes
        Sentences that stand below it.
    to_scale
        Whether its lengths are those of the thing; a diagram's are not.
    """

    slug: str
    engine: str
    title: str
    parts: tuple[Part, ...]
    notes: tuple[str, ...]
    to_scale: bool = True

    @property
    def scale_words(self) -> str:
        """What its lengths are, as its head says."""
        return "True size, 1 : 1" if self.to_scale else "A diagram, not to scale"

    @property
    def box(self) -> Box:
        """What its shapes and lettering cover, mm."""
        points = []
        for part in self.parts:
            points += reach(part.shapes)
            for shape in part.shapes:
                if isinstance(shape, Lettering):
                    points += corners(shape)
        return box_of(points)


def corners(words: Lettering) -> list[tuple[float, float]]:
    """Points that hold lettering, whichever way it is turned."""
    long = width_of(words.text) * words.height
    share = {"start": (0.0, 1.0), "middle": (-0.5, 0.5), "end": (-1.0, 0.0)}[words.anchor]
    along, across = math.cos(words.turn), math.sin(words.turn)
    x, y = words.at
    return [
        (x + along * long * s - across * up, y + across * long * s + along * up)
        for s in share
        for up in (-0.3 * words.height, 1.1 * words.height)
    ]


def part(slug: str, title: str, layer: Layer, *shapes: Shape) -> Part:
    """Shapes of one kind on one layer."""
    return Part(slug, title, layer, shapes)


def outline(loop: Loop) -> Region:
    """A closed curve without a filling, to be cut or extruded."""
    return Region((loop,), "none", "outline")


def hole(x: float, y: float, radius: float) -> Disc:
    """A round hole or edge, to be cut."""
    return Disc((x, y), radius, "none", "outline")


def tick(start: tuple[float, float], end: tuple[float, float], pen: Pen = "thin") -> Stroke:
    """A straight mark."""
    return Stroke(line(start, end), pen)


def cross(x: float, y: float, half: float) -> tuple[Stroke, Stroke]:
    """Where a centre is: two thin lines."""
    return tick((x - half, y), (x + half, y)), tick((x, y - half), (x, y + half))


def turning_arrow(centre: Point, radius: float, sign: float) -> list[Shape]:
    """Which way a wheel turns: a quarter of an arc over its top, with a head."""
    start, end = math.radians(135.0), math.radians(45.0)
    if sign < 0:
        start, end = end, start
    first, tip = at(centre, radius, start), at(centre, radius, end)
    back = end + (3.0 / radius if sign > 0 else -3.0 / radius)
    wings = [at(centre, radius + away, back) for away in (1.3, -1.3)]
    return [
        Stroke(((*first, bulge(end - start)), (*tip, 0.0)), "outline"),
        Stroke(line(wings[0], tip, wings[1]), "outline"),
    ]


def sense(plain: PlainEngine, *, cam: bool = False) -> float:
    """1 where what comes after top lies anticlockwise, seen at the flywheel; else -1.

    A mark that comes by after top lies against the way its wheel turns.
    """
    turned = 1.0 if plain.layout.rotation == "clockwise" else -1.0
    return -turned if cam and plain.cam_drive.kind == "gear" else turned


def way(sign: float) -> str:
    """The way a wheel turns whose later marks lie anticlockwise (1) or clockwise (-1)."""
    return "clockwise" if sign > 0 else "anticlockwise"
