"""Setting up as one page of HTML, in the report's look, that needs nothing else."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from firstfire.drawing.svg import to_svg
from firstfire.drawing.templates.pages import template_drawing
from firstfire.drawing.templates.template import Template
from firstfire.report.page import environment
from firstfire.report.style import style_sheet
from firstfire.setup.chapter import Chapter
from firstfire.setup.order import order
from firstfire.setup.set_up_contract import SheetTold
from firstfire.setup.timing import words
from firstfire.setup.timing.picture import picture
from firstfire.setup.timing.places import degrees, where
from firstfire.setup.timing.steps import steps
from firstfire.setup.timing.text import TEETH, teeth_words
from firstfire.setup.timing.timing import Timing
from firstfire.setup.timing.words import mm
from firstfire.verdict.facts.cautions import cautions
from firstfire.verdict.numbers import figures
from firstfire.version import VERSION


@dataclass(frozen=True)
class _Row:
    """One event, as shown."""

    crank: str
    name: str
    where: str
    rim: str
    pulley: str
    depth: str


@dataclass(frozen=True)
class _Tooth:
    """One cylinder with its cam some teeth out, as shown."""

    cylinder: int
    cam: str
    shuts: str
    inlet: str
    exhaust: str
    kept: str
    gauge: str
    room: str


@dataclass(frozen=True)
class _Files:
    """Files of one name: as it is called, and each kind with its place below the folder."""

    name: str
    kinds: Sequence[tuple[str, str]]


@dataclass(frozen=True)
class _Sheet:
    """One template, small, with its files."""

    title: str
    svg: Markup
    size: str
    files: Sequence[_Files]
    notes: Sequence[str]


def setup_page(
    found: Timing, chapters: Sequence[Chapter], templates: Sequence[Template],
    sheets: Sequence[SheetTold],
) -> str:  # fmt: skip
    """The page as HTML text.

    Parameters
    ----------
    found
        When all happens.
    chapters
        What else it is set up by.
    templates, sheets
        What was drawn, and the files it is in.
    """
    said = [*words.assumed_words(found), words.sparked_words(found.plain),
            words.latency_words(found.plain), words.belt_words(found)]  # fmt: skip
    return (
        environment()
        .get_template("setup.html.j2")
        .render(
            name=found.engine.name,
            version=VERSION,
            style=Markup(style_sheet()),
            opening=words.opening(found),
            apart=words.apart(found),
            order=order(found.plain, [chapter.id for chapter in chapters]),
            rim_words=words.rim_words(found),
            picture=Markup("\n").join(picture(found.plain)),
            events=tuple(_events(found)),
            notes=[one for one in said if one],
            tooth_words=words.tooth_words(found),
            tooth_note=TEETH,
            teeth=tuple(_teeth(found)),
            steps=steps(found),
            chapters=[(one, _files(one.files)) for one in chapters],
            sheets=tuple(map(_sheet, templates, sheets)),
            cautions=cautions(found.engine, found.plain),
        )
    )


def _events(found: Timing) -> Iterator[_Row]:
    for place in found.places:
        event = place.event
        name = f"{event.cylinder} {event.name}" if len(found.order) > 1 else event.name
        yield _Row(
            degrees(event.crank), name, place.words, mm(place.rim), mm(place.pulley),
            mm(place.depth),
        )  # fmt: skip


def _teeth(found: Timing) -> Iterator[_Tooth]:
    for number, rows in enumerate(found.teeth, 1):
        for row in rows:
            yield _Tooth(
                number,
                teeth_words(row),
                "by suction" if row.inlet_closes is None else where(row.inlet_closes),
                mm(row.inlet_lift, 2),
                mm(row.exhaust_lift, 2),
                "–" if row.filling is None else f"{100 * row.filling:.0f} %",
                "–" if row.gauge is None else figures(row.gauge / 1e5, 2),
                words.meets(row),
            )


def _sheet(template: Template, told: SheetTold) -> _Sheet:
    drawing = template_drawing(replace(template, notes=()))
    pages = "1 page" if told.pages == 1 else f"{told.pages} pages"
    return _Sheet(
        title=template.title,
        svg=Markup(to_svg(drawing, prefix=f"{template.slug}-", size=False)),
        size=f"{template.scale_words}; {1e3 * told.width_m:.0f} × {1e3 * told.height_m:.0f} mm, "
        f"{pages} of {told.paper}",
        files=_files(told.files),
        notes=template.notes,
    )


def _files(names: Sequence[str]) -> list[_Files]:
    """Files by what they are called, in the order in which they are named.

    Examples
    --------
    >>> _files(["fits.json", "pieces/gauge.pdf", "pieces/gauge.stl"])[1]
    _Files(name='pieces/gauge', kinds=[('PDF', 'pieces/gauge.pdf'), ('STL', 'pieces/gauge.stl')])
    """
    found: dict[str, list[tuple[str, str]]] = {}
    for name in names:
        called, _, kind = name.rpartition(".")
        found.setdefault(called, []).append((kind.upper() if kind != "h" else "C header", name))
    return [_Files(called, kinds) for called, kinds in found.items()]
