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


def page(results: dict[str, list[Figure]], machine: list[str]) -> str:
    """Give the whole page, a section for each benchmark in the order of `results`."""
    missed = sum(not figure.met for figures in results.values() for figure in figures)
    verdict = "Every target is met." if missed == 0 else f"Missed targets: {missed}."
    lines = "".join(f"- {line}\n" for line in machine)
    sections = "".join(
        f"\n## {name.replace('_', ' ')}\n\n{_HEAD}{''.join(map(_row, figures))}"
        for name, figures in results.items()
    )
    return f"{_INTRODUCTION}\n{lines}\n{verdict}\n{sections}"


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
