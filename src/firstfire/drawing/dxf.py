"""A drawing as DXF: millimetres, layers in words, real hatches and dimensions."""

from __future__ import annotations

import io
import math
from typing import Any

from firstfire.drawing import tokens
from firstfire.drawing.arrow_words import arrow_words
from firstfire.drawing.label_parts import HEAD, arrowhead, label_parts
from firstfire.drawing.making import LAYERS
from firstfire.drawing.model import (
    Dimension,
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
from firstfire.drawing.outlines import flattened
from firstfire.drawing.text import printable, width_of

_DASHED: dict[Pen, str] = {pen: f"firstfire {pen}" for pen in tokens.DASHES}
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
    _linetypes(document, drawing.unit)
    document.set_wipeout_variables(frame=0)
    document.units = units.MM
    document.header["$INSUNITS"] = units.MM
    own = dict.fromkeys(part.layer for part in drawing.parts if part.layer not in LAYERS)
    for layer in (*LAYERS, *own, "centre lines", "dimensions", "forces", "legend"):
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


def _linetypes(document: Any, unit: float) -> None:
    """Dashes in millimetres of the drawing: on positive, off negative, their sum first."""
    for pen, dashes in tokens.DASHES.items():
        steps = [(d if n % 2 == 0 else -d) * unit for n, d in enumerate(dashes)]
        pattern = [sum(map(abs, steps)), *steps]
        document.linetypes.add(_DASHED[pen], pattern, description=f"{pen} line, ISO 128-2")


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
    if fill != "none" and (shape.pen or fill == "paper"):
        _mask(space, shape, layer)
    if fill == "solid":
        hatch = space.add_hatch(color=7, dxfattribs={"layer": layer})
    elif fill in ("fresh", "burned", "exhaust"):
        hatch = space.add_hatch(dxfattribs={"layer": layer})
        hatch.rgb = tuple(int(tokens.DAY[fill][k : k + 2], 16) for k in (1, 3, 5))
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


def _mask(space: Any, shape: Region | Disc, layer: str) -> None:
    """Hides what lies behind, as the paper of the part in front does."""
    if isinstance(shape, Disc):
        (x, y), r = shape.centre, shape.radius
        rings = [flattened(((x - r, y, 1.0), (x + r, y, 1.0)))]
    else:
        rings = _keyholed([flattened(loop) for loop in shape.loops])
    for ring in rings:
        space.add_wipeout(ring, dxfattribs={"layer": layer})


def _keyholed(rings: list[list[Point]]) -> list[list[Point]]:
    """Rings in which each hole hangs on its outline by a slit; rings beside each other stay."""
    found: list[list[Point]] = []
    for ring in rings:
        outer = next((o for o in found if _within(ring[0], o)), None)
        if outer is None:
            found.append(list(ring))
            continue
        hole = ring if (_area_of(ring) > 0) != (_area_of(outer) > 0) else ring[::-1]
        near = min(range(len(outer)), key=lambda n: math.dist(outer[n], hole[0]))
        outer[near + 1 : near + 1] = [*hole, hole[0], outer[near]]
    return found


def _within(point: Point, ring: list[Point]) -> bool:
    """Whether a point lies inside a ring, or on its edge's left or lower side."""
    inside = False
    x, y = point
    for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            inside = not inside
    return inside


def _area_of(ring: list[Point]) -> float:
    """Twice the area, positive anticlockwise."""
    pairs = zip(ring, ring[1:] + ring[:1], strict=True)
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)


def _polyline(space: Any, loop: Loop, pen: Pen, layer: str, *, closed: bool) -> None:
    space.add_lwpolyline(loop, format="xyb", close=closed, dxfattribs=_look(pen, layer))


def _line(space: Any, ends: tuple[Point, Point], pen: Pen, layer: str) -> None:
    if math.dist(*ends) > 1e-9:
        space.add_line(*ends, dxfattribs=_look(pen, layer))


def _words(space: Any, words: Lettering, layer: str, unit: float) -> None:
    from ezdxf.enums import TextEntityAlignment as Align

    places = {"start": Align.LEFT, "middle": Align.CENTER, "end": Align.RIGHT}
    text = space.add_text(
        _plain(words.text), height=words.height * unit,
        dxfattribs={"layer": layer, "rotation": math.degrees(words.turn)},
    )  # fmt: skip
    text.set_placement(words.at, align=places[words.anchor])


def _plain(text: str) -> str:
    """Words as DXF takes them: on one line, and a caret or a percent sign that means nothing."""
    # not every drawing font has the minus sign of typography
    return printable(text).replace("^", "^ ").replace("%%", "% %").replace("−", "-")


def _label(space: Any, label: Label, unit: float) -> None:
    """A dimension that measures itself where it has a line, else a leader to its words."""
    d = label.dimension
    if label.leader:
        leader = tuple((x, y, 0.0) for x, y in label.leader)
        _polyline(space, leader, "dimension", "dimensions", closed=False)
    if math.dist(*d.line) > 1e-6:
        _measured(space, label, unit)
        return
    made = label_parts(label, unit)
    if made.dot is not None:
        space.add_circle(made.dot, 0.4 * unit, dxfattribs=_look("dimension", "dimensions"))
    for start, tip in made.heads:
        corners = arrowhead(start, tip, HEAD * unit, 6.0)
        space.add_solid([*corners, corners[-1]], dxfattribs={"layer": "dimensions"})
    below = made.words.at
    if not d.to_scale:
        long = width_of(label.words) * tokens.LETTERING * unit
        long = long if label.anchor == "start" else -long
        foot = below[0], below[1] - 0.7 * unit
        _line(space, (foot, (foot[0] + long, foot[1])), "thin", "dimensions")
    _words(space, made.words, "dimensions", unit)


def _measured(space: Any, label: Label, unit: float) -> None:
    """A real dimension whose words stand where the label has them."""
    d, words = label.dimension, label.words
    override = {
        "dimtxt": tokens.LETTERING * unit, "dimasz": HEAD * unit, "dimexo": 0.0,
        "dimexe": label.overshoot * unit, "dimtad": 0, "dimscale": 1.0, "dimlfac": 1.0,
        "dimblk": "",
    }  # fmt: skip
    half = 0.5 * width_of(words) * tokens.LETTERING * unit
    half *= {"start": 1.0, "middle": 0.0, "end": -1.0}[label.anchor]
    middle = (
        label.at[0] + half * math.cos(label.turn), label.at[1] + half * math.sin(label.turn)
    )  # fmt: skip
    measured = _dimension(space, d, _plain(words), override)
    measured.set_location(middle)
    measured.set_text_align(halign=None, valign="center")
    measured.dimension.dxf.text_rotation = math.degrees(label.turn)
    measured.render()


def _dimension(space: Any, d: Dimension, words: str, override: dict[str, Any]) -> Any:
    """Along its two points, or in the direction of its line where that is another one."""
    (x0, y0), (x1, y1) = d.line
    look = {"layer": "dimensions"}
    told: dict[str, Any] = {
        "p1": d.first, "p2": d.second, "text": words, "dimstyle": "EZDXF", "override": override,
        "dxfattribs": look,
    }  # fmt: skip
    ux, uy = d.second[0] - d.first[0], d.second[1] - d.first[1]
    if abs(ux * (y1 - y0) - uy * (x1 - x0)) < 1e-6 * math.dist(*d.line):
        return space.add_aligned_dim(distance=_offset(d.first, d.second, d.line[0]), **told)
    angle = math.degrees(math.atan2(y1 - y0, x1 - x0))
    return space.add_linear_dim(base=d.line[0], angle=angle, **told)


def _offset(first: Point, second: Point, on_line: Point) -> float:
    """How far the dimension's line lies to the left of the way from first to second."""
    ux, uy = second[0] - first[0], second[1] - first[1]
    return (ux * (on_line[1] - first[1]) - uy * (on_line[0] - first[0])) / math.hypot(ux, uy)
