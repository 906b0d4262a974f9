"""Things to print and measure: flat outlines with round holes, each as high as it is printed.

Rooms hand them to each other: who reckons what to print does not draw it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

Point = tuple[float, float]

ROUND = 180
"""Straight pieces that a full circle is made of: 12 mm across is then within 2 µm."""


@dataclass(frozen=True)
class Hole:
    """A round hole: its middle and diameter, m, and what is written beside it."""

    at: Point
    diameter: float
    text: str = ""


@dataclass(frozen=True)
class Block:
    """One upright body, m.

    Attributes
    ----------
    outline
        Corners, anticlockwise.
    height
        Along the printer's axis.
    holes
        Right through it.
    text
        What is written beside it on paper.
    """

    outline: tuple[Point, ...]
    height: float
    holes: tuple[Hole, ...] = ()
    text: str = ""


@dataclass(frozen=True)
class Piece:
    """What is printed together.

    Attributes
    ----------
    slug
        What its files are called.
    title
        What it is.
    blocks
        Beside each other, none touching another.
    notes
        Sentences for the sheet.
    """

    slug: str
    title: str
    blocks: tuple[Block, ...]
    notes: tuple[str, ...]


def oblong(left: float, bottom: float, right: float, top: float, cut: float = 0.0) -> tuple[
    Point, ...
]:  # fmt: skip
    """Corners of a rectangle, m, its lower left one cut off by so much."""
    first = ((left, bottom + cut), (left + cut, bottom)) if cut > 0 else ((left, bottom),)
    return (*first, (right, bottom), (right, top), (left, top))


def circle(at: Point, diameter: float) -> tuple[Point, ...]:
    """Corners of a circle in straight pieces, m, each on it."""
    turns = (2 * math.pi * n / ROUND for n in range(ROUND))
    return tuple(
        (at[0] + diameter / 2 * math.cos(turn), at[1] + diameter / 2 * math.sin(turn))
        for turn in turns
    )
