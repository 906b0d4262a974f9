"""The 100 mm ruler on every sheet, by which a printer's scale is checked."""

from __future__ import annotations

from firstfire.drawing.model import Lettering, Point, Shape
from firstfire.drawing.templates.template import SMALL, tick

LONG = 100.0
"""mm."""
HIGH = 11.0
"""Room that it takes with its words, mm."""
CHECK = "Measure it: 100.0 mm. If not, print at 100 % (actual size), with no fitting to the page."


def ruler(corner: Point) -> list[Shape]:
    """A ruler whose lower left corner of all it takes is at `corner`."""
    x, y = corner
    base = y + 4.0
    shapes: list[Shape] = [tick((x, base), (x + LONG, base), "outline")]
    for n in range(int(LONG) + 1):
        high = 4.0 if n % 10 == 0 else 3.0 if n % 5 == 0 else 2.0
        shapes.append(tick((x + n, base), (x + n, base + high)))
        if n % 10 == 0:
            shapes.append(Lettering((x + n, base + 4.6), str(n), 1.8, "middle"))
    shapes.append(Lettering((x, y + 1.0), CHECK, SMALL))
    return shapes
