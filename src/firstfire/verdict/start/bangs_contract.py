"""JSON of knock, after-fire and spit-back along a start."""

from __future__ import annotations

import math

from pydantic import Field

from firstfire.runs.start.account import Account
from firstfire.runs.start.bangs import Kind, Why
from firstfire.verdict.told.part import Finite, Told

_RPM = 30 / math.pi


class KnockTold(Told):
    """Whether the start knocks."""

    judged: bool
    why_not: str = Field(description="why it isn't judged; empty: it is")
    octane: float = Field(description="research, of the fuel")
    burns: int
    knocking_burns: int
    most_waited: Finite = Field(
        description="largest integral of ignition delay of a burn; 1: its end gas lights by itself"
    )
    first_seconds: Finite = Field(description="null: none knocks")
    first_rpm: Finite
    first_unburned: Finite = Field(description="share of its charge that was unburned then")


class BangTold(Told):
    """A charge that lights in the exhaust, or back into the intake."""

    kind: Kind
    why: Why
    cylinder: int = Field(description="from 1")
    seconds: float
    speed_rpm: float
    heat_j: float = Field(description="that it gives as far as its air goes")
    most_rise_pa: float = Field(description="of the pipe's pressure, if nothing left it")


def knock_told(found: Account) -> KnockTold:
    """Whether the start knocks."""
    knock = found.knock
    first = next(iter(knock.heard), None)
    return KnockTold(
        judged=not knock.why_not,
        why_not=knock.why_not,
        octane=knock.octane,
        burns=len(knock.burns),
        knocking_burns=len(knock.heard),
        most_waited=math.nan if knock.why_not else knock.most,
        first_seconds=math.nan if first is None else first.seconds,
        first_rpm=math.nan if first is None else first.speed * _RPM,
        first_unburned=math.nan if first is None else first.left,
    )


def bangs_told(found: Account) -> list[BangTold]:
    """What burns in its exhaust, or back into its intake."""
    return [
        BangTold(
            kind=one.kind, why=one.why, cylinder=one.cylinder + 1, seconds=one.seconds,
            speed_rpm=one.speed * _RPM, heat_j=one.heat, most_rise_pa=one.rise,
        )
        for one in found.bangs
    ]  # fmt: skip
