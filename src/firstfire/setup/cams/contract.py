"""The cams' JSON contract, ``firstfire.cam/1``: SI, angles in rad, null for no meaning.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
import math
from typing import Any, Literal

from pydantic import Field

from firstfire.loads.cam_profile import outline
from firstfire.setup.cams.cam import Cam, Cams
from firstfire.setup.cams.spring import Winding
from firstfire.setup.cams.suction_inlet import SuctionInlet
from firstfire.setup.chapter_contract import NumberTold, number_told
from firstfire.verdict.told.part import ProvenanceTold, Told
from firstfire.version import VERSION


class WindingTold(Told):
    """A spring as it is wound."""

    wire_m: float = Field(description="diameter")
    mean_diameter_m: float
    active_coils: float
    total_coils: float
    preload_n: float = Field(description="on the seat")
    rate_n_m: float
    free_length_m: float
    fitted_length_m: float = Field(description="with the valve shut")
    solid_length_m: float
    stress_pa: float = Field(description="largest shear, at full lift")
    allowed_pa: float
    surge_hz: float
    surge_times: float = Field(description="surge over the cam's turns at top speed")
    mass_kg: float = Field(description="of its active coils")
    bows: bool = Field(description="out, without a guide")


class NearestTold(Told):
    """The nearest cam that can be made."""

    words: str
    values: dict[str, Any] = Field(description="values of the engine file, by path")


class CamTold(Told):
    """One cam."""

    valve: Literal["inlet", "exhaust"]
    law: str
    opens_rad: float = Field(description="crank after the cylinder's firing top: leaves its seat")
    closes_rad: float
    centre_rad: float = Field(description="nose")
    lift_m: float = Field(description="of the valve")
    numbers: list[NumberTold]
    least_preload_n: float
    least_rate_n_m: float
    winding: WindingTold | None
    no_winding: str
    faults: list[str]
    nearest: NearestTold | None
    angle_rad: list[float] = Field(description="of the cam, 0 at the nose")
    rise_m: list[float] = Field(description="of what rides on it, ramp included")
    outline_m: list[tuple[float, float]] = Field(
        description="edge about the axis, nose along x, closed; seen so it turns clockwise"
    )


class GapTold(Told):
    """A least gap."""

    id: str
    words: str
    gap_m: float = Field(description="negative: they meet, so deep")
    crank_rad: float | None = Field(
        description="after the cylinder's firing top; null: the same all the way"
    )
    touches: bool


class AtSpeedTold(Told):
    """What a suction-opened inlet does at a speed."""

    speed_rad_s: float
    filling: float
    shuts_rad: float = Field(description="of the crank, after bottom centre")
    back: float = Field(description="share of the charge that goes back out")
    openings: int
    well: bool


class SuctionTold(Told):
    """A suction-opened inlet."""

    opens_at_pa: float = Field(description="suction")
    shutting_s: float
    shutting_rad: float = Field(description="of the crank at top speed")
    swing_hz: float
    gas_push_n: float
    spring_on_stop_n: float
    hovers_m: float = Field(description="lift at which gas and spring balance at top speed")
    dances_hz: float = Field(description="swings about that lift; 0: it rests on its stop")
    speeds: list[AtSpeedTold]
    well_to_rad_s: float | None = Field(description="null: at no speed")
    advice: list[str]


class CamsTold(Told):
    """All cams of an engine."""

    schema_: Literal["firstfire.cam/1"] = Field("firstfire.cam/1", alias="schema")
    name: str
    cams: list[CamTold]
    gaps: list[GapTold]
    gaps_not_judged: list[str] = Field(description="what of the gaps can't be told, and why")
    suction: SuctionTold | None
    values: dict[str, Any] = Field(description="what a wanted or chosen cam sets, by path")
    provenance: ProvenanceTold


def told(found: Cams) -> CamsTold:
    """The cams as the contract has them."""
    return CamsTold(
        schema="firstfire.cam/1",
        name=found.plain.name,
        cams=[_cam(one) for one in found.cams],
        gaps=[
            GapTold(
                id=case.id, words=case.words, gap_m=case.gap.gap,
                crank_rad=None if math.isnan(case.gap.angle) else case.gap.angle,
                touches=case.gap.gap <= 0.0,
            )
            for case in found.gaps
        ],
        gaps_not_judged=list(found.unjudged),
        suction=None if found.suction is None else _suction(found.suction),
        values=dict(found.values),
        provenance=ProvenanceTold(
            version=VERSION,
            engine_file_sha256=found.engine.sha256,
            inputs_sha256=found.plain.sha256,
        ),
    )  # fmt: skip


def cams_json(found: Cams, indent: int | None = 2) -> str:
    """The cams as JSON text."""
    data = told(found).model_dump(by_alias=True)
    return json.dumps(data, indent=indent, ensure_ascii=False, allow_nan=False)


def _cam(one: Cam) -> CamTold:
    made = one.made
    return CamTold(
        valve=one.which,
        law=made.valve.cam_law,
        opens_rad=made.opens,
        closes_rad=made.shuts,
        centre_rad=made.centre,
        lift_m=made.valve.lift,
        numbers=[number_told(number) for number in one.numbers],
        least_preload_n=one.line.preload,
        least_rate_n_m=one.line.rate,
        winding=None if one.winding is None else _winding(one.winding),
        no_winding=one.no_winding,
        faults=list(one.faults),
        nearest=None if one.nearest is None else NearestTold.made_of(one.nearest),
        angle_rad=made.angle.tolist(),
        rise_m=made.rise.tolist(),
        outline_m=[(x, y) for x, y in outline(made).tolist()],
    )


def _winding(one: Winding) -> WindingTold:
    return WindingTold(
        wire_m=one.wire, mean_diameter_m=one.mean, active_coils=one.active,
        total_coils=one.total, preload_n=one.preload, rate_n_m=one.rate, free_length_m=one.free,
        fitted_length_m=one.fitted, solid_length_m=one.solid, stress_pa=one.stress,
        allowed_pa=one.allowed, surge_hz=one.surge, surge_times=one.times, mass_kg=one.mass,
        bows=one.bows,
    )  # fmt: skip


def _suction(found: SuctionInlet) -> SuctionTold:
    return SuctionTold(
        opens_at_pa=found.opens_at, shutting_s=found.shutting, shutting_rad=found.shutting_angle,
        swing_hz=found.swing, gas_push_n=found.gas_push, spring_on_stop_n=found.spring_on_stop,
        hovers_m=found.hovers, dances_hz=found.dances_at,
        speeds=[
            AtSpeedTold(
                speed_rad_s=at.speed, filling=at.filling, shuts_rad=at.shuts, back=at.back,
                openings=at.openings, well=at.well,
            )
            for at in found.speeds
        ],
        well_to_rad_s=found.well_to or None,
        advice=list(found.advice),
    )  # fmt: skip
