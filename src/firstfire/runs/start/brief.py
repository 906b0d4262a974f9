"""What a check tells of a start: how near a kick it is, and from which speed it keeps going."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from firstfire.cycle.records import ShaftSpec
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.going import least_speed
from firstfire.runs.start.kick_back import KickBack, kick_back


@dataclass(frozen=True)
class Brief:
    """A start in brief.

    Attributes
    ----------
    kick
        Which sparks throw it back; of the mean combustion nothing.
    least
        The lowest speed from which it goes on by itself, let go at any moment, rad/s; infinite:
        from none.
    """

    kick: KickBack
    least: float


def brief(plain: PlainEngine, shaft: ShaftSpec, stop: Callable[[], bool] | None = None) -> Brief:
    """How near a kick an engine is, and from which speed it keeps itself going.

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
        kick_back(plain, shaft, stop, brief=True),
        least_speed(plain, Asked(), stop=stop),
    )
