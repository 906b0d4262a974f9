"""What was done at a desk, line by line to the side, so that a killed server loses nothing."""

from __future__ import annotations

import contextlib
import fcntl
import hashlib
import json
import os
import tempfile
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any

from firstfire.errors import CannotWrite, FirstfireError
from firstfire.pages.desk.history import History
from firstfire.pages.desk.sheet import Sheet

_MOST_LINES, _MOST_BYTES = 2000, 16_000_000


class Journal:
    """A file of steps. A line that was cut off is left out; all before it holds.

    Parameters
    ----------
    file
        Where.

    Raises
    ------
    FirstfireError
        Where another firstfire has the same desk open.
    """

    def __init__(self, file: Path) -> None:
        self.file = file
        try:
            file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            self._stream = file.open("a+", encoding="utf-8")
        except OSError as why:
            raise CannotWrite(f"{file} can't be written: {why.strerror or why}.") from None
        try:
            fcntl.flock(self._stream, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            self._stream.close()
            raise FirstfireError(
                "This engine is open already in another firstfire: use the page that it opened, "
                "or end that one first."
            ) from None
        self._lines = 0

    def read(self) -> tuple[History, str | None] | None:
        """The history that was left, and the hash of the file it was about; None for none."""
        self._stream.seek(0)
        history, base, self._lines = _read(self._stream)
        return None if history is None else (history, base)

    def begin(self, history: History, base: str | None) -> None:
        """Start anew with a history, and the hash of the file's text that it is about."""
        lines = [_written({"do": "base", "sha": base})]
        lines += [
            _written({"do": "then", "why": step.why, "sheet": step.sheet.as_data()})
            for step in history.steps
        ]
        lines.append(_written({"do": "at", "at": history.at}))
        self._stream.seek(0)
        self._stream.truncate()
        self._write(lines)
        self._lines = len(lines)

    def then(self, sheet: Sheet, why: str, *, instead: bool) -> None:
        """Note a step."""
        data = {"do": "instead" if instead else "then", "why": why, "sheet": sheet.as_data()}
        self._write([_written(data)])

    def at(self, place: int) -> None:
        """Note an undo or a redo."""
        self._write([_written({"do": "at", "at": place})])

    def base(self, sha: str | None) -> None:
        """Note which text of the file on disk it is about from now on."""
        self._write([_written({"do": "base", "sha": sha})])

    @property
    def long(self) -> bool:
        """Whether it is time to start it anew."""
        return self._lines > _MOST_LINES or self._stream.tell() > _MOST_BYTES

    def close(self) -> None:
        """Let another have it."""
        self._stream.close()

    def _write(self, lines: Iterable[str]) -> None:
        try:
            for line in lines:
                self._stream.write(line)
                self._lines += 1
            # Into the system's hands: what kills this process doesn't lose it.
            self._stream.flush()
        except OSError as why:
            raise CannotWrite(f"{self.file} can't be written: {why.strerror or why}.") from None


def left_at(file: Path) -> History | None:
    """What a journal holds, without taking it up; None where nothing is left there."""
    with contextlib.suppress(OSError, UnicodeDecodeError), file.open(encoding="utf-8") as stream:
        return _read(stream)[0]
    return None


def _read(stream: Iterable[str]) -> tuple[History | None, str | None, int]:
    """The history, the hash of the file it is about, and how many lines they took."""
    history: History | None = None
    base: str | None = None
    lines = 0
    for line in stream:
        done = _line(line)
        if done is None:
            break
        lines += 1
        try:
            history, base = _redone(history, base, done)
        except (KeyError, TypeError, ValueError, IndexError):
            break
    return history, base, lines


def _written(data: dict[str, Any]) -> str:
    return json.dumps(data, ensure_ascii=True) + "\n"


def _line(line: str) -> dict[str, Any] | None:
    with contextlib.suppress(ValueError):
        data = json.loads(line)
        if line.endswith("\n") and isinstance(data, dict):
            return data
    return None


def _redone(
    history: History | None, base: str | None, done: dict[str, Any]
) -> tuple[History | None, str | None]:
    """The history after one line more."""
    what = done["do"]
    if what == "base":
        return history, done["sha"]
    if what == "at":
        if history is None or not 0 <= int(done["at"]) < len(history.steps):
            raise ValueError("an undo of nothing")
        return replace(history, at=int(done["at"])), base
    sheet, why = Sheet.from_data(done["sheet"]), str(done["why"])
    if history is None:
        return History.begun(sheet, why), base
    return history.then(sheet, why, instead=what == "instead"), base


def journal_beside(journal: Path, path: Path) -> Path:
    """Where the journal of an engine file is, that of another being known."""
    return journal.with_name(_name(path))


def _name(path: Path) -> str:
    whole = str(path.absolute()).encode("utf-8", "surrogateescape")
    return f"{hashlib.sha256(whole).hexdigest()[:24]}.jsonl"


def journal_file(path: Path) -> Path:
    """Where the journal of an engine file is kept: ``$XDG_STATE_HOME/firstfire``, or beside it."""
    state = os.environ.get("XDG_STATE_HOME", "").strip()
    places = [Path(state)] if state else [Path.home() / ".local" / "state"]
    for place in (*places, Path(tempfile.gettempdir()) / f"firstfire-{os.getuid()}"):
        with contextlib.suppress(OSError):
            folder = place / "firstfire" / "desk"
            folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            if os.access(folder, os.W_OK):
                return folder / _name(path)
    raise CannotWrite("No folder is there to keep what you do: set XDG_STATE_HOME to one.")
