"""``firstfire draw``: the engine or one part as a drawing, by what its file's name ends in."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from pathlib import Path

from firstfire.drawing.along_crank import along_crank
from firstfire.drawing.dxf import to_dxf
from firstfire.drawing.forces import Forces
from firstfire.drawing.legend import scale_words
from firstfire.drawing.model import Drawing
from firstfire.drawing.pdf import Paper, to_pdf
from firstfire.drawing.section import section
from firstfire.drawing.svg import to_svg
from firstfire.drawing.workshop.parts import part_drawing
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import resolve
from firstfire.errors import FirstfireError
from firstfire.files import write_bytes

ENDS = (".svg", ".dxf", ".pdf")


def draw(
    engine: Engine,
    out: Path,
    *,
    angle: float,
    along: bool,
    forces: bool,
    paper: str,
    overwrite: bool,
    stop: Callable[[], bool],
) -> str:
    """Write a drawing of `engine` into `out` and say what was written.

    Parameters
    ----------
    engine
        As written down.
    out
        Ends in .svg, .dxf or .pdf.
    angle
        Crank angle after firing top of cylinder 1, degrees.
    along
        Along the crank instead of across it.
    forces
        Run full throttle and lay its forces over the section.
    paper
        Of a PDF: A4 or Letter.
    overwrite
        Whether a file that is there may be replaced.
    stop
        Asked at least every 0.1 s while it is run for its forces; true stops.

    Raises
    ------
    FirstfireError
        Where the name ends otherwise, or forces are asked along the crank.
    """
    _refuse(out, angle, along=along, forces=forces, paper=paper)
    plain = resolve(engine)
    turned = math.radians(angle)
    if along:
        drawing = along_crank(plain, crank_angle=turned)
    else:
        pushing = _forces(engine, turned, stop) if forces else None
        drawing = section(plain, crank_angle=turned, forces=pushing)
    write_bytes(out, written(drawing, out.suffix.lower(), paper), overwrite=overwrite)
    return f"{out}: {drawing.title}."


def draw_part(
    engine: Engine,
    out: Path,
    *,
    part: str,
    cylinder: int,
    paper: str,
    whole: Sequence[str],
    overwrite: bool,
) -> str:
    """Write a drawing of one part of `engine` into `out` and say what was written.

    Parameters
    ----------
    engine
        As written down.
    out
        Ends in .svg, .dxf or .pdf.
    part, cylinder
        Which, and whose, counted from 1.
    paper
        The sheet it is laid out for: A4 or Letter.
    whole
        Options that were given and are of the whole engine's drawing.
    overwrite
        Whether a file that is there may be replaced.

    Raises
    ------
    FirstfireError
        Where there is no such part, or an option doesn't go with one.
    """
    if whole:
        raise FirstfireError(
            f"{' and '.join(whole)} {'goes' if len(whole) == 1 else 'go'} with the whole engine, "
            "not with one part. Leave out that or --part."
        )
    _refuse_name(out, paper)
    drawing = part_drawing(
        resolve(engine), engine.catalog, part, cylinder=cylinder, paper=_sheet(paper)
    )
    write_bytes(out, written(drawing, out.suffix.lower(), paper), overwrite=overwrite)
    scale = scale_words(drawing.unit)
    said = f"{drawing.title}, scale {scale} on {_sheet(paper)}"
    return f"{out}: {said}. An estimate: check before ordering."


def _refuse_name(out: Path, paper: str) -> None:
    if out.suffix.lower() not in ENDS:
        raise FirstfireError(
            f"{out} ends in none of {', '.join(ENDS)}. Its end says what is written: "
            "engine.svg for a page, engine.dxf for a drawing program, engine.pdf for paper."
        )
    if paper.lower() not in ("a4", "letter"):
        raise FirstfireError(f'--paper is "{paper}": there is A4 and Letter. Write one of them.')


def _refuse(out: Path, angle: float, *, along: bool, forces: bool, paper: str) -> None:
    _refuse_name(out, paper)
    if forces and along:
        raise FirstfireError(
            "--forces are laid over the section across the crank. Leave out --along-crank."
        )
    if not -360 <= angle <= 720:
        raise FirstfireError(
            f"--angle is {angle:g}. A cycle is 0 to 720: degrees after cylinder 1's firing top "
            "centre, or down to -360 for those before it."
        )


def written(drawing: Drawing, end: str, paper: str) -> bytes:
    """A drawing in the format that a file's end names."""
    if end == ".dxf":
        return to_dxf(drawing).encode()
    if end == ".pdf":
        return to_pdf(drawing, paper=_sheet(paper))
    return to_svg(drawing).encode()


def _sheet(paper: str) -> Paper:
    return "Letter" if paper.lower() == "letter" else "A4"


def _forces(engine: Engine, angle: float, stop: Callable[[], bool]) -> Forces:
    """Of the mean cycle at full throttle, at the fastest speed the file asks for."""
    from firstfire.cli.progress import Working
    from firstfire.drawing.forces import forces_at
    from firstfire.loads.engine_loads import loads
    from firstfire.runs.run import run

    plain = resolve(engine)
    with Working() as working:
        held = run(
            engine, "full_throttle", stop=stop, on_progress=working,
            speeds=(max(plain.use.full_throttle_speeds),),
        )  # fmt: skip
    return forces_at(loads(plain, held.bouts[0].gases), plain, angle)
