"""Tables for a controller, as a chapter of setting up."""

from __future__ import annotations

from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.tables.held import Held
from firstfire.setup.tables.table import Table as Integers
from firstfire.setup.tables.written import CAUTION, HEADER

TITLE = "Tables for its controller"


def tables_chapter(held: Held) -> Chapter:
    """What a controller is given, what a step of each is, and how to read between places."""
    found = held.found
    if found is None:
        return Chapter("tables", TITLE, (held.why_not,))
    said = (
        f"Plain integers over its own speeds and throttle openings: {HEADER} for C, and each as "
        "CSV.",
        *found.notes,
    )
    rows = tuple(_row(one) for one in found.tables)
    each = Table("Tables", ("name", "what", "one step", "places", "by"), rows)
    constants = tuple((name, str(value), what) for name, value, what in found.constants)
    single = Table("Single numbers", ("name", "value", "what"), constants)
    return Chapter("tables", TITLE, said, (), (each, single), CAUTION)


def _row(one: Integers) -> tuple[str, ...]:
    places = " × ".join(str(size) for size in one.values.shape)
    return one.name, one.what, one.unit, places, ", ".join(one.over) or "–"
