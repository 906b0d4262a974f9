"""A moment of a start's story."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.runs.start.asked import Lived


@dataclass(frozen=True)
class Happened:
    """A moment of the story: s, rad/s and words."""

    seconds: float
    speed: float
    what: str


def speed_before(lived: Lived, seconds: float) -> float:
    """Mean speed of the tenth of a second before a moment, rad/s."""
    return lived.mean_speed(max(seconds - 0.1, 0.0), seconds)
