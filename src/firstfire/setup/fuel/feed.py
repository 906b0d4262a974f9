"""From the open air and the tank to where they meet: throttle, cleaner, hose, head, pump."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.quantity import write_quantity
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import Problem
from firstfire.formulas import pipe_flow
from firstfire.formulas.carburettor import GRAVITY
from firstfire.setup.fuel.drawn import Drawn, Points, Stop
from firstfire.setup.fuel.liquid import Liquid
from firstfire.setup.fuel.nearest import nearest_bore
from firstfire.setup.fuel.venturi import throats

FACE = {"foam": 1.0, "paper": 0.3, "gauze": 3.0}
"""Speed of the mean air through a cleaner's face, m/s. Common practice, no source."""
SURE, SPARE = 3.0, 10e-3
"""Head over what the hose costs, times, and what a float's needle wants beyond, m. Common
practice, no source."""
PUMP_SHARE, PUMP_SPARE = 0.15, 1.5
"""What of a small electric pump's power becomes flow, and flow over the most fuel, which the
regulator sends back. Common practice, no source."""
THROTTLE_FAST, _THROTTLE_SLOW = 150.0, 15.0
"""Speed of the air in a throttle while most flows, m/s: beyond the first it costs power, under the
second a throttle works like a switch. Common practice, no source."""
SMALLEST_BORE = 2e-3
"""Of a hose that dirt doesn't block, m. Common practice, no source."""


@dataclass(frozen=True)
class FeedFacts:
    """All from the tank to where fuel is metered, and the air's way there.

    Attributes
    ----------
    most, idle
        Fuel at full power and at idle, m³/s (of a gas as it is metered); idle None where it can't.
    tank_full, tank_idle
        How long a full tank lasts, s; None of a gas bottle, whose filling is told by mass.
    throttle, throttle_speed
        Bore of the throttle, m, and speed of the air in it while most flows, m/s.
    throttle_narrow, throttle_wide
        Bores between which that speed is sensible, m.
    cleaner_area
        Face of the air cleaner, m², by its kind; of foam where there is none.
    hose_loss, hose_bore
        Pressure that the hose costs at full power, Pa, and narrowest bore that does, m.
    head_wanted
        Least head, m; None where a pump or a bottle drives it.
    pump_flow, pump_pressure, pump_power, pump_current
        That a pump must give, m³/s at Pa, and what it takes, W and A; None without one.
    chill
        Heat that a bottle must take up from the air at full power, W; None of a liquid.
    """

    most: float
    idle: float | None
    tank_full: float | None
    tank_idle: float | None
    throttle: float
    throttle_speed: float
    throttle_narrow: float
    throttle_wide: float
    cleaner_area: float
    hose_loss: float | None
    hose_bore: float | None
    head_wanted: float | None
    pump_flow: float | None
    pump_pressure: float | None
    pump_power: float | None
    pump_current: float | None
    chill: float | None


def feed_facts(plain: PlainEngine, fuel: Liquid, found: Points) -> FeedFacts:
    """What this engine asks of tank, hose, pump, throttle and air cleaner."""
    most = found.most.at.fuel_flow / fuel.density
    idle = found.idle.at.fuel_flow / fuel.density if found.idle else None
    volume = plain.tank.volume
    loss = None if fuel.gas else _loss(plain, fuel, most)
    pumped = plain.tank.feed == "pump" and not fuel.gas
    pressure = plain.injector.pressure if plain.intake.mixture_by == "injector" else 0.2e5
    power = pipe_flow.pump_power(PUMP_SPARE * most, pressure, PUMP_SHARE) if pumped else None
    air, speed, narrow, wide = _throttle(plain, found.full)
    kind = plain.intake.air_cleaner
    return FeedFacts(
        most, idle,
        None if fuel.gas else volume / most,
        None if fuel.gas or not idle else volume / idle,
        plain.intake.throttle_diameter, speed, narrow, wide,
        air / FACE["foam" if kind == "none" else kind],
        loss, _bore(plain, fuel, most),
        None if loss is None or plain.tank.feed != "gravity"
        else SPARE + SURE * loss / (fuel.density * GRAVITY),
        PUMP_SPARE * most if pumped else None, pressure if pumped else None, power,
        None if power is None else power / plain.injector.voltage,
        found.most.at.fuel_flow * fuel.latent if fuel.gas else None,
    )  # fmt: skip


def _loss(plain: PlainEngine, fuel: Liquid, most: float) -> float:
    tank = plain.tank
    return pipe_flow.pressure_loss(
        most, tank.hose_bore, tank.hose_length, fuel.density, fuel.viscosity
    )


def _bore(plain: PlainEngine, fuel: Liquid, most: float) -> float | None:
    """Narrowest hose that carries full power, m: by its head, or costing a pump 5 kPa."""
    if fuel.gas:
        return None
    tank = plain.tank
    there = fuel.density * GRAVITY * (tank.head - SPARE) / SURE if tank.feed == "gravity" else 5e3
    if there <= 0.0:
        return None
    found = pipe_flow.bore_wanted(most, there, tank.hose_length, fuel.density, fuel.viscosity)
    return max(found, SMALLEST_BORE)


def _throttle(plain: PlainEngine, full: tuple[Drawn, ...]) -> tuple[float, float, float, float]:
    """Mean air of one throat, m³/s; its speed; bores at which that would be sensible, m."""
    around = plain.surroundings
    density = around.air_pressure / (287.04 * around.air_temperature)
    mean = max(one.at.air_flow for one in full) / throats(plain) / density
    per = len(plain.cylinders) / throats(plain)
    peak = mean * math.pi / (2.0 * min(0.27 * per, 1.0))
    area = math.pi / 4 * plain.intake.throttle_diameter**2

    def bore(speed: float) -> float:
        return math.sqrt(4.0 / math.pi * peak / speed)

    return mean, peak / area, bore(THROTTLE_FAST), bore(_THROTTLE_SLOW)


def feed_faults(
    engine: Engine, plain: PlainEngine, fuel: Liquid, facts: FeedFacts, stop: Stop = None
) -> Iterator[Problem]:
    """What doesn't work between tank and engine, each with the nearest that does."""
    tank = plain.tank
    if fuel.gas != (tank.feed == "bottle"):
        nearest = "bottle" if fuel.gas else "pump"
        yield Problem(
            "tank.feed",
            f'is "{tank.feed}", and {fuel.name} is {"a gas" if fuel.gas else "a liquid"}',
            f'The nearest that works is "{nearest}".',
        )  # fmt: skip
        return
    if plain.intake.mixture_by == "injector" and tank.feed == "gravity":
        head = plain.injector.pressure / (fuel.density * GRAVITY)
        yield Problem(
            "tank.feed",
            f'is "gravity": the injector\'s {write_quantity(plain.injector.pressure, "pressure")} '
            f"would be a head of {head:.0f} m",
            'The nearest that works is "pump".',
        )
        return
    yield from _head_fault(plain, facts)
    if facts.pump_flow and tank.pump_flow is not None and tank.pump_flow < facts.pump_flow:
        yield Problem(
            "tank.pump_flow",
            f'is "{_flow(tank.pump_flow)}": too little, the most fuel and what the regulator '
            "sends back are more",
            f'The nearest that works is "{_flow(1.01 * facts.pump_flow)}" at '
            f"{write_quantity(facts.pump_pressure or 0.0, 'pressure', digits=3)}.",
        )
    yield from _throttle_fault(engine, facts, stop)


def _head_fault(plain: PlainEngine, facts: FeedFacts) -> Iterator[Problem]:
    tank = plain.tank
    if facts.head_wanted is None or tank.head >= facts.head_wanted:
        return
    said = write_quantity(tank.head, "length", digits=3)
    higher = math.ceil(1e3 * facts.head_wanted)
    wider = ""
    if facts.hose_bore is not None and facts.hose_bore > tank.hose_bore:
        bore = write_quantity(facts.hose_bore, "length", digits=2)
        wider = f', or tank.hose_bore = "{bore}"'
    yield Problem(
        "tank.head",
        f'is "{said}": too low, full power wants {higher} mm through this hose',
        f'The nearest that works is "{higher} mm"{wider}, or tank.feed = "pump".',
    )


def _throttle_fault(engine: Engine, facts: FeedFacts, stop: Stop) -> Iterator[Problem]:
    if facts.throttle_narrow <= facts.throttle <= facts.throttle_wide:
        return
    said = write_quantity(facts.throttle, "length", digits=3)
    what = (
        "too narrow, air would pass it at"
        if facts.throttle < facts.throttle_narrow
        else "so wide that it works like a switch, air passes it at"
    )
    path = "intake.throttle_diameter"
    nearest = nearest_bore(engine, path, _throttle_bounds, stop)
    cure = (
        "None works at these speeds: change use.full_throttle_speeds."
        if nearest is None
        else f'The nearest that works is "{nearest}".'
    )
    yield Problem(path, f'is "{said}": {what} {facts.throttle_speed:.0f} m/s', cure)


def _throttle_bounds(plain: PlainEngine, full: tuple[Drawn, ...]) -> tuple[float, float, float]:
    _, _, narrow, wide = _throttle(plain, full)
    return plain.intake.throttle_diameter, narrow, wide


def _flow(flow: float) -> str:
    return write_quantity(flow, "volume_flow", digits=3)
