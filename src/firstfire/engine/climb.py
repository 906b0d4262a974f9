"""What a shaft has at a spark before top, and what it needs to get over from there."""

from __future__ import annotations

from dataclasses import dataclass
from math import nan


@dataclass(frozen=True)
class Climb:
    """A shaft at the spark of a first combustion, and the way of the slowest that gets over.

    Its way is taken from the spark to where most of its energy has gone, at its top at the latest.

    Attributes
    ----------
    inertia
        Of all that turns and goes up and down at the spark, the starter's rotor too, at the crank,
        kg·m².
    speed
        Of the shaft at the spark, rad/s.
    helped
        What the starter adds on the way, J; negative where it brakes.
    gas
        What the gas takes on the way, compression and the early burn, J.
    rubbed
        What friction and what is driven take on the way, J.
    why_not
        Why nothing is known of it; "" where it is.
    """

    inertia: float = nan
    speed: float = nan
    helped: float = nan
    gas: float = nan
    rubbed: float = nan
    why_not: str = ""
