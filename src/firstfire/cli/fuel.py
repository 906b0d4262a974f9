"""``firstfire fuel`` and ``firstfire tables``: an engine's fuel, and its tables for a controller."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from firstfire.cli.asking import asked_engine
from firstfire.cli.progress import Working
from firstfire.cli.terminal import columns


def fuel_told(
    file: Path, tried: Sequence[str], layers: Sequence[Path], *, as_json: bool,
    stop: Callable[[], bool],
) -> str:  # fmt: skip
    """An engine's fuel as text or JSON.

    Raises
    ------
    FirstfireError
        With every problem of the file, or where a model doesn't hold.
    """
    engine = asked_engine(file, tried, layers)
    from firstfire.setup.fuel.sheet import fuel_sheet

    with Working() as working:
        found = fuel_sheet(engine, stop=stop, tell=working)
    if as_json:
        return found.to_json()
    from firstfire.setup.fuel.text import fuel_text

    return fuel_text(found, width=columns())
