"""The commands ``timing`` and ``setup``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from firstfire.cli.options import FileArgument, LayerOption, SetOption
from firstfire.cli.stopped import stoppable


def timing(
    file: FileArgument,
    measured: Annotated[
        list[str] | None,
        typer.Option(
            "--measured",
            metavar="READING",
            help='what you read, e.g. "inlet opens=12 deg before top"; repeatable',
        ),
    ] = None,
    steps: Annotated[
        bool, typer.Option("--steps", help="how to set it, step by step, with its numbers")
    ] = False,
    tried: SetOption = None,
    layers: LayerOption = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.timing/1 or /misset/1")
    ] = False,
) -> None:
    """Say when all happens, on your rim, and find a cam that is out.

    With --measured it says what is wrong with the cam drive and which way to turn which wheel.
    """
    from firstfire.cli.timing import timing_told

    typer.echo(
        timing_told(file, measured or [], tried or [], layers or [], as_json=as_json, steps=steps)
    )


def setup(
    file: FileArgument,
    out: Annotated[
        Path, typer.Option("--out", "-o", metavar="FOLDER", help="where all of it is written")
    ],
    paper: Annotated[str, typer.Option(help="of the sheets: A4 or Letter")] = "A4",
    tried: SetOption = None,
    layers: LayerOption = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="replace the files of these names")
    ] = False,
) -> None:
    """Write all to set it up by: parts, timing, fits, tables, proof.

    setup.json, setup.html, the parts list, fits.json, coupon.json, a folder of sheets as PDF, SVG
    and DXF, one of pieces to print, as STL too, and one of tables for its controller, if any.
    """
    from firstfire.cli.timing import set_up_told

    with stoppable() as stop:
        typer.echo(
            set_up_told(file, out, paper, tried or [], layers or [], overwrite=overwrite, stop=stop)
        )
