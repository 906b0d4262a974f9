"""The commands ``spark`` and ``wiring``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from firstfire.cli.options import FileArgument, LayerOption, SetOption


def spark(
    file: FileArgument,
    table: Annotated[
        bool, typer.Option("--table", help="advance by speed and load too: up to a minute")
    ] = False,
    tried: SetOption = None,
    layers: LayerOption = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.spark/1")
    ] = False,
) -> None:
    """Say what fires it, when, whether it jumps, and what leads want."""
    from firstfire.cli.spark import spark_told
    from firstfire.cli.stopped import stoppable

    with stoppable() as stop:
        typer.echo(
            spark_told(file, tried or [], layers or [], as_json=as_json, table=table, stop=stop)
        )


def wiring(
    file: FileArgument,
    out: Annotated[
        list[Path] | None,
        typer.Option("--out", "-o", metavar="FILE", help="draw it: .svg, .pdf or .dxf; repeatable"),
    ] = None,
    paper: Annotated[str, typer.Option(help="of a PDF: A4 or Letter")] = "A4",
    tried: SetOption = None,
    layers: LayerOption = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="replace the drawing if it is there")
    ] = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.wiring/1")
    ] = False,
) -> None:
    """List what hangs on its battery, by which wires, and draw it."""
    from firstfire.cli.spark import wiring_told

    typer.echo(
        wiring_told(file, out or [], paper, tried or [], layers or [], as_json=as_json,
                    overwrite=overwrite)
    )  # fmt: skip
