"""The words of an engine that has stood: what breaking it loose takes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.geometry import firing_angles
from firstfire.runs.spun import PAST_TOP
from firstfire.runs.start.account import Account
from firstfire.runs.stood import BreakLoose, break_loose
from firstfire.verdict.numbers import THIN, figures

NIGHT = 12 * 3600.0
_SHORTER = 0.5
_A_STROKE = math.pi
_MINUTE, _HOUR, _DAY = 60.0, 3600.0, 86_400.0


@dataclass(frozen=True)
class Loose:
    """What breaking an engine loose takes.

    Attributes
    ----------
    now, after_a_night
        As long as it has stood by the file, and after twelve hours.
    broken
        Whether its starter turned it by half a turn.
    """

    now: BreakLoose
    after_a_night: BreakLoose
    broken: bool


def loose(found: Account) -> Loose:
    """What breaking it loose takes, and whether its starter does."""
    begins = min(firing_angles(found.plain)) + PAST_TOP
    shaft, angle = found.cranked.shaft, found.cranked.spun.angle
    return Loose(
        break_loose(found.plain, shaft, begins),
        break_loose(found.plain, shaft, begins, NIGHT),
        bool(abs(angle - angle[0]).max() >= _A_STROKE),
    )


def lasted(seconds: float) -> str:
    """A time of standing, as one says it.

    Examples
    --------
    >>> lasted(43200.0).replace(THIN, " "), lasted(90.0).replace(THIN, " ")
    ('12 h', '1.5 min')
    """
    for unit, longer in ((_DAY, "days"), (_HOUR, "h"), (_MINUTE, "min")):
        if seconds >= 2 * unit or (unit < _DAY and seconds >= unit):
            return f"{figures(seconds / unit, 2)}{THIN}{longer}"
    return f"{figures(seconds, 2)}{THIN}s"


def stuck(found: Account) -> str | None:
    """Why it doesn't even break loose; None where it does."""
    has = loose(found)
    if has.broken or has.now.lacks <= 0.0:
        return None
    return (
        f"its starter does not break it loose: friction after {lasted(found.plain.use.stood)} of "
        f"standing asks {_torque(has.now.asks)} at the crank, it has {_torque(has.now.gives)} and "
        f"lacks {_torque(has.now.lacks)}. Turn it by hand first, or gear it lower."
    )


def breaks_loose(found: Account) -> str | None:
    """What its rings ask for when they have stood; None where nothing sticks."""
    has = loose(found)
    if has.after_a_night.factor <= 1.0:
        return None
    words = f"asks {_torque(has.now.asks)} after {lasted(has.now.stood)} of standing"
    if has.now.stood < _SHORTER * NIGHT:
        words += f", {_torque(has.after_a_night.asks)} after a night"
    return f"{words}; the starter has {_torque(has.now.gives)}"


def _torque(torque: float) -> str:
    return f"{figures(torque, 2)}{THIN}N·m"
