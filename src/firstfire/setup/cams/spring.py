"""The spring that keeps a valve on its cam: its line of force, and a winding that fits."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product

import numpy as np

from firstfire.errors import OutsideValidity
from firstfire.formulas import spring, spring_wire
from firstfire.formulas.cam_spring import SpringLine, least_spring
from firstfire.loads.cam_forces import SURE, acceleration
from firstfire.loads.cam_profile import Profile

WIRE = "music wire"
SHEAR_MODULUS = 81.0e9  # Pa, Shigley 9th ed., Table 10-5
DENSITY = 7850.0
_TENTHS = (5, 6, 7, 8, 9, 10, 11, 12, 14, 16, 18, 20, 22, 25, 28, 30)  # of a millimetre
_WIRES = tuple(1e-4 * tenths for tenths in _TENTHS)
_COILS = tuple(0.5 * halves for halves in range(6, 21))  # active
DEAD = 2.0  # coils, ends squared and ground
CLASH = 0.15
"""How much of the lift is kept free before its coils touch: 10 to 15 %, common practice."""
YIELD_SHARE = 0.45  # shear yield over tensile strength of wire, Shigley 9th ed., Table 10-6
_ROOM = 1.5  # times the shortest
STRESS_SHARE = 0.85  # of that at full lift, common practice
SURGE = 13.0
"""Least times the cam's turns that the coils may surge at: 15 to 20 by Shigley, 13 by Norton."""
_GUIDE = 1.5e-3  # wall of the guide the spring stands around and its play, m
_SUCTION = 0.7e5  # Pa below the port that must not lift a shut valve


@dataclass(frozen=True)
class Winding:
    """A spring as it is ordered or wound.

    Attributes
    ----------
    wire, mean
        Wire and mean coil diameter, m.
    active, total
        Coils.
    preload, rate
        N on the seat, N/m.
    free, fitted, solid
        Length free, with the valve shut, and with all coils touching, m.
    stress, allowed
        Largest shear at full lift, and what the wire bears, Pa.
    surge
        Lowest frequency of its coils, Hz, and `times` the cam's turns at top speed.
    times
        That over the cam's turns.
    mass
        Of its active coils, kg.
    bows
        Whether it is so long that it can bow out without a guide.
    """

    wire: float
    mean: float
    active: float
    total: float
    preload: float
    rate: float
    free: float
    fitted: float
    solid: float
    stress: float
    allowed: float
    surge: float
    times: float
    mass: float
    bows: bool


def needed_line(made: Profile, speed: float) -> SpringLine:
    """The least spring that holds at `SURE` times a crank speed and shuts against suction."""
    valve, away = made.valve, acceleration(made, SURE * speed)
    kept = (away < 0.0) & (made.valve_lift > 0.0)
    seat = _SUCTION * math.pi / 4 * valve.throat_diameter**2
    return least_spring(
        made.valve_lift[kept].tolist(), (-valve.mass * away[kept]).tolist(), valve.lift, seat
    )


def winding(made: Profile, line: SpringLine, speed: float) -> Winding:
    """A winding of music wire that gives a line of force and fits around the guide.

    Of those that are hardly longer than the shortest it is the one whose wire is eased most.

    Parameters
    ----------
    made, line
        The cam, and force over lift.
    speed
        Largest crank speed, rad/s.

    Raises
    ------
    OutsideValidity
        Where none fits, with what would let one.
    """
    fits = [
        found
        for wire, coils in product(_WIRES, _COILS)
        if (found := _wound(made, line, speed, wire, coils)) is not None
    ]
    if not fits:
        raise OutsideValidity(
            f"No spring of {WIRE} with {_COILS[0]:g} to {_COILS[-1]:g} active coils gives "
            f"{line.rate / 1e3:.3g} N/mm from {line.preload:.3g} N around a stem of "
            f"{1e3 * made.valve.stem_diameter:.3g} mm, within its stress and "
            f"{SURGE:g} × the cam's turns. Less lift, a lighter valve, a gentler law or a lower "
            "speed asks for less; two springs, one within the other, share it."
        )
    room = _ROOM * min(one.fitted for one in fits)
    return min(
        (one for one in fits if one.fitted <= room), key=lambda one: one.stress / one.allowed
    )


def _wound(
    made: Profile, line: SpringLine, speed: float, wire: float, coils: float
) -> Winding | None:
    """A winding of a wire and a count of coils, whose diameter then follows; None: unfit."""
    valve, full = made.valve, line.preload + line.rate * made.valve.lift
    mean = float(np.cbrt(wire**4 * SHEAR_MODULUS / (8 * line.rate * coils)))
    inside = valve.stem_diameter + 2 * _GUIDE
    if mean - wire < inside or mean + wire > max(valve.head_diameter, inside + 6e-3) + 4e-3:
        return None
    try:
        index = spring.spring_index(mean, wire)
        stress = spring.shear_stress(full, wire, mean, spring.wahl_factor(index))
        allowed = STRESS_SHARE * YIELD_SHARE * spring_wire.wire_strength(WIRE, wire)
    except OutsideValidity:
        return None
    rate = spring.rate(wire, mean, coils, SHEAR_MODULUS)
    mass = spring.active_mass(wire, mean, coils, DENSITY)
    surge = spring.surge_frequency(rate, mass)
    times = surge / (speed / 2 / (2 * math.pi))
    if not 4.0 <= index <= 12.0 or stress > allowed or times < SURGE:
        return None
    solid = spring.solid_length(wire, coils + DEAD)
    fitted = solid + (1.0 + CLASH) * valve.lift
    free = fitted + line.preload / rate
    return Winding(
        wire, mean, coils, coils + DEAD, line.preload, rate, free, fitted, solid, stress, allowed,
        surge, times, mass, free > spring.critical_free_length(mean),
    )  # fmt: skip
