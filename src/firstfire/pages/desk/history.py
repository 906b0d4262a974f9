"""Undo and redo: sheets one after the other, and which of them holds."""

from __future__ import annotations

from dataclasses import dataclass, replace

from firstfire.pages.desk.sheet import Sheet

MOST, MOST_LETTERS = 300, 4_000_000
"""Sheets, and letters of all of them, that are kept; the oldest are forgotten."""


@dataclass(frozen=True)
class Step:
    """A sheet, and what led to it: what can be said beside *undo*."""

    sheet: Sheet
    why: str


@dataclass(frozen=True)
class History:
    """All steps, and the place of the one that holds."""

    steps: tuple[Step, ...]
    at: int = 0

    @classmethod
    def begun(cls, sheet: Sheet, why: str = "") -> History:
        """A history of one sheet."""
        return cls((Step(sheet, why),))

    @property
    def now(self) -> Sheet:
        """The sheet that holds."""
        return self.steps[self.at].sheet

    def then(self, sheet: Sheet, why: str, *, instead: bool = False) -> History:
        """One step on; what was undone is gone.

        Parameters
        ----------
        sheet, why
            The new one, and what led to it.
        instead
            Whether it takes the place of the step that holds: more letters typed in one field.
        """
        kept = self.steps[: self.at + (0 if instead and self.at else 1)]
        steps = _newest((*kept, Step(sheet, why)))
        return History(steps, len(steps) - 1)

    def back(self) -> History:
        """One step back, if there is one."""
        return replace(self, at=max(self.at - 1, 0))

    def forth(self) -> History:
        """One step forth, if there is one."""
        return replace(self, at=min(self.at + 1, len(self.steps) - 1))

    @property
    def undoes(self) -> str | None:
        """What *undo* would take back; None where there is nothing."""
        return self.steps[self.at].why if self.at else None

    @property
    def redoes(self) -> str | None:
        """What *redo* would bring back; None where there is nothing."""
        return self.steps[self.at + 1].why if self.at + 1 < len(self.steps) else None


def _newest(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The last of them: as many as are kept, two at least."""
    letters = 0
    for count, step in enumerate(reversed(steps), start=1):
        letters += len(step.sheet.text)
        if count > 2 and (count > MOST or letters > MOST_LETTERS):
            return steps[len(steps) - count + 1 :]
    return steps
