"""An engine on a free shaft: its gas, its friction and its starter, step by step in time."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.cycle.advance import advance
from firstfire.cycle.assembly import network
from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.kernel import FAILED, REACHED
from firstfire.cycle.layout import Records, State
from firstfire.cycle.let_rub import let_rub
from firstfire.cycle.records import EngineSpec, PassageSpec, ShaftSpec, VolumeSpec
from firstfire.cycle.run import steady_factors
from firstfire.engine.battery import torque_at_a_stand
from firstfire.engine.records import Walls
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import FirstfireError, Stopped
from firstfire.loads.crank_layout import throws
from firstfire.loads.masses import flywheel_inertia, rotating_inertia
from firstfire.runs.decompression import with_holes
from firstfire.runs.stood import thicken

Floats = NDArray[np.float64]

PAST_TOP = math.radians(10.0)
"""Where a person turns it back to, until compression is felt behind."""
_ROWS = 4000
_LEAST_INERTIA, _LEAST_SPEED = 1e-9, 1e-6
_LEAST_ROTOR = 0.02
"""Share of an engine's inertia below which a starter's rotor is as if it went along always."""
# A gauge with its valve in the hose's end at the plug hole: the hose's room, and the valve's bore.
# Common practice, no source.
_HOSE, _VALVE, _VALVE_COEFFICIENT = 8e-6, 4e-6, 0.6


@dataclass(frozen=True)
class Turning:
    """An engine on its free shaft at a moment: all that it needs to go on.

    Attributes
    ----------
    spec
        Its network and shaft.
    engines, state
        The kernel's record, and where it is.
    """

    spec: EngineSpec = field(repr=False)
    engines: Records = field(repr=False)
    state: State = field(repr=False)

    @property
    def seconds(self) -> float:
        """Since it began, s."""
        return float(self.state.time[0])

    def pressure_in(self, volume: str) -> float:
        """Of a volume by name, Pa."""
        spec = self.spec
        names = [one.name for one in spec.cylinders] + [one.name for one in spec.volumes]
        return float(self.state.values[self.pressures_at[names.index(volume)]])

    @property
    def pressures_at(self) -> list[int]:
        """Where the pressures of all volumes stand among the values."""
        count = int(self.engines[0]["volume_count"])
        first = layout.SHAFT_SIZE + layout.PRESSURE
        return [first + row * layout.VOLUME_SIZE for row in range(count)]


@dataclass(frozen=True)
class Spun:
    """How an engine turned for a while.

    Attributes
    ----------
    time, angle, speed
        At every step: s, rad unwrapped after firing top centre of cylinder 1, rad/s.
    rotor
        Speed of a starter's rotor that a clutch leaves behind, as the crank would have it, rad/s;
        where there is none it stays as it began.
    pressure
        In each volume, cylinders first, Pa, (rows, volumes).
    """

    time: Floats = field(repr=False)
    angle: Floats = field(repr=False)
    speed: Floats = field(repr=False)
    rotor: Floats = field(repr=False)
    pressure: Floats = field(repr=False)

    @classmethod
    def of(cls, rows: Floats) -> Spun:
        """Of rows of time, the three values of the shaft, and pressures."""
        own = 1 + layout.SHAFT_SIZE
        time, angle, speed, rotor = rows[:, :own].T
        return cls(time, angle, speed, rotor, np.ascontiguousarray(rows[:, own:]))

    def since(self, seconds: float) -> Spun:
        """What came at or after a time, s."""
        late = self.time >= seconds
        return Spun(*(getattr(self, name)[late] for name in self.__dataclass_fields__))

    @property
    def mean_speed(self) -> float:
        """In time, rad/s."""
        lasted = self.time[-1] - self.time[0]
        return float((self.angle[-1] - self.angle[0]) / lasted) if lasted > 0 else 0.0


def starter_line(plain: PlainEngine) -> ShaftSpec:
    """All that turns with the crank but goes not up and down, and the starter as a straight line.

    Parameters
    ----------
    plain
        Plain numbers.
    """
    starter = plain.starter
    crank = sum(rotating_inertia(plain, throw.cylinders) for throw in throws(plain))
    rotor = starter.inertia / starter.ratio**2
    own = max(flywheel_inertia(plain) + crank, _LEAST_INERTIA)
    left_behind = starter.coupling == "one_way" and rotor > _LEAST_ROTOR * own
    return ShaftSpec(
        inertia=own if left_behind else own + rotor,
        rotor=rotor if left_behind else 0.0,
        starter_stall=torque_at_a_stand(starter) / starter.ratio,
        starter_free=max(starter.no_load_speed * starter.ratio, _LEAST_SPEED),
        starter_one_way=starter.coupling == "one_way" or starter.pull_force is not None,
    )


def on_its_shaft(
    plain: PlainEngine,
    walls: Sequence[Walls],
    shaft: ShaftSpec,
    angle: float,
    *,
    speed: float = 0.0,
    gauge: int | None = None,
) -> Turning:
    """An engine without fuel, that has stood until its gas is as the air around.

    Parameters
    ----------
    plain
        Plain numbers.
    walls
        Of each cylinder.
    shaft
        What turns it.
    angle, speed
        From where it is turned, rad after firing top centre of cylinder 1, and rad/s.
    gauge
        Cylinder, counted from 0, that has a compression gauge for a plug.
    """
    nothing = (None,) * len(plain.cylinders)
    spec = with_holes(replace(network(plain, walls, nothing), shaft=shaft), plain)
    if gauge is not None:
        spec = _with_gauge(spec, gauge)
    engines = build_engine(spec)
    let_rub(engines, plain)
    thicken(engines, plain)
    still = VolumeSpec("", pressure=spec.ambient_pressure, temperature=spec.ambient_temperature)
    state = start_state(spec, engines, angle, speed, [still] * len(plain.cylinders))
    return Turning(spec, engines, state)


GAUGE = "gauge"
"""Name of the room behind a compression gauge's valve."""


def _with_gauge(spec: EngineSpec, cylinder: int) -> EngineSpec:
    hose = VolumeSpec(
        GAUGE, _HOSE, pressure=spec.ambient_pressure, temperature=spec.ambient_temperature
    )
    valve = PassageSpec(
        "gauge valve", spec.cylinders[cylinder].name, GAUGE, _VALVE, _VALVE_COEFFICIENT, True
    )
    return replace(spec, volumes=(*spec.volumes, hose), passages=(*spec.passages, valve))


def turned_on(
    turning: Turning,
    until: float,
    *,
    until_angle: float = math.inf,
    stop: Callable[[], bool] | None = None,
) -> tuple[Turning, Spun]:
    """Further on to a time or angle, whichever comes first, with every step on the way.

    Parameters
    ----------
    turning
        From where.
    until, until_angle
        s since it began; rad, passed forwards.
    stop
        Asked at least every 0.1 s.

    Raises
    ------
    Stopped
        If `stop` said so.
    FirstfireError
        If no step is small enough.
    """
    engines, state = turning.engines, turning.state
    cylinders, factors = len(turning.spec.cylinders), steady_factors(engines)
    kept = [0, 1, 2, 3, *(1 + at for at in turning.pressures_at)]
    seen = [np.concatenate([state.time, state.values])[None, kept]]
    end = -1
    while end != REACHED:
        rows = np.empty((_ROWS, 1 + state.values.size))
        events = np.empty((_ROWS, cylinders), layout.CYLINDER_EVENT)
        state, filled, end = advance(
            state, engines, factors, until, until_angle, rows, events, _ROWS
        )
        seen.append(rows[:filled, kept])
        if end == FAILED:
            raise FirstfireError(
                f"The engine could not be followed beyond {state.time[0]:.3g} s of its start: no "
                "step was small enough. Look for a volume, passage or inertia of absurd size."
            )
        if stop is not None and end != REACHED and stop():
            raise Stopped("The start was stopped.")
    return replace(turning, state=state), Spun.of(np.concatenate(seen))
