"""A drawing as SVG: complete alone, and styled by custom properties where a page has its own."""

from __future__ import annotations

import math
from collections.abc import Iterator
from html import escape

from firstfire.drawing import tokens
from firstfire.drawing.arrow_words import arrow_words
from firstfire.drawing.label_parts import HEAD, arrowhead, label_parts
from firstfire.drawing.model import (
    Arrow,
    Disc,
    Drawing,
    Fill,
    Label,
    Lettering,
    Loop,
    Part,
    Pen,
    Point,
    Shape,
    Stroke,
)
from firstfire.drawing.outlines import arc_of, at, sides
from firstfire.drawing.svg_style import defs, style
from firstfire.drawing.text import printable


def to_svg(drawing: Drawing, *, prefix: str = "", size: bool = True) -> str:
    """The drawing as one SVG element.

    Its user unit is a millimetre of the engine, y downwards. Every part is a group with its id,
    a title and a description; parts carry `data-part` and, where something is said of them,
    `data-word`. Colours are custom properties (``--ff-paper``, ``--ff-ink`` ...) with the day's
    colours behind them; `.ff-night` around the drawing gives the night's.

    Parameters
    ----------
    drawing
        What `section` or `along_crank` gave.
    prefix
        Before every id: for a page with more than one drawing.
    size
        Whether width and height are written, in millimetres of paper.
    """
    return "".join(_Writer(drawing, prefix).lines(size))


def number(value: float) -> str:
    """A coordinate to a thousandth of a millimetre.

    Examples
    --------
    >>> number(12.0), number(0.12345), number(-0.0001)
    ('12', '0.123', '0')
    """
    # adding nothing turns minus nothing into nothing
    return f"{round(value, 3) + 0.0:.7g}"


_WIDE = 0.75 * math.pi


class _Writer:
    """Holds what every piece needs: where the sheet's corner is, and the prefix of ids."""

    def __init__(self, drawing: Drawing, prefix: str) -> None:
        self.drawing, self.prefix = drawing, prefix
        self.left, self.top, self.unit = drawing.box.left, drawing.box.top, drawing.unit

    def lines(self, size: bool) -> Iterator[str]:
        d, p = self.drawing, escape(self.prefix)
        wide, high = number(d.box.width), number(d.box.height)
        paper = (
            f' width="{number(d.box.width / d.unit)}mm" height="{number(d.box.height / d.unit)}mm"'
        )
        yield (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="ff-drawing ff-of-{p}"'
            f"{paper if size else ''} "
            f'viewBox="0 0 {wide} {high}" role="img" '
            f'aria-labelledby="{p}title" aria-describedby="{p}desc">\n'
            f'<title id="{p}title">{_words(d.name)}: {_words(d.title)}</title>\n'
            f'<desc id="{p}desc">{_words(d.description)}</desc>\n'
            f"<style>{style(self.unit, self.prefix)}</style>\n{defs(self.unit, self.prefix)}\n"
            f'<rect class="ff-sheet" width="{wide}" height="{high}"/>\n'
        )
        for part in d.parts:
            yield self.part(part)
        yield '<g class="ff-axes">'
        for axis in d.centrelines:
            yield self.shape(Stroke(((*axis.start, 0.0), (*axis.end, 0.0)), "centre"))
        yield '</g>\n<g class="ff-dimensions">\n'
        for label in d.labels:
            yield self.label(label)
        yield '</g>\n<g class="ff-forces">\n'
        for arrow, words in arrow_words(d.arrows, d.unit):
            yield self.arrow(arrow, words)
        yield '</g>\n<g class="ff-legend">\n'
        for shape in d.legend:
            yield self.shape(shape)
        yield "</g>\n</svg>\n"

    def part(self, part: Part) -> str:
        """A group that can be pointed at, named for who can't see it."""
        word = f' data-word="{part.word}"' if part.word else ""
        named = f"{part.title}: {part.word}" if part.word else part.title
        first = " ff-first" if part.id == self.drawing.first else ""
        inner = "".join(self.shape(s, part.word, part.line_word) for s in part.shapes)
        return (
            f'<g id="{escape(self.prefix)}{part.id}" class="ff-part{first}" data-part="{part.id}"'
            f' data-layer="{part.layer}"{word}><title>{_words(named)}</title>'
            f"<desc>{_words(part.layer)}</desc>{inner}</g>\n"
        )

    def shape(self, shape: Shape, word: str = "", line: str = "") -> str:
        """One element."""
        if isinstance(shape, Lettering):
            return self.words(shape)
        if isinstance(shape, Stroke):
            path = self.path(shape.vertices, closed=False)
            said = _said(line) if shape.pen in ("outline", "heavy") else ""
            return f'<path class="ff-{shape.pen}{said}" d="{path}"/>'
        look = self.look(shape.fill, shape.pen, word, line)
        if isinstance(shape, Disc):
            x, y = self.place(shape.centre)
            return f'<circle{look} cx="{x}" cy="{y}" r="{number(shape.radius)}"/>'
        path = "".join(self.path(loop, closed=True) for loop in shape.loops)
        return f'<path{look} fill-rule="evenodd" d="{path}"/>'

    def look(self, fill: Fill, pen: Pen | None, word: str, line: str) -> str:
        """Classes of an area; what is said of a part takes the place of its hatch."""
        if word and fill not in ("none", "fresh", "exhaust", "burned"):
            fill = word  # type: ignore[assignment]
        edge = f"ff-{pen}" if pen else "ff-no-edge"
        if fill == "none" and pen:
            # nothing to hatch: what is said shows in the line
            edge += _said(line)
        return f' class="{edge} ff-{fill.replace(" ", "-")}"'

    def path(self, loop: Loop, *, closed: bool) -> str:
        """Straight pieces and arcs."""
        x, y = self.place((loop[0][0], loop[0][1]))
        steps = [f"M{x} {y}"]
        for (x0, y0, b), (x1, y1, _) in sides(loop, closed):
            x, y = self.place((x1, y1))
            if b and math.dist((x0, y0), (x1, y1)) > 1e-9:
                centre, radius, first, turn = arc_of((x0, y0), (x1, y1), b)
                r, sweep = number(radius), int(turn < 0)
                # Where a rounded half circle's centre lies hangs on its last digit: a wide arc is
                # written as two.
                if abs(turn) > _WIDE:
                    over, down = self.place(at(centre, radius, first + turn / 2))
                    steps.append(f"A{r} {r} 0 0 {sweep} {over} {down}")
                steps.append(f"A{r} {r} 0 0 {sweep} {x} {y}")
            else:
                steps.append(f"L{x} {y}")
        return "".join(steps) + ("Z" if closed else "")

    def place(self, point: Point) -> tuple[str, str]:
        """On the sheet, y downwards."""
        return number(point[0] - self.left), number(self.top - point[1])

    def words(self, words: Lettering, extra: str = "") -> str:
        """Lettering; its height is in mm of paper, as high as capital letters."""
        x, y = self.place(words.at)
        size = number(words.height / tokens.CAPITAL * self.unit)
        turned = f' transform="rotate({-math.degrees(words.turn):g} {x} {y})"' if words.turn else ""
        return (
            f'<text class="ff-words{extra}" x="{x}" y="{y}" font-size="{size}" '
            f'text-anchor="{words.anchor}"{turned}>{_words(words.text)}</text>'
        )

    def label(self, label: Label) -> str:
        """A dimension: its line with arrows, its extension lines, its words and their leader."""
        d, made = label.dimension, label_parts(label, self.unit)
        pieces = [self.shape(Stroke(tuple((x, y, 0.0) for x, y in line), "dimension"))
                  for line in made.lines]  # fmt: skip
        pieces += [self.head(start, end, "dimension") for start, end in made.heads]
        if made.dot is not None:
            x, y = self.place(made.dot)
            pieces.append(
                f'<circle class="ff-dot" cx="{x}" cy="{y}" r="{number(0.5 * self.unit)}"/>'
            )
        extra = "" if d.to_scale else " ff-not-to-scale"
        words = self.words(made.words, extra)
        return (
            f'<g class="ff-measure" data-path="{escape(d.path)}" data-value="{d.value:.9g}">'
            f"{''.join(pieces)}{words}</g>\n"
        )

    def head(self, start: Point, end: Point, kind: str) -> str:
        """An arrow's head at the end of a line."""
        apart = math.dist(start, end)
        if apart < 1e-9:
            return ""
        long = min(HEAD * self.unit, 0.45 * apart) if kind == "dimension" else 3.5 * self.unit
        corners = arrowhead(start, end, long, 6.0 if kind == "dimension" else 4.0)
        path = self.path(tuple((x, y, 0.0) for x, y in corners), closed=True)
        return f'<path class="ff-arrowhead" d="{path}"/>'

    def arrow(self, arrow: Arrow, words: Lettering) -> str:
        """A force."""
        shaft = self.shape(Stroke(((*arrow.start, 0.0), (*arrow.end, 0.0)), "heavy"))
        head = self.head(arrow.start, arrow.end, "force")
        return (
            f'<g class="ff-force" data-force="{arrow.name}" data-cylinder="{arrow.cylinder}" '
            f'data-newtons="{arrow.force:.6g}">{shaft}{head}{self.shape(words)}</g>\n'
        )


def _said(word: str) -> str:
    return f" ff-line-{word.replace(' ', '-')}" if word else ""


def _words(text: str) -> str:
    return escape(printable(text), quote=False)
