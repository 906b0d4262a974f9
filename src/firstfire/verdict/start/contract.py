"""JSON of a start, ``firstfire.start/1``: SI, null, never NaN.

Within one major number fields are added, never renamed or given another meaning.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from pydantic import Field

from firstfire.runs.start.account import Account, told_every
from firstfire.runs.start.odds import Why
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
from firstfire.verdict.start.more_told import LeaksTold, OverRunTold, leaks_told, over_run_told
from firstfire.verdict.start.plan import plan
from firstfire.verdict.start.words import LIMITS, limits, sentence, story
from firstfire.verdict.told.part import CautionTold, Finite, ProvenanceTold, Told

_RPM = 30 / math.pi


class CrankingTold(Told):
    """How its starter turns it, without fuel, from a stand."""

    mean_rpm: float = Field(description="in the last second")
    least_rpm: float = Field(description="in the last second")
    gauge_pa: float = Field(
        description="what a compression gauge with a check valve shows above the air on cylinder 1"
    )
    gauge_pa_oiled: float = Field(description="with oil on the rings")
    over_the_top: bool


class KickBackTold(Told):
    """Which sparks throw the shaft back at a first combustion; degrees before top centre."""

    earliest_safe_spark_deg: Finite = Field(
        description="on a tired starter, with a 1-in-20 strong combustion; null: none throws it "
        "back, up to 70"
    )
    earliest_safe_spark_mean_deg: Finite = Field(description="with a mean combustion")
    asked_deg: float = Field(description="while starting, by the file or --spark")
    true_deg: Finite = Field(description="where it truly comes; null: nothing lit")
    factor: Finite = Field(
        description="energy of the shaft at that spark over the least that takes it over its top; "
        "null: any does"
    )
    torque_thrown_nm: float | None = Field(
        description="most, at the starter's own shaft, by a spark 5 degrees earlier than the safe "
        "one; null: none throws it back"
    )
    angle_thrown_deg: float | None
    recommended_start_deg: float


class KeepsGoingTold(Told):
    """From which speeds it runs on by itself, at its throttle's opening."""

    least_speed_rpm: Finite = Field(description="null: from none")
    weak_cycle_least_speed_rpm: Finite = Field(description="every burn a 1-in-20 slow one")
    idle_opening: float | None = Field(description="of the throttle, at which it idles")
    idle_rpm: float = Field(description="at which it then runs by itself; 0: it stops")
    idle_unsteadiness: Finite = Field(description="deviation of single turns over the mean")


class AtSpeedTold(Told):
    """Mean torque at a held speed."""

    speed_rpm: float
    gas_nm: float = Field(description="of the gas on all pistons, pumping included")
    friction_nm: float = Field(description="of friction and load")
    net_nm: float
    burned: float = Field(description="share of its sparks that light")


class OddsTold(Told):
    """Of engines drawn from what is uncertain."""

    tries: int
    seconds: float = Field(description="of the starter, each try")
    engines: int
    stopped: bool = Field(description="by hand, before all engines asked for were tried")
    starts: float = Field(description="share that runs by itself within all tries")
    low: float = Field(description="5 %, for so few engines")
    high: float = Field(description="95 %")
    needs_gauge_pa: float | None = Field(
        description="gauge reading above the air that best tells those that start; null: it tells "
        "nothing, or all do"
    )


class LimitTold(Told):
    """What keeps engines like it from starting."""

    id: Why
    text: str
    share: float = Field(description="of all engines drawn")


class RaiseTold(Told):
    """A change that was tried on the same engines."""

    text: str
    set: dict[str, str]
    starts_after: float
    starts_before: float


class MomentTold(Told):
    """A moment of the engine's start as it is written."""

    seconds: float
    speed_rpm: float
    what: str


class SpeedTold(Told):
    """Mean speed about a moment."""

    seconds: float
    speed_rpm: float


class StageTold(Told):
    """One stage of the plan."""

    do: str
    go: str
    no_go: str
    minds: str


class AdvanceTold(Told):
    """Advance of most torque at a speed."""

    speed_rpm: float
    before_top_deg: float


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
    kick, thrown = found.kick, found.kick.thrown
    low, high = found.odds.span
    return StartTold(
        engine=found.engine.name,
        sentence=sentence(found),
        cranking=CrankingTold(
            mean_rpm=found.cranked.mean_speed * _RPM,
            least_rpm=found.cranked.least_speed * _RPM,
            gauge_pa=found.cranked.gauge,
            gauge_pa_oiled=found.cranked.gauge_oiled,
            over_the_top=found.cranked.over,
        ),
        standing=standing_told(found),
        let_off=let_off_told(found),
        battery=battery_told(found),
        kick_back=KickBackTold(
            earliest_safe_spark_deg=math.degrees(kick.strong),
            earliest_safe_spark_mean_deg=math.degrees(kick.mean),
            asked_deg=math.degrees(kick.asked),
            true_deg=math.degrees(kick.true),
            factor=kick.factor,
            torque_thrown_nm=thrown.torque if thrown else None,
            angle_thrown_deg=math.degrees(thrown.angle) if thrown else None,
            recommended_start_deg=math.degrees(found.advance.start),
        ),
        keeps_going=KeepsGoingTold(
            least_speed_rpm=found.least * _RPM,
            weak_cycle_least_speed_rpm=found.weak_least * _RPM,
            idle_opening=found.idling.opening,
            idle_rpm=found.idling.speed * _RPM,
            idle_unsteadiness=found.idling.unsteady,
        ),
        torque_by_speed=[
            AtSpeedTold(
                speed_rpm=one.speed * _RPM, gas_nm=one.gas, net_nm=one.net, burned=one.burned,
                friction_nm=one.gas - one.net,
            )
            for one in found.speeds
        ],
        advance=[
            AdvanceTold(speed_rpm=speed * _RPM, before_top_deg=math.degrees(angle))
            for speed, angle in found.advance.grows
        ],
        odds=OddsTold(
            tries=found.odds.tries, seconds=found.odds.seconds, engines=len(found.odds.each),
            stopped=found.odds.stopped,
            starts=found.odds.share, low=low, high=high, needs_gauge_pa=found.odds.needs_gauge,
        ),
        limits=[LimitTold(id=w, text=LIMITS[w], share=share) for w, share in limits(found)],
        raise_by=[
            RaiseTold(
                text=change.text,
                set=dict(change.values),
                starts_after=change.starts,
                starts_before=change.before,
            )
            for change in found.changes
        ],
        knock=knock_told(found),
        bangs=bangs_told(found),
        story=[
            MomentTold(seconds=one.seconds, speed_rpm=one.speed * _RPM, what=one.what)
            for one in story(found)
        ],
        speed=[
            SpeedTold(seconds=seconds, speed_rpm=speed * _RPM)
            for seconds, speed in told_every(found.lived)
        ],
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
