"""The throttle at which an engine just turns itself: idling at a speed."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

from firstfire.cycle.burn_plan import Burn
from firstfire.cycle.layout import State
from firstfire.engine.geometry import swept_volume
from firstfire.engine.records import Walls
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.loads.driven import load_torque
from firstfire.runs.point import OperatingPoint, operating_point
from firstfire.runs.root import Bracket, near_root

# Share of the torque that turning takes which may be left over: far finer than friction is known.
_ENOUGH = 0.02
# A bracket this narrow with torque on both sides holds a jump: beyond it the charge doesn't light.
_JUMP = 0.03
_LEAST_OPENING = 1e-3
_STEP = 2.0
OPENED = 1.4
"""How much further, and less far, a throttle is opened to see what it does to an idle."""
# Filling that small engines idle at, and how much of its flow a throttle passes at the speed of
# sound; only where the search begins.
_IDLE_FILLING, _CHOKED = 0.4, 0.58


def throttled(plain: PlainEngine, opening: float) -> PlainEngine:
    """The engine with its throttle so far open, 0 to 1."""
    return plain.model_copy(
        update={"intake": plain.intake.model_copy(update={"throttle_opening": opening})}
    )


class Idle:
    """Looks for the opening at which an engine holds a speed by itself.

    Parameters
    ----------
    plain
        Plain numbers.
    name
        What to call the point.
    speed
        rad/s.
    spark
        Crank angle after firing top centre, rad.
    stop
        Asked at least every 0.1 s.
    """

    def __init__(
        self,
        plain: PlainEngine,
        name: str,
        speed: float,
        spark: float,
        stop: Callable[[], bool] | None = None,
    ) -> None:
        self.plain, self.name, self.speed, self.spark, self.stop = plain, name, speed, spark, stop
        self.drag = load_torque(plain, speed)

    def point(
        self,
        walls: Sequence[Walls],
        *,
        near: OperatingPoint | None = None,
        start: State | None = None,
        guess: Sequence[Burn | None] | None = None,
    ) -> OperatingPoint:
        """The point at which it idles with such walls.

        Parameters
        ----------
        walls
            Of each cylinder.
        near
            Where it idled with other walls.
        start, guess
            State and burns of another point of the engine, where `near` isn't known.

        Raises
        ------
        OutsideValidity
            Where it doesn't idle: too little torque even wide open.
        """
        if near is not None:
            start, guess = near.fired.cycle.state, near.fired.burns
        opening = (near.throttle if near else None) or first_opening(self.plain, self.speed)
        last = self._at(opening, walls, start, guess)
        tried = {opening: last}

        def spare(at: float) -> float:
            nonlocal last
            last = self._at(at, walls, last.fired.cycle.state, _lit(last))
            tried[at] = last
            return self._spare(last)

        small = _ENOUGH * (self.drag + last.friction.mean_torque)
        if abs(self._spare(last)) <= small:
            return last
        step = 1.15 if near is not None else _STEP
        found = near_root(
            spare, self._bracket(opening, self._spare(last), spare, step), small=small, narrow=_JUMP
        )
        return self._chosen(found, tried, small)

    def _at(
        self,
        opening: float,
        walls: Sequence[Walls],
        start: State | None,
        guess: Sequence[Burn | None] | None,
    ) -> OperatingPoint:
        found = operating_point(
            throttled(self.plain, opening), "idle", self.name, self.speed, walls, self.spark,
            start=start, guess=guess, with_peaks=False, stop=self.stop,
        )  # fmt: skip
        return replace(found, throttle=opening)

    def _spare(self, point: OperatingPoint) -> float:
        return point.brake_torque - self.drag

    def _bracket(
        self, opening: float, spare: float, asked: Callable[[float], float], step: float
    ) -> Bracket:
        """Two openings, one with too little and one with too much torque."""
        most = self.plain.intake.throttle_opening
        while True:
            if spare > 0:
                lower = max(opening / step, _LEAST_OPENING)
                less = asked(lower)
                if less <= 0 or lower <= _LEAST_OPENING:
                    return Bracket(lower, opening, min(less, -1e-12), spare)
                opening, spare = lower, less
            else:
                if opening >= most:
                    raise OutsideValidity(_too_weak(self.plain, self.speed, -spare))
                wider = min(opening * step, most)
                more = asked(wider)
                if more > 0:
                    return Bracket(opening, wider, spare, more)
                opening, spare = wider, more
            step = min(step * step, 8.0)

    def _chosen(
        self, found: Bracket, tried: dict[float, OperatingPoint], small: float
    ) -> OperatingPoint:
        """The end nearer to the root; of a jump the end that lights."""
        low, high = tried[found.low], tried[found.high]
        jumps = abs(found.at_low) > small
        return high if jumps or abs(found.at_high) < abs(found.at_low) else low


def _lit(point: OperatingPoint) -> Sequence[Burn | None] | None:
    """Burns to begin a neighbour's with; none from a point that doesn't light."""
    return None if point.misfires else point.fired.burns


def _too_weak(plain: PlainEngine, speed: float, lacking: float) -> str:
    del plain
    return (
        f"It can't idle at {speed * 30 / math.pi:.0f} rpm: even wide open, {lacking:.2g} N*m are "
        "lacking to turn it. Less leak or friction, or a higher use.idle_speed, would help."
    )


def first_opening(plain: PlainEngine, speed: float) -> float:
    """Opening that lets in an idling engine's charge at the speed of sound: where to begin.

    Examples
    --------
    >>> import firstfire as ff
    >>> from firstfire.engine.resolve import resolve
    >>> wren = resolve(ff.read("engines/wren.toml"))
    >>> 0.005 < first_opening(wren, wren.use.idle_speed) < 0.1
    True
    """
    swept = math.fsum(swept_volume(parts) for parts in plain.cylinders)
    sound = math.sqrt(1.4 * 287.0 * plain.surroundings.air_temperature)
    throats = len(plain.cylinders) if plain.intake.kind == "separate" else 1
    bore = math.pi / 4 * plain.intake.throttle_diameter**2 * throats
    area = _IDLE_FILLING * swept * speed / (4 * math.pi) / (_CHOKED * sound)
    return min(max(area / bore, 2 * _LEAST_OPENING), plain.intake.throttle_opening)
