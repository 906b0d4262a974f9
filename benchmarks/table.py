"""The page of measured figures: no date in it, and the same layout every time."""

import math

from benchmarks.figure import Figure

_INTRODUCTION = """# Performance

Written by `make bench`; not edited by hand. Ratios compare two things timed in turn in one run, so
they hold on other machines too; seconds and megabytes belong to the machine named here.
"""
_HEAD = """| figure | measured | target | | note |
| --- | --- | --- | --- | --- |
"""


_BEFORE = "Measured before the machine above was described.\n\n"


def page(results: dict[str, list[Figure]], machine: list[str], before: str = "") -> str:
    """Give the whole page, a section for each benchmark, in the order of their names.

    Sections of a page that was `before` stay where nothing was measured anew, and say so.
    """
    sections = {name: _kept(text) for name, text in _sections(before).items()}
    for name, figures in results.items():
        sections[name.replace("_", " ")] = f"{_HEAD}{''.join(map(_row, figures))}"
    missed = sum(text.count("| **missed** |") for text in sections.values())
    verdict = "Every target is met." if missed == 0 else f"Missed targets: {missed}."
    lines = "".join(f"- {line}\n" for line in machine)
    body = "".join(f"\n## {name}\n\n{text}" for name, text in sorted(sections.items()))
    return f"{_INTRODUCTION}\n{lines}\n{verdict}\n{body}"


def _sections(text: str) -> dict[str, str]:
    """What stands below each heading of a page."""
    parts = (part.partition("\n\n") for part in text.split("\n## ")[1:])
    return {name: rest.rstrip("\n") + "\n" for name, _, rest in parts}


def _kept(text: str) -> str:
    return text if text.startswith(_BEFORE) else _BEFORE + text


def _row(figure: Figure) -> str:
    word = "met" if figure.met else "**missed**"
    if figure.target == "none set":
        word = "–"
    cells = (figure.name, _measured(figure), figure.target, word, figure.note)
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |\n"


def _measured(figure: Figure) -> str:
    if math.isnan(figure.value):
        return "–"
    return f"{_three_figures(figure.value)} {figure.unit}".strip()


def _three_figures(value: float) -> str:
    """Give the number to three significant figures, without an exponent."""
    if value == 0 or not math.isfinite(value):
        return f"{value:g}"
    rounded = float(f"{value:.3g}")
    decimals = max(2 - math.floor(math.log10(abs(rounded))), 0)
    return f"{rounded:.{decimals}f}"
