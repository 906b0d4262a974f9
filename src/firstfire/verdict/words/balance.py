"""What shakes the engine at each speed it was held at, in words."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.loads import Shaking, shaking
from firstfire.verdict.facts.found import Found
from firstfire.verdict.numbers import shown
from firstfire.verdict.words.captions import at_speed


@dataclass(frozen=True)
class BalanceLine:
    """Shaking at one speed, ready to be shown.

    Attributes
    ----------
    speed
        In words.
    force, moment
        Largest over a turn.
    force_first, force_second
        Largest of the part that turns once a turn, and twice.
    """

    speed: str
    force: str
    force_first: str
    force_second: str
    moment: str


def balance(result: Found) -> tuple[BalanceLine, ...]:
    """A line a speed of full throttle, slowest first; counterweights are in it."""
    held = {p.speed: p for p in result.points if p.event == "full_throttle"}
    return tuple(
        _line(shaking(result.plain, speed), at_speed(held[speed])) for speed in sorted(held)
    )


def _line(found: Shaking, speed: str) -> BalanceLine:
    first, second = (found.force_of_order(order).largest for order in (1, 2))
    return BalanceLine(
        speed=speed,
        force=shown(found.largest_force, "N"),
        force_first=shown(first, "N"),
        force_second=shown(second, "N"),
        moment=shown(found.largest_moment, "N*m"),
    )
