"""What a check found, as one frozen record and as JSON."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from html import escape
from typing import TYPE_CHECKING, Any

from firstfire.engine.engine import Engine
from firstfire.engine.geometry import CylinderGeometry, Geometry
from firstfire.engine.records import Way
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.point import OperatingPoint
from firstfire.runs.run import EventResult
from firstfire.runs.turning_over import TurnOver
from firstfire.verdict.cautions import Caution
from firstfire.verdict.contract import (
    CautionTold,
    CylinderTold,
    EngineTold,
    ProvenanceTold,
    ResultTold,
    SpeedTold,
    UnjudgedTold,
    VerdictTold,
)
from firstfire.verdict.lasting import Lasting
from firstfire.verdict.margin import Margin, RunTime, Verdict
from firstfire.verdict.margins_told import told_lasting, told_margin, told_run_time
from firstfire.verdict.points import told_point
from firstfire.verdict.shaft_span import shaft_spans

if TYPE_CHECKING:
    from firstfire.verdict.judge import Opened


@dataclass(frozen=True)
class Unjudged:
    """Something a person will ask that isn't answered (`subject`), and the reason (`why`)."""

    subject: str
    why: str


@dataclass(frozen=True)
class Result:
    """What a check found.

    Attributes
    ----------
    engine
        The engine as written down.
    plain
        The plain engine it was computed from.
    geometry
        What follows by arithmetic.
    events
        Results of the events that were run, in order.
    margins
        Every way to fail, worst first.
    run_times
        Every limit that heat brings while an idle or full throttle is held, soonest first.
    verdict
        What decides.
    unjudged
        What isn't answered, and why.
    cautions
        What to mind.
    version
        Of firstfire.
    sentence
        The verdict in words.
    starting
        What the starter makes of it; None where cranking wasn't run.
    lasting
        For an idle and for full throttle, the chance that nothing has given way by each second.
    """

    engine: Engine = field(repr=False)
    plain: PlainEngine = field(repr=False)
    geometry: Geometry
    events: tuple[EventResult, ...] = field(repr=False)
    margins: tuple[Margin, ...] = field(repr=False)
    run_times: tuple[RunTime, ...] = field(repr=False)
    verdict: Verdict
    unjudged: tuple[Unjudged, ...]
    cautions: tuple[Caution, ...]
    version: str
    sentence: str = ""
    starting: TurnOver | None = field(default=None, repr=False)
    lasting: tuple[Lasting, ...] = ()

    def __str__(self) -> str:
        """The whole check as text of 80 columns."""
        from firstfire.verdict.text.show import check_text

        return check_text(self)

    def _repr_html_(self) -> str:
        """The same in a notebook, its sentence as text and the rest below it."""
        return f"<p>{escape(self.sentence)}</p><pre>{escape(str(self))}</pre>"

    @property
    def points(self) -> tuple[OperatingPoint, ...]:
        """Operating points, in the order they were run."""
        return tuple(point for event in self.events for point in event.points)

    @cached_property
    def read_by(self) -> Mapping[str, tuple[str, ...]]:
        """Paths of the engine file that each way to fail reads, by its id."""
        from firstfire.verdict.judge import read_by

        return read_by(self.events)

    def opened(self, margin: Margin) -> Way:
        """The way of one of its margins with the numbers put in and the working."""
        return self._opened.way(margin)

    @cached_property
    def _opened(self) -> Opened:
        from firstfire.verdict.judge import Opened

        return Opened(self.events)

    def told(self) -> ResultTold:
        """The result in its JSON contract."""
        from firstfire.verdict.starting import told_starting

        spans = shaft_spans(self.events)
        return ResultTold(
            engine=self._engine(),
            operating_points=[
                told_point(point, span) for point, span in zip(self.points, spans, strict=True)
            ],
            margins=[
                told_margin(
                    margin, self.opened(margin), self.engine, self.read_by.get(margin.way.id, ())
                )
                for margin in self.margins
            ],
            run_time=[told_run_time(limit) for limit in self.run_times],
            run_curve=[told_lasting(one) for one in self.lasting],
            verdict=VerdictTold(
                word=self.verdict.word,
                first_to_fail=self.verdict.first.way.id if self.verdict.first else None,
                sentence=self.sentence,
                survival_probability=self.verdict.odds,
            ),
            starting=told_starting(self),
            unjudged=[UnjudgedTold(subject=u.subject, why=u.why) for u in self.unjudged],
            cautions=[
                CautionTold(hazard=c.hazard, text=c.text, because=c.because) for c in self.cautions
            ],
            provenance=ProvenanceTold(
                version=self.version,
                engine_file_sha256=self.engine.sha256,
                inputs_sha256=self.plain.sha256,
            ),
        )

    def as_dict(self) -> dict[str, Any]:
        """The result as plain data: SI, units in field names, None for what has no meaning."""
        return self.told().model_dump(by_alias=True)

    def to_json(self, indent: int | None = 2) -> str:
        """The result as JSON text, schema ``firstfire.result/1``."""
        return json.dumps(self.as_dict(), indent=indent, ensure_ascii=False, allow_nan=False)

    def _engine(self) -> EngineTold:
        shape = self.geometry
        return EngineTold(
            name=self.engine.name,
            story=self.engine.story,
            layout=self.plain.layout.kind,
            cylinder_count=len(shape.cylinders),
            displacement_m3=shape.displacement,
            compression_ratio=shape.cylinders[0].compression_ratio,
            firing_angles_deg=[_degrees(a) for a in shape.firing_angles],
            firing_intervals_deg=[_degrees(a) for a in shape.firing_intervals],
            flywheel_inertia_kg_m2=shape.flywheel_inertia,
            cylinders=[_cylinder(c) for c in shape.cylinders],
            speeds=[
                SpeedTold(
                    speed_rpm=s.speed * 30 / math.pi,
                    mean_piston_speed_m_s=s.mean_piston_speed,
                    largest_piston_speed_m_s=s.largest_piston_speed,
                    largest_piston_acceleration_m_s2=s.largest_piston_acceleration,
                )
                for s in shape.speeds
            ],
        )


def _degrees(angle: float) -> float:
    return round(math.degrees(angle), 6)


def _cylinder(c: CylinderGeometry) -> CylinderTold:
    return CylinderTold(
        displacement_m3=c.displacement,
        clearance_volume_m3=c.clearance_volume,
        compression_ratio=c.compression_ratio,
        stroke_m=c.stroke,
        inlet_curtain_area_m2=c.inlet_curtain,
        exhaust_curtain_area_m2=c.exhaust_curtain,
        inlet_throat_area_m2=c.inlet_throat,
        exhaust_throat_area_m2=c.exhaust_throat,
        valve_to_wall_m=c.valve_to_wall,
        valve_to_valve_m=c.valve_to_valve,
        rod_to_skirt_m=c.rod_to_skirt if math.isfinite(c.rod_to_skirt) else None,
        ring_squeeze=c.ring_squeeze,
        ring_fill=c.ring_fill,
        ring_stretch=c.ring_stretch,
        reciprocating_mass_kg=c.reciprocating_mass,
    )
