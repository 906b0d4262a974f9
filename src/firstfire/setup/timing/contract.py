"""Timing as JSON, ``firstfire.timing/1``: SI, units in names, null for what has no meaning.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
from typing import Literal

from pydantic import Field

from firstfire.setup.timing import words
from firstfire.setup.timing.facts import TimingFacts
from firstfire.setup.timing.places import Place
from firstfire.setup.timing.tooth import Shifted
from firstfire.verdict.told.part import ProvenanceTold, Told
from firstfire.version import VERSION


class PlaceTold(Told):
    """One event and where to look for it."""

    id: str
    cylinder: int = Field(description="counted from 1")
    event: str
    kind: Literal["centre", "valve", "spark", "edge", "fuel"]
    crank_angle_rad: float = Field(description="after the firing top of cylinder 1, 0 to 4 pi")
    own_angle_rad: float = Field(description="after its own cylinder's firing top")
    where: str = Field(description="from the nearest centre, in words")
    rim_m: float | None = Field(description="on the flywheel's rim after top; null without one")
    cam_angle_rad: float = Field(description="of the cam after cylinder 1's firing top")
    cam_pulley_m: float = Field(description="the same on the cam wheel's pitch line")
    below_deck_m: float = Field(description="crown below the cylinder's top face")
    assumed: str = Field(description="what it stands on where the file has no number; else empty")


class ToothTold(Told):
    """One cylinder with its cam some teeth out. Estimates."""

    cylinder: int
    teeth_late: int = Field(description="negative: early")
    inlet_opens_rad: float | None
    inlet_closes_rad: float | None
    exhaust_opens_rad: float
    exhaust_closes_rad: float
    inlet_lift_at_overlap_m: float | None
    exhaust_lift_at_overlap_m: float
    charge_kept: float | None = Field(description="at cranking speed, of a full cylinder")
    tight_gauge_pa: float | None = Field(description="over the air, of one that leaks nothing")
    inlet_room_m: float | None = Field(description="least to the piston; negative: they meet")
    exhaust_room_m: float | None


class BeltTold(Told):
    """The belt or chain."""

    teeth: int
    teeth_asked: float = Field(description="by the file's distance of the axes")
    length_m: float
    centre_distance_m: float
    fits: bool


class TimingTold(Told):
    """When everything happens."""

    schema_: Literal["firstfire.timing/1"] = Field(
        default="firstfire.timing/1", alias="schema", serialization_alias="schema"
    )
    name: str
    rotation: Literal["clockwise", "anticlockwise"] = Field(description="seen at the flywheel")
    firing_order: list[int]
    firing_intervals_rad: list[float]
    events: list[PlaceTold]
    tooth_rad: float = Field(description="of the crank, for one tooth of the cam's wheel")
    tooth_on_rim_m: float | None
    teeth_out: list[ToothTold]
    overlap_rad: list[float | None] = Field(description="a cylinder; null where suction opens")
    belt: BeltTold | None = Field(description="null for gears")
    which_top: list[str]
    caution: str
    provenance: ProvenanceTold


def timing_told(found: TimingFacts) -> TimingTold:
    """A timing as the contract has it."""
    belt = found.belt
    return TimingTold(
        name=found.engine.name,
        rotation=found.plain.layout.rotation,
        firing_order=list(found.order),
        firing_intervals_rad=list(found.intervals),
        events=[_place(place) for place in found.places],
        tooth_rad=found.tooth,
        tooth_on_rim_m=found.tooth_on_rim,
        teeth_out=[_tooth(n, row) for n, rows in enumerate(found.teeth, 1) for row in rows],
        overlap_rad=list(found.overlaps),
        belt=None if belt is None else BeltTold(
            teeth=belt.teeth, teeth_asked=belt.exact, length_m=belt.length,
            centre_distance_m=belt.centre_distance, fits=belt.fits,
        ),
        which_top=list(words.apart(found)),
        caution=words.CAUTION,
        provenance=ProvenanceTold(
            version=VERSION,
            engine_file_sha256=found.engine.sha256,
            inputs_sha256=found.plain.sha256,
        ),
    )  # fmt: skip


def timing_json(found: TimingFacts) -> str:
    """A timing as JSON text."""
    data = timing_told(found).model_dump(by_alias=True)
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False)


def _place(place: Place) -> PlaceTold:
    event = place.event
    return PlaceTold(
        id=event.id,
        cylinder=event.cylinder,
        event=event.name,
        kind=event.kind,
        crank_angle_rad=event.crank,
        own_angle_rad=event.own,
        where=place.words,
        rim_m=place.rim,
        cam_angle_rad=place.cam,
        cam_pulley_m=place.pulley,
        below_deck_m=place.depth,
        assumed=event.assumed,
    )


def _tooth(cylinder: int, row: Shifted) -> ToothTold:
    return ToothTold(
        cylinder=cylinder,
        teeth_late=row.teeth,
        inlet_opens_rad=row.inlet_opens,
        inlet_closes_rad=row.inlet_closes,
        exhaust_opens_rad=row.exhaust_opens,
        exhaust_closes_rad=row.exhaust_closes,
        inlet_lift_at_overlap_m=row.inlet_lift,
        exhaust_lift_at_overlap_m=row.exhaust_lift,
        charge_kept=row.filling,
        tight_gauge_pa=row.gauge,
        inlet_room_m=row.inlet_room,
        exhaust_room_m=row.exhaust_room,
    )
