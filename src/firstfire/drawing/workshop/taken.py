"""Room on a sheet: which words and lines stand there already, that others keep off them."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from firstfire.drawing.model import Anchor, Box, Point
from firstfire.drawing.text import width_of

Line = tuple[Point, Point]

_CLEAR = 0.6
"""mm of paper kept free round words."""


@dataclass(frozen=True)
class Taken:
    """Boxes of words and pieces of lines, mm of the part."""

    words: tuple[Box, ...] = ()
    lines: tuple[Line, ...] = ()

    def plus(self, words: Iterable[Box] = (), lines: Iterable[Line] = ()) -> Taken:
        """With more of both."""
        return Taken((*self.words, *words), (*self.lines, *lines))

    def free(self, words: Box) -> bool:
        """Whether words may stand in a box."""
        return not any(overlap(words, other) for other in self.words) and not any(
            crosses(line, words) for line in self.lines
        )

    def passes(self, line: Line) -> bool:
        """Whether a line may be drawn: over lines, but not through words."""
        return not any(crosses(line, box) for box in self.words)


def words_box(
    at: Point, text: str, height: float, unit: float, anchor: Anchor = "middle", turn: float = 0.0
) -> Box:
    """What words cover with a little room round them; `at` is the middle of their height.

    Parameters
    ----------
    at, text, anchor, turn
        As in `Label`; turned by nothing or by a quarter.
    height
        Of the letters, mm of paper.
    unit
        mm of the part to one of paper.
    """
    long, half = width_of(text) * height * unit, 0.5 * height * unit
    start = {"start": 0.0, "middle": -0.5, "end": -1.0}[anchor] * long
    clear = _CLEAR * unit
    if turn:
        return Box(at[0] - half, at[1] + start, at[0] + half, at[1] + start + long).grown(clear)
    return Box(at[0] + start, at[1] - half, at[0] + start + long, at[1] + half).grown(clear)


def overlap(a: Box, b: Box) -> bool:
    """Whether two boxes share more than an edge."""
    return a.left < b.right and b.left < a.right and a.bottom < b.top and b.bottom < a.top


def crosses(line: Line, box: Box) -> bool:
    """Whether a piece of a line runs through a box (Liang and Barsky's clipping)."""
    (x0, y0), (x1, y1) = line
    enters, leaves = 0.0, 1.0
    for start, way, low, high in (
        (x0, x1 - x0, box.left, box.right),
        (y0, y1 - y0, box.bottom, box.top),
    ):
        if abs(way) < 1e-12:
            if start <= low or start >= high:
                return False
            continue
        first, second = sorted(((low - start) / way, (high - start) / way))
        enters, leaves = max(enters, first), min(leaves, second)
    return leaves - enters > 1e-9


def meet(a: Line, b: Line) -> bool:
    """Whether two pieces of lines cross within both."""
    (ax, ay), (bx, by) = a
    (cx, cy), (dx, dy) = b
    turn = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    if math.isclose(turn, 0.0, abs_tol=1e-12):
        return False
    along = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / turn
    other = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / turn
    return 0 < along < 1 and 0 < other < 1
