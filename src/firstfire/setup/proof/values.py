"""Values of materials and doubts: read from an engine, set on it, written as a layer has them."""

from __future__ import annotations

from firstfire import units
from firstfire.engine.engine import Engine
from firstfire.engine.read import LAYER_SCHEMA, with_layer_text

_DIGITS = 5


def value_at(engine: Engine, path: str) -> float:
    """What an engine has at a path of a material or a doubt, SI."""
    values = engine.values(1)
    if path.startswith("materials."):
        _, key, prop = path.split(".")
        return values.material_property(key, prop)
    return values.number(path)


def written(engine: Engine, path: str, value: float, digits: int = _DIGITS) -> str:
    """A value as a layer has it: ``"31.2 MPa"``."""
    unit = ""
    if path.startswith("materials."):
        _, key, prop = path.split(".")
        unit = engine.catalog.row("material", key)[prop].unit
    if unit in ("", "dimensionless"):
        return f"{float(f'{value:.{digits}g}')}"
    factor, offset = units.scale(unit)
    return f'"{float(f"{(value - offset) / factor:.{digits}g}")} {unit}"'


def with_value(engine: Engine, path: str, value: float) -> Engine:
    """The engine with a value set on it as a learned layer would."""
    text = f'schema = "{LAYER_SCHEMA}"\nlayer = "learned"\n[set]\n'
    return with_layer_text(f"{text}{path} = {written(engine, path, value)}\n", "reading", engine)
