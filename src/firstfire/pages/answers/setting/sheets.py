"""Sheets of setting up, small for the page and as files to take along. Nothing is written here."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import partial

from markupsafe import Markup

from firstfire.drawing.dxf import to_dxf
from firstfire.drawing.pdf import Paper
from firstfire.drawing.svg import to_svg
from firstfire.drawing.templates.all import templates
from firstfire.drawing.templates.pages import laid_out, template_drawing, template_pdf
from firstfire.drawing.templates.pieces import piece_template
from firstfire.drawing.templates.template import Template
from firstfire.drawing.wiring.sheet import wiring_template
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.wires import wiring
from firstfire.report.printed import printed
from firstfire.report.set_up import ENDS
from firstfire.report.shop import ENDS as PIECE_ENDS
from firstfire.report.shop import piece_files
from firstfire.setup.chapter import Table
from firstfire.setup.number import Number

PAPER: Paper = "A4"
_OF = {
    "degree-wheel": "timing", "rim-strip": "timing", "assembled": "timing", "belt": "timing",
    "chain": "timing", "cam": "cams", "breaker": "spark", "sensor": "spark", "head": "fits",
    "base": "fits", "wiring": "wiring", "hole-gauge": "fits", "coupon": "proof",
}  # fmt: skip
REST = "sheets"
"""Chapter of sheets that no other one claims."""
_FORMULA = ("=", "@", "\t")


@dataclass(frozen=True)
class Sheet:
    """One thing to print.

    Attributes
    ----------
    title, size
        In words.
    svg
        Small.
    names
        Of its files.
    notes
        Sentences that stand below it.
    """

    title: str
    size: str
    svg: Markup
    names: tuple[str, ...]
    notes: tuple[str, ...]


Files = Iterator[tuple[str, bytes]]


@dataclass
class Sheets:
    """Sheets by chapter, and what makes the files of each."""

    by_chapter: dict[str, list[Sheet]] = field(default_factory=dict)
    made: dict[str, list[Callable[[], Files]]] = field(default_factory=dict)

    def files(self, chapter: str) -> dict[str, bytes]:
        """Files of a chapter by name: they take longer than its small drawings did."""
        return {name: data for made in self.made.get(chapter, ()) for name, data in made()}

    def of(self, chapter: str) -> list[Sheet]:
        """Those of a chapter."""
        return self.by_chapter.get(chapter, [])


def sheets(engine: Engine, plain: PlainEngine) -> Sheets:
    """Every sheet and test piece of an engine.

    Raises
    ------
    FirstfireError
        Where one can't be drawn as the file says.
    """
    found = Sheets()
    drawn = (*templates(plain, engine.catalog), wiring_template(engine.name, wiring(plain)))
    for template in drawn:
        _add(found, template, ENDS, partial(_files, template))
    for of in printed(engine):
        for piece in of.pieces:
            made = partial(piece_files, engine.name, (piece,), PAPER)
            _add(found, piece_template(engine.name, piece), PIECE_ENDS, made)
    return found


def _files(template: Template) -> Files:
    drawing = template_drawing(template)
    yield f"{template.slug}.pdf", template_pdf(template, paper=PAPER)
    yield f"{template.slug}.svg", to_svg(drawing).encode()
    yield f"{template.slug}.dxf", to_dxf(drawing).encode()


def _add(found: Sheets, template: Template, ends: Sequence[str], made: Callable[[], Files]) -> None:
    pages, box = laid_out(template, PAPER).pages, template.box
    many = "1 page" if pages == 1 else f"{pages} pages"
    drawing = template_drawing(replace(template, notes=()))
    svg = to_svg(drawing, prefix=f"set-{template.slug}-", size=False)
    one = Sheet(
        template.title, f"{box.width:.0f} × {box.height:.0f} mm, {many} of {PAPER}", Markup(svg),
        tuple(f"{template.slug}.{end}" for end in ends), template.notes,
    )  # fmt: skip
    chapter = chapter_of(template.slug)
    found.by_chapter.setdefault(chapter, []).append(one)
    found.made.setdefault(chapter, []).append(made)


def chapter_of(slug: str) -> str:
    """The chapter that a sheet belongs to.

    Examples
    --------
    >>> chapter_of("cam-inlet"), chapter_of("head-gasket-2"), chapter_of("something-new")
    ('cams', 'fits', 'sheets')
    """
    return next((of for begins, of in _OF.items() if slug.startswith(begins)), REST)


def table_csv(table: Table) -> bytes:
    """A table as CSV; nothing in it is taken for a formula."""
    return _csv([table.head, *table.rows])


def numbers_csv(numbers: Sequence[Number]) -> bytes:
    """Numbers in SI, with what they are held against."""
    head = ("id", "what", "value", "unit", "side", "limit", "holds", "why", "source")
    rows = [
        (one.id, one.words, f"{one.value:.6g}" if one.judged else "not judged", one.unit, one.side,
         "" if one.limit is None else f"{one.limit:.6g}",
         "" if one.limit is None or not one.judged else "yes" if one.holds else "no",
         one.why, one.source)
        for one in numbers
    ]  # fmt: skip
    return _csv([head, *rows])


def _csv(rows: Sequence[Sequence[str]]) -> bytes:
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\r\n")
    for row in rows:
        writer.writerow([f"'{cell}" if cell.startswith(_FORMULA) else cell for cell in row])
    return stream.getvalue().encode("utf-8-sig")
