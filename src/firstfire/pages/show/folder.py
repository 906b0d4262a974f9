"""The folder that is worked in: its engine files, and names for new ones. Nothing outside it."""

from __future__ import annotations

import re
from pathlib import Path

from firstfire.engine.read import LARGEST, SCHEMA
from firstfire.errors import FirstfireError

_MOST_LISTED = 40


def engines_in(folder: Path) -> list[Path]:
    """Engine files of a folder itself, by name; what leads out of it isn't one of them."""
    return sorted(path for path in folder.glob("*.toml") if _is_engine(path, folder))[:_MOST_LISTED]


def _is_engine(path: Path, folder: Path) -> bool:
    """By its content, not its name: what else lies there is left alone."""
    try:
        inside = path.resolve().is_relative_to(folder.resolve())
        return (
            inside
            and path.is_file()
            and path.stat().st_size <= LARGEST
            and SCHEMA in path.read_text("utf-8", "replace")
        )
    except (OSError, RuntimeError):
        return False


def one_of(known: list[Path], name: str) -> Path:
    """A file that was listed: no other can be named.

    Raises
    ------
    FirstfireError
        Where it isn't one.
    """
    for path in known:
        if path.name == name:
            return path
    raise FirstfireError("That file isn't there any more.")


def stem_of(wanted: str) -> str:
    """What somebody called an engine, as the name of a file: no step upwards, no sign of a shell.

    Examples
    --------
    >>> stem_of("../../My <engine>!.toml")
    'my-engine'
    """
    bare = wanted.lower().removesuffix(".toml")
    return re.sub(r"[^a-z0-9]+", "-", bare).strip("-")[:40] or "engine"


def free_name(folder: Path, wanted: str) -> Path:
    """A file in the folder that isn't there yet, named after what somebody called it.

    Examples
    --------
    >>> free_name(Path("/nowhere"), "../../My <engine>!").name
    'my-engine.toml'
    """
    stem = stem_of(wanted)
    names = (f"{stem}.toml", *(f"{stem}-{number}.toml" for number in range(2, 1000)))
    return next(path for name in names if not (path := folder / name).exists())
