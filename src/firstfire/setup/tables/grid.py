"""Speeds and throttle openings of an engine's own tables, and what it draws at each."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.runs.breathed import Breathed, breathed
from firstfire.runs.idling import first_opening

Floats = NDArray[np.float64]
Stop = Callable[[], bool] | None
Tell = Callable[[str, float], None]
SPEEDS, LOADS = 13, 17
"""Twelve steps of speed and sixteen of throttle: between places the mixture stays within 3 %."""
_BELOW_IDLE, _OVER = 0.6, 1.1
"""Slowest speed over idle, and fastest over full throttle's where nothing limits it."""
_LOOKED, _BY_AIR = 24, 0.35
_RPM, _PERMILLE = math.pi / 30.0, 1e-3
_STEP = 10.0


@dataclass(frozen=True)
class Grid:
    """What an engine draws over its speeds and loads.

    Attributes
    ----------
    speeds, openings
        rad/s and 0 to 1, rising; whole tens of rpm and whole thousandths.
    at
        By loads and speeds; None where no cycle could be found. Empty where no air is asked for:
        what is looked for there is laid over the places from elsewhere.
    """

    speeds: Floats
    openings: Floats
    at: tuple[tuple[Breathed | None, ...], ...]

    def of(self, asked: Callable[[Breathed], float]) -> Floats:
        """A number at each place, (loads, speeds).

        A place that doesn't burn between two that do has it from them: it breathes otherwise than
        it would if it burned. One without a cycle has it from the nearest speed.

        Raises
        ------
        OutsideValidity
            Where a whole row is without.
        """
        found = np.array(
            [[math.nan if one is None else asked(one) for one in row] for row in self.at]
        )
        for values, row in zip(found, self.at, strict=True):
            lit = [place for place, one in enumerate(row) if one is not None and one.light]
            for place in range(lit[0], lit[-1]) if lit else ():
                values[place] = math.nan if place not in lit else values[place]
            known = np.flatnonzero(~np.isnan(values))
            if not len(known):
                raise OutsideValidity("At one throttle opening no speed could be run.")
            values[:] = np.interp(np.arange(len(values)), known, values[known])
        return found

    @property
    def missing(self) -> int:
        """Places at which no cycle could be found, or not every cylinder burns."""
        return sum(one is None or not one.light for row in self.at for one in row)


def speeds_of(plain: PlainEngine) -> Floats:
    """From well below idle to its limiter or past full throttle, evenly, to 10 rpm, rad/s."""
    top = _OVER * max(plain.use.full_throttle_speeds)
    if plain.spark.limit_speed is not None:
        top = max(min(plain.spark.limit_speed, 1.3 * top), top / _OVER)
    low = min(_BELOW_IDLE * plain.use.idle_speed, 0.5 * top)
    even = np.linspace(low, top, SPEEDS) / _RPM
    return np.asarray(np.rint(even / _STEP) * _STEP * _RPM, dtype=np.float64)


def openings_of(plain: PlainEngine, stop: Stop) -> Floats:
    """Openings between which the air of a cycle rises evenly at two thirds of the top speed.

    A throttle does most of its work in its first tenth: even openings would leave that to a
    straight line.
    """
    full = plain.intake.throttle_opening
    least = min(0.5 * first_opening(plain, plain.use.idle_speed), 0.2 * full)
    tried = np.geomspace(least, full, _LOOKED)
    speed = float(speeds_of(plain)[2 * SPEEDS // 3])
    near: Breathed | None = None
    air = []
    for opening in tried[::-1]:
        near = breathed(plain, speed, float(opening), near=near, stop=stop)
        air.append(math.fsum(near.air))
    rising = np.maximum.accumulate(np.array(air[::-1]))
    # by the opening's logarithm too, so that no step is wide in either
    even = (rising - rising[0]) / (rising[-1] - rising[0])
    even = _BY_AIR * even + (1.0 - _BY_AIR) * np.linspace(0.0, 1.0, _LOOKED)
    chosen = np.interp(np.linspace(0.0, 1.0, LOADS), even, tried) / _PERMILLE
    whole = np.maximum.accumulate(np.rint(chosen))
    for place in range(1, LOADS):
        whole[place] = max(whole[place], whole[place - 1] + 1)
    return np.asarray(whole * _PERMILLE, dtype=np.float64)


def grid(plain: PlainEngine, stop: Stop = None, tell: Tell | None = None) -> Grid:
    """Run an engine over its speeds and loads.

    Parameters
    ----------
    plain
        Plain numbers.
    stop, tell
        Asked at least every 0.1 s; told what is run and the share done.
    """
    speeds, openings = speeds_of(plain), openings_of(plain, stop)
    rows: list[tuple[Breathed | None, ...]] = []
    near: Breathed | None = None
    for place, opening in enumerate(openings[::-1]):
        row: list[Breathed | None] = []
        for speed in speeds:
            if tell is not None:
                done = (len(rows) * SPEEDS + len(row)) / (LOADS * SPEEDS)
                tell(f"throttle {1e2 * opening:.1f} %, {speed / _RPM:.0f} rpm", done)
            found = tried(plain, float(speed), float(opening), near, stop)
            near = found or near
            row.append(found)
        rows.append(tuple(row))
        near = next((one for one in rows[place] if one is not None), near)
    return Grid(speeds, openings, tuple(rows[::-1]))


def tried(
    plain: PlainEngine, speed: float, opening: float, near: Breathed | None, stop: Stop
) -> Breathed | None:
    """A point; None where no cycle could be found."""
    try:
        return breathed(plain, speed, opening, near=near, stop=stop)
    except OutsideValidity:
        return None


def between(found: Grid) -> Iterator[tuple[int, int, float, float]]:
    """Middle of each field between four places that burn: load, speed, rad/s, opening."""
    for load in range(len(found.openings) - 1):
        for place in range(len(found.speeds) - 1):
            corners = [found.at[load + m][place + n] for m in (0, 1) for n in (0, 1)]
            if all(one is not None and one.light for one in corners):
                speed = 0.5 * (found.speeds[place] + found.speeds[place + 1])
                opening = 0.5 * (found.openings[load] + found.openings[load + 1])
                yield load, place, float(speed), float(opening)


def straight_off(
    plain: PlainEngine, found: Grid, stop: Stop = None, tell: Tell | None = None
) -> float:
    """Largest share by which a straight line between places misses the air really drawn."""
    fields = list(between(found))
    each = [found.of(_air_of(row)) for row in range(len(plain.cylinders))]
    worst = 0.0
    for done, (load, place, speed, opening) in enumerate(fields):
        if tell is not None:
            tell("between its places", done / len(fields))
        real = tried(plain, speed, opening, found.at[load][place], stop)
        if real is None or not real.light:
            continue
        for air, there in zip(real.air, each, strict=True):
            straight = float(there[load : load + 2, place : place + 2].mean())
            worst = max(worst, abs(straight / air - 1.0))
    return worst


def _air_of(row: int) -> Callable[[Breathed], float]:
    return lambda at: at.air[row]
