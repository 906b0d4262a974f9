"""The words of knock, after-fire and spit-back along a start."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from firstfire.runs.start.account import Account
from firstfire.runs.start.bangs import Bang, Kind, Why
from firstfire.verdict.numbers import THIN, figures

KINDS: Mapping[Kind, str] = {
    "after_fire": "after-fire in the exhaust",
    "spit_back": "spit-back into the intake",
}
WHYS: Mapping[Why, str] = {
    "hot_gas_meets_it": "burned gas comes to an unburned charge in the pipe",
    "meets_hot_gas": "an unburned charge comes to burned gas in the pipe",
    "still_burning": "the flame is alive as the valve opens",
    "sparked_open": "a spark with the valve open",
}


def knocks(found: Account) -> str:
    """Whether it knocks, and when first."""
    knock = found.knock
    if knock.why_not:
        return f"not judged: {knock.why_not}"
    if not knock.burns:
        return "nothing burns"
    heard = knock.heard
    if heard:
        first = heard[0]
        return (
            f"{len(heard)} of {len(knock.burns)} burns, first after "
            f"{figures(first.seconds, 2)}{THIN}s with {round(100 * first.left)}{THIN}% unburned: "
            "richer, later spark or a better fuel"
        )
    waited = figures(knock.most, 2) if knock.most >= _LITTLE else "under 0.01"
    return f"none: its end gas comes to {waited} of the wait after which it lights by itself"


_LITTLE = 0.01


def knocked(found: Account) -> Iterator[tuple[float, str]]:
    """When it knocks first, s, and words for it."""
    for first in found.knock.heard[:1]:
        yield first.seconds, f"it knocks, {round(100 * first.left)}{THIN}% of the charge unburned"


def banged(found: Account) -> Iterator[tuple[float, str]]:
    """The first bang of each kind and cause, s, and words for it."""
    told: dict[tuple[Kind, Why], Bang] = {}
    for one in found.bangs:
        told.setdefault((one.kind, one.why), one)
    for (kind, why), first in told.items():
        count = sum((one.kind, one.why) == (kind, why) for one in found.bangs)
        most = max(one.rise for one in found.bangs if (one.kind, one.why) == (kind, why))
        times = "once" if count == 1 else f"{count} times"
        yield (
            first.seconds,
            f"{KINDS[kind]}, {times}: {WHYS[why]}; {figures(first.heat, 2)}{THIN}J, at most "
            f"{figures(most / 1e5, 2)}{THIN}bar if nothing left the pipe",
        )
