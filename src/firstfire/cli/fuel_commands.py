"""The commands ``fuel`` and ``tables``, as they are typed."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from firstfire.cli.options import FileArgument, LayerOption, SetOption
from firstfire.cli.stopped import stoppable


def fuel(
    file: FileArgument,
    tried: SetOption = None,
    layers: LayerOption = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.fuel/1")
    ] = False,
) -> None:
    """Size what meters the fuel, and all from the tank to there.

    Injector, carburettor or gas mixer as FILE has it: pulses, jets, priming, tank, hose, pump.
    What doesn't work stands first, with the nearest that does.
    """
    from firstfire.cli.fuel import fuel_told

    with stoppable() as stop:
        typer.echo(fuel_told(file, tried or [], layers or [], as_json=as_json, stop=stop))


def tables(
    file: FileArgument,
    out: Annotated[
        Path, typer.Option("--out", "-o", metavar="FOLDER", help="where all of it is written")
    ],
    tried: SetOption = None,
    layers: LayerOption = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="replace the files of these names")
    ] = False,
) -> None:
    """Write its tables for a controller: pulses, end angles, spark.

    Over this engine's own speeds and throttle openings, as plain integers: a C header and CSV.
    """
    from firstfire.cli.fuel import tables_told

    with stoppable() as stop:
        typer.echo(
            tables_told(file, out, tried or [], layers or [], overwrite=overwrite, stop=stop)
        )
