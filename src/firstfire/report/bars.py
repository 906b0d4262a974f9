"""The bar of a ledger line: demand against capacity, with its span."""

from __future__ import annotations

import math

from markupsafe import Markup

from firstfire.report.charts.plot import box, line
from firstfire.verdict.facts.margin import Margin

_CAPACITY, _MOST = 70.0, 154.0
_HEIGHT = 16.0


def bar(margin: Margin) -> Markup:
    """Demand as a share of capacity: the upright line is what it holds.

    Filled with the pattern of its word; the fine line is the 5-95 % span. What goes beyond 2.2
    times the capacity is cut off there.
    """
    fill = _place(margin.factor)
    low, high = _place(margin.factor_high), _place(margin.factor_low)
    word = margin.word.replace(" ", "-")
    middle = _HEIGHT / 2
    marks = [
        box(0.5, 4, fill, _HEIGHT - 8, f"bar {word}"),
        line(low, middle, high, middle, "whisker"),
        line(low, middle - 3, low, middle + 3, "whisker"),
    ]
    if high < _MOST:
        marks.append(line(high, middle - 3, high, middle + 3, "whisker"))
    marks.append(line(_CAPACITY, 0, _CAPACITY, _HEIGHT, "capacity"))
    if fill >= _MOST:
        marks += [line(_MOST - 12 + x, 15, _MOST - 6 + x, 1, "broken") for x in (0, 5)]
    head = Markup(
        '<svg class="demand" viewBox="0 0 156 16" preserveAspectRatio="none" '
        'aria-hidden="true" focusable="false">'
    )
    return head + Markup("").join(marks) + Markup("</svg>")


def _place(factor: float | None) -> float:
    if factor is None or not math.isfinite(factor):
        return 0.5
    return min(_CAPACITY / max(factor, 1e-6), _MOST) + 0.5
