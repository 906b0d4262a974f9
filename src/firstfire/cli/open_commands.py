"""The command ``open``: the pages in a browser."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer


def open_pages(
    file: Annotated[
        Path | None,
        typer.Argument(metavar="FILE", help="an engine file; none: choose one on the page"),
    ] = None,
    port: Annotated[
        int, typer.Option(min=0, max=65535, metavar="N", help="listen there; 0: any free one")
    ] = 0,
    browser: Annotated[
        bool, typer.Option("--browser/--no-browser", help="open it, or only say the address")
    ] = True,
) -> None:
    """Open the pages: change a number, see the engine answer.

    They are served to this machine alone, and to whoever has the address that is printed. Nothing
    leaves the machine. Ctrl-C ends them; what was not saved is there again the next time.
    """
    from firstfire.pages.serve import serve

    serve(file, port=port, browser=browser)
