"""The ledger and the run times on the terminal: worst first, one line a judgement."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfire.engine.resolve import PlainEngine
from firstfire.verdict.ledger import Moves, ending, ledger
from firstfire.verdict.margin import Margin, RunTime

_EVENTS = {
    "cranking": "crank", "first_fire": "first", "full_throttle": "full", "free_rev": "free",
}  # fmt: skip
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
    listed = ledger(margins, plain)
    for line in listed[:most]:
        margin = line.margin
        drawn = f"{margin.word:<9}{bar(margin.factor or 0.0)} {line.span:<17} "
        yield _cut(f"  {drawn}{_EVENTS.get(margin.event, margin.event[:5]):<6}{line.name}")
    rest = len(listed) - most
    if rest > 0:
        yield f"  and {rest} more with larger factors; --json has them all"


def _cut(line: str) -> str:
    return line if len(line) <= _WIDE else line[: _WIDE - 1].rstrip() + "…"


def raise_lines(tried: Moves) -> Iterator[str]:
    """The changes that were tried for one margin."""
    yield f"{tried.line.name} ({tried.line.factor}):"
    for move in tried.moves:
        raised = move.raised
        setting = " ".join(f"--set {path}='{value}'" for path, value in raised.set.items())
        following = f"; next: {raised.next_to_fail}" if raised.next_to_fail else ""
        yield f"{raised.text}: {move.after}{following} ({move.effort}) {setting}"


def run_time_lines(
    limits: Sequence[RunTime], plain: PlainEngine, event: str = "full_throttle", *, most: int = 10
) -> Iterator[str]:
    """When each limit of an event comes, where it comes soonest."""
    for line in ending(limits, plain, event)[:most]:
        span = f"{line.low} – {line.high}"
        mark = "skin: " if line.limit.reported else ""
        yield _cut(f"  {line.seconds:>8}  {span:<22}{line.at:<10}{mark}{line.name}")
