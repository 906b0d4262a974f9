"""Names of places on a template, beside it and each with a thin line to its place."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.drawing.model import Lettering, Point, Shape
from firstfire.drawing.templates.template import SMALL, tick


def named(
    centre: Point, reach: float, places: Sequence[tuple[Point, str]]
) -> tuple[list[Shape], list[Shape]]:
    """Names clear of all that reaches so far from a centre, and a thin line to what each names."""
    names: list[Shape] = []
    leaders: list[Shape] = []
    taken: list[tuple[float, float]] = []
    for place, text in sorted(places, key=lambda one: -one[0][1]):
        side = 1.0 if place[0] >= centre[0] - 0.01 else -1.0
        level = min([place[1], *(y - 1.6 * SMALL for other, y in taken if other == side)])
        taken.append((side, level))
        end = centre[0] + side * (reach + 2.0), level
        leaders.append(tick(place, end))
        foot = end[0] + 0.5 * side, level - 0.36 * SMALL
        names.append(Lettering(foot, text, SMALL, "start" if side > 0 else "end"))
    return names, leaders
