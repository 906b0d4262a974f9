"""Arguments and options that several commands share."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

FileArgument = Annotated[
    Path, typer.Argument(metavar="FILE", help="an engine file", show_default=False)
]
JsonOption = Annotated[bool, typer.Option("--json", help="for machines: SI, firstfire.result/1")]
SetOption = Annotated[
    list[str] | None,
    typer.Option("--set", metavar="PATH=VALUE", help="try a value, e.g. cylinder.bore='45 mm'"),
]
LayerOption = Annotated[
    list[Path] | None,
    typer.Option("--layer", metavar="FILE", help="lay a printer's or learned file on top"),
]
LifeOption = Annotated[
    str | None,
    typer.Option("--for", metavar="EVENTS", help="the life you mean, e.g. cranking,first_fire"),
]
