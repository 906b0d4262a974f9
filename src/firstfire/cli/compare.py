"""``firstfire compare``: several files, or one file with groups of changes, side by side."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path

from firstfire.cli.asking import asked_engine, set_values
from firstfire.cli.terminal import columns
from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.errors import EngineFileError, FirstfireError, Problem

MOST = 8
_OPENING, _CLOSING = "[{", "]}"


def compared(
    files: Sequence[Path],
    groups: Sequence[str],
    tried: Sequence[str],
    *,
    as_json: bool,
    stop: Callable[[], bool],
) -> str:
    """The comparison that was asked for, as text or JSON.

    Parameters
    ----------
    files
        Engine files, the first being what the others are held against.
    groups
        With one file: changes for each further engine, ``"path=value; path=value"``.
    tried
        Changes made to all of them.
    as_json
        For machines.
    stop
        Asked at least every 0.1 s; true stops, and shows what was finished.

    Raises
    ------
    FirstfireError
        With every problem of every file and group at once.
    """
    engines = asked(files, groups, tried)
    from firstfire.cli.progress import Working
    from firstfire.cli.stopped import showing_what_is_finished
    from firstfire.setup.parts_list import parts_list
    from firstfire.verdict.compare.compare import compare

    masses = [parts_list(engine).printed_mass for _, engine in engines]
    with showing_what_is_finished(as_json=as_json), Working() as working:
        found = compare(engines, printed_masses=masses, stop=stop, on_progress=working)
    if as_json:
        return found.to_json()
    from firstfire.verdict.compare.text import compare_text

    return compare_text(found, width=columns())


def asked(
    files: Sequence[Path], groups: Sequence[str], tried: Sequence[str]
) -> list[tuple[str, Engine]]:
    """What to call each engine, and the engines.

    Raises
    ------
    FirstfireError
        With every problem of every file and group at once.
    """
    _enough(files, groups)
    read = [partial(_from_file, file, tried) for file in files]
    read += [partial(_from_group, files[0], tried, text) for text in groups]
    found, refusals = [], []
    for one in read:
        try:
            found.append(one())
        except FirstfireError as why:
            refusals.append(str(why))
    if refusals:
        raise FirstfireError("\n".join(dict.fromkeys(refusals)))
    return _told_apart(found)


def _enough(files: Sequence[Path], groups: Sequence[str]) -> None:
    """Refuse what is no comparison."""
    if len(files) > 1 and groups:
        raise FirstfireError(
            "--with goes with one file: it makes further engines of it. Name one file, or leave "
            "--with out; --set changes all of them."
        )
    if len(files) == 1 and not groups:
        raise FirstfireError(
            f"{files[0]} has nothing to stand beside it. Name a second file, or say what to "
            "change: --with 'head.fasteners.count=6; rings.count=1'."
        )
    if len(files) + len(groups) > MOST:
        raise FirstfireError(f"At most {MOST} engines are compared at a time; leave some out.")


def _from_file(file: Path, tried: Sequence[str]) -> tuple[str, Engine]:
    engine = asked_engine(file, tried, [])
    return engine.name, engine


def _from_group(file: Path, tried: Sequence[str], text: str) -> tuple[str, Engine]:
    name, pieces = group(text)
    engine = asked_engine(file, tried, [])
    where = f"--with '{text}'"
    try:
        changed = with_values(engine, set_values(pieces), origin=where)
    except EngineFileError as why:
        wrong = [replace(p, path="") if p.path == "--set" else p for p in why.problems]
        raise EngineFileError(where, wrong) from None
    return name or f"{engine.name} with {'; '.join(pieces)}", changed


def group(text: str) -> tuple[str, list[str]]:
    """A group of changes: its name, "" where it has none, and each ``path=value``.

    ``"six bolts: head.fasteners.count=6; rings.count=1"``: pieces between semicolons, those in
    brackets or quotes left whole; what stands before a colon ahead of the first ``=`` is a name.

    Raises
    ------
    EngineFileError
        Where nothing is changed.

    Examples
    --------
    >>> group("one ring: rings.count=1; head.fasteners.count = 6")
    ('one ring', ['rings.count=1', 'head.fasteners.count = 6'])
    """
    head, colon, rest = text.partition(":")
    name, body = (head.strip(), rest) if colon and "=" not in head else ("", text)
    pieces = [piece.strip() for piece in _pieces(body) if piece.strip()]
    if not pieces:
        fault, cure = "changes nothing", "Write --with 'path=value; path=value'."
        raise EngineFileError(f"--with '{text}'", [Problem("", fault, cure)])
    return name, pieces


def _pieces(text: str) -> list[str]:
    """Cut at semicolons that stand in no bracket and no quotes."""
    pieces, depth, quote = [""], 0, ""
    for sign in text:
        if quote:
            quote = "" if sign == quote else quote
        elif sign in "'\"":
            quote = sign
        depth += (sign in _OPENING) - (sign in _CLOSING)
        if sign == ";" and depth <= 0 and not quote:
            pieces.append("")
        else:
            pieces[-1] += sign
    return pieces


def _told_apart(found: Sequence[tuple[str, Engine]]) -> list[tuple[str, Engine]]:
    """Labels with the file behind them where two would be called the same."""
    labels = [label for label, _ in found]
    return [
        (label if labels.count(label) == 1 else f"{label} ({engine.where})", engine)
        for label, engine in found
    ]
