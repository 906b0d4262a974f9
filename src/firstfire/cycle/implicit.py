"""The implicit part of a step: flows between volumes whose pressures have nearly met.

An open valve pulls two pressures together the faster the closer they are: V/(A c)·√(Δp/2γp),
without limit. Only this is treated implicitly. Flows are linear in the rates, so the Jacobian
kept is ``J = G D``: D how each flow answers the pressures at its ends, G what one kg/s does to
the values. A stage then costs one small solve for the pressures, and every value, composition
and sum of a passage gets the corrected flow: mass and energy stay booked.
"""

from __future__ import annotations

from typing import Any

from firstfire.cycle.compile import kernel
from firstfire.cycle.layout import (
    AIR,
    BURNED,
    FIXED,
    FUEL,
    PASSAGE_SUMS,
    PASSED_BACK,
    PASSED_BURNED,
    PASSED_ENTHALPY,
    PASSED_FUEL,
    PASSED_MASS,
    PRESSURE,
    SHAFT_SIZE,
    TEMPERATURE,
    VOLUME_SIZE,
    Floats,
)

LOOSE = 0.05
"""Step times rate of the fastest passage below which flows stay explicit."""


@kernel
def is_stiff(engine: Any, work: Any, step: float) -> bool:
    """Whether any passage answers within this step, s."""
    for row in range(engine.passage_count):
        if work.flow[row].up >= 0:
            flow = work.flow[row]
            rate = -flow.pressure_up * flow.slope_up - flow.pressure_down * flow.slope_down
            if rate * step > LOOSE:
                return True
    return False


@kernel
def factor(engine: Any, work: Any, step: float) -> None:
    """Put ``I − step G D`` of the pressures into the work space, factored without pivoting.

    Its diagonal outweighs its off-diagonals, as gas drawn from one volume raises another.
    """
    matrix = work.matrix
    size = engine.volume_count
    for row in range(size):
        for column in range(size):
            matrix[row, column] = 0.0
        matrix[row, row] = 1.0
    for row in range(engine.passage_count):
        up, down = work.flow[row].up, work.flow[row].down
        if up >= 0:
            flow = work.flow[row]
            matrix[up, up] -= step * flow.pressure_up * flow.slope_up
            matrix[up, down] -= step * flow.pressure_up * flow.slope_down
            matrix[down, up] -= step * flow.pressure_down * flow.slope_up
            matrix[down, down] -= step * flow.pressure_down * flow.slope_down
    for pivot in range(size):
        for row in range(pivot + 1, size):
            if matrix[row, pivot] != 0.0:
                part = matrix[row, pivot] / matrix[pivot, pivot]
                matrix[row, pivot] = part
                for column in range(pivot + 1, size):
                    matrix[row, column] -= part * matrix[pivot, column]


@kernel
def _solve(matrix: Floats, right: Floats, size: int) -> None:
    """Solve in place with a factored matrix."""
    for row in range(size):
        for column in range(row):
            right[row] -= matrix[row, column] * right[column]
    for row in range(size - 1, -1, -1):
        for column in range(row + 1, size):
            right[row] -= matrix[row, column] * right[column]
        right[row] /= matrix[row, row]


@kernel
def correct(engine: Any, work: Any, stage: int, step: float, gamma: float) -> None:
    """Turn the explicit rates of a stage into those of the linearly implicit stage.

    Parameters
    ----------
    engine, work
        The engine; the space: the factored matrix, and ``earlier``, ``Σ γ_ij k_j`` of the
        pressures over the stages before, Pa/s.
    stage
        Whose explicit rates are corrected in place.
    step, gamma
        Length of the step, s, and the method's diagonal coefficient.
    """
    right, rates, earlier = work.right, work.stage[stage], work.earlier
    for volume in range(engine.volume_count):
        right[volume] = rates[SHAFT_SIZE + volume * VOLUME_SIZE + PRESSURE]
    for row in range(engine.passage_count):
        up, down = work.flow[row].up, work.flow[row].down
        if up >= 0:
            flow = work.flow[row]
            extra = step * (flow.slope_up * earlier[up] + flow.slope_down * earlier[down])
            right[up] += flow.pressure_up * extra
            right[down] += flow.pressure_down * extra
    _solve(work.matrix, right, engine.volume_count)
    for row in range(engine.passage_count):
        up, down = work.flow[row].up, work.flow[row].down
        if up >= 0:
            flow = work.flow[row]
            extra = step * (
                flow.slope_up * (earlier[up] + gamma * right[up])
                + flow.slope_down * (earlier[down] + gamma * right[down])
            )
            _book(engine, rates, flow, up, down, row, extra)


@kernel
def _book(
    engine: Any,
    rates: Floats,
    flow: Any,
    up: int,
    down: int,
    row: int,
    extra: float,
) -> None:
    """Book an extra flow, kg/s, in a passage, at both its ends and in its sums."""
    if engine.volumes[up].kind != FIXED:
        at = SHAFT_SIZE + up * VOLUME_SIZE
        rates[at + PRESSURE] += extra * flow.pressure_up
        rates[at + TEMPERATURE] += extra * flow.temperature_up
        rates[at + AIR] -= extra * flow.air
        rates[at + FUEL] -= extra * flow.fuel
        rates[at + BURNED] -= extra * flow.burned
    if engine.volumes[down].kind != FIXED:
        at = SHAFT_SIZE + down * VOLUME_SIZE
        rates[at + PRESSURE] += extra * flow.pressure_down
        rates[at + TEMPERATURE] += extra * flow.temperature_down
        rates[at + AIR] += extra * flow.air
        rates[at + FUEL] += extra * flow.fuel
        rates[at + BURNED] += extra * flow.burned
    sums = engine.passage_sums_at + row * PASSAGE_SUMS
    signed = flow.sign * extra
    rates[sums + PASSED_MASS] += signed
    rates[sums + PASSED_FUEL] += signed * flow.fuel
    rates[sums + PASSED_BURNED] += signed * flow.burned
    rates[sums + PASSED_ENTHALPY] += signed * flow.enthalpy
    if flow.sign < 0.0:
        rates[sums + PASSED_BACK] += extra
