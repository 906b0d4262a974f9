"""How far a kick-back's margin moves with each uncertain input: each is followed up anew."""

from __future__ import annotations

import math
from collections.abc import Callable

from firstfire.engine.grammar import split
from firstfire.engine.unknowns import Unknown
from firstfire.parts.all import ways
from firstfire.runs.bout import Bout
from firstfire.runs.drawn import MIXTURE_AT_START, SPEED, SPEED_SPREAD
from firstfire.runs.followed_up import followed_up
from firstfire.runs.hands import shared_out
from firstfire.runs.moments import judged_peak, loads_at, moment
from firstfire.runs.moved import Trials, direction
from firstfire.runs.spread import Spread

Stop = Callable[[], bool]

_MIXTURE = "intake.equivalence_ratio"
_MOVING = (
    "doubt.wall_heat", "doubt.burn_duration", "doubt.burn_phase", "doubt.flow",
    "doubt.combustion_loss", "doubt.friction.ring", "doubt.friction.skirt",
    "doubt.friction.bearings", "surroundings.air_temperature", "surroundings.air_pressure",
    "leak.ring", "cylinder.bore", "rings.section", "rings.groove_depth", _MIXTURE,
)  # fmt: skip
"""What moves gas, friction or the shaft's speed before top; of all else nothing is felt here, and
what is still drawn of it scatters about the slopes."""


def climb_spread(trials: Trials, bout: Bout, stop: Stop | None = None) -> Spread:
    """Slopes of the logarithm of each factor, per standard deviation of each unknown.

    Parameters
    ----------
    trials
        The engine and its unknowns.
    bout
        At the centre, followed up.
    stop
        Asked at least every 0.1 s.
    """
    moving = [u for u in trials.for_bout(bout) if split(u.path)[1] in _MOVING]
    here = _factors(trials, bout)

    def work(number: int) -> dict[str, float]:
        if number == len(moving):
            quicker = followed_up(trials.centre, bout, quicker=SPEED_SPREAD, rare=False, stop=stop)
            return _factors(trials, quicker)
        plain = trials.moved(moving[number], half=_half(moving[number]))
        return _factors(trials, followed_up(plain, bout, rare=False, stop=stop))

    moved = shared_out(work, len(moving) + 1, stop=stop)
    signs = [*(direction(u.path) for u in moving), 1]
    slopes = {
        way: tuple(
            sign * _log(before, one.get(way)) for sign, one in zip(signs, moved, strict=True)
        )
        for way, before in here.items()
    }
    return Spread((*(u.path for u in moving), SPEED), slopes, ())


def _half(unknown: Unknown) -> float | None:
    """The half width of the mixture at a first combustion; else the unknown's own."""
    return MIXTURE_AT_START if unknown.path == _MIXTURE else None


def _log(before: float, after: float | None) -> float:
    """Logarithm of one factor over another; 0 where either has none."""
    sound = after is not None and 0.0 < before < math.inf and 0.0 < after < math.inf
    return math.log(after / before) if sound and after is not None else 0.0


def _factors(trials: Trials, bout: Bout) -> dict[str, float]:
    """Factor of every judged way of every cylinder, by id."""
    rows = range(len(bout.gases))
    peaks = [judged_peak(bout, row, 0.0) for row in rows]
    felt = loads_at(bout, trials.centre, peaks)
    here = [moment(bout, trials.centre, row, 0.0, peaks, felt) for row in rows]
    return {way.id: way.factor for at in here for way in ways(at) if way.judged}
