"""A report in a file, whole or not at all."""

from __future__ import annotations

from pathlib import Path

from firstfire.errors import CannotWrite, FirstfireError
from firstfire.files import write_text
from firstfire.report.page import report
from firstfire.verdict.result import Result

_ENDINGS = (".html", ".htm")


def write_report(result: Result, path: Path, *, overwrite: bool = False) -> None:
    """Write the report of a check.

    Parameters
    ----------
    result
        From `check`.
    path
        Where to; ends in ``.html``.
    overwrite
        Whether a file that is there may be replaced.

    Raises
    ------
    CannotWrite
        Where the file can't be written; what was there is left whole.
    """
    report_file(path, overwrite=overwrite)
    write_text(path, report(result), overwrite=overwrite)


def report_file(path: Path, *, overwrite: bool = False) -> None:
    """Refuse a file that couldn't be written, before anything is run.

    Raises
    ------
    FirstfireError
        Another ending.
    CannotWrite
        A folder, a folder that isn't there, or a file that is there.
    """
    if path.suffix.lower() not in _ENDINGS:
        raise FirstfireError(f"--report {path}: write a file that ends in .html.")
    if path.is_dir():
        raise CannotWrite(f"{path} is a folder. Name a file in it.")
    if not path.absolute().parent.is_dir():
        raise CannotWrite(f"{path} can't be written: its folder isn't there. Make it first.")
    if path.exists() and not overwrite:
        raise CannotWrite(
            f"{path} is there already and stays as it is. Choose another name, or say --overwrite."
        )
