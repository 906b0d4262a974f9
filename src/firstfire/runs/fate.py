"""What becomes of one engine during one bout: every factor at a second, and when each gives way.

The bout's walls are known at any second, so a time is found where it is and not read off a coarse
clock: the first of some coarse seconds after which a way has given way, then halving, last a
straight line in logarithms over a seventh of the time.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from firstfire.engine.moment import Moment
from firstfire.engine.records import Loads, Temperatures
from firstfire.engine.resolve import PlainEngine
from firstfire.heat.answers import temperatures_through
from firstfire.loads import loads
from firstfire.parts.failure import Judgement
from firstfire.runs.bout import Bout
from firstfire.runs.drawn import piece_of
from firstfire.runs.events import CLOCKED, JUDGED_AT
from firstfire.runs.moments import judged_peak, moment, stronger
from firstfire.runs.readers import judged_during

FIRST = 0.25
"""The first second asked; what has given way by then has at once."""

STEP = 4.0 ** (1 / 10)
"""Of one of the clock's seconds over the one before: the first whole second is among them."""

COARSE = 5
"""Every how many of the fine seconds a coarse one is: twice the time."""

NEVER = math.inf

_AS_GOOD_AS_FALLING = 0.01
"""A logarithm that rises by less than that still falls: it passes 0 once, or barely."""


@cache
def clock(horizon: float) -> tuple[float, ...]:
    """Seconds at which a bout can be asked: evenly in their logarithm, from `FIRST` to the horizon.

    Examples
    --------
    >>> seconds = clock(600.0)
    >>> len(seconds), seconds[0], round(seconds[10], 12), seconds[-1]
    (58, 0.25, 1.0, 600.0)
    """
    if horizon <= FIRST:
        return (horizon,)
    steps = math.ceil(math.log(horizon / FIRST) / math.log(STEP) - 1e-9)
    return (*(FIRST * STEP**step for step in range(steps)), horizon)


@dataclass(frozen=True)
class Fate:
    """What became of an engine at one operating point.

    Attributes
    ----------
    factors
        Logarithm of each judged factor at the second it is judged, by the way's id.
    seconds
        When each way gave way; infinite where it held to the horizon. Empty where no clock runs.
    """

    factors: Mapping[str, float]
    seconds: Mapping[str, float]


class Following:
    """One bout of one engine, judged at any of its clock's seconds; what is asked is kept.

    Parameters
    ----------
    bout
        Its gas and walls.
    engines
        For each piece, the engine with that piece's own strength; under ``""`` the one that
        stands for all.
    """

    def __init__(self, bout: Bout, engines: Mapping[str, PlainEngine]) -> None:
        self.bout, self.engines = bout, engines
        self.plain = next(iter(engines.values()))
        self.seconds = clock(bout.horizon)
        self._warmth = [temperatures_through(h, self.seconds) for h in bout.histories]
        self._warm_then: dict[tuple[int, int], Temperatures] = {}
        self._moments: dict[tuple[int, int, str], Moment] = {}
        self._felt: dict[int, tuple[list[float], Loads]] = {}

    def at(self, seconds: float) -> int:
        """The place among the clock's of the second nearest to one."""
        return min(range(len(self.seconds)), key=lambda at: abs(self.seconds[at] - seconds))

    def log_factor(self, way: str, judge: Judgement, row: int, at: int) -> float:
        """Logarithm of a way's factor at one of the clock's seconds; not a number: not judged."""
        here = self.moment(row, at, piece_of(way))
        if not judge.applies(here):
            return math.nan
        found = judge(here)
        return math.log(min(max(found.factor, 1e-9), 1e9)) if found.judged else math.nan

    def moment(self, row: int, at: int, piece: str) -> Moment:
        """The moment a piece is judged in."""
        key = (row, at, piece)
        if key not in self._moments:
            peaks, felt = self._loads(at)
            self._moments[key] = moment(
                self.bout, self.engines.get(piece, self.plain), row, self.seconds[at], peaks, felt,
                self._warm(row, at),
            )  # fmt: skip
        return self._moments[key]

    def _warm(self, row: int, at: int) -> Temperatures:
        if (row, at) not in self._warm_then:
            self._warm_then[row, at] = self._warmth[row](at)
        return self._warm_then[row, at]

    def _loads(self, at: int) -> tuple[list[float], Loads]:
        """Under the strongest cycle of half to twice the time, so that few are asked for.

        The strongest grows by a fifth of a deviation as the time doubles.
        """
        at = min((at + COARSE) // (2 * COARSE) * 2 * COARSE, len(self.seconds) - 1)
        if at not in self._felt:
            bout = self.bout
            peaks = [judged_peak(bout, row, self.seconds[at]) for row in range(len(bout.gases))]
            scaled = [stronger(gas, peak) for gas, peak in zip(bout.gases, peaks, strict=True)]
            self._felt[at] = (peaks, loads(self.plain, scaled))
        return self._felt[at]


Ways = tuple[tuple[str, Judgement, int], ...]
"""Id, what judges it, and the cylinder it is asked of."""


def ways_of(bout: Bout) -> Ways:
    """Every way to fail that is asked of a bout."""
    return tuple(
        (judge.failure.id if row == 0 else f"{judge.failure.id}#{row + 1}", judge, row)
        for row in range(len(bout.gases))
        for judge in judged_during(bout.point.event)
        if row == 0 or not judge.failure.shared
    )


@dataclass(frozen=True)
class Course:
    """How a way's factor goes during a bout, as seen in a few engines.

    Attributes
    ----------
    falling
        Whether it only ever falls, so that it gives way once.
    start
        Place among the clock's seconds at which to begin looking for that.
    """

    falling: bool
    start: int


def gives_way(
    following: Following, way: str, judge: Judgement, row: int, course: Course | None = None
) -> float:
    """When a way gives way, s: 0 where it has at once, `NEVER` where it holds to the horizon.

    Parameters
    ----------
    following, way, judge, row
        Of which bout and cylinder, and which way.
    course
        How it goes; None: not known, so that every coarse second is asked.
    """

    def asked(at: int) -> float:
        found = following.log_factor(way, judge, row, at)
        return math.inf if math.isnan(found) else found

    seconds = following.seconds
    last = len(seconds) - 1
    if course is not None and course.falling:
        bracket = _sought(asked, min(course.start, last), last)
    else:
        bracket = _scanned(asked, last)
    if bracket is None:
        return NEVER
    holds, gone = bracket
    return 0.0 if gone[0] == 0 else _between(seconds, asked, holds, gone)


Known = tuple[int, float]
"""A place on the clock, and the logarithm of a factor there."""


def _scanned(asked: Callable[[int], float], last: int) -> tuple[Known, Known] | None:
    """The first two coarse seconds between which a logarithm passes 0."""
    before = (0, asked(0))
    if before[1] < 0:
        return before, before
    for at in (*range(COARSE, last, COARSE), last):
        here = (at, asked(at))
        if here[1] < 0:
            return before, here
        before = here
    return None


def _sought(asked: Callable[[int], float], start: int, last: int) -> tuple[Known, Known] | None:
    """Two seconds between which a falling logarithm passes 0, sought from where others did."""
    known = (start, asked(start))
    gone, stride = known[1] < 0, 1
    while True:
        if known[0] == (0 if gone else last):
            return (known, known) if gone else None
        at = max(known[0] - stride, 0) if gone else min(known[0] + stride, last)
        here = (at, asked(at))
        if gone != (here[1] < 0):
            return (here, known) if gone else (known, here)
        known, stride = here, 2 * stride


def _between(
    seconds: Sequence[float],
    asked: Callable[[int], float],
    holds: tuple[int, float],
    gone: tuple[int, float],
) -> float:
    """The moment between two at which a logarithm passes 0, by halving."""
    while gone[0] - holds[0] > 1:
        middle = (holds[0] + gone[0]) // 2
        found = asked(middle)
        if found < 0:
            gone = (middle, found)
        else:
            holds = (middle, found)
    share = 0.0 if math.isinf(holds[1]) else holds[1] / (holds[1] - gone[1])
    before, after = math.log(seconds[holds[0]]), math.log(seconds[gone[0]])
    return math.exp(before + share * (after - before))


def seen(bout: Bout, engines: Mapping[str, PlainEngine]) -> dict[str, tuple[Known, ...]]:
    """What each factor comes to during a bout, looked at coarsely.

    Parameters
    ----------
    bout, engines
        As `fate` takes them.
    """
    following = Following(bout, engines)
    last = len(following.seconds) - 1
    asked = (*range(0, last, 2 * COARSE), last)
    found = {}
    for way, judge, row in ways_of(bout):
        each = ((at, following.log_factor(way, judge, row, at)) for at in asked)
        known = tuple(one for one in each if not math.isnan(one[1]))
        if known:
            found[way] = known
    return found


def course(engines: Sequence[Sequence[Known]]) -> Course:
    """How a way goes in other engines, as it was seen to in some.

    Examples
    --------
    >>> course([[(0, 0.7), (10, 0.1), (20, -0.5)]])
    Course(falling=True, start=20)
    """
    falling = all(
        after[1] <= before[1] + _AS_GOOD_AS_FALLING
        for one in engines
        for before, after in pairwise(one)
    )
    first = [next((at for at, log in one if log < 0), one[-1][0]) for one in engines]
    return Course(falling, sorted(first)[len(first) // 2])


def fate(
    bout: Bout, engines: Mapping[str, PlainEngine], follow: Mapping[str, Course] | None = None
) -> Fate:
    """What became of an engine during one bout.

    Parameters
    ----------
    bout
        Its own.
    engines
        By piece, as `firstfire.runs.drawn.by_piece` gives them.
    follow
        Course of each way whose time is looked for; the others hold to the horizon. None: all
        are looked for, at every coarse second.
    """
    following = Following(bout, engines)
    asked = ways_of(bout)
    at = following.at(JUDGED_AT[bout.point.event])
    factors = {way: following.log_factor(way, judge, row, at) for way, judge, row in asked}
    judged = {way: found for way, found in factors.items() if not math.isnan(found)}
    if bout.point.event not in CLOCKED:
        return Fate(judged, {})
    seconds = dict.fromkeys(judged, NEVER)
    for way, judge, row in asked:
        if way in judged and (follow is None or way in follow):
            seconds[way] = gives_way(following, way, judge, row, follow[way] if follow else None)
    return Fate(judged, seconds)
