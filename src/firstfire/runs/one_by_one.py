"""What each uncertain input does by itself to how long an engine lasts.

The slopes that spans are read off are taken at an event's first second, when walls are cold. How
long an engine lasts hangs on what it is like later, when heat from the gas, rubbing rings and
softening plastic tell. So each input that can change gas, friction or walls is moved to either side
by one and a half standard deviations, the walls are warmed anew, and each way that may end the
engine is followed to the moment at which it gives way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from math import isnan, log
from typing import TYPE_CHECKING

import numpy as np

from firstfire.engine.events import EVENTS
from firstfire.engine.grammar import split
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.unknowns import Unknown
from firstfire.errors import OutsideValidity
from firstfire.parts.failure import Judgement
from firstfire.runs.bout import Bout, warmed
from firstfire.runs.drawn import SCATTER, Draw
from firstfire.runs.ensemble import Changes, Response
from firstfire.runs.fate import NEVER, Fate, Following, moment_between, ways_of
from firstfire.runs.hands import shared_out
from firstfire.runs.moved import Trials, value_at, with_one
from firstfire.runs.readers import watched

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

SIDE = 1.5
"""Deviations that an input is moved to either side."""
_FINER = 4
"""Steps for one of the clock's: 3.5 % of the time, since a part that softens goes all at once."""
_SLIGHT = 5e-3
"""A change of a logarithm that isn't worth knowing the other side of."""


@dataclass(frozen=True, eq=False)
class OneByOne:
    """A bout's ways to fail, at the centre and with one input moved at a time.

    Attributes
    ----------
    horizon
        How long they were followed, s.
    seconds
        Rising, s, over which `logs` are laid out.
    logs
        By way, the logarithm of its factor at the centre; not a number: not judged.
    centre
        What becomes of the engine at its centre.
    up, down
        By path of the input, the engine with that input `SIDE` deviations above its centre, or
        below; below only of those that did anything above, and of what moves the gas.
    """

    horizon: float
    seconds: tuple[float, ...]
    logs: Mapping[str, Floats]
    centre: Fate
    up: Mapping[str, Fate]
    down: Mapping[str, Fate]


class Smooth(Response):
    """A bout's answer to one input near the centre: never a jump to another state of its gas."""

    def __init__(self, trials: Trials, bout: Bout, changes: Changes) -> None:
        super().__init__(trials, bout, changes)
        self.run = False


def one_by_one(
    trials: Trials,
    bouts: Sequence[Bout],
    changes: Sequence[Changes],
    ways: Iterable[str],
    horizon: float,
    *,
    stop: Callable[[], bool] | None = None,
) -> tuple[OneByOne, ...]:
    """For each bout of an event, what each input does by itself.

    Parameters
    ----------
    trials, bouts, changes
        As `firstfire.runs.ensemble.ensembles` takes them.
    ways
        Ids of the ways that are followed.
    horizon
        How long, s; no longer than a bout's own.
    stop
        Asked every 0.05 s.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    """
    asked = frozenset(ways)
    shorter = [replace(bout, horizon=min(horizon, bout.horizon)) for bout in bouts]
    responses = [Smooth(trials, *each) for each in zip(shorter, changes, strict=True)]
    paths = moving(trials, shorter)
    unknowns = [unknown for unknown in trials.unknowns if unknown.path in paths]
    centres = [_fate(_following(one, trials.centre, Draw({}, {})), asked) for one in responses]

    def moved(chosen: Sequence[Unknown], side: float) -> dict[str, list[Fate]]:
        def work(number: int) -> list[Fate]:
            return [_moved(response, chosen[number], side, asked) for response in responses]

        found = shared_out(work, len(chosen), stop=stop)
        return {unknown.path: fates for unknown, fates in zip(chosen, found, strict=True)}

    up = moved(unknowns, SIDE)
    gas = {path for change in changes for path in change}
    telling = [u for u in unknowns if u.path in gas or _tells(centres, up[u.path])]
    down = moved(telling, -SIDE)
    return tuple(
        _put_together(
            response,
            centres[at],
            {path: fates[at] for path, fates in up.items()},
            {path: fates[at] for path, fates in down.items()},
        )
        for at, response in enumerate(responses)
    )


def _tells(centres: Sequence[Fate], moved: Sequence[Fate]) -> bool:
    """Whether an input did anything worth looking at the other side of."""
    return any(
        way not in after.factors
        or abs(after.factors[way] - log) > _SLIGHT
        or abs(_log(after.seconds[way]) - _log(centre.seconds[way])) > _SLIGHT
        for centre, after in zip(centres, moved, strict=True)
        for way, log in centre.factors.items()
    )


def _log(seconds: float) -> float:
    """Logarithm of a time; of one at once or never, one so far off that only the same is near."""
    return log(seconds) if 0 < seconds < NEVER else (-1e9 if seconds <= 0 else 1e9)


def _put_together(
    response: Response, centre: Fate, up: Mapping[str, Fate], down: Mapping[str, Fate]
) -> OneByOne:
    following = _following(response, response.trials.centre, Draw({}, {}))
    seconds = tuple(following.seconds[at] for at in _usual(following))
    logs = {way: np.array(course) for way, course in centre.courses.items()}
    return OneByOne(response.bout.horizon, seconds, logs, centre, up, down)


def moving(trials: Trials, bouts: Sequence[Bout]) -> frozenset[str]:
    """Paths of the inputs that may do another thing to a warm engine than to a cold one.

    Left out are strengths and other numbers of a material that no wall asks for, valves and their
    springs, and the scatter from piece to piece: what they do to a factor stays as it is.
    """
    asked = set[str]()
    for bout in bouts:
        by_walls = set[str]()
        plain = watched(trials.centre, by_walls)
        warmed(plain, bout.point, bout.gases, min(bout.horizon, 1.0))
        asked |= by_walls
    return frozenset(u.path for u in trials.unknowns if _moves(u.path, asked))


def _moves(path: str, by_walls: Set[str]) -> bool:
    plain = split(path)[1]
    if plain.startswith("materials."):
        return path in by_walls
    return not plain.startswith("valves.") and plain != SCATTER


def _moved(response: Response, unknown: Unknown, side: float, asked: Set[str]) -> Fate:
    """The engine with one input moved; nothing where it can't be held there then."""
    trials = response.trials
    plain = with_one(trials.engine, trials.centre, unknown.path, value_at(unknown, side))
    try:
        return _fate(_following(response, plain, Draw({unknown.path: side}, {})), asked)
    except OutsideValidity:
        return Fate({}, {})


def _following(response: Response, plain: PlainEngine, draw: Draw) -> Following:
    return Following(response.bout_of(plain, draw), {"": plain}, _FINER)


def _fate(following: Following, asked: Set[str]) -> Fate:
    """Factors at the second judged and through the bout, and when each way gives way."""
    bout = following.bout
    judged = following.at(EVENTS[bout.point.event].judged_at)
    factors, seconds, courses = {}, {}, {}
    places = _usual(following)
    for way, judge, row in ways_of(bout):
        if way in asked:
            log = following.log_factor(way, judge, row, judged)
            if not isnan(log):
                factors[way] = log
                seconds[way] = _gives_way(following, way, judge, row)
                logs = (following.log_factor(way, judge, row, at) for at in places)
                courses[way] = tuple(logs)
    return Fate(factors, seconds, courses=courses)


def _usual(following: Following) -> tuple[int, ...]:
    """Places of the usual clock's seconds on the finer one."""
    return (*range(0, len(following.seconds) - 1, _FINER), len(following.seconds) - 1)


def _gives_way(following: Following, way: str, judge: Judgement, row: int) -> float:
    """When a way gives way, s: 0 where it has at once, `NEVER` where it holds to the end."""

    def asked(at: int) -> float:
        found = following.log_factor(way, judge, row, at)
        return NEVER if isnan(found) else found

    bracket = crossing(asked, len(following.seconds) - 1, following.coarse)
    return NEVER if bracket is None else moment_between(following.seconds, *bracket)


def crossing(
    asked: Callable[[int], float], last: int, stride: int
) -> tuple[tuple[int, float], tuple[int, float]] | None:
    """Two places next to each other between which what is asked passes 0 downwards.

    Parameters
    ----------
    asked
        What it is at a place.
    last
        The last place.
    stride
        Every how many places are looked at before it is halved.

    Returns
    -------
    before, after
        Each a place and what it is there; both the first place where it is below 0 from the start;
        None where it never is.

    Examples
    --------
    >>> crossing(lambda at: 7.5 - at, 100, 20)
    ((7, 0.5), (8, -0.5))
    """
    before = (0, asked(0))
    if before[1] < 0:
        return before, before
    for at in (*range(stride, last, stride), last):
        here = (at, asked(at))
        if here[1] < 0:
            break
        before = here
    else:
        return None
    while here[0] - before[0] > 1:
        middle = (before[0] + here[0]) // 2
        one = (middle, asked(middle))
        before, here = (before, one) if one[1] < 0 else (one, here)
    return before, here
