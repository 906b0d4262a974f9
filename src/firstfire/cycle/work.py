"""Space the rates are worked out in: one record an advance, reused by every stage of every step.

A record is handed on as one pointer and holds no counted references, which keeps a call in the
kernel as cheap as it looks, and keeps nothing alive. Compiled code frees an array at its last use,
records taken from it or not; so the array is made and held by the Python that calls the kernel,
never by the kernel. Nothing in it outlives an advance.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from firstfire.cycle.compile import kernel, kernel_part
from firstfire.cycle.layout import (
    AIR,
    CYLINDER_SIZE,
    CYLINDER_SUMS,
    MOST_CYLINDERS,
    MOST_PASSAGES,
    MOST_VALVES,
    MOST_VOLUMES,
    SHAFT_SIZE,
    SUCTION_SIZE,
    TEMPERATURE,
    VOLUME_SIZE,
    ZONE_AIR,
    ZONE_TEMPERATURE,
    Records,
)

MOST_MOVING = (
    SHAFT_SIZE
    + MOST_VOLUMES * VOLUME_SIZE
    + MOST_CYLINDERS * CYLINDER_SIZE
    + MOST_VALVES * SUCTION_SIZE
)
"""Room for the values that are not sums."""

MOST_ZONES = MOST_VOLUMES + MOST_CYLINDERS

# What a way lets pass, along it: mass, fuel vapour and burned gas in it, kg; enthalpy, J.
WAY_MASS, WAY_FUEL, WAY_BURNED, WAY_ENTHALPY, WAY_SUMS = 0, 1, 2, 3, 4

ZONE = np.dtype(
    [
        ("mass_at", np.int64),  # where in the values its masses stand
        ("temperature_at", np.int64),
        ("mass", np.float64),  # kg
        ("air", np.float64),  # mass fractions
        ("fuel", np.float64),
        ("burned", np.float64),
        ("temperature", np.float64),  # K
        ("specific", np.float64),  # R T, J/kg
        ("constant", np.float64),  # m R, J/K
        ("enthalpy", np.float64),  # J/kg
        ("over_gamma", np.float64),  # one over the ratio of heats, as it rushes out
        ("capacity", np.float64),  # m ∂h/∂T, J/K
        ("volume", np.float64),  # m³
        ("over_capacity", np.float64),  # one over it, K/J
        ("warming", np.float64),  # (V − m ∂h/∂p) / (m ∂h/∂T): kelvin that a pascal warms, K/Pa
        ("by_temperature", np.float64),  # ∂(m R T)/∂T, J/K
        ("by_pressure", np.float64),  # ∂(m R T)/∂p, m³
        ("stiffness", np.float64),  # what a pascal is worth, temperature following, m³
        ("air_enthalpy", np.float64),  # of each kind of gas at its temperature, J/kg
        ("fuel_enthalpy", np.float64),
        ("burned_enthalpy", np.float64),
        ("burned_constant", np.float64),  # R of burned gas, J/(kg K); 0: not looked up
        ("heating", np.float64),  # heat that comes in, W
    ],
    align=True,
)
"""A volume's gas, or (behind all volumes) the burned zone of a cylinder."""

STREAM = np.dtype(
    [
        # What goes out of a volume, both zones of a burning cylinder mixed by mass.
        ("air", np.float64),
        ("fuel", np.float64),
        ("burned", np.float64),
        ("enthalpy", np.float64),
        ("specific", np.float64),
        ("over_gamma", np.float64),
        ("out", np.float64),  # kg/s
        # What comes in, kg/s and W.
        ("in_air", np.float64),
        ("in_fuel", np.float64),
        ("in_burned", np.float64),
        ("in_enthalpy", np.float64),
        ("free", np.float64),  # volume less all stiffness, m³; 0: the implicit part leaves it out
    ],
    align=True,
)
"""What goes out of a volume and what comes in."""

LANE = np.dtype(
    [
        ("way", np.int64, (MOST_PASSAGES,)),
        ("up", np.int64, (MOST_PASSAGES,)),  # volume the gas comes from, and goes to
        ("down", np.int64, (MOST_PASSAGES,)),
        ("sign", np.float64, (MOST_PASSAGES,)),  # +1 along the way
        ("area", np.float64, (MOST_PASSAGES,)),
        ("high", np.float64, (MOST_PASSAGES,)),
        ("low", np.float64, (MOST_PASSAGES,)),
        ("specific", np.float64, (MOST_PASSAGES,)),
        ("over_gamma", np.float64, (MOST_PASSAGES,)),
        ("flow", np.float64, (MOST_PASSAGES,)),
    ],
    align=True,
)
"""All ways that are open now, side by side."""

STIFF = np.dtype(
    [
        ("way", np.int64),
        ("up", np.int64),  # volume the gas comes from, and goes to
        ("down", np.int64),
        ("up_place", np.int64),  # their places among the unknowns; fixed: the one behind all
        ("down_place", np.int64),
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
        ("sign", np.float64),
    ],
    align=True,
)
"""A way that answers within a step, as the implicit part of the step sees it."""

WORK = np.dtype(
    [
        ("zone", ZONE, (MOST_ZONES,)),
        ("stream", STREAM, (MOST_VOLUMES,)),
        ("lane", LANE),
        ("open", np.int64),  # how many ways are in the lane
        ("stiff", STIFF, (MOST_PASSAGES,)),
        ("stiff_count", np.int64),
        ("unknowns", np.int64),  # pressures that the implicit part solves for
        ("unknown", np.int64, (MOST_VOLUMES,)),  # their volumes
        ("place", np.int64, (MOST_VOLUMES,)),  # of a volume among them
        ("matrix", np.float64, (MOST_VOLUMES, MOST_VOLUMES)),
        ("right", np.float64, (MOST_VOLUMES + 1,)),
        ("earlier", np.float64, (MOST_VOLUMES + 1,)),
        ("turned", np.float64),  # a shaft angle shortly before, rad, with its sine and cosine
        ("sine", np.float64),
        ("cosine", np.float64),
        ("turn", np.float64),  # 1 forwards, -1 backwards, 0 held at a stand
        ("widening", np.float64, (MOST_CYLINDERS,)),  # of a cylinder's volume by angle, m³/rad
        ("rise", np.float64, (MOST_CYLINDERS,)),  # of its pin by angle, m, and that by angle
        ("bend", np.float64, (MOST_CYLINDERS,)),
        ("own_sine", np.float64, (MOST_CYLINDERS,)),  # of its crank after the in-line position
        ("own_cosine", np.float64, (MOST_CYLINDERS,)),
        ("volume", np.float64, (MOST_VOLUMES,)),  # of every volume now, m³
        ("growth", np.float64, (MOST_VOLUMES,)),  # and its rate, m³/s
        # Of a cam valve, whether it is open between the events around now, and from which angle.
        ("valve_open", np.int64, (MOST_VALVES,)),
        ("valve_from", np.float64, (MOST_VALVES,)),
        ("stage", np.float64, (4, MOST_MOVING)),  # rates of the four stages
        ("now", np.float64, (MOST_MOVING,)),  # state at the start of the step
        ("trial", np.float64, (MOST_MOVING,)),  # state tried, of a stage and of the step
        ("miss", np.float64, (MOST_MOVING,)),  # estimated error of the step
        # Rates of the sums, weighted over the stages so far.
        ("cylinder_sums", np.float64, (MOST_CYLINDERS, CYLINDER_SUMS)),
        ("way_sums", np.float64, (MOST_PASSAGES, WAY_SUMS)),
        ("volume_sums", np.float64, (MOST_VOLUMES,)),
    ],
    align=True,
)


def new_work() -> Records:
    """Fresh space: an array of one record, to be held for as long as compiled code uses it."""
    return np.zeros(1, WORK)


@kernel
def lay_out(engine: Any, work: Any) -> None:
    """Make fresh space that of an engine."""
    work.cosine = 1.0
    work.turn = 1.0
    for volume in range(engine.volume_count):
        zone = work.zone[volume]
        zone.mass_at = SHAFT_SIZE + volume * VOLUME_SIZE + AIR
        zone.temperature_at = SHAFT_SIZE + volume * VOLUME_SIZE + TEMPERATURE
        work.volume[volume] = engine.volumes[volume].volume
    for cylinder in range(engine.cylinder_count):
        zone = work.zone[engine.volume_count + cylinder]
        at = engine.cylinders_at + cylinder * CYLINDER_SIZE
        zone.mass_at = at + ZONE_AIR
        zone.temperature_at = at + ZONE_TEMPERATURE


@kernel_part
def clear_sums(engine: Any, work: Any) -> None:
    """Begin the sums of a step."""
    for row in range(engine.cylinder_count):
        for term in range(CYLINDER_SUMS):
            work.cylinder_sums[row, term] = 0.0
    for row in range(engine.way_count):
        for term in range(WAY_SUMS):
            work.way_sums[row, term] = 0.0
    for row in range(engine.volume_count):
        work.volume_sums[row] = 0.0
