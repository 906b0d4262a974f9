"""What differs between engines once every value is filled: paths with each one's value."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from firstfire.engine.engine import Engine
from firstfire.engine.grammar import leaves
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.values import Values, written
from firstfire.verdict.numbers import figures

_SAME = 1e-6
_DERIVED = ("defaults", "catalog")


@dataclass(frozen=True)
class Said:
    """One engine's value at a path.

    Attributes
    ----------
    value
        SI number, count, flag, word or tuple; None where it has none.
    written
        As a person reads it.
    layer, kind
        Which layer spoke, and how it is known.
    there
        False where the engine has no such thing: a second cylinder of a single.
    """

    value: Any
    written: str
    layer: str
    kind: str
    there: bool = True


@dataclass(frozen=True)
class Difference:
    """A path at which engines differ, with each one's value in their order.

    `own` is true where somebody said it for one of them: a file, a trial, a measurement. Else it
    follows from what was said.
    """

    path: str
    each: tuple[Said, ...]
    own: bool


_NOTHING = Said(None, "–", "", "", there=False)


def differences(engines: Sequence[Engine], plains: Sequence[PlainEngine]) -> tuple[Difference, ...]:
    """Every path whose value differs, those somebody said first, in the order of building.

    Parameters
    ----------
    engines, plains
        As written down and resolved, in the same order.
    """
    found = [*_paths(engines), *_materials(engines, plains)]
    return tuple(sorted(found, key=lambda d: not d.own))


def _paths(engines: Sequence[Engine]) -> Iterator[Difference]:
    most = max(engine.cylinders for engine in engines)
    values = [[engine.values(n) for n in range(1, engine.cylinders + 1)] for engine in engines]
    for path, leaf in leaves().items():
        columns = [
            [_said(each[n], path) if n < len(each) else _NOTHING for each in values]
            for n in range(most if leaf.own else 1)
        ]
        if all(_one_for_all(column) for column in zip(*columns, strict=True)):
            if _differ(columns[0]):
                yield _difference(path, columns[0])
            continue
        for number, row in enumerate(columns, start=1):
            if _differ(row):
                yield _difference(f"cylinders.{number}.{path}" if most > 1 else path, row)


def _one_for_all(column: Sequence[Said]) -> bool:
    """Whether all cylinders of an engine have the same value, or it has only one."""
    first = column[0]
    return all(not said.there or _same(said.value, first.value) for said in column)


def _said(values: Values, path: str) -> Said:
    entry = values.spoken(path)
    text = written(path, entry.value) or "none"
    return Said(entry.value, text, entry.layer, entry.kind)


def _differ(row: Sequence[Said]) -> bool:
    return any(s.there != row[0].there or not _same(s.value, row[0].value) for s in row[1:])


def _same(a: Any, b: Any) -> bool:
    if isinstance(a, float) or isinstance(b, float):
        try:
            return math.isclose(a, b, rel_tol=_SAME, abs_tol=1e-15)
        except TypeError:
            return False
    if isinstance(a, tuple) and isinstance(b, tuple):
        return len(a) == len(b) and all(_same(x, y) for x, y in zip(a, b, strict=True))
    return bool(a == b)


def _difference(path: str, row: Sequence[Said]) -> Difference:
    own = any(said.there and said.layer not in _DERIVED for said in row)
    return Difference(path, tuple(row), own)


def _materials(engines: Sequence[Engine], plains: Sequence[PlainEngine]) -> Iterator[Difference]:
    """Properties of a material that all engines name, where a person's own value differs."""
    shared = set.intersection(*(set(plain.materials) for plain in plains))
    for key in sorted(shared):
        properties: dict[str, None] = {}
        for plain in plains:
            properties |= dict.fromkeys(plain.materials[key].properties)
        for prop in properties:
            path = f"materials.{key}.{prop}"
            row = [
                _property(engine, plain, key, prop)
                for engine, plain in zip(engines, plains, strict=True)
            ]
            if _differ(row):
                yield _difference(path, row)


def _property(engine: Engine, plain: PlainEngine, key: str, prop: str) -> Said:
    value = plain.materials[key].get(prop)
    if value is None:
        return _NOTHING
    said = engine.stack.top(f"materials.{key}.{prop}")
    if said is not None:
        return Said(value, said.written, said.layer, said.kind)
    row = engine.catalog.row("material", key)
    datum = row[prop]
    yours = "file" if row.origin != "catalog" else "catalog"
    unit = "" if datum.unit == "dimensionless" else f" {datum.unit}"
    return Said(value, f"{figures(datum.value, 4)}{unit}", yours, "catalog")
