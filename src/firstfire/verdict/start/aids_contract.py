"""JSON of what stands beside gas and shaft in a start: what lets compression off, and so on."""

from __future__ import annotations

import math

from pydantic import Field

from firstfire.runs.start.account import Account
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
