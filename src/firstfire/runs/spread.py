"""How far each way to fail moves with each uncertain input: slopes, worked out once a bout."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from firstfire.cycle.fired import fired_cycle, unfired_cycle
from firstfire.cycle.first_fire import first_combustion
from firstfire.engine.engine import Engine
from firstfire.engine.grammar import split
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.engine.unknowns import Unknown, unknowns
from firstfire.errors import OutsideValidity
from firstfire.parts.all import ways
from firstfire.runs.bout import Bout, warmed
from firstfire.runs.moments import judged_peak, loads_at, moment

_NINETY = 1.6449  # standard deviations that 5-95 % spans each way

# What moves the gas; what moves the walls' temperature. The rest acts on the parts alone.
_GAS = (
    "doubt.wall_heat", "doubt.burn_duration", "doubt.burn_phase", "doubt.flow",
    "intake.equivalence_ratio", "surroundings.air_temperature", "surroundings.air_pressure",
    "leak.ring",
)  # fmt: skip
_HEAT = ("doubt.wall_heat", "doubt.outside_cooling")
_NEITHER = ("doubt.friction.", "leak.")
_FIT_BEGINS = 800 * math.pi / 30
_FITTED = (0.7, 1.4)
"""Burn duration within the speeds its law was fitted on, 5-95 % of its doubt."""
_MIXTURE_AT_START = 0.35
"""Half width, 5-95 %, of the mixture at a first combustion: 0.7 to 1.4 about 1.05."""


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
        return math.sqrt(sum(s * s for s in self.slopes.get(way, ())))

    def strength_deviation(self, way: str) -> float:
        """The part of it that comes from strengths."""
        found = self.slopes.get(way, ())
        return math.sqrt(sum(found[at] ** 2 for at in self.strength if at < len(found)))


def one_up(unknown: Unknown) -> tuple[float, float]:
    """The unknown a standard deviation above its centre, and that deviation.

    Examples
    --------
    >>> up, size = one_up(Unknown("doubt.flow", "normal", 1.0, 0.9, 1.1, "", ""))
    >>> round(up, 3), round(size, 3)
    (1.061, 0.061)
    """
    if unknown.distribution in ("lognormal", "loguniform") and unknown.low > 0:
        size = math.log(unknown.high / unknown.low) / (2 * _NINETY)
        return unknown.centre * math.exp(size), size
    size = (unknown.high - unknown.low) / (2 * _NINETY)
    return unknown.centre + size, size


class Trials:
    """Plain engines with one unknown moved up by a standard deviation, each resolved once."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine
        self.centre = resolve(engine)
        self.unknowns = tuple(u for u in unknowns(engine) if _matters(u.path))
        self._plain: dict[str, PlainEngine] = {}

    def for_bout(self, bout: Bout) -> tuple[Unknown, ...]:
        """The unknowns with the burn's doubt as wide as its law is sure at the bout's speed."""
        if bout.point.speed < _FIT_BEGINS:
            return self.unknowns
        return tuple(
            replace(u, low=u.centre * _FITTED[0], high=u.centre * _FITTED[1], extrapolated=False)
            if u.path == "doubt.burn_duration"
            else u
            for u in self.unknowns
        )

    def moved(self, unknown: Unknown, *, half: float | None = None) -> PlainEngine:
        """The engine with `unknown` moved up; `half` overrides its 5-95 % half width."""
        key = f"{unknown.path} {half} {unknown.high}"
        if key not in self._plain:
            up = one_up(unknown)[0] if half is None else unknown.centre + half / _NINETY
            self._plain[key] = resolve(self.engine, {unknown.path: up})
        return self._plain[key]


def _matters(path: str) -> bool:
    _, plain = split(path)
    return plain == "leak.ring" or not plain.startswith(_NEITHER)


def _kind(path: str, kinds: Sequence[str]) -> bool:
    return split(path)[1] in kinds


def spread(
    trials: Trials,
    bout: Bout,
    at_seconds: float,
    *,
    like: Mapping[str, tuple[float, ...]] | None = None,
    stop: Callable[[], bool] | None = None,
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
    centre = _factors(bout, trials.centre, at_seconds, _peaks(bout, at_seconds))
    slopes: dict[str, list[float]] = {way: [] for way in centre}
    ratios: dict[str, tuple[float, ...]] = {}
    names = []
    for unknown in trials.for_bout(bout):
        half = _MIXTURE_AT_START if _is_start_mixture(bout, unknown) else None
        plain = trials.moved(unknown, half=half)
        if _kind(unknown.path, _GAS):
            known = like.get(unknown.path) if like else None
            ratios[unknown.path] = known or _peak_ratios(bout, plain, stop)
        moved = _factors(
            _rewarmed(bout, plain, unknown, stop),
            plain,
            at_seconds,
            _scaled(bout, at_seconds, ratios.get(unknown.path)),
        )
        names.append(unknown.path)
        _note(slopes, centre, moved)
    if bout.point.event == "first_fire":
        names.append("speed before top")
        slower = _scaled(bout, at_seconds, _at_other_speed(bout, trials.centre, stop))
        _note(slopes, centre, _factors(bout, trials.centre, at_seconds, slower))
    strength = tuple(at for at, name in enumerate(names) if "strength" in name)
    return Spread(tuple(names), {w: tuple(s) for w, s in slopes.items()}, strength), ratios


def _is_start_mixture(bout: Bout, unknown: Unknown) -> bool:
    return bout.point.event == "first_fire" and unknown.path == "intake.equivalence_ratio"


def _note(
    slopes: Mapping[str, list[float]], centre: Mapping[str, float], moved: Mapping[str, float]
) -> None:
    for way, found in slopes.items():
        before, after = centre[way], moved.get(way, math.nan)
        usable = before > 0 and after > 0 and math.isfinite(before) and math.isfinite(after)
        found.append(math.log(after / before) if usable else 0.0)


def _peaks(bout: Bout, seconds: float) -> list[float]:
    return [judged_peak(bout, row, seconds) for row in range(len(bout.gases))]


def _scaled(bout: Bout, seconds: float, ratios: Sequence[float] | None) -> list[float]:
    peaks = _peaks(bout, seconds)
    return peaks if ratios is None else [p * r for p, r in zip(peaks, ratios, strict=True)]


def _factors(
    bout: Bout, plain: PlainEngine, seconds: float, peaks: Sequence[float]
) -> dict[str, float]:
    """Factor of every judged way of every cylinder, by id."""
    felt = loads_at(bout, plain, peaks)
    return {
        way.id: way.factor
        for row in range(len(plain.cylinders))
        for way in ways(moment(bout, plain, row, seconds, peaks, felt))
        if way.judged
    }


def _peak_ratios(
    bout: Bout, plain: PlainEngine, stop: Callable[[], bool] | None
) -> tuple[float, ...]:
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


_SPEED_SPREAD = 1.4
"""Speed before top centre, a standard deviation up: a guess until the shaft is free."""


def _at_other_speed(
    bout: Bout, plain: PlainEngine, stop: Callable[[], bool] | None
) -> tuple[float, ...]:
    faster = replace(bout, point=replace(bout.point, speed=bout.point.speed * _SPEED_SPREAD))
    return _peak_ratios(faster, plain, stop)


def _rewarmed(
    bout: Bout, plain: PlainEngine, unknown: Unknown, stop: Callable[[], bool] | None
) -> Bout:
    """The bout with its walls warmed anew where the unknown moves heat."""
    warm = bout.point.spark is not None and bout.horizon > 0
    moves = _kind(unknown.path, _HEAT) or unknown.path.endswith(".conductivity")
    if not (warm and moves):
        return bout
    heat = one_up(unknown)[0] if unknown.path == "doubt.wall_heat" else 1.0
    histories = warmed(plain, bout.point, bout.gases, bout.horizon, heat=heat, stop=stop)
    return replace(bout, histories=histories)
