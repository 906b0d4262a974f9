"""What stands at the arrows of forces, and where: clear of what stands at the others."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from firstfire.drawing import tokens
from firstfire.drawing.model import Anchor, Arrow, Box, Lettering, Point
from firstfire.drawing.text import width_of
from firstfire.verdict.numbers import shown

_LEAST = 0.2  # mm of paper: a shorter arrow is not drawn


def drawn(arrow: Arrow, unit: float) -> bool:
    """Whether an arrow is long enough to be seen."""
    return math.dist(arrow.start, arrow.end) >= _LEAST * unit


def arrow_words(arrows: Sequence[Arrow], unit: float) -> list[tuple[Arrow, Lettering]]:
    """Each arrow that is drawn with its words: the force and how large it is.

    Parameters
    ----------
    arrows
        Of one drawing.
    unit
        mm of the engine to one of paper.
    """
    found: list[tuple[Arrow, Lettering]] = []
    taken = [_around(arrow, unit) for arrow in arrows if drawn(arrow, unit)]
    for arrow in arrows:
        if not drawn(arrow, unit):
            continue
        text = f"{arrow.name} {shown(abs(arrow.force), 'N')}"
        at, anchor = _clearest(text, list(_places(arrow, unit)), taken, unit)
        taken.append(_box(text, at, anchor, unit))
        found.append((arrow, Lettering(at, text, tokens.SMALL, anchor)))
    return found


def _clearest(
    text: str, places: Sequence[tuple[Point, Anchor]], taken: Sequence[Box], unit: float
) -> tuple[Point, Anchor]:
    """The first place of those that meet the fewest others."""
    meets = [sum(_meet(_box(text, *place, unit), box) for box in taken) for place in places]
    return places[meets.index(min(meets))]


def _places(arrow: Arrow, unit: float) -> Iterator[tuple[Point, Anchor]]:
    """Past its point, before its tail, beside its middle, and further off."""
    (x0, y0), (x1, y1) = arrow.start, arrow.end
    gap, half = 1.5 * unit, 0.5 * tokens.SMALL * unit
    middle = (x0 + x1) / 2, (y0 + y1) / 2
    if abs(x1 - x0) > abs(y1 - y0):
        ahead = 1.0 if x1 > x0 else -1.0
        yield (x1 + ahead * gap, y1 - half), "start" if ahead > 0 else "end"
        yield (x0 - ahead * gap, y0 - half), "end" if ahead > 0 else "start"
        for steps in range(1, 8):
            for side in (1, -1):
                y = y1 + side * steps * gap
                yield (x1, y), "middle"
                yield (max(x0, x1) + gap, y), "start"
                yield (min(x0, x1) - gap, y), "end"
        return
    for x, y in ((x1, y1), middle, (x0, y0)):
        yield (x + gap, y - half), "start"
        yield (x - gap, y - half), "end"
    for steps in range(1, 8):
        yield (x1 + gap, y1 - steps * 2 * gap), "start"
        yield (x1 - gap, y1 - steps * 2 * gap), "end"


def _box(text: str, at: Point, anchor: Anchor, unit: float) -> Box:
    wide = width_of(text) * tokens.SMALL * unit
    left = at[0] - {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * wide
    high = tokens.SMALL * unit
    return Box(left, at[1] - 0.35 * high, left + wide, at[1] + 1.1 * high)


def _around(arrow: Arrow, unit: float) -> Box:
    (x0, y0), (x1, y1) = arrow.start, arrow.end
    return Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)).grown(0.5 * unit)


def _meet(one: Box, other: Box) -> bool:
    return (
        one.left < other.right
        and other.left < one.right
        and one.bottom < other.top
        and other.bottom < one.top
    )
