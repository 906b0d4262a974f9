"""The spark as breaker points or a controller make it, from edge to edge of their wheel.

One tooth (or magnet) passes a sensor before each top centre. Where the spark is timed by an edge,
it comes as one of the tooth's sides passes, later by the latency. Where it is timed by the clock,
it comes where :mod:`firstfire.formulas.clock_timing` says. Neither knows which way the shaft turns.
Angles before top centre are positive, as advance is.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from firstfire.formulas.clock_timing import clock_delay, table_advance
from firstfire.formulas.firing import TURN
from firstfire.formulas.ignition_coil import coil_energy

By = Literal["edge", "clock", "edge_then_clock", "points"]


class Timing(NamedTuple):
    """What fires, and by what.

    Attributes
    ----------
    by
        ``edge``: the tooth's side nearest to the advance asked, as it passes. ``clock``: the speed
        measured last. ``edge_then_clock``: as the tooth ends while starting, then by the clock
        from its beginning. ``points``: breaker points, the tooth being their time shut.
    leading, trailing
        Where the tooth begins and ends before top centre, rad; it begins first.
    start
        Advance asked until the speed is known and above `running_from`, rad.
    running
        Speeds, rad/s, and advance asked, rad, as :func:`table_advance` takes them.
    running_from
        rad/s.
    latency
        From edge, or end of the clock's wait, to spark, s.
    measured
        By the ``clock``: over the whole ``turn`` from tooth to tooth, waiting from its leading
        side; or over the ``tooth`` itself, waiting from its trailing side.
    turn
        Crank angle from tooth to tooth, rad: 2π on the crank, 4π on the camshaft.
    limit_speed
        Measured speed above which there is no spark, rad/s: a controller cuts it, points no
        longer follow their lobe.
    least_speed
        Below it the clock has run over, and the controller knows no speed, rad/s.
    """

    by: By
    leading: float
    trailing: float
    start: float
    running: tuple[tuple[float, float], ...]
    running_from: float = 0.0
    latency: float = 0.0
    measured: Literal["turn", "tooth"] = "turn"
    turn: float = TURN
    limit_speed: float = math.inf
    least_speed: float = 0.0


class Coil(NamedTuple):
    """What one spark is fed from.

    Attributes
    ----------
    energy
        Once its current rises no more, J.
    time_constant
        Of that, s.
    dwell
        How long a controller lets current flow before each spark, s; it can't begin before the
        last spark.
    """

    energy: float
    time_constant: float
    dwell: float = math.inf


class Due(NamedTuple):
    """A spark to come.

    Attributes
    ----------
    time
        s.
    asked
        Advance that it is meant for, rad.
    energy
        In the coil by then, J.
    """

    time: float
    asked: float
    energy: float


@dataclass(frozen=True)
class SparkClock:
    """A controller, or breaker points, between two edges of its wheel.

    The run goes to the next edge, asks :meth:`at_edge`, then goes to the time that is due.

    Attributes
    ----------
    timing, coil
        What it goes by.
    charged_from
        When current could last begin to flow into the coil, s.
    risen
        When the tooth last began, s; None since it knows of none.
    speed
        As measured last, rad/s; None while it knows none.
    """

    timing: Timing
    coil: Coil
    charged_from: float = 0.0
    risen: float | None = None
    speed: float | None = None

    @property
    def starting(self) -> bool:
        """Whether it takes the engine for one that is being started."""
        return self.speed is None or self.speed < self.timing.running_from

    @property
    def asked(self) -> float:
        """Advance asked now, rad."""
        if self.speed is None or self.starting:
            return self.timing.start
        return table_advance(self.speed, self.timing.running)

    def reset(self, time: float) -> SparkClock:
        """The same as if switched on at a time, s: it knows nothing, and its coil is empty."""
        return SparkClock(self.timing, self.coil, time)

    def at_edge(
        self, time: float, rising: bool, *, supplied: bool = True
    ) -> tuple[SparkClock, Due | None]:
        """What it is after an edge, and the spark that this sets off.

        Parameters
        ----------
        time
            At which the edge passes, s.
        rising
            Whether the tooth begins.
        supplied
            Whether there is voltage enough; without it begins anew.
        """
        if not supplied:
            return self.reset(time), None
        known = self._having_seen(time, rising)
        if not known._fires_from(rising):
            return known, None
        if known.speed is not None and known.speed > self.timing.limit_speed:
            return known, None
        due = time + known._waits() + self.timing.latency
        spark = Due(due, known.asked, known._energy(due))
        return replace(known, charged_from=due), spark

    def _having_seen(self, time: float, rising: bool) -> SparkClock:
        """Its speed anew where this edge ends what is measured over."""
        over_tooth = self.timing.by == "clock" and self.timing.measured == "tooth"
        speed = self.speed
        if rising != over_tooth:
            tooth = self.timing.leading - self.timing.trailing
            speed = self._over(tooth if over_tooth else self.timing.turn, time)
        return replace(self, speed=speed, risen=time if rising else self.risen)

    def _over(self, span: float, time: float) -> float | None:
        if self.risen is None or time <= self.risen:
            return None
        speed = span / (time - self.risen)
        return speed if speed >= self.timing.least_speed else None

    def _fires_from(self, rising: bool) -> bool:
        timing = self.timing
        if timing.by == "points":
            return not rising
        if timing.by == "clock":
            return self.speed is not None and rising == (timing.measured == "turn")
        if timing.by == "edge_then_clock":
            return rising != self.starting
        ahead, behind = timing.leading - self.asked, timing.trailing - self.asked
        return rising == (abs(ahead) <= abs(behind))

    def _waits(self) -> float:
        timing = self.timing
        counts = timing.by == "clock" or (timing.by == "edge_then_clock" and not self.starting)
        if self.speed is None or not counts:
            return 0.0
        over_tooth = timing.by == "clock" and timing.measured == "tooth"
        reference = timing.trailing if over_tooth else timing.leading
        return clock_delay(reference, self.asked, self.speed)

    def _energy(self, due: float) -> float:
        """Of the coil at a spark: points feed it while they are shut, a controller at will."""
        begun = self.charged_from
        if self.timing.by == "points" and self.risen is not None:
            begun = self.risen
        flows = min(max(due - begun, 0.0), self.coil.dwell)
        return coil_energy(self.coil.energy, flows, self.coil.time_constant)
