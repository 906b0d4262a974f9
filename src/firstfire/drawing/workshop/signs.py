"""Signs that stand on a workshop drawing: roughness, projection, a cutting plane, arrowheads."""

from __future__ import annotations

import math
from collections.abc import Sequence

from firstfire.drawing import tokens
from firstfire.drawing.label_parts import HEAD, arrowhead
from firstfire.drawing.model import Disc, Lettering, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import line, polygon
from firstfire.drawing.text import width_of

LOW, HIGH = 3.5, 7.5
"""Heights of the roughness sign's legs for lettering of 2.5 mm (ISO 1302, Table 1)."""
_SLOPE = math.tan(math.radians(60))
_FOOT = LOW / _SLOPE + 0.3


def arrow(start: Point, tip: Point, unit: float) -> Region:
    """An arrowhead as a shape."""
    return Region((polygon(*arrowhead(start, tip, HEAD * unit, 6.0)),), "solid", None)


def roughness_width(text: str) -> float:
    """How wide the sign with its words is, mm of paper."""
    return _FOOT + HIGH / _SLOPE + 1.0 + width_of(text) * tokens.LETTERING


def roughness(left: float, foot: float, text: str, unit: float) -> list[Shape]:
    """The sign for a face from which material is taken, standing on a line at the height `foot`.

    References
    ----------
    ISO 1302:2002 and ISO 21920-1:2021, graphical symbols, from memory.
    """
    x = left + _FOOT * unit
    low, high = LOW * unit, HIGH * unit
    shoulder, peak = (x - low / _SLOPE, foot + low), (x + high / _SLOPE, foot + high)
    end = left + roughness_width(text) * unit
    words = (peak[0] + 0.3 * unit, foot + high - (0.9 + tokens.LETTERING) * unit)
    return [
        Stroke(line(shoulder, (x, foot), peak, (end, peak[1])), "thin"),
        Stroke(line(shoulder, (x + low / _SLOPE, foot + low)), "thin"),
        Lettering(words, text, tokens.LETTERING),
    ]


def first_angle(left: float, middle: float, unit: float) -> list[Shape]:
    """A cone's stump seen from the side and, to its right, from its small end (ISO 5456-2)."""
    small, large, long = 2.0 * unit, 4.0 * unit, 8.0 * unit
    stump = polygon(
        (left, middle - small), (left + long, middle - large), (left + long, middle + large),
        (left, middle + small),
    )  # fmt: skip
    centre = (left + long + 2.0 * unit + large + 1.0 * unit, middle)
    over = 1.2 * unit
    return [
        Region((stump,), "none"),
        Stroke(line((left - over, middle), (left + long + over, middle)), "centre"),
        Disc(centre, large, "none"),
        Disc(centre, small, "none"),
        Stroke(line((centre[0] - large - over, middle), (centre[0] + large + over, middle)),
               "centre"),
        Stroke(line((centre[0], middle - large - over), (centre[0], middle + large + over)),
               "centre"),
    ]  # fmt: skip


FIRST_ANGLE_WIDTH = 8.0 + 3.0 + 8.0 + 2.4
"""How wide the sign is, mm of paper."""


def cutting_plane(ends: Sequence[Point], look: float, letter: str, unit: float) -> list[Shape]:
    """A level plane's ends, heavy, with arrows that say which way one looks; 1 is upwards."""
    found: list[Shape] = []
    for (x, y), out in zip(ends, (-1.0, 1.0), strict=True):
        found.append(Stroke(line((x, y), (x + out * 6.0 * unit, y)), "heavy"))
        start = (x + out * 4.5 * unit, y - look * 7.0 * unit)
        tip = (start[0], y)
        found += [Stroke(line(start, tip), "thin"), arrow(start, tip, unit)]
        words = (start[0] + out * 1.5 * unit, y - look * 5.0 * unit)
        anchor = "start" if out > 0 else "end"
        found.append(Lettering(words, letter, 3.5, anchor))  # type: ignore[arg-type]
    return found
