"""What a row of each kind may say: the properties, their dimension and their meaning."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from firstfire.catalog.names import nearest
from firstfire.errors import CatalogError

TABLES = Path(__file__).parent / "tables"
ANY_UNIT = "any"
"""Unit of a property whose dimension differs from row to row (an instrument's error)."""

KINDS = (
    "material",
    "bearing",
    "oring",
    "thread",
    "tube",
    "insert",
    "belt",
    "fuel",
    "starter",
    "instrument",
    "effort",
)


@dataclass(frozen=True, slots=True)
class Property:
    """One property that rows of a kind may have.

    Attributes
    ----------
    name
        As in the table.
    unit
        A unit of the right dimension; rows may use any unit of that dimension. ``"any"`` where
        the dimension differs from row to row.
    means
        One line that says what it is.
    needed
        Whether each row of the kind has to have it.
    """

    name: str
    unit: str
    means: str
    needed: bool = False


def check_kind(kind: str) -> str:
    """The kind itself, if there is one.

    Raises
    ------
    CatalogError
        Where the catalog has no such kind.
    """
    if kind in KINDS:
        return kind
    near = nearest(kind, KINDS)
    hint = f"; nearest: {', '.join(near)}" if near else ""
    raise CatalogError(f'the catalog has no kind "{kind}"{hint}. Kinds: {", ".join(KINDS)}.')


@cache
def _document() -> Mapping[str, Mapping[str, Mapping[str, object]]]:
    return tomllib.loads((TABLES / "properties.toml").read_text(encoding="utf-8"))


@cache
def properties(kind: str) -> Mapping[str, Property]:
    """Properties that rows of `kind` may have, by name, in the order of the table.

    Examples
    --------
    >>> properties("bearing")["bore"].unit
    'mm'
    """
    numbers = _document()[check_kind(kind)].get("numbers", {})
    found = {}
    for name, entry in numbers.items():
        assert isinstance(entry, dict)
        found[name] = Property(
            name, str(entry["unit"]), str(entry["means"]), bool(entry.get("needed", False))
        )
    return found


@cache
def texts(kind: str) -> Mapping[str, str]:
    """Words that rows of `kind` may have, by name, each with its meaning."""
    return {k: str(v) for k, v in _document()[check_kind(kind)].get("texts", {}).items()}
