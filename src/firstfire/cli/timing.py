"""``firstfire timing``: when all happens; with readings, what is wrong with the cam drive."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from firstfire.cli.asking import asked_engine
from firstfire.cli.terminal import columns
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
    engine = asked_engine(file, tried, layers)
    if measured:
        return _misset(engine, measured, as_json=as_json)
    from firstfire.setup.timing import timing

    found = timing(engine)
    if as_json:
        return found.to_json()
    if steps:
        from firstfire.setup.timing_text import steps_text

        return steps_text(found, width=columns())
    from firstfire.setup.timing_text import timing_text

    return timing_text(found, width=columns())


def _misset(engine: Engine, measured: Sequence[str], *, as_json: bool) -> str:
    """What the readings say."""
    from firstfire.setup.misset import misset

    found = misset(engine, measured)
    if as_json:
        return found.to_json()
    from firstfire.setup.misset_text import misset_text

    return misset_text(found, width=columns())


def set_up_told(
    file: Path, out: Path, paper: str, tried: Sequence[str], layers: Sequence[Path], *,
    overwrite: bool,
) -> str:  # fmt: skip
    """Write all to set an engine up by into a folder, and say what.

    Raises
    ------
    FirstfireError
        With every problem of the file, or where something is there already.
    """
    from firstfire.report.set_up import refuse_folder, set_up
    from firstfire.setup.timing_words import CAUTION
    from firstfire.verdict.words.text.lines import wrapped

    refuse_folder(out, overwrite=overwrite)
    found = set_up(asked_engine(file, tried, layers), paper=paper)
    found.write(out, overwrite=overwrite)
    check = "Print a PDF at 100 % and measure its ruler: 100.0 mm."
    return "\n".join(
        [f"Written into {out}.", str(found), *wrapped(f"{check} {CAUTION}", width=columns())]
    )
