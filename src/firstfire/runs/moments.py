"""From a bout to the moment a part is judged in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import pi
from statistics import NormalDist
from weakref import ref

import numpy as np

from firstfire.engine.climb import Climb
from firstfire.engine.events import EVENTS
from firstfire.engine.moment import Breath, Moment
from firstfire.engine.records import GasCycle, Loads, Peaks, Temperatures
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.normal import NINETY, RARE
from firstfire.heat.answers import temperatures_at
from firstfire.loads import loads
from firstfire.loads.joint_vectors import JointVectors, joint_vectors
from firstfire.runs.bout import Bout

_MOST = 4.0


def cycles_by(bout: Bout, seconds: float) -> float:
    """Cycles of one cylinder so far, 1 at least."""
    return max(seconds * bout.point.speed / (4 * pi), 1.0)


def judged_peak(bout: Bout, cylinder: int, seconds: float) -> float:
    """Peak pressure of the cycle that is judged, Pa.

    Cranking by its mean cycle, a first combustion by its 1-in-20 strong one, a run by the
    strongest expected of all cycles so far.
    """
    peaks = bout.point.peaks[cylinder]
    asked = EVENTS[bout.point.event].peak
    if asked == "mean":
        return peaks.mean
    if asked == "strong":
        return peaks.strong
    return strongest_of(peaks, cycles_by(bout, seconds))


def strongest_of(peaks: Peaks, cycles: float) -> float:
    """Peak expected to be the largest of so many cycles, Pa.

    By the parabola through mean, 1-in-20 and 1-in-1000 over the standard normal, at the level
    that one in so many passes; never beyond four deviations.
    """
    level = NormalDist().inv_cdf(1 - 1 / (cycles + 1)) if cycles > 1 else 0.0
    level = min(max(level, 0.0), _MOST)
    slope = (peaks.strong - peaks.mean) / NINETY
    bend = ((peaks.rare - peaks.mean) / RARE - slope) / (RARE - NINETY)
    grown = peaks.mean + slope * level + bend * level * (level - NINETY)
    return max(grown, peaks.mean)


def stronger(gas: GasCycle, peak: float) -> GasCycle:
    """The cycle with its pressure about firing top centre scaled so that it peaks at `peak`."""
    over = gas.pressure - gas.crankcase_pressure
    now = float(over.max())
    if now <= 0:
        return gas
    share = (peak - gas.mean_crankcase_pressure) / now
    near = np.clip(1.5 - np.abs(gas.angle) / (pi / 2), 0.0, 1.0)
    scaled = gas.crankcase_pressure + over * (1 + (share - 1) * near)
    return replace(gas, pressure=scaled)


def loads_at(bout: Bout, plain: PlainEngine, peaks: Sequence[float]) -> Loads:
    """What the mechanism feels when each cylinder has the cycle that peaks so.

    The bout keeps the last few answers: the rare cycle is the same at every second, and the first
    second is judged several times over. Safe from many threads: what is kept is never changed,
    only put behind the others.
    """
    asked = tuple(peaks)
    for known_plain, known_peaks, known in tuple(bout.felt):
        if known_peaks == asked and known_plain() is plain:
            return known
    scaled = [stronger(gas, peak) for gas, peak in zip(bout.gases, peaks, strict=True)]
    found = loads(plain, scaled)
    bout.felt.append((ref(plain), asked, found))
    return found


def joints_at(bout: Bout, plain: PlainEngine) -> JointVectors:
    """Forces at the mechanism's joints, with their directions, in the mean cycle of a bout."""
    each = zip(bout.gases, bout.point.peaks, strict=True)
    return joint_vectors(plain, [stronger(gas, peaks.mean) for gas, peaks in each])


def temperatures(bout: Bout, cylinder: int, seconds: float) -> Temperatures:
    """Of one cylinder's parts so many seconds into a bout; beyond its history, at its end."""
    history = bout.histories[cylinder]
    at = min(seconds, float(history.seconds[-1]))
    return replace(temperatures_at(history, at), seconds=seconds)


def moment(
    bout: Bout,
    plain: PlainEngine,
    cylinder: int,
    seconds: float,
    peaks: Sequence[float],
    felt: Loads,
    warmth: Temperatures | None = None,
) -> Moment:
    """One cylinder at one moment of a bout, under given peaks.

    Parameters
    ----------
    bout
        Its event and histories.
    plain
        Plain numbers, which may differ a little from those the bout was run with.
    cylinder
        From 0.
    seconds
        Into the bout, within its horizon.
    peaks, felt
        Peak pressure of each cylinder judged, Pa, and the loads under them.
    warmth
        What `temperatures` gives, where it is known already.
    """
    traced = bout.point.fired.cycle.cylinders[cylinder]
    return Moment(
        engine=plain,
        event=bout.point.event,
        seconds=seconds,
        cycles=cycles_by(bout, seconds),
        cylinder=cylinder,
        peak_pressure=peaks[cylinder],
        crankcase_pressure=bout.gases[cylinder].mean_crankcase_pressure,
        speed=bout.point.speed,
        loads=felt,
        temperatures=temperatures(bout, cylinder, seconds) if warmth is None else warmth,
        breath=Breath(traced.inlet_shut, traced.spat_back),
        climb=_climb(bout, cylinder, peaks[cylinder]),
    )


def _climb(bout: Bout, cylinder: int, peak: float) -> Climb | None:
    """What the shaft of a first combustion meets: that of its strong one, or of a rarer one."""
    if not bout.climbs:
        return None
    rarer = bout.rare_climbs and peak > bout.point.peaks[cylinder].strong
    return (bout.rare_climbs if rarer else bout.climbs)[cylinder]
