"""Friction, contact by contact, as a torque against the turning shaft at each step.

Rings, skirt, crankpin and piston pin of each cylinder from pressure, speed and the force in the
rod; main bearings, seals, valve gear and cam drive of the whole engine.

References
----------
O-rings: the line and area method of :mod:`firstfire.formulas.oring_friction`. Iron rings: mixed
lubrication, a coefficient that falls from 0.10 at rest to 0.03 at speed, J. B. Heywood, *Internal
Combustion Engine Fundamentals*, 1988, section 13.6 (from memory). Rolling bearings: Palmgren,
:mod:`firstfire.formulas.bearing_friction`. How much pressure a second ring still sees, a half, is
common practice, no source.
"""

from __future__ import annotations

import math
from typing import Any

from firstfire.cycle.compile import kernel
from firstfire.cycle.layout import IRON_RINGS, O_RINGS, PTFE_RINGS
from firstfire.formulas import bearing_friction, oring_friction

# Sums of friction, J: of rings, skirts, bearings (crank, pins, seals), valve gear, cam drive.
BY_RINGS, BY_SKIRTS, BY_BEARINGS, BY_VALVE_GEAR, BY_DRIVE, FRICTION_SUMS = 0, 1, 2, 3, 4, 5

NEXT_RING = 0.5
"""Share of the pressure drop that each further ring sees."""

oring_drag = kernel(oring_friction.running_friction)
_AT_REST, _AT_SPEED, _FADES_OVER = 0.10, 0.03, 0.5  # iron rings: coefficients, and m/s
_PTFE = 0.10  # dry filled PTFE on a smooth wall, makers' data 0.08 to 0.15, from memory
_Z, _Y = bearing_friction.DEEP_GROOVE_LOAD


@kernel
def ring_drag(rubbing: Any, pressure_drop: float, piston_speed: float) -> float:
    """Force of all rings of a piston against its motion, N."""
    drop = abs(pressure_drop)
    force = 0.0
    for _ in range(rubbing.ring_count):
        if rubbing.ring_kind == O_RINGS:
            force += oring_drag(rubbing.line_level, rubbing.ring_length, rubbing.ring_area, drop)
        elif rubbing.ring_kind == IRON_RINGS:
            falling = math.exp(-abs(piston_speed) / _FADES_OVER)
            coefficient = _AT_SPEED + (_AT_REST - _AT_SPEED) * falling
            force += coefficient * (rubbing.ring_spring + drop) * rubbing.ring_area
        elif rubbing.ring_kind == PTFE_RINGS:
            force += _PTFE * (rubbing.ring_spring + drop) * rubbing.ring_area
        drop *= NEXT_RING
    total: float = force * rubbing.ring_doubt
    return total


@kernel
def cylinder_friction(
    rubbing: Any,
    piston_area: float,
    throw: float,
    rod: float,
    cosine: float,
    slope: float,
    curvature: float,
    lean: float,
    speed: float,
    pressure_drop: float,
) -> tuple[float, float, float, float]:
    """Friction torques of one cylinder, N m, each 0 or more, against the turning.

    Parameters
    ----------
    rubbing
        Its record.
    piston_area, throw, rod
        m², m, m.
    cosine, slope, curvature, lean
        Of the crank angle past the in-line position; first and second derivative of the pin's
        height by it, m; sine of the rod's angle to the bore.
    speed
        Of the crank, rad/s, either sign.
    pressure_drop
        Gas over the piston less the crankcase, Pa.

    Returns
    -------
    rings, skirt, pins, rod_force
        Torques, and the size of the force in the rod, N.
    """
    along = pressure_drop * piston_area + rubbing.reciprocating_mass * curvature * speed * speed
    rod_force = abs(along) / math.sqrt(1.0 - lean * lean)
    arm = abs(slope)
    rings = ring_drag(rubbing, pressure_drop, slope * speed) * arm
    skirt = rubbing.skirt * rod_force * abs(lean) * arm
    swing = abs(throw / rod * cosine)
    pins = rod_force * (rubbing.crankpin + rubbing.piston_pin * swing)
    return rings, skirt, pins, rod_force


@kernel
def shaft_friction(rubbing: Any, load: float, speed: float) -> float:
    """Friction torque of main bearings and seals under a total radial load, N m, 0 or more."""
    torque = rubbing.constant + rubbing.bearing_drag * abs(speed) ** (2.0 / 3.0)
    if rubbing.bearings > 0.0 and rubbing.bearing_rating > 0.0:
        each = load / rubbing.bearings
        level = _Z * (each / rubbing.bearing_rating) ** _Y
        torque += level * each * rubbing.bearing_diameter * rubbing.bearings
    total: float = torque * rubbing.bearing_doubt
    return total
