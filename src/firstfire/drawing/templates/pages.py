"""A template on paper: one page, or as many tiles as it takes, a ruler on each."""

from __future__ import annotations

import io
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from firstfire.drawing.frame import Frame
from firstfire.drawing.model import Box, Drawing, Lettering, Shape
from firstfire.drawing.pdf import MM, PAPERS, Page, Paper, font
from firstfire.drawing.templates.inked import crosses, inks
from firstfire.drawing.templates.ruler import HIGH, ruler
from firstfire.drawing.templates.template import SMALL, Template, tick
from firstfire.drawing.text import printable, wrapped

_EDGE = 7.0
_HEAD = 11.0
_LINE = 3.4


@dataclass(frozen=True)
class Sheet:
    """How a template lies on pages.

    Attributes
    ----------
    wide, high
        Of a page, mm.
    window
        Room for the template on each, mm: left, bottom, right, top.
    across, down
        How many pages it would take, were none of them empty.
    tiles
        Column and row of each page on which there is something, from 0, row by row.
    """

    wide: float
    high: float
    window: Box
    across: int
    down: int
    tiles: tuple[tuple[int, int], ...] = ()

    @property
    def pages(self) -> int:
        """How many in all."""
        return len(self.tiles)


def laid_out(template: Template, paper: Paper) -> Sheet:
    """The way that takes the fewest pages, upright or on its side."""
    short, long = PAPERS[paper]
    return min((_sheet(template, *size) for size in ((short, long), (long, short))),
               key=lambda one: one.pages)  # fmt: skip


def _sheet(template: Template, wide: float, high: float) -> Sheet:
    low = _EDGE + HIGH + _LINE * len(_notes(template, wide)) + 3.0
    window = Box(_EDGE, low, wide - _EDGE, high - _EDGE - _HEAD)
    box = template.box
    across = math.ceil(box.width / window.width - 1e-9)
    down = math.ceil(box.height / window.height - 1e-9)
    sheet = Sheet(wide, high, window, across, down)
    places = [(column, row) for row in range(down) for column in range(across)]
    if len(places) == 1:
        return replace(sheet, tiles=tuple(places))
    drawn = [inked for one in template.parts for inked in inks(one.shapes)]
    kept = (place for place in places if crosses(drawn, tile(template, sheet, *place)))
    return replace(sheet, tiles=tuple(kept))


def _notes(template: Template, wide: float) -> list[str]:
    room = (wide - 2 * _EDGE) / SMALL
    return [text for note in template.notes for text in wrapped(note, room, 12)]


def page_drawings(template: Template, paper: Paper) -> Iterator[tuple[Sheet, Drawing]]:
    """Each page as a drawing in millimetres of that page."""
    sheet = laid_out(template, paper)
    for number in range(sheet.pages):
        yield sheet, _page(template, sheet, number)


def corner_of(template: Template, sheet: Sheet, column: int, row: int) -> tuple[float, float]:
    """Where the template's own origin lies on a page, mm from its lower left corner."""
    box, window = template.box, sheet.window
    # what fits stands in the middle, what doesn't begins at the left and at the top
    left = max(0.0, (window.width - box.width) / 2) if sheet.across == 1 else 0.0
    top = max(0.0, (window.height - box.height) / 2) if sheet.down == 1 else 0.0
    return (
        window.left + left - box.left - column * window.width,
        window.top - top - box.top + row * window.height,
    )


def tile(template: Template, sheet: Sheet, column: int, row: int) -> Box:
    """What of the template a page shows, mm in the template's own measure."""
    x, y = corner_of(template, sheet, column, row)
    window = sheet.window
    return Box(window.left - x, window.bottom - y, window.right - x, window.top - y)


def _page(template: Template, sheet: Sheet, number: int) -> Drawing:
    place = Frame(origin=corner_of(template, sheet, *sheet.tiles[number]))
    head = _where(template, sheet, number)
    legend: list[Shape] = [
        Lettering((_EDGE, sheet.high - _EDGE - 4.0), f"{template.engine}: {template.title}", 3.5),
        Lettering((_EDGE, sheet.high - _EDGE - 8.6), head, SMALL),
        *ruler((_EDGE, _EDGE)),
    ]
    for n, text in enumerate(_notes(template, sheet.wide)):
        top = sheet.window.bottom - 3.6
        legend.append(Lettering((_EDGE, top - n * _LINE), text, SMALL))
    if sheet.across * sheet.down > 1:
        legend += _crop(sheet.window)
    return Drawing(
        name=template.engine,
        title=template.title,
        description=f"{_described(template)}, page {number + 1} of {sheet.pages}",
        parts=tuple(place.part(part) for part in template.parts),
        labels=(), centrelines=(), arrows=(), legend=tuple(legend),
        box=Box(0.0, 0.0, sheet.wide, sheet.high), unit=1.0, crank_angle=0.0,
    )  # fmt: skip


def _described(template: Template) -> str:
    return f"{template.title}, {'true size' if template.to_scale else 'not to scale'}"


def _where(template: Template, sheet: Sheet, number: int) -> str:
    if sheet.across * sheet.down == 1:
        return template.scale_words
    column, row = sheet.tiles[number]
    beside = f"column {column + 1} of {sheet.across}" if sheet.across > 1 else ""
    below = f"row {row + 1} of {sheet.down}" if sheet.down > 1 else ""
    places = ", ".join(filter(None, (beside, below)))
    return (
        f"{template.scale_words}; page {number + 1} of {sheet.pages}: {places}{_left_out(sheet)}. "
        "Cut along the corners' lines and butt the pages together."
    )


def _left_out(sheet: Sheet) -> str:
    """Which places have no page, so that nobody looks for it.

    Examples
    --------
    >>> box = Box(0.0, 0.0, 1.0, 1.0)
    >>> _left_out(Sheet(210.0, 297.0, box, 2, 2, ((0, 0), (0, 1), (1, 1))))
    ' (column 2, row 1 is empty and has none)'
    """
    empty = [
        f"column {column + 1}, row {row + 1}"
        for row in range(sheet.down)
        for column in range(sheet.across)
        if (column, row) not in sheet.tiles
    ]
    if not empty:
        return ""
    verb = "is empty and has none" if len(empty) == 1 else "are empty and have none"
    return f" ({'; '.join(empty)} {verb})"


def _crop(window: Box) -> list[Shape]:
    """Marks at the corners of the window, outside of it."""
    shapes: list[Shape] = []
    for x, out in ((window.left, -1.0), (window.right, 1.0)):
        for y, up in ((window.bottom, -1.0), (window.top, 1.0)):
            shapes += [tick((x + out * 0.5, y), (x + out * 4.0, y)),
                       tick((x, y + up * 0.5), (x, y + up * 2.5))]  # fmt: skip
    return shapes


def template_pdf(template: Template, *, paper: Paper = "A4") -> bytes:
    """The template as PDF at true size, tiled where a page doesn't hold it."""
    from reportlab.pdfgen.canvas import Canvas

    font()
    stream = io.BytesIO()
    canvas = Canvas(stream, invariant=1)
    canvas.setTitle(f"{printable(template.engine)}: {template.title}")
    canvas.setCreator("firstfire")
    for sheet, drawing in page_drawings(template, paper):
        canvas.setPageSize((sheet.wide * MM, sheet.high * MM))
        page = Page(canvas, drawing, 1.0, sheet.wide, sheet.high)
        _inside(page, sheet, drawing)
        for shape in drawing.legend:
            page.shape(shape, "", "")
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _inside(page: Page, sheet: Sheet, drawing: Drawing) -> None:
    """The template's own shapes, cut off at the window's edges."""
    window, canvas = sheet.window, page.canvas
    canvas.saveState()
    path = canvas.beginPath()
    slack = 0.4 if sheet.pages == 1 else 0.0
    path.rect((window.left - slack) * MM, (window.bottom - slack) * MM,
              (window.width + 2 * slack) * MM, (window.height + 2 * slack) * MM)  # fmt: skip
    canvas.clipPath(path, stroke=0, fill=0)
    for part in drawing.parts:
        for shape in part.shapes:
            page.shape(shape, "", "")
    canvas.restoreState()


def template_drawing(template: Template) -> Drawing:
    """The template as one drawing at true size with its ruler below, for SVG and DXF."""
    box = template.box
    low = box.bottom - 8.0 - HIGH
    legend: list[Shape] = [
        Lettering((box.left, box.top + 8.0), f"{template.engine}: {template.title}", 3.5),
        Lettering((box.left, box.top + 3.5), template.scale_words, SMALL),
        *ruler((box.left, low)),
    ]
    wide = max(box.width, 180.0)
    notes = [text for note in template.notes for text in wrapped(note, wide / SMALL, 12)]
    for n, text in enumerate(notes):
        legend.append(Lettering((box.left, low - 4.0 - n * _LINE), text, SMALL))
    whole = Box(box.left, low - 4.0 - len(notes) * _LINE, box.left + wide, box.top + 13.0)
    return Drawing(
        name=template.engine, title=template.title,
        description=_described(template), parts=template.parts, labels=(),
        centrelines=(), arrows=(), legend=tuple(legend), box=whole.grown(4.0), unit=1.0,
        crank_angle=0.0,
    )  # fmt: skip
