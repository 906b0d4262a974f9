"""What becomes of one engine during one bout: every factor at a second, and when each gives way.

The bout's walls are known at any second, so a time is found where it is and not read off a coarse
clock: a way that only falls is sought from where others give way, any other is looked at every
coarse second and then halved; between two near seconds its logarithm is taken as straight.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from itertools import pairwise
from typing import Literal

from firstfire.engine.events import EVENTS
from firstfire.engine.moment import Moment
from firstfire.engine.records import Loads, Temperatures
from firstfire.engine.resolve import PlainEngine
from firstfire.heat.answers import temperatures_through
from firstfire.loads import loads
from firstfire.parts.all import judged_during
from firstfire.parts.failure import Judgement
from firstfire.runs.bout import Bout
from firstfire.runs.drawn import piece_of
from firstfire.runs.moments import judged_peak, moment, stronger

FIRST = 0.25
"""The first second asked; what has given way by then has at once."""

STEP = 4.0 ** (1 / 10)
"""Of one of the clock's seconds over the one before: the first whole second is among them."""

COARSE = 5
"""Every how many of the fine seconds a coarse one is: twice the time."""

NEVER = math.inf

_NEAR = 2
"""Places on the clock between which a logarithm is taken as straight: a third of the time."""

_CLIFF = -0.5
"""A logarithm that is below this at the later of two near seconds fell on no straight line."""

_HALVINGS = 4
"""Of the time between two near seconds where it fell off a cliff: to 1 % each way."""

_LEAST_SLOPE = 0.005
"""Fall of a logarithm a place below which it isn't told where it leads."""

_AS_GOOD_AS_FALLING = 0.01
"""A logarithm that rises by less than that still falls: it passes 0 once, or barely."""


@cache
def clock(horizon: float, finer: int = 1) -> tuple[float, ...]:
    """Seconds at which a bout can be asked: evenly in their logarithm, from `FIRST` to the horizon.

    `finer` is how many steps stand for one of the usual.

    Examples
    --------
    >>> seconds = clock(600.0)
    >>> len(seconds), seconds[0], round(seconds[10], 12), seconds[-1]
    (58, 0.25, 1.0, 600.0)
    """
    if horizon <= FIRST:
        return (horizon,)
    steps = math.ceil(finer * math.log(horizon / FIRST) / math.log(STEP) - 1e-9)
    return (*(FIRST * STEP ** (step / finer) for step in range(steps)), horizon)


@dataclass(frozen=True)
class Fate:
    """What became of an engine at one operating point.

    Attributes
    ----------
    factors
        Logarithm of each judged factor at the second it is judged, by the way's id.
    seconds
        When each way gave way; infinite where it held to the horizon. Empty where no clock runs.
    brake_torque, brake_power
        Mean torque and power at the shaft, N·m and W; not a number where it can't be held there.
    courses
        Each logarithm through the whole bout, of ways that were looked at at every second.
    """

    factors: Mapping[str, float]
    seconds: Mapping[str, float]
    brake_torque: float = math.nan
    brake_power: float = math.nan
    courses: Mapping[str, tuple[float, ...]] = field(default_factory=dict[str, tuple[float, ...]])


class Following:
    """One bout of one engine, judged at any of its clock's seconds; what is asked is kept.

    Parameters
    ----------
    bout
        Its gas and walls.
    engines
        For each piece, the engine with that piece's own strength; under ``""`` the one that
        stands for all.
    finer
        As `clock` takes it.
    """

    def __init__(self, bout: Bout, engines: Mapping[str, PlainEngine], finer: int = 1) -> None:
        self.bout, self.engines = bout, engines
        self.plain = next(iter(engines.values()))
        self.seconds = clock(bout.horizon, finer)
        self.coarse = finer * COARSE
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

    def holds_at(self, way: str, judge: Judgement, row: int, seconds: float) -> bool:
        """Whether a way holds, or isn't judged, at a second that needn't be one of the clock's."""
        peaks, felt = self._loads(self.at(seconds))
        engine = self.engines.get(piece_of(way), self.plain)
        here = moment(self.bout, engine, row, seconds, peaks, felt)
        return not judge.applies(here) or not (found := judge(here)).judged or found.factor >= 1

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
        wide = 2 * self.coarse
        at = min((at + self.coarse) // wide * wide, len(self.seconds) - 1)
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


Going = Literal["falls", "rises", "either"]
"""How a factor goes with time: only down until it is gone for good, only up, or as it likes."""


@dataclass(frozen=True)
class Course:
    """How a way's factor goes during a bout, as seen in a few engines.

    Attributes
    ----------
    going
        What falls gives way once, what rises at once or never.
    start
        Place among the clock's seconds at which to begin looking for that.
    slope
        By how much its logarithm falls from one of the clock's seconds to the next, about there.
    """

    going: Going
    start: int
    slope: float


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
    going = "either" if course is None else course.going
    if going == "rises":
        return 0.0 if asked(0) < 0 else NEVER
    if course is not None and going == "falls":
        bracket = _sought(asked, course, last)
    else:
        bracket = _scanned(asked, last, COARSE if course is None else 2 * COARSE)
    if bracket is None:
        return NEVER
    holds, gone = _halved(asked, *bracket)
    if gone[0] > 0 and (gone[1] < _CLIFF or math.isinf(holds[1])):
        return _cliff(
            lambda at: following.holds_at(way, judge, row, at), seconds[holds[0]], seconds[gone[0]]
        )
    return moment_between(seconds, holds, gone)


def _cliff(holds: Callable[[float], bool], before: float, after: float) -> float:
    """The second at which what holds before no longer does, by halving the time's logarithm.

    Examples
    --------
    >>> round(_cliff(lambda at: at < 11.0, 10.0, 13.2), 1)
    11.0
    """
    for _ in range(_HALVINGS):
        middle = math.sqrt(before * after)
        before, after = (middle, after) if holds(middle) else (before, middle)
    return math.sqrt(before * after)


Known = tuple[int, float]
"""A place on the clock, and the logarithm of a factor there."""


def _scanned(asked: Callable[[int], float], last: int, stride: int) -> tuple[Known, Known] | None:
    """The first two coarse seconds between which a logarithm passes 0."""
    before = (0, asked(0))
    if before[1] < 0:
        return before, before
    for at in (*range(stride, last, stride), last):
        here = (at, asked(at))
        if here[1] < 0:
            return before, here
        before = here
    return None


def _sought(asked: Callable[[int], float], course: Course, last: int) -> tuple[Known, Known] | None:
    """Two near seconds between which a falling logarithm passes 0, sought from where others do."""
    holds: Known | None = None
    gone: Known | None = None
    at = min(course.start, last)
    for tried in range(last + 2):
        here = (at, asked(at))
        if here[1] < 0:
            gone = here
        else:
            holds = here
        if gone is not None and gone[0] == 0:
            return gone, gone
        if holds is not None and holds[0] == last:
            return None
        if holds is not None and gone is not None and gone[0] - holds[0] <= _NEAR:
            return holds, gone
        at = _next_place(holds, gone, here, course.slope, tried, last)
    return None


def _next_place(
    holds: Known | None, gone: Known | None, here: Known, slope: float, tried: int, last: int
) -> int:
    """Where to ask next: where a straight line passes 0, now and then in the middle."""
    low = 0 if holds is None else holds[0] + 1
    high = last if gone is None else gone[0] - 1
    if holds is None or gone is None:
        steps = math.ceil(min(abs(here[1]) / slope, last)) + 1
        found = here[0] + (steps if gone is None else -steps)
    elif tried % 3 == 2 or math.isinf(holds[1]):
        found = (holds[0] + gone[0]) // 2
    else:
        found = round(holds[0] + holds[1] / (holds[1] - gone[1]) * (gone[0] - holds[0]))
    return min(max(found, low), high)


def _halved(asked: Callable[[int], float], holds: Known, gone: Known) -> tuple[Known, Known]:
    """Two near seconds, by halving, between which a logarithm passes 0."""
    while gone[0] - holds[0] > _NEAR:
        middle = ((holds[0] + gone[0]) // 2, asked((holds[0] + gone[0]) // 2))
        if middle[1] < 0:
            gone = middle
        else:
            holds = middle
    return holds, gone


def moment_between(seconds: Sequence[float], holds: Known, gone: Known) -> float:
    """The moment between two near ones at which a logarithm passes 0, on a straight line.

    0 where it is below 0 at the first of all.
    """
    if gone[0] == 0:
        return 0.0
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
    >>> course([[(0, 0.7), (10, 0.1), (20, -0.5), (30, -0.2)]])
    Course(going='falls', start=12, slope=0.06)
    >>> course([[(0, -0.1), (10, 0.1), (20, 0.5)]])
    Course(going='rises', start=20, slope=0.005)
    """
    starts, slopes = zip(*(_passing(one) for one in engines), strict=True)
    going: Going = "either"
    if all(_falls(one) for one in engines):
        going = "falls"
    elif all(_steady(one[::-1]) for one in engines):
        going = "rises"
    start, slope = (sorted(found)[len(found) // 2] for found in (starts, slopes))
    return Course(going, round(start), round(max(slope, _LEAST_SLOPE), 3))


def _passing(seen: Sequence[Known]) -> tuple[float, float]:
    """Place on the clock where a logarithm passes 0, and how steeply; the end if it doesn't."""
    for before, after in pairwise(seen):
        if after[1] < 0 or after is seen[-1]:
            slope = (before[1] - after[1]) / (after[0] - before[0])
            if before[1] < 0:
                return before[0], slope
            if after[1] >= 0:
                return after[0], slope
            return before[0] + before[1] / slope, slope
    return seen[0][0], 0.0


def _falls(seen: Sequence[Known]) -> bool:
    """Whether it falls until it is below 0, and stays there."""
    count = next((place for place, (_, log) in enumerate(seen) if log < 0), len(seen))
    return _steady(seen[: count + 1]) and all(log < 0 for _, log in seen[count:])


def _steady(seen: Sequence[Known]) -> bool:
    return all(after[1] <= before[1] + _AS_GOOD_AS_FALLING for before, after in pairwise(seen))


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
    at = following.at(EVENTS[bout.point.event].judged_at)
    factors = {way: following.log_factor(way, judge, row, at) for way, judge, row in asked}
    judged = {way: found for way, found in factors.items() if not math.isnan(found)}
    given = (bout.point.brake_torque, bout.point.brake_power)
    if not EVENTS[bout.point.event].clocked:
        return Fate(judged, {}, *given)
    seconds = dict.fromkeys(judged, NEVER)
    for way, judge, row in asked:
        if way in judged and (follow is None or way in follow):
            seconds[way] = gives_way(following, way, judge, row, follow[way] if follow else None)
    return Fate(judged, seconds, *given)
