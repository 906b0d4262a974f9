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
    """Say what sits in what, what to draw, clearances and torques.

    Seats and pins, bore and rings, clearances, belt tension, torques, sealant. --draw writes a
    gauge of stepped holes and pins to print; what you read of it makes a printer layer.
    """
    from firstfire.cli.fits import Wanted, fits_told

    wanted = Wanted(measured or [], out, draw, overwrite, as_json)
    typer.echo(fits_told(file, wanted, tried or [], layers or []))


def coupon(
    file: FileArgument,
    readings: Annotated[
        list[str] | None,
        typer.Option(
            "--reading",
            metavar="NAME=VALUE",
            help='"bar petg=3.4 kg", "joint=30 N*m"; the same name again for each piece',
        ),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", metavar="LAYER.toml", help="write the learned layer"),
    ] = None,
    draw: DrawOption = None,
    which: Annotated[
        bool,
        typer.Option("--which", help="check it, and say which piece narrows the verdict most"),
    ] = False,
    tried: SetOption = None,
    layers: LayerOption = None,
    overwrite: OverwriteOption = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.coupon/1")
    ] = False,
) -> None:
    """Say what to break and what to prove before the first fire.

    What you read makes a learned layer: a standing bar bent by a weight, an insert pulled out, a
    scrap joint twisted, a puck under a bolt overnight.
    """
    from firstfire.cli.fits import Wanted, coupons_told
    from firstfire.cli.stopped import stoppable

    wanted = Wanted(readings or [], out, draw, overwrite, as_json)
    with stoppable() as stop:
        typer.echo(coupons_told(file, wanted, tried or [], layers or [], which=which, stop=stop))
