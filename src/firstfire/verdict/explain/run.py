"""What an explanation needs of a check: only the events that judge it, and no changes but its own.

Everything is run as a check runs it; what a check would do besides is left out.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from firstfire.engine.engine import Engine
from firstfire.engine.events import CLOCKED, EVENTS, running_order
from firstfire.engine.geometry import geometry
from firstfire.errors import OutsideValidity
from firstfire.parts.all import failures
from firstfire.parts.events import going_on
from firstfire.runs.run import EventResult, Progress, events, run
from firstfire.runs.spread import Trials
from firstfire.verdict.facts.cautions import cautions
from firstfire.verdict.facts.decide import verdict
from firstfire.verdict.facts.judge import judge
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.facts.raising import at_their_event
from firstfire.verdict.facts.ranking import ranked
from firstfire.verdict.facts.run_time import run_times
from firstfire.verdict.result import Result
from firstfire.version import VERSION

_WORTH_THE_WORK = 1.03
"""A change that raises the factor by less is not worth printing anything anew."""


def look_into(
    engine: Engine,
    base: str | None = None,
    *,
    event: str | None = None,
    stop: Callable[[], bool] | None = None,
    on_progress: Progress | None = None,
) -> Result:
    """What a check finds of one way to fail, or of all, without trying changes.

    Parameters
    ----------
    engine
        As written down.
    base
        Id of the way without its cylinder: only events that can bring it about are run; None
        for all.
    event
        Only this one.
    stop, on_progress
        As `check` takes them.
    """
    trials = Trials(engine)
    found: dict[str, EventResult] = {}
    for asked in running_order(events(engine)):
        if (event is None or asked == event) and brings_about(asked, base):
            known = found.get(EVENTS[asked].after)
            try:
                found[asked] = run(engine, asked, known, stop, on_progress, trials=trials)
            except OutsideValidity:
                continue
    results = [found[asked] for asked in events(engine) if asked in found]
    judged = [m for result in results for m in judge(result, EVENTS[result.event].judged_at)]
    margins = ranked(results, judged)
    limits = tuple(run_times(*(found[asked] for asked in CLOCKED if asked in found)))
    return Result(
        engine=engine,
        plain=trials.centre,
        geometry=geometry(trials.centre),
        events=tuple(results),
        margins=tuple(margins),
        run_times=limits,
        verdict=verdict(results, margins, limits),
        unjudged=(),
        cautions=cautions(engine, trials.centre),
        version=VERSION,
    )


def brings_about(event: str, base: str | None) -> bool:
    """Whether what goes on in an event can bring a way to fail about."""
    active = going_on(event)
    return base is None or any(
        failure.id == base and not failure.during.isdisjoint(active) for failure in failures()
    )


def with_its_changes(
    result: Result, margin: Margin, stop: Callable[[], bool] | None = None
) -> Margin:
    """The margin with up to three changes that raise it, each really tried.

    Parameters
    ----------
    result
        The events it is of.
    margin
        Whatever its word is.
    stop
        Asked by each run.
    """
    if not margin.way.judged or margin.raise_by:
        return margin
    by_event = {event.event: event for event in result.events}
    raised = at_their_event(result.engine, by_event, [margin], stop)[id(margin)]
    least = _WORTH_THE_WORK * (margin.factor or 0.0)
    return replace(margin, raise_by=tuple(r for r in raised if r.factor_after > least))
