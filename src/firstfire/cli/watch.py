"""``firstfire check --watch``: a check that is repeated whenever its files are saved."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from firstfire.cli.checking import Wanted, checked
from firstfire.errors import FirstfireError, Stopped

if TYPE_CHECKING:
    from firstfire.verdict.result import Result

_LOOK = 0.5
"""Seconds between two looks at the files."""
_SETTLE = 0.1
"""Seconds for which a file stays as it is once an editor has saved it."""
_MOST_GONE = 10
"""Looks after which a file that was moved away is taken to be gone."""
_OWN_ROWS = "catalog.toml"

Pressed = Callable[[], bool]


class Files:
    """Files that are looked at now and then, whether they were saved.

    Parameters
    ----------
    paths
        Of each; one that isn't there may come.
    """

    def __init__(self, paths: Iterable[Path]) -> None:
        self.paths = tuple(paths)
        self._told = self._looked_at = 0.0
        self.note()

    def note(self) -> None:
        """Take them as they are now."""
        self._stamps, self._text = self._now(), self._read()

    def saved(self) -> bool:
        """Whether one was written, replaced or taken away since they were last noted.

        Looks no more often than twice a second.
        """
        if time.monotonic() - self._looked_at < _LOOK:
            return False
        self._looked_at = time.monotonic()
        return self._now() != self._stamps

    def settled(self) -> None:
        """Wait until an editor has done with them: it may empty a file first, or move it away."""
        before, looks = None, 0
        while (now := self._now()) != before or (now[0] is None and looks < _MOST_GONE):
            before, looks = now, looks + 1
            time.sleep(_SETTLE)

    def changed(self) -> bool:
        """Whether there stands something else in them than when they were last noted."""
        return self._read() != self._text

    def _now(self) -> list[tuple[int, int, int] | None]:
        return [_stamp(path) for path in self.paths]

    def _read(self) -> list[str]:
        return [_digest(path) for path in self.paths]


def _stamp(path: Path) -> tuple[int, int, int] | None:
    try:
        known = path.stat()
    except OSError:
        return None
    return known.st_mtime_ns, known.st_size, known.st_ino


def _digest(path: Path) -> str:
    try:
        return sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def watch(wanted: Wanted, pressed: Pressed) -> None:
    """Check, show, wait for a save, and so on until Ctrl-C.

    A file that can't be read is told, and waited for; so is a check that a save made useless.

    Parameters
    ----------
    wanted
        What is checked and shown.
    pressed
        Whether Ctrl-C was.

    Raises
    ------
    FirstfireError
        Where the engine's file isn't there to begin with.
    """
    if not wanted.file.exists():
        checked(wanted)  # says so
    files = Files([wanted.file, *wanted.layers, wanted.file.parent / _OWN_ROWS])
    last: Result | None = None
    while not pressed():
        last = _once(wanted, files, pressed, last)
        if not pressed():
            _say(f"Watching {_named(files.paths)}: save to check again, Ctrl-C to end.")
        if last is not None:  # its files may now be replaced: they are ours
            wanted = replace(wanted, overwrite=True, open_it=False)
        _until_saved(files, pressed)


def _once(wanted: Wanted, files: Files, pressed: Pressed, last: Result | None) -> Result | None:
    """One check, shown with what it changed; begun anew where a save comes meanwhile."""
    while True:
        files.note()
        try:
            result = checked(wanted)(lambda: pressed() or files.saved())
        except Stopped:
            if pressed():
                return last
            files.settled()
            continue
        except FirstfireError as refusal:
            _refused(refusal, last)
            return last
        _show(wanted, result, last)
        return result


def _until_saved(files: Files, pressed: Pressed) -> None:
    """Wait until something else stands in a file; a save that changes nothing is passed over."""
    while not pressed():
        time.sleep(_LOOK)
        if files.saved():
            files.settled()
            if files.changed():
                return
            files.note()
            _say("Saved without a change.")


def _show(wanted: Wanted, result: Result, last: Result | None) -> None:
    """The result below what it changed, on one screen."""
    from firstfire.cli.terminal import ROWS, columns, rows
    from firstfire.verdict.compare.since import since

    above = [] if last is None else [_rule(columns()), *since(last, result, columns()), ""]
    most = min(ROWS, rows() - len(above) - _BELOW)
    print("\n".join([*above, wanted.shown(result, most)]), flush=True)
    wanted.write_files(result)


_BELOW = 2
"""Lines below the answer: what is watched, and the cursor."""


def _rule(width: int) -> str:
    """The time between rules."""
    return f"-- {time.strftime('%H:%M:%S')} ".ljust(width, "-")


def _refused(refusal: FirstfireError, last: Result | None) -> None:
    from firstfire.cli.terminal import hung

    stands = "" if last is None else "\nThe answer above is of the file as it was."
    _say(f"{hung(str(refusal))}{stands}")


def _named(paths: Sequence[Path]) -> str:
    from firstfire.verdict.words.sentences import listed

    return listed([path.name for path in paths if path.exists()]) or paths[0].name


def _say(text: str) -> None:
    print(text, file=sys.stderr, flush=True)
