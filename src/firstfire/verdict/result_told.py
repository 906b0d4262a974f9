"""What a check found, put into its JSON contract."""

from __future__ import annotations

import math

from firstfire.engine.geometry import CylinderGeometry
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
from firstfire.verdict.found import Found
from firstfire.verdict.margins_told import told_lasting, told_margin, told_run_time
from firstfire.verdict.points import told_point
from firstfire.verdict.shaft_span import shaft_spans
from firstfire.verdict.starting_told import told_starting


def told_result(found: Found) -> ResultTold:
    """What a check found, in its JSON contract."""
    spans = shaft_spans(found.events)
    return ResultTold(
        engine=_engine(found),
        operating_points=[
            told_point(point, span) for point, span in zip(found.points, spans, strict=True)
        ],
        margins=[
            told_margin(
                margin, found.opened(margin), found.engine, found.read_by.get(margin.way.id, ())
            )
            for margin in found.margins
        ],
        run_time=[told_run_time(limit) for limit in found.run_times],
        run_curve=[told_lasting(one) for one in found.lasting],
        verdict=VerdictTold(
            word=found.verdict.word,
            first_to_fail=found.verdict.first.way.id if found.verdict.first else None,
            sentence=found.sentence,
            survival_probability=found.verdict.odds,
        ),
        starting=told_starting(found),
        unjudged=[UnjudgedTold(subject=u.subject, why=u.why) for u in found.unjudged],
        cautions=[
            CautionTold(hazard=c.hazard, text=c.text, because=c.because) for c in found.cautions
        ],
        provenance=ProvenanceTold(
            version=found.version,
            engine_file_sha256=found.engine.sha256,
            inputs_sha256=found.plain.sha256,
        ),
    )


def _engine(found: Found) -> EngineTold:
    shape = found.geometry
    return EngineTold(
        name=found.engine.name,
        story=found.engine.story,
        layout=found.plain.layout.kind,
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
