"""Every number of a cam: shape, forces and spring, with what each is held against."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.loads import cam_forces
from firstfire.loads.cam_forces import SURE
from firstfire.loads.cam_profile import Profile, foot, radii, sharpest
from firstfire.setup.number import Number

NORTON = "R. L. Norton, Cam Design and Manufacturing Handbook, 2nd ed."
SHIGLEY = "Shigley's Mechanical Engineering Design, 9th ed., section 3-19"
PRACTICE = "common practice, no source"
STEEPEST = math.radians(30.0)
STEEPEST_ON_ARM = math.radians(35.0)


def top_speed(plain: PlainEngine) -> float:
    """Fastest it is meant to turn, rad/s: its limiter, or the fastest full throttle asked for."""
    limit = plain.spark.limit_speed
    return limit if limit is not None else max(plain.use.full_throttle_speeds)


def numbers(plain: PlainEngine, made: Profile, line_width: float) -> tuple[Number, ...]:
    """All numbers of a cam that can be judged.

    Parameters
    ----------
    plain, made
        The engine and the cam.
    line_width
        Of the printer, m: the least edge it can lay round.
    """
    speed = top_speed(plain)
    return (
        *shape(made, line_width),
        *_moves(made, speed),
        *_contact(plain, made, speed),
        *_spring(made, speed),
    )


def shape(made: Profile, line_width: float) -> Iterator[Number]:
    """What decides whether it can be made."""
    valve, bends = made.valve, radii(made)
    yield Number(
        "lift_at_cam", "lift at the cam, ramp included", float(made.rise.max()), "m",
        why="the valve's lift and its lash, over the rocker's ratio", source="definition",
    )  # fmt: skip
    yield Number(
        "nose_radius", "least radius of the nose and flanks", sharpest(made), "m",
        line_width, "at least",
        "R + s + s″ under a flat follower, else of the path of its centre less its radius; a "
        "printer can't lay an edge rounder than its line is wide; below 0 it undercuts itself",
        f"{NORTON}, cam size",
    )  # fmt: skip
    hollow = _hollow(made, bends)
    if hollow is not None:
        yield Number(
            "hollow_radius", "least radius of the hollow in its flank", hollow, "m",
            max(0.5 * line_width, valve.follower_radius), "at least",
            "what rides on the cam has to reach its floor, and a nozzle to draw it",
            f"{NORTON}, cam size",
        )  # fmt: skip
    if valve.follower == "flat":
        yield Number(
            "foot_width", "least width of the flat foot",
            2 * float(np.abs(foot(made)).max()), "m",
            why="twice the largest slope by cam angle; on a rocker also by its swing",
            source=f"{NORTON}, flat-faced followers",
        )  # fmt: skip
        return
    rocker = valve.rocker == "rocker"
    yield Number(
        "pressure_angle", "steepest push on what rides on it",
        float(cam_forces.push_angles(made).max()), "rad", STEEPEST_ON_ARM if rocker else STEEPEST,
        "at most", "between the push and the way the follower is led: steeper, it jams or bends",
        f"{NORTON}: 30° where it slides, 35° on an arm",
    )  # fmt: skip


def _hollow(made: Profile, bends: np.ndarray) -> float | None:
    """Radius of its deepest hollow; None where it has none, or where it undercuts."""
    if made.valve.follower == "flat":
        return None
    deep = bends[bends < -made.valve.follower_radius]
    # an edge all but straight is no hollow to anyone
    return float(-deep.max()) if deep.size and -deep.max() < 1.0 else None


def _moves(made: Profile, speed: float) -> Iterator[Number]:
    cam = speed / 2
    away = cam_forces.acceleration(made, speed)
    told = f"at {speed * 30 / math.pi:.0f} rpm"
    open_now = made.valve_lift > 0.0
    jerk = np.abs(made.third[open_now]).max() * made.ratio * cam**3
    yield Number("acceleration", f"largest acceleration of the valve, {told}",
                    float(away.max()), "m/s^2", why="second derivative × cam speed²",
                    source=NORTON)  # fmt: skip
    yield Number("deceleration", f"largest deceleration of the valve, {told}",
                    float(-away.min()), "m/s^2", why="the spring alone has to give it",
                    source=NORTON)  # fmt: skip
    yield Number("jerk", f"largest jerk while it is open, {told}", float(jerk), "m/s^3",
                    why="third derivative × cam speed³: what makes a train ring",
                    source=NORTON)  # fmt: skip
    ramp = made.rise < made.valve.lash / made.ratio
    yield Number(
        "ramp_speed", f"fastest touch where lash is wrong, {told}",
        float(np.abs(made.slope[ramp]).max(initial=0.0)) * made.ratio * cam, "m/s", 0.5, "at most",
        "slope of the ramp × cam speed; a valve that meets its seat faster hammers it",
        f"0.3 to 0.6 m/s, {PRACTICE}",
    )  # fmt: skip


def _contact(plain: PlainEngine, made: Profile, speed: float) -> Iterator[Number]:
    force = np.maximum(cam_forces.cam_force(made, 0.0), cam_forces.cam_force(made, speed))
    yield Number(
        "force", "largest force on what rides on it", float(force.max()), "N",
        why="spring, mass × acceleration and, on an exhaust valve as it opens, 3 bar of gas; slow "
        "and at top speed; times the rocker's ratio over the cosine of the pressure angle",
        source=f"{NORTON}, force-closed followers; gas: {PRACTICE}",
    )  # fmt: skip
    try:
        worst = cam_forces.worst_contact(plain, made, speed)
    except OutsideValidity as why:
        yield Number("contact", "contact stress: not judged", math.nan, "Pa", 0.0, "at most",
                        str(why), SHIGLEY)  # fmt: skip
        return
    name = plain.materials[worst.softer].name
    yield Number(
        "contact", "largest contact stress", worst.pressure, "Pa", worst.capacity, "at most",
        f"√(F E*/(π L R)) over {1e3 * made.valve.cam_width:.3g} mm; 1.67 × the strength of "
        f"{name}, which begins to yield {1e3 * worst.depth:.2g} mm below its surface at "
        f"{worst.shear / 1e6:.3g} MPa of shear; at room temperature, once: wear and fatigue not "
        "judged",
        f"{SHIGLEY}, Eq. 3-73, 3-74; K. L. Johnson, Contact Mechanics, section 6.2",
    )  # fmt: skip


def _spring(made: Profile, speed: float) -> Iterator[Number]:
    spare, at = cam_forces.least_spare(made, SURE * speed)
    yield Number(
        "spare_force", f"least the spring has left at {SURE:g} × that speed", spare, "N", 0.0,
        "at least",
        f"preload + rate × lift - mass × deceleration, least at {1e3 * at:.2g} mm of lift",
        f"{NORTON}, force-closed followers; margin: {PRACTICE}",
    )  # fmt: skip
    yield Number(
        "float_speed", "crank speed at which it leaves its cam", cam_forces.floats_at(made),
        "rad/s", SURE * speed, "at least", "√((preload + rate × lift)/(mass × deceleration))",
        f"{NORTON}, force-closed followers",
    )  # fmt: skip
