"""``firstfire timing``: when all happens; with readings, what is wrong with the cam drive."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from firstfire.cli.asking import asked_engine
from firstfire.cli.terminal import columns


def timing_told(
    file: Path, measured: Sequence[str], tried: Sequence[str], layers: Sequence[Path], *,
    as_json: bool,
) -> str:  # fmt: skip
    """The timing that was asked for, as text or JSON.

    Raises
    ------
    FirstfireError
        With every problem of the file or of the readings.
    """
    from firstfire.setup.timing import timing

    engine = asked_engine(file, tried, layers)
    found = timing(engine)
    if as_json:
        return found.to_json()
    from firstfire.setup.timing_text import timing_text

    return timing_text(found, width=columns())
