"""The sparks that a controller or breaker points make along the record of a turning shaft."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from firstfire.formulas.firing import CYCLE
from firstfire.formulas.hermite import Floats, interpolated
from firstfire.formulas.sensor_edges import SURE, Sensor, Wheel, edge_times
from firstfire.formulas.spark_clock import Coil, Due, SparkClock, Timing
from firstfire.formulas.validity import require_ordered


class Sparks(NamedTuple):
    """Sparks in the order in which they were set off.

    Attributes
    ----------
    time, angle
        At the spark, s and crank angle, rad, (sparks,).
    advance
        Where it came before the nearest top centre that its wheel is set to, rad, (sparks,).
    asked
        What was meant, rad, (sparks,).
    energy
        In the coil, J, (sparks,).
    firing
        Whether that top centre is a firing one and not that of the exhaust, (sparks,).
    """

    time: Floats
    angle: Floats
    advance: Floats
    asked: Floats
    energy: Floats
    firing: NDArray[np.bool_]


def wheel_of(timing: Timing, top: float = 0.0) -> Wheel:
    """The wheel of one tooth that a timing goes by.

    Parameters
    ----------
    timing
        What fires, and by what.
    top
        Crank angle of the cylinder's firing top centre, rad.

    Raises
    ------
    OutsideValidity
        If its tooth does not begin before it ends.
    """
    require_ordered(trailing_side=timing.trailing, leading_side=timing.leading)
    return Wheel(
        teeth=1,
        first=top - timing.leading,
        width=(timing.leading - timing.trailing) / timing.turn,
        turns_per_cycle=round(CYCLE / timing.turn),
    )


def sparks_along(
    time: Floats,
    angle: Floats,
    speed: Floats,
    timing: Timing,
    coil: Coil,
    *,
    top: float = 0.0,
    supplied: NDArray[np.bool_] | None = None,
    sensor: Sensor = SURE,
    seed: int = 0,
) -> Sparks:
    """Sparks of one cylinder while its shaft turns, switched on as the record begins.

    Parameters
    ----------
    time, angle, speed
        As :func:`firstfire.formulas.sensor_edges.edge_times` takes them.
    timing, coil
        What fires, by what, and how strongly.
    top
        Crank angle of the cylinder's firing top centre, rad.
    supplied
        Whether there is voltage enough from each step to the next, (steps,); None for always.
        What is lost begins anew, and a spark that was due then does not come.
    sensor, seed
        What the sensor adds to the latency of `timing`, and the seed of its chance.

    Raises
    ------
    OutsideValidity
        As `edge_times` and the laws of the clock.

    Examples
    --------
    A steady 100 rad/s, the edge at 20°, latency 0.1 ms: 0.01 rad late.

    >>> t = np.array([0.0, 0.2])
    >>> by_edge = Timing("edge", 0.35, 0.05, 0.05, ((0.0, 0.35),), latency=1e-4)
    >>> found = sparks_along(t, 100 * t - 1, np.full(2, 100.0), by_edge, Coil(30e-3, 2e-3))
    >>> found.advance.round(6).tolist(), found.firing.tolist()
    ([0.04, 0.34, 0.34, 0.34], [True, False, True, False])
    """
    edges = edge_times(time, angle, speed, wheel_of(timing, top), sensor, seed=seed)
    lost = _losses(time, supplied)
    clock, sparks = SparkClock(timing, coil, float(time[0])), list[Due]()
    before = float(time[0])
    for at, rising in zip(edges.time.tolist(), edges.rising.tolist(), strict=True):
        clock = _after_losses(clock, lost, before, at)
        clock, due = clock.at_edge(at, rising)
        if due is not None and _comes(due, lost, at, float(time[-1])):
            sparks.append(due)
        before = at
    when, asked, energy = np.array(sparks, dtype=np.float64).reshape(-1, 3).T
    where = interpolated(when, time, angle, speed)
    tops = np.round((where - top) / timing.turn)
    advance = top + timing.turn * tops - where
    firing = np.mod(np.round(tops * timing.turn / (0.5 * CYCLE)), 2.0) == 0.0
    return Sparks(when, where, advance, asked, energy, firing)


def _losses(time: Floats, supplied: NDArray[np.bool_] | None) -> Floats:
    """From when to when voltage is too low, s, (times, 2)."""
    if supplied is None:
        return np.empty((0, 2))
    low = ~np.asarray(supplied)
    ends = np.append(time[1:], np.inf)
    return np.stack([time[low], ends[low]], axis=1)


def _after_losses(clock: SparkClock, lost: Floats, before: float, now: float) -> SparkClock:
    """A clock that has begun anew if voltage was too low since the edge before."""
    met = lost[(lost[:, 0] <= now) & (lost[:, 1] > before)]
    return clock if met.size == 0 else clock.reset(min(float(met[:, 1].max()), now))


def _comes(due: Due, lost: Floats, edge: float, end: float) -> bool:
    hindered = np.any((lost[:, 0] <= due.time) & (lost[:, 1] > edge))
    return due.time <= end and not hindered
