"""The commands ``fits`` and ``coupon``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from firstfire.cli.options import FileArgument, LayerOption, SetOption

DrawOption = Annotated[
    Path | None,
    typer.Option("--draw", metavar="FOLDER", help="write drawings to print: PDF, SVG, DXF, STL"),
]
OverwriteOption = Annotated[
    bool, typer.Option("--overwrite", help="replace the files of these names")
]


def fits(
    file: FileArgument,
    measured: Annotated[
        list[str] | None,
        typer.Option(
            "--measured",
            metavar="READING",
            help='"hole 12=11.82 mm", "shaft 12=12.05 mm", "bore top along=39.96 mm"; repeatable',
        ),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", metavar="LAYER.toml", help="write the printer's layer"),
    ] = None,
    draw: DrawOption = None,
    tried: SetOption = None,
    layers: LayerOption = None,
    overwrite: OverwriteOption = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.fits/1")
    ] = False,
) -> None:
    """Say what sits in what, what to draw for your printer, and what to set.

    Seats and pins, bore and rings, clearances, belt tension, torques, sealant. --draw writes a
    gauge of stepped holes and pins to print; what you read of it makes a printer layer.
    """
    from firstfire.cli.fits import Wanted, fits_told

    wanted = Wanted(measured or [], out, draw, overwrite, as_json)
    typer.echo(fits_told(file, wanted, tried or [], layers or []))
