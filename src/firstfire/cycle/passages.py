"""What flows through valves, throttle, leaks and breather, both ways, and what it carries."""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.layout import (
    ANGLE,
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
from firstfire.cycle.nozzle import flow_openings
from firstfire.cycle.work import WAY_BURNED, WAY_ENTHALPY, WAY_FUEL, WAY_MASS

CYCLE = 4.0 * math.pi

HAIR = 1e-7
"""How far ahead a valve is looked at to say whether it is open, rad."""


@kernel
def place_valves(engine: Any, work: Any, values: Floats) -> None:
    """Say which cam valves are open, and from which unwrapped angle.

    This holds up to the next angle at which one opens or closes, in the direction the shaft
    turns; forwards or backwards alike.
    """
    ahead = values[ANGLE] + math.copysign(HAIR, work.turn)
    for row in range(engine.valve_count):
        valve = engine.valves[row]
        if valve.suction >= 0:
            work.valve_open[row] = 1
        else:
            into = (ahead - valve.opens) % CYCLE
            work.valve_open[row] = 1 if into < valve.duration else 0
            work.valve_from[row] = ahead - into


@kernel_part
def valve_lift(engine: Any, work: Any, values: Floats, row: int) -> float:
    """Lift of any valve that may be open now, m."""
    valve = engine.valves[row]
    if valve.suction >= 0:
        risen: float = values[engine.suctions_at + valve.suction * SUCTION_SIZE + LIFT]
        return risen
    place = (values[0] - work.valve_from[row]) / valve.duration * (LIFT_POINTS - 1)
    point = min(max(int(place), 0), LIFT_POINTS - 2)
    part = min(max(place - point, 0.0), 1.0)
    lift: float = valve.lift[point] + part * (valve.lift[point + 1] - valve.lift[point])
    return lift


@kernel_part
def valve_area(valve: Any, lift: float) -> float:
    """Effective area of a valve: the smaller of curtain and throat, times its coefficient, m²."""
    # Not a number, too: a row of a table can't be found by one.
    if not lift > 0.0:
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
def line_up(engine: Any, work: Any, values: Floats) -> int:
    """Put every way that is open into the lane, seen from where its gas comes; say how many."""
    lane = work.lane
    count = 0
    for row in range(engine.way_count):
        way = engine.ways[row]
        area = way.area
        if way.valve >= 0:
            if work.valve_open[way.valve] == 0:
                continue
            area *= valve_area(
                engine.valves[way.valve], valve_lift(engine, work, values, way.valve)
            )
        up, down, sign = way.start, way.end, 1.0
        high = values[SHAFT_SIZE + up * VOLUME_SIZE + PRESSURE]
        low = values[SHAFT_SIZE + down * VOLUME_SIZE + PRESSURE]
        if high < low:
            if way.kind == ONE_WAY:
                continue
            up, down, sign = down, up, -1.0
            high, low = low, high
        if area > 0.0:
            lane.way[count], lane.up[count], lane.down[count] = row, up, down
            lane.sign[count], lane.area[count] = sign, area
            lane.high[count], lane.low[count] = high, low
            lane.specific[count] = work.stream[up].specific
            lane.over_gamma[count] = work.stream[up].over_gamma
            count += 1
    return count


@kernel
def flow_ways(engine: Any, work: Any, values: Floats, weight: float) -> None:
    """Let everything flow: fill in what comes into each volume and goes out, and the sums.

    Parameters
    ----------
    engine, work, values
        The engine; space, with all streams begun; the values.
    weight
        Of this stage in the sums.
    """
    lane = work.lane
    count = line_up(engine, work, values)
    work.open = count
    flow_openings(lane, count, engine.step.flow_band)
    for i in range(count):
        flow = lane.flow[i]
        stream, into = work.stream[lane.up[i]], work.stream[lane.down[i]]
        fuel, burned = flow * stream.fuel, flow * stream.burned
        enthalpy = flow * stream.enthalpy
        stream.out += flow
        into.in_air += flow * stream.air
        into.in_fuel += fuel
        into.in_burned += burned
        into.in_enthalpy += enthalpy
        signed = weight * lane.sign[i]
        sums = work.way_sums[lane.way[i]]
        sums[WAY_MASS] += signed * flow
        sums[WAY_FUEL] += signed * fuel
        sums[WAY_BURNED] += signed * burned
        sums[WAY_ENTHALPY] += signed * enthalpy


@kernel
def book_passages(engine: Any, work: Any, values: Floats, step: float) -> None:
    """Add what went through each way, per second, times a step, to the sums of its passages."""
    for row in range(engine.passage_count):
        passage = engine.passages[row]
        sums = work.way_sums[passage.way]
        share = passage.share * step
        at = engine.passage_sums_at + row * PASSAGE_SUMS
        passed = share * sums[WAY_MASS]
        values[at + PASSED_MASS] += passed
        values[at + PASSED_FUEL] += share * sums[WAY_FUEL]
        values[at + PASSED_BURNED] += share * sums[WAY_BURNED]
        values[at + PASSED_ENTHALPY] += share * sums[WAY_ENTHALPY]
        values[at + PASSED_BACK] += max(-passed, 0.0)
