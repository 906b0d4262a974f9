"""Dimension lines in rows beside a view, short ones inside, no word on any line."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from firstfire.drawing import tokens
from firstfire.drawing.label_parts import TAIL, label_parts
from firstfire.drawing.model import Box, Dimension, Label, Point
from firstfire.drawing.text import width_of
from firstfire.drawing.workshop.taken import Line, Taken, words_box
from firstfire.drawing.workshop.view import Side, Size

FIRST = 9.0
"""From the view to the first row, mm of paper."""
ROW = 7.0
"""From row to row."""
_MOST_ROWS = 9
_TRIES = 4
_OVER = 1.5
_ABOVE = 0.5 * tokens.LETTERING + 0.9
_OPPOSITE: dict[Side, Side] = {"below": "above", "above": "below", "left": "right", "right": "left"}


@dataclass(frozen=True)
class _Way:
    """One way to write a dimension: where its words stand, and how far its line then reaches."""

    outside: bool
    middle: float
    low: float
    high: float


@dataclass(frozen=True)
class _Row:
    """What a row holds already."""

    at: float
    low: float
    high: float
    level: bool


def stacked(
    sizes: Sequence[Size], box: Box, taken: Taken, unit: float
) -> tuple[tuple[Label, ...], Taken, bool]:
    """Labels of all sizes round a view's box, what is taken then, and whether all had room.

    Sizes whose line has a place of its own come first, then the others from short to long. What
    finds no room so is tried again, outermost and before the others.
    """
    outermost: tuple[Size, ...] = ()
    tries = []
    for _ in range(_TRIES):
        tries.append(_stack(sizes, outermost, box, taken, unit))
        if not tries[-1][2]:
            break
        outermost = tuple(dict.fromkeys((*outermost, *tries[-1][2])))
    found, then, wanting = min(tries, key=lambda tried: len(tried[2]))
    return found, then, not wanting


def _stack(
    sizes: Sequence[Size], outermost: Sequence[Size], box: Box, taken: Taken, unit: float
) -> tuple[tuple[Label, ...], Taken, tuple[Size, ...]]:
    """The same in one order; the last are those without room."""
    found: list[Label] = []
    rows: list[_Row] = []
    wanting: list[Size] = []

    def order(size: Size) -> tuple[bool, bool, float]:
        return size not in outermost, size.at is None, math.dist(size.first, size.second)

    for size in sorted(sizes, key=order):
        inner = sum(other.side == size.side for other in sizes if other not in outermost)
        start = inner if size in outermost else 0
        label, row, fits = _placed(size, box, taken, rows, unit, start)
        if not fits:
            wanting.append(size)
        found.append(label)
        rows.append(row)
        made = label_parts(label, unit)
        lines = [pair for line in made.lines for pair in itertools.pairwise(line)]
        taken = taken.plus([label_box(label, unit)], lines)
    return tuple(found), taken, tuple(wanting)


def label_box(label: Label, unit: float) -> Box:
    """What a label's words cover."""
    return words_box(label.at, label.words, tokens.LETTERING, unit, label.anchor, label.turn)


def _placed(
    size: Size, box: Box, taken: Taken, rows: Sequence[_Row], unit: float, start: int
) -> tuple[Label, _Row, bool]:
    """The first place that is free; where none is, the first there is."""
    first: tuple[Label, _Row] | None = None
    for at in _places(size, box, unit, start):
        for way in _ways(size, unit):
            label = _label(size, way, at, unit)
            row = _Row(at, way.low, way.high, size.level)
            first = first or (label, row)
            if _fits(label, row, taken, rows, unit):
                return label, row, True
    assert first is not None
    return *first, False


def _places(size: Size, box: Box, unit: float, start: int) -> Iterator[float]:
    if size.at is not None:
        yield size.at
        return
    for side in (size.side, _OPPOSITE[size.side]):
        edge = {"below": box.bottom, "above": box.top, "left": box.left, "right": box.right}[side]
        out = -1.0 if side in ("below", "left") else 1.0
        for row in range(start, _MOST_ROWS):
            yield edge + out * (FIRST + ROW * row) * unit


def _ways(size: Size, unit: float) -> Iterator[_Way]:
    """Words over the line where there is room, else beside it."""
    axis = 0 if size.level else 1
    low, high = sorted((size.first[axis], size.second[axis]))
    long = width_of(size.text) * tokens.LETTERING * unit
    gap, tail = high - low, TAIL * unit
    inside = gap >= 2.6 * 2.5 * unit
    if gap >= long + 2 * 2.5 * unit:
        yield _Way(False, (low + high) / 2, low, high)
    if not inside and gap >= long + 1.0 * unit:
        yield _Way(True, (low + high) / 2, low - tail, high + tail)
    start = 1.6 * unit if inside else 3.4 * unit
    reach = start + long + 0.5 * unit
    near = low if inside else low - tail
    far = high if inside else high + tail
    yield _Way(not inside, high + start + long / 2, near, max(far, high + reach))
    yield _Way(not inside, low - start - long / 2, min(near, low - reach), far)


def _label(size: Size, way: _Way, at: float, unit: float) -> Label:
    """Upright lines have their words to the left, read from the right (ISO 129-1)."""
    axis = 0 if size.level else 1
    ends = size.first[axis], size.second[axis]
    low, high = min(ends), max(ends)
    above = at + (_ABOVE if size.level else -_ABOVE) * unit

    def point(along: float, across: float) -> Point:
        return (along, across) if size.level else (across, along)

    leader: tuple[Point, ...] = ()
    if way.middle > high:
        leader = point(high, at), point(way.high, at)
    elif way.middle < low:
        leader = point(low, at), point(way.low, at)
    dimension = Dimension(
        path=size.path, label="", text=size.text, value=size.value,
        first=size.first, second=size.second, line=(point(ends[0], at), point(ends[1], at)),
    )  # fmt: skip
    return Label(
        dimension=dimension, at=point(way.middle, above), anchor="middle", leader=leader,
        turn=0.0 if size.level else math.pi / 2, outside=way.outside, overshoot=_OVER,
    )  # fmt: skip


def _fits(label: Label, row: _Row, taken: Taken, rows: Sequence[_Row], unit: float) -> bool:
    """Words on nothing, no line through words, no line on a line."""
    if any(_on_one(row, other, unit) for other in rows):
        return False
    own = label_box(label, unit)
    if not taken.free(own):
        return False
    made = label_parts(label, unit)
    pieces: list[Line] = [p for line in made.lines for p in itertools.pairwise(line)]
    return all(taken.passes(piece) for piece in pieces)


def _on_one(a: _Row, b: _Row, unit: float) -> bool:
    """Whether two lines lie on each other, or closer than words need; ends may touch."""
    if a.level is not b.level or abs(a.at - b.at) > 0.7 * ROW * unit:
        return False
    return a.low < b.high - 1e-6 and b.low < a.high - 1e-6
