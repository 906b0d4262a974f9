"""``firstfire fuel`` and ``firstfire tables``: an engine's fuel, and tables for a controller."""

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


def tables_told(
    file: Path, out: Path, tried: Sequence[str], layers: Sequence[Path], *, overwrite: bool,
    stop: Callable[[], bool],
) -> str:  # fmt: skip
    """Write an engine's tables into a folder, and say what.

    Raises
    ------
    FirstfireError
        With every problem of the file, what its injector can't do, or where something is there.
    """
    engine = asked_engine(file, tried, layers)
    from firstfire.setup.tables.tables import tables
    from firstfire.setup.tables.written import CAUTION, HEADER, INDEX, refuse, write
    from firstfire.verdict.words.text.lines import wrapped

    refuse(out, (HEADER, INDEX), overwrite=overwrite)
    with Working() as working:
        found = tables(engine, stop=stop, tell=working)
    names = write(found, out, overwrite=overwrite)
    lines = [f"Written into {out}: {HEADER} and {len(names) - 1} CSV files."]
    for one in found.tables:
        shape = " × ".join(str(size) for size in one.values.shape)
        lines += wrapped(f"{one.name}, {shape}: {one.what}", 2, hang=4, width=columns())
    for said in (*found.notes, CAUTION):
        lines += wrapped(said, width=columns())
    return "\n".join(lines)
