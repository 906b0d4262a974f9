"""The engine's life in time: a shaft turned by its starter, sparked as its controller does."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from copy import copy
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.cycle.advance import advance
from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.burn_plan import Charge
from firstfire.cycle.flame_plan import let_travel
from firstfire.cycle.kernel import FAILED, REACHED
from firstfire.cycle.layout import Records
from firstfire.cycle.let_rub import let_rub
from firstfire.cycle.records import BurnSpec, ShaftSpec, VolumeSpec
from firstfire.cycle.run import steady_factors
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import FirstfireError, Stopped
from firstfire.formulas.spark_clock import SparkClock
from firstfire.loads.driven import load_torque
from firstfire.runs.decompression import Decompression, whole_turn
from firstfire.runs.fuelled import FuelState
from firstfire.runs.sparked import coil_of, spark_timing
from firstfire.runs.spun import Spun
from firstfire.runs.stalled import Stalled
from firstfire.runs.start.asked import Asked, Fed, Lived, Missed, Sparked
from firstfire.runs.start.begun import network_of, spark_at, without_fuel
from firstfire.runs.start.fuelling import Fuelling
from firstfire.runs.start.induction import Induction, air_in
from firstfire.runs.start.lighting import Lighting, charge_now
from firstfire.runs.start.marks import (
    HOLE_SHUTS,
    INTAKE_BOTTOM,
    INTAKE_TOP,
    TOOTH_BEGINS,
    Mark,
    marks_after,
    marks_before,
)
from firstfire.runs.start.mishaps import Mishaps
from firstfire.runs.start.supply import Supply
from firstfire.runs.start.turned_by import turned_by
from firstfire.runs.stood import Stood, thicken

Floats = NDArray[np.float64]

_TURN, _CYCLE = 2 * math.pi, 4 * math.pi
_ROWS = 1000
_LONGEST = 0.05
"""Between two looks at what the shaft does, s."""
_AFTER_KICK = 0.25
"""For how long a shaft that was thrown back is followed, s."""
_HEARD = 0.3
"""For how long a person hears an engine run before the starter is let go, s. Common practice, no
source."""
_LEAST_SPEED = 1.0
_LOOKED_BACK = 12
"""Pieces of what was seen that hold the last intake."""
_AT = 1e-6
"""An angle that is so near is reached, rad."""
_BACK_LONGEST, _BACK_PAST = 2e-3, 1e-5
"""Going backwards: between two looks, s, and how far past a mark it is met, rad."""


@dataclass
class _Due:
    """A spark or burn that waits for its moment."""

    seconds: float
    cylinder: int
    asked: float
    energy: float
    length: float | None = None


class Life:
    """One engine being started.

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
        self.waiting: list[_Due] = []
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

    def lived(self, stop: Callable[[], bool] | None = None) -> Lived:
        """Go through all of it.

        Raises
        ------
        Stopped
            If `stop` said so.
        FirstfireError
            If no step is small enough.
        """
        while not self._over():
            self.step()
            self.checked(stop)
        return self.told()

    def checked(self, stop: Callable[[], bool] | None) -> None:
        """Raise `Stopped` if `stop` says so."""
        if stop is not None and stop():
            raise Stopped("The start was stopped.")

    def told(self) -> Lived:
        """What has happened so far."""
        spun = Spun.of(np.concatenate(self.seen))
        at, angle = self.reversed or (None, None)
        return Lived(
            self.asked, spun, tuple(self.sparks), self.let_go, at, angle, self.mishaps.slipped,
            tuple(self.fed), () if self.fuelling is None else self.fuelling.left,
            self.letting_off.let_go_at,
        )  # fmt: skip

    def step(self, until_angle: float = math.inf) -> None:
        """On to what comes next: a mark, a spark, a burn, an angle; or a twentieth of a second."""
        place = self.angle, self.phases, self.sparked_at, self.timing
        marks = (
            marks_after(*place, self.letting_off.shuts) if self.way > 0 else marks_before(*place)
        )
        due = min(self.waiting, key=lambda one: one.seconds, default=None)
        until = self.now + _LONGEST
        if due is not None:
            until = min(until, due.seconds)
        until = min(until, self.mishaps.next_stray)
        before, let_off = len(self.seen), self.letting_off.let_off(self.angle, self.phases)
        if self.way > 0:
            self._go(until, min(marks[0].angle, until_angle, self.stood.until))
        else:
            self._go(min(until, self.now + self._back_to(marks[0].angle)), math.inf)
        rows = np.concatenate(self.seen[before:])
        self.stalled.feel(rows[:, 2], let_off=let_off)
        self._suffer(rows)
        self._watch()
        if due is not None and self.now >= due.seconds - 1e-12:
            self.waiting.remove(due)
            self._come(due)
        if self.now >= self.mishaps.next_stray - 1e-12:
            self._stray()
        if self.way * (self.angle - marks[0].angle) > -_AT:
            for mark in marks:
                self._meet(mark)

    def _back_to(self, angle: float) -> float:
        """How long a shaft that goes backwards may be left alone before it comes to a mark, s."""
        if self.speed >= 0.0:
            return _BACK_LONGEST
        return min((self.angle - angle + _BACK_PAST) / -self.speed, _BACK_LONGEST)

    def _suffer(self, rows: Floats) -> None:
        """What the last steps do to what is wrong: a controller's voltage, a joint that slips."""
        wrong = self.asked.wrong
        if math.isinf(wrong.resets_at) and math.isinf(wrong.slips_at):
            return
        if self.let_go is None:
            self.mishaps.feel_starter(rows)
        if self.mishaps.feel_joint(rows):
            later = wrong.spark_shift + self.mishaps.slipped
            self.sparked_at = [phase + later for phase in self.phases]

    def _stray(self) -> None:
        """A false edge: every sensor's level flips and is back at once."""
        for row in range(len(self.clocks)):
            for rising in (True, False):
                self._edge(row, rising=rising)
        self.mishaps.another_stray(self.now)

    def again(self) -> Life:
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

    def _over(self) -> bool:
        if self.fed and self.fed[-1].stopped:
            return True
        if self.reversed is not None and self.now >= self.reversed[0] + _AFTER_KICK:
            return True
        return self.let_go is not None and self.now >= self.let_go + self.asked.after

    def _go(self, until: float, until_angle: float) -> None:
        """On to a time or an angle, whichever comes first."""
        end = -1
        while end != REACHED:
            rows = np.empty((_ROWS, 1 + self.state.values.size))
            events = np.empty((_ROWS, len(self.plain.cylinders)), layout.CYLINDER_EVENT)
            self.state, filled, end = advance(
                self.state, self.engines, self.factors, until, until_angle, rows, events, _ROWS
            )
            self._keep(rows[:filled], events[:filled])
            if end == FAILED:
                raise FirstfireError(
                    f"The engine could not be followed beyond {self.now:.3g} s of its start: no "
                    "step was small enough. Look for a volume, passage or inertia of absurd size."
                )

    def _keep(self, rows: Floats, _events: Records) -> None:
        """Keep of some steps what is told of them."""
        self.seen.append(rows[:, self.kept])

    def _watch(self) -> None:
        """See whether it was thrown back, its rings are loose, and hole and starter are let go."""
        self.stood.feel(self.angle)
        if self.letting_off.acts:
            turn = whole_turn(self.passed, self.now, self.angle)
            self.letting_off.feel(turn, self.now)
        if self.reversed is None and self.way > 0:
            for rows in self.seen[-1:]:
                back = np.flatnonzero(rows[:, 2] < -1e-3)
                if back.size and self.sparks:
                    self.reversed = float(rows[back[0], 0]), float(rows[back[0], 1])
        if self.let_go is not None:
            return
        wanted = self.asked.let_go_at
        if wanted is None or not self.lights or self.last_turn < wanted:
            self.fast_since = math.inf
        else:
            self.fast_since = min(self.fast_since, self.now)
        heard = self.now >= self.fast_since + _HEARD
        if self.now >= self.asked.seconds or heard or self._pulled_out() or self._stands():
            self.let_go, self.timing = self.now, spark_timing(self.plain)
            self.clocks = [replace(clock, timing=self.timing) for clock in self.clocks]
            self._turn_by(replace(self.shaft, starter_stall=0.0, inertia=self._bare(), rotor=0.0))

    def _stands(self) -> bool:
        """Whether it stood before anything has burned, and whoever turns it lets go."""
        return self.stalled.stood and not self.lights and not self.asked.held_on

    def _pulled_out(self) -> bool:
        """Whether a rope has come to its end."""
        starter = self.plain.starter
        if starter.pull_length is None or starter.drum_diameter is None:
            return False
        turned = self.way * (self.angle - self.passed[0][1]) / starter.ratio
        return turned >= 2.0 * starter.pull_length / starter.drum_diameter

    def _bare(self) -> float:
        """Inertia of what turns without the starter, kg·m²."""
        if self.shaft.rotor > 0.0:
            return self.shaft.inertia
        starter = self.plain.starter
        return max(self.shaft.inertia - starter.inertia / starter.ratio**2, 1e-9)

    def _turn_by(self, shaft: ShaftSpec) -> None:
        record = self.engines[0]["shaft"]
        record["starter_stall"], record["inertia"] = shaft.starter_stall, shaft.inertia
        record["rotor"] = shaft.rotor

    def _meet(self, mark: Mark) -> None:
        """Do what belongs to an angle that was reached."""
        row = mark.cylinder
        self.passed.append((self.now, self.angle))
        if mark.kind == INTAKE_TOP:
            self.opened[row] = self.now
            self._feed(row)
        elif mark.kind == INTAKE_BOTTOM:
            self.intakes[row] = self.now - self.opened.get(row, 0.0)
            self._drew(row)
            if self.letting_off.shuts > 0.0:
                self.letting_off.turn(row, opens=True)
        elif mark.kind == HOLE_SHUTS:
            self.letting_off.turn(row, opens=False)
        else:
            self._edge(row, rising=mark.kind == TOOTH_BEGINS)

    def _feed(self, row: int) -> None:
        """A cylinder begins to draw: fuel comes to meet it."""
        if self.fuelling is None:
            return
        air = self.plain.surroundings.air_pressure
        seconds = _CYCLE / self.last_turn
        fed = self.fuelling.charge(row, self.now, seconds, self.drawn_at.get(row, air))
        self.fed.append(fed)
        state = self.induction.mixed(self.engines, self.state, row, fed.mixture)
        self.state = self.induction.narrowed(self.engines, state, row, fed.liquid)

    def _drew(self, row: int) -> None:
        """A cylinder is full: so much air it drew, at such a pressure in its port."""
        if self.fuelling is None or row not in self.opened:
            return
        self.fuelling.drew(row, air_in(self.state, row))
        rows = np.concatenate(self.seen[-_LOOKED_BACK:])
        drawing = rows[rows[:, 0] >= self.opened[row], 4 + self.induction.runner[row]]
        if drawing.size:
            self.drawn_at[row] = float(drawing.mean())

    def _edge(self, row: int, *, rising: bool) -> None:
        """A side of a cylinder's tooth passes: a spark may come of it."""
        wrong = self.asked.wrong
        awake = self.mishaps.awake(self.now)
        self.clocks[row], due = self.clocks[row].at_edge(self.now, rising, supplied=awake)
        if due is None or wrong.no_spark or self.now < self.asked.fires_from:
            return
        plug = (row + 1) % len(self.clocks) if wrong.swapped else row
        turns = self.state.values[layout.ROTOR if self.shaft.rotor > 0.0 else layout.SPEED]
        fed = self.supply.energy(due.energy, float(turns), on=self.let_go is None)
        energy = wrong.spark_share * fed
        self.waiting.append(_Due(due.time, plug, due.asked, energy))

    def _come(self, due: _Due) -> None:
        """A spark jumps, or a burn that it lit begins."""
        row = due.cylinder
        if due.length is not None:
            self._light(row, due.length)
            return
        place, event = self._place(row), self.state.cylinders[row]
        wasted = self.plain.spark.wasted and abs(place) > 1.5 * math.pi
        if wasted or event["burning"] or event["fired"]:
            return
        charge = charge_now(self.engines, self.state, row)
        why = self._burn(row, charge, place, due.energy) if event["closed"] else "open"
        self.sparks.append(
            Sparked(row, self.now, place, self.speed, -due.asked, due.energy,
                    charge.equivalence_ratio, charge.burned_fraction, why)
        )  # fmt: skip

    def _burn(self, row: int, charge: Charge, place: float, energy: float) -> Missed | None:
        """Light a charge, or say why it doesn't burn."""
        last = next((fed for fed in reversed(self.fed) if fed.cylinder == row), None)
        if last is not None and last.wet:
            return "wet"
        intake = self.intakes.get(row)
        if self.asked.flame == "by_law" or intake is None:
            return self._burn_by_law(row, charge, place)
        flame = self.lighting.travelling(row, charge, energy, intake)
        if isinstance(flame, str):
            return flame
        cylinders = self.state.cylinders.copy()
        flame.put_in(cylinders, row)
        cylinders["lit"][row] = 1
        self.state = self.state._replace(cylinders=cylinders)
        return None

    def _burn_by_law(self, row: int, charge: Charge, place: float) -> Missed | None:
        burn = self.lighting.by_law(row, charge, place, self.last_turn)
        if burn is None:
            return "quenched"
        self.waiting.append(_Due(self.now + burn[0], row, -place, 0.0, burn[1]))
        return None

    def _place(self, row: int) -> float:
        """Where a cylinder is, rad after its firing top centre, -2π to 2π."""
        return (self.angle - self.phases[row] + _TURN) % _CYCLE - _TURN

    def _light(self, row: int, length: float) -> None:
        """Let a cylinder's charge burn from here, by Wiebe's law for so long, s."""
        record = self.engines[0]["cylinders"]
        law = BurnSpec(0.0, 0.0, seconds=length)
        record["burn_seconds"][row] = law.seconds
        record["wiebe_a"][row], record["wiebe_m"][row] = law.wiebe_a, law.wiebe_m
        cylinders = self.state.cylinders.copy()
        cylinders["lit"][row], cylinders["flame"][row] = 1, 0
        self.state = self.state._replace(cylinders=cylinders)
