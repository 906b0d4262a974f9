"""The catalog as rooms use it: rows by kind, a row by its name."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from firstfire.catalog.found import find
from firstfire.catalog.names import nearest, plain
from firstfire.catalog.own import read_own
from firstfire.catalog.properties import KINDS, check_kind
from firstfire.catalog.row import Row
from firstfire.catalog.shipped import shipped
from firstfire.errors import CatalogError


def kinds() -> tuple[str, ...]:
    """Kinds of rows, in the words of the trade.

    Examples
    --------
    >>> kinds()[:3]
    ('material', 'bearing', 'oring')
    """
    return KINDS


@dataclass(frozen=True)
class Catalog:
    """Shipped rows with a person's own rows on top.

    Attributes
    ----------
    own
        Own rows by kind and key. Shipped rows are read when a kind is first asked for.

    Examples
    --------
    >>> Catalog().row("bearing", "6202-2RS").si("bore")
    0.015
    """

    own: Mapping[str, Mapping[str, Row]] = field(default_factory=dict)

    def rows(self, kind: str) -> tuple[Row, ...]:
        """All rows of `kind`: shipped ones in table order, then the person's own.

        An own row with the key of a shipped one stands in its place.

        Raises
        ------
        CatalogError
            Where there is no such kind.
        """
        return tuple(self._by_key(kind).values())

    def row(self, kind: str, name: str) -> Row:
        """Row of that key, name or alias, whatever its case, spaces, hyphens, underscores.

        Raises
        ------
        CatalogError
            Where there is none; the message tells the nearest names. Nothing is guessed:
            ``ABS+`` is not ``ABS``.
        """
        rows = self._by_key(kind)
        found = rows.get(name) or find(rows, name)
        if found is not None:
            return found
        raise CatalogError(_no_such(kind, name, rows))

    def _by_key(self, kind: str) -> Mapping[str, Row]:
        own = self.own.get(kind)
        return {**shipped(check_kind(kind)), **own} if own else shipped(check_kind(kind))


def load(own: Sequence[Path] = ()) -> Catalog:
    """The catalog: shipped tables and, on top of them, a person's own files.

    Parameters
    ----------
    own
        Own files, the one that speaks first in front (see `own_files`).

    Raises
    ------
    CatalogError
        Where own files are wrong: every problem at once, with file, row, fault and cure.
    """
    return Catalog(read_own(own) if own else {})


def _no_such(kind: str, name: str, rows: Mapping[str, Row]) -> str:
    called = {other: row for row in rows.values() for other in (row.key, *row.aliases, row.name)}
    near: list[str] = []
    for other in nearest(name, called, most=12):
        shown = _shown(called[other])
        if shown not in near:
            near.append(shown)
    hint = f"; nearest: {', '.join(near[:3])}" if near else ""
    return f'no {kind} "{name}"{hint}. `firstfire catalog {kind}` lists them.'


def _shown(row: Row) -> str:
    """Shortest way to write a row so that it is found: its name, if that is short."""
    return row.name if plain(row.name) == plain(row.key) else min(row.name, row.key, key=len)
