"""The result's JSON contract, ``firstfire.result/1``: SI, units in names, null for no meaning.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from firstfire.verdict.told.margins_contract import MarginTold, RunCurveTold, RunTimeTold
from firstfire.verdict.told.part import (
    CautionTold,
    Finite,
    ProvenanceTold,
    Rpm,
    Told,
    UnjudgedTold,
)


class CylinderTold(Told):
    """What follows for one cylinder by arithmetic."""

    displacement_m3: float = Field(validation_alias="displacement", description="swept volume")
    clearance_volume_m3: float = Field(
        validation_alias="clearance_volume", description="volume left at top centre"
    )
    compression_ratio: float
    stroke_m: float = Field(validation_alias="stroke", description="the piston's real travel")
    inlet_curtain_area_m2: float = Field(
        validation_alias="inlet_curtain", description="throat circumference times lift"
    )
    exhaust_curtain_area_m2: float = Field(
        validation_alias="exhaust_curtain", description="throat circumference times lift"
    )
    inlet_throat_area_m2: float = Field(
        validation_alias="inlet_throat", description="throat less stem"
    )
    exhaust_throat_area_m2: float = Field(
        validation_alias="exhaust_throat", description="throat less stem"
    )
    valve_to_wall_m: float = Field(
        validation_alias="valve_to_wall", description="gap between a valve's head and the bore"
    )
    valve_to_valve_m: float = Field(
        validation_alias="valve_to_valve", description="gap between the two heads"
    )
    rod_to_skirt_m: Finite = Field(
        validation_alias="rod_to_skirt", description="gap between rod and liner's lower edge"
    )
    ring_squeeze: float | None = Field(description="O-ring: share of its section squeezed")
    ring_fill: float | None = Field(description="O-ring: share of its groove filled")
    ring_stretch: float | None = Field(description="O-ring: stretch on its groove")
    reciprocating_mass_kg: float = Field(
        validation_alias="reciprocating_mass", description="piston, shield, pin, rings, rod's share"
    )


class SpeedTold(Told):
    """What follows at one speed by arithmetic."""

    speed_rpm: Rpm = Field(validation_alias="speed")
    mean_piston_speed_m_s: float = Field(validation_alias="mean_piston_speed")
    largest_piston_speed_m_s: float = Field(validation_alias="largest_piston_speed")
    largest_piston_acceleration_m_s2: float = Field(validation_alias="largest_piston_acceleration")


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
    filling_trapped: float = Field(
        description="of it what came in in time and is trapped as the inlet shuts, over the same"
    )
    inlet_shut_deg: float = Field(description="shut before compression, after bottom centre")
    inlet_back_fraction: float = Field(
        description="of what flows in through the inlet valve, what flows out there again"
    )
    residual_fraction: float = Field(description="burned gas in the charge, by mass")
    trapped_equivalence_ratio: float | None = Field(description="null without fuel")
    unburned_fraction: float | None = Field(
        description="of the charge, what the flame never reaches; null unfired"
    )
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
    throttle_opening: float | None = Field(
        description="0 to 1 where it was looked for (idle); null: as the file has it"
    )
    cylinders: list[CylinderPointTold]
    misfiring_cylinders: list[int]
    friction_mep_pa: float
    friction: FrictionTold
    brake_torque_nm: float = Field(description="negative where a starter must give it")
    brake_power_w: float
    brake_torque_low_nm: float | None = Field(
        default=None,
        description="5 %; null where it just turns itself: an idle, a free rev ended by friction",
    )
    brake_torque_high_nm: float | None = Field(default=None, description="95 %")
    brake_power_low_w: float | None = Field(default=None, description="5 %")
    brake_power_high_w: float | None = Field(default=None, description="95 %")
    walls_assumed: bool = Field(description="wall temperatures were given, not worked out")
    energy_closure: float = Field(description="energy not accounted for, over the fuel's")
    mass_closure: float = Field(description="mass not accounted for, over the charge")
    cycle_change: float = Field(description="largest relative change from cycle to cycle")


class HelpTold(Told):
    """A change that was tried and brings the engine over its top."""

    text: str
    set: dict[str, str] = Field(description="path: value, as --set takes them")


class StartingTold(Told):
    """What the starter makes of the engine: an estimate by torque and stored energy."""

    comes_over_top: bool = Field(description="with the run-up that turning it back first gives")
    from_rest: bool = Field(description="also from a stand at the bottom before compression")
    peak_torque_nm: float = Field(description="largest that turning takes, at the crank")
    mean_torque_nm: float
    stall_torque_nm: float = Field(description="of the starter at a stand, at the crank")
    torque_lacking_nm: float = Field(description="at a stand, to come over; 0 where it does")
    inertia_kg_m2: float = Field(description="flywheel, load and starter's rotor, at the crank")
    compression_energy_j: float = Field(description="that the hardest compression takes")
    stored_energy_j: float = Field(description="of the shaft at the speed reached")
    speed_reached_rpm: float | None = Field(
        description="mean of the starter, as the crank has it; null where it doesn't come over"
    )
    crank_mean_rpm: float | None = Field(
        description="mean of the crank then, which a clutch lets run ahead"
    )
    gauge_pa: list[float] = Field(
        description="of a gauge with a check valve on each cylinder, above the air around; empty "
        "where it doesn't come over"
    )
    slowest_rpm: float | None = Field(description="within a cycle then")
    at_top_rpm: float | None = Field(description="at the slowest firing top")
    compressions_a_pull: int | None = Field(description="of a rope; null for any other starter")
    would_help: list[HelpTold] = Field(description="empty where it comes over")


class BeginsTold(Told):
    """A start in brief; all of it is what `firstfire start` tells."""

    earliest_safe_spark_deg: Finite = Field(
        description="before top, on a tired starter with a 1-in-20 strong first combustion; null: "
        "none up to 70 throws the shaft back"
    )
    kick_factor: Finite = Field(
        description="energy there is from the start spark on over what it takes to get over "
        "its top: that of the margin crank.kick_back; null: not judged"
    )
    keeps_going_from_rpm: Finite = Field(
        description="let go at any moment of its cycle, throttle open; null: at no speed"
    )


class VerdictTold(Told):
    """What decides, in a word and a sentence."""

    word: Literal["fails", "marginal", "holds", "not judged"]
    first_to_fail: str | None = Field(description="id of the way to fail that decides")
    sentence: str
    survival_probability: float = Field(
        description="that nothing breaks up to the first second of full throttle; joint"
    )


class ToothOffTold(Told):
    """Valves and pistons with the cam drive some teeth out."""

    teeth: int = Field(description="by which the cam is late; negative: early; 0: as drawn")
    gap_m: float = Field(description="least gap of valve and piston; negative: they meet")
    touches: bool
    what: str
    crank_rad: float = Field(description="where, after that cylinder's firing top centre")


class NarrowsTold(Told):
    """The reading that narrows the verdict most."""

    words: str = Field(description="what is measured")
    test_piece: str = Field(description="its kind, as `firstfire coupon` has it; empty: none")
    how: str
    instrument: str = Field(description="row of the catalog")
    paths: list[str] = Field(description="where it is set in the engine file, of all cylinders")
    minutes: float = Field(description="for all cylinders")
    decides: float = Field(
        description="share of the doubt whether anything gives way up to the first second of "
        "full throttle, 0 to 1"
    )


class ResultTold(Told):
    """What a check found."""

    schema_: Literal["firstfire.result/1"] = Field(
        default="firstfire.result/1", alias="schema", serialization_alias="schema"
    )
    engine: EngineTold
    operating_points: list[PointTold] = Field(description="empty where nothing is run")
    margins: list[MarginTold] = Field(description="worst first; empty where nothing is judged")
    run_time: list[RunTimeTold] = Field(description="soonest first")
    run_curve: list[RunCurveTold] = Field(description="one an event that is held; empty if none is")
    verdict: VerdictTold
    begins: BeginsTold | None = Field(
        description="null where no changes are tried or it was not cranked"
    )
    starting: StartingTold | None = Field(
        default=None, description="null where cranking wasn't run"
    )
    tooth_off: list[ToothOffTold] = Field(
        default_factory=list,
        description="as drawn, and one and two teeth out each way; empty where valves stand "
        "beside the bore or none is on a cam",
    )
    tooth_off_not_judged: str = Field(default="", description="why that is empty; else empty")
    narrows_most: NarrowsTold | None = Field(
        default=None,
        description="reading or test piece to begin with; null where none narrows the verdict by "
        "1 in 100, or no changes are tried",
    )
    unjudged: list[UnjudgedTold]
    cautions: list[CautionTold]
    provenance: ProvenanceTold
