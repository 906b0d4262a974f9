"""The strict reader of a row: every property known, every number with source and sureness."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from firstfire.catalog.curves import AXES, read_curve
from firstfire.catalog.entry import Refused, read_datum
from firstfire.catalog.names import nearest
from firstfire.catalog.properties import properties, texts
from firstfire.catalog.row import CurvePoint, Datum
from firstfire.errors import Problem


@dataclass
class Parts:
    """What one file says of one row, before files are joined."""

    name: str = ""
    like: str = ""
    aliases: tuple[str, ...] = ()
    data: dict[str, Datum] = field(default_factory=dict)
    texts: dict[str, str] = field(default_factory=dict)
    curves: dict[str, tuple[CurvePoint, ...]] = field(default_factory=dict)

    def join(self, other: Parts) -> None:
        """Take over what another file says of the same row."""
        self.name = self.name or other.name
        self.like = self.like or other.like
        self.aliases += other.aliases
        self.data.update(other.data)
        self.texts.update(other.texts)
        self.curves.update(other.curves)


@dataclass(frozen=True, slots=True)
class Header:
    """What holds for a whole file.

    Attributes
    ----------
    sources
        Source texts by key.
    columns
        By property: unit, source and sureness that hold down the whole table.
    units
        Units of the axes of curves.
    """

    sources: Mapping[str, str] = field(default_factory=dict)
    columns: Mapping[str, Any] = field(default_factory=dict)
    units: Mapping[str, str] = field(default_factory=dict)


def header_of(document: Mapping[str, Any]) -> Header:
    """Header of a table as TOML gave it."""
    return Header(
        document.get("sources", {}), document.get("columns", {}), document.get("units", {})
    )


def _words(raw: object) -> str:
    if not isinstance(raw, str) or not raw.strip():
        raise Refused(f"is {raw!r}", "Write it as a text.")
    return raw


def _unknown(kind: str, name: str) -> Refused:
    near = nearest(name, [*properties(kind), *texts(kind)])
    cure = f"Did you mean {' or '.join(near)}?" if near else "`firstfire catalog` lists properties."
    return Refused(f"is no property of a {kind}", cure)


def _take(parts: Parts, kind: str, name: str, raw: object, header: Header) -> None:
    """Put one property of a row where it belongs."""
    if name in ("name", "like"):
        setattr(parts, name, _words(raw))
    elif name == "aliases":
        if not isinstance(raw, list):
            raise Refused(f"is {raw!r}", 'Write a list of texts, ["6202-2RS"].')
        parts.aliases = tuple(_words(alias) for alias in raw)
    elif name in texts(kind):
        parts.texts[name] = _words(raw)
    elif name in properties(kind):
        column = header.columns.get(name, {})
        parts.data[name] = read_datum(raw, properties(kind)[name].unit, column, header.sources)
    elif kind == "material" and name in AXES:
        parts.curves[name] = read_curve(name, raw, header.sources, header.units)
    else:
        raise _unknown(kind, name)


def read_row(kind: str, key: str, table: object, header: Header) -> tuple[Parts, list[Problem]]:
    """What one file says of one row, and every problem found in it.

    Parameters
    ----------
    kind, key
        Which row.
    table
        The row as TOML gave it.
    header
        What holds for the whole file.
    """
    parts, problems = Parts(), []
    if not isinstance(table, Mapping):
        return parts, [Problem(f"{kind}.{key}", "is not a table", f"Write [{kind}.{key}].")]
    for name, raw in table.items():
        try:
            _take(parts, kind, name, raw, header)
        except Refused as why:
            problems.append(Problem(f"{kind}.{key}.{name}", why.fault, why.cure))
    return parts, problems
