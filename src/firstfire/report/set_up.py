"""Everything an engine is set up by, into one folder: JSON, a page, sheets, lists, tables."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from firstfire.drawing.dxf import to_dxf
from firstfire.drawing.pdf import Paper
from firstfire.drawing.svg import to_svg
from firstfire.drawing.templates.all import templates
from firstfire.drawing.templates.cam_outline import workable_base
from firstfire.drawing.templates.pages import laid_out, template_drawing, template_pdf
from firstfire.drawing.templates.template import Template
from firstfire.drawing.wiring.sheet import wiring_template
from firstfire.engine.cam_lift import spans, valve_of
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.wires import wiring
from firstfire.errors import CannotWrite, EngineFileError, FirstfireError, Problem
from firstfire.files import write_bytes
from firstfire.report.beside import Beside, beside
from firstfire.report.printed import Printed, printed
from firstfire.report.setup_page import setup_page
from firstfire.setup.cams.met import refuse_met_piston
from firstfire.setup.chapter import Chapter
from firstfire.setup.chapters import chapters, of_folder
from firstfire.setup.compression.readings import Compression, compression
from firstfire.setup.fuel.drawn import Stop
from firstfire.setup.set_up_contract import SheetTold, set_up_told
from firstfire.setup.tables.grid import Tell
from firstfire.setup.tables.held import held
from firstfire.setup.timing.timing import Timing, timing
from firstfire.verdict.words.text.lines import wrapped

ENDS = ("pdf", "svg", "dxf")


@dataclass(frozen=True)
class SetUp:
    """What was found and drawn.

    Attributes
    ----------
    timing
        When all happens.
    chapters
        What else it is set up by.
    templates
        Sheets: all but the wiring's at true size.
    paper
        That their PDFs are laid out for.
    compression
        What a gauge should read while it is cranked.
    printed
        Things to print and measure, with their numbers.
    beside
        What other commands write too: lists, a controller's tables.
    """

    timing: Timing
    chapters: tuple[Chapter, ...]
    templates: tuple[Template, ...]
    paper: Paper
    compression: Compression
    printed: tuple[Printed, ...] = ()
    beside: tuple[Beside, ...] = ()

    def __str__(self) -> str:
        names = "\n".join(
            f"  sheets/{told.slug}: {told.title} ({told.pages} page{'s' * (told.pages > 1)})"
            for told in self.sheets
        )
        name, count = self.timing.engine.name, len(self.templates)
        told = [f"{one.slug}.json, {one.pieces_words}" for one in self.printed]
        told += [one.words for one in self.beside]
        lines = [line for words in told for line in wrapped(words, 2, hang=4)]
        return "\n".join([f"{name}: setup.json, setup.html and {count} sheets", names, *lines])

    @property
    def sheets(self) -> list[SheetTold]:
        """Each template with its files."""
        return [_told(template, self.paper) for template in self.templates]

    def to_json(self) -> str:
        """As ``firstfire.setup/1``: SI, units in field names."""
        data = set_up_told(
            self.timing, self._linked, self.compression, self.sheets, self._more
        ).model_dump(by_alias=True)
        return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False)

    def to_html(self) -> str:
        """One page, in the report's look."""
        return setup_page(self.timing, self._linked, self.templates, self.sheets)

    @property
    def _others(self) -> tuple[Printed | Beside, ...]:
        """All but the page, its JSON and the sheets."""
        return (*self.printed, *self.beside)

    @property
    def _more(self) -> list[str]:
        """Names of their files."""
        return [name for one in self._others for name in one.names]

    @property
    def _linked(self) -> tuple[Chapter, ...]:
        """The chapters, each with the names of its files."""
        of: dict[str, list[str]] = {
            "wiring": [name for told in self.sheets if told.slug == "wiring" for name in told.files]
        }
        for one in self._others:
            of.setdefault(one.section, []).extend(one.names)
        return tuple(replace(one, files=tuple(of.get(one.id, ()))) for one in self.chapters)

    def files(self) -> Iterator[tuple[str, bytes]]:
        """Each file's name below the folder, and what is in it."""
        yield "setup.json", self.to_json().encode()
        yield "setup.html", self.to_html().encode()
        for template in self.templates:
            drawing = template_drawing(template)
            yield _name(template, "pdf"), template_pdf(template, paper=self.paper)
            yield _name(template, "svg"), to_svg(drawing).encode()
            yield _name(template, "dxf"), to_dxf(drawing).encode()
        for one in self.printed:
            yield from one.files(self.timing.engine.name, self.paper)
        for lists in self.beside:
            yield from ((name, text.encode()) for name, text in lists.files.items())

    def write(self, folder: Path | str, *, overwrite: bool = False) -> None:
        """Write it all into a folder, which is made where it isn't there.

        Parameters
        ----------
        folder
            Where to.
        overwrite
            Whether files of these names that are there may be replaced.

        Raises
        ------
        CannotWrite
            Where one is there already (then none is written), or the folder can't be made.
        """
        place = Path(folder)
        refuse_folder(place, overwrite=overwrite)
        _refuse_there(place, self, overwrite=overwrite)
        found = dict(self.files())
        try:
            for name in found:
                (place / name).parent.mkdir(parents=True, exist_ok=True)
        except OSError as why:
            raise CannotWrite(f"{place} can't be made: {why.strerror or why}.") from None
        for name, data in found.items():
            write_bytes(place / name, data, overwrite=overwrite)


def set_up(
    engine: Engine, *, paper: str = "A4", stop: Stop = None, tell: Tell | None = None
) -> SetUp:
    """All that `engine` is set up by; gas is run for its spark, an inlet that suction opens, the
    first combustion that the proof goes by, the gauge's reading and a controller's tables.

    Parameters
    ----------
    engine
        As written down.
    paper
        ``A4`` or ``Letter``.
    stop, tell
        Asked at least every 0.1 s while tables are found; told what is run and the share done.

    Raises
    ------
    FirstfireError
        For another paper, a belt without a whole number of teeth, a cam whose base circle, as the
        file says it, would undercut it, or a valve that meets its piston as drawn.
    """
    sheet = _paper(paper)
    found = timing(engine)
    _refuse_undercut(engine, found.plain)
    refuse_met_piston(engine, found.plain)
    sheets = templates(found.plain, engine.catalog)
    wires = wiring_template(engine.name, wiring(found.plain))
    holds = held(engine, stop=stop, tell=tell)
    cranked = compression(engine, stop)
    told = chapters(engine, of_folder(holds, cranked), stop)
    return SetUp(
        found, told, (*sheets, wires), sheet, cranked, printed(engine), beside(engine, holds)
    )


def _paper(paper: str) -> Paper:
    known: dict[str, Paper] = {"a4": "A4", "letter": "Letter"}
    if paper.lower() not in known:
        raise FirstfireError(f'--paper is "{paper}": there is A4 and Letter. Write one of them.')
    return known[paper.lower()]


def refuse_folder(place: Path, *, overwrite: bool = False) -> None:
    """Refuse a place that can't be a folder, and one that has a set-up already.

    Raises
    ------
    CannotWrite
        With what to do.
    """
    if place.exists() and not place.is_dir():
        raise CannotWrite(f"{place} is a file. Name a folder.")
    if not place.absolute().parent.is_dir():
        raise CannotWrite(
            f"{place} can't be made: the folder it lies in isn't there. Make it first."
        )
    if (place / "setup.json").exists() and not overwrite:
        raise CannotWrite(
            f"{place / 'setup.json'} is there already and stays as it is. Choose another folder, "
            "or say --overwrite."
        )


def _refuse_there(place: Path, found: SetUp, *, overwrite: bool) -> None:
    names = ["setup.json", "setup.html"]
    names += [name for told in found.sheets for name in told.files]
    names += found._more
    there = [name for name in names if (place / name).exists()]
    if there and not overwrite:
        more = f" and {len(there) - 3} more" if len(there) > 3 else ""
        raise CannotWrite(
            f"{place} has {', '.join(there[:3])}{more} already; nothing was written. Choose "
            "another folder, or say --overwrite."
        )


def _refuse_undercut(engine: Engine, plain: PlainEngine) -> None:
    """A base circle by rule of thumb is widened and said on its sheet; one that was said is not."""
    problems: dict[str, Problem] = {}
    for number, parts in enumerate(plain.cylinders, 1):
        for which, span in spans(parts).items():
            path = f"valves.{which}.base_radius"
            values, valve = engine.values(number), valve_of(parts, which)
            works = workable_base(valve, span)
            if works != valve.base_radius and values.said(path):
                said = values.spoken(path)
                problems[said.path] = Problem(
                    said.path,
                    f"is {said.written}: its cam would undercut itself under a {valve.follower} "
                    "follower",
                    f'{said.path} = "{1e3 * works:.4g} mm" doesn\'t.',
                    said.line,
                )
    if problems:
        raise EngineFileError(engine.where, list(problems.values()))


def _name(template: Template, end: str) -> str:
    return f"sheets/{template.slug}.{end}"


def _told(template: Template, paper: Paper) -> SheetTold:
    return SheetTold(
        slug=template.slug,
        title=template.title,
        files=[_name(template, end) for end in ENDS],
        paper=paper,
        pages=laid_out(template, paper).pages,
        width_m=1e-3 * template.box.width,
        height_m=1e-3 * template.box.height,
        notes=list(template.notes),
        to_scale=template.to_scale,
    )
