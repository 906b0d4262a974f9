"""A staged plan for the first start, with this engine's numbers, before anything leads to fuel."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.formulas import spark_gap
from firstfire.runs.start.account import Account
from firstfire.verdict.numbers import THIN, figures
from firstfire.verdict.start.gauge_words import BRACED, crank_with_gauge, where_it_leaks
from firstfire.verdict.start.words import bar, degrees, rpm

_PROOF = 1.3
_BAR = 0.3
"""Length of a bar that a joint is tried with, m. Common practice, no source."""
_GRAVITY = 9.80665
_SHORT = 0.9


@dataclass(frozen=True)
class Stage:
    """One stage.

    Attributes
    ----------
    do
        What to do.
    go
        What to see before going on.
    no_go
        What to stop at, and look for.
    minds
        The caution at this place.
    """

    do: str
    go: str
    no_go: str
    minds: str


def plan(found: Account) -> list[Stage]:
    """The stages in their order."""
    return [
        *_by_hand(found), *_compression(found), *_spark(found), *_turned(found), *_fired(found),
    ]  # fmt: skip


def _by_hand(found: Account) -> Iterator[Stage]:
    yield Stage(
        "Turn it by hand two turns, plug out, then plug in.",
        "It turns evenly; plug in, it springs back from each compression.",
        "A hard spot, a click, a valve that meets the piston: take it apart.",
        "No fuel near, ignition unplugged, fingers clear of the flywheel.",
    )
    peak = found.strong.pressure
    yield Stage(
        f"Fill head and liner with water or oil and press to {bar(_PROOF * peak)}, by hand pump.",
        "It holds a minute, dry outside.",
        "It weeps, sinks or creaks: do not fire it.",
        "Liquid only: trapped air throws splinters. Stand aside, eyes covered.",
    )
    pull = found.strong.torque / _BAR / _GRAVITY
    yield Stage(
        f"Hold one end of the crank and pull the other by a {figures(1e3 * _BAR, 3)}{THIN}mm bar "
        f"with {figures(pull, 2)}{THIN}kg on a luggage scale.",
        f"No joint moves: that is {figures(found.strong.torque, 2)}{THIN}N·m, a strong combustion.",
        "A mark across a joint has moved: mend the joint.",
        "The bar flies when something slips: stand out of its way.",
    )


def _compression(found: Account) -> Iterator[Stage]:
    turned, needs = found.cranked, found.odds.needs_gauge
    if needs is not None:
        wanted = f"over {bar(needs)}: engines like it that start show so much"
    else:
        readings = sorted(one.gauge for one in found.odds.each)
        low = readings[len(readings) // 20]
        wanted = f"over {bar(low)}, as 19 in 20 engines like it show"
    yield Stage(
        f"{crank_with_gauge(turned)}.",
        f"The gauge climbs to about {bar(turned.gauge)}; {wanted}.",
        where_it_leaks(turned),
        BRACED,
    )


def _spark(found: Account) -> Iterator[Stage]:
    volts = found.strong.volts
    wide = (
        "" if volts is None else f" across {figures(1e3 * _in_air(volts), 2)}{THIN}mm in open air"
    )
    asks = (
        ""
        if volts is None
        else f": in the cylinder its gap asks for {figures(volts / 1e3, 2)}{THIN}kV"
    )
    yield Stage(
        f"Plug out and lying on its return lead, crank: look for a spark{wide}.",
        f"A blue spark each time{asks}; by a timing mark it comes {degrees(found.kick.asked)}.",
        "None, yellow, or elsewhere: coil, lead, sensor or mark.",
        "Tens of kilovolts: touch nothing. Plug hole covered, no fuel in the cylinder.",
    )


def _turned(found: Account) -> Iterator[Stage]:
    turned = found.cranked
    if not turned.over:
        yield Stage(
            "Crank it, plug in, no fuel.",
            "It comes over the top.",
            "It does not: a stronger or lower-geared starter, a heavier flywheel, decompression.",
            "A stalled drill twists the wrist: side handle against a stop.",
        )
        return
    yield Stage(
        "Crank it, plug in, no fuel, three times ten seconds.",
        f"{rpm(turned.mean_speed)} in the mean, at least {rpm(turned.least_speed)} before a top.",
        f"Under {rpm(_SHORT * turned.mean_speed)}: battery, friction, a leak that holds it back.",
        "Behind the shield, out of the flywheel's plane.",
    )


def _fired(found: Account) -> Iterator[Stage]:
    start = found.advance.start
    yield Stage(
        f"First combustion: spark at {degrees(start)}, throttle open, fuel on last.",
        _fires(found),
        "It kicks, spits back or bangs in the exhaust: spark off, fuel off, ten minutes, timing.",
        "Outdoors, shield, eyes and ears, extinguisher for liquid fires, stop switch in hand that "
        "cuts spark and fuel. Local codes and licensed practice decide what may be run.",
    )
    heard = found.asked.let_go_at
    at = f" once it turns over {rpm(heard)} for a third of a second" if heard is not None else ""
    yield Stage(
        f"Let the starter go{at}.",
        "It goes on without it: only that is running.",
        "It slows at once: the drill ran, not the engine. See what keeps it from it, above.",
        f"It may run up at once{_away(found)}: throttle back, stop switch in hand.",
    )
    yield Stage(
        "Run it no longer than `firstfire check` gives it seconds, and rest it as long as it says.",
        "It turns as freely afterwards as before.",
        "Smell, softening, a loose plug or screw: stop for good and look.",
        "Hot seals and plastics give off acid fumes: don't touch what is black.",
    )


def _away(found: Account) -> str:
    """How fast it gets with its throttle open, and how soon."""
    away = found.runs_away
    if away is None or away.held == "beyond":
        return ""
    return f", to {rpm(away.reached)} in {figures(away.seconds, 2)}{THIN}s with the throttle open"


def _fires(found: Account) -> str:
    odds = found.odds.share
    seconds = f"{figures(found.odds.seconds, 2)}{THIN}s"
    return f"It fires within {seconds}; of 20 like it {round(20 * odds)} run."


def _in_air(volts: float) -> float:
    """Gap in open air that asks for the same voltage, m."""
    low, high = 0.2e-3, 40e-3
    while high - low > 1e-5:
        middle = math.sqrt(low * high)
        asks = spark_gap.breakdown_voltage(middle, 101_325.0, 293.15)
        low, high = (middle, high) if asks < volts else (low, middle)
    return high
