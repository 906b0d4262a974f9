"""What to measure first: how much of an engine's doubt one reading of each input would take away.

For each thing asked (`firstfire.verdict.doubt.questions`) an input's share is the first-order index
of the answer: the variance of what one expects of it once the input is known, over all its
variance. The odds' answer is yes or no, a run's is a time's logarithm. A reading with an error of
its own tells less, by the share of the input's span that it leaves (`firstfire.engine.readings`).
One that needs the engine running tells nothing of whether it will hold its first fire, since it
comes too late for that.

References
----------
A. Saltelli and others, *Global Sensitivity Analysis: The Primer*, Wiley 2008, section 1.2.4, from
memory.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from firstfire.engine.engine import Engine
from firstfire.engine.grammar import split
from firstfire.engine.readings import reading_of, span_left
from firstfire.engine.readings_table import Reading
from firstfire.engine.unknowns import Unknown
from firstfire.runs.drawn import SCATTER, SPEED, pieces
from firstfire.runs.moved import Trials
from firstfire.runs.uneven import TURN, uneven
from firstfire.verdict.doubt.questions import Question, Stop, Which, asked
from firstfire.verdict.facts.decide import in_the_odds
from firstfire.verdict.facts.narrows import TELLING
from firstfire.verdict.facts.odds import Bells
from firstfire.verdict.facts.share import read_with_error, shares_told
from firstfire.verdict.result import Result

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

__all__ = ["BearsOn", "Doubts", "Worth", "doubts"]


@dataclass(frozen=True)
class BearsOn:
    """The judgement that an input bears on most.

    Attributes
    ----------
    way, point
        Its id, and the operating point's name.
    asked
        Which of the things asked it is part of.
    """

    way: str
    point: str
    asked: Which


@dataclass(frozen=True)
class Worth:
    """What one input makes of the doubt, and what a reading of it would take away.

    Attributes
    ----------
    reading
        How it is measured, or why it can't be.
    spans
        The input, as wide as it is now: one for each cylinder that has its own. Empty for what
        engines are drawn by without a place in the file.
    left
        Share of that span that the reading leaves.
    known
        By what is asked, share of the doubt that would go if it were known.
    told
        The same of the reading; nothing where nobody can take it at home.
    minutes
        For all cylinders.
    bears_on
        None where it bears on nothing.
    """

    reading: Reading
    spans: tuple[Unknown, ...]
    left: float
    known: Mapping[Which, float]
    told: Mapping[Which, float]
    minutes: float
    bears_on: BearsOn | None

    @property
    def at_home(self) -> bool:
        """Whether it can be measured at home."""
        return not self.reading.why_not

    @property
    def rank(self) -> float:
        """Larger first: see `weighed`."""
        return weighed(self.told if self.at_home else self.known)


@dataclass(frozen=True)
class Doubts:
    """All that is uncertain of an engine, by what a reading would take away.

    Attributes
    ----------
    engine
        As written down.
    odds
        Chance that nothing judged gives way up to the first second of full throttle.
    doubtful
        What is asked and in doubt.
    sure
        What is asked and not in doubt.
    readings
        What can be measured at home, most worth first.
    beyond
        What nobody can measure at home, what makes most of the doubt first.
    judged
        Whether anything could be judged at all.
    """

    engine: Engine
    odds: float
    doubtful: tuple[Which, ...]
    sure: tuple[Which, ...]
    readings: tuple[Worth, ...]
    beyond: tuple[Worth, ...]
    judged: bool = True

    @property
    def worth_it(self) -> tuple[Worth, ...]:
        """Readings that take away one in a hundred or more of some doubt."""
        return tuple(one for one in self.readings if _telling(one.told))

    @property
    def out_of_reach(self) -> tuple[Worth, ...]:
        """What nobody can measure at home and makes one in a hundred or more of some doubt.

        Which of two like cylinders breathes is told wherever it is drawn.
        """
        return tuple(
            one for one in self.beyond if _telling(one.known) or one.reading.pattern == TURN
        )


def _telling(shares: Mapping[Which, float]) -> bool:
    return max(shares.values(), default=0.0) >= TELLING


def weighed(shares: Mapping[Which, float]) -> float:
    """One number for the share of odds and times: the odds count as much as both times together.

    Examples
    --------
    >>> round(weighed({"odds": 0.3, "full_throttle": 0.1, "idle": 0.0}), 3)
    0.175
    >>> weighed({"idle": 0.2})
    0.2
    """
    times = [share for which, share in shares.items() if which != "odds"]
    parts = [sum(times) / len(times)] if times else []
    if "odds" in shares:
        parts.append(shares["odds"])
    return sum(parts) / len(parts) if parts else 0.0


def doubts(result: Result, stop: Stop | None = None) -> Doubts:
    """What to measure first on an engine that was checked.

    Parameters
    ----------
    result
        From `check` or `look_into`, with engines drawn.
    stop
        Asked every 0.05 s.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    """
    found = asked(result, stop)
    in_doubt = [one for one in found.questions if one.doubtful]
    worths = [_worth(result.engine, alike, in_doubt, found.bells) for alike in _inputs(result)]
    ranked = sorted(worths, key=lambda one: -one.rank)
    return Doubts(
        engine=result.engine,
        odds=result.verdict.odds,
        doubtful=tuple(one.id for one in in_doubt),
        sure=tuple(one.id for one in found.questions if not one.doubtful),
        readings=tuple(one for one in ranked if one.at_home),
        beyond=tuple(one for one in ranked if not one.at_home),
        judged=bool(in_the_odds(result.margins)),
    )


@dataclass(frozen=True)
class _Input:
    """An input by its path, the names it is drawn under, and its span where it has one."""

    path: str
    names: tuple[str, ...]
    span: Unknown | None = None


def _inputs(result: Result) -> list[list[_Input]]:
    """Everything that engines are drawn by, those of several cylinders together."""
    each = pieces(len(result.plain.cylinders))
    alike: dict[str, list[_Input]] = {}
    for unknown in Trials(result.engine).of_a_check:
        lucky = unknown.path == SCATTER
        names = tuple(f"{SCATTER} of {one}" for one in each) if lucky else (unknown.path,)
        alike.setdefault(split(unknown.path)[1], []).append(_Input(unknown.path, names, unknown))
    if any(SPEED in one.names for event in result.events for one in event.spreads):
        alike[SPEED] = [_Input(SPEED, (SPEED,))]
    bouts = [bout for event in result.events for bout in event.bouts]
    if any(uneven(result.plain, bout.point.fired.cycle.cylinders) for bout in bouts):
        # Built alike, either may breathe: it moves which one fails, not whether or when.
        alike[TURN] = [_Input(TURN, ())]
    return list(alike.values())


def _worth(
    engine: Engine, alike: Sequence[_Input], in_doubt: Sequence[Question], bells: Bells
) -> Worth:
    """What an input, of all cylinders, makes of each doubt."""
    reading = reading_of(engine, alike[0].path)
    lefts = [1.0 if one.span is None else span_left(reading, one.span, engine) for one in alike]
    known = np.zeros(len(in_doubt))
    told = np.zeros(len(in_doubt))
    answers = np.array([one.answer for one in in_doubt])
    for one, left in zip(alike, lefts, strict=True):
        for name in one.names if in_doubt else ():
            true = bells.of(name)
            known += shares_told(answers, true)
            if left < 1:
                luck = bells.of(f"error of the reading of {name}")
                told += shares_told(answers, read_with_error(true, left, luck))
    return Worth(
        reading=reading,
        spans=tuple(one.span for one in alike if one.span is not None),
        left=max(lefts),
        known=_by_question(in_doubt, known),
        told={
            which: 0.0 if which == "odds" and reading.stage == "running" else share
            for which, share in _by_question(in_doubt, np.minimum(told, known)).items()
        },
        minutes=reading.minutes * len(alike),
        bears_on=_bears_on(in_doubt, known, [bells.of(n) for one in alike for n in one.names]),
    )


def _by_question(in_doubt: Sequence[Question], shares: Floats) -> dict[Which, float]:
    return {one.id: float(share) for one, share in zip(in_doubt, shares, strict=True)}


def _bears_on(
    in_doubt: Sequence[Question], known: Floats, places: Sequence[Floats]
) -> BearsOn | None:
    """The judgement behind the doubt that the input makes most of."""
    if not in_doubt or not places or known.max() < TELLING:
        return None
    question = in_doubt[int(np.argmax(known))]
    found = max((question.bears_on(place) for place in places), key=lambda one: one[1])
    return BearsOn(found[0].way, found[0].point, question.id) if found[0] else None
