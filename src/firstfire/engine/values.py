"""Asking an engine for a value: the highest layer that speaks, or else a rule of thumb."""

from __future__ import annotations

from functools import cache
from typing import Any

from firstfire.catalog import Catalog, Datum, Row
from firstfire.engine.grammar import leaves, split
from firstfire.engine.layers import Entry, Stack
from firstfire.engine.leaf import read_leaf
from firstfire.engine.quantity import write_quantity
from firstfire.engine.rules.all import rules
from firstfire.engine.rules.rule import Rule


class Unsaid(LookupError):  # noqa: N818 - not a fault of ours: something must still be said
    """A value that must be given and isn't, or that was given wrongly."""

    def __init__(self, path: str) -> None:
        self.path = path
        super().__init__(path)


class Values:
    """What holds for one cylinder of an engine, each value with its origin.

    Parameters
    ----------
    stack
        The layers.
    catalog
        Where rows are looked up.
    cylinder
        Counted from 1.
    faulty
        Paths whose value couldn't be read: asking for one raises `Unsaid`, so that nothing
        is concluded from a value that is wrong.
    built
        The same engine as it was built: what rules of thumb chose there isn't chosen anew.
    before
        Values of the same cylinder of another engine: what differs neither in what is said of it
        nor in anything that it was found from is had from there.
    """

    def __init__(
        self,
        stack: Stack,
        catalog: Catalog,
        cylinder: int = 1,
        faulty: frozenset[str] = frozenset(),
        built: Values | None = None,
        before: Values | None = None,
    ) -> None:
        self.stack, self.catalog, self.cylinder = stack, catalog, cylinder
        self._faulty, self._built = faulty, built
        self._found: dict[str, Entry] = {}
        self._asking: list[str] = []
        self._askers: dict[str, set[str]] = {}
        self._before = before if built is None else None

    def __getitem__(self, path: str) -> Any:
        """The value at `path`, in SI."""
        return self.spoken(path).value

    def number(self, path: str) -> float:
        """A quantity at `path`, in SI."""
        return float(self[path])

    def said(self, path: str) -> bool:
        """Whether any layer above rules of thumb and catalog speaks of `path`."""
        self._note(path)
        if path in self._faulty or f"cylinders.{self.cylinder}.{path}" in self._faulty:
            return True
        return self.stack.top(path, self.cylinder) is not None

    def spoken(self, path: str) -> Entry:
        """The entry that holds at `path`, with who said it and why.

        Raises
        ------
        KeyError
            For a path the grammar doesn't have.
        Unsaid
            Where it must be given and isn't.
        """
        self._note(path)
        found = self._found.get(path)
        if found is None:
            found = self._found[path] = self._find(path)
        return found

    def row(self, path: str) -> Row | None:
        """The catalog row named at `path`, None where no row is named."""
        name = self[path]
        return None if name is None else self.catalog.row(leaves()[path].row_kind, name)

    def material(self, path: str, prop: str) -> float:
        """A property of the material named at `path`, in SI, overlays included."""
        return self.material_property(str(self[path]), prop)

    def material_property(self, key: str, prop: str) -> float:
        """A material's property in SI: as an overlay says it, else as the catalog does."""
        self._note(f"materials.{key}.{prop}")
        over = self.stack.top(f"materials.{key}.{prop}")
        return float(over.value) if over else self.catalog.row("material", key).si(prop)

    def _note(self, path: str) -> None:
        """That whatever is being found asked for `path`."""
        if self._asking:
            self._askers.setdefault(path, set()).add(self._asking[-1])

    def _carry(self) -> None:
        """Take over what rules and rows gave before, but for what follows from a difference."""
        before, self._before = self._before, None
        if before is None or before.catalog != self.catalog or before._built is not None:
            return
        if before.cylinder != self.cylinder or before._faulty or self._faulty:
            return
        old = before._that_follows(differing(before.stack, self.stack, self.cylinder))
        found = before._found.items()
        self._found |= {p: e for p, e in found if e.layer in _DERIVED and p not in old}
        self._askers = {
            path: who if old.isdisjoint(who) else who - old for path, who in before._askers.items()
        }

    def _that_follows(self, paths: set[str]) -> set[str]:
        """These paths, and all that was found by asking for them."""
        found, waiting = set(paths), list(paths)
        while waiting:
            more = self._askers.get(waiting.pop(), set()) - found
            found |= more
            waiting += more
        return found

    def _find(self, path: str) -> Entry:
        leaf = leaves()[path]
        if path in self._faulty or f"cylinders.{self.cylinder}.{path}" in self._faulty:
            raise Unsaid(path)
        said = self.stack.top(path, self.cylinder)
        if said is not None:
            return said
        if path in self._asking:
            raise Unsaid(path)
        if self._before is not None:
            self._carry()
            if path in self._found:
                return self._found[path]
        self._asking.append(path)
        try:
            return self._from_row(path) or self._from_rule(path, leaf.optional)
        finally:
            self._asking.pop()

    def _from_row(self, path: str) -> Entry | None:
        supplier = leaves()[path].row
        row = self.row(supplier[0]) if supplier else None
        if row is None or supplier is None or supplier[1] not in row.data:
            return None
        datum: Datum = row[supplier[1]]
        kind = "catalog" if row.origin == "catalog" else f"your own row, {row.origin}"
        return Entry(
            path, datum.si, f"{datum.value:g} {datum.unit}", "catalog", "catalog",
            source=f"{datum.source} ({datum.sure})", note=f"{row.kind} {row.name}: {kind}",
        )  # fmt: skip

    def _from_rule(self, path: str, optional: bool) -> Entry:
        rule = rules().get(path)
        if rule is None:
            if optional:
                return Entry(path, None, "", "defaults", "default", note="not said")
            raise Unsaid(path)
        if self._built is not None and not rule.follows:
            return self._built.spoken(path)
        value = self._by(rule)
        return Entry(
            path, value, written(path, value), "defaults", "default",
            source=rule.source, note=rule.reason,
        )  # fmt: skip

    def _by(self, rule: Rule) -> Any:
        leaf = leaves()[rule.path]
        if not callable(rule.value):
            # most rules: the same for every engine and catalog
            if leaf.form == "quantity" and not isinstance(rule.value, list):
                return _constant(rule.path, rule.value)
            return read_leaf(leaf, rule.value, self.catalog)
        value = rule.value(self)
        named = leaf.form == "catalog" and value is not None
        return self.catalog.row(leaf.row_kind, value).key if named else value


_DERIVED = ("catalog", "defaults")
"""Layers that no stack holds: what a row or a rule of thumb gives."""


def differing(one: Stack, other: Stack, cylinder: int) -> set[str]:
    """Paths of which two stacks don't say the same of a cylinder, on whatever line it stands."""
    if one is other:
        return set()
    paths = {split(path)[1] for stack in (one, other) for path in stack.paths()}
    return {path for path in paths if _unlike(one.top(path, cylinder), other.top(path, cylinder))}


def _unlike(one: Entry | None, other: Entry | None) -> bool:
    if one is None or other is None:
        return one is not other
    return bool(one.value != other.value)


@cache
def _constant(path: str, said: object) -> float:
    """A quantity as a rule has it, read once: an engine is filled anew at every key."""
    return float(read_leaf(leaves()[path], said, Catalog()))


def written(path: str, value: Any) -> str:
    """A value as a file would have it, without quotes.

    Examples
    --------
    >>> written("cylinder.bore", 0.044)
    '44 mm'
    """
    leaf = leaves()[split(path)[1]]
    if value is None:
        return ""
    if leaf.form == "quantity":
        return write_quantity(float(value), leaf.dimension)
    if leaf.form == "list":
        return ", ".join(write_quantity(x, leaf.columns[0]) for x in value)
    if leaf.form == "table":
        rows = (zip(row, leaf.columns, strict=True) for row in value)
        return "; ".join(", ".join(write_quantity(x, c) for x, c in row) for row in rows)
    return str(value).lower() if isinstance(value, bool) else str(value)
