"""The implicit part of a step: flows between volumes whose pressures have nearly met.

An open valve pulls two pressures together the faster the closer they are: V/(A c)·√(Δp/2γp),
without limit. Only this is treated implicitly. Flows are linear in the rates, so the Jacobian
kept is ``J = G D``: D how each flow answers the pressures at its ends, G what one kg/s does to
the values. A stage then costs one small solve for the pressures, and every value, composition
and sum of a passage gets the corrected flow: mass and energy stay booked.
"""

from __future__ import annotations

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
    Work,
)

LOOSE = 0.05
"""Step times rate of the fastest passage below which flows stay explicit."""


@kernel
def is_stiff(work: Work, step: float) -> bool:
    """Whether any passage answers within this step, s."""
    for row in range(work.up.size):
        if work.up[row] >= 0:
            flow = work.flow[row]
            rate = (
                -flow[F_PRESSURE_UP] * flow[F_SLOPE_UP]
                - flow[F_PRESSURE_DOWN] * flow[F_SLOPE_DOWN]
            )
            if rate * step > LOOSE:
                return True
    return False


@kernel
def factor(work: Work, step: float) -> None:
    """Put ``I − step G D`` of the pressures into the work space, factored without pivoting.

    Its diagonal outweighs its off-diagonals, as gas drawn from one volume raises another.
    """
    matrix = work.matrix
    size = matrix.shape[0]
    matrix[:, :] = 0.0
    for row in range(size):
        matrix[row, row] = 1.0
    for row in range(work.up.size):
        up, down = work.up[row], work.down[row]
        if up >= 0:
            flow = work.flow[row]
            matrix[up, up] -= step * flow[F_PRESSURE_UP] * flow[F_SLOPE_UP]
            matrix[up, down] -= step * flow[F_PRESSURE_UP] * flow[F_SLOPE_DOWN]
            matrix[down, up] -= step * flow[F_PRESSURE_DOWN] * flow[F_SLOPE_UP]
            matrix[down, down] -= step * flow[F_PRESSURE_DOWN] * flow[F_SLOPE_DOWN]
    for pivot in range(size):
        for row in range(pivot + 1, size):
            if matrix[row, pivot] != 0.0:
                part = matrix[row, pivot] / matrix[pivot, pivot]
                matrix[row, pivot] = part
                for column in range(pivot + 1, size):
                    matrix[row, column] -= part * matrix[pivot, column]


@kernel
def _solve(matrix: Floats, right: Floats) -> None:
    """Solve in place with a factored matrix."""
    size = right.size
    for row in range(size):
        for column in range(row):
            right[row] -= matrix[row, column] * right[column]
    for row in range(size - 1, -1, -1):
        for column in range(row + 1, size):
            right[row] -= matrix[row, column] * right[column]
        right[row] /= matrix[row, row]


@kernel
def correct(
    record: EngineRecord,
    offsets: Offsets,
    work: Work,
    rates: Floats,
    earlier: Floats,
    step: float,
    gamma: float,
) -> None:
    """Turn the explicit rates of a stage into those of the linearly implicit stage.

    Parameters
    ----------
    record, offsets, work
        The engine; the space with the factored matrix in it.
    rates
        Of this stage; corrected in place.
    earlier
        ``Σ γ_ij k_j`` of the pressures over the stages before, Pa/s.
    step, gamma
        Length of the step, s, and the method's diagonal coefficient.
    """
    right = work.right
    for volume in range(right.size):
        right[volume] = rates[SHAFT_SIZE + volume * VOLUME_SIZE + PRESSURE]
    for row in range(work.up.size):
        up, down = work.up[row], work.down[row]
        if up >= 0:
            flow = work.flow[row]
            extra = step * (flow[F_SLOPE_UP] * earlier[up] + flow[F_SLOPE_DOWN] * earlier[down])
            right[up] += flow[F_PRESSURE_UP] * extra
            right[down] += flow[F_PRESSURE_DOWN] * extra
    _solve(work.matrix, right)
    for row in range(work.up.size):
        up, down = work.up[row], work.down[row]
        if up >= 0:
            flow = work.flow[row]
            extra = step * (
                flow[F_SLOPE_UP] * (earlier[up] + gamma * right[up])
                + flow[F_SLOPE_DOWN] * (earlier[down] + gamma * right[down])
            )
            _book(record, offsets, rates, flow, up, down, row, extra)


@kernel
def _book(
    record: EngineRecord,
    offsets: Offsets,
    rates: Floats,
    flow: Floats,
    up: int,
    down: int,
    row: int,
    extra: float,
) -> None:
    """Book an extra flow, kg/s, in a passage, at both its ends and in its sums."""
    if record.volumes[up].kind != FIXED:
        at = SHAFT_SIZE + up * VOLUME_SIZE
        rates[at + PRESSURE] += extra * flow[F_PRESSURE_UP]
        rates[at + TEMPERATURE] += extra * flow[F_TEMPERATURE_UP]
        rates[at + AIR] -= extra * flow[F_AIR]
        rates[at + FUEL] -= extra * flow[F_FUEL]
        rates[at + BURNED] -= extra * flow[F_BURNED]
    if record.volumes[down].kind != FIXED:
        at = SHAFT_SIZE + down * VOLUME_SIZE
        rates[at + PRESSURE] += extra * flow[F_PRESSURE_DOWN]
        rates[at + TEMPERATURE] += extra * flow[F_TEMPERATURE_DOWN]
        rates[at + AIR] += extra * flow[F_AIR]
        rates[at + FUEL] += extra * flow[F_FUEL]
        rates[at + BURNED] += extra * flow[F_BURNED]
    sums = offsets.passage_sums + row * PASSAGE_SUMS
    signed = flow[F_SIGN] * extra
    rates[sums + PASSED_MASS] += signed
    rates[sums + PASSED_FUEL] += signed * flow[F_FUEL]
    rates[sums + PASSED_BURNED] += signed * flow[F_BURNED]
    rates[sums + PASSED_ENTHALPY] += signed * flow[F_ENTHALPY]
    if flow[F_SIGN] < 0.0:
        rates[sums + PASSED_BACK] += extra
