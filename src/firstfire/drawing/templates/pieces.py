"""A thing to print and measure as a template: its outline, holes and sizes at true size."""

from __future__ import annotations

from firstfire.drawing.model import Lettering, Shape
from firstfire.drawing.outlines import polygon
from firstfire.drawing.templates.template import SMALL, Template, cross, hole, outline, part
from firstfire.engine.pieces import Block, Piece

_MM = 1e3
_BELOW = 4.0
_CENTRE = 1.5


def piece_template(engine: str, piece: Piece) -> Template:
    """The piece seen from above.

    Parameters
    ----------
    engine
        Its name.
    piece
        What is printed.
    """
    cut: list[Shape] = []
    marks: list[Shape] = []
    words: list[Shape] = []
    for block in piece.blocks:
        cut.append(outline(polygon(*((_MM * x, _MM * y) for x, y in block.outline))))
        for one in block.holes:
            x, y = _MM * one.at[0], _MM * one.at[1]
            cut.append(hole(x, y, 500 * one.diameter))
            marks += cross(x, y, _CENTRE)
            if one.text:
                words.append(
                    Lettering((x, y - 500 * one.diameter - _BELOW), one.text, SMALL, "middle")
                )
        words += _said(block)
    return Template(
        slug=piece.slug, engine=engine, title=piece.title,
        parts=(
            part("edges", "edges", "cut", *cut),
            part("centres", "centres", "marks", *marks),
            part("words", "sizes", "words", *words),
        ),
        notes=piece.notes,
    )  # fmt: skip


def _said(block: Block) -> list[Shape]:
    """Its words below it."""
    if not block.text:
        return []
    xs, ys = zip(*block.outline, strict=True)
    middle = _MM * (min(xs) + max(xs)) / 2
    return [Lettering((middle, _MM * min(ys) - _BELOW), block.text, SMALL, "middle")]
