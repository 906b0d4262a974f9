"""What a check found, put into its JSON contract."""

from __future__ import annotations

import math

from firstfire.runs.tooth_off import tooth_gaps, why_none
from firstfire.verdict.facts.found import Found
from firstfire.verdict.facts.narrows import Narrows
from firstfire.verdict.facts.shaft_span import shaft_spans
from firstfire.verdict.told.contract import (
    CylinderTold,
    EngineTold,
    NarrowsTold,
    ResultTold,
    SpeedTold,
    ToothOffTold,
    VerdictTold,
)
from firstfire.verdict.told.margins import told_margin
from firstfire.verdict.told.margins_contract import RunCurveTold, RunTimeTold
from firstfire.verdict.told.part import CautionTold, ProvenanceTold, UnjudgedTold
from firstfire.verdict.told.points import told_point
from firstfire.verdict.told.starting import told_begins, told_starting


def told_result(found: Found) -> ResultTold:
    """What a check found, in its JSON contract."""
    spans = shaft_spans(found.events)
    return ResultTold(
        engine=_engine(found),
        operating_points=[
            told_point(point, span) for point, span in zip(found.points, spans, strict=True)
        ],
        margins=[
            told_margin(margin, found.opened(margin), found.engine, found.read(margin))
            for margin in found.margins
        ],
        run_time=RunTimeTold.each_of(found.run_times),
        run_curve=RunCurveTold.each_of(found.lasting),
        tooth_off=[
            ToothOffTold(
                teeth=teeth,
                gap_m=gap.gap,
                touches=gap.gap <= 0.0,
                what=gap.what,
                crank_rad=gap.angle,
            )
            for teeth, gap in sorted(tooth_gaps(found.plain).items())
        ],
        tooth_off_not_judged=why_none(found.plain),
        verdict=VerdictTold(
            word=found.verdict.word,
            first_to_fail=found.verdict.first.way.id if found.verdict.first else None,
            sentence=found.sentence,
            survival_probability=found.verdict.odds,
        ),
        starting=told_starting(found),
        begins=told_begins(found),
        narrows_most=None if found.narrows is None else _narrows(found.narrows),
        unjudged=UnjudgedTold.each_of(found.unjudged),
        cautions=CautionTold.each_of(found.cautions),
        provenance=ProvenanceTold.made_of(found),
    )


def _narrows(first: Narrows) -> NarrowsTold:
    reading = first.reading
    return NarrowsTold(
        words=reading.words, test_piece=reading.piece, how=reading.how,
        instrument=reading.instrument, paths=list(first.paths), minutes=first.minutes,
        decides=first.decides,
    )  # fmt: skip


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
        cylinders=CylinderTold.each_of(shape.cylinders),
        speeds=SpeedTold.each_of(shape.speeds),
    )


def _degrees(angle: float) -> float:
    return round(math.degrees(angle), 6)
