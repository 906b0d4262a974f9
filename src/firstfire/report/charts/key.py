"""A key inside a chart: short strokes with their words, in one row above the curves."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup

from firstfire.report.charts.plot import Plot, letters, line

_LETTER = 5.9
_STROKE = 22.0


def key(paper: Plot, entries: Sequence[tuple[str, str]], *, right: bool = True) -> Plot:
    """A plot with a row of strokes and words at its top.

    Parameters
    ----------
    paper
        The plot.
    entries
        Kind of curve, and what it is.
    right
        Whether the row ends at the right edge, or begins at the left one.
    """
    widths = [_STROKE + 6 + _LETTER * len(words) + 12 for _, words in entries]
    x = paper.x.end - sum(widths) + 12 if right else paper.x.start
    y = paper.y.end - 12
    found: list[Markup] = []
    for (kind, words), width in zip(entries, widths, strict=True):
        found.append(line(x, y - 4, x + _STROKE, y - 4, f"curve {kind}"))
        found.append(letters(x + _STROKE + 5, y, words, "start", "label"))
        x += width
    return paper.add(*found)
