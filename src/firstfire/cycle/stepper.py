"""One step in time: a linearly implicit Runge-Kutta method with an error estimate.

Four stages, third order for *any* Jacobian, L-stable, with an embedded second-order result. With
the Jacobian left out (no passage is stiff) it is an explicit Runge-Kutta method of third order.

References
----------
J. Rang, L. Angermann, "New Rosenbrock W-methods of order 3 for partial differential algebraic
equations of index 1", *BIT Numerical Mathematics* 45, 2005, 761-787: the method ROS34PW2 (its
coefficients from memory; a test checks the order conditions and the observed order).
"""

from __future__ import annotations

from firstfire.cycle.compile import kernel
from firstfire.cycle.implicit import correct, factor, is_stiff
from firstfire.cycle.layout import (
    AIR,
    BURNED,
    CYLINDER_SIZE,
    FIXED,
    FUEL,
    PRESSURE,
    PROGRESS,
    SHAFT_SIZE,
    SUCTION_SIZE,
    TEMPERATURE,
    VOLUME_SIZE,
    ZONE_TEMPERATURE,
    EngineRecord,
    Floats,
    Offsets,
    Records,
)
from firstfire.cycle.rates import rates_of
from firstfire.cycle.work import Work

GAMMA = 0.435866521508459
A21 = 0.8717330430169180
A31, A32 = 0.8445706001536942, -0.1129906423648418
A43 = 1.0
G21 = -0.8717330430169180
G31, G32 = -0.9033805701304408, 0.05418067238809533
G41, G42, G43 = 0.2421238070609535, -1.223250583904515, 0.5452602553351021
B1, B2, B3, B4 = 0.2421238070609535, -1.223250583904515, 1.545260255335102, 0.435866521508459
E1 = B1 - 0.3781090314581937
E2 = B2 + 0.09604229221242318
E3 = B3 - 0.5
E4 = B4 - 0.2179332607542295


@kernel
def _gather(work: Work, out: Floats, c1: float, c2: float, c3: float) -> None:
    """Weighted pressures' rates of the stages so far."""
    for volume in range(out.size):
        at = SHAFT_SIZE + volume * VOLUME_SIZE + PRESSURE
        out[volume] = (
            c1 * work.stage[0, at] + c2 * work.stage[1, at] + c3 * work.stage[2, at]
        )


@kernel
def try_step(
    record: EngineRecord,
    offsets: Offsets,
    events: Records,
    work: Work,
    values: Floats,
    step: float,
    again: bool,
) -> float:
    """Try a step; the new values stand in ``work.trial``.

    Parameters
    ----------
    record, offsets, events, work
        The engine, where its values stand, its last events, and space.
    values
        State at the start; its pressures are put back onto the gas law.
    step
        s.
    again
        The same start as in the call before: its first rates are kept.

    Returns
    -------
    float
        Error over the allowed error; the step is good up to 1. NaN if something broke.
    """
    k1, k2, k3, k4 = work.stage[0], work.stage[1], work.stage[2], work.stage[3]
    trial, first, earlier = work.trial, work.first, work.earlier
    moving = offsets.moving
    if not again:
        rates_of(record, offsets, events, work, values, first, True)
    stiff = is_stiff(work, step)
    if stiff:
        factor(work, step * GAMMA)
    k1[:] = first
    if stiff:
        earlier[:] = 0.0
        correct(record, offsets, work, k1, earlier, step, GAMMA)
    for i in range(moving):
        trial[i] = values[i] + step * A21 * k1[i]
    rates_of(record, offsets, events, work, trial, k2, False)
    if stiff:
        _gather(work, earlier, G21, 0.0, 0.0)
        correct(record, offsets, work, k2, earlier, step, GAMMA)
    for i in range(moving):
        trial[i] = values[i] + step * (A31 * k1[i] + A32 * k2[i])
    rates_of(record, offsets, events, work, trial, k3, False)
    if stiff:
        _gather(work, earlier, G31, G32, 0.0)
        correct(record, offsets, work, k3, earlier, step, GAMMA)
    for i in range(moving):
        trial[i] = values[i] + step * A43 * k3[i]
    rates_of(record, offsets, events, work, trial, k4, False)
    if stiff:
        _gather(work, earlier, G41, G42, G43)
        correct(record, offsets, work, k4, earlier, step, GAMMA)
    for i in range(values.size):
        trial[i] = values[i] + step * (B1 * k1[i] + B2 * k2[i] + B3 * k3[i] + B4 * k4[i])
    return error_of(record, offsets, events, work, values, step)


@kernel
def _miss(work: Work, at: int, step: float) -> float:
    """Estimated error of one value."""
    stage = work.stage
    return abs(
        step * (E1 * stage[0, at] + E2 * stage[1, at] + E3 * stage[2, at] + E4 * stage[3, at])
    )


@kernel
def error_of(
    record: EngineRecord,
    offsets: Offsets,
    events: Records,
    work: Work,
    values: Floats,
    step: float,
) -> float:
    """Largest estimated error over the allowed one, of pressures, temperatures and masses."""
    worst = 0.0
    for row in range(record.volumes.size):
        if record.volumes[row].kind == FIXED:
            continue
        at = SHAFT_SIZE + row * VOLUME_SIZE
        mass = values[at + AIR] + values[at + FUEL] + values[at + BURNED]
        worst = max(worst, _miss(work, at + PRESSURE, step) / values[at + PRESSURE])
        worst = max(worst, _miss(work, at + TEMPERATURE, step) / values[at + TEMPERATURE])
        if row < record.cylinders.size and events[row].burning == 1:
            zone = offsets.cylinders + row * CYLINDER_SIZE
            for species in range(1, 4):
                mass += values[zone + species]
            error = _miss(work, zone + ZONE_TEMPERATURE, step) / values[zone + ZONE_TEMPERATURE]
            worst = max(worst, error)
            worst = max(worst, _miss(work, zone + 3, step) / mass)
            worst = max(worst, _miss(work, zone + PROGRESS, step))
        for species in (AIR, FUEL, BURNED):
            worst = max(worst, _miss(work, at + species, step) / mass)
    for row in range(record.valves.size):
        if record.valves[row].suction >= 0:
            at = offsets.suctions + record.valves[row].suction * SUCTION_SIZE
            worst = max(worst, _miss(work, at, step) / record.valves[row].max_lift)
    total = worst / record.step[0].relative
    # max() hides a NaN; the new state must also be whole and above zero.
    for row in range(record.volumes.size):
        at = SHAFT_SIZE + row * VOLUME_SIZE
        if not (work.trial[at + PRESSURE] > 0.0 and work.trial[at + TEMPERATURE] > 0.0):
            total = 1e6
    return total
