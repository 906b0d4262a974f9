"""Fuel while it is cold: start, warm-up, the air's density, and what to prime it with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity, Stopped
from firstfire.formulas import atmosphere, injector
from firstfire.runs.cranking import cranked
from firstfire.runs.fuelled import FuelState, mixture, next_cycle
from firstfire.runs.start.asked import CHOKED, Asked, Wrong
from firstfire.runs.start.fuelling import path_of, pulse_volume
from firstfire.runs.start.priming import Priming, priming
from firstfire.runs.start.turned_by import turned_by
from firstfire.runs.start.vapour import components
from firstfire.setup.fuel.drawn import Drawn, Points, Stop

ZERO = 273.15
COLD = tuple(ZERO + warm for warm in (-10.0, 0.0, 10.0, 20.0, 30.0))
WARMING = tuple(ZERO + warm for warm in (-10.0, 0.0, 10.0, 20.0, 40.0, 60.0, 80.0))
AIR = tuple(ZERO + warm for warm in (-10.0, 0.0, 10.0, 20.0, 30.0, 40.0))
_CYCLES = 60
_QUICKEST = 4.0 / 3.0
_STEPS = 10
_NOT_OVER = "its starter doesn't turn it over its tops, so that it draws no charge"


@dataclass(frozen=True)
class Times:
    """How many times a warm engine's fuel it wants at a temperature.

    Attributes
    ----------
    temperature
        Of its walls and, up to that of the day, of its air, K.
    times
        None: four times as much do not make the mixture.
    """

    temperature: float
    times: float | None


@dataclass(frozen=True)
class Density:
    """What the air's temperature does to the fuel that it asks for."""

    temperature: float
    times: float


@dataclass(frozen=True)
class ColdFacts:
    """Fuel while it is cold.

    Attributes
    ----------
    start
        Of a first charge, drawn while cranking into a dry engine; empty for a gas.
    warm_up
        At idle, once film and liquid have settled; empty for a gas or one that can't idle.
    density
        Of a warm engine, by the air's temperature against the day's, at the same pressure.
    per_kilopascal
        More fuel for one kPa more of air, as a share.
    primed, primed_map
        Pulses of fuel before the first turn, without choke or start map and with four times the
        fuel from that; None for a gas.
    each
        Liquid of one such pulse, m³; None for a gas.
    on
        How long the injector is switched on for that while it is cranked, s; None without one.
    why_no_priming
        Why priming of a liquid is not judged; "" where it is.
    """

    start: tuple[Times, ...]
    warm_up: tuple[Times, ...]
    density: tuple[Density, ...]
    per_kilopascal: float
    primed: Priming | None
    primed_map: Priming | None
    each: float | None
    on: float | None = None
    why_no_priming: str = ""


def cold_facts(plain: PlainEngine, found: Points, stop: Stop = None) -> ColdFacts:
    """What an engine asks of its fuel while it or the air is cold."""
    around = plain.surroundings
    density = tuple(Density(warm, _denser(plain, warm)) for warm in AIR)
    one = 1e3 / around.air_pressure
    if plain.fuel.gas:
        return ColdFacts((), (), density, one, None, None, None)
    start = tuple(Times(warm, first_charge(plain, found.cranking, warm)) for warm in COLD)
    warm_up = (
        () if found.idle is None
        else tuple(Times(warm, settled(plain, found.idle, warm, stop)) for warm in WARMING)
    )  # fmt: skip
    turned = cranked(plain, stop=stop, shaft=turned_by(plain, Wrong()))
    if not turned.over:
        return ColdFacts(start, warm_up, density, one, None, None, pulse_volume(plain),
                         why_no_priming=_NOT_OVER)  # fmt: skip
    bare, mapped = (
        priming(plain, replace(Asked(), enriched=much), turned.shaft, stop)
        for much in (1.0, CHOKED)
    )
    return ColdFacts(start, warm_up, density, one, bare, mapped, pulse_volume(plain))


def with_pulse(facts: ColdFacts, density: float, flow: float, dead_time: float) -> ColdFacts:
    """The same with how long an injector is on for one priming pulse.

    Parameters
    ----------
    facts
        Without.
    density, flow, dead_time
        Of the fuel, kg/m³; of the injector while cranking, kg/s and s.
    """
    if facts.each is None:
        return facts
    return replace(facts, on=injector.pulse(facts.each * density, flow, dead_time))


def _denser(plain: PlainEngine, temperature: float) -> float:
    """Density of the air over the day's; its steam as dry or damp as the day's."""
    around = plain.surroundings
    day = atmosphere.moist_air_density(around.air_pressure, around.air_temperature, around.humidity)
    return atmosphere.moist_air_density(around.air_pressure, temperature, around.humidity) / day


def _cycle(
    plain: PlainEngine, point: Drawn, warm: float, state: FuelState, times: float
) -> tuple[FuelState, float]:
    """Fuel after one more cycle metered so many times what is asked, and its mixture."""
    air = point.at.air[0]
    after = next_cycle(
        state, path_of(plain, plain.cylinders[0]), fuel=components(plain.fuel), air_mass=air,
        port_temperature=warm, air_temperature=min(warm, plain.surroundings.air_temperature),
        air_pressure=point.at.intake[0], metered_mass=times * point.at.fuel[0],
        cycle_seconds=point.at.seconds,
    )  # fmt: skip
    return after.state, mixture(after, air)


def first_charge(plain: PlainEngine, point: Drawn, warm: float) -> float | None:
    """Times the fuel with which a dry engine's first charge comes to its mixture."""
    wanted = plain.intake.equivalence_ratio

    def reached(times: float) -> float:
        return _cycle(plain, point, warm, FuelState(), times)[1]

    try:
        if reached(CHOKED) < wanted:
            return None
    except OutsideValidity:
        return None
    low, high = 0.0, CHOKED
    for _ in range(_STEPS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if reached(middle) < wanted else (low, middle)
    return high


def settled(
    plain: PlainEngine, point: Drawn, warm: float, stop: Callable[[], bool] | None = None
) -> float | None:
    """Times the fuel that keeps the mixture once film and liquid have settled."""
    wanted = plain.intake.equivalence_ratio
    state, times = FuelState(), 1.0
    phi = 0.0
    for _ in range(_CYCLES):
        if stop is not None and stop():
            raise Stopped("Stopped.")
        state, phi = _cycle(plain, point, warm, state, times)
        better = times * wanted / phi if phi > 0.0 else CHOKED
        times = min(max(better, times / _QUICKEST), times * _QUICKEST, CHOKED)
    return None if phi < 0.9 * wanted else times
