"""What flows through valves, throttle, leaks and breather, both ways, and what it carries."""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel
from firstfire.cycle.layout import (
    COEFFICIENT_POINTS,
    LIFT,
    LIFT_POINTS,
    ONE_WAY,
    PASSAGE_SUMS,
    PASSED_BACK,
    PASSED_BURNED,
    PASSED_ENTHALPY,
    PASSED_FUEL,
    PASSED_MASS,
    PRESSURE,
    SHAFT_SIZE,
    SUCTION_SIZE,
    VOLUME_SIZE,
    Floats,
)
from firstfire.cycle.mixture import mixture_state
from firstfire.cycle.zones import stream_in, stream_out
from firstfire.formulas import nozzle_flow

mass_flow = kernel(nozzle_flow.mass_flow)

TURN = 2.0 * math.pi
CYCLE = 4.0 * math.pi


@kernel
def cam_lift(valve: Any, angle: float) -> float:
    """Lift of a cam-worked valve at an unwrapped shaft angle, forwards or backwards, m."""
    into = (angle - valve.opens) % CYCLE
    if into >= valve.duration:
        return 0.0
    place = into / valve.duration * (LIFT_POINTS - 1)
    point = min(int(place), LIFT_POINTS - 2)
    part = place - point
    lift: float = valve.lift[point] + part * (valve.lift[point + 1] - valve.lift[point])
    return lift


@kernel
def valve_area(valve: Any, lift: float) -> float:
    """Effective area of a valve: the smaller of curtain and throat, times its coefficient, m²."""
    if lift <= 0.0:
        return 0.0
    place = min(lift / valve.head_diameter / 0.4, 1.0) * (COEFFICIENT_POINTS - 1)
    point = min(int(place), COEFFICIENT_POINTS - 2)
    part = place - point
    coefficient = valve.coefficient[point] + part * (
        valve.coefficient[point + 1] - valve.coefficient[point]
    )
    curtain = math.pi * valve.head_diameter * lift * valve.seat_cosine
    area: float = coefficient * min(curtain, valve.throat_area)
    return area


@kernel
def valve_lift(engine: Any, values: Floats, valve_row: int) -> float:
    """Lift of any valve now, m."""
    valve = engine.valves[valve_row]
    if valve.suction >= 0:
        lift: float = values[engine.suctions_at + valve.suction * SUCTION_SIZE + LIFT]
        return lift
    return cam_lift(valve, values[0])


@kernel
def passage_area(engine: Any, values: Floats, row: int) -> float:
    """Effective area of a passage now, m²."""
    passage = engine.passages[row]
    if passage.valve >= 0:
        lift = valve_lift(engine, values, passage.valve)
        valve = engine.valves[passage.valve]
        doubt: float = passage.area
        return doubt * valve_area(valve, lift)
    area: float = passage.area
    return area


@kernel
def coefficient_slope(drop: float, band: float) -> float:
    """How the flow coefficient of :mod:`firstfire.formulas.nozzle_flow` grows with the drop.

    Exact in the laminar band, where it counts: an implicit step that thinks an opening softer
    than it is swings to and fro. Elsewhere to first order in the drop; zero once choked.
    """
    if drop < band:
        part = drop / band
        return math.sqrt(2.0 / band) * (15.0 - part * (20.0 - 9.0 * part)) / 8.0
    root = math.sqrt(drop)
    return max(0.7071 / root - 0.8 * root, 0.0)


@kernel
def carry(
    engine: Any,
    work: Any,
    values: Floats,
    rates: Floats,
    row: int,
    zone: int,
    down: int,
    flow: float,
    sign: float,
) -> None:
    """Carry a flow, kg/s, from a zone into a volume, with the zone's enthalpy and composition.

    A burning cylinder shares what comes in between its zones by mass.
    """
    at = work.zone[zone].mass_at
    mass = work.zone[zone].mass
    air = flow * values[at] / mass
    fuel = flow * values[at + 1] / mass
    burned = flow * values[at + 2] / mass
    enthalpy = flow * work.zone[zone].enthalpy
    if zone >= engine.volume_count or engine.volumes[zone].kind != 0:
        stream_out(work, values, rates, zone, flow)
    if engine.volumes[down].kind != 0:
        second = engine.volume_count + down
        share = 0.0
        if down < engine.cylinder_count and work.zone[second].mass > 0.0:
            share = work.zone[second].mass / (work.zone[second].mass + work.zone[down].mass)
            stream_in(
                work,
                engine.gas,
                values,
                rates,
                second,
                share * air,
                share * fuel,
                share * burned,
                share * enthalpy,
            )
        rest = 1.0 - share
        stream_in(
            work,
            engine.gas,
            values,
            rates,
            down,
            rest * air,
            rest * fuel,
            rest * burned,
            rest * enthalpy,
        )
    sums = engine.passage_sums_at + row * PASSAGE_SUMS
    rates[sums + PASSED_MASS] += sign * flow
    rates[sums + PASSED_FUEL] += sign * fuel
    rates[sums + PASSED_BURNED] += sign * burned
    rates[sums + PASSED_ENTHALPY] += sign * enthalpy
    if sign < 0.0:
        rates[sums + PASSED_BACK] += flow


@kernel
def stiffness(work: Any, zone: int) -> float:
    """How much volume a pressure is worth in a zone, with its temperature following, m³."""
    here = work.zone[zone]
    worth: float = here.by_temperature * here.push / here.capacity + here.by_pressure
    return worth


@kernel
def _answer_up(engine: Any, work: Any, values: Floats, flow: Any, up: int) -> None:
    """Pressure and temperature rates of the upstream volume for one kg/s out of it."""
    flow.pressure_up = 0.0
    flow.temperature_up = 0.0
    if engine.volumes[up].kind == 0:
        return
    here = work.zone[up]
    temperature = values[work.zone[up].temperature_at]
    free = work.volume[up] - stiffness(work, up)
    flow.pressure_up = -temperature * here.constant / here.mass / free
    flow.temperature_up = here.push / here.capacity * flow.pressure_up


@kernel
def _answer_down(engine: Any, work: Any, values: Floats, flow: Any, down: int) -> None:
    """Pressure and temperature rates of the downstream volume for one kg/s into it."""
    flow.pressure_down = 0.0
    flow.temperature_down = 0.0
    if engine.volumes[down].kind == 0:
        return
    here = work.zone[down]
    temperature = values[work.zone[down].temperature_at]
    own, _, _, constant, _, _ = mixture_state(
        engine.gas, flow.air, flow.fuel, flow.burned, temperature, here.pressure
    )
    heating = (flow.enthalpy - own) / here.capacity
    swell = temperature * constant
    free = work.volume[down] - stiffness(work, down)
    flow.pressure_down = (swell + here.by_temperature * heating) / free
    flow.temperature_down = here.push / here.capacity * flow.pressure_down + heating


@kernel
def flow_passage(
    engine: Any,
    work: Any,
    values: Floats,
    rates: Floats,
    row: int,
    first: bool,
) -> None:
    """Let one passage flow; on the first stage of a step also prepare its implicit part."""
    passage = engine.passages[row]
    if first:
        work.flow[row].up = -1
    area = passage_area(engine, values, row)
    if area <= 0.0:
        return
    up, down, sign = passage.start, passage.end, 1.0
    pressure_up = values[SHAFT_SIZE + up * VOLUME_SIZE + PRESSURE]
    pressure_down = values[SHAFT_SIZE + down * VOLUME_SIZE + PRESSURE]
    if pressure_up < pressure_down:
        if passage.kind == ONE_WAY:
            return
        up, down, sign = down, up, -1.0
        pressure_up, pressure_down = pressure_down, pressure_up
    second = engine.volume_count + up
    mass = work.zone[up].mass
    product = work.zone[up].constant * values[work.zone[up].temperature_at]
    gamma = work.zone[up].gamma
    burning = up < engine.cylinder_count and work.zone[second].mass > 0.0
    if burning:
        mass += work.zone[second].mass
        product += work.zone[second].constant * values[work.zone[second].temperature_at]
        gamma = work.zone[second].gamma
    # Only the product of gas constant and temperature enters.
    specific = product / mass
    band = engine.step.flow_band
    flow = mass_flow(area, pressure_up, specific, 1.0, gamma, pressure_down, band)
    if burning:
        share = work.zone[second].mass / mass
        carry(engine, work, values, rates, row, second, down, share * flow, sign)
        carry(engine, work, values, rates, row, up, down, (1.0 - share) * flow, sign)
    else:
        carry(engine, work, values, rates, row, up, down, flow, sign)
    if first and not burning:
        if down < engine.cylinder_count and work.zone[engine.volume_count + down].mass > 0.0:
            return
        work.flow[row].up = up
        work.flow[row].down = down
        here = work.flow[row]
        drop = 1.0 - pressure_down / pressure_up
        slope = area / math.sqrt(specific) * coefficient_slope(drop, band)
        here.slope_down = -slope
        here.slope_up = slope + flow / pressure_up
        at = work.zone[up].mass_at
        here.air = values[at] / mass
        here.fuel = values[at + 1] / mass
        here.burned = values[at + 2] / mass
        here.enthalpy = work.zone[up].enthalpy
        here.sign = sign
        _answer_up(engine, work, values, here, up)
        _answer_down(engine, work, values, here, down)
