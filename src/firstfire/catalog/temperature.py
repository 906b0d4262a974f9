"""Joins curves, rate and relaxation to the materials they belong to."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firstfire.catalog.reader import Parts, header_of, read_row
from firstfire.errors import Problem

_NOT_MATERIALS = ("sources", "units", "rate", "relaxation")
_FOR_OTHERS = "others"
Table = dict[str, dict[str, Any]]


def joined(materials: Mapping[str, Parts], document: Mapping[str, Any]) -> list[Problem]:
    """Join the table of curves to `materials`, in place; give every problem found.

    Parameters
    ----------
    materials
        What the property tables say, by key; curves, rate and relaxation are added.
    document
        The table of curves as TOML gave it.
    """
    problems: list[Problem] = []
    header = header_of(document)
    for key, table in _by_material(document).items():
        if key not in materials:
            problems.append(Problem(key, "is no material", "Add its properties first."))
            continue
        parts, wrong = read_row("material", key, table, header)
        materials[key].join(parts)
        problems += wrong
    return problems


def _by_material(document: Mapping[str, Any]) -> Table:
    """All that the document says of each material, as one table a material."""
    tables: Table = {
        key: {k: v for k, v in table.items() if k != "name"}
        for key, table in document.items()
        if key not in _NOT_MATERIALS
    }
    _add_rates(tables, document["rate"])
    _add_relaxation(tables, document["relaxation"])
    return tables


def _add_rates(tables: Table, rate: Mapping[str, Any]) -> None:
    slopes = rate["load_time"]
    for key, entry in rate.items():
        if key in ("load_time", "reference_strain_rate"):
            continue
        table = tables.setdefault(key, {})
        table.update(entry)
        table["reference_strain_rate"] = rate["reference_strain_rate"]
        table["strength_lost_per_decade"] = slopes.get(key, slopes[_FOR_OTHERS])


def _add_relaxation(tables: Table, relaxation: Mapping[str, Any]) -> None:
    for key, entry in relaxation.items():
        if key in ("checks", "warm", "embedding"):
            continue
        table = tables.setdefault(key, {})
        for strain in ("low", "press_fit"):
            points = [p for p in entry["points"] if p["strain"] == strain]
            if points:
                table[f"relaxation_{strain}"] = points
        table["relaxation_warm"] = relaxation["warm"]["points"]
        table["embedding"] = relaxation["embedding"]
