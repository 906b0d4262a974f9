"""Where on a chart words may stand: on no curve and on no other words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

Box = tuple[float, float, float, float]
"""Left, top, right and bottom on the paper."""
Spot = tuple[float, float]

_LETTER = 7.0
"""Width of a letter of 12 px, a little wide."""
_RISE, _FALL = 9.0, 2.0
_AROUND = 1.0
"""Paper left free around words."""


def box_of(spot: Spot, words: str, anchor: str) -> Box:
    """What words cover that begin, end or are centred at a spot on their foot line.

    Examples
    --------
    >>> box_of((100.0, 50.0), "even", "end")
    (72.0, 41.0, 100.0, 52.0)
    """
    wide = _LETTER * len(words)
    left = spot[0] - {"middle": wide / 2, "end": wide}.get(anchor, 0.0)
    return left, spot[1] - _RISE, left + wide, spot[1] + _FALL


def first_clear(
    spots: Sequence[Spot], words: str, anchor: str, curves: Sequence[Floats], taken: Sequence[Box]
) -> Spot:
    """The first spot at which words touch nothing; where none is clear, the one they touch least.

    Parameters
    ----------
    spots
        Best first.
    words, anchor
        As `firstfire.report.charts.plot.letters` takes them.
    curves
        Corners of each, shape (n, 2).
    taken
        What other words cover.
    """
    touched = []
    for spot in spots:
        box = box_of(spot, words, anchor)
        inside = sum(_inside(box, curve) for curve in curves)
        over = sum(_overlap(box, other) for other in taken)
        if inside == 0 and over == 0:
            return spot
        touched.append(inside + over)
    return spots[int(np.argmin(touched))]


def _inside(box: Box, curve: Floats) -> float:
    """How much of a curve's length lies within a box and the paper around it."""
    begins, ends = curve[:-1], curve[1:]
    low = np.array([box[0] - _AROUND, box[1] - _AROUND])
    high = np.array([box[2] + _AROUND, box[3] + _AROUND])
    along = ends - begins
    with np.errstate(divide="ignore", invalid="ignore"):
        one, other = (low - begins) / along, (high - begins) / along
    enters, leaves = np.minimum(one, other), np.maximum(one, other)
    still = along == 0  # runs straight across or up: all of it or nothing
    within = (begins >= low) & (begins <= high)
    enters = np.where(still, np.where(within, -np.inf, np.inf), enters)
    leaves = np.where(still, np.where(within, np.inf, -np.inf), leaves)
    share = np.minimum(leaves.min(axis=1), 1.0) - np.maximum(enters.max(axis=1), 0.0)
    return float((np.maximum(share, 0.0) * np.hypot(*along.T)).sum())


def _overlap(box: Box, other: Box) -> float:
    across = min(box[2], other[2]) - max(box[0], other[0])
    up = min(box[3], other[3]) - max(box[1], other[1])
    return across if across > 0 and up > 0 else 0.0
