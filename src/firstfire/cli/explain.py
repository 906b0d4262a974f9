"""``firstfire explain``: the list of judgements, one of them opened, or what to measure first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from firstfire.cli.asking import asked_engine
from firstfire.cli.progress import Working
from firstfire.cli.terminal import columns
from firstfire.errors import FirstfireError

if TYPE_CHECKING:
    from firstfire.verdict.result import Result


def explain_engine(
    file: Path,
    wanted: str | None,
    tried: Sequence[str],
    layers: Sequence[Path],
    event: str | None,
    *,
    as_json: bool,
    stop: Callable[[], bool],
) -> str:
    """What was asked for, as text or JSON.

    Parameters
    ----------
    file, tried, layers
        As `asked_engine` takes them.
    wanted
        Id of a judgement or a piece of one; None for the list of all.
    event
        Only this event.
    as_json
        For machines.
    stop
        Asked at least every 0.1 s; true stops.

    Raises
    ------
    FirstfireError
        Where the file, the id or the event is not known; `Stopped` if ``stop`` said so.
    """
    from firstfire.setup.opened.explain import is_ours

    if wanted is not None and is_ours(wanted):
        return _of_setting_up(file, wanted, tried, layers, event, as_json=as_json)
    from firstfire.verdict.explain.find import known_event, known_id, listed
    from firstfire.verdict.explain.run import look_into
    from firstfire.verdict.explain.text import list_text

    engine, event = asked_engine(file, tried, layers), known_event(event)
    ident = None if wanted is None else known_id(wanted)
    with Working() as working:
        base = None if ident is None else ident.partition("#")[0]
        result = look_into(engine, base, event=event, stop=stop, on_progress=working)
        if ident is not None:
            return _opened(result, ident, event, as_json=as_json, stop=stop)
    found = listed(result.margins)
    if as_json:
        from firstfire.verdict.explain import contract as explain_contract

        return explain_contract.as_json(explain_contract.told_list(found))
    return list_text(found, result.plain, width=columns())


def _of_setting_up(
    file: Path, wanted: str, tried: Sequence[str], layers: Sequence[Path], event: str | None, *,
    as_json: bool,
) -> str:  # fmt: skip
    """A number that a chapter of setting up shows."""
    from firstfire.setup.opened.explain import list_text, opened
    from firstfire.setup.opened.rooms import ROOMS
    from firstfire.verdict.explain import contract as explain_contract
    from firstfire.verdict.explain.text import explain_text

    if event is not None:
        raise FirstfireError(f'"{wanted}" is of no event. Leave out --event.')
    engine, room = asked_engine(file, tried, layers), wanted.strip().lower().rstrip(".")
    if room in ROOMS:
        if as_json:
            raise FirstfireError(f"With --json one number is opened. Name it: {room}. and more.")
        return list_text(engine, room, width=columns())
    one = opened(engine, wanted)
    if as_json:
        return explain_contract.as_json(explain_contract.told(one))
    return explain_text(one, width=columns())


def measure_first(
    file: Path,
    tried: Sequence[str],
    layers: Sequence[Path],
    beside: Sequence[str],
    *,
    as_json: bool,
    stop: Callable[[], bool],
) -> str:
    """What to measure first on the engine in `file`, as text or JSON.

    Parameters
    ----------
    file, tried, layers, as_json, stop
        As `explain_engine` takes them.
    beside
        What else was asked for, which has no meaning here.

    Raises
    ------
    FirstfireError
        Where the file is not known, or something else was asked for; `Stopped` if ``stop`` said so.
    """
    if beside:
        raise FirstfireError(
            f"--doubt is about the whole engine, but {' and '.join(beside)} asks for a part of it. "
            "Leave out one or the other."
        )
    from firstfire.verdict.doubt.doubt import doubts
    from firstfire.verdict.explain.run import look_into

    engine = asked_engine(file, tried, layers)
    with Working() as working:
        result = look_into(engine, stop=stop, on_progress=working)
        working("each input by itself", 0.75)
        found = doubts(result, stop)
    if as_json:
        from firstfire.verdict.doubt import contract as doubt_contract
        from firstfire.verdict.explain.contract import as_json as written

        return written(doubt_contract.told(found))
    from firstfire.verdict.doubt.text import doubt_text

    return doubt_text(found, width=columns())


def _opened(
    result: Result, ident: str, event: str | None, *, as_json: bool, stop: Callable[[], bool]
) -> str:
    """One judgement where it is worst, with the changes that raise it tried."""
    from firstfire.verdict.explain.find import elsewhere, the_one
    from firstfire.verdict.explain.opening import explanation
    from firstfire.verdict.explain.prints import print_words
    from firstfire.verdict.explain.run import with_its_changes
    from firstfire.verdict.explain.text import explain_text

    margin = the_one(result.margins, ident, event, result.run_times)
    one = explanation(result, with_its_changes(result, margin, stop))
    one = replace(one, printed=print_words(result, margin, stop))
    if as_json:
        from firstfire.verdict.explain import contract as explain_contract

        return explain_contract.as_json(explain_contract.told(one))
    return explain_text(one, elsewhere(result.margins, margin), width=columns())
