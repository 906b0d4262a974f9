"""The table of every way to fail in docs/parts.md, from their declarations: ``make tables``."""

from __future__ import annotations

from pathlib import Path

from firstfire.parts.all import JUDGEMENTS, REPORTED
from firstfire.parts.failure import Judgement

PAGE = Path(__file__).resolve().parents[1] / "docs" / "parts.md"
BEGINS = "### "
SECTIONS = {
    "Head, gasket and what holds them": ("head.", "plug.", "exhaust_port.", "gasket."),
    "Liner and body": ("liner.", "body."),
    "Piston, pin and rings": ("piston.", "pin.", "ring."),
    "Con rod": ("rod.",),
    "Valves and cam drive": ("valves.", "intake.", "cam.", "cam_drive."),
    "Crank, bearings, flywheel and load": ("crank.", "case.", "flywheel.", "load."),
    "Fire outside the cylinder": (),
    "What else there is": ("",),
}
"""Under which heading a way stands, by how its id begins."""
OUTSIDE = ("intake.burst", "exhaust.burst", "case.burst")
_HEAD = (
    "| id | what happens | demand, against capacity | source | marks |\n"
    "| --- | --- | --- | --- | --- |"
)


def section_of(name: str) -> str:
    """Heading that a way stands under."""
    if name in OUTSIDE:
        return "Fire outside the cylinder"
    return next(title for title, begins in SECTIONS.items() if name.startswith(begins))


def row(judge: Judgement) -> str:
    """One way as a row of the table."""
    way = judge.failure
    marks = [
        words
        for words, holds in (
            ("hazard", way.hazard),
            ("once an engine", way.shared),
            ("reported", way.id in REPORTED),
            ("not judged", judge.never),
        )
        if holds
    ]
    cells = (f"`{way.id}`", f"{way.part} {way.failure}", way.formula, way.source, ", ".join(marks))
    return "| " + " | ".join(cell.replace("|", r"\|") for cell in cells) + " |"


def table() -> str:
    """All of it, under its headings."""
    blocks = []
    for title in SECTIONS:
        rows = [row(judge) for judge in JUDGEMENTS if section_of(judge.failure.id) == title]
        if rows:
            blocks.append("\n".join((f"{BEGINS}{title}", "", _HEAD, *rows)))
    return "\n\n".join(blocks) + "\n"


def page(text: str) -> str:
    """The page with its table as the declarations have it."""
    return text[: text.index(BEGINS)] + table()


if __name__ == "__main__":
    PAGE.write_text(page(PAGE.read_text(encoding="utf-8")), encoding="utf-8")
