"""Engines drawn from one engine's unknowns, each followed through a bout: gas by its response.

Every unknown is moved at once. What it does to the gas is known from the runs that the slopes were
taken from, so a drawn engine's cycle is the centre's, changed as each of them changes it; its walls
are really warmed and its parts really judged, each piece with its own strength.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from firstfire.cycle.fired import Fired
from firstfire.cycle.friction_along import Friction
from firstfire.engine.events import EVENTS, How
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.unknowns import Unknown
from firstfire.errors import OutsideValidity
from firstfire.heat.cylinder import network as heat_network
from firstfire.heat.history import cold
from firstfire.runs.bout import Bout, exhaust_changed, warmed
from firstfire.runs.drawn import (
    SCATTER,
    SEED,
    Draw,
    by_piece,
    drawn,
    engine_at,
    engines,
    unknowns_of,
)
from firstfire.runs.falling_short import Slower
from firstfire.runs.fate import Course, Fate, Known, course, fate, seen
from firstfire.runs.gas_change import BothWays, GasChange, all_at_once
from firstfire.runs.hands import shared_out
from firstfire.runs.moved import Trials, direction
from firstfire.runs.rubbed import rubbed, throttle
from firstfire.runs.spread import FLOW
from firstfire.runs.uneven import with_figures
from firstfire.runs.wholly import drawn_are_run, wholly

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

Changes = Mapping[str, BothWays]

COUNT = 32
"""Engines drawn for a check."""

_ROUNDS: Mapping[How | None, int] = {"throttled": 3, "let go": 2}
"""How often charge or speed and what rubs are set by each other."""

AHEAD = 6
"""Of them, those that are looked at ahead, coarsely, to see which ways are worth following."""
_FAR, _NEAR = 3.0, 0.2
"""What comes no nearer to giving way than this, in deviations seen and in logarithms, isn't."""


@dataclass(frozen=True, eq=False)
class Ensemble:
    """What became of the engines drawn, at one bout.

    Attributes
    ----------
    draws
        Which engines.
    fates
        Of each, in that order.
    """

    draws: tuple[Draw, ...]
    fates: tuple[Fate, ...]

    def logs(self, way: str) -> Floats:
        """Logarithms of a way's factor at the second judged; not a number where not judged."""
        return np.array([fate.factors.get(way, math.nan) for fate in self.fates])

    def seconds(self, way: str) -> Floats:
        """When a way gives way in each, s; infinite where it holds to the horizon."""
        return np.array([fate.seconds.get(way, math.inf) for fate in self.fates])

    def brake_torque(self) -> Floats:
        """Mean torque at the shaft of each, N·m; not a number where it can't be held there."""
        return np.array([fate.brake_torque for fate in self.fates])

    def brake_power(self) -> Floats:
        """Mean power at the shaft of each, W; not a number where it can't be held there."""
        return np.array([fate.brake_power for fate in self.fates])

    def places(self, names: Sequence[str], piece: str) -> Floats:
        """Where each engine's unknowns stand, in deviations, for one piece; (engines, names)."""
        return np.array(
            [
                [d.pieces[piece] if name == SCATTER else d.shared[name] for name in names]
                for d in self.draws
            ]
        ).reshape(len(self.draws), len(names))


def ensembles(
    trials: Trials,
    bouts: Sequence[Bout],
    changes: Sequence[Changes],
    *,
    slower: Slower | None = None,
    stop: Callable[[], bool] | None = None,
    on_progress: Callable[[float], None] | None = None,
    count: int = COUNT,
    hands: int | None = None,
) -> tuple[Ensemble, ...]:
    """For each bout of an event, what became of each engine drawn.

    Parameters
    ----------
    trials
        The engine and its unknowns.
    bouts
        At the centre.
    changes
        For each bout, what each unknown does to each cylinder's gas.
    slower
        Of a free rev, how it changes where an engine doesn't come so far.
    stop, on_progress
        Asked every 0.05 s; told the share done.
    count, hands
        How many engines; how many processes share them (which changes nothing else).

    Raises
    ------
    Stopped
        If ``stop`` said so.
    """
    draws = drawn(trials, count, SEED)
    plains = engines(trials, draws, stop)
    responses = [Response(trials, *each, slower) for each in zip(bouts, changes, strict=True)]
    clocked = EVENTS[bouts[0].point.event].clocked

    def ahead(number: int) -> list[dict[str, tuple[Known, ...]]]:
        return [response.seen(plains[number], draws[number]) for response in responses]

    looked = shared_out(ahead, min(AHEAD, count), stop=stop, hands=hands) if clocked else []
    follow = [_worth_following([one[at] for one in looked]) for at in range(len(bouts))]

    def work(number: int) -> list[Fate]:
        return [
            response.fate(plains[number], draws[number], asked)
            for response, asked in zip(responses, follow, strict=True)
        ]

    found = shared_out(work, count, stop=stop, on_progress=on_progress, hands=hands)
    return tuple(Ensemble(draws, tuple(one[at] for one in found)) for at in range(len(bouts)))


def _worth_following(looked: Sequence[Mapping[str, Sequence[Known]]]) -> dict[str, Course]:
    """Ways that give way in some engine looked at ahead, or may in another, and how they go."""
    found = {}
    for way in sorted({way for one in looked for way in one}):
        engines = [one[way] for one in looked if way in one]
        lowest = np.array([min(log for _, log in one) for one in engines])
        if lowest.min() - _FAR * lowest.std() < _NEAR:
            found[way] = course(engines)
    return found


class Response:
    """How a bout's gas and walls answer to all unknowns at once.

    Parameters
    ----------
    trials, bout, changes, slower
        As `ensembles` takes them, of one bout.
    """

    def __init__(
        self, trials: Trials, bout: Bout, changes: Changes, slower: Slower | None = None
    ) -> None:
        self.trials, self.bout, self.slower = trials, bout, slower
        self.how = EVENTS[bout.point.event].how
        self.unknowns: tuple[Unknown, ...] = unknowns_of(trials, bout)
        self.changes = changes
        self.warm = bout.point.spark is not None and bout.horizon > 0
        self.run = drawn_are_run(trials.centre, bout)

    def fate(self, plain: PlainEngine, draw: Draw, follow: Mapping[str, Course]) -> Fate:
        """What becomes of one engine drawn, the times of some ways among it.

        Of one that can't be held there (it doesn't idle) nothing.
        """
        try:
            return fate(self.bout_of(plain, draw), by_piece(plain, self.unknowns, draw), follow)
        except OutsideValidity:
            return Fate({}, {})

    def seen(self, plain: PlainEngine, draw: Draw) -> dict[str, tuple[Known, ...]]:
        """How each way goes in one engine drawn, coarsely."""
        try:
            return seen(self.bout_of(plain, draw), by_piece(plain, self.unknowns, draw))
        except OutsideValidity:
            return {}

    def bout_of(self, plain: PlainEngine, draw: Draw) -> Bout:
        """The bout as that engine has it.

        Raises
        ------
        OutsideValidity
            Where it is run and can't be held there.
        """
        if self.run:
            own = engine_at(self.trials, self.unknowns, draw)  # its burn as sure as it is here
            return wholly(self.trials.centre, own, self.bout, draw)
        moved, friction = self._moved(plain, draw)
        point = replace(
            self.bout.point,
            speed=self.bout.point.speed * moved[0].speed,
            peaks=tuple(
                replace(p, mean=p.mean * c.peak, strong=p.strong * c.peak, rare=p.rare * c.peak)
                for p, c in zip(self.bout.point.peaks, moved, strict=True)
            ),
            friction=friction,
            fired=self._worked(self._breathing(moved), moved),
        )
        gases = tuple(c.changed(gas) for c, gas in zip(moved, self.bout.gases, strict=True))
        exhausts = exhaust_changed(plain, point, moved) if self.warm else []
        if self.warm:
            lone = "doubt.wall_heat" not in self.changes
            heat = plain.doubt.wall_heat / self.trials.centre.doubt.wall_heat if lone else 1.0
            histories = warmed(plain, point, gases, self.bout.horizon, heat=heat, exhausts=exhausts)
        else:
            air = plain.surroundings.air_temperature
            histories = tuple(cold(heat_network(plain, row), air) for row in range(len(gases)))
        return replace(self.bout, point=point, gases=gases, histories=histories)

    def _breathing(self, moved: Sequence[GasChange]) -> Fired:
        """The run's figures, each inlet shutting as that engine's does."""
        fired = self.bout.point.fired
        each = zip(moved, fired.cycle.cylinders, strict=True)
        return with_figures(fired, tuple(change.breathing(found) for change, found in each))

    def _worked(self, fired: Fired, moved: Sequence[GasChange]) -> Fired:
        """The run with the gas torque of cycles that give so much more or less work."""
        each = zip(moved, fired.cycle.cylinders, strict=True)
        more = math.fsum(figures.work * (change.work - 1.0) for change, figures in each)
        torque = fired.cycle.mean_gas_torque + more / (4 * math.pi)
        return replace(fired, cycle=replace(fired.cycle, mean_gas_torque=torque))

    def _moved(self, plain: PlainEngine, draw: Draw) -> tuple[list[GasChange], Friction]:
        """What all unknowns at once do to each cylinder's cycle, and what rubs then."""
        places = {
            path: direction(path) * draw.shared[path]
            for path in self.changes
            if path in draw.shared and not (path == FLOW and self.how == "throttled")
        }
        own = moved = [
            all_at_once([self.changes[path].towards(row, z) for path, z in places.items()])
            for row in range(len(self.bout.gases))
        ]
        friction = rubbed(plain, self.bout.point, moved)
        for _ in range(_ROUNDS.get(self.how, 0)):
            moved = self._turning_itself(own, friction)
            friction = rubbed(plain, self.bout.point, moved)
        return moved, friction

    def _turning_itself(self, own: list[GasChange], friction: Friction) -> list[GasChange]:
        """Cycles that give what rubs: at the charge of an idle, at the speed of a free rev."""
        point = self.bout.point
        given, more = point.fired.cycle.mean_gas_torque, friction.mean_torque
        rubs = (given + more - point.friction.mean_torque) / given if given > 0 else 1.0
        work = math.fsum(change.work for change in own) / len(own)
        if self.how == "throttled":
            breath = self.changes.get(FLOW)
            if breath is None:
                return own
            place = throttle(breath, rubs / work)
            return [
                all_at_once([(change, 1.0), breath.towards(row, place)])
                for row, change in enumerate(own)
            ]
        if self.slower is None:
            return own
        more /= point.friction.mean_torque
        return self.slower.changed(own, point, work, more)
