"""``firstfire parts``: what to print, buy and make, and whether what one has can serve."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from firstfire.cli.asking import asked_engine
from firstfire.cli.terminal import columns


def parts_told(
    file: Path, at_hand: Sequence[str], tried: Sequence[str], layers: Sequence[Path], *,
    as_json: bool,
) -> str:  # fmt: skip
    """The parts list that was asked for, as text or JSON.

    Raises
    ------
    FirstfireError
        With every problem of the file, or every name that is no row.
    """
    engine = asked_engine(file, tried, layers)
    from firstfire.setup.have import Fitting, fittings, judged
    from firstfire.setup.parts_list import parts_list

    found = parts_list(engine)
    fitted: tuple[Fitting, ...] = fittings(engine, at_hand)
    if fitted:
        from firstfire.cli.progress import Working

        with Working() as working:
            fitted = judged(engine, fitted, on_progress=working)
    if as_json:
        from firstfire.setup.contract import parts_json

        return parts_json(found, fitted)
    from firstfire.setup.text import parts_text

    return parts_text(found, fitted, width=columns())
