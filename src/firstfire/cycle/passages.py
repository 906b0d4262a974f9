"""What flows through valves, throttle, leaks and breather, both ways, and what it carries."""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel
from firstfire.cycle.layout import (
    CAM_VALVE,
    COEFFICIENT_POINTS,
    CYLINDER,
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
    SUCTION_VALVE,
    VOLUME_SIZE,
    EngineRecord,
    Floats,
    Offsets,
)
from firstfire.cycle.work import (
    F_AIR,
    F_BURNED,
    F_ENTHALPY,
    F_FUEL,
    F_PRESSURE_DOWN,
    F_PRESSURE_UP,
    F_SIGN,
    F_SLOPE_DOWN,
    F_SLOPE_UP,
    F_TEMPERATURE_DOWN,
    F_TEMPERATURE_UP,
    Z_BY_PRESSURE,
    Z_BY_TEMPERATURE,
    Z_CAPACITY,
    Z_ENTHALPY,
    Z_GAMMA,
    Z_GAS,
    Z_H_AIR,
    Z_H_BURNED,
    Z_H_FUEL,
    Z_MASS,
    Z_PUSH,
    Z_R_BURNED,
    Work,
)
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
def valve_lift(record: EngineRecord, offsets: Offsets, values: Floats, valve_row: int) -> float:
    """Lift of any valve now, m."""
    valve = record.valves[valve_row]
    if valve.suction >= 0:
        lift: float = values[offsets.suctions + valve.suction * SUCTION_SIZE + LIFT]
        return lift
    return cam_lift(valve, values[0])


@kernel
def passage_area(record: EngineRecord, offsets: Offsets, values: Floats, row: int) -> float:
    """Effective area of a passage now, m²."""
    passage = record.passages[row]
    if passage.kind == CAM_VALVE or passage.kind == SUCTION_VALVE:
        lift = valve_lift(record, offsets, values, passage.valve)
        valve = record.valves[passage.valve]
        doubt: float = passage.area
        return doubt * valve_area(valve, lift)
    area: float = passage.area
    return area


@kernel
def carry(
    record: EngineRecord,
    offsets: Offsets,
    work: Work,
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
    at = work.mass_at[zone]
    mass = work.zone[zone, Z_MASS]
    air = flow * values[at] / mass
    fuel = flow * values[at + 1] / mass
    burned = flow * values[at + 2] / mass
    enthalpy = flow * work.zone[zone, Z_ENTHALPY]
    if zone >= record.volumes.size or record.volumes[zone].kind != 0:
        stream_out(work, values, rates, zone, flow)
    if record.volumes[down].kind != 0:
        second = record.volumes.size + down
        share = 0.0
        if down < record.cylinders.size and work.zone[second, Z_MASS] > 0.0:
            share = work.zone[second, Z_MASS] / (
                work.zone[second, Z_MASS] + work.zone[down, Z_MASS]
            )
            stream_in(
                work,
                record.gas,
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
            record.gas,
            values,
            rates,
            down,
            rest * air,
            rest * fuel,
            rest * burned,
            rest * enthalpy,
        )
    sums = offsets.passage_sums + row * PASSAGE_SUMS
    rates[sums + PASSED_MASS] += sign * flow
    rates[sums + PASSED_FUEL] += sign * fuel
    rates[sums + PASSED_BURNED] += sign * burned
    rates[sums + PASSED_ENTHALPY] += sign * enthalpy
    if sign < 0.0:
        rates[sums + PASSED_BACK] += flow


@kernel
def stiffness(work: Work, zone: int) -> float:
    """How much volume a pressure is worth in a zone, with its temperature following, m³."""
    here = work.zone[zone]
    worth: float = (
        here[Z_BY_TEMPERATURE] * here[Z_PUSH] / here[Z_CAPACITY] + here[Z_BY_PRESSURE]
    )
    return worth


@kernel
def _answer_up(record: EngineRecord, work: Work, values: Floats, flow: Floats, up: int) -> None:
    """Pressure and temperature rates of the upstream volume for one kg/s out of it."""
    flow[F_PRESSURE_UP] = 0.0
    flow[F_TEMPERATURE_UP] = 0.0
    if record.volumes[up].kind == 0:
        return
    here = work.zone[up]
    temperature = values[work.temperature_at[up]]
    free = work.volume[up] - stiffness(work, up)
    flow[F_PRESSURE_UP] = -temperature * here[Z_GAS] / here[Z_MASS] / free
    flow[F_TEMPERATURE_UP] = here[Z_PUSH] / here[Z_CAPACITY] * flow[F_PRESSURE_UP]


@kernel
def _answer_down(
    record: EngineRecord, work: Work, values: Floats, flow: Floats, down: int
) -> None:
    """Pressure and temperature rates of the downstream volume for one kg/s into it."""
    flow[F_PRESSURE_DOWN] = 0.0
    flow[F_TEMPERATURE_DOWN] = 0.0
    if record.volumes[down].kind == 0:
        return
    here = work.zone[down]
    gas = record.gas
    temperature = values[work.temperature_at[down]]
    own = (
        flow[F_AIR] * here[Z_H_AIR]
        + flow[F_FUEL] * here[Z_H_FUEL]
        + flow[F_BURNED] * here[Z_H_BURNED]
    )
    heating = (flow[F_ENTHALPY] - own) / here[Z_CAPACITY]
    swell = temperature * (
        flow[F_AIR] * gas.gas_constant_air
        + flow[F_FUEL] * gas.gas_constant_fuel
        + flow[F_BURNED] * here[Z_R_BURNED]
    )
    free = work.volume[down] - stiffness(work, down)
    flow[F_PRESSURE_DOWN] = (swell + here[Z_BY_TEMPERATURE] * heating) / free
    flow[F_TEMPERATURE_DOWN] = (
        here[Z_PUSH] / here[Z_CAPACITY] * flow[F_PRESSURE_DOWN] + heating
    )


@kernel
def flow_passage(
    record: EngineRecord,
    offsets: Offsets,
    work: Work,
    values: Floats,
    rates: Floats,
    row: int,
    first: bool,
) -> None:
    """Let one passage flow; on the first stage of a step also prepare its implicit part."""
    passage = record.passages[row]
    if first:
        work.up[row] = -1
    area = passage_area(record, offsets, values, row)
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
    second = record.volumes.size + up
    mass = work.zone[up, Z_MASS]
    product = work.zone[up, Z_GAS] * values[work.temperature_at[up]]
    gamma = work.zone[up, Z_GAMMA]
    burning = up < record.cylinders.size and work.zone[second, Z_MASS] > 0.0
    if burning:
        mass += work.zone[second, Z_MASS]
        product += work.zone[second, Z_GAS] * values[work.temperature_at[second]]
        gamma = work.zone[second, Z_GAMMA]
    # Only the product of gas constant and temperature enters.
    specific = product / mass
    band = record.step[0].flow_band
    flow = mass_flow(area, pressure_up, specific, 1.0, gamma, pressure_down, band)
    if burning:
        share = work.zone[second, Z_MASS] / mass
        carry(record, offsets, work, values, rates, row, second, down, share * flow, sign)
        carry(record, offsets, work, values, rates, row, up, down, (1.0 - share) * flow, sign)
    else:
        carry(record, offsets, work, values, rates, row, up, down, flow, sign)
    if first and not burning:
        if down < record.cylinders.size and work.zone[record.volumes.size + down, Z_MASS] > 0.0:
            return
        work.up[row] = up
        work.down[row] = down
        here = work.flow[row]
        drop = max(1.0 - pressure_down / pressure_up, 0.36 * band)
        slope = 0.0
        if drop < 0.45:
            slope = area / math.sqrt(specific) * (0.7071 / math.sqrt(drop) - 0.8 * math.sqrt(drop))
            slope = max(slope, 0.0)
        here[F_SLOPE_DOWN] = -slope
        here[F_SLOPE_UP] = slope + flow / pressure_up
        at = work.mass_at[up]
        here[F_AIR] = values[at] / mass
        here[F_FUEL] = values[at + 1] / mass
        here[F_BURNED] = values[at + 2] / mass
        here[F_ENTHALPY] = work.zone[up, Z_ENTHALPY]
        here[F_SIGN] = sign
        _answer_up(record, work, values, here, up)
        _answer_down(record, work, values, here, down)
