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

from typing import Any

import numpy as np

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
    SPEED,
    SUCTION_SIZE,
    TEMPERATURE,
    VOLUME_SIZE,
    ZONE_TEMPERATURE,
    Records,
)
from firstfire.cycle.rates import rates_of

GAMMA = 0.435866521508459
STAGES = 4
ALPHA = np.array(
    [
        [0.0, 0.0, 0.0, 0.0],
        [0.8717330430169180, 0.0, 0.0, 0.0],
        [0.8445706001536942, -0.1129906423648418, 0.0, 0.0],
        [0.0, 0.0, 1.0, 0.0],
    ]
)
"""Weights of earlier stages in the state a stage starts from."""

GAMMAS = np.array(
    [
        [GAMMA, 0.0, 0.0, 0.0],
        [-0.8717330430169180, GAMMA, 0.0, 0.0],
        [-0.9033805701304408, 0.05418067238809533, GAMMA, 0.0],
        [0.2421238070609535, -1.223250583904515, 0.5452602553351021, GAMMA],
    ]
)
"""Weights of the stages under the Jacobian."""

WEIGHTS = np.array([0.2421238070609535, -1.223250583904515, 1.545260255335102, GAMMA])
"""Weights of the stages in the result."""

LOWER_WEIGHTS = np.array([0.3781090314581937, -0.09604229221242318, 0.5, 0.2179332607542295])
"""Weights in the result of second order."""

ERROR_WEIGHTS = WEIGHTS - LOWER_WEIGHTS

CARE_SPEED, MOST_CARE = 40.0, 10.0
"""Below this speed, rad/s, less error of pressure is allowed where valves are open, down to a
tenth: pumping work of an engine turned slowly comes of some pascals."""


@kernel
def _start_stage(engine: Any, work: Any, stage: int, step: float) -> None:
    """Put the state a stage starts from into ``work.trial``."""
    now, trial, stages = work.now, work.trial, work.stage
    for i in range(engine.moving):
        trial[i] = now[i]
    for earlier in range(stage):
        weight = step * ALPHA[stage, earlier]
        if weight != 0.0:
            for i in range(engine.moving):
                trial[i] += weight * stages[earlier, i]


@kernel
def _correct_stage(engine: Any, work: Any, stage: int, step: float) -> None:
    """Make a stage linearly implicit; its explicit rates stand in ``work.rate``."""
    for volume in range(engine.volume_count):
        at = SHAFT_SIZE + volume * VOLUME_SIZE + PRESSURE
        total = 0.0
        for earlier in range(stage):
            total += GAMMAS[stage, earlier] * work.stage[earlier, at]
        work.earlier[volume] = total
    correct(engine, work, stage, step, GAMMA)


@kernel
def try_step(engine: Any, events: Records, work: Any, step: float, again: bool) -> float:
    """Try a step; the new values stand in ``work.trial``.

    Parameters
    ----------
    engine, events, work
        The engine, its last events, and space. The state at the start is ``work.now``; its
        pressures are put back onto the gas law.
    step
        s.
    again
        The same start as in the call before: its first rates are kept.

    Returns
    -------
    float
        Error over the allowed error; the step is good up to 1.
    """
    now, trial, stages = work.now, work.trial, work.stage
    if not again:
        for i in range(engine.moving):
            trial[i] = now[i]
        rates_of(engine, events, work, 0)
        for i in range(engine.moving):
            now[i] = trial[i]
        for i in range(engine.size):
            work.first[i] = stages[0, i]
    else:
        for i in range(engine.size):
            stages[0, i] = work.first[i]
    stiff = is_stiff(engine, work, step)
    if stiff:
        factor(engine, work, step * GAMMA)
        _correct_stage(engine, work, 0, step)
    for stage in range(1, STAGES):
        _start_stage(engine, work, stage, step)
        rates_of(engine, events, work, stage)
        if stiff:
            _correct_stage(engine, work, stage, step)
    for i in range(engine.size):
        trial[i] = now[i] + step * (
            WEIGHTS[0] * stages[0, i]
            + WEIGHTS[1] * stages[1, i]
            + WEIGHTS[2] * stages[2, i]
            + WEIGHTS[3] * stages[3, i]
        )
    return error_of(engine, events, work, step)


@kernel
def _miss(work: Any, at: int, step: float) -> float:
    """Estimated error of one value."""
    total = 0.0
    for stage in range(STAGES):
        total += ERROR_WEIGHTS[stage] * work.stage[stage, at]
    return abs(step * total)


@kernel
def error_of(engine: Any, events: Records, work: Any, step: float) -> float:
    """Largest estimated error over the allowed one, of pressures, temperatures and masses."""
    values = work.now
    worst = 0.0
    care = min(max(CARE_SPEED / max(abs(values[SPEED]), 1e-3), 1.0), MOST_CARE)
    for row in range(engine.volume_count):
        if engine.volumes[row].kind == FIXED:
            continue
        at = SHAFT_SIZE + row * VOLUME_SIZE
        mass = values[at + AIR] + values[at + FUEL] + values[at + BURNED]
        part = _miss(work, at + PRESSURE, step) / values[at + PRESSURE]
        if row >= engine.cylinder_count or events[row].closed == 0:
            part *= care
        worst = max(worst, part)
        worst = max(worst, _miss(work, at + TEMPERATURE, step) / values[at + TEMPERATURE])
        if row < engine.cylinder_count and events[row].burning == 1:
            zone = engine.cylinders_at + row * CYLINDER_SIZE
            for species in range(1, 4):
                mass += values[zone + species]
            error = _miss(work, zone + ZONE_TEMPERATURE, step) / values[zone + ZONE_TEMPERATURE]
            worst = max(worst, error)
            worst = max(worst, _miss(work, zone + 3, step) / mass)
            worst = max(worst, _miss(work, zone + PROGRESS, step))
        for species in (AIR, FUEL, BURNED):
            worst = max(worst, _miss(work, at + species, step) / mass)
    for row in range(engine.valve_count):
        if engine.valves[row].suction >= 0:
            at = engine.suctions_at + engine.valves[row].suction * SUCTION_SIZE
            worst = max(worst, _miss(work, at, step) / engine.valves[row].max_lift)
    total: float = worst / engine.step.relative
    # max() hides a NaN; the new state must also be whole and above zero.
    for row in range(engine.volume_count):
        at = SHAFT_SIZE + row * VOLUME_SIZE
        if not (work.trial[at + PRESSURE] > 0.0 and work.trial[at + TEMPERATURE] > 0.0):
            total = 1e6
    return total
