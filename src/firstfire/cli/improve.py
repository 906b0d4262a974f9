"""``firstfire improve``: the least work that makes an engine hold, and the better file."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from pathlib import Path

from firstfire.cli.asking import asked_engine, set_values
from firstfire.engine.read import read_text
from firstfire.engine.typed import typed
from firstfire.engine.write import set_in_text
from firstfire.errors import CannotWrite, FirstfireError
from firstfire.files import write_text

_IN = re.compile(r"^\s*(\d+(?:\.\d+)?)\s*in\s*(\d+(?:\.\d+)?)\s*$")
_SHARE = re.compile(r"^\s*(\d+(?:\.\d+)?)\s*(%?)\s*$")
MOST_ODDS = 0.99


def asked_odds(written: str) -> float:
    """``19 in 20``, ``95 %`` or ``0.95`` as a number.

    Raises
    ------
    FirstfireError
        For anything else, and for odds that no model can tell.

    Examples
    --------
    >>> asked_odds("19 in 20"), asked_odds("90 %"), asked_odds("0.5")
    (0.95, 0.9, 0.5)
    """
    many, share = _IN.match(written), _SHARE.match(written)
    value = -1.0
    if many and float(many[2]) > 0:
        value = float(many[1]) / float(many[2])
    elif share:
        value = float(share[1]) / (100.0 if share[2] else 1.0)
    if not 0.05 <= value <= MOST_ODDS:
        raise FirstfireError(
            f'--odds "{written}" can\'t be asked for. Write it like "19 in 20", from 1 in 20 to '
            "99 in 100: nothing here is surer than that."
        )
    return value


def improved(
    file: Path,
    out: Path | None,
    odds: str,
    keep: Sequence[str],
    have: Sequence[str],
    life: Sequence[str] | None,
    tried: Sequence[str],
    layers: Sequence[Path],
    *,
    as_json: bool,
    overwrite: bool,
    stop: Callable[[], bool],
) -> str:
    """What was found, as text or JSON; the better file is written where one is asked for.

    Parameters
    ----------
    file, tried, layers
        As `asked_engine` takes them.
    out
        Where the better file goes; None: nowhere.
    odds, keep, have
        What is asked for, what stays as it is, and what is at hand.
    life
        Events that are meant; None: all.
    as_json, overwrite
        For machines; whether `out` may be replaced.
    stop
        Asked at least every 0.1 s; true stops, and the best so far is kept.

    Raises
    ------
    FirstfireError
        With what is wrong with any of it, before anything is run.
    """
    target, engine = asked_odds(odds), asked_engine(file, tried, layers)
    if out is not None and out.exists() and not overwrite:
        raise CannotWrite(f"{out} is there already. Say --overwrite to replace it.")
    from firstfire.cli.progress import Working
    from firstfire.verdict.improve.improve import improve
    from firstfire.verdict.improve.limits import allowed

    may = allowed(keep, have, engine.catalog)
    with Working() as working:
        found = improve(
            engine, target=target, allowed=may, only=life, stop=stop, on_progress=working
        )
    if out is not None and found.steps:
        from firstfire.verdict.improve.words import reasons

        changed = {path: typed(path, value) for path, value in found.changes.items()}
        values = {**set_values(tried), **changed}
        text = set_in_text(read_text(file), values, reasons(found))
        write_text(out, text, overwrite=overwrite)
    if as_json:
        from firstfire.verdict.improve.contract import as_json as as_text

        return as_text(found)
    from firstfire.cli.terminal import columns
    from firstfire.verdict.improve.text import improve_text
    from firstfire.verdict.words.commands import Asked

    better = str(out) if out is not None and found.steps else None
    asked = Asked(str(file), tuple(tried), tuple(map(str, layers)))
    return improve_text(found, asked, better, width=columns())
