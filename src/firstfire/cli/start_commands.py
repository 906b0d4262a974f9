"""The commands ``start`` and ``faults``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from firstfire.cli.options import FileArgument, LayerOption, SetOption
from firstfire.cli.stopped import stoppable


def start(
    file: FileArgument,
    starter: Annotated[
        str | None, typer.Option(metavar="ROW", help="another starter, a row of the catalog")
    ] = None,
    spark: Annotated[
        str | None, typer.Option(metavar="ANGLE", help="before top while starting, e.g. 8")
    ] = None,
    temperature: Annotated[str | None, typer.Option(help='of air and engine, e.g. "5 °C"')] = None,
    stood: Annotated[str | None, typer.Option(help='how long it has stood, e.g. "12 h"')] = None,
    throttle: Annotated[str | None, typer.Option(help='how far open, e.g. "40 %"')] = None,
    prime: Annotated[
        str | None, typer.Option(metavar="N", help='pulses of fuel first, or e.g. "0.1 ml"')
    ] = None,
    gauge: Annotated[
        str | None, typer.Option(metavar="READING", help='a gauge\'s reading, e.g. "8.2 bar"')
    ] = None,
    rpm: Annotated[
        str | None, typer.Option(help="how fast it was cranked for that; else as its starter does")
    ] = None,
    faults: Annotated[
        list[str] | None,
        typer.Option("--fault", metavar="NAME[=SIZE]", help="with this fault; see faults"),
    ] = None,
    tries: Annotated[int, typer.Option(min=1, max=20, help="how often it is tried")] = 5,
    seed: Annotated[int, typer.Option(help="of how its cycles differ")] = 1,
    engines: Annotated[
        int, typer.Option(min=8, max=2000, metavar="N", help="draw N engines like it for the odds")
    ] = 40,
    full: Annotated[bool, typer.Option("--full", help="all of it, with the plan")] = False,
    tried: SetOption = None,
    layers: LayerOption = None,
    traces: Annotated[
        Path | None, typer.Option(metavar="FILE.csv", help="write every step of its start")
    ] = None,
    report: Annotated[
        Path | None, typer.Option(metavar="FILE.html", help="write it as a page with pictures")
    ] = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="replace the traces' or the report's file")
    ] = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.start/1")
    ] = False,
) -> None:
    """Say whether it starts, keeps itself going, or kicks back."""
    from firstfire.cli.start import Wanted, start_told

    wanted = Wanted(
        starter, spark, temperature, stood, throttle, tuple(faults or ()), tries, seed, engines,
        traces, overwrite, as_json, full, prime, gauge, rpm, report,
    )  # fmt: skip
    with stoppable() as stop:
        typer.echo(start_told(file, wanted, tried or [], layers or [], stop=stop))


def list_faults(
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: firstfire.faults/1")
    ] = False,
) -> None:
    """List the faults that a start can be given."""
    from firstfire.cli.faults import faults_told

    typer.echo(faults_told(as_json=as_json))
