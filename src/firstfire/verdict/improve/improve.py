"""Make it hold: the least work that makes everything judged hold together, step by step.

Sets of changes are tried over the engine's whole life (`firstfire.verdict.facts.over_life`). Each
step takes, of all changes that the likeliest enders know of, the one that gains most for its work;
once the odds are reached, every change that isn't needed any more is taken back, the most work
first; and what is left is checked in full, since only that knows how far each factor may be off.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.engine.records import Raise
from firstfire.errors import Interrupted, Stopped
from firstfire.runs.hands import Stop, shared_out
from firstfire.verdict.check import check
from firstfire.verdict.facts.margin import Margin, Raised
from firstfire.verdict.facts.over_life import Tried, judged_over_life, over_life
from firstfire.verdict.facts.raising import GAIN, raised_by, work
from firstfire.verdict.facts.ranking import counts
from firstfire.verdict.improve.limits import Allowed
from firstfire.verdict.improve.odds_on_the_way import on_the_way
from firstfire.verdict.result import Result

Progress = Callable[[str, float], None]

TARGET = 0.95
_ENDERS, _EACH = 4, 5
"""How many of the likeliest enders are asked for changes, and how many of each."""
_MOST_STEPS = 30
_ROUNDS = 4
"""Full checks at the most: each tells anew how far factors may be off."""
_MATTERS = 0.01
"""Share of engines that something has to end to be told among what is left."""


@dataclass(frozen=True)
class Step:
    """One change of the way.

    Attributes
    ----------
    against
        What was likeliest to end the engine before it.
    change
        What is changed, with the work it takes.
    odds_before, odds_after
        That the engine survives, before and with it.
    """

    against: Margin
    change: Raised
    odds_before: float
    odds_after: float


@dataclass(frozen=True)
class Left:
    """What still asks for a change in the end, and why none is made."""

    margin: Margin
    why: str


@dataclass(frozen=True)
class Improved:
    """An engine that was made to hold, as far as known changes can.

    Attributes
    ----------
    before, after
        Checked in full; `after` is None where it was stopped before that.
    engine
        With the changes.
    target
        Odds that were asked for.
    steps
        The way, in its order.
    left
        What can't be mended.
    stopped
        Whether it was ended by hand, so that more may be possible.
    """

    before: Result
    after: Result | None
    engine: Engine
    target: float
    steps: tuple[Step, ...]
    left: tuple[Left, ...]
    stopped: bool = False

    @property
    def changes(self) -> dict[str, str]:
        """Written values by path."""
        return _set(self.steps)


def improve(
    engine: Engine,
    *,
    target: float = TARGET,
    allowed: Allowed | None = None,
    only: Sequence[str] | None = None,
    stop: Stop | None = None,
    on_progress: Progress | None = None,
) -> Improved:
    """The engine with the least work that makes it hold.

    Parameters
    ----------
    engine
        As written down.
    target
        Odds that nothing judged gives way up to the last event's first second.
    allowed
        Which changes may be made; None: any.
    only
        Events of the life that is meant; None: all.
    stop
        Asked at least every 0.1 s; true ends the search, and the best so far is given back.
    on_progress
        Told what is being done, and about which share of it is.

    Raises
    ------
    Stopped, Interrupted
        If it was stopped before anything was found.
    """
    search = _Search(engine, target, allowed or Allowed(), only, stop, on_progress)
    search.checked = before = search.full(engine)
    try:
        for _ in range(_ROUNDS):
            had = len(search.steps)
            search.forward()
            search.back()
            if not search.steps:
                break
            search.checked = search.full(search.changed)
            if search.odds >= target:
                search.spared()
                break
            if len(search.steps) == had:
                break
        return search.found(before, stopped=False)
    except (Stopped, Interrupted):
        if not search.steps:
            raise
        return search.found(before, stopped=True)


class _Search:
    """One search: steps so far, and the last full check that they are tried against."""

    def __init__(
        self,
        engine: Engine,
        target: float,
        allowed: Allowed,
        only: Sequence[str] | None,
        stop: Stop | None,
        on_progress: Progress | None,
    ) -> None:
        self.engine, self.target, self.allowed, self.only = engine, target, allowed, only
        self.stop, self.on_progress = stop, on_progress
        self.steps: list[Step] = []
        self.useless: set[str] = set()
        self.taken_back = False
        self.checked: Result | None = None

    @property
    def changed(self) -> Engine:
        """The engine with the steps made."""
        values = _set(self.steps)
        if not values:
            return self.engine
        return with_values(self.engine, dict(values), origin="made to hold")

    @property
    def odds(self) -> float:
        """Of the last full check."""
        return self.checked.verdict.odds if self.checked is not None else 0.0

    def full(self, engine: Engine) -> Result:
        """A full check, its changes left untried."""
        step = f"step {len(self.steps) + 1}, checked in full"

        def told(what: str, _: float) -> None:
            if self.on_progress is not None:
                self.on_progress(f"{step}: {what}" if what else "", 0.0)

        return check(engine, only=self.only, changes=False, stop=self.stop, on_progress=told)

    def forward(self) -> None:
        """Steps until the odds are reached, or no change gains any more."""
        result = self._result()
        now = judged_over_life(result.events, result.margins)
        base = _set(self.steps)
        made: dict[str, str] = {}
        while now.odds < self.target and len(self.steps) < _MOST_STEPS:
            asked = self._candidates(now, base | made)
            if not asked:
                return
            found = self._tried([{**made, **change.set} for _, change in asked])
            best = _best(self.engine, now, asked, found)
            for (_, change), one in zip(asked, found, strict=True):
                if one is None or one.score < now.score + GAIN:
                    self.useless.add(_key(change))
            if best is None:
                return
            at, after = best
            margin, change = asked[at]
            made |= change.set
            told = raised_by(self.engine, change, _factor(after, margin), "")
            self.steps.append(Step(margin, told, now.odds, after.odds))
            self.useless.clear()
            now = after

    def back(self) -> None:
        """Take back what isn't needed any more, the most work first."""
        if len(self.steps) < 2:
            return
        each = [_without(self.steps, at) for at in range(len(self.steps))]
        *found, now = self._anew([_set(steps) for steps in [*each, self.steps]])
        least = self.target if now is None else min(self.target, now.odds)
        spare = [step for step, one in zip(self.steps, found, strict=True) if _keeps(one, least)]
        for step in sorted(spare, key=lambda step: -work(step.change)):
            rest = [other for other in self.steps if other is not step]
            # each was spare by itself: together they may not be
            if len(rest) > 0 and _keeps(self._anew([_set(rest)])[0], least):
                self.steps, self.taken_back = rest, True

    def spared(self) -> None:
        """Once more, now that a full check knows how far the changed factors may be off."""
        steps, checked = list(self.steps), self.checked
        self.back()
        if len(self.steps) < len(steps):
            self.checked = self.full(self.changed)
            if self.odds < self.target:
                self.steps, self.checked = steps, checked
        self._spared_in_full()

    def _spared_in_full(self) -> None:
        """Each step is left out of a full check, the most work first.

        A trial has the spans of the engine that it was tried on, and those may be another's.
        """
        for step in sorted(self.steps, key=lambda step: -work(step.change)):
            if len(self.steps) < 2:
                return
            steps, checked = list(self.steps), self.checked
            self.steps = [one for one in steps if one is not step]
            self.checked = self.full(self.changed)
            if self.odds < self.target:
                self.steps, self.checked = steps, checked
            else:
                self.taken_back = True

    def _told_anew(self, before: Result, after: Result) -> tuple[Step, ...]:
        """The steps as they go without those that were taken back."""
        sets = [step.change.set for step in self.steps]
        told, odds = [], before.verdict.odds
        for at, then in on_the_way(self.engine, before, after, sets, self.stop):
            told.append(replace(self.steps[at], odds_before=odds, odds_after=then))
            odds = then
        return tuple(told)

    def _result(self) -> Result:
        if self.checked is None:
            raise Stopped("Nothing was checked.")
        return self.checked

    def _candidates(self, now: Tried, made: Mapping[str, str]) -> list[tuple[Margin, Raise]]:
        """Changes that the likeliest enders know of, each once."""
        found: dict[str, tuple[Margin, Raise]] = {}
        asking = [m for m in now.margins if counts(m) and m.ends is not None and wants(m)]
        for margin in asking:
            offered = [c for c in margin.way.raise_by if self._open(c, made)][:_EACH]
            for change in offered:
                found.setdefault(_key(change), (margin, change))
            if len({m.way.id for m, _ in found.values()}) >= _ENDERS:
                break
        return list(found.values())

    def _open(self, change: Raise, made: Mapping[str, str]) -> bool:
        if _key(change) in self.useless or not self.allowed.allows(change.set):
            return False
        return any(made.get(path) != value for path, value in change.set.items())

    def _tried(self, sets: Sequence[Mapping[str, str]]) -> list[Tried | None]:
        """Each set of further changes over the life of the engine last checked in full."""
        engine, results = self._result().engine, self._result().events
        if self.on_progress is not None:
            share = min(self.odds, 0.9)
            self.on_progress(f"step {len(self.steps) + 1}, trying {len(sets)} changes", share)
        return shared_out(
            lambda number: over_life(engine, results, sets[number], None), len(sets), stop=self.stop
        )

    def _anew(self, sets: Sequence[Mapping[str, str]]) -> list[Tried | None]:
        """Each set of all changes over the life of the engine as it was written down."""
        results = self._result().events
        if self.on_progress is not None:
            self.on_progress("taking back what isn't needed", 0.9)
        return shared_out(
            lambda number: over_life(self.engine, results, sets[number], None),
            len(sets),
            stop=self.stop,
        )

    def found(self, before: Result, *, stopped: bool) -> Improved:
        """What came of it."""
        checked = self._result()
        finished = not stopped and checked is not before
        after = checked if finished else None
        left = _left(checked, self.useless, self.allowed) if not stopped else ()
        if self.odds >= self.target:
            left = ()
        steps = tuple(self.steps)
        if after is not None and self.taken_back:
            steps = self._told_anew(before, after)
        return Improved(before, after, self.changed, self.target, steps, left, stopped)


def wants(margin: Margin) -> bool:
    """Whether a margin asks for a change: it fails, is marginal, or ends some engines."""
    return margin.word in ("fails", "marginal") or (margin.ends or 0.0) > 0.0


def _best(
    engine: Engine,
    now: Tried,
    asked: Sequence[tuple[Margin, Raise]],
    found: Sequence[Tried | None],
) -> tuple[int, Tried] | None:
    """Place and outcome of the change that gains most for its work; None where none gains."""
    gains = []
    for at, one in enumerate(found):
        if one is not None and one.score > now.score + GAIN:
            hours = work(raised_by(engine, asked[at][1], math.nan, ""))
            gains.append(((one.score - now.score) / hours, at, one))
    if not gains:
        return None
    _, at, one = max(gains, key=lambda gain: gain[0])
    return at, one


def _factor(after: Tried, margin: Margin) -> float:
    """Factor of a way to fail afterwards; infinite where it is gone."""
    own = (margin.way.id, margin.point)
    return next((m.least for m in after.margins if (m.way.id, m.point) == own), math.inf)


def _key(change: Raise) -> str:
    return repr(sorted(change.set.items()))


def _set(steps: Sequence[Step]) -> dict[str, str]:
    found: dict[str, str] = {}
    for step in steps:
        found |= step.change.set
    return found


def _keeps(tried: Tried | None, least: float) -> bool:
    """Whether an engine still has such odds."""
    return tried is not None and tried.odds >= least - 1e-9


def _without(steps: Sequence[Step], place: int) -> list[Step]:
    return [step for at, step in enumerate(steps) if at != place]


def _left(result: Result, useless: set[str], allowed: Allowed) -> tuple[Left, ...]:
    """What still asks for a change, each way where it is likeliest to end the engine."""
    found: dict[str, Left] = {}
    for margin in result.margins:
        way = margin.way.id.partition("#")[0]
        if margin.ends is not None and _matters(margin) and way not in found:
            found[way] = Left(margin, _why(margin, useless, allowed))
    return tuple(found.values())


def _matters(margin: Margin) -> bool:
    return margin.word in ("fails", "marginal") or (margin.ends or 0.0) >= _MATTERS


def _why(margin: Margin, useless: set[str], allowed: Allowed) -> str:
    offered = margin.way.raise_by
    if not offered:
        return "no change is known that would raise it"
    kept = [change for change in offered if not allowed.allows(change.set)]
    if len(kept) == len(offered):
        return "every change that is known for it is of something you keep or haven't got"
    tried = [change for change in offered if _key(change) in useless]
    if tried:
        each = "the change that is" if len(tried) == 1 else f"each of {len(tried)} changes"
        return f"{each} known for it was tried and helps nothing over the whole life"
    return "other changes were made first, and it is what they leave"
