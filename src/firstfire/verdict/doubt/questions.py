"""What one would like to know of an engine, asked of many engines drawn.

Three things: whether anything gives way up to the first second of full throttle, and how long full
throttle and an idle last. Each is a number for each engine drawn, from which it follows how much of
the doubt about it any one input makes.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal
from weakref import WeakKeyDictionary

import numpy as np

from firstfire.engine.events import CLOCKED, EVENTS
from firstfire.parts.all import REPORTED
from firstfire.runs.ensemble import Ensemble
from firstfire.runs.moved import Trials
from firstfire.runs.one_by_one import OneByOne, one_by_one
from firstfire.runs.run import EventResult
from firstfire.verdict.doubt.enders import Ender, Places, first_of
from firstfire.verdict.doubt.enders_fitted import enders
from firstfire.verdict.facts.decide import in_the_odds
from firstfire.verdict.facts.judge import doubt_of
from firstfire.verdict.facts.narrows import SURE
from firstfire.verdict.facts.odds import DRAWS, Bells, name_of, outcomes
from firstfire.verdict.result import Result

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

Which = Literal["odds", "full_throttle", "idle"]
Stop = Callable[[], bool]

_AS_ONE = 0.02
"""Spread of a time's logarithm, a standard deviation, below which it isn't in doubt."""
_MAY_BE_FIRST = 1.5
"""Times the first time of an engine drawn within which another way might have been the first."""
_LONGER = 2.0
"""Times the longest-lived engine drawn that all are followed."""
_SHORTEST = 4.0


@dataclass(frozen=True, eq=False)
class Through:
    """One way to fail by which an answer is what it is.

    Attributes
    ----------
    way, point
        Its id, and the name of the operating point.
    weight
        For each draw, how much it makes of the answer.
    """

    way: str
    point: str
    weight: Floats


@dataclass(frozen=True, eq=False)
class Question:
    """One thing to know, with its answer in each engine drawn.

    Attributes
    ----------
    id
        Which.
    answer
        1 where nothing gives way and 0 where something does; or a time's logarithm.
    through
        What makes it.
    """

    id: Which
    answer: Floats
    through: tuple[Through, ...]

    @property
    def doubtful(self) -> bool:
        """Whether there is a doubt that a reading could take away."""
        if self.id == "odds":
            return SURE < float(self.answer.mean()) < 1 - SURE
        return float(self.answer.std()) > _AS_ONE

    def bears_on(self, place: Floats) -> tuple[Through | None, float]:
        """What an input moves the answer through most, and how much."""
        told = [abs(float(np.mean(one.weight * place))) for one in self.through]
        most = int(np.argmax(told)) if told else 0
        return (self.through[most], told[most]) if told else (None, 0.0)


@dataclass(frozen=True, eq=False)
class Asked:
    """Questions with the draws they are answered for.

    Attributes
    ----------
    questions
        The odds first.
    bells
        Of every input, by the name it is drawn under.
    """

    questions: tuple[Question, ...]
    bells: Bells


def asked(result: Result, stop: Stop | None = None) -> Asked:
    """What a check leaves in doubt, for engines drawn from all that is uncertain.

    Parameters
    ----------
    result
        With its engines drawn.
    stop
        Asked every 0.05 s.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    """
    found = outcomes(result.events, in_the_odds(result.margins))
    through = tuple(
        Through(margin.way.id, margin.point, gone.astype(np.float64)) for margin, gone in found.gone
    )
    questions = [Question("odds", found.holds.astype(np.float64), through)]
    followed = [event for event in result.events if event.event in CLOCKED and event.answers]
    for event in sorted(followed, key=lambda event: event.event == "idle"):
        if event.ensembles:
            questions.append(_lasting(result, event, found.bells, stop))
    return Asked(tuple(questions), found.bells)


def _lasting(result: Result, event: EventResult, bells: Bells, stop: Stop | None) -> Question:
    """How long an event lasts, past the second up to which it is a matter of the odds."""
    ident: Which = "idle" if event.event == "idle" else "full_throttle"
    found = list(_enders(event, _moved(result, event, stop)))
    if not found:  # nothing ends any engine drawn
        return Question(ident, np.zeros(DRAWS), ())
    engine = bells.engine(len(event.ensembles[0].fates))

    def places_of(way: str) -> Places:
        return lambda name: bells.of(name_of(name, way))

    first, which = first_of(found, places_of, engine)
    answer = np.maximum(first, math.log(EVENTS[event.event].judged_at))
    off = answer - answer.mean()
    through = tuple(
        Through(one.id, one.point, np.where(which == number, off, 0.0))
        for number, one in enumerate(found)
    )
    return Question(ident, answer, through)


def _enders(event: EventResult, moved: Sequence[OneByOne]) -> Iterator[Ender]:
    for number, (bout, one) in enumerate(zip(event.bouts, moved, strict=False)):
        doubt, drawn = doubt_of(event, number), event.ensembles[number]
        bends = {way: doubt.bend(way) for way in one.logs}
        yield from enders(bout.point.name, one, doubt.spread, drawn, bends)


_MOVED: WeakKeyDictionary[Ensemble, tuple[OneByOne, ...]] = WeakKeyDictionary()


def _moved(result: Result, event: EventResult, stop: Stop | None) -> tuple[OneByOne, ...]:
    """What each input does by itself to the ways that may come first; kept with the event."""
    key = event.ensembles[0]
    if key not in _MOVED:
        ways, horizon = may_be_first(event)
        if not ways:
            return ()
        trials = Trials(result.engine)
        _MOVED[key] = one_by_one(trials, event.bouts, event.answers, ways, horizon, stop=stop)
    return _MOVED[key]


def may_be_first(event: EventResult) -> tuple[frozenset[str], float]:
    """Ways that end an engine drawn or might have, and how long it takes to see, s."""
    found, longest = set[str](), 0.0
    for number in range(len(event.ensembles[0].fates)):
        times = [
            (seconds, way)
            for drawn in event.ensembles
            for way, seconds in drawn.fates[number].seconds.items()
            if way.partition("#")[0] not in REPORTED
        ]
        first = min((seconds for seconds, _ in times), default=math.inf)
        longest = max(longest, first)
        near = _MAY_BE_FIRST * max(first, EVENTS[event.event].judged_at)
        found |= {way for seconds, way in times if seconds <= near and seconds < math.inf}
    horizon = max(bout.horizon for bout in event.bouts)
    return frozenset(found), min(max(_LONGER * longest, _SHORTEST), horizon)
