"""The spark as JSON, ``firstfire.spark/1``: SI, units in names, null for what isn't judged.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterable
from typing import Literal

from pydantic import Field

from firstfire.setup.spark import words
from firstfire.setup.spark.advance_table import EARLIEST, AdvanceTable
from firstfire.setup.spark.angles import TrueAngle
from firstfire.setup.spark.facts import SparkFacts
from firstfire.setup.spark.plug import Jump
from firstfire.setup.spark.triggers import PointsSet, SensorSet
from firstfire.verdict.told.part import ProvenanceTold, Told
from firstfire.version import VERSION


class PointsTold(Told):
    """Breaker points."""

    shuts_before_top_rad: float
    opens_before_top_rad: float
    shut_angle_rad: float = Field(description="of the crank")
    lobe_angle_rad: float = Field(description="of the lobe")
    gap_m: float
    bounces_at_rad_per_s: float = Field(description="speed of the crank")
    worn_shift_rad: float | None = Field(description="later for 0.05 mm; null: they never open")
    breaks_at_v: float


class SensorTold(Told):
    """A sensor and its tooth."""

    kind: Literal["hall", "reed"]
    leading_before_top_rad: float
    trailing_before_top_rad: float
    width_m: float
    late_rad: float = Field(description="at the top speed")
    scatter_rad: float = Field(description="one standard deviation, at the top speed")
    play_rad: float = Field(description="either way")
    missed_early_rad: float | None = Field(description="after a missed edge; null: by the edge")
    doubled_early_rad: float | None
    blanked_s: float
    blanked_at_least_s: float
    blanked_at_most_s: float


class AngleTold(Told):
    """Asked and true at one speed."""

    name: str
    speed_rad_per_s: float
    asked_before_top_rad: float | None
    true_before_top_rad: float | None
    scatter_rad: float | None = Field(description="5-95 % either way")
    why_not: str


class ClockTold(Told):
    """What a clock makes of the start angle at one speed, the shaft turning by itself."""

    speed_rad_per_s: float
    early_rad: float | None = Field(description="null: it would stop, or its gas isn't judged")


class CoilTold(Told):
    """The coil."""

    voltage_v: float
    left_while_cranked_v: float
    resistance_ohm: float
    resistor_ohm: float
    inductance_h: float
    time_constant_s: float
    full_current_a: float
    left_on_w: float
    left_on_until_130_degc_s: float
    running_w: float


class JumpTold(Told):
    """Whether a spark jumps at one moment."""

    name: str
    speed_rad_per_s: float
    pressure_pa: float
    temperature_k: float
    wants_v: float | None
    wants_low_v: float | None
    wants_high_v: float | None
    gives_v: float
    gives_low_v: float
    gives_high_v: float
    charged_s: float
    word: Literal["jumps", "may miss", "will not jump", "not judged"]
    gap_m: float
    gap_that_would_m: float | None
    why_not: str


class LeadTold(Told):
    """One rule for the leads."""

    id: str
    state: Literal["done", "do", "lacking", "not judged"]
    do: str
    why: str


class AdvanceTold(Told):
    """Advance over speed and load: rows are throttle openings, columns speeds."""

    speeds_rad_per_s: list[float]
    throttle_openings: list[float]
    intake_pressure_pa: list[list[float | None]]
    air: list[list[float | None]] = Field(description="over displacement full of the air around")
    advance_before_top_rad: list[list[float | None]]
    best_torque_rad: list[list[float | None]]
    knocks_from_rad: list[list[float | None]] = Field(description="null: nowhere, or not judged")
    governs: list[list[str]]
    bounded: list[list[bool]] = Field(
        description="torque still rose at the earliest spark tried: an estimate's bound, no best "
        "angle; set by trying on the bench"
    )
    earliest_tried_rad: float = Field(description="before top")


class FaultTold(Told):
    """What is wrong, and the nearest that works."""

    id: str
    says: str
    cure: str
    values: dict[str, str] = Field(description="by path of the engine file, as typed")


class SparkTold(Told):
    """The spark of an engine. Estimates."""

    schema_: Literal["firstfire.spark/1"] = Field(
        default="firstfire.spark/1", alias="schema", serialization_alias="schema"
    )
    name: str
    says: str
    points: PointsTold | None
    sensor: SensorTold | None
    angles: list[AngleTold]
    clock_good_from_rad_per_s: float | None = Field(description="null: at no speed tried")
    clock: list[ClockTold]
    coil: CoilTold
    jumps: list[JumpTold]
    wasted: str = Field(description="in words; empty without")
    leads: list[LeadTold]
    kicks_from_rad: float | None = Field(description="strong, tired starter; null: none to 70°")
    start_before_top_rad: float
    advance: AdvanceTold | None = Field(description="null where it wasn't asked for")
    faults: list[FaultTold]
    not_judged: list[str]
    caution: str
    provenance: ProvenanceTold


def spark_told(found: SparkFacts) -> SparkTold:
    """A spark as the contract has it."""
    one, coil = found.trigger, found.circuit
    return SparkTold(
        name=found.engine.name,
        says=words.opening(found),
        points=_points(one) if isinstance(one, PointsSet) else None,
        sensor=_sensor(one) if isinstance(one, SensorSet) else None,
        angles=[_angle(angle) for angle in found.angles],
        clock_good_from_rad_per_s=_known(found.edge_below.speed),
        clock=[ClockTold(speed_rad_per_s=each.speed, early_rad=_known(each.early))
               for each in found.edge_below.errors],
        coil=CoilTold(
            voltage_v=coil.voltage, left_while_cranked_v=found.left, resistance_ohm=coil.winding,
            resistor_ohm=coil.resistor, inductance_h=coil.inductance,
            time_constant_s=coil.constant, full_current_a=coil.full_current,
            left_on_w=coil.heat_left_on,
            left_on_until_130_degc_s=coil.seconds_left_on(
                found.plain.surroundings.air_temperature
            ),
            running_w=coil.heat(found.angles[-1].speed),
        ),
        jumps=[_jump(each) for each in found.jumps],
        wasted=words.wasted_words(found),
        leads=[LeadTold(id=lead.id, state=lead.state, do=lead.do, why=lead.why)
               for lead in found.leads],
        kicks_from_rad=_known(found.kick.strong),
        start_before_top_rad=found.start,
        advance=None if found.table is None else _advance(found.table),
        faults=[FaultTold(id=fault.id, says=fault.says, cure=fault.cure, values=dict(fault.values))
                for fault in found.faults],
        not_judged=list(found.notes),
        caution=words.CAUTION,
        provenance=ProvenanceTold(
            version=VERSION,
            engine_file_sha256=found.engine.sha256,
            inputs_sha256=found.plain.sha256,
        ),
    )  # fmt: skip


def spark_json(found: SparkFacts) -> str:
    """A spark as JSON text."""
    data = spark_told(found).model_dump(by_alias=True)
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False)


def _known(value: float) -> float | None:
    return value if math.isfinite(value) else None


def _points(one: PointsSet) -> PointsTold:
    return PointsTold(
        shuts_before_top_rad=one.shuts, opens_before_top_rad=one.opens,
        shut_angle_rad=one.shut_angle, lobe_angle_rad=one.lobe_angle, gap_m=one.gap,
        bounces_at_rad_per_s=one.bounces_at, worn_shift_rad=_known(one.worn_shift),
        breaks_at_v=one.breaks_at,
    )  # fmt: skip


def _sensor(one: SensorSet) -> SensorTold:
    return SensorTold(
        kind="reed" if one.kind == "reed" else "hall", leading_before_top_rad=one.leading,
        trailing_before_top_rad=one.trailing, width_m=one.width, late_rad=one.late,
        scatter_rad=one.scatter, play_rad=one.play, missed_early_rad=one.missed,
        doubled_early_rad=one.doubled, blanked_s=one.blanked,
        blanked_at_least_s=one.blanked_at_least, blanked_at_most_s=one.blanked_at_most,
    )  # fmt: skip


def _angle(one: TrueAngle) -> AngleTold:
    return AngleTold(
        name=one.name, speed_rad_per_s=one.speed, asked_before_top_rad=_known(one.asked),
        true_before_top_rad=_known(one.true), scatter_rad=_known(one.scatter), why_not=one.why_not,
    )  # fmt: skip


def _jump(one: Jump) -> JumpTold:
    wants = [None if one.why_not else v for v in (one.wants, one.wants_least, one.wants_most)]
    return JumpTold(
        name=one.name, speed_rad_per_s=one.speed, pressure_pa=one.gas.pressure,
        temperature_k=one.gas.temperature, wants_v=wants[0], wants_low_v=wants[1],
        wants_high_v=wants[2], gives_v=one.gives, gives_low_v=one.gives_least,
        gives_high_v=one.gives_most, charged_s=one.charging, word=one.word, gap_m=one.gap,
        gap_that_would_m=one.gap_that_would, why_not=one.why_not,
    )  # fmt: skip


def _advance(table: AdvanceTable) -> AdvanceTold:
    def rows(values: Iterable[Iterable[float]]) -> list[list[float | None]]:
        return [[_known(float(value)) for value in row] for row in values]

    return AdvanceTold(
        speeds_rad_per_s=table.speeds.tolist(),
        throttle_openings=table.openings.tolist(),
        intake_pressure_pa=rows(table.pressures),
        air=rows(table.air),
        advance_before_top_rad=rows(table.advance),
        best_torque_rad=rows(table.best),
        knocks_from_rad=rows(table.knocks),
        governs=[list(row) for row in table.governs],
        bounded=table.bounded.tolist(),
        earliest_tried_rad=EARLIEST,
    )
