"""Where on a chart words may stand: on no line and on no other words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from firstfire.drawing.model import Box, Point
from firstfire.drawing.workshop.taken import Line, Taken

_LETTER = 7.0
"""Width of a letter of 12 px, a little wide."""
_RISE, _FALL = 9.0, 2.0
_AROUND = 1.5
"""Paper left free around words."""


def box_of(spot: Point, words: str, anchor: str) -> Box:
    """What words cover that begin, end or are centred at a spot on their foot line; y goes down.

    Examples
    --------
    >>> box_of((100.0, 50.0), "even", "end")
    Box(left=72.0, bottom=41.0, right=100.0, top=52.0)
    """
    wide = _LETTER * len(words)
    left = spot[0] - {"middle": wide / 2, "end": wide}.get(anchor, 0.0)
    return Box(left, spot[1] - _RISE, left + wide, spot[1] + _FALL)


def pieces(across: Iterable[float], down: Iterable[float]) -> list[Line]:
    """A curve's pieces from corner to corner."""
    corners = [(float(x), float(y)) for x, y in zip(across, down, strict=True)]
    return list(pairwise(corners))


def first_clear(spots: Sequence[Point], words: str, anchor: str, taken: Taken) -> Point:
    """The first spot, best first, at which words touch nothing; the best where none is clear."""
    free = (spot for spot in spots if taken.free(box_of(spot, words, anchor).grown(_AROUND)))
    return next(free, spots[0])
