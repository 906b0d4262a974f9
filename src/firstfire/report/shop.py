"""Things to print and measure as files: each as PDF, SVG, DXF at true size, and as STL."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from firstfire.drawing.dxf import to_dxf
from firstfire.drawing.pdf import Paper
from firstfire.drawing.solid import to_stl
from firstfire.drawing.svg import to_svg
from firstfire.drawing.templates.pages import template_drawing, template_pdf
from firstfire.drawing.templates.pieces import piece_template
from firstfire.engine.pieces import Piece
from firstfire.errors import CannotWrite
from firstfire.files import write_bytes

ENDS = ("pdf", "svg", "dxf", "stl")


def piece_files(
    engine: str, pieces: Iterable[Piece], paper: Paper = "A4"
) -> Iterator[tuple[str, bytes]]:
    """Each file's name, and what is in it.

    Parameters
    ----------
    engine
        Its name.
    pieces
        What is printed.
    paper
        That a PDF is laid out for.
    """
    for piece in pieces:
        template = piece_template(engine, piece)
        drawing = template_drawing(template)
        yield f"{piece.slug}.pdf", template_pdf(template, paper=paper)
        yield f"{piece.slug}.svg", to_svg(drawing).encode()
        yield f"{piece.slug}.dxf", to_dxf(drawing).encode()
        yield f"{piece.slug}.stl", to_stl(piece)


def write_files(
    folder: Path, files: Sequence[tuple[str, bytes]], *, overwrite: bool = False
) -> None:
    """Write files into a folder, which is made where it isn't there.

    Raises
    ------
    CannotWrite
        Where one is there already (then none is written), or the folder can't be made.
    """
    if folder.exists() and not folder.is_dir():
        raise CannotWrite(f"{folder} is a file. Name a folder.")
    there = [name for name, _ in files if (folder / name).exists()]
    if there and not overwrite:
        more = f" and {len(there) - 3} more" if len(there) > 3 else ""
        raise CannotWrite(
            f"{folder} has {', '.join(there[:3])}{more} already; nothing was written. Choose "
            "another folder, or say --overwrite."
        )
    try:
        folder.mkdir(exist_ok=True)
    except OSError as why:
        raise CannotWrite(f"{folder} can't be made: {why.strerror or why}.") from None
    for name, data in files:
        write_bytes(folder / name, data, overwrite=overwrite)
