"""Engine files with a few lines changed, and what the room makes of them, to be held to a pencil.

Unless a line says otherwise an engine here is a single of 40 mm bore and 36 mm stroke, of PETG.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from typing import Any

from firstfire import catalog
from firstfire.engine.engine import Engine
from firstfire.engine.read import understand
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.engine.unknown import Unknown
from firstfire.engine.unknowns import unknowns
from firstfire.errors import EngineFileError

Lines = Mapping[str, Any]
MM, RPM = 1e-3, 0.104719755
FIGURES = 3e-4
"""Numbers here are written to four figures or more."""

USUAL: Lines = {
    "name": "pencil",
    "layout.kind": "single",
    "cylinder.bore": "40 mm",
    "cylinder.stroke": "36 mm",
    "printing.material": "petg",
}


def written(lines: Lines) -> str:
    """The text of an engine file: the usual lines with these in their place or after them."""
    return "".join(f"{path} = {_toml(value)}\n" for path, value in {**USUAL, **lines}.items())


def _toml(value: Any) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {_toml(one)}" for key, one in value.items()) + " }"
    return json.dumps(value, ensure_ascii=False)


@cache
def _rows() -> catalog.Catalog:
    return catalog.load()


@cache
def _understood(text: str) -> Engine:
    return understand(text, "pencil.toml", _rows())


@cache
def _resolved(text: str) -> PlainEngine:
    return resolve(_understood(text))


@cache
def _unknowns(text: str) -> dict[str, Unknown]:
    return {one.path: one for one in unknowns(_understood(text))}


def engine(lines: Lines) -> Engine:
    """The engine of these lines."""
    return _understood(written(lines))


def plain(lines: Lines) -> PlainEngine:
    """Its plain numbers."""
    return _resolved(written(lines))


def value(lines: Lines, path: str) -> Any:
    """What holds at a path, SI."""
    return engine(lines).values(1)[path]


def unknown(lines: Lines) -> dict[str, Unknown]:
    """Its uncertain inputs by path."""
    return _unknowns(written(lines))


def refused(lines: Lines) -> dict[str, str]:
    """What is said to be wrong, faults and cures by path; {} where all is taken."""
    said: dict[str, str] = {}
    try:
        _understood(written(lines))
    except EngineFileError as why:
        for one in why.problems:
            said[one.path] = f"{said.get(one.path, '')}{one.path} {one.fault}. {one.cure} "
    return said
