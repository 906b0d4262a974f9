"""The parts list's JSON contract, ``firstfire.parts/1``: SI, units in names, null for no meaning.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
from typing import Literal

from pydantic import Field

from firstfire.setup.all_parts import AllParts
from firstfire.setup.have import Fitting
from firstfire.setup.item import Check, Item, Job
from firstfire.setup.laid import FLOW, RISE
from firstfire.setup.printed import Printed
from firstfire.verdict.told.part import CautionTold, ProvenanceTold, Told
from firstfire.version import VERSION


class PrintedTold(Told):
    """One kind of printed part; sizes are of one."""

    part: str
    cylinders: list[int] = Field(description="counted from 1; empty where it is the engine's")
    count: int
    material: str = Field(description="key of the catalog's row")
    walls: int
    line_width_m: float
    infill: float
    layer_height_m: float
    layers_stacked: str
    lies: str = Field(description="which face lies on the bed")
    weak: str = Field(description="which pull parts its layers")
    assumed: bool = Field(description="true where the file says nothing of how it is made")
    outline_volume_m3: float = Field(description="if it were solid; estimate")
    plastic_volume_m3: float = Field(description="laid down; estimate")
    mass_kg: float = Field(description="estimate")
    print_time_s: float = Field(description="estimate")
    print_time_low_s: float
    print_time_high_s: float
    how: str = Field(description="what body it was taken as")


class CheckTold(Told):
    """What to measure on a bought thing."""

    of: str
    tool: str = Field(description="key of the catalog's instrument")
    how: str
    unit: str = Field(description="SI unit of the three values")
    wanted: float | None
    low: float | None
    high: float | None
    why: str


class ItemTold(Told):
    """Something to buy."""

    group: str
    what: str
    size: str
    count: int
    use: str
    standard: str
    source: str
    path: str = Field(description="what of the engine file calls for it")
    catalog_kind: str | None
    catalog_key: str | None
    length_m: float | None = Field(description="of one; null where it isn't cut from stock")
    mass_kg: float | None = Field(description="of one, where known")
    measure: list[CheckTold]
    note: str


class JobTold(Told):
    """Something to make by hand."""

    do: str
    what: str
    count: int
    size: str
    target_m: float | None
    low_m: float | None
    high_m: float | None
    tool: str
    why: str
    path: str


class OpenTold(Told):
    """Something the file doesn't size."""

    what: str
    why: str


class FittingTold(Told):
    """What a catalog row that one has would do in a place."""

    name: str
    catalog_kind: str
    catalog_key: str
    place: str
    path: str
    word: Literal["serves", "serves if", "can't"]
    set: dict[str, str] = Field(description="what to set, as --set takes it")
    why: str
    follows: dict[str, tuple[str, str]] = Field(description="values that change, before and after")
    judged: str | None = Field(description="what became of the judgements; null where not run")


class PartsTold(Told):
    """What one engine is made of."""

    schema_: Literal["firstfire.parts/1"] = Field(
        default="firstfire.parts/1", alias="schema", serialization_alias="schema"
    )
    name: str
    printed: list[PrintedTold]
    bought: list[ItemTold]
    made: list[JobTold]
    open: list[OpenTold]
    printed_mass_kg: float = Field(description="of all; estimate")
    print_time_s: float = Field(description="one after another; estimate")
    print_time_low_s: float
    print_time_high_s: float
    flow_m3_s: float = Field(description="plastic a common printer lays down; no source")
    resin_rise_m_s: float = Field(description="height a resin printer builds; no source")
    have: list[FittingTold]
    cautions: list[CautionTold]
    provenance: ProvenanceTold


def told(found: AllParts, fittings: tuple[Fitting, ...] = ()) -> PartsTold:
    """A parts list as the contract has it."""
    time = found.print_time
    return PartsTold(
        name=found.engine.name,
        printed=[_printed(part) for part in found.printed],
        bought=[_item(item) for item in found.bought],
        made=[_job(job) for job in found.made],
        open=OpenTold.each_of(found.open),
        printed_mass_kg=found.printed_mass,
        print_time_s=time.value,
        print_time_low_s=time.low,
        print_time_high_s=time.high,
        flow_m3_s=FLOW.value,
        resin_rise_m_s=RISE.value,
        have=[_fitting(fitting) for fitting in fittings],
        cautions=CautionTold.each_of(found.cautions),
        provenance=ProvenanceTold(
            version=VERSION,
            engine_file_sha256=found.engine.sha256,
            inputs_sha256=found.plain.sha256,
        ),
    )


def parts_json(found: AllParts, fittings: tuple[Fitting, ...] = (), indent: int | None = 2) -> str:
    """A parts list as JSON text."""
    data = told(found, fittings).model_dump(by_alias=True)
    return json.dumps(data, indent=indent, ensure_ascii=False, allow_nan=False)


def _printed(part: Printed) -> PrintedTold:
    return PrintedTold(
        part=part.part,
        cylinders=list(part.cylinders),
        count=part.count,
        material=part.material,
        walls=part.walls,
        line_width_m=part.line_width,
        infill=part.infill,
        layer_height_m=part.layer_height,
        layers_stacked=part.stacked,
        lies=part.lies,
        weak=part.weak,
        assumed=bool(part.assumed),
        outline_volume_m3=part.outline,
        plastic_volume_m3=part.plastic,
        mass_kg=part.mass,
        print_time_s=part.time.value,
        print_time_low_s=part.time.low,
        print_time_high_s=part.time.high,
        how=part.how,
    )


_SI = {"mm": "m", "g": "kg"}


def _check(check: Check) -> CheckTold:
    return CheckTold(
        of=check.of,
        tool=check.tool,
        how=check.how,
        unit=_SI.get(check.unit, check.unit),
        wanted=check.wanted,
        low=check.low,
        high=check.high,
        why=check.why,
    )


def _item(item: Item) -> ItemTold:
    kind, key = item.row
    return ItemTold(
        group=item.group,
        what=item.what,
        size=item.size,
        count=item.count,
        use=item.use,
        standard=item.standard,
        source=item.source,
        path=item.path,
        catalog_kind=kind or None,
        catalog_key=key or None,
        length_m=item.length,
        mass_kg=item.mass,
        measure=[_check(check) for check in item.checks],
        note=item.note,
    )


def _job(job: Job) -> JobTold:
    return JobTold(
        do=job.do,
        what=job.what,
        count=job.count,
        size=job.size,
        target_m=job.target,
        low_m=job.low,
        high_m=job.high,
        tool=job.tool,
        why=job.why,
        path=job.path,
    )


def _fitting(fitting: Fitting) -> FittingTold:
    return FittingTold(
        name=fitting.row.name,
        catalog_kind=fitting.row.kind,
        catalog_key=fitting.row.key,
        place=fitting.place,
        path=fitting.path,
        word=fitting.word,
        set=dict(fitting.set),
        why=fitting.why,
        follows={d.path: (d.each[0].written, d.each[1].written) for d in fitting.follows},
        judged=fitting.judged,
    )
