"""``firstfire catalog``: kinds, rows and one row, as text or JSON."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from firstfire import catalog
from firstfire.catalog import Catalog, CurvePoint, Row
from firstfire.catalog.names import plain
from firstfire.cli.terminal import columns
from firstfire.verdict.numbers import figures
from firstfire.verdict.words.text.lines import beside, heading, wrapped

# What tells rows of a kind apart at a glance.
_TELLING = {
    "material": ("strength_in_plane", "strength_across", "continuous_use"),
    "bearing": ("dynamic_load",),
    "thread": ("diameter", "pitch", "stress_area"),
    "insert": ("length", "pull_out"),
    "fuel": ("air_fuel_ratio", "heating_value", "density"),
    "starter": ("no_load_speed", "stall_torque"),
    "effort": ("print_hours", "hand_hours"),
}
_SHORT = {
    "strength_in_plane": "along",
    "strength_across": "across",
    "continuous_use": "to",
    "no_load_speed": "free",
    "stall_torque": "stalled",
    "air_fuel_ratio": "air/fuel",
    "heating_value": "heat",
    "print_hours": "print",
    "hand_hours": "hand",
}
"""Headings of columns: strength along and across the layers, temperature of continuous use ..."""


def catalog_text(kind: str | None, name: str | None, beside: Path | None, *, as_json: bool) -> str:
    """What was asked for, as text.

    Raises
    ------
    CatalogError
        Where there is no such kind or row.
    """
    rows = catalog.load(catalog.own_files(beside))
    if kind is None:
        return _kinds(rows, as_json)
    if name is None:
        return _rows(rows, kind, as_json)
    row = rows.row(kind, name)
    return json.dumps(_row_data(row), indent=2, ensure_ascii=False) if as_json else _row(row)


def _kinds(rows: Catalog, as_json: bool) -> str:
    counts = {kind: len(rows.rows(kind)) for kind in catalog.kinds()}
    if as_json:
        return json.dumps(counts, indent=2)
    lines = [f"  {kind:<14}{count} rows" for kind, count in counts.items()]
    return "\n".join(["The catalog knows:", *lines, "", "firstfire catalog KIND lists one kind."])


def _rows(rows: Catalog, kind: str, as_json: bool) -> str:
    found = rows.rows(kind)
    if as_json:
        return json.dumps([_row_data(row) for row in found], indent=2, ensure_ascii=False)
    told = _columns(kind, found)
    table = [["name", *map(_heading, told)]]
    table += [[row.key, *(_cell(row, name) for name in told)] for row in found]
    wide = [max(len(line[at]) for line in table) + 2 for at in range(len(table[0]))]
    at = 2 + sum(wide)
    lines = []
    for line, full in zip(table, ["", *map(_called, found)], strict=True):
        head = "  " + "".join(f"{cell:<{room}}" for cell, room in zip(line, wide, strict=True))
        lines += beside(head, full, at, width=columns()) if full else [head.rstrip()]
    return "\n".join([*lines, "", f"firstfire catalog {kind} NAME shows one with its sources."])


def _columns(kind: str, found: Sequence[Row]) -> list[str]:
    """Which numbers are told of every row of a kind."""
    if kind in _TELLING:
        return list(_TELLING[kind])
    return list(found[0].data)[:3] if found else []


def _heading(name: str) -> str:
    return _SHORT.get(name, name.replace("_", " "))


def _cell(row: Row, name: str) -> str:
    datum = row.get(name)
    return "–" if datum is None else f"{figures(datum.value)} {_unit(datum.unit)}".strip()


def _called(row: Row) -> str:
    """A row's name where its key doesn't say it, and whether it is a person's own."""
    mark = "" if row.origin == "catalog" else "(yours)"
    name = "" if plain(row.name) == plain(row.key) else row.name
    return " ".join(filter(None, (name, mark)))


def _unit(unit: str) -> str:
    return "" if unit == "dimensionless" else unit.replace("degC", "°C").replace("percent", "%")


def _row(row: Row) -> str:
    mark = "" if row.origin == "catalog" else " (yours)"
    lines = [f"{row.name}{mark}: {row.kind} {row.key}", ""]
    for name, datum in row.data.items():
        span = f" ({figures(datum.low)}–{figures(datum.high)})" if datum.low < datum.high else ""
        value = f"{figures(datum.value)}{span} {_unit(datum.unit)}".strip()
        lines += beside(
            f"  {name.replace('_', ' '):<28}{value:<34}", datum.sure, 64, width=columns()
        )
    for name, points in row.curves.items():
        lines += heading(f"{name.replace('_', ' ')} over {points[0].axis}") if points else []
        for p in points:
            at = _place(p)
            span = f"{figures(p.value)} ({figures(p.low)}–{figures(p.high)})"
            lines += beside(f"  {at:<12}{span:<34}", p.sure, 48, width=columns())
    for name, text in row.texts.items():
        lines += ["", *wrapped(f"{name}: {text}", width=columns())]
    sources = dict.fromkeys(datum.source for datum in row.data.values())
    lines += heading("Sources")
    for source in sources:
        lines += wrapped(source, 2, width=columns())
    return "\n".join(lines)


def _place(point: CurvePoint) -> str:
    if point.axis == "temperature":
        return f"{point.at - 273.15:.0f} °C"
    return f"{figures(point.at / 3600)} h" if point.axis == "time" else figures(point.at)


def _row_data(row: Row) -> dict[str, Any]:
    return {
        "kind": row.kind,
        "key": row.key,
        "name": row.name,
        "origin": row.origin,
        "data": {
            name: {
                "value": d.value, "low": d.low, "high": d.high, "unit": d.unit, "si": d.si,
                "source": d.source, "sure": d.sure,
            }
            for name, d in row.data.items()
        },
        "texts": dict(row.texts),
        "curves": {
            name: [
                {"at_si": p.at, "axis": p.axis, "value": p.value, "low": p.low, "high": p.high,
                 "source": p.source, "sure": p.sure}
                for p in points
            ]
            for name, points in row.curves.items()
        },
    }  # fmt: skip
