"""Space the rates are worked out in: one record an advance, reused by every stage of every step.

A record is handed on as one pointer and holds no counted references, which keeps a call in the
kernel as cheap as it looks.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from firstfire.cycle.compile import kernel
from firstfire.cycle.layout import (
    AIR,
    CYLINDER_SIZE,
    CYLINDER_SUMS,
    MOST_CYLINDERS,
    MOST_PASSAGES,
    MOST_VALVES,
    MOST_VOLUMES,
    PASSAGE_SUMS,
    SHAFT_SIZE,
    SUCTION_SIZE,
    TEMPERATURE,
    VOLUME_SIZE,
    VOLUME_SUMS,
    ZONE_AIR,
    ZONE_TEMPERATURE,
)

MOST_VALUES = (
    SHAFT_SIZE
    + MOST_VOLUMES * (VOLUME_SIZE + VOLUME_SUMS)
    + MOST_CYLINDERS * (CYLINDER_SIZE + CYLINDER_SUMS)
    + MOST_VALVES * SUCTION_SIZE
    + MOST_PASSAGES * PASSAGE_SUMS
)

MOST_ZONES = MOST_VOLUMES + MOST_CYLINDERS

ZONE = np.dtype(
    [
        ("mass_at", np.int64),  # where in the values its masses stand
        ("temperature_at", np.int64),
        ("mass", np.float64),  # kg
        ("constant", np.float64),  # Σ m R, J/K
        ("enthalpy", np.float64),  # mean, J/kg
        ("gamma", np.float64),
        ("capacity", np.float64),  # m ∂h/∂T, J/K
        ("push", np.float64),  # V − m ∂h/∂p, m³
        ("by_temperature", np.float64),  # ∂(m R T)/∂T, J/K
        ("by_pressure", np.float64),  # ∂(m R T)/∂p, m³
        ("volume", np.float64),  # m³
        ("heating", np.float64),  # enthalpy that comes in beside dp/dt, W
        ("swelling", np.float64),  # Σ R T dm/dt of what comes in, W
        ("pressure", np.float64),  # Pa, that all this is for
    ],
    align=True,
)
"""A volume's gas, or (behind all volumes) the burned zone of a cylinder."""

FLOW = np.dtype(
    [
        ("up", np.int64),  # volume the gas comes from, or -1: left explicit
        ("down", np.int64),  # volume it goes to
        ("slope_up", np.float64),  # of the flow with either pressure, kg/(s Pa)
        ("slope_down", np.float64),
        ("pressure_up", np.float64),  # dp/dt and dT/dt of either end for one kg/s
        ("pressure_down", np.float64),
        ("temperature_up", np.float64),
        ("temperature_down", np.float64),
        ("air", np.float64),  # mass fractions and enthalpy carried
        ("fuel", np.float64),
        ("burned", np.float64),
        ("enthalpy", np.float64),
        ("sign", np.float64),  # +1 from `start` to `end` of the passage
    ],
    align=True,
)
"""A passage as the implicit part of a step sees it."""

WORK = np.dtype(
    [
        ("zone", ZONE, (MOST_ZONES,)),
        ("flow", FLOW, (MOST_PASSAGES,)),
        ("volume", np.float64, (MOST_VOLUMES,)),  # of every volume now, m³
        ("growth", np.float64, (MOST_VOLUMES,)),  # and its rate, m³/s
        ("matrix", np.float64, (MOST_VOLUMES, MOST_VOLUMES)),
        ("right", np.float64, (MOST_VOLUMES,)),
        ("earlier", np.float64, (MOST_VOLUMES,)),
        ("first", np.float64, (MOST_VALUES,)),  # rates at the start, before correction
        ("stage", np.float64, (4, MOST_VALUES)),  # rates of the four stages
        ("now", np.float64, (MOST_VALUES,)),  # state at the start of the step
        ("trial", np.float64, (MOST_VALUES,)),  # state tried, of a stage and of the step
    ],
    align=True,
)


@kernel
def new_work(engine: Any) -> Any:
    """Fresh space for an engine: an array of one record."""
    fresh = np.zeros(1, WORK)
    work = fresh[0]
    for volume in range(engine.volume_count):
        zone = work.zone[volume]
        zone.mass_at = SHAFT_SIZE + volume * VOLUME_SIZE + AIR
        zone.temperature_at = SHAFT_SIZE + volume * VOLUME_SIZE + TEMPERATURE
    for cylinder in range(engine.cylinder_count):
        zone = work.zone[engine.volume_count + cylinder]
        at = engine.cylinders_at + cylinder * CYLINDER_SIZE
        zone.mass_at = at + ZONE_AIR
        zone.temperature_at = at + ZONE_TEMPERATURE
    return fresh
