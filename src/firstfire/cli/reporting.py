"""``--report OUT.html``: a check or a start as one page, and ``--open`` to show a check's."""

from __future__ import annotations

import sys
import webbrowser
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from firstfire.errors import FirstfireError

if TYPE_CHECKING:
    from firstfire.runs.start.account import Account
    from firstfire.verdict.result import Result


def report_wanted(file: Path | None, *, overwrite: bool) -> None:
    """Refuse what couldn't be written, before anything is run.

    Raises
    ------
    FirstfireError
        ``--open`` without a report; a file with another ending, or that is there.
    """
    if file is None:
        raise FirstfireError("--open shows a report. Say --report OUT.html too.")
    from firstfire.report.write import report_file

    report_file(file, overwrite=overwrite)


def reported(result: Result, file: Path, *, overwrite: bool, show: bool) -> None:
    """Write the report, say so on stderr, and show it if wanted.

    Raises
    ------
    CannotWrite
        Where the file can't be written; what was there is left whole.
    """
    from firstfire.report.write import write_report

    write_report(result, file, overwrite=overwrite)
    print(f"The report is in {file}.", file=sys.stderr)
    if show and not webbrowser.open(file.resolve().as_uri()):
        print("No browser could be started; open it yourself.", file=sys.stderr)


def start_reported(found: Account, file: Path, wrong: Sequence[str], *, overwrite: bool) -> None:
    """Write the page of a start, and say so on stderr.

    Parameters
    ----------
    found, wrong
        The account of it, and the faults that it was given.
    file, overwrite
        Where to, and whether a file that is there may be replaced.

    Raises
    ------
    CannotWrite
        Where the file can't be written; what was there is left whole.
    """
    from firstfire.report.start import write_start_report

    write_start_report(found, file, wrong, overwrite=overwrite)
    print(f"The report is in {file}.", file=sys.stderr)
