"""Would metal help, in one sentence: better at what, what then ends it, what it costs."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.engine.events import during
from firstfire.verdict.compare.metal import Cost, Metal, metal
from firstfire.verdict.compare.records import Figure, Pair, Sense, Shift
from firstfire.verdict.compare.words import figure_value, judged_value
from firstfire.verdict.facts.margin import named
from firstfire.verdict.numbers import THIN, figures
from firstfire.verdict.words.sentences import lasting, listed

_MOST_WAYS = 3


def would_metal_help(pair: Pair) -> str:
    """The sentence; "" where neither has metal for the other's plastic."""
    found = metal(pair)
    if not found:
        return ""
    if len(found) > 1:
        each = listed([f"{_owner(one)} {_parts(one)}" for one in found])
        return (
            f"Would metal help? Each has some where the other has plastic ({each}), so this "
            "doesn't tell: compare one part at a time."
        )
    (one,) = found
    flipped = one.metal is pair.before
    helps = _moved(pair, "worse" if flipped else "better", flipped=flipped)
    hurts = _moved(pair, "better" if flipped else "worse", flipped=flipped)
    better = f"is better at {helps}" if helps else "is better at nothing that is judged"
    worse = f", worse at {hurts}" if hurts else ", worse at nothing"
    return (
        f"Would metal help? {_subject(one)} {better}{worse}; {_ending(one)}; it costs "
        f"{_costs(one.costs)}, no price known{_besides(one)}."
    )


def _owner(one: Metal) -> str:
    return f"{one.metal.letter}'s"


def _parts(one: Metal) -> str:
    return listed([cost.part for cost in one.costs])


def _subject(one: Metal) -> str:
    """``With a metal crank where A's is printed, B``."""
    many = len(one.costs) > 1 or one.costs[0].part.endswith("s")
    is_ = "are" if many else "is"
    made = "printed" if one.printed else "plastic"
    article = "" if many else "a "
    return (
        f"With {article}metal {_parts(one)} where {one.other.letter}'s {is_} {made}, "
        f"{one.metal.letter}"
    )


def _moved(pair: Pair, sense: Sense, *, flipped: bool) -> str:
    """Ways to fail, each at the event where it is worst, and limits of heat."""
    shifts = pair.better if sense == "better" else pair.worse
    ways: dict[str, Shift] = {}
    for shift in shifts:
        ways.setdefault(shift.name, shift)
    told = []
    if ways:
        count = "one way to fail" if len(ways) == 1 else f"{len(ways)} ways to fail"
        first = [_change(shift, flipped=flipped) for shift in list(ways.values())[:_MOST_WAYS]]
        if len(ways) > _MOST_WAYS:
            first.append(f"{len(ways) - _MOST_WAYS} more")
        told.append(f"{count} ({listed(first)})")
    clocks = [clock for clock in pair.clocks if clock.sense == sense]
    if clocks:
        count = "one limit of heat" if len(clocks) == 1 else f"{len(clocks)} limits of heat"
        told.append(f"{count} (first: {_clock(clocks[0], flipped=flipped)})")
    return listed(told)


def _change(shift: Shift, *, flipped: bool) -> str:
    ends = shift.after, shift.before
    old, new = ends if flipped else ends[::-1]
    return f"{shift.name} {judged_value(old)} → {judged_value(new)}"


def _clock(clock: Figure, *, flipped: bool) -> str:
    ends = [figure_value(clock, value) for value in (clock.before, clock.after)]
    old, new = ends[::-1] if flipped else ends
    return f"{clock.name} {old} → {new}"


def _ending(one: Metal) -> str:
    """What ends a run of the engine with metal, and whether that is what ends the other's."""
    result, other = one.metal.result, one.other.result
    first, ends = result.verdict.first, result.verdict.ends_first
    if first is not None and first.word == "fails":
        name = named(result.plain, first.way)
        before = other.verdict.first
        same = before is not None and before.word == "fails" and before.way.id == first.way.id
        return f"{_still(same)}the {name} {during(first.event)} (factor {judged_value(first)})"
    if ends is None:
        return "nothing that is judged then ends a run within 10 min"
    before_ends = other.verdict.ends_first
    same = before_ends is not None and before_ends.way.id == ends.way.id
    when = "at once when" if not ends.seconds else f"after {lasting(ends.seconds)}"
    return f"{_still(same)}the {named(result.plain, ends.way)}, {when} held at {ends.point}"


def _still(same: bool) -> str:
    return "what ends it is still that " if same else "what then ends it is that "


def _costs(costs: Sequence[Cost]) -> str:
    """Hands and what to buy."""
    likely, low, high = (
        _hours(sum(getattr(c, name) for c in costs))
        for name in ("seconds", "seconds_low", "seconds_high")
    )
    buy = dict.fromkeys(c.parts for c in costs if c.parts)
    several = [f"{c.pieces} of {c.part}" for c in costs if c.pieces > 1]
    count = f" for {listed(several)}" if several else ""
    return (
        f"about {likely}{THIN}h of hands ({low} to {high}, common practice){count} and "
        f"{listed(list(buy))}"
    )


def _hours(seconds: float) -> str:
    return figures(seconds / 3600, 2)


def _besides(one: Metal) -> str:
    if not one.besides:
        return ""
    if one.besides == 1:
        return " (one other value differs too, and did its share)"
    return f" ({one.besides} other values differ too, and did their share)"
