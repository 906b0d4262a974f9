"""The result's JSON contract, of what is judged: margins, changes, run times, how long it lasts."""

from __future__ import annotations

from typing import Literal

from pydantic import AliasPath, Field

from firstfire.verdict.told.part import Finite, Told


class DependenceTold(Told):
    """What a factor depends on."""

    path: str
    value: float | None = Field(description="SI; null for a word or a table")
    unit: str
    origin: str = Field(description="layer and kind that spoke")
    source: str
    elasticity: float | None = Field(
        description="change of ln factor per standard deviation; null where it isn't uncertain"
    )


class EffortTold(Told):
    """Common practice, no source."""

    print_hours: float
    hand_hours: float
    parts: str


class RaiseTold(Told):
    """A change that was really tried."""

    text: str
    set: dict[str, str] = Field(description="path: value, as --set takes them")
    factor_after: float
    next_to_fail: str
    effort: EffortTold


class WorkingTold(Told):
    """One line of arithmetic from the numbers put in to demand and capacity, in SI."""

    name: str = Field(description="what it finds; the last are demand and capacity")
    expression: str = Field(description="over names of inputs and earlier lines")
    unit: str
    words: str


class MarginTold(Told):
    """One way to fail."""

    id: str = Field(validation_alias=AliasPath("way", "id"))
    part: str = Field(validation_alias=AliasPath("way", "part"))
    failure: str = Field(validation_alias=AliasPath("way", "failure"))
    event: str
    point: str
    at_seconds: float
    demand: Finite = Field(validation_alias=AliasPath("way", "demand"))
    capacity: Finite = Field(validation_alias=AliasPath("way", "capacity"))
    unit: str = Field(validation_alias=AliasPath("way", "unit"))
    factor: Finite
    factor_low: Finite = Field(description="5 %")
    factor_high: Finite = Field(description="95 %; at most 1000, or the factor where that is more")
    word: Literal["fails", "marginal", "holds", "not judged"]
    survival_probability: float | None = Field(validation_alias="survival")
    ends_fraction: float | None = Field(
        validation_alias="ends",
        description="of engines like it, those that this ends first, in the order of their life; "
        "null where it can't",
    )
    hazard: bool = Field(validation_alias=AliasPath("way", "hazard"))
    reported: bool = Field(description="told, but not the part's end")
    governs: str = Field(validation_alias=AliasPath("way", "governs"))
    temperature_k: Finite = Field(validation_alias=AliasPath("way", "temperature"))
    formula: str = Field(validation_alias=AliasPath("way", "formula"))
    source: str = Field(validation_alias=AliasPath("way", "source"))
    inputs: dict[str, Finite] = Field(
        validation_alias=AliasPath("way", "inputs"), description="numbers put in, SI"
    )
    working: list[WorkingTold] = Field(
        validation_alias=AliasPath("way", "working"),
        description="line by line to demand and capacity",
    )
    depends_on: list[DependenceTold] = Field(validation_alias="told_of_inputs")
    raise_by: list[RaiseTold]
    judged: bool = Field(validation_alias=AliasPath("way", "judged"))
    why_not: str = Field(validation_alias=AliasPath("way", "why_not"))


class RunTimeTold(Told):
    """When a limit is reached while an operating point is held from cold."""

    event: str
    point: str
    id: str = Field(validation_alias=AliasPath("way", "id"))
    part: str = Field(validation_alias=AliasPath("way", "part"))
    limit: str = Field(validation_alias=AliasPath("way", "failure"))
    seconds: float | None = Field(description="by then it is even; null beyond the horizon")
    seconds_low: float | None = Field(description="by then 1 in 20 is past it")
    seconds_high: float | None = Field(description="by then 19 in 20 are past it")
    depth_m: float | None = Field(validation_alias="depth")
    strength_left: float | None
    reported: bool
    chance_not_reached: float = Field(description="that it isn't reached within the horizon")


class EnderTold(Told):
    """One thing that takes engines away."""

    id: str
    part: str
    limit: str = Field(validation_alias="failure")
    probability: float = Field(
        validation_alias="share", description="that it is the first to give way, within the horizon"
    )
    seconds: float = Field(description="when it is, in the middle one of those engines")


class RunCurveTold(Told):
    """How long an event lasts: joint over engines drawn from all that is uncertain."""

    event: str
    engines_drawn: int = Field(validation_alias="engines")
    horizon_s: float = Field(validation_alias="horizon")
    seconds: list[float] = Field(description="of the curve, rising from 0")
    probability: list[float] = Field(
        validation_alias="chance", description="that nothing judged has given way by then"
    )
    seconds_19_in_20: float | None = Field(
        validation_alias="nineteen", description="until then 19 in 20 hold; null beyond the horizon"
    )
    seconds_even: float | None = Field(
        validation_alias="even", description="until then half of them hold"
    )
    seconds_1_in_20: float | None = Field(
        validation_alias="one", description="until then 1 in 20 holds"
    )
    takes_away: list[EnderTold] = Field(
        validation_alias="takes", description="what gives way first, most often first"
    )
