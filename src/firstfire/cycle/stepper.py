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

import math
from typing import Any

import numpy as np

from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.implicit import correct, factor, find_stiff
from firstfire.cycle.layout import (
    AIR,
    ANGLE,
    BURNED,
    CYLINDER_SIZE,
    FUEL,
    PRESSURE,
    PROGRESS,
    SHAFT_SIZE,
    SPEED,
    SUCTION_SIZE,
    TEMPERATURE,
    VOLUME_SIZE,
    WITHIN,
    ZONE_AIR,
    ZONE_BURNED,
    ZONE_FUEL,
    ZONE_TEMPERATURE,
    Records,
)
from firstfire.cycle.rates import rates_of
from firstfire.cycle.work import clear_sums

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


@kernel_part
def _start_stage(work: Any, count: int, stage: int, step: float) -> None:
    """Put the state a stage starts from into ``work.trial``."""
    now, trial, stages = work.now, work.trial, work.stage
    first, second, third = stages[0], stages[1], stages[2]
    if stage == 1:
        a = step * ALPHA[1, 0]
        for i in range(count):
            trial[i] = now[i] + a * first[i]
    elif stage == 2:
        a, b = step * ALPHA[2, 0], step * ALPHA[2, 1]
        for i in range(count):
            trial[i] = now[i] + a * first[i] + b * second[i]
    else:
        # The other weights of the last stage are zero.
        a = step * ALPHA[3, 2]
        for i in range(count):
            trial[i] = now[i] + a * third[i]


@kernel_part
def _end_step(work: Any, count: int, step: float) -> None:
    """Put the new state into ``work.trial`` and its estimated error into ``work.miss``."""
    now, trial, miss, stages = work.now, work.trial, work.miss, work.stage
    first, second, third, fourth = stages[0], stages[1], stages[2], stages[3]
    for i in range(count):
        trial[i] = now[i] + step * (
            WEIGHTS[0] * first[i]
            + WEIGHTS[1] * second[i]
            + WEIGHTS[2] * third[i]
            + WEIGHTS[3] * fourth[i]
        )
        miss[i] = abs(
            step
            * (
                ERROR_WEIGHTS[0] * first[i]
                + ERROR_WEIGHTS[1] * second[i]
                + ERROR_WEIGHTS[2] * third[i]
                + ERROR_WEIGHTS[3] * fourth[i]
            )
        )


@kernel
def _correct_stage(work: Any, stage: int, step: float) -> None:
    """Make a stage linearly implicit; its explicit rates stand in ``work.stage``."""
    for place in range(work.unknowns):
        at = SHAFT_SIZE + work.unknown[place] * VOLUME_SIZE + PRESSURE
        total = 0.0
        for earlier in range(stage):
            total += GAMMAS[stage, earlier] * work.stage[earlier, at]
        work.earlier[place] = total
    correct(work, stage, step, GAMMA, WEIGHTS[stage])


@kernel
def try_step(engine: Any, events: Records, work: Any, step: float) -> float:
    """Try a step; the new values stand in ``work.trial``, rates of the sums in its sums.

    Parameters
    ----------
    engine, events, work
        The engine, its last events, and space. The state at the start is ``work.now``; its
        pressures are put back onto the gas law.
    step
        s.

    Returns
    -------
    float
        Error over the allowed error; the step is good up to 1.
    """
    now, trial, count = work.now, work.trial, engine.moving
    clear_sums(engine, work)
    for i in range(count):
        trial[i] = now[i]
    for stage in range(STAGES):
        if stage > 0:
            _start_stage(work, count, stage, step)
        rates_of(engine, events, work, stage, WEIGHTS[stage])
        if stage == 0:
            for i in range(count):
                now[i] = trial[i]
            find_stiff(engine, work, step)
            if work.stiff_count > 0:
                factor(engine, work, step * GAMMA)
        if work.stiff_count > 0:
            _correct_stage(work, stage, step)
    _end_step(work, count, step)
    return error_of(engine, events, work)


@kernel
def error_of(engine: Any, events: Records, work: Any) -> float:
    """Largest estimated error over the allowed one, of pressures, temperatures and masses."""
    values, miss = work.now, work.miss
    worst = 0.0
    care = min(max(CARE_SPEED / max(abs(values[SPEED]), 1e-3), 1.0), MOST_CARE)
    for i in range(engine.moving_count):
        row = engine.moving_volumes[i]
        at = SHAFT_SIZE + row * VOLUME_SIZE
        mass = values[at + AIR] + values[at + FUEL] + values[at + BURNED]
        pressure, temperature = values[at + PRESSURE], values[at + TEMPERATURE]
        # One division for all: misses over p, T and m are those times the other two.
        inverse = 1.0 / (pressure * temperature * mass)
        part = miss[at + PRESSURE] * (temperature * mass * inverse)
        if row >= engine.cylinder_count or events[row].closed == 0:
            part *= care
        worst = max(worst, part, miss[at + TEMPERATURE] * (pressure * mass * inverse))
        if row < engine.cylinder_count and events[row].burning == 1:
            zone = engine.cylinders_at + row * CYLINDER_SIZE
            burned = values[zone + ZONE_AIR] + values[zone + ZONE_FUEL] + values[zone + ZONE_BURNED]
            mass += burned
            inverse = 1.0 / (pressure * temperature * mass)
            part = miss[zone + ZONE_TEMPERATURE] / values[zone + ZONE_TEMPERATURE]
            grown = miss[zone + ZONE_BURNED] * (pressure * temperature * inverse)
            within = miss[zone + WITHIN] * (pressure * temperature * inverse)
            worst = max(worst, part, grown, within, miss[zone + PROGRESS])
        gone = max(miss[at + AIR], miss[at + FUEL], miss[at + BURNED])
        worst = max(worst, gone * (pressure * temperature * inverse))
    for row in range(engine.valve_count):
        if engine.valves[row].suction >= 0:
            at = engine.suctions_at + engine.valves[row].suction * SUCTION_SIZE
            worst = max(worst, miss[at] / engine.valves[row].max_lift)
            # max() hides a NaN, and pressures tell of one in a lift only once the valve is open.
            if not abs(miss[at]) < math.inf:
                worst = math.inf
    if engine.shaft.free == 1:
        worst = max(worst, miss[SPEED] / max(abs(values[SPEED]), 5.0), 10.0 * miss[ANGLE])
    total: float = worst / engine.step.relative
    # max() hides a NaN; the new state must also be whole and above zero.
    for i in range(engine.moving_count):
        at = SHAFT_SIZE + engine.moving_volumes[i] * VOLUME_SIZE
        if not (work.trial[at + PRESSURE] > 0.0 and work.trial[at + TEMPERATURE] > 0.0):
            total = 1e6
    return total
