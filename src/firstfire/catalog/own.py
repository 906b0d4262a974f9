"""A person's own rows, in files of the same form, told apart from the shipped ones."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from firstfire.catalog.names import nearest
from firstfire.catalog.properties import KINDS
from firstfire.catalog.reader import Header, Parts, read_row
from firstfire.catalog.row import Row
from firstfire.catalog.rows import finished
from firstfire.catalog.shipped import refused, shipped
from firstfire.errors import CatalogError, Problem
from firstfire.files import own_files
from firstfire.toml_text import NotToml, parsed

__all__ = ["own_files", "read_own"]


def read_own(paths: Sequence[Path]) -> Mapping[str, Mapping[str, Row]]:
    """Own rows by kind and key; where two files have the same row, the earlier file's holds.

    Raises
    ------
    CatalogError
        Where anything in any of the files is wrong: all problems at once, each with its place.
    """
    rows: dict[str, dict[str, Row]] = {}
    faults: list[str] = []
    for path in reversed(paths):
        try:
            for kind, found in _read_file(path, rows).items():
                rows.setdefault(kind, {}).update(found)
        except CatalogError as why:
            faults.insert(0, str(why))
    if faults:
        raise CatalogError("\n".join(faults))
    return rows


def _document(path: Path) -> dict[str, Any]:
    try:
        return parsed(path.read_text(encoding="utf-8"))
    except OSError as why:
        raise CatalogError(f"{path}: can't be read ({why.strerror}). Give a file.") from why
    except (NotToml, UnicodeDecodeError) as why:
        raise CatalogError(
            f"{path}: is no TOML ({why}). See docs/catalog.md for the form."
        ) from why


def _header(document: dict[str, Any]) -> tuple[Header, list[Problem]]:
    """Sources and units of an own file, taken out of the document."""
    said, problems = {}, []
    for name in ("sources", "units"):
        table = document.pop(name, {})
        good = isinstance(table, dict) and all(isinstance(v, str) for v in table.values())
        said[name] = table if good else {}
        if not good:
            problems.append(
                Problem(name, "is not a table of texts", f'Write [{name}] key = "...".')
            )
    return Header(sources=said["sources"], units=said["units"]), problems


def _read_file(path: Path, earlier: Mapping[str, Mapping[str, Row]]) -> dict[str, dict[str, Row]]:
    document = _document(path)
    rows: dict[str, dict[str, Row]] = {}
    header, problems = _header(document)
    for kind, tables in document.items():
        if kind not in KINDS or not isinstance(tables, Mapping):
            near = nearest(kind, KINDS) or list(KINDS)
            problems.append(Problem(kind, "is no kind of row", f"Kinds: {', '.join(near)}."))
            continue
        known = {**shipped(kind), **earlier.get(kind, {})}
        found: dict[str, Parts] = {}
        for key, table in tables.items():
            found[key], wrong = read_row(kind, key, table, header)
            problems += wrong
        rows[kind], wrong = finished(kind, found, known, "yours")
        problems += wrong
    if problems:
        raise refused(str(path), problems)
    return rows
