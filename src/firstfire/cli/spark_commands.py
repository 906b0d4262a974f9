"""The commands ``spark`` and ``wiring``."""

from __future__ import annotations

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
    """Say what fires it and when, whether the spark jumps, and what its leads want."""
    from firstfire.cli.spark import spark_told
    from firstfire.cli.stopped import stoppable

    with stoppable() as stop:
        typer.echo(
            spark_told(file, tried or [], layers or [], as_json=as_json, table=table, stop=stop)
        )
