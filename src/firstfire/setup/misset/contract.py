"""What readings of a cam drive say as JSON, ``firstfire.misset/1``: SI, units in names.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
from typing import Literal

from pydantic import Field

from firstfire.setup.misset import words
from firstfire.setup.misset.facts import Explained, MissetFacts
from firstfire.verdict.told.part import ProvenanceTold, Told
from firstfire.version import VERSION


class ReadTold(Told):
    """One reading."""

    id: str
    cylinder: int
    event: str
    written: str
    read_rad: float = Field(description="after its cylinder's firing top, by the period below")
    period_rad: float = Field(description="2 pi where which top it was isn't known, else 4 pi")
    drawn_rad: float


class FaultTold(Told):
    """A fault that explains the readings."""

    words: str
    teeth_late: int = Field(description="negative: early")
    besides_late_rad: float = Field(description="of the crank, beyond whole teeth")
    mirrored: bool
    wheels_exchanged: bool
    lash_rad: float = Field(description="by which valves open late and shut early")
    off_rad: list[float] = Field(description="by how much each reading then lies beside it")
    cures: list[str]


class EdgeTold(Told):
    """A sensor's edge, a breaker or a spark."""

    id: str
    cylinder: int
    late_rad: float


class MissetTold(Told):
    """What readings of a cam drive say."""

    schema_: Literal["firstfire.misset/1"] = Field(
        default="firstfire.misset/1", alias="schema", serialization_alias="schema"
    )
    name: str
    verdict: str
    readings: list[ReadTold]
    found: FaultTold | None
    others: list[FaultTold] = Field(description="that these readings can't tell from it")
    read_next: str | None
    which_top_known: bool
    edges: list[EdgeTold]
    caution: str
    provenance: ProvenanceTold


def misset_told(found: MissetFacts) -> MissetTold:
    """The answer as the contract has it."""
    return MissetTold(
        name=found.engine.name,
        verdict=words.verdict(found),
        readings=[
            ReadTold(
                id=one.id, cylinder=one.cylinder, event=one.name, written=one.written,
                read_rad=one.own, period_rad=one.period, drawn_rad=one.drawn,
            )
            for one in found.readings
        ],
        found=None if found.found is None else _fault(found, found.found),
        others=[_fault(found, one) for one in found.others],
        read_next=words.next_words(found),
        which_top_known=found.which_top_known,
        edges=[
            EdgeTold(id=one.id, cylinder=one.cylinder, late_rad=late) for one, late in found.edges
        ],
        caution=words.BY_HAND,
        provenance=ProvenanceTold(
            version=VERSION,
            engine_file_sha256=found.engine.sha256,
            inputs_sha256=found.plain.sha256,
        ),
    )  # fmt: skip


def misset_json(found: MissetFacts) -> str:
    """The answer as JSON text."""
    data = misset_told(found).model_dump(by_alias=True)
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False)


def _fault(found: MissetFacts, one: Explained) -> FaultTold:
    fault = one.fault
    return FaultTold(
        words=words.fault_words(fault),
        teeth_late=fault.teeth,
        besides_late_rad=fault.degrees_late,
        mirrored=fault.mirrored,
        wheels_exchanged=fault.swapped,
        lash_rad=fault.lash,
        off_rad=list(one.off),
        cures=list(words.cures(found.plain, one)),
    )
