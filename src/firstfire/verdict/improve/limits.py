"""Which changes a person can make: what they keep as it is, and what they have."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from firstfire.catalog import Catalog, kinds
from firstfire.engine.grammar import leaves, split
from firstfire.errors import CatalogError, FirstfireError


@dataclass(frozen=True)
class Allowed:
    """What may be changed.

    Attributes
    ----------
    keep
        Paths, sections or last names of paths that stay as they are.
    have
        By kind, the rows that a person has; of a kind that isn't named any row will do.
    """

    keep: tuple[str, ...] = ()
    have: Mapping[str, frozenset[str]] = field(default_factory=dict)

    def allows(self, change: Mapping[str, str]) -> bool:
        """Whether nothing kept is changed, and nothing put in that isn't there."""
        return all(self._allows(path, value) for path, value in change.items())

    def _allows(self, path: str, value: str) -> bool:
        bare = split(path)[1]
        if any(kept_by(word, bare) for word in self.keep):
            return False
        leaf = leaves().get(bare)
        kind = leaf.row_kind if leaf is not None else ""
        return kind not in self.have or value in self.have[kind]


def kept_by(word: str, path: str) -> bool:
    """Whether a word names a path: whole, as the section it is in, or by its last names.

    Examples
    --------
    >>> kept_by("bore", "cylinder.bore"), kept_by("crank", "crank.joint.kind")
    (True, True)
    >>> kept_by("bore", "body.material")
    False
    """
    return path == word or path.startswith(f"{word}.") or path.endswith(f".{word}")


def allowed(keep: Sequence[str], have: Sequence[str], rows: Catalog) -> Allowed:
    """What may be changed, from a person's words.

    Parameters
    ----------
    keep
        ``bore,stroke``, ``crank.material``: several in each, with commas.
    have
        Catalog rows by key, name or other name, several in each.
    rows
        The catalog.

    Raises
    ------
    FirstfireError
        With every word that names nothing, and what is near it.
    """
    kept = _words(keep)
    faults = [_unknown_path(word) for word in kept if not any(kept_by(word, p) for p in leaves())]
    owned: dict[str, set[str]] = {}
    for word in _words(have):
        found = list(_rows_called(rows, word))
        if not found:
            faults.append(_unknown_row(rows, word))
        for kind, key in found:
            owned.setdefault(kind, set()).add(key)
    if faults:
        raise FirstfireError("\n".join(faults))
    return Allowed(tuple(kept), {kind: frozenset(keys) for kind, keys in owned.items()})


def _words(given: Sequence[str]) -> list[str]:
    return [word.strip() for text in given for word in text.split(",") if word.strip()]


def _rows_called(rows: Catalog, word: str) -> list[tuple[str, str]]:
    found = []
    for kind in kinds():
        try:
            found.append((kind, rows.row(kind, word).key))
        except CatalogError:
            continue
    return found


def _unknown_path(word: str) -> str:
    names = {path.rsplit(".", 1)[-1] for path in leaves()} | set(leaves())
    near = difflib.get_close_matches(word, sorted(names), n=3, cutoff=0.5)
    hint = f" Nearest: {', '.join(near)}." if near else ""
    return f'--keep "{word}" is nothing that an engine file says.{hint}'


def _unknown_row(rows: Catalog, word: str) -> str:
    names = [row.key for kind in kinds() for row in rows.rows(kind)]
    near = difflib.get_close_matches(word, names, n=3, cutoff=0.5)
    hint = f" Nearest: {', '.join(near)}." if near else " `firstfire catalog` lists what there is."
    return f'--have "{word}" is nothing the catalog has.{hint}'
