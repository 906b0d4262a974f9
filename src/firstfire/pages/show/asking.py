"""A sheet of the desk as a question to what computes."""

from __future__ import annotations

from pathlib import Path

from firstfire.pages.answers.messages import Asked
from firstfire.pages.desk.sheet import Sheet


def asked(sheet: Sheet, file: Path, number: int) -> Asked:
    """A question about a sheet, with nothing wanted of it yet.

    Parameters
    ----------
    sheet, file
        What it is about, and the engine file behind it.
    number
        Of the question.
    """
    return Asked(
        number, sheet.key, sheet.present.key, sheet.text, file.name,
        str(file.absolute().parent), sheet.trial.set if sheet.trial else {},
        laid=tuple(one.text for one in sheet.laid),
    )  # fmt: skip
