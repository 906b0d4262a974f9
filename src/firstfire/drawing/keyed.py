"""A narrow drawing's words: numbers at the lines, and below it what each number means."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from firstfire.drawing import tokens
from firstfire.drawing.legend import ROW, entries_of, entry, title_block
from firstfire.drawing.model import Box, Dimension, Label, Lettering, Part, Shape, Stroke
from firstfire.drawing.outlines import line
from firstfire.drawing.text import width_of

_COLUMN = 30.0  # mm of paper from one hatch of the legend to the next


def nameless(dimension: Dimension) -> Dimension:
    """With room for a number of two digits in place of its words."""
    return replace(dimension, label="", text="00")


def keyed(
    found: Sequence[Label], named: Mapping[str, Dimension]
) -> tuple[tuple[Label, ...], list[tuple[str, Dimension]]]:
    """Labels with their numbers, counted as they stand, and what each of those means."""
    labels, keys = [], []
    for number, label in enumerate(found, start=1):
        keys.append((str(number), named[label.dimension.path]))
        labels.append(replace(label, dimension=replace(label.dimension, text=str(number))))
    return tuple(labels), keys


def stacked(
    name: str,
    lines: Sequence[str],
    parts: Sequence[Part],
    under: Box,
    unit: float,
    keys: Sequence[tuple[str, Dimension]],
    wide: float,
) -> tuple[tuple[Shape, ...], Box]:
    """Numbers, hatches and title block one below another, and the box that holds all.

    Parameters
    ----------
    name, lines
        Of the engine, and what else the title block says.
    parts
        Of the drawing: only what occurs is explained.
    under
        What drawing and numbers cover.
    unit
        mm of the engine to one of paper.
    keys
        What each number means.
    wide
        mm of paper from left to right.
    """
    width = max(under.width, wide * unit)
    left = (under.left + under.right - width) / 2
    y = under.bottom - 4.0 * unit
    shapes: list[Shape] = [Stroke(line((left, y), (left + width, y)), "dimension")]
    numbers, y = _numbers(keys, left, y, unit, wide)
    shapes += numbers
    y -= 1.5 * unit
    columns = max(1, int(wide / _COLUMN))
    for place, (fill, words) in enumerate(entries_of(parts)):
        y -= ROW * unit if place % columns == 0 else 0.0
        shapes += entry(fill, words, left + place % columns * _COLUMN * unit, y, unit)
    said, low = title_block(name, lines, left, y, unit, wide)
    return (*shapes, *said), Box(left, low - 2.5 * unit, left + width, under.top)


def _numbers(
    keys: Sequence[tuple[str, Dimension]], left: float, top: float, unit: float, wide: float
) -> tuple[list[Shape], float]:
    """In columns as wide as the longest words, read downwards."""
    said = [f"{d.label} {d.text}" for _, d in keys]
    longest = max((width_of(words) for words in said), default=0.0) * tokens.SMALL + 8.0
    columns = max(1, min(3, int(wide / longest)))
    rows = -(-len(keys) // columns)
    shapes: list[Shape] = []
    for place, ((number, _), words) in enumerate(zip(keys, said, strict=True)):
        x = left + place // rows * (wide / columns) * unit
        y = top - (place % rows + 1) * 0.85 * ROW * unit
        shapes.append(Lettering((x + 3.5 * unit, y), number, tokens.SMALL, "end"))
        shapes.append(Lettering((x + 5.5 * unit, y), words, tokens.SMALL))
    return shapes, top - rows * 0.85 * ROW * unit
