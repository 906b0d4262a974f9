"""From a stack of layers to a plain engine: SI numbers, nothing written, nothing uncertain."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from functools import cache, lru_cache
from typing import Any, TypeVar

from firstfire.catalog import CurvePoint
from firstfire.engine.description import CylinderParts, SharedParts
from firstfire.engine.engine import Engine
from firstfire.engine.fields import Section
from firstfire.engine.fuel import Fuel, fuel
from firstfire.engine.grammar import leaves
from firstfire.engine.layers import Entry, Layer
from firstfire.engine.materials import Material, named_materials
from firstfire.engine.values import Values

Part = TypeVar("Part", bound=Section)


class PlainEngine(SharedParts):
    """An engine as physics sees it: every value filled, SI, frozen.

    Attributes
    ----------
    name
        What it is called.
    cylinders
        Each cylinder's own parts, in order.
    materials
        Every material named, by key.
    fuel
        What it burns.
    sha256
        Of all its numbers: the key of every cache.
    """

    name: str
    cylinders: tuple[CylinderParts, ...]
    materials: dict[str, Material]
    fuel: Fuel
    sha256: str


def resolve(
    engine: Engine, sample: Mapping[str, Any] | None = None, *, as_built: bool = False
) -> PlainEngine:
    """The plain engine at the centre of every value, or at a sample of some.

    Parameters
    ----------
    engine
        As written down.
    sample
        SI values by path that stand in for what the layers say.
    as_built
        Whether what rules of thumb chose stays as it is without the sample: one engine that turns
        out otherwise, not another that would be built.

    Raises
    ------
    Unsaid
        Where a value that must be given isn't; a reader never returns such an engine.
    """
    numbers = range(1, engine.cylinders + 1)
    built = engine.built if as_built else [None for _ in numbers]
    if sample:
        engine = engine.with_layer(_sampled(sample))
    each = [engine.values(*pair) for pair in zip(numbers, built, strict=True)]
    shared = _filled(each[0], own=False)
    cylinders = [_filled(values, own=True) for values in each]
    materials: dict[str, Material] = {}
    for values in each:
        materials |= named_materials(values)
    burned = fuel(engine.catalog, str(each[0]["intake.fuel"]))
    return PlainEngine.model_construct(
        name=engine.name,
        cylinders=tuple(as_section(CylinderParts, tree) for tree in cylinders),
        materials=materials,
        fuel=burned,
        sha256=_digest(shared, cylinders, materials, burned),
        **as_section(SharedParts, shared).__dict__,
    )


def as_section(section: type[Part], tree: Mapping[str, Any]) -> Part:
    """A section of values that were read and checked leaf by leaf, without checking them again."""
    values: dict[str, Any] = {}
    for name, field in section.model_fields.items():
        inner = field.section
        values[name] = as_section(inner, tree[name]) if inner else tree[name]
    return section.model_construct(**values)


def _sampled(sample: Mapping[str, Any]) -> Layer:
    entries = {
        path: Entry(path, value, f"{value}", "trial", "assumed", note="a sample")
        for path, value in sample.items()
    }
    return Layer("trial", "a sample", entries)


def _filled(values: Values, *, own: bool) -> dict[str, Any]:
    """Every value of the cylinder's own or the shared sections, as nested tables."""
    tree: dict[str, Any] = {}
    for path, tables, last in _places(own):
        here = tree
        for table in tables:
            here = here.setdefault(table, {})
        here[last] = values[path]
    return tree


@cache
def _places(own: bool) -> tuple[tuple[str, list[str], str], ...]:
    """Every path of the cylinder's own or the shared sections, its tables, and its name there."""
    split = ((leaf.path, leaf.path.split(".")) for leaf in leaves().values() if leaf.own is own)
    return tuple((path, tables, last) for path, (*tables, last) in split)


def _digest(shared: Any, cylinders: Any, materials: Mapping[str, Material], burned: Fuel) -> str:
    plain = {
        "shared": shared,
        "cylinders": cylinders,
        "fuel": repr(burned),
        "materials": {
            key: [sorted(m.properties.items()), {name: _told(c) for name, c in m.curves.items()}]
            for key, m in sorted(materials.items())
        },
    }
    return hashlib.sha256(json.dumps(plain, sort_keys=True).encode()).hexdigest()


@lru_cache(maxsize=256)
def _told(curve: tuple[CurvePoint, ...]) -> str:
    """A curve in letters: those of the catalog are the same for every engine."""
    return repr(curve)
