"""A drawing as a page of PDF, to scale."""

from __future__ import annotations

import io
import math
import unicodedata
from functools import cache
from typing import Any, Literal

from firstfire.drawing import tokens
from firstfire.drawing.arrow_words import arrow_words
from firstfire.drawing.label_parts import HEAD, arrowhead, label_parts
from firstfire.drawing.legend import scale_line
from firstfire.drawing.model import (
    Arrow,
    Disc,
    Drawing,
    Fill,
    Label,
    Lettering,
    Pen,
    Point,
    Region,
    Shape,
    Stroke,
)
from firstfire.drawing.outlines import flattened
from firstfire.drawing.text import printable

Paper = Literal["A4", "Letter"]

MM = 72 / 25.4
"""Points of a page to the millimetre."""
PAPERS: dict[Paper, tuple[float, float]] = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""Width and height of a sheet upright, mm (ISO 216; ANSI/ASME Y14.1)."""
_MARGIN = 4.0
_STEPS = (0.5, 1.0, 2.0, 2.5, 5.0, 10.0, 20.0, 50.0)
_EVEN_ODD = 0  # how the PDF library names the rule that every second outline is a hole
_FONT = "FirstfireSans"
# fill: spacing in mm of paper, directions in degrees, and whether every second line is dashed
_HATCHES: dict[str, tuple[float, tuple[float, ...], bool]] = {
    "metal": (1.8, (45.0,), False),
    "metal left": (1.8, (-45.0,), False),
    "plastic": (1.8, (45.0,), True),
    "plastic left": (1.8, (-45.0,), True),
    "rubber": (0.7, (45.0, -45.0), False),
    "marginal": (3.6, (45.0,), False),
    "fails": (1.5, (45.0, -45.0), False),
}


def to_pdf(drawing: Drawing, *, paper: Paper = "A4") -> bytes:
    """The drawing on one page, upright or on its side, at the scale it was made for.

    Where the page can't hold that scale it takes the next one of ISO 5455, and says so. Letters
    that the embedded font lacks become a question mark; the document's title keeps them.

    Parameters
    ----------
    drawing
        What `section` or `along_crank` gave.
    paper
        ``A4`` or ``Letter``.
    """
    from reportlab.pdfgen.canvas import Canvas

    font()
    unit, (wide, high) = _page(drawing, paper)
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=(wide * MM, high * MM), invariant=1)
    canvas.setTitle(f"{printable(drawing.name)}: {drawing.title}")
    canvas.setSubject(drawing.description)
    canvas.setCreator("firstfire")
    Page(canvas, drawing, unit, wide, high).draw()
    canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _page(drawing: Drawing, paper: Paper) -> tuple[float, tuple[float, float]]:
    """Scale and page: the drawing's own scale if either way of the page holds it."""
    short, long = PAPERS[paper]
    for unit in (drawing.unit, *(s for s in _STEPS if s > drawing.unit)):
        wide, high = (size / unit + 2 * _MARGIN for size in (drawing.box.width, drawing.box.height))
        if wide <= short and high <= long:
            return unit, (short, long)
        if wide <= long and high <= short:
            return unit, (long, short)
    return unit, (short, long)


@cache
def font() -> None:
    """Register the font that comes with the PDF library, to be embedded."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    pdfmetrics.registerFont(TTFont(_FONT, "Vera.ttf"))


@cache
def _known() -> frozenset[int]:
    from reportlab.pdfbase import pdfmetrics

    font()
    found: Any = pdfmetrics.getFont(_FONT)
    return frozenset(found.face.charToGlyph)


def _letters(text: str) -> str:
    """Words in letters the font has."""
    found = []
    for letter in printable(text).replace("\u202f", "\u00a0"):
        plain = unicodedata.normalize("NFKD", letter)[0]
        known = letter if ord(letter) in _known() else plain
        found.append(known if ord(known) in _known() else "?")
    return "".join(found)


class Page:
    """Draws on one page; keeps where the drawing's corner lies on it."""

    def __init__(
        self, canvas: Any, drawing: Drawing, unit: float, wide: float, high: float
    ) -> None:
        self.canvas, self.drawing, self.unit = canvas, drawing, unit
        box = drawing.box
        self.left = (wide - box.width / unit) / 2 - box.left / unit
        self.low = (high - box.height / unit) / 2 - box.bottom / unit
        # widths and letters keep their size on the drawing's own paper
        self.share = drawing.unit / unit
        self.first = False  # whether the part in hand gives way first

    def draw(self) -> None:
        """Everything, from the back to the front."""
        d = self.drawing
        for part in d.parts:
            self.first = part.id == d.first
            for shape in part.shapes:
                self.shape(shape, part.word, part.line_word)
        self.first = False
        for axis in d.centrelines:
            self.stroke((axis.start, axis.end), "centre")
        for label in d.labels:
            self.label(label)
        for arrow, words in arrow_words(d.arrows, d.unit):
            self.arrow(arrow)
            self.words(words, "force")
        own, here = scale_line(d.unit), scale_line(self.unit)
        for shape in d.legend:
            if isinstance(shape, Lettering) and shape.text == own:
                shape = Lettering(shape.at, here, shape.height, shape.anchor)  # noqa: PLW2901
            self.shape(shape, "", "")

    def place(self, point: Point) -> Point:
        """On the page, in points."""
        return (
            (self.left + point[0] / self.unit) * MM,
            (self.low + point[1] / self.unit) * MM,
        )

    def shape(self, shape: Shape, word: str, line: str) -> None:
        """One shape with its fill and edge."""
        if isinstance(shape, Lettering):
            self.words(shape)
        elif isinstance(shape, Stroke):
            said = line if shape.pen in ("outline", "heavy") else ""
            self.stroke(tuple(flattened(shape.vertices, closed=False)), shape.pen, said)
        else:
            gas = shape.fill in ("none", "fresh", "burned", "exhaust")
            fill: Fill = shape.fill if not word or gas else word  # type: ignore[assignment]
            self.area(shape, fill, line if fill == "none" else "")

    def area(self, shape: Region | Disc, fill: Fill, said: str) -> None:
        """Paper or a tint, then the hatch within it, then its edge."""
        loops = _loops(shape)
        path = self.path(loops, closed=True)
        if fill != "none":
            colour = {"solid": "ink"}.get(fill, fill)
            tint = tokens.DAY.get(colour, "#ffffff") if fill not in _HATCHES else "#ffffff"
            tint = "#ffffff" if fill in ("holds", "paper", "not judged") else tint
            self.canvas.setFillColor(tint)
            self.canvas.drawPath(path, stroke=0, fill=1, fillMode=_EVEN_ODD)
        if fill in _HATCHES or fill == "not judged":
            self.canvas.saveState()
            self.canvas.clipPath(path, stroke=0, fill=0, fillMode=_EVEN_ODD)
            self.hatch(fill, [point for loop in loops for point in loop])
            self.canvas.restoreState()
        if shape.pen or self.first:
            self.pen(shape.pen or "outline", said)
            self.canvas.drawPath(path, stroke=1, fill=0)

    def hatch(self, fill: Fill, points: list[Point]) -> None:
        """Lines over the whole of an area's surroundings; it is clipped already."""
        places = [self.place(point) for point in points]
        (x0, x1), (y0, y1) = ((min(v), max(v)) for v in zip(*places, strict=True))
        if fill == "not judged":
            self.dots(x0, y0, x1, y1)
            return
        spacing, directions, dashed = _HATCHES[fill]
        step = spacing * MM * self.share
        colour = fill if fill in tokens.WORDS else "ink"
        self.canvas.setStrokeColor(tokens.DAY[colour])
        self.canvas.setLineWidth((0.3 if fill in tokens.WORDS else 0.18) * MM * self.share)
        reach = math.hypot(x1 - x0, y1 - y0) / 2 + step
        for turn in directions:
            ux, uy = math.sin(math.radians(turn)), math.cos(math.radians(turn))
            # lines lie on one lattice of the page, so that one part's areas match
            middle = ((x0 + x1) / 2) * uy - ((y0 + y1) / 2) * ux
            along = ((x0 + x1) / 2) * ux + ((y0 + y1) / 2) * uy
            for n in range(math.floor((middle - reach) / step), math.ceil((middle + reach) / step)):
                dash = dashed and n % 2
                self.canvas.setDash([step, step] if dash else [], 0)
                cx, cy = n * step * uy, -n * step * ux
                start, end = along - reach, along + reach
                if dash:
                    start = math.floor(start / (2 * step)) * 2 * step
                self.canvas.line(cx + start * ux, cy + start * uy, cx + end * ux, cy + end * uy)

    def dots(self, x0: float, y0: float, x1: float, y1: float) -> None:
        """A lattice of dots."""
        step = 1.3 * MM * self.share
        self.canvas.setFillColor(tokens.DAY["pencil"])
        for i in range(math.floor(x0 / step), math.ceil(x1 / step) + 1):
            for j in range(math.floor(y0 / step), math.ceil(y1 / step) + 1):
                if (i + j) % 2 == 0:
                    radius = 0.22 * MM * self.share
                    self.canvas.circle(i * step, j * step, radius, stroke=0, fill=1)

    def pen(self, pen: Pen, said: str = "") -> None:
        """Width, dashes and colour of a line, by what is said of its part where it says so."""
        if said:
            width, dashes = tokens.SAID[said]
            self.canvas.setLineWidth((tokens.FIRST if self.first else width) * MM * self.share)
            self.canvas.setDash([d * MM * self.share for d in dashes], 0)
            self.canvas.setStrokeColor(tokens.DAY[tokens.SAID_COLOURS[said]])
            return
        width = tokens.FIRST if self.first else tokens.WIDTHS[pen]
        self.canvas.setLineWidth(width * MM * self.share)
        self.canvas.setDash([d * MM * self.share for d in tokens.DASHES.get(pen, ())], 0)
        self.canvas.setStrokeColor(tokens.DAY[tokens.COLOURS[pen]])
        self.canvas.setLineJoin(1)

    def path(self, loops: list[list[Point]], *, closed: bool) -> Any:
        """Straight pieces, an arc in pieces of a few degrees."""
        path = self.canvas.beginPath()
        for loop in loops:
            path.moveTo(*self.place(loop[0]))
            for point in loop[1:]:
                path.lineTo(*self.place(point))
            if closed:
                path.close()
        return path

    def stroke(self, points: tuple[Point, ...], pen: Pen, said: str = "") -> None:
        """An open line."""
        self.pen(pen, said)
        self.canvas.drawPath(self.path([list(points)], closed=False), stroke=1, fill=0)

    def words(self, words: Lettering, colour: str = "ink") -> float:
        """Lettering; gives its width on the page."""
        text = _letters(words.text)
        size = words.height / tokens.CAPITAL * MM * self.share
        self.canvas.setFillColor(tokens.DAY[colour])
        self.canvas.setFont(_FONT, size)
        x, y = self.place(words.at)
        draw = {"start": "drawString", "middle": "drawCentredString", "end": "drawRightString"}
        self.canvas.saveState()
        self.canvas.translate(x, y)
        self.canvas.rotate(math.degrees(words.turn))
        getattr(self.canvas, draw[words.anchor])(0, 0, text)
        self.canvas.restoreState()
        return float(self.canvas.stringWidth(text, _FONT, size))

    def label(self, label: Label) -> None:
        """A dimension with its words."""
        d, made = label.dimension, label_parts(label, self.drawing.unit)
        for line in made.lines:
            self.stroke(line, "dimension")
        for start, end in made.heads:
            self.head(start, end, HEAD, 6.0, "ink")
        if made.dot is not None:
            self.canvas.setFillColor(tokens.DAY["ink"])
            self.canvas.circle(*self.place(made.dot), 0.5 * MM * self.share, stroke=0, fill=1)
        wide = self.words(made.words)
        if not d.to_scale:
            x, y = self.place(made.words.at)
            left = x - (wide if label.anchor == "end" else 0.0)
            self.pen("thin")
            self.canvas.line(left, y - 0.7 * MM, left + wide, y - 0.7 * MM)

    def head(self, start: Point, end: Point, long: float, slim: float, colour: str) -> None:
        """An arrow's head."""
        apart = math.dist(start, end)
        if apart < 1e-9:
            return
        length = min(long * self.drawing.unit, 0.45 * apart)
        corners = list(arrowhead(start, end, length, slim))
        self.canvas.setFillColor(tokens.DAY[colour])
        self.canvas.drawPath(self.path([corners], closed=True), stroke=0, fill=1)

    def arrow(self, arrow: Arrow) -> None:
        """A force."""
        self.pen("heavy")
        self.canvas.setStrokeColor(tokens.DAY["force"])
        path = self.path([[arrow.start, arrow.end]], closed=False)
        self.canvas.drawPath(path, stroke=1, fill=0)
        self.head(arrow.start, arrow.end, 3.5, 4.0, "force")


def _loops(shape: Region | Disc) -> list[list[Point]]:
    if isinstance(shape, Region):
        return [flattened(loop, step=math.radians(4)) for loop in shape.loops]
    (x, y), r = shape.centre, shape.radius
    return [flattened(((x - r, y, 1.0), (x + r, y, 1.0)), step=math.radians(4))]
