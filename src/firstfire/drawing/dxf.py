"""A drawing as DXF: millimetres, layers in words, real hatches and dimensions."""

from __future__ import annotations

import io
import math
from typing import Any

from firstfire.drawing import tokens
from firstfire.drawing.arrow_words import arrow_words
from firstfire.drawing.making import LAYERS
from firstfire.drawing.model import (
    Disc,
    Drawing,
    Label,
    Lettering,
    Loop,
    Pen,
    Point,
    Region,
    Shape,
    Stroke,
)
from firstfire.drawing.text import printable

_DASHED: dict[Pen, str] = {"hidden": "DASHED", "centre": "CENTER", "phantom": "PHANTOM"}
_PATTERNS: dict[str, tuple[str, float, float]] = {
    # fill: pattern of the usual set, turned by degrees, times a spacing of its own
    "metal": ("ANSI31", 0.0, 0.55),
    "metal left": ("ANSI31", 90.0, 0.55),
    "plastic": ("ANSI33", 0.0, 0.5),
    "plastic left": ("ANSI33", 90.0, 0.5),
    "rubber": ("ANSI37", 0.0, 0.22),
    "marginal": ("ANSI31", 0.0, 1.1),
    "fails": ("ANSI37", 0.0, 0.45),
    "not judged": ("DOTS", 0.0, 1.2),
}


def to_dxf(drawing: Drawing) -> str:
    """The drawing as the text of a DXF file of release 2010, one unit a millimetre.

    Parameters
    ----------
    drawing
        What `section` or `along_crank` gave.
    """
    import ezdxf
    from ezdxf import units

    document = ezdxf.new("R2010", setup=True)
    document.units = units.MM
    document.header["$LTSCALE"] = 0.25 * drawing.unit
    document.header["$INSUNITS"] = units.MM
    for layer in (*LAYERS, "centre lines", "dimensions", "forces", "legend"):
        document.layers.add(layer)
    space = document.modelspace()
    for part in drawing.parts:
        for shape in part.shapes:
            _shape(space, shape, part.layer, drawing.unit, part.word)
    for axis in drawing.centrelines:
        _line(space, (axis.start, axis.end), "centre", "centre lines")
    for label in drawing.labels:
        _label(space, label, drawing.unit)
    for arrow, words in arrow_words(drawing.arrows, drawing.unit):
        _line(space, (arrow.start, arrow.end), "heavy", "forces")
        _words(space, words, "forces", drawing.unit)
    for shape in drawing.legend:
        _shape(space, shape, "legend", drawing.unit, "")
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue()


def _look(pen: Pen | None, layer: str) -> dict[str, Any]:
    look: dict[str, Any] = {"layer": layer}
    if pen:
        look["lineweight"] = round(100 * tokens.WIDTHS[pen])
        look["linetype"] = _DASHED.get(pen, "CONTINUOUS")
    return look


def _shape(space: Any, shape: Shape, layer: str, unit: float, word: str) -> None:
    if isinstance(shape, Lettering):
        _words(space, shape, layer, unit)
    elif isinstance(shape, Stroke):
        _polyline(space, shape.vertices, shape.pen, layer, closed=False)
    else:
        _area(space, shape, layer, unit, word)


def _area(space: Any, shape: Region | Disc, layer: str, unit: float, word: str) -> None:
    fill = word if word and shape.fill not in ("none", "fresh", "burned", "exhaust") else shape.fill
    hatch = None
    if fill == "solid":
        hatch = space.add_hatch(color=7, dxfattribs={"layer": layer})
    elif fill in _PATTERNS:
        name, turn, scale = _PATTERNS[fill]
        hatch = space.add_hatch(dxfattribs={"layer": layer, "lineweight": 18})
        hatch.set_pattern_fill(name, scale=scale * unit, angle=turn)
    if isinstance(shape, Disc):
        if hatch is not None:
            edge = hatch.paths.add_edge_path()
            edge.add_arc(shape.centre, shape.radius, 0, 360)
        if shape.pen:
            space.add_circle(shape.centre, shape.radius, dxfattribs=_look(shape.pen, layer))
        return
    for number, loop in enumerate(shape.loops):
        if hatch is not None:
            hatch.paths.add_polyline_path(loop, is_closed=True, flags=1 if number == 0 else 16)
        if shape.pen:
            _polyline(space, loop, shape.pen, layer, closed=True)


def _polyline(space: Any, loop: Loop, pen: Pen, layer: str, *, closed: bool) -> None:
    space.add_lwpolyline(loop, format="xyb", close=closed, dxfattribs=_look(pen, layer))


def _line(space: Any, ends: tuple[Point, Point], pen: Pen, layer: str) -> None:
    if math.dist(*ends) > 1e-9:
        space.add_line(*ends, dxfattribs=_look(pen, layer))


def _words(space: Any, words: Lettering, layer: str, unit: float) -> None:
    from ezdxf.enums import TextEntityAlignment as Align

    places = {"start": Align.LEFT, "middle": Align.CENTER, "end": Align.RIGHT}
    text = space.add_text(
        _plain(words.text), height=words.height * unit, dxfattribs={"layer": layer}
    )
    text.set_placement(words.at, align=places[words.anchor])


def _plain(text: str) -> str:
    """Words as DXF takes them: on one line, and a caret or a percent sign that means nothing."""
    return printable(text).replace("^", "^ ").replace("%%", "% %")


def _label(space: Any, label: Label, unit: float) -> None:
    """A dimension that measures itself where it has a line, else a leader to its words."""
    d = label.dimension
    start, end = d.line
    if math.dist(start, end) > 1e-6:
        override = {
            "dimtxt": tokens.LETTERING * unit, "dimasz": 2.5 * unit, "dimexo": 0.0,
            "dimexe": 0.0, "dimtad": 0, "dimscale": 1.0, "dimlfac": 1.0,
        }  # fmt: skip
        side = _offset(d.first, d.second, start)
        measured = space.add_aligned_dim(
            p1=d.first, p2=d.second, distance=side, text=" ", dimstyle="EZDXF",
            override=override, dxfattribs={"layer": "dimensions"},
        )  # fmt: skip
        measured.render()
    else:
        space.add_circle(start, 0.4 * unit, dxfattribs=_look("dimension", "dimensions"))
    leader = tuple((x, y, 0.0) for x, y in label.leader)
    _polyline(space, leader, "dimension", "dimensions", closed=False)
    below = label.at[0], label.at[1] - 0.5 * tokens.LETTERING * unit
    words = f"{d.label} {d.text}" if d.to_scale else f"%%u{d.label} {d.text}"
    text = Lettering(below, words, tokens.LETTERING, label.anchor)
    _words(space, text, "dimensions", unit)


def _offset(first: Point, second: Point, on_line: Point) -> float:
    """How far the dimension's line lies to the left of the way from first to second."""
    ux, uy = second[0] - first[0], second[1] - first[1]
    return (ux * (on_line[1] - first[1]) - uy * (on_line[0] - first[0])) / math.hypot(ux, uy)
