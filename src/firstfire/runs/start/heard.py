"""How a start sounds: what its exhausts push out in time, as one point of source."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.formulas.exhaust_sound import displaced_flow, exhaust_sound
from firstfire.formulas.sound_level import Sound
from firstfire.runs.heard import TAIL
from firstfire.runs.start.seen import Seen

Floats = NDArray[np.float64]

_SHORTEST = 20e-6
"""Steps are put together until they are as long, s: a flow over a shorter one would be rounding."""


@dataclass(frozen=True)
class Puffs:
    """What all exhausts of a start push out.

    Attributes
    ----------
    time
        Middles of the steps, s since the starter, rising.
    flow
        Outside air that is pushed away, kg/s.
    """

    time: Floats
    flow: Floats


def puffs(seen: Seen) -> Puffs:
    """The flow out of all exhausts, from what has passed by each step: no gas is lost in it.

    Parameters
    ----------
    seen
        A start with every step's whole state.
    """
    kept = _apart(seen.time, _SHORTEST)
    time, air = seen.time[kept], seen.life.spec.ambient_temperature
    pushed = np.zeros(len(kept) - 1)
    for passage in seen.life.spec.passages:
        if passage.name.startswith(TAIL):
            flow = np.diff(seen.passed(passage.name)[kept]) / np.diff(time)
            warm = seen.of(passage.start, slice(None), layout.TEMPERATURE)[kept]
            pushed += displaced_flow(flow, (warm[1:] + warm[:-1]) / 2, air)
    return Puffs((time[1:] + time[:-1]) / 2, pushed)


def _apart(time: Floats, least: float) -> NDArray[np.intp]:
    """Steps that are so far apart in time, the first among them."""
    kept, last = [0], float(time[0])
    for at, now in enumerate(time.tolist()):
        if now - last >= least:
            kept.append(at)
            last = now
    return np.array(kept)


def start_sound(given: Puffs, *, distance: float, rate: float, most: float) -> Sound:
    """What is heard of a start at a distance in the open.

    Parameters
    ----------
    given
        Of its exhausts.
    distance
        m; all open ends stand together as seen from there.
    rate
        Samples a second, 1/s.
    most
        Seconds of it that are told at most, from its beginning.

    Raises
    ------
    OutsideValidity
        For a distance or rate that can't be, or less than a sample.
    """
    told = given.time <= given.time[0] + most
    return exhaust_sound(given.time[told], given.flow[told], distance=distance, rate=rate)
