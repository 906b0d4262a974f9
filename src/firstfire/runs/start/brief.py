"""What a check tells of a start: which sparks throw it back, and from which speed it goes on."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from firstfire.cycle.records import ShaftSpec
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.going import least_speed
from firstfire.runs.start.kick_back import earliest_safe


@dataclass(frozen=True)
class Brief:
    """A start in brief.

    Attributes
    ----------
    safe
        The earliest spark that throws nothing back, with a 1-in-20 strong first combustion on a
        tired starter, rad before top; infinite: none does, up to 70°.
    least
        The lowest speed from which it goes on by itself, let go at any moment, rad/s; infinite:
        from none.
    """

    safe: float
    least: float


def brief(plain: PlainEngine, shaft: ShaftSpec, stop: Callable[[], bool] | None = None) -> Brief:
    """Which sparks throw an engine back, and from which speed it keeps itself going.

    Parameters
    ----------
    plain
        Plain numbers.
    shaft
        What turns it, its trigger let back.
    stop
        Asked at least every 0.1 s.

    Raises
    ------
    Stopped
        If `stop` said so.
    """
    return Brief(
        earliest_safe(plain, shaft, stop),
        least_speed(plain, Asked(), stop=stop),
    )
