"""JSON of a start, ``firstfire.start/1``: SI, null, never NaN.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from pydantic import Field

from firstfire.runs.start.account import Account
from firstfire.runs.start.valve_room import valve_room
from firstfire.runs.start.vapour import richest
from firstfire.verdict.facts.cautions import cautions
from firstfire.verdict.start.aids_contract import (
    BatteryTold,
    LetOffTold,
    StandingTold,
    battery_told,
    let_off_told,
    standing_told,
)
from firstfire.verdict.start.bangs_contract import BangTold, KnockTold, bangs_told, knock_told
from firstfire.verdict.start.contract_cycles import (
    ChargeTold,
    CycleTold,
    PrimingTold,
    charges_told,
    cycles_told,
    priming_told,
)
from firstfire.verdict.start.contract_parts import (
    AdvanceTold,
    AtSpeedTold,
    CrankingTold,
    KeepsGoingTold,
    KickBackTold,
    LimitTold,
    MomentTold,
    OddsTold,
    RaiseTold,
    SpeedTold,
    advance_told,
    changes_told,
    cranking_told,
    keeps_going_told,
    kick_back_told,
    limits_told,
    mean_speeds_told,
    odds_told,
    speeds_told,
    story_told,
)
from firstfire.verdict.start.more_told import LeaksTold, OverRunTold, leaks_told, over_run_told
from firstfire.verdict.start.plan import plan
from firstfire.verdict.start.words import sentence
from firstfire.verdict.told.part import CautionTold, Finite, ProvenanceTold, Told

_RPM = 30 / math.pi


class StageTold(Told):
    """One stage of the plan."""

    do: str
    go: str
    no_go: str
    minds: str


class StartTold(Told):
    """Will it start, keep itself going, or kick back?"""

    schema_: Literal["firstfire.start/1"] = Field(
        default="firstfire.start/1", alias="schema", serialization_alias="schema"
    )
    engine: str
    sentence: str
    cranking: CrankingTold
    standing: StandingTold
    let_off: LetOffTold | None = Field(
        description="compression that is let off while it is started; null: none is"
    )
    battery: BatteryTold | None = Field(
        description="of the starter, where it sags; null: none does"
    )
    kick_back: KickBackTold
    keeps_going: KeepsGoingTold
    torque_by_speed: list[AtSpeedTold]
    advance: list[AdvanceTold]
    odds: OddsTold
    limits: list[LimitTold]
    raise_by: list[RaiseTold]
    knock: KnockTold
    bangs: list[BangTold]
    story: list[MomentTold]
    speed: list[SpeedTold]
    cycles: list[CycleTold]
    charges: list[ChargeTold] = Field(description="empty: its fuel is a gas")
    priming: PrimingTold | None = Field(description="null: its fuel is a gas, or it has none")
    richest_mixture: Finite = Field(
        description="that the cold fuel can give, against just enough; null: any, it is a gas"
    )
    wrong: list[str] = Field(description="faults that it was given, as asked for")
    slipped_deg: float = Field(
        description="by which cam and spark came later than the pistons in a slipping joint"
    )
    valve_room_m: float | None = Field(
        description="least between a valve on its cam and the piston, as if the chamber were flat; "
        "negative: they meet; null: valves stand beside the bore, or open by suction"
    )
    strong_peak_pa: float = Field(description="of a 1-in-20 strong combustion in this start")
    leaks: LeaksTold
    over_run: OverRunTold | None = Field(description="null: it does not run by itself")
    plan: list[StageTold]
    cautions: list[CautionTold]
    provenance: ProvenanceTold


class FaultTold(Told):
    """A fault that a start can be given."""

    name: str
    what: str
    sign: str = Field(description="what a builder sees or hears of it")
    size: str = Field(description="what its size is; empty: it has none")
    usual: str = Field(description="its size if nothing is said, as written")


class FaultsTold(Told):
    """Every fault that a start can be given."""

    schema_: Literal["firstfire.faults/1"] = Field(
        default="firstfire.faults/1", alias="schema", serialization_alias="schema"
    )
    faults: list[FaultTold]


def told(found: Account, version: str, wrong: Sequence[str] = ()) -> StartTold:
    """A start in its contract."""
    return StartTold(
        engine=found.engine.name,
        sentence=sentence(found),
        cranking=cranking_told(found.cranked),
        standing=standing_told(found),
        let_off=let_off_told(found),
        battery=battery_told(found),
        kick_back=kick_back_told(found),
        keeps_going=keeps_going_told(found),
        torque_by_speed=speeds_told(found),
        advance=advance_told(found),
        odds=odds_told(found),
        limits=limits_told(found),
        raise_by=changes_told(found),
        knock=knock_told(found),
        bangs=bangs_told(found),
        story=story_told(found),
        speed=mean_speeds_told(found),
        cycles=cycles_told(found),
        charges=charges_told(found),
        priming=priming_told(found),
        richest_mixture=richest(found.plain),
        wrong=list(wrong),
        slipped_deg=math.degrees(found.lived.slipped),
        valve_room_m=valve_room(found.plain, found.lived.slipped),
        strong_peak_pa=found.strong.pressure,
        leaks=leaks_told(found),
        over_run=over_run_told(found),
        plan=StageTold.each_of(plan(found)),
        cautions=CautionTold.each_of(cautions(found.engine, found.plain)),
        provenance=ProvenanceTold.model_validate(
            {
                "version": version,
                "engine": {"sha256": found.engine.sha256},
                "plain": {"sha256": found.plain.sha256},
            }
        ),
    )  # fmt: skip
