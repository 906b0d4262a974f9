"""JSON of a start's cycles and fuel."""

from __future__ import annotations

import math

from pydantic import Field

from firstfire.runs.start.account import Account
from firstfire.runs.start.asked import Missed
from firstfire.runs.start.cycles import per_cycle
from firstfire.runs.start.fuelling import pulse_volume
from firstfire.verdict.told.part import Finite, Told

_RPM = 30 / math.pi


class CycleTold(Told):
    """A spark of the engine's start as it is written, and what came of it."""

    seconds: float
    cylinder: int = Field(description="counted from 1")
    speed_rpm: float
    before_top_deg: float = Field(description="where the spark truly came")
    mixture: float = Field(description="of the charge, against just enough")
    peak_pa: Finite = Field(description="highest pressure within a quarter of a turn of the spark")
    missed: Missed | None = Field(description="why it lit nothing; null: it burned")


class ChargeTold(Told):
    """Liquid fuel as a charge begins to be drawn."""

    seconds: float
    cylinder: int = Field(description="counted from 1")
    vapour: float = Field(description="vapour over air against just enough")
    liquid_m3: float = Field(description="in the cylinder")
    plug_wet: bool
    piston_stopped: bool


class PrimingTold(Told):
    """Pulses of fuel in each port before the first turn, without choke or start map."""

    pulse_m3: float = Field(description="one pulse: what a full warm charge is metered")
    pulses: int | None = Field(description="that lose the fewest sparks; null: none lights it")
    too_many: int | None = Field(description="from which more are lost again; null: none tried")
    sparks_lost: int
    sparks_lost_unprimed: int


def cycles_told(found: Account) -> list[CycleTold]:
    """Every spark of a start, in its contract."""
    return [
        CycleTold(
            seconds=one.seconds, cylinder=one.cylinder + 1, speed_rpm=one.speed * _RPM,
            before_top_deg=math.degrees(one.before_top), mixture=one.mixture, peak_pa=one.peak,
            missed=one.missed,
        )
        for one in per_cycle(found.lived)
    ]  # fmt: skip


def charges_told(found: Account) -> list[ChargeTold]:
    """Fuel of every charge of a start."""
    return [
        ChargeTold(
            seconds=one.seconds, cylinder=one.cylinder + 1, vapour=one.mixture,
            liquid_m3=one.liquid, plug_wet=one.wet, piston_stopped=one.stopped,
        )
        for one in found.lived.fed
    ]  # fmt: skip


def priming_told(found: Account) -> PrimingTold | None:
    """What it wants beforehand; None: its fuel is a gas, or it has none."""
    if found.priming is None:
        return None
    lost, unprimed = found.priming.lost
    return PrimingTold(
        pulse_m3=pulse_volume(found.plain), pulses=found.priming.wanted,
        too_many=found.priming.too_many, sparks_lost=lost, sparks_lost_unprimed=unprimed,
    )  # fmt: skip
