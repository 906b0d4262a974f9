"""The implicit part of a step: flows between volumes whose pressures have nearly met.

An open valve pulls two pressures together the faster the closer they are: V/(A c)·√(Δp/2γp),
without limit. Only this is treated implicitly, and only for the ways that answer within the
step. Flows are linear in the rates, so the Jacobian kept is ``J = G D``: D how each flow answers
the pressures at its ends, G what one kg/s does to the values. A stage then costs one small solve
for the pressures, and every value, composition and sum of a passage gets the corrected flow:
mass and energy stay booked.
"""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.layout import (
    AIR,
    BURNED,
    FIXED,
    FUEL,
    PRESSURE,
    SHAFT_SIZE,
    TEMPERATURE,
    VOLUME_SIZE,
    Floats,
)
from firstfire.cycle.work import WAY_BURNED, WAY_ENTHALPY, WAY_FUEL, WAY_MASS
from firstfire.cycle.zones import heating_of, swelling_of

LOOSE = 0.05
"""Step times rate of a way below which its flow stays explicit."""


@kernel_part
def coefficient_slope(drop: float, band: float) -> float:
    """How the flow coefficient of :mod:`firstfire.formulas.nozzle_flow` grows with the drop.

    Exact in the laminar band, where it counts: an implicit step that thinks an opening softer
    than it is swings to and fro. Elsewhere never softer, and up to a drop of a fifth stiffer by a
    quarter at most.
    """
    if drop < band:
        part = drop / band
        return math.sqrt(2.0 / band) * (15.0 - part * (20.0 - 9.0 * part)) / 8.0
    root = math.sqrt(drop)
    return max(0.7071 / root - 0.8 * root, 0.0)


@kernel
def find_stiff(engine: Any, work: Any, step: float) -> None:
    """List the ways that answer within a step, s; all is as the step's first stage left it.

    Ways of a burning cylinder are left out: its valves are shut, and its leaks slow.
    """
    lane = work.lane
    band = engine.step.flow_band
    work.stiff_count = 0
    for i in range(work.open):
        up, down = lane.up[i], lane.down[i]
        fixed_up = engine.volumes[up].kind == FIXED
        fixed_down = engine.volumes[down].kind == FIXED
        source, target = work.stream[up], work.stream[down]
        if not (fixed_up or source.free > 0.0) or not (fixed_down or target.free > 0.0):
            continue
        high = lane.high[i]
        # Most leaks to the open air are far from stiff: an upper bound says so without a division.
        # The flow's slope is at most twice the flow over its drop, a volume's stiffness not half.
        if fixed_down and 4.0 * lane.flow[i] * step * source.specific < LOOSE * work.volume[up] * (
            high - lane.low[i]
        ):
            continue
        slope = lane.area[i] / math.sqrt(source.specific)
        slope *= coefficient_slope(1.0 - lane.low[i] / high, band)
        slope_up = slope + lane.flow[i] / high
        flow = work.stiff[work.stiff_count]
        flow.pressure_up = flow.temperature_up = 0.0
        flow.pressure_down = flow.temperature_down = 0.0
        if not fixed_up:
            here = work.zone[up]
            flow.pressure_up = -here.specific / source.free
            flow.temperature_up = here.warming * flow.pressure_up
        if not fixed_down:
            here = work.zone[down]
            heating = heating_of(here, source.air, source.fuel, source.burned, source.enthalpy)
            swelling = swelling_of(here, engine.gas, source.air, source.fuel, source.burned)
            flow.pressure_down = (swelling + here.by_temperature * heating) / target.free
            flow.temperature_down = here.warming * flow.pressure_down + heating
        rate = flow.pressure_down * slope - flow.pressure_up * slope_up
        if rate * step <= LOOSE:
            continue
        work.stiff_count += 1
        flow.way, flow.up, flow.down, flow.sign = lane.way[i], up, down, lane.sign[i]
        flow.slope_up, flow.slope_down = slope_up, -slope
        flow.air, flow.fuel, flow.burned = source.air, source.fuel, source.burned
        flow.enthalpy = source.enthalpy


@kernel_part
def number_unknowns(engine: Any, work: Any) -> None:
    """Number the pressures that stiff ways answer to; fixed ones share the place behind all."""
    for volume in range(engine.volume_count):
        work.place[volume] = -1
    for i in range(work.stiff_count):
        work.place[work.stiff[i].up] = 0
        work.place[work.stiff[i].down] = 0
    count = 0
    for i in range(engine.moving_count):
        volume = engine.moving_volumes[i]
        if work.place[volume] == 0:
            work.place[volume] = count
            work.unknown[count] = volume
            count += 1
    work.unknowns = count
    for i in range(work.stiff_count):
        flow = work.stiff[i]
        fixed_up = engine.volumes[flow.up].kind == FIXED
        fixed_down = engine.volumes[flow.down].kind == FIXED
        flow.up_place = count if fixed_up else work.place[flow.up]
        flow.down_place = count if fixed_down else work.place[flow.down]


@kernel
def factor(engine: Any, work: Any, step: float) -> None:
    """Put ``I − step G D`` of the pressures into the work space, factored without pivoting.

    Its diagonal outweighs its off-diagonals, as gas drawn from one volume raises another.
    """
    number_unknowns(engine, work)
    matrix, size = work.matrix, work.unknowns
    for row in range(size):
        for column in range(size):
            matrix[row, column] = 0.0
        matrix[row, row] = 1.0
    for i in range(work.stiff_count):
        flow = work.stiff[i]
        up, down = flow.up_place, flow.down_place
        if up < size:
            matrix[up, up] -= step * flow.pressure_up * flow.slope_up
            if down < size:
                matrix[up, down] -= step * flow.pressure_up * flow.slope_down
                matrix[down, up] -= step * flow.pressure_down * flow.slope_up
        if down < size:
            matrix[down, down] -= step * flow.pressure_down * flow.slope_down
    for pivot in range(size):
        # The diagonal is kept as its inverse: division is slow.
        inverse = 1.0 / matrix[pivot, pivot]
        matrix[pivot, pivot] = inverse
        for row in range(pivot + 1, size):
            if matrix[row, pivot] != 0.0:
                part = matrix[row, pivot] * inverse
                matrix[row, pivot] = part
                for column in range(pivot + 1, size):
                    matrix[row, column] -= part * matrix[pivot, column]


@kernel_part
def solve(matrix: Floats, right: Floats, size: int) -> None:
    """Solve in place with a factored matrix."""
    for row in range(size):
        for column in range(row):
            right[row] -= matrix[row, column] * right[column]
    for row in range(size - 1, -1, -1):
        for column in range(row + 1, size):
            right[row] -= matrix[row, column] * right[column]
        right[row] *= matrix[row, row]


@kernel
def correct(work: Any, stage: int, step: float, gamma: float, weight: float) -> None:
    """Turn the explicit rates of a stage into those of the linearly implicit stage.

    Parameters
    ----------
    work
        The space: the factored matrix, and ``earlier``, ``Σ γ_ij k_j`` of the
        unknown pressures over the stages before, Pa/s.
    stage
        Whose explicit rates are corrected in place.
    step, gamma
        Length of the step, s, and the method's diagonal coefficient.
    weight
        Of this stage in the sums.
    """
    right, rates, earlier, size = work.right, work.stage[stage], work.earlier, work.unknowns
    for place in range(size):
        right[place] = rates[SHAFT_SIZE + work.unknown[place] * VOLUME_SIZE + PRESSURE]
    earlier[size] = 0.0
    for i in range(work.stiff_count):
        flow = work.stiff[i]
        up, down = flow.up_place, flow.down_place
        extra = step * (flow.slope_up * earlier[up] + flow.slope_down * earlier[down])
        right[up] += flow.pressure_up * extra
        right[down] += flow.pressure_down * extra
    solve(work.matrix, right, size)
    right[size] = 0.0
    for i in range(work.stiff_count):
        flow = work.stiff[i]
        up, down = flow.up_place, flow.down_place
        extra = step * (
            flow.slope_up * (earlier[up] + gamma * right[up])
            + flow.slope_down * (earlier[down] + gamma * right[down])
        )
        if up < size:
            _give(
                rates, flow, flow.up, -extra, extra * flow.pressure_up, extra * flow.temperature_up
            )
        if down < size:
            _give(
                rates, flow, flow.down, extra, extra * flow.pressure_down,
                extra * flow.temperature_down,
            )  # fmt: skip
        signed = weight * flow.sign * extra
        sums = work.way_sums[flow.way]
        sums[WAY_MASS] += signed
        sums[WAY_FUEL] += signed * flow.fuel
        sums[WAY_BURNED] += signed * flow.burned
        sums[WAY_ENTHALPY] += signed * flow.enthalpy


@kernel_part
def _give(
    rates: Floats, flow: Any, volume: int, extra: float, pressure: float, temperature: float
) -> None:
    """Give a volume an extra flow, kg/s, with its rates of pressure and temperature."""
    at = SHAFT_SIZE + volume * VOLUME_SIZE
    rates[at + PRESSURE] += pressure
    rates[at + TEMPERATURE] += temperature
    rates[at + AIR] += extra * flow.air
    rates[at + FUEL] += extra * flow.fuel
    rates[at + BURNED] += extra * flow.burned
