"""What walls and infill of a print make of a judgement: tried, since most prints are not solid."""

from __future__ import annotations

from collections.abc import Callable

from firstfire.engine.grammar import split
from firstfire.engine.sections.make import Made
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.facts.raising import factor_with
from firstfire.verdict.result import Result
from firstfire.verdict.words.ledger import two

_SPARSE, _SPARSE_INFILL = 3, 0.2
"""Lines and infill of a print that nobody thought about (common practice, no source)."""
_NAMES = {"rod": "con rod", "crank": "crank", "case": "crankcase", "body": "cylinder body"}


def print_words(result: Result, margin: Margin, stop: Callable[[], bool] | None = None) -> str:
    """How the part is printed and what the factor would be printed otherwise; "" for no print.

    Parameters
    ----------
    result
        The events it is of.
    margin
        One of its margins.
    stop
        Asked by each run.
    """
    cylinder = int(margin.way.id.partition("#")[2] or 1)
    sections = dict.fromkeys(
        split(path)[1].partition(".")[0] for path in result.read(margin) if path.endswith(".infill")
    )
    told = [_told(result, margin, name, cylinder, stop) for name in sections]
    return " ".join(filter(None, told))


def _told(
    result: Result, margin: Margin, section: str, cylinder: int, stop: Callable[[], bool] | None
) -> str:
    """The same for one part."""
    of_cylinder = result.plain.cylinders[cylinder - 1]
    made = getattr(of_cylinder, section, None) or getattr(result.plain, section, None)
    if not isinstance(made, Made) or made.made != "printed" or not margin.way.judged:
        return ""
    name = _NAMES.get(section, section)
    lines = f"{made.walls} wall line{'s' * (made.walls > 1)}"
    filled = "solid" if made.infill >= 1 else f"{made.infill:.0%} filled".replace("%", " %")
    said = f"That is of a {name} printed with {lines}, {filled} between them"
    sparse = made.walls <= _SPARSE and made.infill <= _SPARSE_INFILL
    other, how = (1.0, "solid") if sparse else (_SPARSE_INFILL, "with three lines and 20 % infill")
    changes = {f"{section}.infill": f"{other:g}"}
    changes |= {} if sparse else {f"{section}.walls": str(_SPARSE)}
    factor = factor_with(result, margin, changes, stop)
    if factor is None:
        return f"{said}."
    if two(factor) == two(margin.factor):
        # a way may look at a print that bears nothing of this, beside a steel plate say
        if not any(name.endswith("section_leaves") for name in result.opened(margin).inputs):
            return ""
        return f"{said}; {how} it would be the same, {two(factor)}."
    return f"{said}; {how} the factor would be {two(factor)}, not {two(margin.factor)}."
