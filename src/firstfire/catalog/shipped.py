"""The shipped tables, read kind by kind, each once."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Mapping
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Any
from zlib import crc32

from firstfire.catalog.properties import TABLES, check_kind
from firstfire.catalog.reader import Parts, header_of, read_row
from firstfire.catalog.row import Row
from firstfire.catalog.rows import finished
from firstfire.catalog.temperature import joined
from firstfire.errors import CannotWrite, CatalogError, Problem
from firstfire.files import cache_folder, write_text

FILES: Mapping[str, tuple[str, ...]] = {
    "material": ("materials.toml", "materials-bought.toml", "materials-stock.toml"),
    "bearing": ("bearings.toml", "bearings-more.toml"),
    "oring": ("orings.toml", "orings-metric.toml"),
    "thread": ("threads.toml",),
    "tube": ("tubes.toml", "tubes-pvc-metric.toml", "tubes-pvc-inch.toml"),
    "insert": ("inserts.toml",),
    "belt": ("belts.toml",),
    "fuel": ("fuels.toml",),
    "starter": ("starters.toml",),
    "instrument": ("instruments.toml",),
    "effort": ("efforts.toml",),
}
CURVES = "materials-temperature.toml"
_NOT_ROWS = ("sources", "columns", "units")


def refused(where: str, problems: list[Problem]) -> CatalogError:
    """One error that tells all problems of a file at once."""
    count = "1 problem" if len(problems) == 1 else f"{len(problems)} problems"
    return CatalogError("\n".join([f"{where}: {count}", *(f"  {p}" for p in problems)]))


def read_table(kind: str, document: Mapping[str, Any]) -> tuple[dict[str, Parts], list[Problem]]:
    """Rows of one shipped table, by key, and every problem found in them.

    A table of many like rows stands under the name of its kind, with `[columns]` for what
    holds all the way down; a table of few long rows has each row as a table of its own.
    """
    header = header_of(document)
    rows = document.get(kind, {k: v for k, v in document.items() if k not in _NOT_ROWS})
    found: dict[str, Parts] = {}
    problems: list[Problem] = []
    for key, table in rows.items():
        found[key], wrong = read_row(kind, key, table, header)
        problems += wrong
    return found, problems


def _document(file: Path) -> dict[str, Any]:
    """A table as it stands, from its copy in JSON where that is of the very same file.

    JSON is read some twenty times as fast, and every command reads the tables.
    """
    stands = file.stat()
    of = [str(file), stands.st_mtime_ns, stands.st_size]
    with suppress(OSError, ValueError, CannotWrite, KeyError, TypeError):
        kept = json.loads(_copy(file).read_text("utf-8"))
        if kept["of"] == of:
            return dict(kept["document"])
    with file.open("rb") as stream:
        document = tomllib.load(stream)
    with suppress(OSError, TypeError, ValueError, CannotWrite):
        text = json.dumps({"of": of, "document": document}, allow_nan=False)
        write_text(_copy(file), text, overwrite=True)
    return document


def _copy(file: Path) -> Path:
    """One for each place, so that two installations don't take turns in writing it."""
    return cache_folder() / f"catalog-{file.stem}-{crc32(bytes(file)):08x}.json"


@cache
def shipped(kind: str) -> Mapping[str, Row]:
    """Shipped rows of `kind` by key, in the order of the tables.

    Raises
    ------
    CatalogError
        Where there is no such kind, or a table breaks the reader's rules.
    """
    found: dict[str, Parts] = {}
    for file in FILES[check_kind(kind)]:
        parts, problems = read_table(kind, _document(TABLES / file))
        if problems:
            raise refused(file, problems)
        found.update(parts)
    if kind == "material":
        problems = joined(found, _document(TABLES / CURVES))
        if problems:
            raise refused(CURVES, problems)
    rows, problems = finished(kind, found, {}, "catalog")
    if problems:
        raise refused(" and ".join(FILES[kind]), problems)
    return rows
