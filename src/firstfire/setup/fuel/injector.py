"""An injector against what this engine asks of it: pulses, duty, idle, end angles."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from firstfire.engine.battery import battery_of
from firstfire.engine.geometry import firing_angles
from firstfire.engine.injection import OVERLAP, arrives, end_angle
from firstfire.engine.quantity import write_quantity
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.rules.fuelling import TOLD_DENSITY
from firstfire.errors import OutsideValidity, Problem
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
_INSIDE = 1.05


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
    least = max(_least(one, shared, flow) for one in fired)
    most = None if idle is None else _most(plain, idle, flow)
    return InjectorFacts(
        shared, 1 if shared else len(plain.cylinders), flow, least, most,
        _pressures(plain, flow, least, most), volts, pulses,
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


def _least(one: Pulse, shared: bool, flow: float) -> float:
    """Flow at the regulator's own pressure with which one is on for `MOST_DUTY` at most, kg/s."""
    fuel, count = one.point.at.fuel, len(one.times) if shared else 1
    mass = math.fsum(fuel) if shared else max(fuel)
    seconds = MOST_DUTY * one.point.at.seconds
    return law.flow_wanted(mass, seconds, count * one.dead_time) * flow / one.flow


def _most(plain: PlainEngine, idle: Pulse, flow: float) -> float:
    """Flow at the regulator's own pressure with which idle's pulses still repeat, kg/s."""
    most = law.largest_flow(min(idle.point.at.fuel), plain.injector.smallest)
    return most * flow / idle.flow


def _pressures(
    plain: PlainEngine, flow: float, least: float, most: float | None
) -> tuple[float, float] | None:
    """Pressures between which this injector does both, Pa, as far as its flow can be scaled."""
    told = plain.injector
    low = law.regulator_for(least, flow, told.pressure)
    high = law.regulator_for(most or 1e9, flow, told.pressure)
    low, high = max(low, 0.25 * told.flow_at), min(high, 4.0 * told.flow_at)
    return (low, high) if low <= high else None


def injector_faults(plain: PlainEngine, fuel: Liquid, facts: InjectorFacts) -> Iterator[Problem]:
    """What doesn't work with this injector, each with the nearest that does."""
    small, large = facts.flow < facts.least_flow, False
    if facts.most_flow is not None:
        large = facts.flow > facts.most_flow
        if facts.least_flow > facts.most_flow and (small or large):
            yield _neither(plain, fuel, facts)
            return
    said = write_quantity(plain.injector.flow, "volume_flow", digits=3)
    if small:
        hard = facts.hardest
        yield Problem(
            "injector.flow",
            f'is "{said}": too small, it would be on for {100 * hard.duty:.0f} % of the cycle at '
            f"{hard.point.name}",
            f"The nearest that works is {_told(plain, fuel, facts.least_flow * _INSIDE)}"
            f"{_or_pressure(plain, facts)}.",
        )
    if large and facts.idle is not None and facts.most_flow is not None:
        yield Problem(
            "injector.flow",
            f'is "{said}": too large at idle, fuel would flow for '
            f"{1e3 * facts.idle.open_time:.2f} ms and it repeats from "
            f"{1e3 * plain.injector.smallest:.2f} ms on",
            f"The nearest that works is {_told(plain, fuel, facts.most_flow / _INSIDE)}"
            f"{_or_pressure(plain, facts)}.",
        )
    for one in facts.pulses:
        if one.feeding is not None and one.feeding.overlap:
            yield Problem(
                "injector.feeds",
                f'is "all": at {one.point.name} a pulse is not over when the next must begin',
                'Fit one for each cylinder: injector.feeds = "each".',
            )
            break


def _told(plain: PlainEngine, fuel: Liquid, flow: float) -> str:
    """A flow, kg/s at the regulator's pressure, as a shop tells it."""
    told = plain.injector
    one = held_open(plain, fuel, told.pressure) / told.flow
    return f'"{write_quantity(flow / one, "volume_flow", digits=3)}"'


def _or_pressure(plain: PlainEngine, facts: InjectorFacts) -> str:
    """The regulator's nearest pressure that does it too; "" where none does."""
    if facts.pressures is None:
        return ""
    low, high = facts.pressures
    at = low * 1.02 if plain.injector.pressure < low else high / 1.02
    if not low <= at <= high:
        return ""
    return f', or injector.pressure = "{write_quantity(at, "pressure", digits=3)}" with this one'


def _neither(plain: PlainEngine, fuel: Liquid, facts: InjectorFacts) -> Problem:
    most = facts.most_flow or 0.0
    said = write_quantity(plain.injector.flow, "volume_flow", digits=3)
    cure = (
        'Fit one for each cylinder (injector.feeds = "each")' if facts.shared
        and len(plain.cylinders) > 1
        else "Fit one that repeats shorter pulses (injector.smallest), or idle faster"
    )  # fmt: skip
    return Problem(
        "injector.flow",
        f'is "{said}": full power wants {_told(plain, fuel, facts.least_flow)} at least and idle '
        f"{_told(plain, fuel, most)} at most, which no one injector is",
        f"{cure}; of the two, power's is the nearest.",
    )


def voltage_fault(plain: PlainEngine) -> Iterator[Problem]:
    """A voltage for which no dead time is told."""
    cranked = cranking_voltage(plain)
    for volts, path in ((plain.injector.voltage, "injector.voltage"),
                        (cranked, "injector.dead_times")):  # fmt: skip
        try:
            law.dead_time(volts, plain.injector.dead_times)
        except OutsideValidity:
            rows = plain.injector.dead_times
            yield Problem(
                path,
                f"doesn't reach the {volts:.3g} V that it gets "
                f"{'running' if path == 'injector.voltage' else 'while it is cranked'}: dead "
                f"times are told from {rows[0][0]:.3g} to {rows[-1][0]:.3g} V",
                "Measure its dead time there, or feed it from a battery of its own.",
            )


def over_faults(plain: PlainEngine) -> Iterator[Problem]:
    """A pressure too far from what the flow was told at."""
    told = plain.injector
    if not 0.25 * told.flow_at <= told.pressure <= 4.0 * told.flow_at:
        nearest = min(max(told.pressure, 0.25 * told.flow_at), 4.0 * told.flow_at)
        yield Problem(
            "injector.pressure",
            f'is "{write_quantity(told.pressure, "pressure", digits=3)}", too far from the '
            f"{write_quantity(told.flow_at, 'pressure', digits=3)} that its flow was told at",
            f'The nearest that can be reckoned is "{write_quantity(nearest, "pressure", digits=3)}'
            '".',
        )
