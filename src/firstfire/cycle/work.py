"""Space the rates are worked out in: one set an advance, reused by every stage of every step."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.compile import kernel
from firstfire.cycle.layout import (
    AIR,
    CYLINDER_SIZE,
    SHAFT_SIZE,
    TEMPERATURE,
    VOLUME_SIZE,
    ZONE_AIR,
    ZONE_TEMPERATURE,
    Floats,
)

# A zone: a volume's gas, or a cylinder's burned zone (behind all volumes). Mass; Σ m R; mean
# enthalpy; effective ratio of heats; heat capacity at constant pressure, J/K; (∂V/∂p terms) the
# volume less what pressure alone does to enthalpy, m³; ∂(Σ m R T)/∂T, J/K, and ∂(Σ m R T)/∂p;
# the volume; what comes in beside pressure: enthalpy, W, and Σ R T dm/dt, W; then enthalpy and
# gas constant of each species in the zone.
(
    Z_MASS,
    Z_GAS,
    Z_ENTHALPY,
    Z_GAMMA,
    Z_CAPACITY,
    Z_PUSH,
    Z_BY_TEMPERATURE,
    Z_BY_PRESSURE,
    Z_VOLUME,
    Z_HEAT_IN,
    Z_SWELL,
    Z_H_AIR,
    Z_H_FUEL,
    Z_H_BURNED,
    Z_R_BURNED,
    ZONE_FIELDS,
) = range(16)

# A passage as the implicit part sees it: rate of flow with upstream and with downstream
# pressure, kg/(s Pa); dp/dt and dT/dt of each end for one kg/s; composition and enthalpy
# carried; sign of the flow from `start` to `end`.
(
    F_SLOPE_UP,
    F_SLOPE_DOWN,
    F_PRESSURE_UP,
    F_PRESSURE_DOWN,
    F_TEMPERATURE_UP,
    F_TEMPERATURE_DOWN,
    F_AIR,
    F_FUEL,
    F_BURNED,
    F_ENTHALPY,
    F_SIGN,
    FLOW_FIELDS,
) = range(12)

Integers = NDArray[np.int64]


class Work(NamedTuple):
    """Arrays of one advance.

    Attributes
    ----------
    zone
        (zones, fields): what the rates need to know of each zone.
    mass_at, temperature_at
        Where in the values a zone's masses and its temperature stand.
    volume, growth
        Of every volume now, m³ and m³/s.
    flow
        (passages, fields): the implicit part.
    up, down
        Volume a passage's gas comes from and goes to; -1 where it is left explicit.
    matrix, right, earlier
        Of the solve for the pressures.
    stage, first, trial
        Rates of the four stages, those of the first before correction, and the state tried.
    """

    zone: Floats
    mass_at: Integers
    temperature_at: Integers
    volume: Floats
    growth: Floats
    flow: Floats
    up: Integers
    down: Integers
    matrix: Floats
    right: Floats
    earlier: Floats
    stage: Floats
    first: Floats
    trial: Floats


@kernel
def new_work(volumes: int, cylinders: int, passages: int, size: int) -> Work:
    """Fresh space for an engine of so many volumes, cylinders, passages and values."""
    zones = volumes + cylinders
    mass_at = np.empty(zones, np.int64)
    temperature_at = np.empty(zones, np.int64)
    for volume in range(volumes):
        mass_at[volume] = SHAFT_SIZE + volume * VOLUME_SIZE + AIR
        temperature_at[volume] = SHAFT_SIZE + volume * VOLUME_SIZE + TEMPERATURE
    first = SHAFT_SIZE + volumes * VOLUME_SIZE
    for cylinder in range(cylinders):
        mass_at[volumes + cylinder] = first + cylinder * CYLINDER_SIZE + ZONE_AIR
        temperature_at[volumes + cylinder] = first + cylinder * CYLINDER_SIZE + ZONE_TEMPERATURE
    return Work(
        np.zeros((zones, ZONE_FIELDS)),
        mass_at,
        temperature_at,
        np.zeros(volumes),
        np.zeros(volumes),
        np.zeros((passages, FLOW_FIELDS)),
        np.full(passages, -1, np.int64),
        np.full(passages, -1, np.int64),
        np.zeros((volumes, volumes)),
        np.zeros(volumes),
        np.zeros(volumes),
        np.zeros((4, size)),
        np.zeros(size),
        np.zeros(size),
    )
