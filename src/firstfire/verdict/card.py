"""The card: the lines a builder asks for at the bench, as names and values."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.runs.point import OperatingPoint
from firstfire.verdict.margin import RunTime, named
from firstfire.verdict.numbers import THIN, figures, shown
from firstfire.verdict.result import Result
from firstfire.verdict.starting import speed_reached, too_slow
from firstfire.verdict.words import lasting, lasting_between, power, strongest


@dataclass(frozen=True)
class CardLine:
    """One line of the card: what is asked (`name`) and the answer (`value`)."""

    name: str
    value: str


def card(result: Result) -> tuple[CardLine, ...]:
    """Every line of the card; what isn't known yet says so."""
    return tuple(CardLine(name, value) for name, value in _rows(result))


def _rows(result: Result) -> Iterator[tuple[str, str]]:
    ends, first = result.verdict.ends_first, result.verdict.first
    if ends is not None:
        yield "full throttle, at most", f"{_held(ends)}; rest: not judged yet"
    yield from _idle(result)
    if first is not None:
        yield "first to give way", named(result.plain, first.way)
    cranked = next((p for p in result.points if p.event == "cranking"), None)
    if cranked is not None:
        yield "gauge should show", _gauge(cranked, result.plain.surroundings.air_pressure)
        yield "starter", _starter(result)
    spark = math.degrees(result.plain.spark.start_angle)
    side = "before" if spark >= 0 else "after"
    yield "start spark", f"{abs(spark):.0f}° {side} top; margin to a kick: not judged yet"
    torques = {round(c.head.fasteners.torque, 3) for c in result.plain.cylinders}
    yield "head, cold torque", shown(max(torques), "N*m", 2)
    best = strongest(result)
    if best is not None:
        speed = f"{best.speed * 30 / math.pi:.0f}{THIN}rpm"
        yield "power", f"{power(best.brake_power)} at {speed}"


def _idle(result: Result) -> Iterator[tuple[str, str]]:
    """How long it may idle, and what ends it."""
    idling = next((event for event in result.events if event.event == "idle"), None)
    if idling is None:
        return
    speed = f"at {idling.points[0].speed * 30 / math.pi:.0f}{THIN}rpm"
    ends = result.verdict.ends_idle
    if ends is None:
        yield "idle", f"{lasting(None)} {speed}: nothing judged ends it"
        return
    yield "idle, at most", f"{_held(ends)} {speed}"


def _held(ends: RunTime) -> str:
    """How long until a limit, or that there is no holding it."""
    when = lasting_between(ends.seconds, ends.seconds_low, ends.seconds_high)
    return "no time: it gives way " + when if when.startswith("at once") else when


def _gauge(cranked: OperatingPoint, air: float) -> str:
    """What a compression gauge reads above the air, of the poorest cylinder."""
    least = min(peaks.mean for peaks in cranked.peaks) - air
    speed = f"{cranked.speed * 30 / math.pi:.0f}{THIN}rpm"
    return f"{figures(least / 1e5, 2)}{THIN}bar at {speed}, if its leaks are as assumed"


def _starter(result: Result) -> str:
    """What turning takes at most, what the starter gives, and what comes of it."""
    over = result.starting
    if over is None:
        return "not judged: it was not cranked"
    takes = (
        f"takes up to {shown(over.peak_torque, 'N*m', 2)} (mean "
        f"{shown(over.mean_torque, 'N*m', 2)}); gives {shown(over.stall_torque, 'N*m', 2)} at a "
        "stand"
    )
    if not over.over:
        return f"does not come over the top: {takes}"
    does = "turns it"
    if too_slow(result):
        does = f"turns it at about {figures(speed_reached(result) * 30 / math.pi, 2)}{THIN}rpm"
    if over.pulls is not None:
        does = f"{does}, over {over.pulls} compressions a pull"
    dips = f"{figures(over.slowest * 30 / math.pi, 2)}{THIN}rpm before the top"
    first = "" if over.from_rest else "; only with a run-up: turn it back first"
    return f"{does}, dipping to {dips}{first}; {takes}"
