"""The edges that a sensor at a toothed wheel records of a shaft, and when.

A sensor knows the level in front of it (tooth or gap) and no direction: turned backwards over
the side where a tooth begins, its level falls. What it records is late by its latency, a little
by chance, and not at all within its dead time.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from firstfire.formulas.firing import CYCLE
from firstfire.formulas.hermite import (
    Cubics,
    Floats,
    along,
    chosen,
    cubics,
    interpolated,
    turning_shares,
)
from firstfire.formulas.validity import require_not_negative, require_within

_HALVINGS = 60
"""Of a step: its last bits."""


class Wheel(NamedTuple):
    """A toothed wheel, or a magnet (one tooth), on crank or camshaft.

    Attributes
    ----------
    teeth
        Evenly spaced places for teeth.
    missing
        Teeth left out, the last ones of a turn.
    first
        Crank angle at which the first tooth after these begins, rad.
    width
        Share of a pitch that is tooth, above 0 and below 1.
    turns_per_cycle
        2 on the crankshaft, 1 on the camshaft.
    """

    teeth: int
    missing: int = 0
    first: float = 0.0
    width: float = 0.5
    turns_per_cycle: int = 2

    @property
    def pitch(self) -> float:
        """Crank angle from tooth to tooth, rad."""
        return CYCLE / (self.turns_per_cycle * self.teeth)


class Sensor(NamedTuple):
    """What a sensor does to the edges it sees.

    Attributes
    ----------
    latency
        From an edge to its record, s.
    scatter
        Standard deviation of that, s, normally distributed.
    dead_time
        After a recorded edge, in which no other is recorded, s.
    stray
        False edges, from a spark's disturbance or the like, a second.
    """

    latency: float = 0.0
    scatter: float = 0.0
    dead_time: float = 0.0
    stray: float = 0.0


class Edges(NamedTuple):
    """Edges as recorded, in order of their recorded times.

    Attributes
    ----------
    time
        As recorded, s, (edges,).
    rising
        Whether the level rose, (edges,).
    angle
        Where the shaft was at the edge itself, before latency and scatter, rad, (edges,).
    tooth
        Its tooth, from 0; -1 for a false edge, (edges,).
    """

    time: Floats
    rising: NDArray[np.bool_]
    angle: Floats
    tooth: NDArray[np.int64]


SURE = Sensor()
"""A sensor that records each edge at once."""


def edge_times(
    time: Floats,
    angle: Floats,
    speed: Floats,
    wheel: Wheel,
    sensor: Sensor = SURE,
    *,
    seed: int = 0,
) -> Edges:
    """Edges that a sensor records while a shaft turns, either way.

    Between two steps the angle is the cubic that meets both angles and speeds
    (:mod:`firstfire.formulas.hermite`); it may turn round within a step. An edge counts as
    passed once the shaft is on it or beyond: a turn from anywhere has all edges once.

    Parameters
    ----------
    time
        Of each step, s, not falling, shape (steps,).
    angle, speed
        Crank angle, unwrapped, rad, and its speed, rad/s, (steps,).
    wheel
        In front of the sensor.
    sensor
        Its latency and chance.
    seed
        Of chance; the same gives the same bits.

    Raises
    ------
    OutsideValidity
        For a wheel that can't be, a negative time of the sensor, or a record whose time goes back.

    Examples
    --------
    One turn in 1 s past four teeth, of which one is missing:

    >>> t = np.array([0.0, 1.0])
    >>> turn = 2 * np.pi
    >>> passed = edge_times(t, turn * t - 0.01, np.full(2, turn), Wheel(4, missing=1))
    >>> passed.time.round(3).tolist(), passed.tooth.tolist()
    ([0.002, 0.127, 0.252, 0.377, 0.502, 0.627], [0, 0, 1, 1, 2, 2])
    """
    _require(wheel, sensor)
    sides = [_sides_passed(time, cubics(time, angle, speed), angle, wheel, at) for at in (0, 1)]
    passed = Edges(*(np.concatenate(both) for both in zip(*sides, strict=True)))
    chance = np.random.default_rng(seed)
    late = sensor.latency + sensor.scatter * chance.standard_normal(len(passed.time))
    passed = passed._replace(time=passed.time + late)
    if sensor.stray > 0.0:
        stray = _stray(time, angle, speed, sensor.stray, chance)
        passed = Edges(*(np.concatenate(both) for both in zip(passed, stray, strict=True)))
    return _chosen(passed, _seen(passed.time, sensor.dead_time))


def _require(wheel: Wheel, sensor: Sensor) -> None:
    require_within(1, np.inf, because="a wheel has a tooth", teeth=wheel.teeth)
    require_within(
        0, wheel.teeth - 1, because="one tooth at least is left", missing_teeth=wheel.missing
    )
    require_within(
        1e-6, 1 - 1e-6, because="a tooth is narrower than its pitch", tooth_width=wheel.width
    )
    require_within(
        1, 2, because="a wheel is on crank or camshaft", turns_per_cycle=wheel.turns_per_cycle
    )
    require_not_negative(**sensor._asdict())


def _sides_passed(time: Floats, cubic: Cubics, angle: Floats, wheel: Wheel, side: int) -> Edges:
    """Every passage of the sides where teeth begin (0) or end (1), step by step."""
    shares = np.pad(turning_shares(cubic), ((0, 0), (1, 1)), constant_values=(0.0, 1.0))
    met = along(Cubics(*(part[:, None] for part in cubic)), shares)
    # The end as the record has it, so that the next step begins on the very same bit.
    met = np.where(shares == 1.0, angle[1:, None], met)
    offset = wheel.first + side * wheel.width * wheel.pitch
    cell = np.floor((met - offset) / wheel.pitch).astype(np.int64)
    came, went = cell[:, :-1].ravel(), cell[:, 1:].ravel()
    count = np.abs(went - came)
    piece = np.repeat(np.arange(len(count)), count)
    before = np.arange(len(piece)) - np.repeat(np.cumsum(count) - count, count)
    forwards = went[piece] > came[piece]
    place = np.where(forwards, came[piece] + 1 + before, came[piece] - before)
    tooth = place % wheel.teeth
    there = tooth < wheel.teeth - wheel.missing
    piece, forwards, place, tooth = piece[there], forwards[there], place[there], tooth[there]
    target, step = offset + wheel.pitch * place, piece // 3
    low, high = shares[:, :-1].ravel()[piece], shares[:, 1:].ravel()[piece]
    share = _met(chosen(cubic, step), target, forwards, low, high)
    when = time[step] + share * (time[step + 1] - time[step])
    return Edges(when, forwards == (side == 0), target, tooth)


def _met(
    cubic: Cubics, target: Floats, forwards: NDArray[np.bool_], low: Floats, high: Floats
) -> Floats:
    """Shares at which cubics that go one way from low to high meet their targets."""
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        short = (along(cubic, middle) < target) == forwards
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    found: Floats = 0.5 * (low + high)
    return found


def _stray(
    time: Floats, angle: Floats, speed: Floats, rate: float, chance: np.random.Generator
) -> Edges:
    """False edges: a Poisson process over the record."""
    count = int(chance.poisson(rate * (time[-1] - time[0])))
    when = time[0] + (time[-1] - time[0]) * chance.random(count)
    rising = chance.random(count) < 0.5
    return Edges(when, rising, interpolated(when, time, angle, speed), np.full(count, -1))


def _seen(time: Floats, dead_time: float) -> NDArray[np.intp]:
    """Numbers of the edges that are recorded, in order of time."""
    order = np.argsort(time, kind="stable")
    if dead_time == 0.0:
        return order
    seen, until = [], -np.inf
    for one in order:
        if time[one] >= until:
            seen.append(one)
            until = time[one] + dead_time
    return np.array(seen, dtype=np.intp)


def _chosen(edges: Edges, which: NDArray[np.intp]) -> Edges:
    time, rising, angle, tooth = edges
    return Edges(time[which], rising[which], angle[which], tooth[which])
