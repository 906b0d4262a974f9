"""``firstfire timing``: when all happens; with readings, what is wrong with the cam drive."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from firstfire.cli.terminal import columns

if TYPE_CHECKING:
    from firstfire.engine.engine import Engine


def timing_told(
    file: Path, measured: Sequence[str], tried: Sequence[str], layers: Sequence[Path], *,
    as_json: bool, steps: bool = False,
) -> str:  # fmt: skip
    """The timing that was asked for, as text or JSON.

    Raises
    ------
    FirstfireError
        With every problem of the file or of the readings.
    """
    width = columns()

    def found() -> str:
        engine = asked_engine(file, tried, layers)
        if measured:
            return _misset(engine, measured, as_json=as_json, width=width)
        return _timing(engine, as_json=as_json, steps=steps, width=width)

    from firstfire.cli.answers import answered

    return answered("timing", file, layers, (*tried, "|", *measured, as_json, steps, width), found)


def asked_engine(file: Path, tried: Sequence[str], layers: Sequence[Path]) -> Engine:
    """The engine as `firstfire.cli.asking` reads it, which is imported only where one is read."""
    from firstfire.cli.asking import asked_engine as read

    return read(file, tried, layers)


def _timing(engine: Engine, *, as_json: bool, steps: bool, width: int) -> str:
    from firstfire.setup.timing.text import steps_text, timing_text
    from firstfire.setup.timing.timing import timing

    found = timing(engine)
    if as_json:
        return found.to_json()
    return (steps_text if steps else timing_text)(found, width=width)


def _misset(engine: Engine, measured: Sequence[str], *, as_json: bool, width: int) -> str:
    """What the readings say."""
    from firstfire.setup.misset.misset import misset

    found = misset(engine, measured)
    if as_json:
        return found.to_json()
    from firstfire.setup.misset.text import misset_text

    return misset_text(found, width=width)


def set_up_told(
    file: Path, out: Path, paper: str, tried: Sequence[str], layers: Sequence[Path], *,
    overwrite: bool, stop: Callable[[], bool],
) -> str:  # fmt: skip
    """Write all to set an engine up by into a folder, and say what.

    Raises
    ------
    FirstfireError
        With every problem of the file, or where something is there already.
    """
    from firstfire.report.set_up import refuse_folder, set_up
    from firstfire.setup.timing.words import CAUTION
    from firstfire.verdict.words.text.lines import wrapped

    refuse_folder(out, overwrite=overwrite)
    engine = asked_engine(file, tried, layers)
    from firstfire.cli.progress import Working

    with Working() as working:
        found = set_up(engine, paper=paper, stop=stop, tell=working)
    found.write(out, overwrite=overwrite)
    check = "Print a PDF at 100 % and measure its ruler: 100.0 mm."
    return "\n".join(
        [f"Written into {out}.", str(found), *wrapped(f"{check} {CAUTION}", width=columns())]
    )
