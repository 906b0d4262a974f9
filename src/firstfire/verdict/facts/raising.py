"""Changes a person can make, each really tried before it is offered."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial

from firstfire.engine.engine import Engine
from firstfire.engine.grammar import leaves, split
from firstfire.engine.read import with_values
from firstfire.engine.records import Raise, Way
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import FirstfireError, Stopped
from firstfire.parts.all import REPORTED, ways
from firstfire.runs.bout import Bout
from firstfire.runs.hands import shared_out
from firstfire.runs.moments import judged_peak, loads_at, moment
from firstfire.runs.run import EventResult
from firstfire.runs.together import Stop, together
from firstfire.verdict.facts.anew import again, felt_by_gas
from firstfire.verdict.facts.found import Found
from firstfire.verdict.facts.margin import Margin, Raised, named
from firstfire.verdict.facts.over_life import Tried, judged_over_life, over_life
from firstfire.verdict.numbers import spoken

_MOST_MARGINS = 8
_ENDERS = 4
"""So many of what is likeliest to end the engine have their changes tried over its whole life."""
GAIN = 0.004
"""Gain of a score below which a change moves nothing."""
_A_HAND = 0.25
"""Hours that any change costs, however small: getting up and doing it."""
_FILAMENT = "filament"
_MOST_CHANGES = 3
_WORTH_TELLING = 2.0

Changed = tuple[Bout, PlainEngine]
"""A bout and its engine with a change made."""


def with_changes(
    engine: Engine,
    results: Mapping[str, EventResult],
    margins: Sequence[Margin],
    stop: Callable[[], bool] | None = None,
) -> list[Margin]:
    """The margins, the worst failing or marginal ones with changes that were tried.

    Those of what is likeliest to end the engine are tried over its whole life, and offered where
    the whole gains; the others at their own event.

    Parameters
    ----------
    engine
        As written down.
    results
        By event.
    margins
        Ranked.
    stop
        Asked at least every 0.1 s.
    """
    wanting = [m for m in margins if m.word in ("fails", "marginal") and not m.reported]
    chosen = [m for m in wanting if m.way.raise_by][:_MOST_MARGINS]
    enders = [m for m in chosen if m.ends is not None][:_ENDERS]
    raised = _over_life(engine, list(results.values()), margins, enders, stop)
    others = [m for m in chosen if id(m) not in raised]
    raised |= at_their_event(engine, results, others, stop)
    return [replace(m, raise_by=raised[id(m)]) if id(m) in raised else m for m in margins]


Offers = dict[int, tuple[Raised, ...]]
"""Changes by the identity of the margin they are for."""


def _over_life(
    engine: Engine,
    results: Sequence[EventResult],
    margins: Sequence[Margin],
    enders: Sequence[Margin],
    stop: Stop | None,
) -> Offers:
    """Changes that make the whole life better, for what is likeliest to end it."""
    pairs = [(m, change) for m in enders for change in m.way.raise_by[:_MOST_CHANGES]]
    if not pairs:
        return {}
    now = judged_over_life(results, margins)
    found = shared_out(
        lambda at: over_life(engine, results, pairs[at][1].set), len(pairs), stop=stop
    )
    told: dict[int, list[tuple[float, Raised]]] = {id(m): [] for m in enders}
    for (margin, change), after in zip(pairs, found, strict=True):
        if after is None or _lost(margin, after):
            continue
        if after.score > now.score + GAIN:
            one = _told(engine, margin, change, after)
            told[id(margin)].append((after.score, one))
    return {key: tuple(_best_first(offered, now.score)) for key, offered in told.items()}


def _lost(margin: Margin, after: Tried) -> bool:
    """Whether a margin can't be judged any more, which is no help."""
    own = margin.way.id, margin.point
    return any((m.way.id, m.point) == own and m.factor is None for m in after.margins)


def _told(engine: Engine, margin: Margin, change: Raise, after: Tried) -> Raised:
    """A change with what it did to a margin, and what is then likeliest to end the engine."""
    plain = resolve(with_values(engine, change.set, origin="a change that was tried"))
    own = margin.way.id
    same = (m.least for m in after.margins if (m.way.id, m.point) == (own, margin.point))
    factor = next(same, float("inf"))
    others = [m for m in after.margins if m.way.id != own and m.ends]
    first = min(others, key=lambda m: m.rank, default=None)
    then = "" if first is None else f"{named(plain, first.way)} at {first.least:.2g}"
    return raised_by(engine, change, factor, then)


def _best_first(offered: Sequence[tuple[float, Raised]], before: float) -> list[Raised]:
    """Those that gain most for their work in front."""
    gains = sorted(offered, key=lambda pair: -(pair[0] - before) / work(pair[1]))
    return [raised for _, raised in gains]


def work(change: Raised) -> float:
    """Hours that a change costs a person: a print runs by itself, but has to be set up."""
    return change.hand_hours + change.print_hours / 4 + _A_HAND


def at_their_event(
    engine: Engine,
    results: Mapping[str, EventResult],
    chosen: Sequence[Margin],
    stop: Stop | None,
) -> Offers:
    """Changes that raise a margin at its own event and second."""
    works: dict[str, Callable[[Stop | None], Changed | None]] = {}
    for margin in chosen:
        bout = _bout_of(results[margin.event], margin.point)
        for change in margin.way.raise_by[:_MOST_CHANGES]:
            works[_key(bout, change)] = partial(_run_again, engine, bout, change)
    tried = dict(zip(works, together(list(works.values()), stop), strict=True))
    return {id(m): _raised_by(engine, results, m, tried) for m in chosen}


def _raised_by(
    engine: Engine,
    results: Mapping[str, EventResult],
    margin: Margin,
    tried: Mapping[str, Changed | None],
) -> tuple[Raised, ...]:
    """What its changes came to, where they help."""
    bout = _bout_of(results[margin.event], margin.point)
    raises = []
    for change in margin.way.raise_by[:_MOST_CHANGES]:
        changed = tried[_key(bout, change)]
        raised = None if changed is None else _judged(engine, margin, change, changed)
        if raised is not None:
            raises.append(raised)
    return tuple(_cheapest_first(raises))


def _key(bout: Bout, change: Raise) -> str:
    return f"{bout.point.name} {sorted(change.set.items())}"


def _cheapest_first(raises: Sequence[Raised]) -> list[Raised]:
    """Those that do it first, the least work among them in front."""
    return sorted(raises, key=lambda r: (r.factor_after < 1, r.hand_hours + r.print_hours / 4))


def _bout_of(result: EventResult, point: str) -> Bout:
    return next(bout for bout in result.bouts if bout.point.name == point)


def factor_with(
    result: Found, margin: Margin, changes: Mapping[str, str], stop: Stop | None = None
) -> float | None:
    """A margin's factor at its own event and second with values changed; None if not judged."""
    happened = next(event for event in result.events if event.event == margin.event)
    bout = _bout_of(happened, margin.point)
    changed = _run_again(result.engine, bout, Raise("", dict(changes), ""), stop)
    after = [] if changed is None else _after(margin, changed)
    same = next((way for way in after if way.id == margin.way.id and way.judged), None)
    return None if same is None else same.factor


def _after(margin: Margin, changed: Changed) -> list[Way]:
    """Every way to fail at a margin's event and second, with a change made."""
    bout, plain = changed
    seconds = min(margin.at_seconds, bout.horizon)
    peaks = [judged_peak(bout, row, seconds) for row in range(len(bout.gases))]
    felt = loads_at(bout, plain, peaks)
    return [
        way
        for row in range(len(bout.gases))
        for way in ways(moment(bout, plain, row, seconds, peaks, felt))
    ]


def _judged(engine: Engine, margin: Margin, change: Raise, changed: Changed) -> Raised | None:
    """The change's effect at the margin's event and second; None where it doesn't help."""
    after = _after(margin, changed)
    same = next((way for way in after if way.id == margin.way.id), None)
    if same is not None and not (same.judged and same.factor > (margin.factor or 0.0) * 1.005):
        return None  # what can't be judged any more is no help
    factor = same.factor if same is not None else float("inf")
    judged = [way for way in after if way.judged]
    return raised_by(engine, change, factor, _next(changed[1], judged, margin.way.id))


def _next(plain: PlainEngine, after: Sequence[Way], but: str) -> str:
    """What is then the weakest, in words with its factor."""
    others = [w for w in after if w.id != but and w.id.partition("#")[0] not in REPORTED]
    weakest = min(others, key=lambda way: way.factor, default=None)
    if weakest is None or weakest.factor >= _WORTH_TELLING:
        return ""
    return f"{named(plain, weakest)} at {weakest.factor:.2g}"


def raised_by(engine: Engine, change: Raise, factor: float, after: str) -> Raised:
    """A change that was tried, with what it came to and what it takes."""
    only_pin = set(change.set) <= {"pin.material", "pin.inside_diameter"}
    effort = engine.catalog.row("effort", "steel_piston_pin" if only_pin else change.effort)
    hours, parts = effort.si("print_hours") / 3600, effort.texts.get("parts", "")
    if not _prints(engine, change, effort.texts.get("prints")):
        hours, parts = 0.0, "stock to make it of" if _FILAMENT in parts else parts
    return Raised(
        text=spoken(change.text),
        set=dict(change.set),
        factor_after=min(factor, 1e6),
        next_to_fail=after,
        print_hours=hours,
        hand_hours=effort.si("hand_hours") / 3600,
        parts=parts,
    )


def _prints(engine: Engine, change: Raise, section: str | None) -> bool:
    """Whether what a change is about is printed then.

    That is the part of a section, if the row of the effort names one (a larger bearing is set in
    the crank's section and printed into the case), else those of its paths; true where none says.
    """
    ways = []
    for path in change.set:
        cylinder, plain = split(path)
        made = f"{section or plain.partition('.')[0]}.made"
        if made in leaves():
            ways.append(change.set.get(made, engine.values(cylinder or 1)[made]))
    return not ways or "printed" in ways


def _run_again(engine: Engine, bout: Bout, change: Raise, stop: Stop | None) -> Changed | None:
    """The bout with the change made: run anew where gas or walls feel it."""
    try:
        changed = with_values(engine, change.set, origin="a change that was tried")
        plain = resolve(changed)
        return (again(plain, bout, stop) if felt_by_gas(change.set) else bout), plain
    except Stopped:
        raise
    except FirstfireError:
        return None
