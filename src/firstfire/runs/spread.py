"""How far each way to fail moves with each uncertain input: slopes, worked out once a bout."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial

from firstfire.cycle.fired import fired_cycle, unfired_cycle
from firstfire.cycle.first_fire import first_combustion
from firstfire.engine.grammar import split
from firstfire.engine.moment import Moment
from firstfire.engine.records import Loads, Temperatures
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.unknowns import Unknown
from firstfire.errors import OutsideValidity
from firstfire.heat.cylinder import network as heat_network
from firstfire.heat.history import cold
from firstfire.parts.all import ways
from firstfire.parts.failure import Judgement
from firstfire.runs.bout import Bout, warmed
from firstfire.runs.moments import judged_peak, loads_at, moment, temperatures
from firstfire.runs.moved import Trials, one_up
from firstfire.runs.readers import readers, watched
from firstfire.runs.together import together

__all__ = ["Spread", "Trials", "one_up", "spread"]

Stop = Callable[[], bool]
Ratios = Mapping[str, tuple[float, ...]]

# What moves the gas; what moves the walls' temperature, besides conductivities that they ask for.
_GAS = (
    "doubt.wall_heat", "doubt.burn_duration", "doubt.burn_phase", "doubt.flow",
    "intake.equivalence_ratio", "surroundings.air_temperature", "surroundings.air_pressure",
    "leak.ring",
)  # fmt: skip
_OF_FIRE = ("doubt.burn_duration", "doubt.burn_phase")
_HEAT = ("doubt.wall_heat", "doubt.outside_cooling", "surroundings.air_temperature")
# What leaves the mechanism's sizes and masses as they are.
_SAME_MECHANISM = ("materials.", "doubt.")
_MIXTURE_AT_START = 0.35
"""Half width, 5-95 %, of the mixture at a first combustion: 0.7 to 1.4 about 1.05."""
_SPEED_SPREAD = 1.4
"""Speed before top centre, a standard deviation up: a guess until the shaft is free."""
_SPEED = "speed before top"
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
        found = self.slopes.get(way, ())
        return math.sqrt(sum(found[at] ** 2 for at in self.strength if at < len(found)))

    @cached_property
    def _deviations(self) -> dict[str, float]:
        return {way: math.sqrt(sum(s * s for s in found)) for way, found in self.slopes.items()}

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
    like: Ratios | None = None,
    stop: Stop | None = None,
) -> tuple[Spread, dict[str, tuple[float, ...]]]:
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
        Ratios of peaks by unknown from a like bout, to be used instead of running the gas anew.
    stop
        Asked between runs.

    Returns
    -------
    spread, ratios
        The ratios of peaks by unknown can serve a like bout.
    """
    unknowns = trials.for_bout(bout)
    moved = {u.path: trials.moved(u, half=_half(bout, u)) for u in unknowns}
    ratios = _gas_ratios(trials, bout, moved, like or {}, stop)
    centre = _Centre(bout, trials.centre, at_seconds)
    slopes: dict[str, list[float]] = {way: [] for way in centre.factors}
    for unknown in unknowns:
        ratio = ratios.get(unknown.path)
        _note(slopes, centre.factors, centre.moved(unknown, moved[unknown.path], ratio, stop))
    names = list(moved)
    if _SPEED in ratios:
        names.append(_SPEED)
        _note(slopes, centre.factors, centre.at_ratio(trials.centre, ratios[_SPEED]))
    strength = tuple(at for at, name in enumerate(names) if "strength" in name)
    return Spread(tuple(names), {w: tuple(s) for w, s in slopes.items()}, strength), ratios


def _half(bout: Bout, unknown: Unknown) -> float | None:
    """The half width of the mixture at a first combustion; else the unknown's own."""
    first = bout.point.event == "first_fire" and unknown.path == "intake.equivalence_ratio"
    return _MIXTURE_AT_START if first else None


def _note(
    slopes: Mapping[str, list[float]], centre: Mapping[str, float], moved: Mapping[str, float]
) -> None:
    """Put down each slope; 0 for what isn't judged anew or isn't a sound number."""
    for way, found in slopes.items():
        before, after = centre[way], moved.get(way, math.nan)
        usable = before > 0 and after > 0 and math.isfinite(before) and math.isfinite(after)
        found.append(math.log(after / before) if usable else 0.0)


class _Centre:
    """A bout at its centre and one second, from which one unknown at a time is moved."""

    def __init__(self, bout: Bout, plain: PlainEngine, seconds: float) -> None:
        self.bout, self.plain, self.seconds = bout, plain, seconds
        self.rows = range(len(plain.cylinders))
        self.peaks = [judged_peak(bout, row, seconds) for row in self.rows]
        self.felt = loads_at(bout, plain, self.peaks)
        self.warmth = [temperatures(bout, row, seconds) for row in self.rows]
        self.factors = self._factors(plain, self.peaks, self.felt, self.warmth)
        self.readers = [readers(self._moment(row)) for row in self.rows]
        self.warm = bout.point.spark is not None and bout.horizon > 0

    def moved(
        self,
        unknown: Unknown,
        plain: PlainEngine,
        ratio: Sequence[float] | None,
        stop: Stop | None,
    ) -> dict[str, float]:
        """Factors with one unknown moved: of those ways that it can move, at the least."""
        path = unknown.path
        warmed_anew = split(path)[1] in _HEAT or path in self._asked_by_walls
        if path.startswith("materials.") and not warmed_anew:
            return self._of_readers(path, plain)
        warmth = self._warmed(plain, unknown, stop) if warmed_anew else self.warmth
        if ratio is None and path.startswith(_SAME_MECHANISM):
            return self._factors(plain, self.peaks, self.felt, warmth)
        return self.at_ratio(plain, ratio, warmth)

    def at_ratio(
        self,
        plain: PlainEngine,
        ratio: Sequence[float] | None,
        warmth: Sequence[Temperatures] | None = None,
    ) -> dict[str, float]:
        """Factors with each cylinder's peak multiplied."""
        shares = ratio or (1.0,) * len(self.peaks)
        peaks = [p * r for p, r in zip(self.peaks, shares, strict=True)]
        felt = loads_at(self.bout, plain, peaks)
        return self._factors(plain, peaks, felt, self.warmth if warmth is None else warmth)

    def _factors(
        self,
        plain: PlainEngine,
        peaks: Sequence[float],
        felt: Loads,
        warmth: Sequence[Temperatures],
    ) -> dict[str, float]:
        """Factor of every judged way of every cylinder, by id."""
        return {
            way.id: way.factor
            for row in self.rows
            for way in ways(moment(self.bout, plain, row, self.seconds, peaks, felt, warmth[row]))
            if way.judged
        }

    def _of_readers(self, path: str, plain: PlainEngine) -> dict[str, float]:
        """Factors of those ways alone that ask for a material's number."""
        found: dict[str, float] = {}
        for row in self.rows:
            asking: Iterable[Judgement] = self.readers[row].get(path, ())
            here = replace(self._moment(row), engine=plain)
            judged = [judge(here) for judge in asking if judge.applies(here)]
            found |= {way.id: way.factor for way in judged if way.judged}
        return found

    def _moment(self, row: int) -> Moment:
        return moment(
            self.bout, self.plain, row, self.seconds, self.peaks, self.felt, self.warmth[row]
        )

    @cached_property
    def _asked_by_walls(self) -> frozenset[str]:
        """Paths of the materials' numbers that warming the walls asks for."""
        if not self.warm:
            return frozenset()
        plain, asked = watched(self.plain)
        warmed(plain, self.bout.point, self.bout.gases, self._horizon)
        return frozenset(asked)

    @property
    def _horizon(self) -> float:
        """Walls need be followed no longer than to the second judged and a step or two beyond.

        Beyond, so that the second lies between the same two moments as it does at the centre.
        """
        lead = self.bout.lead
        return min(self.bout.horizon, _BEYOND * (lead + self.seconds) - lead)

    def _warmed(
        self, plain: PlainEngine, unknown: Unknown, stop: Stop | None
    ) -> list[Temperatures]:
        """Temperatures with the walls warmed anew, or at the air's other temperature."""
        if self.warm:
            heat = one_up(unknown)[0] if unknown.path == "doubt.wall_heat" else 1.0
            histories = warmed(
                plain, self.bout.point, self.bout.gases, self._horizon, heat=heat, stop=stop
            )
        else:
            air = plain.surroundings.air_temperature
            histories = tuple(cold(heat_network(plain, row), air) for row in self.rows)
        again = replace(self.bout, histories=histories)
        return [temperatures(again, row, self.seconds) for row in self.rows]


def _gas_ratios(
    trials: Trials,
    bout: Bout,
    moved: Mapping[str, PlainEngine],
    like: Ratios,
    stop: Stop | None,
) -> dict[str, tuple[float, ...]]:
    """Ratios of peaks by unknown, those that aren't known run side by side."""
    moving = {path: plain for path, plain in moved.items() if split(path)[1] in _GAS}
    if bout.point.spark is None:
        moving = {path: plain for path, plain in moving.items() if path not in _OF_FIRE}
    works = {p: partial(_peak_ratios, bout, plain) for p, plain in moving.items() if p not in like}
    if bout.point.event == "first_fire":
        faster = replace(bout, point=replace(bout.point, speed=bout.point.speed * _SPEED_SPREAD))
        works[_SPEED] = partial(_peak_ratios, faster, trials.centre)
    run = dict(zip(works, together(list(works.values()), stop), strict=True))
    return {path: run[path] if path in run else like[path] for path in (*moving, *run)}


def _peak_ratios(bout: Bout, plain: PlainEngine, stop: Stop | None) -> tuple[float, ...]:
    """Mean peak of each cylinder with one input moved, over that of the bout."""
    point, old = bout.point, bout.point.fired.cycle
    try:
        if point.event == "first_fire" and point.spark is not None:
            first = first_combustion(plain, point.speed, point.spark, point.walls, stop=stop)
            new = first.fired.cycle
        elif point.spark is None:
            new = unfired_cycle(plain, point.speed, point.walls, start=old.state, stop=stop).cycle
        else:
            new = fired_cycle(
                plain, point.speed, point.spark, point.walls,
                start=old.state, guess=point.fired.burns, stop=stop,
            ).cycle  # fmt: skip
    except OutsideValidity:
        return (1.0,) * len(old.cylinders)
    return tuple(
        b.peak_pressure / a.peak_pressure for a, b in zip(old.cylinders, new.cylinders, strict=True)
    )
