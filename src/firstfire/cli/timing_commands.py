"""The command ``timing``."""

from __future__ import annotations

from typing import Annotated

import typer

from firstfire.cli.options import FileArgument, LayerOption, SetOption


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
    tried: SetOption = None,
    layers: LayerOption = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.timing/1 or /misset/1")
    ] = False,
) -> None:
    """Say when all happens, where on the rim, and what a tooth out does.

    With --measured it says what is wrong with the cam drive and which way to turn which wheel.
    """
    from firstfire.cli.timing import timing_told

    typer.echo(timing_told(file, measured or [], tried or [], layers or [], as_json=as_json))
