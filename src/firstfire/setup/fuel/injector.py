"""An injector against what this engine asks of it: pulses, duty, idle, end angles."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from firstfire.engine.battery import battery_of
from firstfire.engine.geometry import firing_angles
from firstfire.engine.injection import OVERLAP, arrives, end_angle
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.rules.fuelling import TOLD_DENSITY
from firstfire.formulas import injector as law
from firstfire.setup.fuel.drawn import Drawn, Points
from firstfire.setup.fuel.liquid import Liquid
from firstfire.setup.fuel.shared import Feeding, feeding

MOST_DUTY = 0.85
"""Share of a cycle that an injector may be switched on; beyond it it no longer shuts each time.
Common practice, no source."""
FLOW_OFF, DEAD_OFF = 0.05, 0.1
"""How far flow and dead time of one injector may be off what was told, 5-95 %, as shares. Common
practice, no source."""


@dataclass(frozen=True)
class Pulse:
    """An injector at one point.

    Attributes
    ----------
    point
        What is drawn there.
    over
        Pressure over it, Pa.
    flow
        Held open, kg/s.
    dead_time
        s.
    times
        That it is switched on for each cylinder in a cycle, s.
    low, high
        Of the first of them, 5-95 %, by what flow and dead time may be off.
    duty
        Share of the cycle that one injector is switched on.
    ends
        Crank angle after the firing top of cylinder 1 at which it is switched off for each
        cylinder, 0 to 4π rad.
    own_ends
        The same after each one's own firing top, rad.
    feeding
        How a shared one's fuel is parted; None where each has its own.
    """

    point: Drawn
    over: float
    flow: float
    dead_time: float
    times: tuple[float, ...]
    low: float
    high: float
    duty: float
    ends: tuple[float, ...]
    own_ends: tuple[float, ...]
    feeding: Feeding | None

    @property
    def given(self) -> tuple[float, float]:
        """Fuel of its first pulse over what is wanted, 5-95 %, as flow and dead time may be off."""
        on, wanted = self.times[0], self.point.at.fuel[0]
        low, high = (
            law.mass_given(on, self.flow * (1.0 + side * FLOW_OFF),
                           self.dead_time * (1.0 - side * DEAD_OFF)) / wanted
            for side in (-1.0, 1.0)
        )  # fmt: skip
        return low, high

    @property
    def open_time(self) -> float:
        """Least of its times that fuel flows, s."""
        return min(self.times) - self.dead_time


@dataclass(frozen=True)
class InjectorFacts:
    """An injector for an engine.

    Attributes
    ----------
    shared, count
        Whether one feeds all, and how many there are.
    flow
        That one passes held open at its regulator's pressure, kg/s.
    least_flow, most_flow
        That reach full power at `MOST_DUTY`, and that still repeat at idle, kg/s; the second None
        where it can't idle.
    pressures
        Over the regulator's place with which this one does both, Pa; None where none does, or one
        beyond what its flow can be scaled to.
    cranking_voltage
        At it while the starter turns, V.
    pulses
        At each point, cranking first.
    on_open
        Whether its fuel arrives while the inlet is open.
    """

    shared: bool
    count: int
    flow: float
    least_flow: float
    most_flow: float | None
    pressures: tuple[float, float] | None
    cranking_voltage: float
    pulses: tuple[Pulse, ...]
    on_open: bool

    @property
    def idle(self) -> Pulse | None:
        """At idle."""
        return next((one for one in self.pulses if one.point.kind == "idle"), None)

    @property
    def hardest(self) -> Pulse:
        """Where it is on longest of the cycle."""
        return max(self.pulses, key=lambda one: one.duty)


def injector_facts(plain: PlainEngine, fuel: Liquid, found: Points) -> InjectorFacts:
    """What this engine asks of its injector, and what that gives.

    Parameters
    ----------
    plain, fuel, found
        The engine, its fuel and the points it is sized by.

    Raises
    ------
    OutsideValidity
        Where dead time or flow aren't told for such a voltage or pressure.
    """
    shared = plain.injector.feeds == "all"
    volts = cranking_voltage(plain)
    pulses = tuple(_with_feeding(plain, pulse_at(plain, fuel, one)) for one in found.all)
    fired = [one for one in pulses if one.point.kind != "cranking"]
    idle = next((one for one in pulses if one.point.kind == "idle"), None)
    flow = held_open(plain, fuel, plain.injector.pressure)
    least = max(flow_for(one, shared) * flow / one.flow for one in fired)
    most = None if idle is None else _most(plain, idle) * flow / idle.flow
    return InjectorFacts(
        shared, 1 if shared else len(plain.cylinders), flow, least, most,
        _pressures(plain, fired, shared), volts, pulses,
        plain.injector.ends == "while_inlet_open",
    )  # fmt: skip


def held_open(plain: PlainEngine, fuel: Liquid, over: float) -> float:
    """Fuel through one injector held open, kg/s, at a pressure over it, Pa."""
    told = plain.injector
    return law.mass_flow(told.flow, told.flow_at, over, math.sqrt(TOLD_DENSITY * fuel.density))


def pressure_over(plain: PlainEngine, intake: float) -> float:
    """Pressure over an injector, Pa, with so much in the intake."""
    told = plain.injector
    if told.regulator == "intake":
        return told.pressure
    return told.pressure + plain.surroundings.air_pressure - intake


def cranking_voltage(plain: PlainEngine) -> float:
    """At an injector while the starter turns the engine, V; sags where they share a battery."""
    shared = plain.spark.coil_on == "starter_battery"
    battery = battery_of(plain.starter) if shared else None
    if battery is None:
        return plain.injector.voltage
    starter = plain.starter
    turns = plain.use.cranking_speed / starter.ratio
    return min(battery.left(turns, starter.no_load_speed), plain.injector.voltage)


def pulse_at(plain: PlainEngine, fuel: Liquid, point: Drawn) -> Pulse:
    """An injector at a point, without how a shared one's fuel is parted.

    Raises
    ------
    OutsideValidity
        As `injector_facts`.
    """
    at, told = point.at, plain.injector
    volts = cranking_voltage(plain) if point.kind == "cranking" else told.voltage
    over = pressure_over(plain, sum(at.intake) / len(at.intake))
    flow, dead = held_open(plain, fuel, over), law.dead_time(volts, told.dead_times)
    times = tuple(law.pulse(mass, flow, dead) for mass in at.fuel)
    spray = law.spray_speed(over, fuel.density)
    own = tuple(end_angle(plain, parts, at.speed, spray) for parts in plain.cylinders)
    fires = firing_angles(plain)
    ends = tuple((one + top) % (2.0 * OVERLAP) for one, top in zip(own, fires, strict=True))
    on = math.fsum(times) if told.feeds == "all" else max(times)
    opened = law.pulse(at.fuel[0], flow * (1.0 + FLOW_OFF), dead * (1.0 - DEAD_OFF))
    slower = law.pulse(at.fuel[0], flow * (1.0 - FLOW_OFF), dead * (1.0 + DEAD_OFF))
    return Pulse(
        point, over, flow, dead, times, opened, slower, on / at.seconds, ends, own,
        None,
    )  # fmt: skip


def _with_feeding(plain: PlainEngine, one: Pulse) -> Pulse:
    """With how its fuel is parted, where one injector feeds several."""
    if plain.injector.feeds != "all" or len(plain.cylinders) < 2:
        return one
    arrive = tuple(
        arrives(plain, parts) + top
        for parts, top in zip(plain.cylinders, firing_angles(plain), strict=True)
    )
    return replace(one, feeding=feeding(plain, one.point.at, arrive, one.flow))


def flow_for(one: Pulse, shared: bool) -> float:
    """Flow at this point with which one is on for `MOST_DUTY` at most, kg/s."""
    fuel, count = one.point.at.fuel, len(one.times) if shared else 1
    mass = math.fsum(fuel) if shared else max(fuel)
    return law.flow_wanted(mass, MOST_DUTY * one.point.at.seconds, count * one.dead_time)


def _most(plain: PlainEngine, idle: Pulse) -> float:
    """Flow at idle with which its pulses still repeat, kg/s."""
    return law.largest_flow(min(idle.point.at.fuel), plain.injector.smallest)


def _pressures(plain: PlainEngine, fired: list[Pulse], shared: bool) -> tuple[float, float] | None:
    """Pressures between which this injector does both, Pa, as far as its flow can be scaled."""
    told = plain.injector

    def at(one: Pulse, flow: float) -> float:
        """Of the regulator for a flow at a point; the intake's suction comes on top of it."""
        return law.regulator_for(flow, one.flow, one.over) - (one.over - told.pressure)

    low = max(at(one, flow_for(one, shared)) for one in fired)
    idle = next((one for one in fired if one.point.kind == "idle"), None)
    high = math.inf if idle is None else at(idle, _most(plain, idle))
    low, high = max(low, 0.25 * told.flow_at), min(high, 4.0 * told.flow_at)
    return (low, high) if low <= high else None
