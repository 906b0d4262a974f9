"""A leak test's JSON contract, ``firstfire.leak/1``: SI, units in names, null for no meaning.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
from typing import Literal

from pydantic import Field

from firstfire.bench.leak_test import LeakFound
from firstfire.bench.learned_leak import Area
from firstfire.verdict.told.part import CautionTold, Told


class AreaTold(Told):
    """A leak as an effective area."""

    area_m2: float
    low_m2: float = Field(description="5 %")
    high_m2: float = Field(description="95 %")


class LeakTold(Told):
    """What a leak test says."""

    schema_: Literal["firstfire.leak/1"] = Field(
        default="firstfire.leak/1", alias="schema", serialization_alias="schema"
    )
    cylinder: int | None = Field(description="counted from 1; null where it stands for all")
    total: AreaTold
    leaks: dict[str, AreaTold] = Field(description="by leak; independent, their sum is the total")
    assumed_total_m2: float = Field(description="as file and layers had it")
    tight_gauge_pa: float | None = Field(description="above the air; null of a leak-down test")
    width_shares: dict[str, float] = Field(description="of the variance, by what may be off")
    cautions: list[CautionTold]


def leak_json(found: LeakFound) -> str:
    """The test as JSON text."""
    told = LeakTold(
        cylinder=found.test.cylinder,
        total=_area(found.learned.total),
        leaks={name: _area(area) for name, area in found.areas.items()},
        assumed_total_m2=found.assumed,
        tight_gauge_pa=found.tight,
        width_shares=dict(found.learned.widths),
        cautions=CautionTold.each_of(found.cautions),
    )
    return json.dumps(told.model_dump(by_alias=True), indent=2, ensure_ascii=False)


def _area(area: Area) -> AreaTold:
    return AreaTold(area_m2=area.middle, low_m2=area.low, high_m2=area.high)
