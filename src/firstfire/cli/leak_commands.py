"""The command ``leak``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from firstfire.cli.options import FileArgument, LayerOption, SetOption


def leak(
    file: FileArgument,
    gauge: Annotated[
        str | None, typer.Option(help='compression gauge above the air, e.g. "6.2 bar"')
    ] = None,
    rpm: Annotated[str | None, typer.Option(help="how fast it was cranked, e.g. 360")] = None,
    oiled: Annotated[
        str | None, typer.Option(help="the gauge again with a few drops of oil on the rings")
    ] = None,
    oil: Annotated[str | None, typer.Option(help='how much oil, "0.3 cm^3" if not said')] = None,
    hose: Annotated[
        str | None, typer.Option(help='volume from plug hole to check valve, e.g. "0.8 cm^3"')
    ] = None,
    supply: Annotated[
        str | None, typer.Option(help='leak-down: before its orifice, e.g. "3 bar"')
    ] = None,
    held: Annotated[str | None, typer.Option(help='behind it, e.g. "2.4 bar"')] = None,
    loss: Annotated[str | None, typer.Option(help='or as a tester has it, e.g. "20 %"')] = None,
    orifice: Annotated[str | None, typer.Option(help='its orifice, e.g. "1 mm"')] = None,
    cylinder: Annotated[int | None, typer.Option(help="which one; all alike if not said")] = None,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", metavar="FILE", help="write the learned layer")
    ] = None,
    overwrite: Annotated[bool, typer.Option("--overwrite", help="replace it")] = False,
    tried: SetOption = None,
    layers: LayerOption = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.leak/1")
    ] = False,
) -> None:
    """Learn its leaks from a compression gauge or a leak-down test."""
    from firstfire.cli.leak import Read, leak_told

    read = Read(gauge, rpm, oiled, oil, hose, supply, held, loss, orifice, cylinder)
    typer.echo(
        leak_told(file, read, out, tried or [], layers or [], overwrite=overwrite, as_json=as_json)
    )
