"""The wiring as JSON, ``firstfire.wiring/1``: SI, units in names, null for what has no meaning.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
import math
from typing import Literal

from pydantic import Field

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.wires import Element, Path, Wire, Wiring, caution
from firstfire.setup.wiring.text import opening
from firstfire.verdict.told.part import ProvenanceTold, Told
from firstfire.version import VERSION


class ElementTold(Told):
    """One thing of the wiring."""

    id: str = Field(description="letter code (IEC 81346-2) and number")
    kind: str
    name: str
    value: str


class PathTold(Told):
    """What lies between plus and minus."""

    id: str
    name: str
    fed_by: Literal["main", "relay", "battery"]
    elements: list[ElementTold]
    beside: dict[str, ElementTold] = Field(description="by the id of what it lies across")
    plugs: list[str]
    current_a: float


class WireTold(Told):
    """One wire."""

    id: str
    path: str
    start: str
    end: str
    kind: Literal["plain", "screened", "high voltage"]
    current_a: float
    length_m: float
    section_m2: float | None = Field(description="null: of high voltage, or none is thick enough")
    drop_v: float | None


class WiringTold(Told):
    """The wiring of an engine. Estimates."""

    schema_: Literal["firstfire.wiring/1"] = Field(
        default="firstfire.wiring/1", alias="schema", serialization_alias="schema"
    )
    name: str
    says: str
    voltage_v: float
    fuse_a: float | None
    current_a: float
    paths: list[PathTold]
    wires: list[WireTold]
    caution: str
    provenance: ProvenanceTold


def wiring_json(engine: Engine, plain: PlainEngine, wiring: Wiring) -> str:
    """A wiring as JSON text."""
    told = WiringTold(
        name=engine.name,
        says=opening(engine.name, wiring),
        voltage_v=wiring.voltage,
        fuse_a=wiring.fuse,
        current_a=wiring.current,
        paths=[_path(path) for path in wiring.paths],
        wires=[_wire(wire) for wire in wiring.wires],
        caution=caution(wiring),
        provenance=ProvenanceTold(
            version=VERSION, engine_file_sha256=engine.sha256, inputs_sha256=plain.sha256
        ),
    )
    data = told.model_dump(by_alias=True)
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False)


def _element(one: Element) -> ElementTold:
    return ElementTold(id=one.id, kind=one.kind, name=one.name, value=one.value)


def _path(path: Path) -> PathTold:
    return PathTold(
        id=path.id, name=path.name, fed_by=path.fed_by,
        elements=[_element(one) for one in path.elements],
        beside={owner: _element(one) for owner, one in path.beside},
        plugs=[plug.id for plug in path.plugs], current_a=path.current,
    )  # fmt: skip


def _wire(wire: Wire) -> WireTold:
    return WireTold(
        id=wire.id, path=wire.path, start=wire.start, end=wire.end, kind=wire.kind,
        current_a=wire.current, length_m=wire.length,
        section_m2=None if wire.section is None else 1e-6 * wire.section,
        drop_v=None if math.isnan(wire.drop) else wire.drop,
    )  # fmt: skip
