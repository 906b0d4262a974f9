"""Margins in their JSON contract, with what the engine file says of all that they hang on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.grammar import leaves, split
from firstfire.engine.quantity import DIMENSIONS
from firstfire.engine.records import Way
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.told.margins_contract import DependenceTold, MarginTold


@dataclass(frozen=True)
class _Opened(Margin):
    """A margin whose way is opened, with what is told of the inputs it hangs on."""

    told_of_inputs: tuple[DependenceTold, ...] = ()


def told_margin(margin: Margin, way: Way, engine: Engine, read: Sequence[str]) -> MarginTold:
    """One margin as the contract has it, with its way opened and the paths that it reads."""
    inputs = tuple(_dependences(margin, engine, read))
    return MarginTold.made_of(_Opened(**{**vars(margin), "way": way}, told_of_inputs=inputs))


def _dependences(margin: Margin, engine: Engine, read: Sequence[str]) -> list[DependenceTold]:
    """What moves it, largest first, then the rest of what its way reads."""
    moving = {d.path: d.elasticity for d in margin.depends_on}
    paths = [*moving, *(path for path in read if path not in moving)]
    return [_dependence(path, moving.get(path), engine) for path in paths]


def _dependence(path: str, elasticity: float | None, engine: Engine) -> DependenceTold:
    cylinder, plain = split(path)
    leaf = leaves().get(plain)
    if leaf is not None:
        entry = engine.values(cylinder or 1).spoken(plain)
        unit = DIMENSIONS[leaf.dimension].si if leaf.dimension else ""
        number = isinstance(entry.value, int | float) and not isinstance(entry.value, bool)
        return DependenceTold(
            path=path,
            value=float(entry.value) if number else None,
            unit=unit,
            origin=f"{entry.layer}, {entry.kind}",
            source=entry.source,
            elasticity=elasticity,
        )
    if plain.startswith("materials.") and plain.count(".") == 2:
        _, key, prop = plain.split(".")
        datum = engine.catalog.row("material", key)[prop]
        said = engine.stack.top(plain)
        return DependenceTold(
            path=path,
            value=float(said.value) if said else datum.si,
            unit=datum.unit,
            origin=f"{said.layer}, {said.kind}" if said else "catalog, catalog",
            source=said.source if said else f"{datum.source} ({datum.sure})",
            elasticity=elasticity,
        )
    return DependenceTold(
        path=path, value=None, unit="", origin="computed", source="", elasticity=elasticity
    )
