"""Drawings of single parts can be read: no words on words, no line through them, none too small.

Independent of the drawing's code: words are measured with the font's own metrics, and lines are
walked in small steps.
"""

from __future__ import annotations

import itertools
import math
from functools import cache
from typing import Any

import numpy as np
import pytest
from tests.drawing.part_sheets import LESS_USUAL, SHEETS, all_words, drawn

from firstfire.drawing import tokens
from firstfire.drawing.label_parts import label_parts
from firstfire.drawing.model import Drawing, Lettering
from firstfire.drawing.outlines import box_of, reach
from firstfire.drawing.pdf import to_pdf
from firstfire.drawing.workshop.laid import pieces
from firstfire.drawing.workshop.parts import PARTS


@cache
def _register() -> None:
    to_pdf(drawn("wren", "pin"))


def font_width(text: str, height: float) -> float:
    """Of words in the font that a PDF embeds, in units of `height`."""
    from reportlab.pdfbase import pdfmetrics

    _register()
    return float(pdfmetrics.stringWidth(text, "FirstfireSans", height / tokens.CAPITAL))


def box(words: Lettering, unit: float) -> tuple[float, float, float, float]:
    """Left, low, right and top of the letters, mm."""
    long, high = font_width(words.text, words.height) * unit, words.height * unit
    start = {"start": 0.0, "middle": -0.5, "end": -1.0}[words.anchor] * long
    x, y = words.at
    if words.turn:
        return x - high, y + start, x, y + start + long
    return x + start, y, x + start + long, y + high


def all_lines(drawing: Drawing) -> Any:
    """Points along every line, 0.25 mm of paper apart."""
    shapes = [s for p in drawing.parts for s in p.shapes] + list(drawing.legend)
    pairs = list(pieces(s for s in shapes if not isinstance(s, Lettering)))
    for label in drawing.labels:
        for line in label_parts(label, drawing.unit).lines:
            pairs += itertools.pairwise(line)
    found = []
    for start, end in pairs:
        count = max(2, math.ceil(4 * math.dist(start, end) / drawing.unit))
        share = np.linspace(0.0, 1.0, count)[:, None]
        found.append(np.array(start) + share * (np.array(end) - np.array(start)))
    return np.concatenate(found)


def legible(drawing: Drawing) -> None:
    """Letters large enough, no words on words, no line through words, nothing over the frame."""
    unit = drawing.unit
    words = all_words(drawing)
    assert min(w.height for w in words) >= 2.5
    boxes = [box(w, unit) for w in words]
    for (a, one), (b, other) in itertools.combinations(zip(words, boxes, strict=True), 2):
        apart = (one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1]
                 or other[3] <= one[1])  # fmt: skip
        assert apart, (a.text, b.text)
    points = all_lines(drawing)
    for w, (left, low, right, top) in zip(words, boxes, strict=True):
        through = ((points[:, 0] > left) & (points[:, 0] < right)
                   & (points[:, 1] > low) & (points[:, 1] < top))  # fmt: skip
        assert not through.any(), w.text
    frame = box_of(reach([drawing.legend[0]]))
    for w, (left, low, right, top) in zip(words, boxes, strict=True):
        assert left >= frame.left, w.text
        assert right <= frame.right, w.text
        assert low >= frame.bottom, w.text
        assert top <= frame.top, w.text


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize(("name", "part"), SHEETS)
def test_every_sheet_can_be_read(name: str, part: str, paper: str) -> None:
    legible(drawn(name, part, paper))


@pytest.mark.parametrize("kind", LESS_USUAL)
def test_sheets_of_less_usual_parts_can_be_read(kind: str) -> None:
    name, tried = LESS_USUAL[kind]
    for part in PARTS:
        legible(drawn(name, part, **tried))


def test_this_test_sees_words_on_words_and_lines_through_words() -> None:
    good = drawn("wren", "pin")
    on_words = Drawing(**{**good.__dict__, "legend": (*good.legend, Lettering(
        all_words(good)[0].at, "here too"))})  # fmt: skip
    with pytest.raises(AssertionError, match="here too"):
        legible(on_words)
    x, y = good.labels[0].at
    through = Drawing(**{**good.__dict__, "legend": (*good.legend, Lettering(
        (x - 20 * good.unit, y - 5.2 * good.unit), "on a line of the pin"))})  # fmt: skip
    with pytest.raises(AssertionError, match="on a line"):
        legible(through)
