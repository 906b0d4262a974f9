"""JSON of what stands beside gas and shaft in a start: what lets compression off, and so on."""

from __future__ import annotations

import math

from pydantic import Field

from firstfire.runs.start.account import Account
from firstfire.runs.stood import oil_now
from firstfire.verdict.start.battery_words import sagged
from firstfire.verdict.start.loose_words import loose
from firstfire.verdict.told.part import Finite, Told

_RPM = 30 / math.pi


class LetOffTold(Told):
    """A hole that lets compression off while it is started."""

    hole_diameter_m: float
    until_rpm: float = Field(description="speed of a turn from which it is shut for good")
    shuts_before_top_deg: float = Field(description="in each compression; 0: open all along")
    shut_after_seconds: Finite = Field(
        description="in the start told here; null: it never turned fast enough"
    )


def let_off_told(found: Account) -> LetOffTold | None:
    """What lets compression off; None where nothing does."""
    starter, shut_at = found.plain.starter, found.lived.compressed_from
    if not starter.decompression:
        return None
    return LetOffTold(
        hole_diameter_m=starter.decompression_diameter,
        until_rpm=starter.decompression_until * _RPM,
        shuts_before_top_deg=math.degrees(starter.decompression_shuts),
        shut_after_seconds=math.nan if shut_at is None else shut_at,
    )


class BatteryTold(Told):
    """A starter's battery that sags under its current."""

    voltage_v: float = Field(description="at rest")
    added_ohm: float = Field(description="of battery and leads")
    winding_ohm: float = Field(description="of the motor, from its torque and speed")
    stalled_a: float = Field(description="current at a stand")
    torque_kept: float = Field(description="share of its torque at a stand that the motor keeps")
    least_cranked_v: float = Field(description="left where it cranks slowest, or stands")
    spark_share: float = Field(description="of a coil's energy then; 1: a coil of its own battery")


def battery_told(found: Account) -> BatteryTold | None:
    """How far the starter's battery sags; None where it doesn't."""
    has = sagged(found)
    if has is None:
        return None
    return BatteryTold(
        voltage_v=has.battery.voltage,
        added_ohm=has.battery.added,
        winding_ohm=has.battery.winding,
        stalled_a=has.battery.stall_current,
        torque_kept=has.battery.share,
        least_cranked_v=has.least,
        spark_share=has.spark,
    )


class StandingTold(Told):
    """An engine that has stood: what breaking it loose takes at the crank, and its cold oil."""

    stood_seconds: float
    ring_factor: float = Field(
        description="friction of O-rings at the first movement over running; 1: nothing sticks"
    )
    asks_nm: float = Field(description="most friction within the first half turn, no pressure")
    asks_after_a_night_nm: float = Field(description="the same after twelve hours")
    starter_nm: float = Field(description="of the starter at a stand")
    lacks_nm: float = Field(description="0: none")
    broken_loose: bool = Field(description="whether the starter turned it by half a turn")
    oil_m2_s: float = Field(description="viscosity of the cold oil, or of a grease's base oil")


def standing_told(found: Account) -> StandingTold:
    """What breaking it loose takes, and how thick its oil is."""
    has = loose(found)
    return StandingTold(
        stood_seconds=has.now.stood,
        ring_factor=has.now.factor,
        asks_nm=has.now.asks,
        asks_after_a_night_nm=has.after_a_night.asks,
        starter_nm=has.now.gives,
        lacks_nm=has.now.lacks,
        broken_loose=has.broken,
        oil_m2_s=oil_now(found.plain),
    )
