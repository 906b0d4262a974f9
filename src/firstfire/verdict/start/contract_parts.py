"""JSON of a start's parts: cranking, kick-back, odds, limits, changes, story."""

from __future__ import annotations

import math

from pydantic import Field

from firstfire.runs.cranking import Cranked
from firstfire.runs.start.account import Account, told_every
from firstfire.runs.start.odds import Why
from firstfire.verdict.start.words import LIMITS, limits, story
from firstfire.verdict.told.part import Finite, Told

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


class AdvanceTold(Told):
    """Advance of most torque at a speed."""

    speed_rpm: float
    before_top_deg: float


def cranking_told(turned: Cranked) -> CrankingTold:
    """How its starter turns it, in its contract."""
    return CrankingTold(
        mean_rpm=turned.mean_speed * _RPM,
        least_rpm=turned.least_speed * _RPM,
        gauge_pa=turned.gauge,
        gauge_pa_oiled=turned.gauge_oiled,
        over_the_top=turned.over,
    )


def kick_back_told(found: Account) -> KickBackTold:
    """Which sparks throw it back, in its contract."""
    kick, thrown = found.kick, found.kick.thrown
    return KickBackTold(
        earliest_safe_spark_deg=math.degrees(kick.strong),
        earliest_safe_spark_mean_deg=math.degrees(kick.mean),
        asked_deg=math.degrees(kick.asked),
        true_deg=math.degrees(kick.true),
        factor=kick.factor,
        torque_thrown_nm=thrown.torque if thrown else None,
        angle_thrown_deg=math.degrees(thrown.angle) if thrown else None,
        recommended_start_deg=math.degrees(found.advance.start),
    )


def keeps_going_told(found: Account) -> KeepsGoingTold:
    """From which speeds it runs on, in its contract."""
    return KeepsGoingTold(
        least_speed_rpm=found.least * _RPM,
        weak_cycle_least_speed_rpm=found.weak_least * _RPM,
        idle_opening=found.idling.opening,
        idle_rpm=found.idling.speed * _RPM,
        idle_unsteadiness=found.idling.unsteady,
    )


def speeds_told(found: Account) -> list[AtSpeedTold]:
    """Its torque at held speeds, in its contract."""
    return [
        AtSpeedTold(
            speed_rpm=one.speed * _RPM, gas_nm=one.gas, net_nm=one.net, burned=one.burned,
            friction_nm=one.gas - one.net,
        )
        for one in found.speeds
    ]  # fmt: skip


def advance_told(found: Account) -> list[AdvanceTold]:
    """How its spark may grow with speed, in its contract."""
    return [
        AdvanceTold(speed_rpm=speed * _RPM, before_top_deg=math.degrees(angle))
        for speed, angle in found.advance.grows
    ]


def odds_told(found: Account) -> OddsTold:
    """Its odds, in their contract."""
    odds, (low, high) = found.odds, found.odds.span
    return OddsTold(
        tries=odds.tries, seconds=odds.seconds, engines=len(odds.each), stopped=odds.stopped,
        starts=odds.share, low=low, high=high, needs_gauge_pa=odds.needs_gauge,
    )  # fmt: skip


def limits_told(found: Account) -> list[LimitTold]:
    """What keeps engines like it from starting, in its contract."""
    return [LimitTold(id=why, text=LIMITS[why], share=share) for why, share in limits(found)]


def changes_told(found: Account) -> list[RaiseTold]:
    """What was tried to better its odds, in its contract."""
    return [
        RaiseTold(
            text=change.text, set=dict(change.values), starts_after=change.starts,
            starts_before=change.before,
        )
        for change in found.changes
    ]  # fmt: skip


def story_told(found: Account) -> list[MomentTold]:
    """Its story, in its contract."""
    return [
        MomentTold(seconds=one.seconds, speed_rpm=one.speed * _RPM, what=one.what)
        for one in story(found)
    ]


def mean_speeds_told(found: Account) -> list[SpeedTold]:
    """Its mean speed from moment to moment, in its contract."""
    return [
        SpeedTold(seconds=seconds, speed_rpm=speed * _RPM)
        for seconds, speed in told_every(found.lived)
    ]
