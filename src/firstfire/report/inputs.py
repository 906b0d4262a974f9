"""All inputs of an engine with who said them: the last pages of a report."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.grammar import Leaf, leaves, split
from firstfire.engine.layers import Entry
from firstfire.engine.values import written
from firstfire.verdict.numbers import THIN

KINDS = {
    "given": "written in the engine file",
    "measured": "measured on the part",
    "learned": "learned from tests",
    "catalog": "from the catalog",
    "default": "a rule of thumb",
    "assumed": "taken as likely",
}
"""How a value can be known, surest first."""


@dataclass(frozen=True)
class Input:
    """One value as it holds.

    Attributes
    ----------
    path
        With its cylinder where it is that one's alone.
    meaning
        What it is.
    value
        As written, with its unit.
    kind, layer
        How it is known, and the layer that spoke.
    reason
        Why it is so, or where it is from.
    """

    path: str
    meaning: str
    value: str
    kind: str
    layer: str
    reason: str


@dataclass(frozen=True)
class Section:
    """The values of one section of the engine file."""

    name: str
    inputs: tuple[Input, ...]


def sections(engine: Engine) -> tuple[Section, ...]:
    """Every value of an engine by section, in the order of building.

    What cylinder 2 has otherwise than cylinder 1 stands below it with its own path.
    """
    found: dict[str, list[Input]] = {}
    for path, leaf in leaves().items():
        first = engine.values(1).spoken(path)
        rows = found.setdefault(path.split(".")[0], [])
        rows.append(_input(path, leaf, first))
        for cylinder in range(2, engine.cylinders + 1):
            own = engine.values(cylinder).spoken(path)
            if leaf.own and own.value != first.value:
                rows.append(_input(f"cylinders.{cylinder}.{path}", leaf, own))
    laid = _materials(engine)
    if laid:
        found["materials"] = laid
    return tuple(
        Section(name.replace("_", " "), tuple(rows)) for name, rows in found.items() if rows
    )


def _input(path: str, leaf: Leaf, entry: Entry) -> Input:
    value = "not said" if entry.value is None else _written(path, entry)
    if leaf.form not in ("quantity", "list", "table", "text"):
        value = value.replace("_", " ")
    return Input(
        path=path,
        meaning=leaf.description,
        value=value,
        kind=entry.kind,
        layer=entry.layer.replace("_", " "),
        reason=reason(entry),
    )


def _written(path: str, entry: Entry) -> str:
    """A value with its unit, as exactly as it was given."""
    text = entry.written or written(split(path)[1], entry.value)
    number, space, unit = text.partition(" ")
    words = {"N*m": "N·m", "kg*m^2": "kg·m²", "degC": "°C", "deg": "°"}
    if space and " " not in unit and number[:1] in "+-.0123456789":
        unit = words.get(unit, unit.replace("^2", "²").replace("^3", "³").replace("*", "·"))
        return f"{number}°" if unit == "°" else f"{number}{THIN}{unit}"
    return text


def reason(entry: Entry) -> str:
    """Why a value is so, in words: its note and its source, the file's line where it has one."""
    where = f"line {entry.line}" if entry.line and entry.layer == "file" else ""
    source = "" if entry.layer == "file" else entry.source
    error = "" if entry.error is None else "with its instrument's error"
    return "; ".join(part for part in (where, entry.note, source, error) if part)


def _materials(engine: Engine) -> list[Input]:
    """Properties of materials that a layer sets over the catalog."""
    found = []
    for path in engine.stack.paths():
        entry = engine.stack.top(path) if path.startswith("materials.") else None
        if entry is not None:
            found.append(
                Input(path, "a property of a material", entry.written, entry.kind,
                      entry.layer, reason(entry))
            )  # fmt: skip
    return found
