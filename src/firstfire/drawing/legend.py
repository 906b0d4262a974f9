"""What stands below a drawing: hatches and patterns explained, and the title block."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from firstfire.drawing import tokens
from firstfire.drawing.model import Box, Disc, Fill, Lettering, Part, Region, Shape, Stroke
from firstfire.drawing.outlines import line, rectangle
from firstfire.drawing.text import wrapped

_HATCHES: tuple[tuple[Fill, str], ...] = (
    ("metal", "metal, cut"),
    ("plastic", "plastic, cut"),
    ("rubber", "rubber"),
    ("solid", "thin, cut"),
    ("fresh", "fresh charge"),
    ("burned", "burning, burned"),
    ("exhaust", "exhaust"),
)
_ALIKE = {"metal left": "metal", "plastic left": "plastic"}
ROW = 4.6  # mm of paper from one line to the next
_NAME = 3.5  # height of the engine's name
_SWATCH = (7.0, 3.0)


def scale_words(unit: float) -> str:
    """The scale as it stands on a drawing (ISO 5455).

    Examples
    --------
    >>> scale_words(2.0), scale_words(0.5)
    ('1 : 2', '2 : 1')
    """
    return f"1 : {unit:g}" if unit >= 1 else f"{1 / unit:g} : 1"


def scale_line(unit: float) -> str:
    """What the title block says of the scale."""
    return f"Scale {scale_words(unit)}; dimensions from the engine file"


NOT_TO_SCALE = "Not to scale; dimensions from the engine file"
"""What it says where a ruler would not find the scale."""


def angle_words(crank_angle: float) -> str:
    """A crank angle after cylinder 1's firing top centre, in words.

    Examples
    --------
    >>> angle_words(0.5235987755982988), angle_words(-3.490658503988659), angle_words(0.0)
    ('30° after firing top', '200° before firing top', 'at firing top')
    """
    degrees = round((math.degrees(crank_angle) + 360) % 720 - 360, 1)
    if degrees == 0:
        return "at firing top"
    return f"{abs(degrees):g}° {'after' if degrees > 0 else 'before'} firing top"


def legend(
    name: str,
    lines: Sequence[str],
    parts: Iterable[Part],
    under: Box,
    unit: float,
    arrows: str = "",
) -> tuple[tuple[Shape, ...], Box]:
    """Shapes of legend and title block below a box, and the box that holds all.

    Parameters
    ----------
    name, lines
        Of the engine, and what else the title block says.
    parts
        Of the drawing: only what occurs is explained.
    under
        What drawing and words cover.
    unit
        mm of the engine to one of paper.
    arrows
        What an arrow's length means, where there are any.
    """
    parts = list(parts)
    entries = entries_of(parts)
    block = 82.0 * unit
    top = under.bottom - 5.0 * unit
    width = max(under.width, block + 45 * unit)
    left = (under.left + under.right - width) / 2
    columns = max(1, int((width - block) / (30.0 * unit)))
    shapes: list[Shape] = [Stroke(line((left, top), (left + width, top)), "dimension")]
    for number, (fill, words) in enumerate(entries):
        x = left + (number % columns) * 30.0 * unit
        y = top - (number // columns + 1) * ROW * unit
        shapes += entry(fill, words, x, y, unit)
    rows = -(-len(entries) // columns)
    if arrows:
        rows += 1
        y = top - rows * ROW * unit
        shapes += _arrow_entry(arrows, left, y, unit)
    said, low = title_block(name, lines, left + width - block, top, unit)
    shapes += said
    low = min(low, top - rows * ROW * unit) - 2.5 * unit
    return tuple(shapes), Box(left, low, left + width, under.top)


def entries_of(parts: Sequence[Part]) -> list[tuple[str, str]]:
    """Fills that occur, hatches first, with their words."""
    marked = [part for part in parts if part.word]
    plain = [part for part in parts if not part.word]
    # all gases, since each comes by at some crank angle
    fills = {"fresh", "burned", "exhaust"} | {
        _ALIKE.get(shape.fill, shape.fill)
        for part in plain
        for shape in part.shapes
        if isinstance(shape, Region | Disc)
    }
    entries: list[tuple[str, str]] = [(fill, words) for fill, words in _HATCHES if fill in fills]
    said = {part.word for part in marked}
    order = ("fails", "marginal", "holds", "not judged")
    return entries + [(word, word) for word in order if word in said]


def entry(fill: str, words: str, x: float, y: float, unit: float) -> list[Shape]:
    """A swatch with its words."""
    wide, high = (size * unit for size in _SWATCH)
    box = rectangle(x, y, x + wide, y + high)
    return [
        Region((box,), fill, "thin"),  # type: ignore[arg-type]
        Lettering((x + wide + 1.5 * unit, y + 0.6 * unit), words, tokens.SMALL),
    ]


def _arrow_entry(words: str, x: float, y: float, unit: float) -> list[Shape]:
    middle = y + 0.5 * _SWATCH[1] * unit
    shaft = Stroke(line((x, middle), (x + 10 * unit, middle)), "outline")
    return [shaft, Lettering((x + 12 * unit, y + 0.6 * unit), words, tokens.SMALL)]


def title_block(
    name: str, lines: Sequence[str], x: float, top: float, unit: float, wide: float = 80.0
) -> tuple[list[Shape], float]:
    """The name first, in at most two lines, then what is drawn; and where that ends."""
    found: list[Shape] = []
    y = top
    for text in wrapped(name, wide / _NAME, 2):
        y -= 1.7 * _NAME * unit
        found.append(Lettering((x, y), text, _NAME))
    y -= 1.0 * unit
    for said in lines:
        for text in wrapped(said, wide / tokens.SMALL, 3):
            y -= 0.72 * ROW * unit
            found.append(Lettering((x, y), text, tokens.SMALL))
    return found, y
