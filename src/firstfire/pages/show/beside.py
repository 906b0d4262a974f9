"""What lies beside the present engine: trials, other files, a plan; and the long work for them."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Literal

from firstfire.engine.read import read_text
from firstfire.errors import FirstfireError
from firstfire.pages.answers.described import Differing, described
from firstfire.pages.answers.messages import Errand, Told
from firstfire.pages.desk.desk import Desk
from firstfire.pages.desk.journal import journal_beside, left_at
from firstfire.pages.desk.sheet import Sheet, Trial
from firstfire.pages.show.asking import asked
from firstfire.pages.show.chosen import choices
from firstfire.pages.show.compared import Standing, compared
from firstfire.pages.show.errands import Errands
from firstfire.pages.show.folder import engines_in, one_of
from firstfire.pages.show.kept import Kept
from firstfire.pages.show.put_aside import put_aside
from firstfire.pages.show.steps import Steps

MOST = 4
"""Engines side by side."""
_QUIET = 0.7
"""Seconds without a change after which descriptions are compared anew."""
COMPARE = "/compare"
"""Address of the page that shows it."""
DOES = ("beside", "check beside", "plan", "halt", "tick", "lay", "put aside")


@dataclass(frozen=True)
class Column:
    """One engine that is compared: what it is called, its text with what lies over it."""

    words: str
    sheet: Sheet


def _called(name: str, sheet: Sheet) -> str:
    """What a file of the folder is called beside others."""
    return f"{name}, with what was measured" if sheet.laid else name


@dataclass
class Beside:
    """The other engines of the page *Compare*.

    Attributes
    ----------
    desk, kept
        What is worked on, and whole answers that are known.
    push
        Tells every tab.
    put
        Fills slots in every tab.
    """

    desk: Desk
    kept: Kept
    push: Callable[[dict[str, Any]], None]
    put: Callable[[dict[str, str]], None]

    def __post_init__(self) -> None:
        self._errands = Errands(self._heard, self.push)
        self.steps = Steps(self.desk)
        self._files: dict[str, Sheet] = {}
        self._out: list[Trial] = []
        self._keys: tuple[str, ...] = ()
        self._differing: Sequence[Differing] = ()
        self._faults: Mapping[int, str] = {}
        self._later: asyncio.Task[None] | None = None

    @property
    def folder(self) -> Path:
        """That the engine file is in: no other is looked into."""
        return self.desk.path.absolute().parent

    def columns(self) -> list[Column]:
        """The present engine, the trials that are ticked, the files that are: four at most."""
        sheet = self.desk.sheet
        found = [Column("the present engine", replace(sheet, shown=None))]
        for place, trial in enumerate(sheet.trials):
            if trial not in self._out:
                found.append(Column(trial.words, replace(sheet, shown=place)))
        found += [Column(_called(name, one), one) for name, one in self._files.items()]
        return found[:MOST]

    def state(self) -> dict[str, Any]:
        """For a tab that has nothing yet."""
        return {"errand": self._errands.state, "ticked": self.steps.ticked}

    async def do(self, what: Mapping[str, Any]) -> None:
        """What somebody did on the page.

        Raises
        ------
        FirstfireError
            Saying what can't be done.
        """
        kind = what["do"]
        if kind == "beside":
            await asyncio.to_thread(self._choose, what)
            await self.refresh()
        elif kind == "check beside":
            await self._begin("check", [c for c in self.columns() if self._wanted(c)])
        elif kind == "plan":
            await self._begin("plan", self.columns()[:1])
        elif kind == "halt":
            self._errands.halt()
        elif kind == "tick":
            await asyncio.to_thread(self.steps.tick, what)
            self.push({"ticked": self.steps.ticked})
        elif kind == "lay":
            self.desk.try_beside(self.steps.trial(what))
        elif kind == "put aside":
            said = await asyncio.to_thread(self._put_aside, what)
            self.push({"say": said})
            await self.refresh()

    def _choose(self, what: Mapping[str, Any]) -> None:
        on = bool(what["on"])
        if on and len(self.columns()) >= MOST:
            raise FirstfireError("Four engines side by side are the most: untick another first.")
        if "file" in what:
            name = str(what["file"])
            self._files.pop(name, None)
            if on:
                path = one_of(engines_in(self.folder), name)
                left = left_at(journal_beside(self.desk.kept_in, path))
                laid = left.now.laid if left is not None else ()
                self._files[path.name] = Sheet(read_text(path), laid=laid)
            return
        trial = self._trial(what["trial"])
        self._out = [one for one in self._out if one != trial] + ([] if on else [trial])

    def _trial(self, place: Any) -> Trial:
        """One that lies beside, by its place."""
        trials = self.desk.sheet.trials
        if not 0 <= int(place) < len(trials):
            raise ValueError("no such trial")
        return trials[int(place)]

    def _wanted(self, column: Column) -> bool:
        """Whether its whole check is still to be asked for: that of the one shown runs anyway."""
        key = column.sheet.key
        return self.kept.get(key) is None and key != self.desk.sheet.key

    async def _begin(self, what: Literal["check", "plan"], of: Sequence[Column]) -> None:
        if not of:
            raise FirstfireError(
                "All that is ticked is checked, or is being checked as the one shown."
            )
        questions = tuple(asked(one.sheet, self.desk.path, 0) for one in of)
        await self._errands.begin(Errand(what, questions, tuple(one.words for one in of)))

    def _heard(self, told: Told) -> None:
        """Something has come of long work."""
        if told.kind == "whole":
            self.kept.put(told.key, told.data)
            self.show()
        elif told.kind == "plan":
            self.steps.found(told)
            self.show()
            self.push({"ticked": self.steps.ticked})

    def _put_aside(self, what: Mapping[str, Any]) -> str:
        """Write one of them as a new file; what to say of it."""
        of = what["of"]
        values: Mapping[str, str] = {}
        reasons: Mapping[str, str] = {}
        if of == "steps":
            values, reasons = self.steps.trial(what).set, self.steps.plan.reasons
        elif of != "present":
            values = self._trial(of).set
        path, laid = put_aside(self.desk, str(what["name"])[:80], values, reasons)
        said = f"{path.name} is written. {self.desk.path.name} is as it was."
        if not laid:
            return said
        return (
            f"{said} What you measured is no part of a file: it lies over {path.name} too where "
            "these pages open it, and can be taken away there."
        )

    def changed(self) -> None:
        """The desk is another: compare descriptions anew once it rests."""
        if self._later is not None:
            self._later.cancel()
        self._later = asyncio.get_running_loop().create_task(self._rested())

    async def _rested(self) -> None:
        await asyncio.sleep(_QUIET)
        await self.refresh()

    async def refresh(self) -> None:
        """Read all that is compared, and show it."""
        columns = self.columns()
        keys = tuple(one.sheet.key for one in columns)
        if keys != self._keys:
            questions = [asked(one.sheet, self.desk.path, 0) for one in columns]
            found = (
                await asyncio.to_thread(described, questions) if len(questions) > 1 else ([], {})
            )
            self._keys, (self._differing, self._faults) = keys, found
        self.show()

    def show(self) -> None:
        """Fill the page's slots with what is known."""
        columns = self.columns()
        fits = self._keys == tuple(one.sheet.key for one in columns)
        standing = [
            Standing(
                one.words, self.kept.get(one.sheet.key), self._faults.get(at, "") if fits else ""
            )
            for at, one in enumerate(columns)
        ]
        found = {
            "compare": str(compared(standing, self._differing if fits else ())),
            "beside": str(self._choices()),
        }
        plan = self.steps.html()
        if plan is not None:
            found["plan"] = plan
        self.put(found)

    def _choices(self) -> str:
        sheet = self.desk.sheet
        with contextlib.suppress(OSError):
            files = [p.name for p in engines_in(self.folder) if p.name != self.desk.path.name]
        return choices(
            [(one.words, one not in self._out) for one in sheet.trials],
            [(name, name in self._files) for name in files],
            self.desk.path.stem,
        )

    def close(self) -> None:
        """End what works for it."""
        if self._later is not None:
            self._later.cancel()
        self._errands.close()
