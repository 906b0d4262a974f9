"""The JSON contract of an engine made to hold, ``firstfire.improvement/1``.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import json
from typing import Literal

from pydantic import AliasPath, Field

from firstfire.verdict.improve.improve import Improved
from firstfire.verdict.improve.words import cost, sentence
from firstfire.verdict.told.margins_contract import EffortTold, RaiseTold
from firstfire.verdict.told.part import Finite, Told


class EnderTold(Told):
    """A way to fail."""

    id: str = Field(validation_alias=AliasPath("way", "id"))
    part: str = Field(validation_alias=AliasPath("way", "part"))
    failure: str = Field(validation_alias=AliasPath("way", "failure"))
    event: str
    factor: Finite
    factor_low: Finite = Field(description="5 %")
    factor_high: Finite = Field(description="95 %")
    ends_fraction: float | None = Field(validation_alias="ends")


class StepTold(Told):
    """One change of the way, and what it was made against."""

    against: EnderTold
    change: RaiseTold
    odds_before: float
    odds_after: float = Field(description="with all steps so far, before the full check")


class LeftTold(Told):
    """What still asks for a change, and why none is made."""

    what: EnderTold = Field(validation_alias="margin")
    why: str


class ImprovementTold(Told):
    """An engine made to hold."""

    schema_: Literal["firstfire.improvement/1"] = Field(
        default="firstfire.improvement/1", serialization_alias="schema"
    )
    engine: str
    sentence: str
    target: float
    odds_before: float
    odds_after: float | None = Field(description="checked in full; null where it was stopped")
    stopped: bool
    changes: dict[str, str] = Field(description="path: value, as --set takes them")
    steps: list[StepTold]
    left: list[LeftTold]
    cost: EffortTold
    caution: str


CAUTION = (
    "Everything here is an estimate and no permission. Local codes and licensed practice decide "
    "what may be run, where and behind which guard. Check the better file before you print it, "
    "and read the cautions there."
)


def told(found: Improved) -> ImprovementTold:
    """What was found, as the contract has it."""
    spent = cost(found.steps)
    return ImprovementTold(
        engine=found.before.engine.name,
        sentence=sentence(found),
        target=found.target,
        odds_before=found.before.verdict.odds,
        odds_after=None if found.after is None else found.after.verdict.odds,
        stopped=found.stopped,
        changes=found.changes,
        steps=StepTold.each_of(found.steps),
        left=LeftTold.each_of(found.left),
        cost=EffortTold(
            print_hours=spent.print_hours,
            hand_hours=spent.hand_hours,
            parts=", ".join(spent.parts),
        ),
        caution=CAUTION,
    )


def as_json(found: Improved) -> str:
    """The same as JSON text."""
    data = told(found).model_dump(by_alias=True)
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False)
