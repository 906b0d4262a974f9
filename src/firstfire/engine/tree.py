"""From a parsed TOML tree to the entries of a layer, every fault noted on the way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, cast

from firstfire import units
from firstfire.catalog import Catalog, Datum
from firstfire.engine.grammar import leaves, nearest, sections, split
from firstfire.engine.layers import Entry, Kind
from firstfire.engine.leaf import read_leaf
from firstfire.engine.quantity import DIMENSIONS, NotAQuantity
from firstfire.engine.spans_said import takes_span
from firstfire.errors import CatalogError, Problem
from firstfire.toml_text import TOO_LONG, too_long

_SPOKEN = {"value", "with", "kind", "source", "note", "low", "high"}
_ENDS = ("low", "high")
_KINDS = ("given", "measured", "learned", "assumed")
_DEEPEST = 12
_NO_SPAN = NotAQuantity(
    "has a low and a high, which are read for what is uncertain alone",
    "Leave them out. `firstfire explain FILE --doubt` lists what is uncertain.",
)


@dataclass
class Gathered:
    """What a tree said: entries, problems, and paths whose value couldn't be read."""

    entries: dict[str, Entry] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    faulty: set[str] = field(default_factory=set)


@dataclass(frozen=True)
class Reader:
    """Reads one layer's tree.

    Attributes
    ----------
    catalog
        For names of rows.
    layer
        The layer that speaks.
    kind
        How its values are known unless one says otherwise.
    source
        Where they are from.
    lines
        Line of each key.
    under
        Prefix of the tree within its file, for looking up lines.
    comma
        Whether ``1,5 mm`` may be read (at a prompt).
    """

    catalog: Catalog
    layer: str
    kind: Kind
    source: str
    lines: Mapping[str, int] = field(default_factory=dict)
    under: str = ""
    comma: bool = False

    def read(self, tree: Mapping[str, Any]) -> Gathered:
        """Every value of a nested tree."""
        found = Gathered()
        for path, raw in _values(tree):
            self._one(path, raw, found)
        return found

    def _line(self, path: str) -> int:
        """The line of a path, or of the nearest table around it."""
        full = f"{self.under}.{path}" if self.under else path
        while full:
            if full in self.lines:
                return self.lines[full]
            full = full.rpartition(".")[0]
        return 0

    def _one(self, path: str, raw: Any, found: Gathered) -> None:
        cylinder, plain = split(path)
        fault: NotAQuantity | None = None
        if too_long(raw):
            fault = NotAQuantity(f"is {TOO_LONG}", "Write the number that is meant.")
            found.faulty.add(path)
        elif path.startswith("materials."):
            fault = self._material(path, raw, found)
        elif plain in sections() or plain in ("cylinders", "materials"):
            fault = NotAQuantity("is a table of values, not a value", f"Write [{path}] above them.")
        elif plain not in leaves():
            fault = _unknown(path, plain)
        elif cylinder is not None and not leaves()[plain].own:
            fault = NotAQuantity(
                "is said for one cylinder, but the engine has only one",
                f"Write it as {plain}, for the whole engine.",
            )
        else:
            fault = self._leaf(path, plain, raw, found)
        if fault is not None:
            found.problems.append(Problem(path, fault.fault, fault.cure, self._line(path)))

    def _leaf(self, path: str, plain: str, raw: Any, found: Gathered) -> NotAQuantity | None:
        try:
            spoken = self._spoken(raw)
            value = read_leaf(leaves()[plain], spoken["value"], self.catalog, comma=self.comma)
            low, high = self._span(plain, value, spoken)
        except NotAQuantity as why:
            found.faulty.add(path)
            return why
        entry = self._entry(path, value, spoken)
        if entry.error is not None and not self._fits(spoken["with"], leaves()[plain].dimension):
            entry = replace(entry, error=None)
        found.entries[path] = entry if low is None else replace(entry, low=low, high=high)
        return None

    def _fits(self, instrument: str, dimension: str) -> bool:
        """Whether an instrument's error is an error of such a quantity.

        A scale doesn't read a spring's rate, though one may be had with it: then its newtons say
        nothing, and the span has to be said.
        """
        if dimension not in DIMENSIONS:
            return False
        unit = self.catalog.row("instrument", instrument)["error"].unit
        return units.same_dimension(unit, DIMENSIONS[dimension].si or "dimensionless")

    def _span(
        self, plain: str, value: Any, spoken: dict[str, Any]
    ) -> tuple[float | None, float | None]:
        """What is said to be 5 and 95 % of a quantity."""
        said = spoken["low"], spoken["high"]
        if said == (None, None):
            return None, None
        if not takes_span(plain):
            raise _NO_SPAN
        _both(said)
        low, high = (
            float(read_leaf(leaves()[plain], end, self.catalog, comma=self.comma)) for end in said
        )
        return _about(low, value, high)

    def _entry(self, path: str, value: Any, spoken: dict[str, Any]) -> Entry:
        return Entry(
            path,
            value,
            _shown(spoken["value"]),
            self.layer,
            spoken["kind"],
            source=spoken["source"],
            note=spoken["note"],
            line=self._line(path),
            error=spoken["error"],
        )

    def _spoken(self, raw: Any) -> dict[str, Any]:
        """A bare value, or ``{ value = ..., with = "caliper", note = ... }``, in full."""
        told: dict[str, Any] = {"kind": self.kind, "source": self.source, "note": "", "error": None,
                                "low": None, "high": None, "with": ""}  # fmt: skip
        if not isinstance(raw, dict):
            return {**told, "value": raw}
        if "value" not in raw:
            raise NotAQuantity("is a table without a value", "Write it in one line: x = ...")
        for key in raw.keys() - _SPOKEN:
            raise NotAQuantity(
                f'has an unknown key "{key}"', f"Known: {', '.join(sorted(_SPOKEN))}."
            )
        for key in _SPOKEN - {"value"}:
            bare = key in _ENDS and isinstance(raw.get(key), int | float)  # as a ratio's value is
            if key in raw and not bare and not isinstance(raw[key], str):
                raise NotAQuantity(f'has a "{key}" that isn\'t text', "Write it in quotes.")
        told["value"] = raw["value"]
        told["kind"] = raw.get("kind", "measured" if "with" in raw else self.kind)
        if told["kind"] not in _KINDS:
            raise NotAQuantity(
                f'has the kind "{told["kind"]}"', f"It is one of: {', '.join(_KINDS)}."
            )
        told["source"] = raw.get("source", self.source)
        told["note"] = raw.get("note", "")
        told["low"], told["high"] = raw.get("low"), raw.get("high")
        if "with" in raw:
            told["with"] = raw["with"]
            told["error"], name = self._instrument(raw["with"])
            told["note"] = ", ".join(filter(None, (f"measured with {name}", told["note"])))
        return told

    def _instrument(self, name: str) -> tuple[float | None, str]:
        try:
            row = self.catalog.row("instrument", name)
        except CatalogError as why:
            raise NotAQuantity(f'is measured with "{name}", no such instrument',
                               str(why).split(". ", 1)[-1]) from None  # fmt: skip
        return (row.si("error") if "error" in row.data else None), row.name

    def _material(self, path: str, raw: Any, found: Gathered) -> NotAQuantity | None:
        """A person's own value of a material's property, in the catalog's dimension."""
        parts = path.split(".")
        try:
            row = self.catalog.row("material", parts[1])
            if len(parts) != 3 or parts[2] not in row.data:
                known = ", ".join(sorted(row.data))
                raise NotAQuantity(f"is not a property of {row.name}", f"Known: {known}.")
            spoken = self._spoken(raw)
            datum = row.data[parts[2]]
            value = _plausible(units.read_in(spoken["value"], datum.unit), datum, spoken["value"])
            low, high = _material_span(datum, value, spoken)
        except CatalogError as why:
            return NotAQuantity("is of no known material", str(why))
        except units.UnitError as why:
            return NotAQuantity(f"is {raw!r}", str(why))
        except NotAQuantity as why:
            return why
        key = f"materials.{row.key}.{parts[2]}"
        entry = replace(self._entry(key, value, spoken), error=None)
        found.entries[key] = replace(entry, low=low, high=high)
        return None


def _both(said: tuple[Any, Any]) -> None:
    if None in said:
        raise NotAQuantity("has one end of a span", 'Write both: low = "...", high = "...".')


def _about(low: float, value: float, high: float) -> tuple[float, float]:
    if not low <= value <= high or low == high:
        raise NotAQuantity("does not lie between its low and high", "low <= value <= high.")
    return low, high


def _material_span(
    datum: Datum, value: float, spoken: dict[str, Any]
) -> tuple[float | None, float | None]:
    """What is said to be 5 and 95 % of a material's property."""
    said = spoken["low"], spoken["high"]
    if said == (None, None):
        return None, None
    if datum.si_low <= 0:
        raise _NO_SPAN
    _both(said)
    low, high = (_plausible(units.read_in(end, datum.unit), datum, end) for end in said)
    return _about(low, value, high)


_FAR = 100.0
"""A person's own number of a material lies within so many times what its row spans."""


def _plausible(value: float, datum: Datum, written: object) -> float:
    """The value itself, refused where no piece of that material can have it."""
    if datum.si_low / _FAR <= value <= datum.si_high * _FAR:
        return value
    span = f"{datum.low:g} to {datum.high:g} {datum.unit}"
    raise NotAQuantity(
        f'is "{written}", beyond what makes sense', f"The row spans {span}; check number and unit."
    )


def _unknown(path: str, plain: str) -> NotAQuantity:
    near = nearest(plain)
    prefix = path[: len(path) - len(plain)]
    cure = f"Did you mean {prefix}{near}?" if near else "`firstfire schema engine` lists what is."
    return NotAQuantity("is not known", cure)


def _shown(raw: Any) -> str:
    return raw if isinstance(raw, str) else str(raw).lower() if isinstance(raw, bool) else str(raw)


def _values(tree: Mapping[str, Any], prefix: str = "", depth: int = 0) -> Iterator[tuple[str, Any]]:
    """Dotted path and raw value of every leaf; a table with a ``value`` key is a leaf."""
    for key, raw in tree.items():
        path = f"{prefix}.{key}" if prefix else str(key)
        is_leaf = not isinstance(raw, dict) or "value" in raw or split(path)[1] in leaves()
        if is_leaf or depth >= _DEEPEST:
            yield path, raw
        elif split(path)[1] not in sections() and not _container(path):
            yield path, cast(Any, raw)
        else:
            yield from _values(raw, path, depth + 1)


def _container(path: str) -> bool:
    parts = path.split(".")
    if parts[0] == "materials":
        return len(parts) <= 2
    return parts[0] == "cylinders" and (len(parts) == 1 or (len(parts) == 2 and parts[1].isdigit()))
