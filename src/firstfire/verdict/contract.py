"""The result's JSON contract, ``firstfire.result/1``: SI, units in names, null for no meaning.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field


class Told(BaseModel):
    """A part of the contract."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class CylinderTold(Told):
    """What follows for one cylinder by arithmetic."""

    displacement_m3: float = Field(description="swept volume")
    clearance_volume_m3: float = Field(description="volume left at top centre")
    compression_ratio: float
    stroke_m: float = Field(description="the piston's real travel")
    inlet_curtain_area_m2: float = Field(description="throat circumference times lift")
    exhaust_curtain_area_m2: float = Field(description="throat circumference times lift")
    inlet_throat_area_m2: float = Field(description="throat less stem")
    exhaust_throat_area_m2: float = Field(description="throat less stem")
    valve_to_wall_m: float = Field(description="gap between a valve's head and the bore")
    valve_to_valve_m: float = Field(description="gap between the two heads")
    rod_to_skirt_m: float | None = Field(description="gap between rod and liner's lower edge")
    ring_squeeze: float | None = Field(description="O-ring: share of its section squeezed")
    ring_fill: float | None = Field(description="O-ring: share of its groove filled")
    ring_stretch: float | None = Field(description="O-ring: stretch on its groove")
    reciprocating_mass_kg: float = Field(description="piston, shield, pin, rings, rod's share")


class SpeedTold(Told):
    """What follows at one speed by arithmetic."""

    speed_rpm: float
    mean_piston_speed_m_s: float
    largest_piston_speed_m_s: float
    largest_piston_acceleration_m_s2: float


class EngineTold(Told):
    """The engine in numbers that need no model."""

    name: str
    story: str
    layout: str
    cylinder_count: int
    displacement_m3: float = Field(description="of all cylinders")
    compression_ratio: float = Field(description="of cylinder 1")
    firing_angles_deg: list[float] = Field(description="after cylinder 1 fires, 0 to 720")
    firing_intervals_deg: list[float] = Field(description="from firing to firing; 720 in all")
    flywheel_inertia_kg_m2: float = Field(description="flywheel and load")
    cylinders: list[CylinderTold]
    speeds: list[SpeedTold]


class CylinderPointTold(Told):
    """One cylinder at one operating point."""

    peak_pressure_pa: float = Field(description="of the mean cycle")
    peak_pressure_strong_pa: float = Field(description="of the 1-in-20 cycle")
    peak_pressure_rare_pa: float = Field(description="of the 1-in-1000 cycle")
    peak_pressure_angle_deg: float = Field(description="after firing top centre")
    imep_gross_pa: float
    imep_net_pa: float
    pmep_pa: float = Field(description="net less gross: negative where pumping costs")
    ca50_deg: float | None = Field(description="half burned, after top; null unfired")
    volumetric_efficiency: float = Field(description="air in, over swept volume of ambient air")
    residual_fraction: float = Field(description="burned gas in the charge, by mass")
    trapped_equivalence_ratio: float | None = Field(description="null without fuel")
    peak_temperature_k: float = Field(description="highest mass-mean")
    heat_to_walls_fraction: float | None = Field(description="of the fuel's energy; null unfired")
    leak_fraction: float = Field(description="of the charge, past all but the valves")


class FrictionTold(Told):
    """Mean effective pressure that each kind of contact takes."""

    rings_pa: float
    skirts_pa: float
    bearings_pa: float
    valve_gear_pa: float
    cam_drive_pa: float


class PointTold(Told):
    """A steady operating point at a held speed."""

    event: str
    name: str
    speed_rpm: float
    spark_deg: float | None = Field(description="after firing top centre; null unfired")
    cylinders: list[CylinderPointTold]
    misfiring_cylinders: list[int]
    friction_mep_pa: float
    friction: FrictionTold
    brake_torque_nm: float = Field(description="negative where a starter must give it")
    brake_power_w: float
    walls_assumed: bool = Field(description="wall temperatures were given, not worked out")
    energy_closure: float = Field(description="energy not accounted for, over the fuel's")
    mass_closure: float = Field(description="mass not accounted for, over the charge")
    cycle_change: float = Field(description="largest relative change from cycle to cycle")


class UnjudgedTold(Told):
    """Something a person will ask that isn't answered, and why."""

    subject: str
    why: str


class CautionTold(Told):
    """A hazard, what to do, and what of this engine calls for it."""

    hazard: str
    text: str
    because: str


class ProvenanceTold(Told):
    """What it was computed by and from."""

    version: str
    engine_file_sha256: str
    inputs_sha256: str = Field(description="of the resolved engine: the key of every cache")


class ResultTold(Told):
    """What a check found."""

    schema_: Literal["firstfire.result/1"] = Field(
        default="firstfire.result/1", alias="schema", serialization_alias="schema"
    )
    engine: EngineTold
    operating_points: list[PointTold] = Field(description="empty where nothing is run")
    margins: list[dict[str, object]] = Field(description="empty where nothing is judged")
    run_time: list[dict[str, object]] = Field(description="empty where nothing is judged")
    unjudged: list[UnjudgedTold]
    cautions: list[CautionTold]
    provenance: ProvenanceTold
