"""The ledger, the run times and the next moves on the terminal, one line a judgement."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfire.engine.events import called
from firstfire.engine.resolve import PlainEngine
from firstfire.verdict.facts.margin import Margin, RunTime
from firstfire.verdict.words.commands import in_lines, set_words
from firstfire.verdict.words.ledger import Moves, ending, ledger
from firstfire.verdict.words.text.lines import WIDTH, beside, wrapped

_BAR, _LONG_BAR, _ROOM = 10, 20, 100
"""Letters of a bar, of one on a wide terminal, and from how many columns on that is."""

LEGEND = "# what a part feels, = what it feels beyond what it holds, - what is spare"
"""What the letters of a bar mean."""


def bar(factor: float, length: int = _BAR) -> str:
    """Demand against capacity: # within it, = beyond it, - what is spare.

    Examples
    --------
    >>> bar(2.0), bar(0.5)
    ('#####-----', '#####=====')
    """
    if factor >= 1:
        used = round(length / min(factor, 1e6))
        return "#" * used + "-" * (length - used)
    inside = round(length * max(factor, 0.0))
    return "#" * inside + "=" * (length - inside)


def ledger_lines(
    margins: Sequence[Margin], plain: PlainEngine, *, most: int = 16, width: int = WIDTH
) -> Iterator[str]:
    """Each way to fail at the event, and of the cylinder, where it is likeliest to end the engine.

    Parameters
    ----------
    margins, plain
        Ranked, and the engine they are of.
    most
        Lines told; of the rest only how many there are.
    width
        Columns.
    """
    listed = ledger(margins, plain)
    length = _LONG_BAR if width >= _ROOM else _BAR
    for line in listed[:most]:
        margin = line.margin
        drawn = f"  {margin.word:<9}{bar(margin.factor or 0.0, length)} {line.span:<17} "
        event = f"{called(margin.event).mark:<6}"
        yield from beside(drawn + event, line.name, len(drawn + event), width=width)
    if listed:
        yield f"  {LEGEND}"
    rest = len(listed) - most
    if rest > 0:
        yield f"  and {rest} more, less likely to end it; --json has them all"


def move_lines(tried: Moves, *, width: int = WIDTH) -> Iterator[str]:
    """The changes that were tried for one margin, each with its words for a shell."""
    yield from wrapped(f"{tried.line.name} ({tried.line.factor}):", 2, width=width)
    for move in tried.moves:
        raised = move.raised
        following = f"; next: {raised.next_to_fail}" if raised.next_to_fail else ""
        told = f"{raised.text}: {move.after}{following} ({move.effort})"
        yield from wrapped(told, 4, width=width, hang=6)
        yield from in_lines(set_words(raised.set), width, 6)


def run_time_lines(
    limits: Sequence[RunTime],
    plain: PlainEngine,
    event: str = "full_throttle",
    *,
    most: int = 10,
    width: int = WIDTH,
) -> Iterator[str]:
    """When each limit of an event comes, where it comes soonest."""
    for line in ending(limits, plain, event)[:most]:
        span = f"{line.low} – {line.high}"
        mark = "skin: " if line.limit.reported else ""
        head = f"  {line.seconds:>8}  {span:<22}{line.at:<10}"
        yield from beside(head, f"{mark}{line.name}", len(head), width=width)
