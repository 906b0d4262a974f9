"""What a check that was stopped leaves to be shown."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager, suppress

import typer

from firstfire.errors import Interrupted, Stopped


def stopped_as_by_hand() -> None:
    """Let a request to end (SIGTERM) do what Ctrl-C does: what is finished is shown first."""
    with suppress(ValueError):  # not the main thread: whoever runs us minds signals
        signal.signal(signal.SIGTERM, signal.default_int_handler)


@contextmanager
def showing_what_is_finished(*, as_json: bool) -> Iterator[None]:
    """Show what a stopped check had finished, say on stderr that it was stopped, exit with 130."""
    try:
        yield
    except (Interrupted, Stopped) as halted:
        partial = halted.partial
        if partial is None:
            typer.echo("Nothing was finished.", err=True)
        else:
            typer.echo(partial.to_json() if as_json else str(partial))
            typer.echo("What was finished is shown above.", err=True)
        raise typer.Exit(130) from None
