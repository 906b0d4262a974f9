"""The ledger and the run times on the terminal: worst first, one line a judgement."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfire.engine.records import Way
from firstfire.engine.resolve import PlainEngine
from firstfire.verdict.margin import Margin, RunTime, named
from firstfire.verdict.numbers import figures
from firstfire.verdict.words import lasting

_EVENTS = {"cranking": "crank", "first_fire": "first", "full_throttle": "full"}
_BAR = 10
_WIDE = 80


def bar(factor: float) -> str:
    """Demand against capacity: # within it, = beyond it, - what is spare.

    Examples
    --------
    >>> bar(2.0), bar(0.5)
    ('#####-----', '#####=====')
    """
    if factor >= 1:
        used = round(_BAR / min(factor, 1e6))
        return "#" * used + "-" * (_BAR - used)
    inside = round(_BAR * max(factor, 0.0))
    return "#" * inside + "=" * (_BAR - inside)


def ledger_lines(margins: Sequence[Margin], plain: PlainEngine, *, most: int = 16) -> Iterator[str]:
    """Each way to fail at the event, and of the cylinder, where it is worst; worst first."""
    worst: dict[str, Margin] = {}
    for margin in margins:
        if margin.factor is not None and margin.way.unit != "K" and not margin.reported:
            worst.setdefault(_base(margin.way), margin)
    listed = list(worst.values())
    for margin in listed[:most]:
        span = f"{_two(margin.factor)} ({_two(margin.factor_low)}–{_two(margin.factor_high)})"
        drawn = f"{margin.word:<9}{bar(margin.factor or 0.0)} {span:<17} "
        yield _cut(f"  {drawn}{_EVENTS[margin.event]:<6}{named(plain, margin.way)}")
    rest = len(listed) - most
    if rest > 0:
        yield f"  and {rest} more with larger factors; --json has them all"


def _base(way: Way) -> str:
    return way.id.partition("#")[0]


def _cut(line: str) -> str:
    return line if len(line) <= _WIDE else line[: _WIDE - 1].rstrip() + "…"


def _two(value: float | None) -> str:
    return "99+" if value is not None and value > 99 else figures(value, 2)


def raise_lines(margin: Margin, plain: PlainEngine) -> Iterator[str]:
    """The changes that were tried for one margin."""
    yield f"{named(plain, margin.way)} ({_two(margin.factor)}):"
    for raised in margin.raise_by:
        after = "gone" if raised.factor_after > 1e5 else _two(raised.factor_after)
        setting = " ".join(f"--set {path}='{value}'" for path, value in raised.set.items())
        effort = f"{figures(raised.print_hours, 2)} h print, {figures(raised.hand_hours, 2)} h hand"
        following = f"; next: {raised.next_to_fail}" if raised.next_to_fail else ""
        yield f"{raised.text}: {after}{following} ({effort}) {setting}"


def run_time_lines(
    limits: Sequence[RunTime], plain: PlainEngine, *, most: int = 10
) -> Iterator[str]:
    """When each limit comes, where it comes soonest; what fails from the start is in the ledger."""
    soonest: dict[str, RunTime] = {}
    for limit in limits:
        if limit.seconds is not None and (limit.seconds > 0 or limit.way.unit == "K"):
            soonest.setdefault(_base(limit.way), limit)
    for limit in list(soonest.values())[:most]:
        span = f"{lasting(limit.seconds_low)} – {lasting(limit.seconds_high)}"
        mark = "skin: " if limit.reported else ""
        at = limit.point.replace("full throttle ", "")
        name = named(plain, limit.way)
        yield _cut(f"  {lasting(limit.seconds):>8}  {span:<21}{at:<10}{mark}{name}")
