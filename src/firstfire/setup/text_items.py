"""What is bought and made, as lines of 80 columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from itertools import groupby

from firstfire.catalog import Catalog
from firstfire.setup.all_parts import AllParts
from firstfire.setup.item import GROUPS, Check, Item, Job
from firstfire.setup.words import tool
from firstfire.verdict.numbers import THIN, shown
from firstfire.verdict.words.text.lines import WIDTH

_FINE = 0.05e-3
_PLACES = (
    ("Cylinder", ("cylinder", "liner", "body")),
    ("Piston", ("piston", "rings", "pin", "rod")),
    ("Head", ("head", "gasket", "plug")),
    ("Valves", ("valves", "cam_drive")),
    ("Crank, case and flywheel", ("crank", "case", "flywheel")),
)


def hung(text: str, indent: int, hang: int, *, width: int = WIDTH) -> list[str]:
    """`text` in so many columns, its first line and the rest indented."""
    return textwrap.wrap(
        text, width, initial_indent=" " * indent, subsequent_indent=" " * hang,
        break_on_hyphens=False,
    )  # fmt: skip


def bought_lines(found: AllParts, *, width: int = WIDTH) -> Iterator[str]:
    """Every bought thing by group, with what to measure on it."""
    rows = found.engine.catalog
    for number, group in enumerate(g for g in GROUPS if any(i.group == g for i in found.bought)):
        if number:
            yield ""
        yield f"  {group}"
        for item in (i for i in found.bought if i.group == group):
            yield from _item(item, rows, width=width)


def _item(item: Item, rows: Catalog, *, width: int) -> Iterator[str]:
    rule = f" [{item.standard}]" if item.standard else ""
    yield from hung(f"{named(item)}; for: {item.use}.{rule}", 4, 8, width=width)
    for why, checks in groupby(item.checks, key=lambda check: check.why):
        yield from hung(f"measure {checks_words(list(checks), why, rows)}", 8, 10, width=width)
    if item.note:
        yield from hung(item.note, 8, 10, width=width)


def named(item: Item) -> str:
    """Count, name and size, as one asks for it."""
    return f"{item.count} × {item.what}" + (f", {item.size}" if item.size else "")


def checks_words(checks: Sequence[Check], why: str, rows: Catalog) -> str:
    """What to measure with what, which readings are right, and what hangs on it."""
    told = "; ".join(_check(check, rows) for check in checks)
    coarse = [check.of for check in checks if _too_fine(check, rows)]
    blind = (
        f" The tool can't see limits so fine: at {' and '.join(coarse)} it tells a wrong part, "
        "not the fit."
        if coarse
        else ""
    )
    return f"{told}: {why}.{blind}"


def _check(check: Check, rows: Catalog) -> str:
    reading = f" {limits(check)}" if check.wanted is not None else ""
    return f"{check.of}{reading} with a {tool(rows, check.tool)}, {check.how}"


def limits(check: Check) -> str:
    """The reading wanted and its limits, to a thousandth only where they are that narrow."""
    if check.wanted is None:
        return ""
    low, high = check.low, check.high
    narrow = low is not None and high is not None and check.unit == "mm" and high - low < _FINE
    said = reading(check.wanted, check.unit, narrow=narrow)
    if low is None:
        return said
    least = reading(low, check.unit, narrow=narrow).split(THIN)[0]
    if high is None:
        return f"{said} ({least} at least)"
    return f"{said} ({least} to {reading(high, check.unit, narrow=narrow).split(THIN)[0]})"


def reading(value: float, unit: str, *, narrow: bool) -> str:
    """A value as its tool shows it: hundredths of a millimetre, thousandths where it is narrow.

    Examples
    --------
    >>> reading(0.0149921, "mm", narrow=True).replace(THIN, " ")
    '14.992 mm'
    >>> reading(0.0402614, "mm", narrow=False).replace(THIN, " ")
    '40.26 mm'
    """
    if unit != "mm":
        return shown(value, unit)
    step = 1e-6 if narrow else 1e-5
    return shown(round(value / step) * step, unit, 7)


def _too_fine(check: Check, rows: Catalog) -> bool:
    """Whether the limits are narrower than what the tool may be off."""
    error = rows.row("instrument", check.tool).get("error")
    if error is None or check.low is None or check.high is None or check.unit != "mm":
        return False
    return error.si > (check.high - check.low) / 2


def made_lines(found: AllParts, *, width: int = WIDTH) -> Iterator[str]:
    """Every job by the part of the engine it is done on."""
    first = True
    for place, sections in _PLACES:
        jobs = [job for job in found.made if job.path.split(".", 1)[0] in sections]
        if jobs:
            if not first:
                yield ""
            first = False
            yield f"  {place}"
        for job in jobs:
            yield from _job(job, width=width)


def _job(job: Job, *, width: int) -> Iterator[str]:
    times = "" if job.count == 1 else f" ({job.count} times)"
    yield from hung(f"{job.do} {job.what}{times}: {job.size}.{will_do(job)}", 4, 8, width=width)
    yield from hung(f"{job.tool}; {job.why}", 8, 10, width=width)


def will_do(job: Job) -> str:
    """Between which sizes it will do, as a caliper shows them."""
    if job.low is None or job.high is None:
        return ""
    narrow = job.high - job.low < _FINE
    low = reading(job.low, "mm", narrow=narrow).split(THIN)[0]
    return f" {low} to {reading(job.high, 'mm', narrow=narrow)} will do."


def store_lines(found: AllParts, *, width: int = WIDTH) -> Iterator[str]:
    """The list to take along: one line a thing, then what to measure with."""
    for item in found.bought:
        yield from hung(f"[ ] {named(item)}", 2, 6, width=width)
    tools = [tool(found.engine.catalog, key) for key in found.tools]
    yield ""
    yield from hung(f"To measure with: {', '.join(tools)}.", 2, 4, width=width)
