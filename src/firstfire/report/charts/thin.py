"""Leaving out the points of a curve that nobody sees."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def thinned(x: Floats, y: Floats, away: float = 0.12) -> tuple[Floats, Floats]:
    """The curve with as few of its points as keep it within `away` of where it was.

    Parameters
    ----------
    x, y
        Places on the paper, (n,).
    away
        Farthest that a point left out may lie from the new curve.

    Returns
    -------
    x, y
        The points kept; first and last are.

    References
    ----------
    D. Douglas, T. Peucker, Algorithms for the reduction of the number of points required to
    represent a digitized line, 1973, the method of section 3.

    Examples
    --------
    >>> thinned(np.array([0.0, 1.0, 2.0]), np.array([0.0, 0.01, 0.0]))[0].tolist()
    [0.0, 2.0]
    """
    keep = np.zeros(x.size, dtype=bool)
    keep[[0, -1]] = True
    open_stretches = [(0, x.size - 1)]
    while open_stretches:
        first, last = open_stretches.pop()
        if last - first < 2:
            continue
        distances = _distances(x[first : last + 1], y[first : last + 1])
        worst = int(np.argmax(distances))
        if distances[worst] > away:
            keep[first + worst] = True
            open_stretches += [(first, first + worst), (first + worst, last)]
    return x[keep], y[keep]


def _distances(x: Floats, y: Floats) -> Floats:
    """How far each point lies from the stretch of line between the first and the last."""
    along_x, along_y = x[-1] - x[0], y[-1] - y[0]
    square = float(along_x**2 + along_y**2)
    if square == 0:
        return np.asarray(np.hypot(x - x[0], y - y[0]))
    share = np.clip(((x - x[0]) * along_x + (y - y[0]) * along_y) / square, 0.0, 1.0)
    return np.asarray(np.hypot(x - x[0] - share * along_x, y - y[0] - share * along_y))
