"""``firstfire check``: what was asked for, run once and shown; again at each save if watched."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from firstfire.errors import FirstfireError

if TYPE_CHECKING:
    from firstfire.verdict.result import Result


ENGINES = 32
"""How many engines like it a check follows, where nothing else is said."""


@dataclass(frozen=True)
class Wanted:
    """What ``check`` was asked for.

    Attributes
    ----------
    file, tried, layers, life, at
        The engine, its trial values and overlay files, the life that is meant, speeds.
    engines
        How many engines like it are followed.
    traces, report, open_it, overwrite
        Files that are written, whether the page is shown, whether files may be replaced.
    as_json, full
        For machines; whether all is told and not one screen of it.
    """

    file: Path
    tried: tuple[str, ...]
    layers: tuple[Path, ...]
    life: str | None
    at: tuple[str, ...]
    engines: int
    traces: Path | None
    report: Path | None
    open_it: bool
    overwrite: bool
    as_json: bool
    full: bool

    @classmethod
    def plainly(cls, file: Path) -> Wanted:
        """What ``firstfire check FILE`` asks for."""
        return cls(file, (), (), None, (), ENGINES, None, None, False, False, False, False)

    def refuse_files(self) -> None:
        """Refuse files that couldn't be written, before anything is run.

        Raises
        ------
        FirstfireError
            With what is wrong with one.
        """
        if self.traces is not None:
            from firstfire.cli.traces import trace_file

            trace_file(self.traces, overwrite=self.overwrite)
        if self.report is not None or self.open_it:
            from firstfire.cli.reporting import report_wanted

            report_wanted(self.report, overwrite=self.overwrite)

    def shown(self, result: Result, most: int | None = None) -> str:
        """A result as it was asked for: one screen of at most so many lines, all, or JSON."""
        if self.as_json:
            return result.to_json()
        from firstfire.cli.terminal import columns

        if self.full:
            from firstfire.verdict.words.text.show import check_text

            return check_text(result, width=columns())
        from firstfire.verdict.words.commands import Asked
        from firstfire.verdict.words.text.screen import LINES, screen_text

        layers = tuple(map(str, self.layers))
        asked = Asked(str(self.file), self.tried, layers, self.life)
        return screen_text(result, asked, width=columns(), most=LINES if most is None else most)

    def write_files(self, result: Result) -> None:
        """The curves and the page, where they were asked for."""
        if self.traces is not None:
            from firstfire.cli.traces import write_traces

            write_traces(self.traces, result, overwrite=self.overwrite)
        if self.report is not None:
            from firstfire.cli.reporting import reported

            reported(result, self.report, overwrite=self.overwrite, show=self.open_it)


def checked(wanted: Wanted) -> Callable[[Callable[[], bool]], Result]:
    """What runs the check once, stopped where what it is given says so.

    Raises
    ------
    FirstfireError
        With what is wrong with the engine, its speeds or its life.
    """
    from firstfire.cli.asking import asked_engine, asked_life, asked_speeds
    from firstfire.cli.progress import Working

    engine = asked_engine(wanted.file, wanted.tried, wanted.layers)
    speeds, meant = asked_speeds(wanted.at), asked_life(wanted.life)

    def run(stop: Callable[[], bool]) -> Result:
        from firstfire.verdict.check import check

        with Working() as working:
            return check(
                engine, speeds=speeds, only=meant, drawn=wanted.engines, stop=stop,
                on_progress=working,
            )  # fmt: skip

    return run


def refuse_watching(wanted: Wanted, *, strict: bool) -> None:
    """Refuse what has no meaning for a check that is repeated.

    Raises
    ------
    FirstfireError
        ``--json`` or ``--strict`` beside ``--watch``.
    """
    for option, said in (("--json", wanted.as_json), ("--strict", strict)):
        if said:
            raise FirstfireError(f"--watch goes on until Ctrl-C, to be read: leave {option} out.")
