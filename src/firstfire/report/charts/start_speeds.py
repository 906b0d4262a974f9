"""Torque of an engine's gas against friction by speed, and how it runs away when left alone."""

from __future__ import annotations

import math

import numpy as np

from firstfire.report.charts.key import key
from firstfire.report.charts.plot import Axis, Chart, Plot, plot
from firstfire.runs.start.account import Account
from firstfire.verdict.start import captions
from firstfire.verdict.start.overrun_words import limit_words, limiter_of, one_each
from firstfire.verdict.start.words import rpm

_RPM = 30 / math.pi
_TICKS = (200.0, 500.0, 1000.0, 2000.0, 5000.0)
_MOST = 3
_SHARES = (0.06, 0.14, 0.3, 0.5, 0.7, 0.9)
"""Heights from the top at which words may stand, as shares of the picture's."""


def torque_by_speed(found: Account) -> Chart:
    """Gas, friction with load, and what is left."""
    speeds = [one.speed * _RPM for one in found.speeds]
    gas = np.array([one.gas for one in found.speeds])
    left = np.array([one.net for one in found.speeds])
    high = 1.25 * max(float(gas.max()), float((gas - left).max()))
    low = min(1.1 * float(left.min()), 1.1 * float(gas.min()), 0.0)
    paper = plot(
        Axis(min(speeds), max(speeds), "rpm", "rpm", logarithmic=True, ticks=_TICKS),
        Axis(low, high, "N·m, mean", "N·m"), left=44,
    )  # fmt: skip
    paper = paper.level(0.0, "axis")
    paper = paper.curve(speeds, gas, "strong", "gas")
    paper = paper.curve(speeds, gas - left, "dashed", "friction and load")
    paper = paper.curve(speeds, left, "second", "left")
    if math.isfinite(found.least) and min(speeds) < found.least * _RPM < max(speeds):
        paper = paper.upright(found.least * _RPM, "centre")
        paper = _named(paper, found.least * _RPM)
    paper = key(paper, [("strong", "gas"), ("dashed", "friction"), ("second", "left")])
    said = captions.torques(found)
    title = "Gas against friction"
    return Chart("torque-by-speed", title, said, paper.svg("torque-by-speed", title, said))


def _named(paper: Plot, least: float) -> Plot:
    """Words at the lowest speed from which it goes on, where no curve runs."""
    x = paper.x.at(least)
    heights = [paper.y.end + share * (paper.y.start - paper.y.end) for share in _SHARES]
    right = [(x + 5, y) for y in heights]
    return paper.words(right, f"goes on from {rpm(least / _RPM)}")


def run_away_chart(found: Account) -> Chart | None:
    """Speed in time with the throttle open, and the limits on its way; None: it stops."""
    away = found.runs_away
    if away is None or not away.curve:
        return None
    levels = _levels(found)
    fastest = max(speed for speed in (*(mean for _, mean in away.curve), *(at for at, _ in levels)))
    seconds = [0.0, *(at for at, _ in away.curve)]
    speeds = [away.begins * _RPM, *(speed * _RPM for _, speed in away.curve)]
    ends = max(min(3.0 * away.seconds, seconds[-1]), 0.2)
    kept = [place for place, at in enumerate(seconds) if at <= ends]
    paper = plot(
        Axis(0, ends, "s after it is let go", "s"),
        Axis(0, 1.1 * fastest * _RPM, "rpm", "rpm"), left=52,
    )  # fmt: skip
    for speed, words in levels:
        paper = _limit(paper, speed * _RPM, words)
    paper = paper.curve(
        [seconds[place] for place in kept], [speeds[place] for place in kept], "strong", "speed"
    )
    said = captions.running_away(found)
    title = "Left alone, throttle open"
    return Chart("run-away", title, said, paper.svg("run-away", title, said))


def _limit(paper: Plot, speed: float, words: str) -> Plot:
    paper = paper.level(speed, "limit" if "limiter" not in words else "level")
    x, y = paper.x.start + 6, paper.y.at(speed)
    return paper.words([(x, y - 4), (x, y + 13)], words)


def _levels(found: Account) -> list[tuple[float, str]]:
    """Its limiter, and the lowest limits of its parts, not far above what it reaches."""
    away, limiter = found.runs_away, limiter_of(found.plain)
    levels = [] if limiter is None else [(limiter, f"its limiter, {limiter * _RPM:.0f} rpm")]
    if away is not None and away.limits is not None:
        near = [one for one in one_each(away.limits.passed) if one.speed < 2.0 * away.reached]
        levels += [(one.speed, limit_words(one)) for one in near[:_MOST]]
    return levels
