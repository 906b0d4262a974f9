"""Ctrl-C: the work is asked to stop, and what it had finished is shown."""

from __future__ import annotations

import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from types import FrameType
from typing import Any

import typer

from firstfire.errors import Interrupted, Stopped

BY_HAND = 130
"""Exit code of what was stopped with Ctrl-C, as shells have it."""

_PRESSES = (signal.SIGINT, signal.SIGTERM)


@contextmanager
def stoppable() -> Iterator[Callable[[], bool]]:
    """What to hand over as `stop`: true once Ctrl-C was pressed; exit with 130 at the end.

    The press itself does nothing but note it, so that it can't come in between anywhere; the work
    looks each 0.1 s. A second press ends it wherever it is. A request to end (SIGTERM) is a press
    too. Outside the main thread, where no press arrives, it is never true.
    """
    pressed = False

    def note(number: int, _: FrameType | None) -> None:
        nonlocal pressed
        pressed = True
        signal.signal(number, signal.default_int_handler)

    try:
        before = {number: signal.signal(number, note) for number in _PRESSES}
    except ValueError:
        yield lambda: False
        return
    try:
        yield lambda: pressed
    except Stopped:
        raise typer.Exit(BY_HAND) from None
    finally:
        for number, usual in before.items():
            signal.signal(number, usual)
    if pressed:
        # It came so late that all was finished, and is shown already.
        raise typer.Exit(BY_HAND)


def stopped_as_by_hand() -> None:
    """Let a request to end (SIGTERM) do what Ctrl-C does: what is finished is shown first."""
    with suppress(ValueError):  # not the main thread: whoever runs us minds signals
        signal.signal(signal.SIGTERM, signal.default_int_handler)


@contextmanager
def showing_what_is_finished(*, as_json: bool, shown: Callable[[Any], str] = str) -> Iterator[None]:
    """Show what a stopped check had finished, say on stderr that it was stopped, exit with 130.

    Parameters
    ----------
    as_json
        For machines.
    shown
        Else how it is shown.
    """
    try:
        yield
    except (Interrupted, Stopped) as halted:
        partial = halted.partial
        if partial is None:
            typer.echo("Nothing was finished.", err=True)
        else:
            typer.echo(partial.to_json() if as_json else shown(partial))
            typer.echo("What was finished is shown above.", err=True)
        raise typer.Exit(BY_HAND) from None
