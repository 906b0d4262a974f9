"""What ``firstfire new`` ends with at a terminal: what a check says, in three lines."""

from __future__ import annotations

from pathlib import Path

import typer

from firstfire.cli.checking import Wanted, checked
from firstfire.cli.stopped import stoppable
from firstfire.cli.terminal import columns
from firstfire.errors import Stopped


def brief_check(file: Path) -> None:
    """Check the new file and show sentence, odds and what to type next; Ctrl-C skips it."""
    try:
        typer.echo("Checking it, about a minute; Ctrl-C skips this.")
        run = checked(Wanted.plainly(file))
        with stoppable() as stop:
            result = run(stop)
    except (typer.Exit, KeyboardInterrupt, Stopped):  # whenever it is pressed
        typer.echo(f"\nSkipped. Check it when you like: firstfire check {file}")
        return
    from firstfire.verdict.words.commands import Asked
    from firstfire.verdict.words.text.brief import brief_lines

    for line in brief_lines(result, Asked(str(file)), width=columns()):
        typer.echo(line)
