"""A check: all that is known of an engine, and what isn't, as one result."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from firstfire.engine.engine import Engine
from firstfire.engine.events import CLOCKED, EVENTS, running_order
from firstfire.engine.geometry import geometry
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import Interrupted, OutsideValidity, Stopped
from firstfire.runs.brought_over import TurnOver, turned_over
from firstfire.runs.ensemble import COUNT
from firstfire.runs.over_the_top import helped_over
from firstfire.runs.point import OperatingPoint
from firstfire.runs.run import EventResult, Progress, events, run
from firstfire.runs.spread import Trials
from firstfire.runs.start.brief import brief
from firstfire.verdict.facts.cautions import cautions
from firstfire.verdict.facts.decide import verdict
from firstfire.verdict.facts.found import Unjudged
from firstfire.verdict.facts.judge import judge
from firstfire.verdict.facts.lasting import lasting_of
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.facts.narrows import narrows
from firstfire.verdict.facts.raising import with_changes
from firstfire.verdict.facts.ranking import ranked
from firstfire.verdict.facts.run_time import run_times
from firstfire.verdict.result import Result
from firstfire.verdict.words.sentences import sentence, stopped_sentence
from firstfire.version import VERSION

_NOT_YET = (("rests between runs", "not computed in this version"),)
_RPM = math.pi / 30
# Started from full throttle, so run after it.


def check(
    engine: Engine,
    *,
    speeds: Sequence[float] | None = None,
    only: Sequence[str] | None = None,
    changes: bool = True,
    drawn: int = COUNT,
    stop: Callable[[], bool] | None = None,
    on_progress: Progress | None = None,
) -> Result:
    """All that is known of `engine`: its events run, what it makes, what isn't judged.

    Parameters
    ----------
    engine
        As written down.
    speeds
        Full-throttle speeds instead of the file's, rad/s.
    only
        Events of the life that is meant; None: all.
    changes
        Whether changes that would raise what is weak are tried.
    drawn
        How many engines like it are followed: the more, the surer the ends of spans and times.
    stop
        Asked at least every 0.1 s; true stops with `Stopped`.
    on_progress
        Told what is being run and the share of it that is done.

    Raises
    ------
    Stopped
        If ``stop`` said so; what was finished is its ``partial``, as it is of the `Interrupted`
        that Ctrl-C ends in.
    OutsideValidity
        Where not even the geometry can be answered.
    """
    trials = Trials(engine)
    geometry(trials.centre)  # what has no geometry is refused before anything is run
    results: dict[str, EventResult] = {}
    starting: TurnOver | None = None
    unjudged = [Unjudged(*pair) for pair in _NOT_YET]
    try:
        meant = [event for event in events(engine) if only is None or event in only]
        for event in running_order(meant):
            asked = speeds if EVENTS[event].how == "held" else None
            known = results.get(EVENTS[event].after)
            try:
                results[event] = run(
                    engine, event, known, stop, on_progress,
                    speeds=asked, trials=trials, drawn=drawn,
                )  # fmt: skip
            except OutsideValidity as why:
                unjudged.append(Unjudged(event.replace("_", " "), str(why).rstrip(".")))
                continue
            if EVENTS[event].how == "turned":
                starting = turned_over(trials.centre, results[event].points[0], stop)
        results = {event: results[event] for event in events(engine) if event in results}
        raised = _margins(results)
        if changes:
            if on_progress is not None:
                on_progress("what would raise it", 0.9)
            raised = with_changes(engine, results, raised, stop)
        result = _result(engine, trials.centre, results, raised, unjudged)
        if changes:
            result = replace(result, narrows=narrows(engine, result.events, raised))
        if starting is not None:
            if on_progress is not None:
                on_progress("its start", 0.97)
            result = _with_start(result, starting, stop, brisk=not changes)
        return replace(result, sentence=sentence(result))
    except Stopped as halted:
        done = _partial(engine, trials.centre, results, unjudged, starting)
        raise Stopped(str(halted), done) from None
    except KeyboardInterrupt:
        done = _partial(engine, trials.centre, results, unjudged, starting)
        raise Interrupted(done) from None


def _partial(
    engine: Engine,
    plain: PlainEngine,
    results: Mapping[str, EventResult],
    unjudged: Sequence[Unjudged],
    starting: TurnOver | None,
) -> Result | None:
    """What a stopped check had finished; None where that is nothing."""
    if not results:
        return None
    done = {event: results[event] for event in events(engine) if event in results}
    left = Unjudged("whatever comes after", "the check was stopped before it was run")
    result = _result(engine, plain, done, _margins(done), [left, *unjudged])
    result = replace(result, starting=starting)
    return replace(result, sentence=stopped_sentence(result))


def _result(
    engine: Engine,
    plain: PlainEngine,
    results: Mapping[str, EventResult],
    margins: Sequence[Margin],
    unjudged: Sequence[Unjudged],
) -> Result:
    """All that events and their margins come to, but for the sentence."""
    limits = tuple(run_times(*(results[event] for event in CLOCKED if event in results)))
    points = [point for r in results.values() for point in r.points]
    return Result(
        engine=engine,
        plain=plain,
        geometry=geometry(plain),
        events=tuple(results.values()),
        margins=tuple(margins),
        run_times=limits,
        lasting=lasting_of(list(results.values())),
        verdict=verdict(list(results.values()), margins, limits),
        unjudged=(*unjudged, *_notes(results), *_not_modelled(margins), *_beyond(plain, points)),
        cautions=cautions(engine, plain),
        version=VERSION,
    )


def _with_start(
    result: Result, starting: TurnOver, stop: Callable[[], bool] | None, *, brisk: bool
) -> Result:
    """The result with what is known of its start; brisk: of its starter alone."""
    plain = result.plain
    helped = () if starting.over else helped_over(plain, stop)
    begins = None if brisk else brief(plain, starting.shaft, stop)
    return replace(result, starting=starting, helped=helped, begins=begins)


def _margins(results: Mapping[str, EventResult]) -> list[Margin]:
    """Every way to fail of every event, ranked."""
    found = [m for event, result in results.items() for m in judge(result, EVENTS[event].judged_at)]
    return ranked(list(results.values()), found)


def _notes(results: Mapping[str, EventResult]) -> list[Unjudged]:
    """What events themselves leave open."""
    return [Unjudged(*note) for result in results.values() for note in result.notes]


def _not_modelled(margins: Sequence[Margin]) -> list[Unjudged]:
    """Ways to fail without a model here, each once."""
    said = {
        f"{m.way.part} {m.way.failure}": m.way.why_not for m in margins if m.word == "not judged"
    }
    return [Unjudged(subject, why.rstrip(".")) for subject, why in said.items()]


# Pipes are volumes without waves, and the burn was fitted from 800 to 6000 rpm.
_FASTEST, _SLOWEST_FIT, _FASTEST_FIT = 8000.0, 800.0, 6000.0


def _suction(plain: PlainEngine) -> bool:
    """Whether a valve of it is opened by suction."""
    return any(
        valve.worked == "suction"
        for parts in plain.cylinders
        for valve in (parts.valves.inlet, parts.valves.exhaust)
    )


def _beyond(plain: PlainEngine, points: Sequence[OperatingPoint]) -> list[Unjudged]:
    """What this engine asks that the models cover badly or not at all."""
    found = []
    for point in points:
        rpm = point.speed / _RPM
        if rpm > _FASTEST:
            found.append(
                Unjudged(
                    f"{point.name} in full",
                    f"above {_FASTEST:.0f} rpm waves in the pipes matter, which the model has not; "
                    "take the figures as a rough guide",
                )
            )
        elif point.spark is not None and not _SLOWEST_FIT <= rpm <= _FASTEST_FIT:
            found.append(
                Unjudged(
                    f"the burn at {rpm:.0f} rpm in full",
                    "its duration was fitted from 800 to 6000 rpm; here it may be half or double",
                )
            )
        if point.misfires:
            numbers = " and ".join(map(str, point.misfires))
            several = len(plain.cylinders) > 1
            which = f"cylinder {numbers}" if several else "the cylinder"
            found.append(
                Unjudged(
                    f"{which} at {point.name}",
                    "its charge doesn't light: too lean, too rich or too much burned gas left",
                )
            )
        if not point.fired.cycle.converged:
            found.append(
                Unjudged(
                    f"{point.name} to the last digit",
                    "its cycles don't settle to one: "
                    + (
                        "a valve that suction opens bounces anew each time"
                        if _suction(plain)
                        else "burn and charge chase each other"
                    ),
                )
            )
    if plain.cylinders[0].cylinder.compression_ratio > 8.5:
        found.append(Unjudged("knock", "it isn't computed in this version; above 8.5 it matters"))
    return found
