"""How far each way to fail moves with each uncertain input: slopes, worked out once a bout."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial

from firstfire.cycle.fired import Fired, fired_cycle, unfired_cycle
from firstfire.engine.events import EVENTS
from firstfire.engine.grammar import split
from firstfire.engine.moment import Moment
from firstfire.engine.records import GasCycle, Loads, Temperatures
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.unknowns import Unknown
from firstfire.errors import OutsideValidity
from firstfire.heat.cylinder import network as heat_network
from firstfire.heat.history import cold
from firstfire.parts.all import ways
from firstfire.runs.bout import Bout, exhaust_changed, exhaust_over, warmed
from firstfire.runs.drawn import MIXTURE_AT_START, SPEED, SPEED_SPREAD
from firstfire.runs.first_fired import first_fired
from firstfire.runs.gas_change import BothWays, GasChange, gas_change
from firstfire.runs.hands import shared_out
from firstfire.runs.moments import judged_peak, loads_at, moment, temperatures
from firstfire.runs.moved import Trials, direction, one_up
from firstfire.runs.point import OperatingPoint
from firstfire.runs.readers import readers, watched
from firstfire.runs.traces import gas_cycles
from firstfire.runs.uneven import same_way, turned_round, uneven

__all__ = ["Changes", "Spread", "Trials", "one_up", "spread"]

Stop = Callable[[], bool]
Changes = Mapping[str, BothWays]
"""What each unknown that moves the gas does to each cylinder's cycle, by path."""

# What moves the gas; what moves the walls' temperature, besides conductivities that they ask for.
_GAS = (
    "doubt.wall_heat", "doubt.burn_duration", "doubt.burn_phase", "doubt.flow",
    "doubt.combustion_loss",
    "intake.equivalence_ratio", "surroundings.air_temperature", "surroundings.air_pressure",
    "leak.ring",
)  # fmt: skip
# What does another thing to the gas at another speed; the rest is taken over from a like bout.
_BY_SPEED = ("doubt.wall_heat", "doubt.burn_duration", "intake.equivalence_ratio")
FLOW = "doubt.flow"
"""Of an idle, more or less of it stands for more or less throttle."""
_BY_LOAD = (*_BY_SPEED, "doubt.burn_phase", "leak.ring", FLOW)
# What does another thing at another load: an idle's peak is more compression than fire.
_OF_FIRE = ("doubt.burn_duration", "doubt.burn_phase", "doubt.combustion_loss")
_HEAT = (
    "doubt.wall_heat", "doubt.outside_cooling", "doubt.port_film", "doubt.contact",
    "surroundings.air_temperature",
)  # fmt: skip
# What rubs warms too slowly to tell in the first second, at which slopes are taken.
_SLOW = "doubt.friction."
_BEYOND = 1.25
"""Three steps of a march of walls, each a twelfth of the time gone."""


@dataclass(frozen=True)
class Spread:
    """Slopes of the logarithm of each factor, per standard deviation of each unknown.

    Attributes
    ----------
    names
        Paths of the unknowns, and ``speed before top`` at a first combustion.
    slopes
        By way's id: one number an unknown.
    strength
        Places in `names` that are strengths.
    """

    names: tuple[str, ...]
    slopes: Mapping[str, tuple[float, ...]]
    strength: tuple[int, ...]

    def deviation(self, way: str) -> float:
        """Standard deviation of the logarithm of a way's factor."""
        return self._deviations.get(way, 0.0)

    def strength_deviation(self, way: str) -> float:
        """The part of it that comes from strengths."""
        return self._strengths.get(way, 0.0)

    @cached_property
    def _deviations(self) -> dict[str, float]:
        return {way: math.sqrt(sum(s * s for s in found)) for way, found in self.slopes.items()}

    @cached_property
    def _strengths(self) -> dict[str, float]:
        return {
            way: math.sqrt(sum(found[at] ** 2 for at in self.strength))
            for way, found in self.slopes.items()
        }

    @cached_property
    def telling(self) -> dict[str, tuple[tuple[str, float], ...]]:
        """By way's id, what moves it by more than a hundredth: name and slope, largest first."""
        return {way: _telling(self.names, found) for way, found in self.slopes.items()}


_TELLING = 0.01


def _telling(names: Sequence[str], slopes: Sequence[float]) -> tuple[tuple[str, float], ...]:
    found = [(n, s) for n, s in zip(names, slopes, strict=False) if abs(s) > _TELLING]
    return tuple(sorted(found, key=lambda pair: -abs(pair[1])))


def spread(
    trials: Trials,
    bout: Bout,
    at_seconds: float,
    *,
    like: Changes | None = None,
    stop: Stop | None = None,
) -> tuple[Spread, dict[str, BothWays]]:
    """Slopes of every way of a bout, and the gas's part of them.

    Parameters
    ----------
    trials
        The engine and its unknowns.
    bout
        At the centre.
    at_seconds
        When the slopes are taken.
    like
        How the gas of a like bout changes by unknown, to be used instead of running it anew.
    stop
        Asked at least every 0.1 s.

    Returns
    -------
    spread, changes
        The changes of the gas by unknown can serve a like bout.
    """
    unknowns = [u for u in trials.for_bout(bout) if not u.path.startswith(_SLOW)]
    moved = {u.path: trials.moved(u, half=_half(bout, u)) for u in unknowns}
    back = {
        u.path: partial(trials.moved, u, half=_half(bout, u), back=True)
        for u in unknowns
        if split(u.path)[1] in _GAS
    }
    like = _like(like or {}, bout)
    changes = _gas_changes(trials, bout, moved, back, like, stop)
    # whatever flows, its throttle lets in what turns it
    if EVENTS[bout.point.event].how == "throttled":
        unknowns = [u for u in unknowns if u.path != FLOW]
    centre = _Centre(bout, trials.centre, at_seconds)
    slopes: dict[str, list[float]] = {way: [] for way in centre.factors}

    def work(number: int) -> dict[str, float]:
        path = unknowns[number].path
        change = changes.get(path)
        return centre.moved(unknowns[number], moved[path], change.forth if change else None, None)

    for unknown, found in zip(unknowns, shared_out(work, len(unknowns), stop=stop), strict=True):
        _note(slopes, centre.factors, found, direction(unknown.path))
    names = [u.path for u in unknowns]
    if SPEED in changes:
        names.append(SPEED)
        _note(slopes, centre.factors, centre.changed(trials.centre, changes[SPEED].forth))
    strength = tuple(at for at, name in enumerate(names) if _is_strength(name))
    return Spread(tuple(names), {w: tuple(s) for w, s in slopes.items()}, strength), changes


def _is_strength(path: str) -> bool:
    return "strength" in path or "toughness" in path


def _half(bout: Bout, unknown: Unknown) -> float | None:
    """The half width of the mixture at a first combustion; else the unknown's own."""
    first = _once(bout) and unknown.path == "intake.equivalence_ratio"
    return MIXTURE_AT_START if first else None


def _note(
    slopes: Mapping[str, list[float]],
    centre: Mapping[str, float],
    moved: Mapping[str, float],
    sign: int = 1,
) -> None:
    """Put down each slope; 0 for what isn't judged anew or isn't a sound number."""
    for way, found in slopes.items():
        before, after = centre[way], moved.get(way, math.nan)
        usable = before > 0 and after > 0 and math.isfinite(before) and math.isfinite(after)
        found.append(sign * math.log(after / before) if usable else 0.0)


def same_mechanism(path: str) -> bool:
    """Whether an unknown leaves the mechanism's sizes and masses as they are."""
    path = split(path)[1]
    if path.endswith((".interference", "_interference")) or path in _SET:
        return True
    return path.startswith(("materials.", "doubt.")) and not path.endswith(".density")


_SET = ("head.fasteners.torque", "gasket.cure_temperature")
"""Set by hand, and no part moves otherwise for it."""


class _Centre:
    """A bout at its centre and one second, from which one unknown at a time is moved."""

    def __init__(self, bout: Bout, plain: PlainEngine, seconds: float) -> None:
        self.bout, self.plain, self.seconds = bout, plain, seconds
        self.rows = range(len(plain.cylinders))
        self.peaks = [judged_peak(bout, row, seconds) for row in self.rows]
        self.felt = loads_at(bout, plain, self.peaks)
        self.warmth = [temperatures(bout, row, seconds) for row in self.rows]
        self.warm = bout.point.spark is not None and bout.horizon > 0
        moments = self._moments(bout, plain, self.peaks, self.felt, self.warmth)
        self.factors = _factors(moments)
        self.readers = [readers(at) for at in moments]

    def moved(
        self,
        unknown: Unknown,
        plain: PlainEngine,
        change: Sequence[GasChange] | None,
        stop: Stop | None,
    ) -> dict[str, float]:
        """Factors with one unknown moved: of those ways that it can move, at the least."""
        path = unknown.path
        warmed_anew = split(path)[1] in _HEAT or path in self._asked_by_walls
        same = same_mechanism(path)
        if change is None and path.startswith("materials.") and same and not warmed_anew:
            return self._of_readers(path, plain)
        if change is None and not same:
            change = ()
        if warmed_anew or (change and self.warm):
            return self.changed(plain, change, self._warmed(plain, unknown, change, stop))
        return self.changed(plain, change)

    def changed(
        self,
        plain: PlainEngine,
        change: Sequence[GasChange] | None,
        warmth: Sequence[Temperatures] | None = None,
    ) -> dict[str, float]:
        """Factors with each cylinder's gas changed; None: neither gas nor mechanism changes."""
        peaks, felt, bout = self.peaks, self.felt, self.bout
        if change:
            peaks = [p * c.peak for p, c in zip(peaks, change, strict=True)]
            point = replace(bout.point, speed=bout.point.speed * change[0].speed)
            bout = replace(bout, point=point, gases=self._gases(change))
        if change is not None:
            felt = loads_at(bout, plain, peaks)
        warm = self.warmth if warmth is None else warmth
        return _factors(self._moments(bout, plain, peaks, felt, warm))

    def _moments(
        self,
        bout: Bout,
        plain: PlainEngine,
        peaks: Sequence[float],
        felt: Loads,
        warmth: Sequence[Temperatures],
    ) -> list[Moment]:
        return [
            moment(bout, plain, row, self.seconds, peaks, felt, warmth[row]) for row in self.rows
        ]

    def _of_readers(self, path: str, plain: PlainEngine) -> dict[str, float]:
        """Factors of those ways alone that ask for a material's number."""
        found: dict[str, float] = {}
        moments = self._moments(self.bout, plain, self.peaks, self.felt, self.warmth)
        for asking, here in zip(self.readers, moments, strict=True):
            judged = [judge(here) for judge in asking.get(path, ()) if judge.applies(here)]
            found |= {way.id: way.factor for way in judged if way.judged}
        return found

    def _gases(self, change: Sequence[GasChange] | None) -> tuple[GasCycle, ...]:
        gases = self.bout.gases
        return tuple(c.changed(g) for c, g in zip(change, gases, strict=True)) if change else gases

    @cached_property
    def _asked_by_walls(self) -> frozenset[str]:
        """Paths of the materials' numbers that warming the walls asks for."""
        if not self.warm:
            return frozenset()
        asked = set[str]()
        plain = watched(self.plain, asked)
        warmed(plain, self.bout.point, self.bout.gases, self._horizon)
        return frozenset(asked)

    @property
    def _horizon(self) -> float:
        """Walls need be followed no longer than to the second judged and a step or two beyond.

        Beyond, so that the second lies between the same two moments as it does at the centre.
        """
        return min(self.bout.horizon, _BEYOND * self.seconds)

    def _warmed(
        self,
        plain: PlainEngine,
        unknown: Unknown,
        change: Sequence[GasChange] | None,
        stop: Stop | None,
    ) -> list[Temperatures]:
        """Temperatures with the walls warmed anew, or at the air's other temperature.

        The doubt about wall heat stands in the coefficients of a changed gas.
        """
        if self.warm:
            lone = unknown.path == "doubt.wall_heat" and not change
            heat = one_up(unknown)[0] if lone else 1.0
            histories = warmed(
                plain,
                self.bout.point,
                self._gases(change),
                self._horizon,
                heat=heat,
                exhausts=exhaust_changed(plain, self.bout.point, change or ()),
                stop=stop,
            )
        else:
            air = plain.surroundings.air_temperature
            histories = tuple(cold(heat_network(plain, row), air) for row in self.rows)
        again = replace(self.bout, histories=histories)
        return [temperatures(again, row, self.seconds) for row in self.rows]


def _factors(moments: Sequence[Moment]) -> dict[str, float]:
    """Factor of every judged way of every cylinder, by id."""
    return {way.id: way.factor for at in moments for way in ways(at) if way.judged}


def _once(bout: Bout) -> bool:
    return EVENTS[bout.point.event].once


def _like(like: Changes, bout: Bout) -> Changes:
    """What can be taken over of another throttle or speed: not all."""
    own = _BY_LOAD if EVENTS[bout.point.event].how == "throttled" else _BY_SPEED
    return {path: change for path, change in like.items() if split(path)[1] not in own}


def _gas_changes(
    trials: Trials,
    bout: Bout,
    moved: Mapping[str, PlainEngine],
    back: Mapping[str, Callable[[], PlainEngine]],
    like: Changes,
    stop: Stop | None,
) -> dict[str, BothWays]:
    """How the gas changes by unknown; what isn't known of a like bout is run, side by side."""
    moving = {path: plain for path, plain in moved.items() if split(path)[1] in _GAS}
    if bout.point.spark is None:
        moving = {path: plain for path, plain in moving.items() if path not in _OF_FIRE}
    speed = bout.point.speed
    works = {
        (path, side): partial(_gas_change, bout, speed, plain if side > 0 else back[path]())
        for path, plain in moving.items()
        if path not in like
        for side in (1, -1)
    }
    if _once(bout):
        for side in (1, -1):
            quicker = speed * SPEED_SPREAD**side
            works[SPEED, side] = partial(_gas_change, bout, quicker, trials.centre)
    asked = list(works.values())
    answers = shared_out(lambda number: asked[number](stop), len(asked), stop=stop)
    run = dict(zip(works, answers, strict=True))
    found = {path: like[path] for path in moving if path in like}
    for path, side in works:
        forth = run[path, 1]
        if side > 0 and forth is not None:
            found[path] = BothWays(forth, run[path, -1])
    return found


def _gas_change(
    bout: Bout, speed: float, plain: PlainEngine, stop: Stop | None
) -> tuple[GasChange, ...] | None:
    """What one input moved does to each cylinder's cycle; None where it can't be run."""
    point, old = bout.point, bout.point.fired
    try:
        if _once(bout):
            lit = first_fired(plain, point.name, quicker=speed / point.speed, stop=stop)
            moved, gases = lit.point, lit.gases
        else:
            moved = replace(point, fired=_held_anew(point, speed, plain, stop))
            gases = gas_cycles(moved, plain)
    except OutsideValidity:
        return None
    figures = moved.fired.cycle.cylinders
    exhausts = [exhaust_over(bout, moved, plain, row) for row in range(len(gases))]
    if uneven(plain, figures) and not same_way(old.cycle.cylinders, figures):
        gases, figures = turned_round(gases), turned_round(figures)
        exhausts = [exhaust_over(bout, moved, plain, row, of=1 - row) for row in range(len(gases))]
    return tuple(
        replace(
            gas_change(before, after, b.peak_pressure / a.peak_pressure, exhaust),
            shut=b.inlet_shut - a.inlet_shut,
            spat=b.spat_back - a.spat_back,
        )
        for before, after, a, b, exhaust in zip(
            bout.gases, gases, old.cycle.cylinders, figures, exhausts, strict=True
        )
    )


def _held_anew(point: OperatingPoint, speed: float, plain: PlainEngine, stop: Stop | None) -> Fired:
    """The cycle of another engine at a point's speed and spark, started from the point's own."""
    state = point.fired.cycle.state
    if point.spark is None:
        return unfired_cycle(plain, speed, point.walls, start=state, stop=stop)
    return fired_cycle(
        plain, speed, point.spark, point.walls, start=state, guess=point.fired.burns, stop=stop
    )
