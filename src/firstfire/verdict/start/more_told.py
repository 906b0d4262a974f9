"""Parts of the JSON of a start: leaks and over-run."""

from __future__ import annotations

import math

from pydantic import Field

from firstfire.formulas.leak_down import DISCHARGE, ORIFICE, SUPPLY
from firstfire.runs.start.account import Account
from firstfire.runs.start.leaks import LeakPath, Path, Tightness
from firstfire.runs.start.overrun import Held, OverRun
from firstfire.runs.start.speed_limits import SpeedLimit
from firstfire.verdict.start.leak_words import SIGNS
from firstfire.verdict.start.overrun_words import limiter_of
from firstfire.verdict.told.part import Finite, Told

_RPM = 30 / math.pi


class LeakPathTold(Told):
    """One way out of a cylinder."""

    path: Path
    area_m2: float = Field(description="effective")
    share: float = Field(description="of all leaks of this cylinder")
    where: str
    sign: str = Field(description="what tells of it under pressure, at a stand")
    oil_on_rings_helps: bool


class CylinderLeaksTold(Told):
    """What leak tests of one cylinder would show, cold, at its firing top centre."""

    cylinder: int
    area_m2: float = Field(description="all leaks together, effective")
    area_m2_low: float = Field(description="5 %")
    area_m2_high: float = Field(description="95 %")
    leak_down_loss: float = Field(description="share of the supply pressure that a tester loses")
    leak_down_loss_low: float
    leak_down_loss_high: float
    leak_down_loss_oiled: float = Field(description="with oil on the rings")
    thumb_begins_pa: float = Field(
        description="above the air, under a thumb on the plug hole, turned to the top at once"
    )
    thumb_half_seconds: Finite = Field(description="until half of it is lost; null: never")
    thumb_half_seconds_oiled: Finite
    paths: list[LeakPathTold] = Field(description="the largest first")


class LeaksTold(Told):
    """Where it leaks."""

    supply_pa: float = Field(description="of the leak-down tester, above the air")
    orifice_m: float = Field(description="its diameter")
    orifice_discharge: float = Field(description="effective over drilled area")
    cylinders: list[CylinderLeaksTold]


class SpeedLimitTold(Told):
    """Where a way to fail has nothing to spare."""

    id: str
    part: str
    failure: str
    speed_rpm: float
    hazard: bool
    passed: bool = Field(description="whether it comes to that speed when it runs away")


class OverRunTold(Told):
    """Left alone at open throttle; every cycle the mean one."""

    from_rpm: float = Field(description="where it is let go")
    reached_rpm: float
    seconds: float = Field(description="until 95 % of the way is behind it")
    held_by: Held
    limiter_rpm: float | None = Field(description="of the engine file; null: it has none")
    limits: list[SpeedLimitTold] | None = Field(
        description="what a rising speed breaks, the lowest first; null: not judged"
    )
    at_any_speed: list[str] = Field(description="ids that the same gas breaks at any speed")
    not_judged: list[str] = Field(description="ids of turning parts that no model judges here")


def leaks_told(found: Account) -> LeaksTold:
    """The leaks of an account."""
    return LeaksTold(
        supply_pa=SUPPLY, orifice_m=ORIFICE, orifice_discharge=DISCHARGE,
        cylinders=[_cylinder(one) for one in found.leaks],
    )  # fmt: skip


def _cylinder(one: Tightness) -> CylinderLeaksTold:
    return CylinderLeaksTold(
        cylinder=one.cylinder,
        area_m2=one.area,
        area_m2_low=one.low,
        area_m2_high=one.high,
        leak_down_loss=one.loss,
        leak_down_loss_low=one.loss_low,
        leak_down_loss_high=one.loss_high,
        leak_down_loss_oiled=one.loss_oiled,
        thumb_begins_pa=one.thumb_begins,
        thumb_half_seconds=one.thumb,
        thumb_half_seconds_oiled=one.thumb_oiled,
        paths=[_path(way) for way in one.paths],
    )


def _path(way: LeakPath) -> LeakPathTold:
    sign = SIGNS[way.path]
    return LeakPathTold(
        path=way.path, area_m2=way.area, share=way.share, where=sign.where, sign=sign.sign,
        oil_on_rings_helps=sign.oil_helps,
    )  # fmt: skip


def over_run_told(found: Account) -> OverRunTold | None:
    """The over-run of an account; None where it doesn't run by itself."""
    away = found.runs_away
    if away is None:
        return None
    limiter = limiter_of(found.plain)
    return OverRunTold(
        from_rpm=away.begins * _RPM,
        reached_rpm=away.reached * _RPM,
        seconds=away.seconds,
        held_by=away.held,
        limiter_rpm=None if limiter is None else limiter * _RPM,
        limits=None if away.limits is None else [_limit(one, away) for one in away.limits.passed],
        at_any_speed=list(away.limits.already) if away.limits else [],
        not_judged=list(away.limits.unjudged) if away.limits else [],
    )


def _limit(one: SpeedLimit, away: OverRun) -> SpeedLimitTold:
    return SpeedLimitTold(
        id=one.id, part=one.part, failure=one.failure, speed_rpm=one.speed * _RPM,
        hazard=one.hazard, passed=one.speed <= away.reached,
    )  # fmt: skip
