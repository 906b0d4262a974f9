"""The desk: one engine file that is worked on, for every tab that shows it."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal

from firstfire.errors import CannotWrite, FirstfireError
from firstfire.pages.desk.edits import as_file_has_it, set_value, take_out
from firstfire.pages.desk.history import History
from firstfire.pages.desk.journal import Journal, journal_file
from firstfire.pages.desk.on_disk import Seen, digest, look, put
from firstfire.pages.desk.sheet import Sheet, Trial

State = Literal["saved", "changed", "in conflict", "not saved yet"]
_ONE_GO = 3.0
"""Seconds within which letters typed in one field are one step."""


@dataclass(frozen=True)
class Conflict:
    """What stands on disk (None: the file is gone) against what stands on the desk."""

    theirs: str | None
    mine: str


class Desk:
    """The document, shared by all tabs.

    Parameters
    ----------
    path
        Of the engine file; it need not be there yet.
    text
        What to begin with where it isn't.
    journal
        Where what is done is kept to the side; None for its usual place.
    clock
        Seconds, rising.

    Raises
    ------
    FirstfireError
        Where the file can't be read, or another firstfire has it open.
    """

    def __init__(
        self,
        path: Path,
        text: str = "",
        *,
        journal: Path | None = None,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self.path, self._clock = path, clock
        self._seen, there = look(path)
        self._journal = Journal(journal or journal_file(path))
        self.version = 0
        self.taken_up = False
        """Whether work that was left unsaved was found and goes on."""
        self._theirs: str | None = None
        self._in_conflict = False
        self._typing: tuple[str, float] | None = None
        self._history = History.begun(Sheet(there if there is not None else text))
        self._base = self._seen.digest
        self._take_up(there)

    def _take_up(self, there: str | None) -> None:
        """Go on where a killed server left off; a file that changed under work is a conflict."""
        left = self._journal.read()
        if left is not None:
            history, base = left
            self._history, now = history, digest(history.now.text)
            if now == base != self._seen.digest and there is not None:  # nothing was unsaved
                self._history = history.then(self._with_text(there), "changed by an editor")
            elif now != self._seen.digest:
                self._base, self.taken_up = base, True
                self._in_conflict = base != self._seen.digest
                self._theirs = there if self._in_conflict else None
        self._journal.begin(self._history, self._base)

    @property
    def kept_in(self) -> Path:
        """The file in which what is done is kept: others of its kind lie beside it."""
        return self._journal.file

    @property
    def sheet(self) -> Sheet:
        """The state that holds."""
        return self._history.now

    @property
    def undoes(self) -> str | None:
        """What *undo* would take back; None where there is nothing."""
        return self._history.undoes

    @property
    def redoes(self) -> str | None:
        """What *redo* would bring back; None where there is nothing."""
        return self._history.redoes

    @property
    def state(self) -> State:
        """How it stands to the file on disk."""
        if self._in_conflict:
            return "in conflict"
        if self._base is None:
            return "not saved yet"
        return "saved" if digest(self.sheet.text) == self._base else "changed"

    @property
    def conflict(self) -> Conflict | None:
        """Both sides, where an editor has changed the file under unsaved work."""
        return Conflict(self._theirs, self.sheet.text) if self._in_conflict else None

    def set(self, path: str, said: str) -> None:
        """Set one value, as it was typed; "" gives it back to its default.

        What another tab set meanwhile stays, unless it is this very value.

        Parameters
        ----------
        path, said
            Where, and what was typed.

        Raises
        ------
        NotToml
            Where the text isn't TOML at present.
        """
        text = self.sheet.text
        if said.strip():
            text = set_value(text, path, as_file_has_it(path, said))
        else:
            text = take_out(text, path)
        self.becomes(self._with_text(text), path, go=path)

    def becomes(self, sheet: Sheet, why: str, *, go: str = "") -> None:
        """Let another sheet hold.

        Parameters
        ----------
        sheet, why
            The new one, and what led to it.
        go
            What comes within seconds under the same name is one step to undo; "" for a step each.
        """
        now, typing = self._clock(), self._typing
        on = bool(go) and typing is not None and typing[0] == go
        instead = on and typing is not None and now - typing[1] < _ONE_GO
        self._do(sheet, why, instead=instead)
        self._typing = (go, now) if go else None

    def write(self, text: str, seen: int) -> None:
        """Take over a whole text that was edited in a page.

        Raises
        ------
        FirstfireError
            Where the desk has gone on since the version that the editing began from: nothing is
            lost, and nothing taken over.
        """
        if seen != self.version:
            raise FirstfireError(
                "The engine was changed in another tab meanwhile. Your text is still in the field: "
                "copy what you need of it, then look at the new one."
            )
        self._do(self._with_text(text), "the text")

    def try_beside(self, trial: Trial) -> None:
        """Lay a trial beside the present engine, and show it."""
        self._do(self.sheet.with_trial(trial), f"trial: {trial.words}")

    def show(self, place: int | None) -> None:
        """Show one of the trials, or the present engine."""
        if place is not None and not 0 <= place < len(self.sheet.trials):
            return
        sheet = replace(self.sheet, shown=place)
        self._do(sheet, "the present engine" if place is None else self.sheet.trials[place].words)

    def drop(self, place: int) -> None:
        """Take a trial away again."""
        if 0 <= place < len(self.sheet.trials):
            self._do(self.sheet.without_trial(place), "a trial taken away")

    def take(self, place: int) -> None:
        """Write a trial's values into the engine file's text.

        Raises
        ------
        NotToml
            Where the text isn't TOML at present.
        """
        if not 0 <= place < len(self.sheet.trials):
            return
        trial, text = self.sheet.trials[place], self.sheet.text
        for path, said in trial.set.items():
            text = set_value(text, path, as_file_has_it(path, said))
        left = self.sheet.without_trial(place)
        self._do(replace(left, text=text, shown=None), trial.words)

    def undo(self) -> None:
        """One step back."""
        self._move(self._history.back())

    def redo(self) -> None:
        """One step forth."""
        self._move(self._history.forth())

    def look(self) -> bool:
        """See whether an editor has changed the file; whether anything is different now.

        Unchanged work follows the file, as a step that can be undone; changed work stands against
        it as a conflict.

        Raises
        ------
        FirstfireError
            Where the file can't be read any more.
        """
        seen, text = look(self.path, self._seen)
        if seen == self._seen:
            return False
        before, self._seen = self._seen, seen
        if seen.digest == before.digest:
            return False
        if seen.digest == digest(self.sheet.text):
            self._agreed(seen)
        elif self.state == "saved" and text is not None:
            self._do(self._with_text(text), "changed by an editor")
            self._agreed(seen)
        else:
            self._in_conflict, self._theirs = True, text
        self.version += 1
        return True

    def keep_mine(self) -> None:
        """Let what stands on the desk hold: the next save writes it over the other."""
        if self._in_conflict:
            self._agreed(self._seen)
            self.version += 1

    def take_theirs(self) -> None:
        """Let what stands on disk hold; what stood on the desk can be had back by undo."""
        theirs = self._theirs
        if self._in_conflict and theirs is not None:
            self._do(self._with_text(theirs), "what stood on disk")
            self._agreed(self._seen)

    def save(self) -> None:
        """Write the text into its file.

        Raises
        ------
        CannotWrite
            Where the file was changed by somebody else meanwhile, or can't be written.
        """
        self.look()
        if self._in_conflict:
            raise CannotWrite(
                f"{self.path.name} was changed by another program meanwhile. Choose which of the "
                "two holds; nothing was written."
            )
        self._agreed(put(self.path, self.sheet.text, replace=self._base is not None))
        self.version += 1

    def close(self) -> None:
        """Let another firstfire have it."""
        self._journal.close()

    def _with_text(self, text: str) -> Sheet:
        return replace(self.sheet, text=text)

    def _do(self, sheet: Sheet, why: str, *, instead: bool = False) -> None:
        self._typing = None
        if sheet == self.sheet:
            return
        self._history = self._history.then(sheet, why, instead=instead)
        if self._journal.long:
            self._journal.begin(self._history, self._base)
        else:
            self._journal.then(sheet, why, instead=instead)
        self.version += 1

    def _move(self, history: History) -> None:
        self._typing = None
        if history.at != self._history.at:
            self._history = history
            self._journal.at(history.at)
            self.version += 1

    def _agreed(self, seen: Seen) -> None:
        """What stands on disk is known, and what stands on the desk may follow it."""
        self._seen, self._base = seen, seen.digest
        self._in_conflict, self._theirs = False, None
        self._journal.base(seen.digest)
