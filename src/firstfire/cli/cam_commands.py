"""The command ``firstfire cam`` as it is typed."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from firstfire.cli.options import FileArgument, LayerOption, SetOption
from firstfire.cli.stopped import BY_HAND, stoppable


def cam(
    file: FileArgument,
    choose: Annotated[
        bool, typer.Option("--choose", help="look for the cams that fill it best and can be made")
    ] = False,
    speed: Annotated[
        list[str] | None,
        typer.Option(metavar="SPEED", help='with --choose: at which speed, e.g. "3000 rpm"'),
    ] = None,
    valve: Annotated[
        str | None, typer.Option(help="whose cam is wanted or written: inlet or exhaust")
    ] = None,
    opens: Annotated[
        str | None,
        typer.Option(help='wanted: e.g. "10 deg", before top, an exhaust before bottom'),
    ] = None,
    closes: Annotated[
        str | None,
        typer.Option(help='wanted: e.g. "40 deg", after bottom, an exhaust after top'),
    ] = None,
    at_lift: Annotated[
        str | None, typer.Option("--at-lift", help='lift at which these are stated, e.g. "1 mm"')
    ] = None,
    lift: Annotated[str | None, typer.Option(help='wanted: greatest lift, e.g. "5 mm"')] = None,
    centre: Annotated[
        str | None,
        typer.Option(help="wanted: nose after top, an exhaust's before it; midway if not said"),
    ] = None,
    law: Annotated[
        str | None,
        typer.Option(help="wanted: 3-4-5, 4-5-6-7, cycloidal, modified-sine ..."),
    ] = None,
    lash: Annotated[
        str | None, typer.Option(help='as measured, e.g. "0.15 mm": gaps with it')
    ] = None,
    out: Annotated[
        list[Path] | None,
        typer.Option(
            "--out",
            "-o",
            metavar="OUT",
            help="outline as .svg, .dxf or .pdf, or the engine file with the cam as .toml",
        ),
    ] = None,
    full: Annotated[bool, typer.Option("--full", help="each number with why and source")] = False,
    tried: SetOption = None,
    layers: LayerOption = None,
    as_json: Annotated[bool, typer.Option("--json", help="for machines: firstfire.cam/1")] = False,
    overwrite: Annotated[bool, typer.Option("--overwrite", help="replace OUT")] = False,
) -> None:
    """Show the cams and what they clear, design one, or choose the best.

    A wanted cam that can't be made is refused, with the nearest that can. With --choose, Ctrl-C
    keeps the best so far.
    """
    from firstfire.cli.cam import CamAsked, cam_told

    asked = CamAsked(
        file, tried or (), layers or (), valve, opens, closes, centre, lift, at_lift, law, lash,
        choose, speed or (), out or (), overwrite, as_json, full,
    )  # fmt: skip
    with stoppable() as stop:
        typer.echo(cam_told(asked, stop))
        if stop():
            raise typer.Exit(BY_HAND)
