"""Where words stand: in two columns beside the drawing, so that none lies on another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from firstfire.drawing import conventions as by
from firstfire.drawing import tokens
from firstfire.drawing.model import Anchor, Box, Dimension, Label, Point
from firstfire.drawing.profile import Profile
from firstfire.drawing.text import width_of


def labels(
    dimensions: Sequence[Dimension],
    content: Box,
    unit: float,
    edges: Profile,
    *,
    level: bool = False,
) -> tuple[Label, ...]:
    """Each dimension's words in the column nearer to it, in the order of their heights.

    Parameters
    ----------
    dimensions
        Already on the sheet.
    content
        What the parts cover.
    unit
        mm of the engine to one of paper.
    edges
        How far they reach to left and right, height by height.
    level
        Whether the bores lie level: the words then stand in stairs above and below.
    """
    if level:
        return _stairs(dimensions, content, unit)
    middle = (content.left + content.right) / 2
    left = [d for d in dimensions if _anchor(d, middle)[0] < middle]
    right = [d for d in dimensions if d not in left]
    most = max(int(content.height / (by.ROW * unit)), 1)
    _even_out(left, right, most, middle)
    _even_out(right, left, most, middle)
    return (
        *_column(left, "end", content, unit, edges),
        *_column(right, "start", content, unit, edges),
    )


def moved(found: Sequence[Label], now: Sequence[Dimension], *, level: bool) -> tuple[Label, ...]:
    """Labels whose words stay where they are while the crank turns what they point at.

    Parameters
    ----------
    found
        As they stand at another crank angle.
    now
        The same dimensions at this one, in any order.
    level
        As for `labels`.
    """
    turned = {d.path: d for d in now}
    labels = []
    for label in found:
        d = turned[label.dimension.path]
        foot = _middle(d) if level else _anchor_at(d, -1.0 if label.anchor == "end" else 1.0)
        labels.append(replace(label, dimension=d, leader=(foot, *label.leader[1:])))
    return tuple(labels)


def _even_out(full: list[Dimension], spare: list[Dimension], most: int, middle: float) -> None:
    """Move what stands nearest to the middle over where a column is too long."""
    while len(full) > most and len(spare) < most:
        nearest = min(full, key=lambda d: abs(_anchor(d, middle)[0] - middle))
        full.remove(nearest)
        spare.append(nearest)


def _anchor(dimension: Dimension, middle: float) -> Point:
    """The place its leader starts from: the outer end of a level line, else its middle."""
    (x0, y0), (x1, y1) = dimension.line
    if abs(y1 - y0) < 0.2 * abs(x1 - x0):
        return max(dimension.line, key=lambda p: abs(p[0] - middle))
    return (x0 + x1) / 2, (y0 + y1) / 2


def _column(
    dimensions: Sequence[Dimension], anchor: Anchor, content: Box, unit: float, edges: Profile
) -> list[Label]:
    """Clear of whatever is drawn at the heights of its words."""
    if not dimensions:
        return []
    side = -1.0 if anchor == "end" else 1.0
    ordered = sorted(dimensions, key=lambda d: -_anchor_at(d, side)[1])
    row = by.ROW * unit
    heights = spread([_anchor_at(d, side)[1] for d in ordered], row, content)
    lines = [x for d in dimensions for x, _ in d.line]
    left, right = edges.between(min(heights) - 0.5 * row, max(heights) + 0.5 * row)
    edge = min(left, *lines) if side < 0 else max(right, *lines)
    x = edge + side * by.COLUMN_GAP * unit
    found = []
    for d, y in zip(ordered, heights, strict=True):
        elbow, end = (x - side * 3.5 * unit, y), (x - side * 1.0 * unit, y)
        found.append(Label(d, (x, y), anchor, (_anchor_at(d, side), elbow, end)))
    return found


def _anchor_at(dimension: Dimension, side: float) -> Point:
    (x0, y0), (x1, y1) = dimension.line
    if abs(y1 - y0) < 0.2 * abs(x1 - x0):
        return max(dimension.line, key=lambda p: side * p[0])
    return (x0 + x1) / 2, (y0 + y1) / 2


def spread(wanted: Sequence[float], row: float, content: Box) -> list[float]:
    """Falling heights at least a row apart, as near as can be to those wanted.

    Examples
    --------
    >>> spread([10.0, 9.0], 4.0, Box(0.0, 0.0, 20.0, 20.0))
    [11.5, 7.5]
    """
    groups = [[height] for height in wanted]
    middles = list(wanted)
    place = 0
    while place < len(groups) - 1:
        above, below = groups[place], groups[place + 1]
        apart = row * (len(above) + len(below)) / 2
        if middles[place] - middles[place + 1] >= apart - 1e-9:
            place += 1
            continue
        both = above + below
        half = row * (len(both) - 1) / 2
        middle = min(max(sum(both) / len(both), content.bottom + half), content.top - half)
        groups[place : place + 2] = [both]
        middles[place : place + 2] = [middle]
        place = max(place - 1, 0)
    return [
        middle + row * ((len(group) - 1) / 2 - n)
        for middle, group in zip(middles, groups, strict=True)
        for n in range(len(group))
    ]


def covered(found: Sequence[Label], content: Box, unit: float) -> Box:
    """What content and words cover together."""
    left, right, low, high = content.left, content.right, content.bottom, content.top
    for label in found:
        wide = width_of(label.words) * tokens.LETTERING * unit
        if label.anchor == "end":
            left = min(left, label.at[0] - wide)
        else:
            right = max(right, label.at[0] + wide)
        low, high = min(low, label.at[1] - 3 * unit), max(high, label.at[1] + 3 * unit)
    return Box(left, low, right, high)


def _stairs(dimensions: Sequence[Dimension], content: Box, unit: float) -> tuple[Label, ...]:
    """Above and below, each higher the further left it belongs: no line crosses any words."""
    middle = (content.bottom + content.top) / 2
    found = []
    for side in (1.0, -1.0):
        half = [d for d in dimensions if (_middle(d)[1] >= middle) is (side > 0)]
        ordered = sorted(half, key=lambda d: -_middle(d)[0])
        edge = content.top if side > 0 else content.bottom
        x = float("inf")
        for step, d in enumerate(ordered):
            # a leader keeps clear of the one to its right
            foot = _middle(d)
            x = min(foot[0], x - 1.5 * unit)
            y = edge + side * (by.COLUMN_GAP + by.ROW * step) * unit
            leader = (foot, (x, edge), (x, y), (x + 1.5 * unit, y))
            found.append(Label(d, (x + 2.5 * unit, y), "start", leader))
    return tuple(found)


def _middle(dimension: Dimension) -> Point:
    (x0, y0), (x1, y1) = dimension.line
    if abs(x1 - x0) < 0.2 * abs(y1 - y0):
        return max(dimension.line, key=lambda p: p[1])
    return (x0 + x1) / 2, (y0 + y1) / 2
