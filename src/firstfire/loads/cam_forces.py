"""What a cam feels: force along the lift, contact stress, and what the spring has left."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from firstfire.engine.records import Array
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas import cam_path, contact, contact_shear, valve_float
from firstfire.loads.cam_profile import Profile, paths, radii

GAS_AT_OPENING = 3e5
"""Pressure over the port as an exhaust valve opens, Pa: full throttle, common practice."""
_DEEP = 0.786  # half widths below a line contact the shear is largest (Shigley, section 3-19)
_STILL_PRESSED = 0.1  # share of the lift up to which that pressure is taken to last

SURE = 1.2
"""How much faster than it is meant to turn a spring must still hold: as the rule for springs."""


@dataclass(frozen=True)
class Contacts:
    """Contact of a cam and what rides on it, at its worst place.

    Attributes
    ----------
    force
        Between cam and follower there, N.
    pressure
        Peak pressure of Hertz, Pa.
    lift
        Lift of the valve there, m.
    capacity
        Peak pressure at which the softer body begins to yield below its surface, Pa.
    depth, shear
        How deep below the surface the shear is largest, m, and how large, Pa.
    softer
        Key of the material that yields first.
    """

    force: float
    pressure: float
    lift: float
    capacity: float
    depth: float
    shear: float
    softer: str


def acceleration(made: Profile, speed: float) -> Array:
    """Acceleration of the valve, m/s², at a crank speed, rad/s; 0 where the lash holds it shut."""
    moving = made.ratio * made.rise > made.valve.lash
    return np.where(moving, made.ratio * made.second * (speed / 2) ** 2, 0.0)


def valve_force(made: Profile, speed: float) -> Array:
    """Force the valve asks of its cam, N, with the gas an exhaust valve opens against.

    Negative where spring and inertia would part from the cam.
    """
    valve, lift = made.valve, made.valve_lift
    thrown = acceleration(made, speed)
    spring = np.array([
        valve_float.spring_margin(
            valve.spring_preload, valve.spring_rate, float(x), valve.mass, float(a)
        )
        for x, a in zip(lift, thrown, strict=True)
    ])  # fmt: skip
    if made.which == "exhaust":
        early = (made.angle < 0) & (lift < _STILL_PRESSED * valve.lift) & (lift > 0)
        spring += early * GAS_AT_OPENING * math.pi / 4 * valve.head_diameter**2
    return np.where(made.ratio * made.rise > valve.lash, spring, 0.0)


def push_angles(made: Profile) -> Array:
    """Pressure angle at each place, rad; nothing under a flat follower."""
    if made.valve.follower == "flat":
        return np.zeros_like(made.angle)
    return np.array([cam_path.push_angle(one) for one in paths(made)])


def cam_force(made: Profile, speed: float) -> Array:
    """Force between cam and follower, N."""
    force: Array = made.ratio * valve_force(made, speed) / np.cos(push_angles(made))
    return force


def worst_contact(plain: PlainEngine, made: Profile, speed: float) -> Contacts:
    """The largest contact stress over the lift, turned slowly and at `speed`.

    Raises
    ------
    OutsideValidity
        Where the cam undercuts itself, or the patch is no shallow cap.
    """
    valve = made.valve
    cam, rider = (plain.materials[key] for key in (valve.cam_material, valve.tappet_material))
    modulus = contact.contact_modulus(
        cam["modulus_in_plane"], cam["poisson"], rider["modulus_in_plane"], rider["poisson"]
    )
    capacity, softer = min(
        (contact.line_yield_pressure(_yields(plain, key)), key)
        for key in (valve.cam_material, valve.tappet_material)
    )
    force = np.maximum(cam_force(made, 0.0), cam_force(made, speed))
    bends, best = radii(made), Contacts(0.0, 0.0, 0.0, capacity, 0.0, 0.0, softer)
    for place in range(len(force)):
        if force[place] <= 0.0:
            continue
        patch = _patch(made, float(force[place]), float(bends[place]), modulus)
        if patch.peak_pressure > best.pressure:
            best = Contacts(
                float(force[place]), patch.peak_pressure, float(made.valve_lift[place]), capacity,
                _DEEP * patch.half_width,
                contact_shear.line_shear(_DEEP) * patch.peak_pressure, softer,
            )  # fmt: skip
    return best


def _patch(made: Profile, force: float, bend: float, modulus: float) -> contact.Contact:
    flat = made.valve.follower == "flat"
    if bend == 0.0 or (bend < 0.0 and (flat or -bend < made.valve.follower_radius)):
        raise OutsideValidity("This cam undercuts itself, and has no edge to ride on there.")
    over = contact.contact_radius(bend, math.inf if flat else made.valve.follower_radius)
    return contact.line_contact(force, made.valve.cam_width, over, modulus)


def _yields(plain: PlainEngine, key: str) -> float:
    told = plain.materials[key]
    return float(told["yield_strength" if "yield_strength" in told.properties else
                      "strength_in_plane"])  # fmt: skip


def least_spare(made: Profile, speed: float) -> tuple[float, float]:
    """Least force the spring has left over the lift, N, and the valve's lift there, m."""
    slowing = (acceleration(made, speed) < 0.0) & (made.valve_lift > 0.0)
    if not slowing.any():
        return made.valve.spring_preload, 0.0
    force = np.where(slowing, valve_force(made, speed), math.inf)
    place = int(np.argmin(force))
    return float(force[place]), float(made.valve_lift[place])


def floats_at(made: Profile) -> float:
    """Crank speed at which the valve first leaves its cam, rad/s."""
    away = acceleration(made, 1.0)
    held = made.valve.spring_preload + made.valve.spring_rate * made.valve_lift
    kept = (away < 0.0) & (made.valve_lift > 0.0)
    return min(
        valve_float.float_speed(1.0, float(f), made.valve.mass, -float(a))
        for f, a in zip(held[kept], away[kept], strict=True)
    )
