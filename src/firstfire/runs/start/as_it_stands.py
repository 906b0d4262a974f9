"""An engine being started, as it is at a moment: its record, its shaft, and all that has been."""

from __future__ import annotations

import math
from collections.abc import Sequence
from copy import copy
from dataclasses import dataclass
from typing import Self

import numpy as np

from firstfire.cycle import layout
from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.flame_plan import let_travel
from firstfire.cycle.let_rub import let_rub
from firstfire.cycle.records import ShaftSpec, VolumeSpec
from firstfire.cycle.run import steady_factors
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.spark_clock import SparkClock
from firstfire.loads.driven import load_torque
from firstfire.runs.decompression import Decompression
from firstfire.runs.fuelled import FuelState
from firstfire.runs.sparked import coil_of, spark_timing
from firstfire.runs.stalled import Stalled
from firstfire.runs.start.asked import Asked, Fed, Sparked
from firstfire.runs.start.begun import network_of, spark_at, without_fuel
from firstfire.runs.start.fuelling import Fuelling
from firstfire.runs.start.induction import Induction
from firstfire.runs.start.lighting import Lighting
from firstfire.runs.start.mishaps import Mishaps
from firstfire.runs.start.supply import Supply
from firstfire.runs.start.turned_by import turned_by
from firstfire.runs.stood import Stood, thicken

_TURN = 2 * math.pi
_LEAST_SPEED = 1.0


@dataclass
class Due:
    """A spark or burn that waits for its moment."""

    seconds: float
    cylinder: int
    asked: float
    energy: float
    length: float | None = None


class AsItStands:
    """An engine being started, at a moment.

    Parameters
    ----------
    plain
        Plain numbers.
    asked
        How.
    shaft
        What turns it, with what is wrong with that; None: the starter's own line, and what is wrong
        with it.
    wet
        Fuel that a try before left in cylinders and ports.
    """

    def __init__(
        self, plain: PlainEngine, asked: Asked, shaft: ShaftSpec | None = None,
        wet: Sequence[FuelState] = (),
    ) -> None:  # fmt: skip
        self.plain, self.asked = plain, asked
        self.shaft = shaft or turned_by(plain, asked.wrong)
        self.spec = network_of(plain, asked, self.shaft)
        self.engines = build_engine(self.spec)
        let_rub(self.engines, plain)
        thicken(self.engines, plain)
        let_travel(self.engines, plain)
        # A generator's torque grows with speed, all other loads' with its square.
        grows = "friction_per_speed" if plain.load.kind == "generator" else "load_square"
        self.engines[0]["shaft"][grows] = load_torque(plain, 1.0)
        phases = firing_angles(plain)
        around = plain.surroundings
        in_time = asked.in_time and not plain.fuel.gas
        self.fuelling = Fuelling(plain, asked, wet) if in_time else None
        gas = VolumeSpec(
            "", pressure=around.air_pressure, temperature=around.air_temperature,
            equivalence_ratio=self._held() if asked.charged else 0.0,
        )  # fmt: skip
        begins = min(phases) + asked.begins
        begun = self.spec if self.fuelling is None else without_fuel(self.spec)
        self.state = start_state(begun, self.engines, begins, asked.speed, [gas] * len(phases))
        self.induction = Induction(self.spec, self.engines)
        self.fed: list[Fed] = []
        self.factors = steady_factors(self.engines)
        self.phases = phases
        self.sparked_at = [phase + asked.wrong.spark_shift for phase in phases]
        self.timing = spark_timing(spark_at(plain, asked.advance))
        self.clocks = [SparkClock(self.timing, coil_of(plain))] * len(phases)
        self.lighting = Lighting(plain, self.engines, asked)
        self.supply = Supply(plain, self.shaft)
        count = int(self.engines[0]["volume_count"])
        first = layout.SHAFT_SIZE + layout.PRESSURE
        self.kept = [0, 1, 2, 3, *(1 + first + n * layout.VOLUME_SIZE for n in range(count))]
        self.seen = [np.concatenate([self.state.time, self.state.values])[None, self.kept]]
        self.sparks: list[Sparked] = []
        self.waiting: list[Due] = []
        self.opened: dict[int, float] = {}
        self.intakes: dict[int, float] = {}
        self.drawn_at: dict[int, float] = {}
        self.passed: list[tuple[float, float]] = [(0.0, begins)]
        self.let_go: float | None = None
        self.fast_since = math.inf
        self.reversed: tuple[float, float] | None = None
        self.way = -1 if asked.wrong.backwards else 1
        self.stalled = Stalled(self.way)
        self.mishaps = Mishaps(plain, asked, self.engines, self.shaft)
        started = asked.speed == 0.0
        self.letting_off = Decompression(plain, self.spec, self.engines, acts=started)
        self.letting_off.stands_at(begins, phases)
        self.stood = Stood(plain, self.engines, begins, acts=started)

    def _held(self) -> float:
        """Mixture of what a try before left in the cylinders."""
        return self.spec.equivalence_ratio if self.fuelling is None else self.fuelling.held

    @property
    def now(self) -> float:
        """s since it began."""
        return float(self.state.time[0])

    @property
    def angle(self) -> float:
        """rad, unwrapped."""
        return float(self.state.values[layout.ANGLE])

    @property
    def speed(self) -> float:
        """rad/s."""
        return float(self.state.values[layout.SPEED])

    @property
    def lights(self) -> bool:
        """Whether a spark has lit anything yet."""
        return any(spark.missed is None for spark in self.sparks)

    @property
    def last_turn(self) -> float:
        """Mean speed of about the last turn, rad/s."""
        now, angle = self.now, self.angle
        turned = (e for e in reversed(self.passed) if self.way * (angle - e[1]) > 0.9 * _TURN)
        before = next(turned, None)
        if before is None:
            if self.asked.speed > 0.0:
                return self.asked.speed
            before = self.passed[0]
        lasted = now - before[0]
        mean = self.way * (angle - before[1]) / lasted if lasted > 0.0 else 0.0
        return max(mean, _LEAST_SPEED)

    def again(self) -> Self:
        """One that goes on from here by itself: what becomes of it changes nothing in this one."""
        other = copy(self)
        other.engines = self.engines.copy()
        other.lighting = self.lighting.of(other.engines)
        other.mishaps = self.mishaps.of(other.engines)
        other.letting_off = self.letting_off.of(other.engines)
        other.stood = self.stood.of(other.engines)
        other.stalled = self.stalled.again()
        other.fuelling = self.fuelling and self.fuelling.again()
        for name in ("seen", "sparks", "waiting", "passed", "opened", "intakes", "clocks", "fed",
                     "drawn_at"):  # fmt: skip
            setattr(other, name, copy(getattr(self, name)))
        return other

    def turn_at(self, speed: float) -> None:
        """Have the shaft turn so fast from here on, rad/s."""
        values = self.state.values.copy()
        values[layout.SPEED] = values[layout.ROTOR] = speed
        self.state = self.state._replace(values=values)
        self.stalled = Stalled(self.way)
