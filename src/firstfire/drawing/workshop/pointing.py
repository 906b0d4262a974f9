"""Words that point at something: set where nothing else stands, by trying many places."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from firstfire.drawing import tokens
from firstfire.drawing.model import Anchor, Box, Dimension, Label, Lettering, Point, Shape, Stroke
from firstfire.drawing.outlines import line
from firstfire.drawing.workshop.signs import HIGH, arrow, roughness, roughness_width
from firstfire.drawing.workshop.taken import Line, Taken, meet, overlap, words_box
from firstfire.drawing.workshop.view import Pointer

_REACHES = (7.0, 10.0, 14.0, 18.0, 23.0, 29.0, 36.0, 44.0, 54.0)
_TURNS = (0.0, 12.0, -12.0, 25.0, -25.0, 40.0, -40.0, 55.0, -55.0, 70.0, -70.0, 90.0, -90.0)
_SHELF = 1.5
_CROSSING = 25.0
"""What crossing a line costs, in mm of a longer leader."""
_OVER_AN_EDGE = 3.0
"""The same for an edge of the view itself."""
_TURNING = 0.12
"""What a degree away from the wished direction costs, in mm."""

Pointed = tuple[tuple[Label, ...], tuple[Shape, ...], Taken, bool]


def pointed(pointers: Sequence[Pointer], box: Box, taken: Taken, unit: float) -> Pointed:
    """Labels of what has a number, shapes of what has none, what is taken, and if all had room.

    Words keep off the view's `box`, off other words and off every line; leaders off all words.
    """
    labels: list[Label] = []
    shapes: list[Shape] = []
    clear = True
    for pointer in pointers:
        elbow, words, free = _best(pointer, box, taken, unit)
        clear = clear and free
        shelf_end = _shelf_end(elbow, words, pointer, unit)
        taken = taken.plus([words], [(pointer.tip, elbow), (elbow, shelf_end)])
        if pointer.finish:
            shapes += _leader(pointer.tip, elbow, shelf_end, unit)
            left = min(elbow[0], shelf_end[0])
            shapes += roughness(left, elbow[1], pointer.text, unit)
        elif pointer.value is None:
            shapes += _leader(pointer.tip, elbow, shelf_end, unit)
            at, anchor = _at(elbow, words, unit)
            low = (at[0], at[1] - 0.5 * tokens.LETTERING * unit)
            shapes.append(Lettering(low, pointer.text, tokens.LETTERING, anchor))
        else:
            labels.append(_label(pointer, elbow, shelf_end, words, unit))
    return tuple(labels), tuple(shapes), taken, clear


def _best(pointer: Pointer, box: Box, taken: Taken, unit: float) -> tuple[Point, Box, bool]:
    """The free place that costs least; where none is free, the nearest."""
    best: tuple[float, Point, Box] | None = None
    for effort, elbow, words in _tries(pointer, unit):
        if best is not None and effort >= best[0]:
            continue
        leader = (pointer.tip, elbow), (elbow, _shelf_end(elbow, words, pointer, unit))
        if overlap(words, box) and not pointer.inside:
            continue
        if not taken.free(words) or not all(map(taken.passes, leader)):
            continue
        cost = effort + sum(
            _CROSSING if outside else _OVER_AN_EDGE
            for line_, outside in _drawn(taken, box)
            if meet(leader[0], line_)
        )
        if best is None or cost < best[0]:
            best = cost, elbow, words
    if best is None:
        _, elbow, words = next(_tries(pointer, unit))
        return elbow, words, False
    return best[1], best[2], True


def _drawn(taken: Taken, box: Box) -> Iterator[tuple[Line, bool]]:
    """Every line, and whether it is a dimension's or a leader's, outside the view."""
    for start, end in taken.lines:
        yield (start, end), not (_within(start, box) and _within(end, box))


def _within(point: Point, box: Box) -> bool:
    return box.left <= point[0] <= box.right and box.bottom <= point[1] <= box.top


def _tries(pointer: Pointer, unit: float) -> Iterator[tuple[float, Point, Box]]:
    """Elbows round the tip with the words that would stand there, and what each costs."""
    for reach in _REACHES:
        for turn in _TURNS:
            angle = math.radians(pointer.toward + turn)
            elbow = (
                pointer.tip[0] + reach * unit * math.cos(angle),
                pointer.tip[1] + reach * unit * math.sin(angle),
            )
            right = math.cos(angle) > -1e-9
            yield reach + _TURNING * abs(turn), elbow, _words(pointer, elbow, right, unit)


def _words(pointer: Pointer, elbow: Point, right: bool, unit: float) -> Box:
    out = 1.0 if right else -1.0
    if pointer.finish:
        far = elbow[0] + out * roughness_width(pointer.text) * unit
        left, end = sorted((elbow[0], far))
        # the sign stands on its shelf
        return Box(
            left - 0.8 * unit,
            elbow[1] - 1.5 * unit,
            end + 0.8 * unit,
            elbow[1] + (HIGH + 0.5) * unit,
        )
    start = (elbow[0] + out * (_SHELF + 0.9) * unit, elbow[1])
    anchor: Anchor = "start" if right else "end"
    return words_box(start, pointer.text, tokens.LETTERING, unit, anchor)


def _shelf_end(elbow: Point, words: Box, pointer: Pointer, unit: float) -> Point:
    right = (words.left + words.right) / 2 > elbow[0]
    if pointer.finish:
        far = roughness_width(pointer.text) * unit
        return elbow[0] + (far if right else -far), elbow[1]
    # a little before the words
    near = words.left if right else words.right
    return near, elbow[1]


def _at(elbow: Point, words: Box, unit: float) -> tuple[Point, Anchor]:
    """Where words begin: their box has a little room round them."""
    clear = 0.6 * unit
    if words.left > elbow[0]:
        return (words.left + clear, elbow[1]), "start"
    return (words.right - clear, elbow[1]), "end"


def _leader(tip: Point, elbow: Point, shelf_end: Point, unit: float) -> list[Shape]:
    return [Stroke(line(tip, elbow, shelf_end), "dimension"), arrow(elbow, tip, unit)]


def _label(pointer: Pointer, elbow: Point, shelf_end: Point, words: Box, unit: float) -> Label:
    at, anchor = _at(elbow, words, unit)
    tip = pointer.tip
    dimension = Dimension(
        path=pointer.path, label="", text=pointer.text, value=pointer.value or 0.0, first=tip,
        second=tip, line=(tip, tip),
    )  # fmt: skip
    return Label(dimension, at, anchor, (tip, elbow, shelf_end), pointed=True)
