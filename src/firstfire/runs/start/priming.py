"""How many pulses of fuel a start wants beforehand, and when it is over-primed."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from firstfire.cycle.records import ShaftSpec
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.life import Life

PULSES = (0, 1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 48, 64)
"""That are tried."""
_SPARKS = 6
"""After so many that light nothing it is said not to start so."""
_LONGEST = 3.0


@dataclass(frozen=True)
class Priming:
    """Pulses of fuel in each port before the first turn, of :func:`fuelling.pulse` each.

    Attributes
    ----------
    wanted
        The fewest with which the fewest sparks are lost before the first combustion; None: with
        none of those tried it burns at all.
    too_many
        The fewest beyond with which more are lost, too rich or wet; None: none of those tried.
    lost
        Sparks lost with the pulses wanted, and without any.
    """

    wanted: int | None
    too_many: int | None
    lost: tuple[int, int]


def priming(
    plain: PlainEngine, asked: Asked, shaft: ShaftSpec, stop: Callable[[], bool] | None = None
) -> Priming | None:
    """Try a start with more and more fuel put in beforehand; None: its fuel is a gas.

    Parameters
    ----------
    plain, asked, shaft
        As `Life` has them.
    stop
        Asked at least every 0.1 s.
    """
    if plain.fuel.gas or asked.mixture == 0.0:
        return None
    each: list[int] = []
    for count in PULSES:
        each.append(sparks_lost(plain, replace(asked, prime=count), shaft, stop))
        if 0 in each and each[-1] > 0:
            break  # none loses fewer than none, and these are too many
    fewest = min(each)
    if fewest >= _SPARKS:
        return Priming(None, None, (fewest, each[0]))
    place = each.index(fewest)
    worse = (count for count, lost in zip(PULSES, each, strict=False) if lost > fewest)
    over = next((count for count in worse if count > PULSES[place]), None)
    return Priming(PULSES[place], over, (fewest, each[0]))


def sparks_lost(
    plain: PlainEngine, asked: Asked, shaft: ShaftSpec, stop: Callable[[], bool] | None = None
) -> int:
    """Sparks in a cylinder that has drawn, which light nothing before the first that does.

    Parameters
    ----------
    plain, asked, shaft, stop
        As `priming` has them.
    """
    life = Life(plain, replace(asked, seed=None, in_time=True, let_go_at=None), shaft)
    while not life.lights and life.now < _LONGEST:
        life.step()
        life.checked(stop)
        if len(_missed(life)) >= _SPARKS or (life.fed and life.fed[-1].stopped):
            return _SPARKS
    return len(_missed(life)) if life.lights else _SPARKS


def _missed(life: Life) -> list[float]:
    first = dict.fromkeys(range(len(life.plain.cylinders)), math.inf)
    for fed in life.fed:
        first[fed.cylinder] = min(first[fed.cylinder], fed.seconds)
    return [
        spark.seconds
        for spark in life.sparks
        if spark.missed is not None and spark.seconds > first[spark.cylinder]
    ]
