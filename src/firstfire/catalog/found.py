"""Finding a row by any of its names."""

from __future__ import annotations

from collections.abc import Mapping

from firstfire.catalog.names import plain
from firstfire.catalog.row import Row


def names_of(row: Row) -> set[str]:
    """All names under which a row is found, made plain."""
    return {plain(name) for name in (row.key, row.name, *row.aliases)}


def find(rows: Mapping[str, Row], name: str) -> Row | None:
    """Row of that key, name or alias; None where there is none."""
    asked = plain(name)
    return next((row for row in rows.values() if asked in names_of(row)), None)
