"""The engine file on disk, and whether an editor has changed it since it was last seen."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path

from firstfire.engine.read import read_text
from firstfire.errors import FirstfireError
from firstfire.files import write_text


@dataclass(frozen=True)
class Seen:
    """A file as it was last seen: its stamp, its text's hash; None where it wasn't there."""

    stamp: tuple[int, int, int] | None
    digest: str | None


def digest(text: str) -> str:
    """A text's hash."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def look(path: Path, before: Seen | None = None) -> tuple[Seen, str | None]:
    """The file as it is now, and its text where that isn't what it was before.

    Parameters
    ----------
    path
        Of the file.
    before
        As it was last seen; None to read it whatever it was.

    Raises
    ------
    FirstfireError
        Where it is there and can't be read as text.
    """
    stamp = _stamp(path)
    if before is not None and stamp == before.stamp:
        return before, None
    if stamp is None:
        return Seen(None, None), None
    text = read_text(path)
    seen = Seen(stamp, digest(text))
    return seen, None if before is not None and before.digest == seen.digest else text


def put(path: Path, text: str, *, replace: bool) -> Seen:
    """Write the text, to the side first, and give how the file is now.

    Raises
    ------
    CannotWrite
        Where it can't be written, or is there and may not be replaced.
    """
    write_text(path, text, overwrite=replace)
    return Seen(_stamp(path), digest(text))


def _stamp(path: Path) -> tuple[int, int, int] | None:
    try:
        known = path.stat()
    except FileNotFoundError:
        return None
    except OSError as why:
        raise FirstfireError(f"{path} can't be looked at: {why.strerror or why}.") from None
    return known.st_mtime_ns, known.st_size, known.st_ino
