"""What the pictures of a start show, in words: for those who read, and for those who don't see."""

from __future__ import annotations

import math

from firstfire.runs.start.account import Account
from firstfire.runs.start.cycles import PerCycle
from firstfire.runs.start.kick_back import SLOW
from firstfire.verdict.numbers import THIN, figures
from firstfire.verdict.start.overrun_words import first, reaches
from firstfire.verdict.start.words import bar, kick, rpm


def speed(found: Account) -> str:
    """Of the speed in time."""
    sparks, burns = len(found.lived.sparks), len(found.lived.burns)
    released = found.lived.let_go
    let = (
        "The starter is never let go."
        if released is None
        else f"The starter is let go after {figures(released, 2)}{THIN}s."
    )
    return (
        f"Speed of the crank, each compression and combustion in it. {burns} of {sparks} sparks "
        f"burn: upright strokes below; crosses burn nothing. {let}"
    )


def pressures(cycles: list[PerCycle]) -> str:
    """Of the peak of each cycle."""
    if not cycles:
        return "No spark comes: there is no cycle to tell of."
    most = max((one.peak for one in cycles if math.isfinite(one.peak)), default=math.nan)
    missed = sum(one.missed is not None for one in cycles)
    return (
        f"Highest pressure after each spark; filled: it burned, open: it did not ({missed} of "
        f"{len(cycles)}). The strongest reaches {bar(most)}. Dashed: a 1-in-20 strong one."
    )


def gauges(found: Account) -> str:
    """Of the odds against the gauge."""
    odds, needs = found.odds, found.odds.needs_gauge
    count = sum(one.started_at is not None for one in odds.each)
    tries = "one try" if odds.tries == 1 else f"{odds.tries} tries"
    said = (
        f"{count} of {len(odds.each)} engines like it start within {tries}: a stroke "
        "each, at the reading that a gauge would show on it. The line: of those that show at least "
        "so much, how many start."
    )
    if count in (0, len(odds.each)):
        return said
    if needs is None:
        return said + " No reading tells those that start from those that don't."
    return said + f" From {bar(needs)} up they start."


def sparks(found: Account) -> str:
    """Of the sparks that throw it back."""
    words, back = kick(found), found.kick
    thrown = math.isfinite(back.strong) or math.isfinite(back.mean)
    hatched = " Hatched: a spark so early throws it back." if thrown else ""
    tired = figures(100 * SLOW, 2)
    return (
        f"{words[0].upper()}{words[1:]}.{hatched} A tired starter has "
        f"{tired}{THIN}% of its torque and speed; a strong combustion is one in 20."
    )


def torques(found: Account) -> str:
    """Of gas against friction."""
    words = "Mean torque of its gas at a held speed, and what friction and load take of it."
    if not math.isfinite(found.least):
        return words + " It goes on by itself from no speed."
    return words + f" It goes on by itself from {rpm(found.least)}."


def running_away(found: Account) -> str:
    """Of an engine left alone."""
    away = found.runs_away
    if away is None:
        return "It does not run by itself."
    said = first(found)
    return (
        f"Left alone at {rpm(away.begins)} with its throttle open: {reaches(away)}. "
        f"{said[0].upper()}{said[1:]}. Every cycle is the mean one."
    )
