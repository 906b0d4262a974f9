"""The engine file's JSON Schema, so that an editor can complete and check it."""

from __future__ import annotations

import copy
from typing import Any

from firstfire.engine.grammar import Leaf, leaves

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def engine_schema() -> dict[str, Any]:
    """JSON Schema of an engine file, ``firstfire.engine/1``."""
    tree: dict[str, Any] = {}
    own: dict[str, Any] = {}
    for leaf in leaves().values():
        _hang(tree, leaf)
        if leaf.own:
            _hang(own, leaf)
    head = {
        "schema": {"const": "firstfire.engine/1"},
        "name": {"type": "string", "description": "what the engine is called"},
        "story": {"type": "string", "description": "what it is meant for, in a sentence or two"},
        "note": {"type": "string"},
    }
    return {
        "$schema": _DIALECT,
        "title": "firstfire engine file",
        "description": "One engine. Quantities are text with a unit; the rest has defaults.",
        "type": "object",
        "properties": {
            **head,
            **tree,
            "cylinders": {
                "type": "object",
                "description": "what differs for one cylinder: [cylinders.2.runner]",
                "patternProperties": {"^[1-9]$": _table(copy.deepcopy(own))},
                "additionalProperties": False,
            },
            "as_built": {
                **_table({**copy.deepcopy(tree)}),
                "description": "what was measured on the finished parts, beside what was designed",
            },
            "materials": {
                "type": "object",
                "description": "your own values of a material: [materials.petg] strength_across",
                "additionalProperties": {"type": "object"},
            },
        },
        "required": ["layout", "cylinder", "printing"],
        "additionalProperties": False,
        "$defs": {"spoken": _spoken()},
    }


def _table(properties: dict[str, Any]) -> dict[str, Any]:
    return {"type": "object", "properties": properties, "additionalProperties": False}


def _hang(tree: dict[str, Any], leaf: Leaf) -> None:
    *tables, last = leaf.path.split(".")
    here = tree
    for table in tables:
        here = here.setdefault(table, _table({}))["properties"]
    here[last] = _value(leaf)


def _value(leaf: Leaf) -> dict[str, Any]:
    """Either the plain value, or a table that also says how it is known."""
    return {
        "description": _description(leaf),
        "anyOf": [_plain(leaf), {"$ref": "#/$defs/spoken"}],
    }


def _description(leaf: Leaf) -> str:
    span = " to ".join(filter(None, (leaf.low, leaf.high))) if leaf.low or leaf.high else ""
    parts = [leaf.description]
    if leaf.low and leaf.high:
        parts.append(f"from {span}")
    if leaf.written_example:
        parts.append(f"like {leaf.written_example}")
    return "; ".join(parts)


def _plain(leaf: Leaf) -> dict[str, Any]:
    quantity = {"type": "string", "pattern": r"\d"}
    if leaf.form == "quantity":
        return {"type": ["string", "number"]} if leaf.dimension == "ratio" else quantity
    if leaf.form == "choice":
        return {"type": "string", "enum": list(leaf.choices)}
    if leaf.form == "integer":
        limits = {
            word: int(limit)
            for word, limit in (("minimum", leaf.low), ("maximum", leaf.high))
            if limit is not None
        }
        return {"type": "integer", **limits}
    if leaf.form == "list":
        return {"type": "array", "items": quantity, "minItems": 1}
    if leaf.form == "table":
        width = len(leaf.columns)
        row = {"type": "array", "items": quantity, "minItems": width, "maxItems": width}
        return {"type": "array", "items": row, "minItems": 1}
    return {"type": "boolean"} if leaf.form == "flag" else {"type": "string"}


def _spoken() -> dict[str, Any]:
    end = {"type": ["string", "number"]}
    return {
        "type": "object",
        "description": "a value that says how it is known",
        "properties": {
            "value": {},
            "with": {"type": "string", "description": "instrument, a row of the catalog"},
            "kind": {"enum": ["given", "measured", "learned", "assumed"]},
            "source": {"type": "string"},
            "note": {"type": "string"},
            "low": {**end, "description": "of what is uncertain: 5 %; goes with high"},
            "high": {**end, "description": "of what is uncertain: 95 %; goes with low"},
        },
        "required": ["value"],
        "additionalProperties": False,
    }
