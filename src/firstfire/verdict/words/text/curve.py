"""A small curve drawn with letters."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np


def text_curve(
    x: Sequence[float], y: Sequence[float], *, width: int = 61, height: int = 9
) -> list[str]:
    """Lines of a curve of y over x: the highest value in each column, filled below with dots.

    Parameters
    ----------
    x, y
        Rising x, and y of the same length; at least two points.
    width, height
        In characters.

    Examples
    --------
    >>> print("\\n".join(text_curve([0, 1, 2], [0, 2, 0], width=5, height=3)))
      #
     #.#
    #...#
    """
    columns = np.linspace(x[0], x[-1], width)
    values = np.interp(columns, x, y)
    top = max(float(np.max(values)), 1e-300)
    rows = np.clip(np.round(values / top * (height - 1)), 0, height - 1).astype(int)
    lines = []
    for level in range(height - 1, -1, -1):
        line = "".join("#" if r == level else "." if r > level else " " for r in rows)
        lines.append(line.rstrip())
    return lines
