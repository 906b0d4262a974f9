"""How long an event lasts, in words."""

from __future__ import annotations

from firstfire.engine.events import called
from firstfire.verdict.facts.lasting import Ender, Lasting
from firstfire.verdict.words.sentences import lasting, listed

_MOST = 3


def curve_words(one: Lasting) -> str:
    """The curve as three times, and what takes engines away.

    Examples
    --------
    >>> crown = Ender("piston.crown.break", "piston crown", "breaks", 0.75, 31.0)
    >>> print(curve_words(Lasting("idle", 600.0, 64, (), (), 20.0, 31.0, None, (crown,))))
    Idling from cold, 19 in 20 engines like it hold for 20 s, half of them hold for 31 s and \
1 in 20 hold for over 10 min; first to go: piston crown breaks (75 in 100).
    """
    times = listed(
        [
            _held("19 in 20 engines like it", one.nineteen, one),
            _held("half of them", one.even, one),
            _held("1 in 20", one.one, one),
        ]
    )
    if one.one is not None and one.one <= 0:
        times = "hardly one engine like it holds at all"
    ends = listed([taken(ender) for ender in one.takes[:_MOST]])
    first = f"; first to go: {ends}" if ends else ""
    return f"{called(one.event).lasting} from cold, {times}{first}."


def taken(ender: Ender) -> str:
    """What takes engines away and how many."""
    _, _, number = ender.id.partition("#")
    place = f" of cylinder {number}" if number else ""
    return f"{ender.part}{place} {ender.failure} ({round(100 * ender.share)} in 100)"


def _held(engines: str, seconds: float | None, one: Lasting) -> str:
    """How long a share of the engines holds."""
    if seconds is None:
        return f"{engines} hold for over {lasting(one.horizon)}"
    if seconds <= 0:
        return f"fewer than {engines} hold at all"
    return f"{engines} hold for {lasting(seconds)}"
