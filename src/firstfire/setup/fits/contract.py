"""Fits as JSON, ``firstfire.fits/1``: SI, units in names, null for what has no meaning.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
from typing import Literal

from pydantic import Field

from firstfire.setup.fits import contract_more as more
from firstfire.setup.fits.facts import FitsFacts
from firstfire.setup.fits.seat import SeatFit
from firstfire.setup.fits.words import CAUTION
from firstfire.verdict.told.part import ProvenanceTold, Told
from firstfire.version import VERSION


class PressingTold(Told):
    """What a press fit asks and does."""

    force_n: float = Field(description="to press it home")
    stress_pa: float = Field(description="in what is nearest to giving way, fit fresh")
    bears_pa: float = Field(description="that bears for a night")
    what: str
    cracks: bool
    yields: bool
    left_after_night: float = Field(description="share of its grip")
    frees_at_k: float | None = Field(description="no grip left, pin and hub as warm; null: never")
    softens_at_k: float | None = Field(description="half of the hub's strength left")


class SeatTold(Told):
    """One seat or pin."""

    id: str
    path: str = Field(description="of the engine file; empty where common practice alone says it")
    pin: str
    hub: str
    count: int
    nominal_m: float
    tight_m: float | None = Field(description="negative: play; null: by its classes or its form")
    hole_class: str = Field(description="ISO 286; empty for a print, a tube or a thread")
    shaft_class: str
    least_play_m: float | None
    most_play_m: float | None
    draw_hole_m: float | None = Field(description="for this printer; null where not printed")
    draw_shaft_m: float | None
    pressing: PressingTold | None
    how: str
    why_not: str


class HabitTold(Told):
    """How a printer's sizes come out."""

    kind: Literal["hole", "shaft"]
    error_m: float = Field(description="larger than drawn")
    low_m: float = Field(description="5 %")
    high_m: float = Field(description="95 %")
    scatter_m: float | None = Field(description="half width, 5-95 %; null of too few readings")
    readings: int


class FitsTold(Told):
    """All fits, clearances and torques."""

    schema_: Literal["firstfire.fits/1"] = Field(
        default="firstfire.fits/1", alias="schema", serialization_alias="schema"
    )
    name: str
    seats: list[SeatTold]
    printer: list[HabitTold] = Field(description="as measured; empty where it was not")
    cylinders: list[more.CylinderTold]
    clearances: list[more.ClearanceTold]
    belt: more.BeltSetTold | None
    no_belt: str
    torques: list[more.TorqueTold]
    sealant: more.SealantTold | None
    caution: str
    provenance: ProvenanceTold


def fits_told(found: FitsFacts) -> FitsTold:
    """Fits as the contract has them."""
    return FitsTold(
        name=found.engine.name,
        seats=[_seat(one) for one in found.seats],
        printer=[
            HabitTold(kind="hole" if one.kind == "hole" else "shaft", error_m=one.error,
                      low_m=one.low, high_m=one.high, scatter_m=one.scatter, readings=one.count)
            for one in found.habits
        ],
        cylinders=[more.cylinder_told(one) for one in found.cylinders],
        clearances=[more.clearance_told(one) for one in found.clearances],
        belt=None if found.belt is None else more.belt_told(found.belt),
        no_belt=found.no_belt,
        torques=[more.torque_told(one) for one in found.torques],
        sealant=None if found.sealant is None else more.sealant_told(found.sealant),
        caution=CAUTION,
        provenance=ProvenanceTold(
            version=VERSION,
            engine_file_sha256=found.engine.sha256,
            inputs_sha256=found.plain.sha256,
        ),
    )  # fmt: skip


def fits_json(found: FitsFacts) -> str:
    """Fits as JSON text."""
    data = fits_told(found).model_dump(by_alias=True)
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False)


def _seat(one: SeatFit) -> SeatTold:
    fit, play = one.pressing, one.play
    return SeatTold(
        id=one.id, path=one.path, pin=one.pin, hub=one.hub, count=one.count,
        nominal_m=one.nominal, tight_m=one.tight, hole_class=one.hole, shaft_class=one.shaft,
        least_play_m=None if play is None else play.least,
        most_play_m=None if play is None else play.most,
        draw_hole_m=one.drawn.hole, draw_shaft_m=one.drawn.shaft,
        pressing=None if fit is None else PressingTold(
            force_n=fit.force, stress_pa=fit.stress, bears_pa=fit.bears, what=fit.what,
            cracks=fit.cracks, yields=fit.yields, left_after_night=fit.night,
            frees_at_k=fit.frees, softens_at_k=fit.softens,
        ),
        how=one.how, why_not=one.why_not,
    )  # fmt: skip
