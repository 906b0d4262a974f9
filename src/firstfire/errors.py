"""What can go wrong, by what the user can do about it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


class FirstfireError(Exception):
    """Anything firstfire refuses, told in one clear message.

    The command line prints the message and exits with 2; no traceback is shown.
    """


@dataclass(frozen=True)
class Problem:
    """One thing wrong at one place: where, what is wrong, what would be right.

    Attributes
    ----------
    path
        Dotted path of the value (``piston.material``), or "" for the whole file.
    fault
        What is wrong, as a clause without a full stop.
    cure
        What would be right, as a sentence.
    line
        Line in the file, counted from 1; 0 where there is none.
    """

    path: str
    fault: str
    cure: str
    line: int = 0

    def __str__(self) -> str:
        place = f"line {self.line}: " if self.line else ""
        subject = f"{self.path} " if self.path else ""
        return f"{place}{subject}{self.fault}. {self.cure}".rstrip()


class EngineFileError(FirstfireError):
    """The engine file (or a layer on top of it) is wrong: every problem at once.

    Attributes
    ----------
    problems
        All problems found, in the order of the file.
    """

    def __init__(self, where: str, problems: list[Problem]) -> None:
        self.where = where
        self.problems = problems
        if len(problems) == 1 and not problems[0].path and not problems[0].line:
            super().__init__(f"{where} {problems[0]}")
            return
        count = "1 problem" if len(problems) == 1 else f"{len(problems)} problems"
        super().__init__(f"{where}: {count}\n" + "\n".join(f"  {p}" for p in problems))


class CatalogError(FirstfireError):
    """The catalog has no such row, or a row may not be trusted as it stands."""


class OutsideValidity(FirstfireError):  # noqa: N818 - it is a refusal, not a malfunction
    """The model does not hold here, and says so instead of answering."""


class CannotWrite(FirstfireError):  # noqa: N818
    """A file can't be written; what was there before is left whole."""


class Stopped(FirstfireError):  # noqa: N818
    """The user stopped the work; what was finished is kept.

    Attributes
    ----------
    partial
        The result of what was finished, or None where nothing was.
    """

    def __init__(self, message: str, partial: Any = None) -> None:
        super().__init__(message)
        self.partial = partial


class Interrupted(KeyboardInterrupt):
    """Ctrl-C during a check; what was finished is kept.

    Attributes
    ----------
    partial
        The result of what was finished, or None where nothing was.
    """

    def __init__(self, partial: Any = None) -> None:
        super().__init__()
        self.partial = partial
