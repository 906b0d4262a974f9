"""Changes a person can make, each really tried before it is offered."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial

from firstfire.catalog import Catalog
from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.engine.records import Raise, Way
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import FirstfireError, OutsideValidity, Stopped
from firstfire.parts.all import REPORTED, ways
from firstfire.runs.bout import Bout, first_fired, held, turned
from firstfire.runs.free_rev import free_speed
from firstfire.runs.moments import judged_peak, loads_at, moment
from firstfire.runs.point import spark_angle
from firstfire.runs.run import EventResult
from firstfire.runs.together import Stop, together
from firstfire.runs.turning_over import speed_before_top
from firstfire.verdict.margin import Margin, Raised, named

# Sections that neither gas nor walls feel: a change there needs no new run.
_APART = ("head.fasteners", "crank", "cam_drive", "flywheel", "pin", "printing", "rod")
_MOST_MARGINS = 8
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

    Parameters
    ----------
    engine
        As written down.
    results
        By event.
    margins
        Worst first.
    stop
        Asked at least every 0.1 s.
    """
    wanting = [m for m in margins if m.word in ("fails", "marginal") and not m.reported]
    chosen = [m for m in wanting if m.way.raise_by][:_MOST_MARGINS]
    works: dict[str, Callable[[Stop | None], Changed | None]] = {}
    for margin in chosen:
        bout = _bout_of(results[margin.event], margin.point)
        for change in margin.way.raise_by[:_MOST_CHANGES]:
            works[_key(bout, change)] = partial(_run_again, engine, bout, change)
    tried = dict(zip(works, together(list(works.values()), stop), strict=True))
    return [
        _raised_by(engine, results, margin, tried) if any(margin is m for m in chosen) else margin
        for margin in margins
    ]


def _raised_by(
    engine: Engine,
    results: Mapping[str, EventResult],
    margin: Margin,
    tried: Mapping[str, Changed | None],
) -> Margin:
    """The margin with what its changes came to, where they help."""
    bout = _bout_of(results[margin.event], margin.point)
    raises = []
    for change in margin.way.raise_by[:_MOST_CHANGES]:
        changed = tried[_key(bout, change)]
        raised = None if changed is None else _judged(engine, margin, change, changed)
        if raised is not None:
            raises.append(raised)
    return replace(margin, raise_by=tuple(_cheapest_first(raises)))


def _key(bout: Bout, change: Raise) -> str:
    return f"{bout.point.name} {sorted(change.set.items())}"


def _cheapest_first(raises: Sequence[Raised]) -> list[Raised]:
    """Those that do it first, the least work among them in front."""
    return sorted(raises, key=lambda r: (r.factor_after < 1, r.hand_hours + r.print_hours / 4))


def _bout_of(result: EventResult, point: str) -> Bout:
    return next(bout for bout in result.bouts if bout.point.name == point)


def _judged(engine: Engine, margin: Margin, change: Raise, changed: Changed) -> Raised | None:
    """The change's effect at the margin's event and second; None where it doesn't help."""
    again, plain = changed
    seconds = min(margin.at_seconds, again.horizon)
    peaks = [judged_peak(again, row, seconds) for row in range(len(again.gases))]
    felt = loads_at(again, plain, peaks)
    after = [
        way
        for row in range(len(again.gases))
        for way in ways(moment(again, plain, row, seconds, peaks, felt))
    ]
    same = next((way for way in after if way.id == margin.way.id), None)
    if same is not None and not (same.judged and same.factor > (margin.factor or 0.0) * 1.005):
        return None  # what can't be judged any more is no help
    factor = same.factor if same is not None else float("inf")
    judged = [way for way in after if way.judged]
    return _raised(engine.catalog, change, factor, _next(plain, judged, margin.way.id))


def _next(plain: PlainEngine, after: Sequence[Way], but: str) -> str:
    """What is then the weakest, in words with its factor."""
    others = [w for w in after if w.id != but and w.id.partition("#")[0] not in REPORTED]
    weakest = min(others, key=lambda way: way.factor, default=None)
    if weakest is None or weakest.factor >= _WORTH_TELLING:
        return ""
    return f"{named(plain, weakest)} at {weakest.factor:.2g}"


def _raised(rows: Catalog, change: Raise, factor: float, after: str) -> Raised:
    effort = rows.row("effort", change.effort)
    return Raised(
        text=change.text,
        set=dict(change.set),
        factor_after=min(factor, 1e6),
        next_to_fail=after,
        print_hours=effort.si("print_hours") / 3600,
        hand_hours=effort.si("hand_hours") / 3600,
        parts=effort.texts.get("parts", ""),
    )


def _run_again(engine: Engine, bout: Bout, change: Raise, stop: Stop | None) -> Changed | None:
    """The bout with the change made: run anew where gas or walls feel it."""
    try:
        changed = with_values(engine, change.set, origin="a change that was tried")
        plain = resolve(changed)
        if all(path.startswith(_APART) for path in change.set):
            return bout, plain
        return _again(plain, bout, stop), plain
    except Stopped:
        raise
    except FirstfireError:
        return None


def _again(plain: PlainEngine, bout: Bout, stop: Stop | None) -> Bout:
    point = bout.point
    if point.event == "cranking":
        return turned(plain, point.name, point.speed, stop=stop)
    if point.event == "first_fire":
        cranked = turned(plain, point.name, plain.use.cranking_speed, stop=stop)
        left = speed_before_top(plain, cranked.point)
        spark = spark_angle(plain, left, starting=True)
        return first_fired(plain, point.name, left, spark, stop=stop)
    speed = point.speed
    if point.event == "free_rev":
        speed = free_speed(plain, stop=stop).speed
    spark = spark_angle(plain, speed, starting=False)
    again = partial(held, plain, point.event, point.name, speed, spark, bout.horizon, stop=stop)
    try:
        return again(start=point.fired.cycle.state)
    except OutsideValidity:
        # Its network may have become another one, which a state of this doesn't fit.
        return again()
