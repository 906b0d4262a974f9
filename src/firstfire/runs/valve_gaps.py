"""Room between the valves and what they could meet, all through a cycle.

The chamber is taken as high everywhere as its volume asks, with the valves' faces in its roof:
where it is narrower than the bore it is higher, and there is more room. Heads are taken as thin.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import geometry, mechanism
from firstfire.engine.records import Array
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.valve_room import room_over
from firstfire.formulas import slider_crank
from firstfire.loads import cam_forces
from firstfire.loads.cam_profile import Profile, Which, profile

TIGHT = 1e-3
"""Room left for what stretches, leans and is made badly, m: 1 to 1.5 mm, common practice."""

_CYCLE = 4 * math.pi
_HANGS = math.pi / 2  # how much longer a valve that floats is followed, rad of crank
_PLACES = 721


@dataclass(frozen=True)
class Gap:
    """The least room somewhere in a cycle.

    Attributes
    ----------
    gap
        m; negative: they meet, so deep.
    angle
        Crank angle after the cylinder's own firing top centre, rad; not a number where it is the
        same all the way.
    what
        Which valve, or which two.
    """

    gap: float
    angle: float
    what: str

    @property
    def where(self) -> str:
        """Where in the turn, in words."""
        if math.isnan(self.angle):
            return "all the way"
        past = math.degrees(self.angle) - 360.0
        if abs(past) < 0.5:
            return "at the top between exhaust and intake"
        side = "after" if past > 0 else "before"
        return f"{abs(past):.0f}° {side} the top between exhaust and intake"


def worked(parts: CylinderParts) -> tuple[Profile, ...]:
    """The cams of a cylinder."""
    which: tuple[Which, ...] = ("inlet", "exhaust")
    return tuple(
        profile(parts, name) for name in which if getattr(parts.valves, name).worked == "cam"
    )


def lift_over(made: Profile, angle: Array, later: float = 0.0, lash: float | None = None) -> Array:
    """Lift of a valve on its cam, m, at crank angles after its firing top centre, rad.

    Parameters
    ----------
    made, angle
        The cam, and where.
    later
        By how much the cam has come late, rad of crank.
    lash
        As measured, m; None: as the file has it.
    """
    turned = (angle - later - made.centre) / 2
    about = np.mod(turned + math.pi, 2 * math.pi) - math.pi
    rise = np.interp(about, made.angle, made.rise, left=0.0, right=0.0)
    slack = made.valve.lash if lash is None else lash
    lift: Array = np.maximum(made.ratio * rise - slack, 0.0)
    return lift


def thrown_lift(made: Profile, angle: Array, speed: float) -> Array:
    """Lift of a valve that may leave its cam at a crank speed, rad/s, at rising crank angles.

    The spring alone brings it back; it neither bounces nor rubs.
    """
    cam, valve = lift_over(made, angle), made.valve
    step = float(angle[1] - angle[0]) / speed
    found = np.empty_like(cam)
    lift, pace, before = float(cam[0]), 0.0, float(cam[0])
    for place, held in enumerate(cam.tolist()):
        pace -= (valve.spring_preload + valve.spring_rate * lift) / valve.mass * step
        lift += pace * step
        if lift <= held:
            lift, pace = held, (held - before) / step
        before = held
        found[place] = lift
    return found


def travel(plain: PlainEngine, cylinder: int, angle: Array) -> Array:
    """How far the piston is below its top, m, at crank angles after its firing top centre."""
    turned, down = _travel(mechanism(plain.cylinders[cylinder]))
    found: Array = np.interp(angle, turned, down, period=2 * math.pi)
    return found


@lru_cache(maxsize=8)
def _travel(lengths: tuple[float, float, float]) -> tuple[Array, Array]:
    """How far the piston is below its top, m, each half degree of a turn.

    Between those it is off by less than a micrometre.
    """
    turned = np.linspace(0.0, 2 * math.pi, _PLACES)
    return turned, np.array([slider_crank.piston_travel(one, *lengths) for one in turned.tolist()])


def through(made: Profile, wider: float) -> Array:
    """Crank angles from opening to closing, or so much wider at both ends, evenly."""
    return np.linspace(made.opens - wider, made.shuts + wider, _PLACES)


def piston_gap(
    plain: PlainEngine,
    cylinder: int,
    made: Profile,
    later: float = 0.0,
    lash: float | None = None,
    thrown_at: float | None = None,
) -> Gap | None:
    """Least room between a valve and the piston; None where valves stand beside the bore.

    Parameters
    ----------
    plain, cylinder, made
        The engine, which cylinder from 0, and the cam of the valve.
    later, lash
        As `lift_over`.
    thrown_at
        Crank speed at which it may leave its cam, rad/s; None: it stays on it.
    """
    if plain.cylinders[cylinder].valves.placed == "side":
        return None
    if thrown_at is not None:
        angle = through(made, _HANGS)
        lift = thrown_lift(made, angle, thrown_at)
    else:
        angle = later + through(made, 0.0 if lash is None else made.valve.cam_ramp)
        lift = lift_over(made, angle, later, lash)
    if not lift.any():
        return None
    shut, taken = room_over(plain.cylinders[cylinder], made.valve)
    room = shut + travel(plain, cylinder, angle) - taken * lift
    if thrown_at is not None or lash is not None:
        room = np.where(lift > 0.0, room, math.inf)  # shut, it is part of the roof
    place = int(np.argmin(room))
    return Gap(float(room[place]), float(angle[place]), f"{made.which} valve and piston")


def between_gap(plain: PlainEngine, cylinder: int, later: float = 0.0) -> Gap | None:
    """Least gap between the heads of both valves; None where one is not on a cam, or both aside."""
    parts = plain.cylinders[cylinder]
    cams = worked(parts)
    if len(cams) < 2 or parts.valves.placed == "side":
        return None
    angle = np.linspace(-math.pi / 2, -math.pi / 2 + _CYCLE, _PLACES)
    lean, bridge = parts.head.valve_axis_angle, geometry(plain).cylinders[cylinder].valve_to_valve
    faces = []
    for made, side in zip(cams, (1.0, -1.0), strict=True):
        lift = lift_over(made, angle, later)
        inner = side * (bridge / 2 - lift * math.sin(lean)) - 1j * lift * math.cos(lean)
        across = made.valve.head_diameter * (side * math.cos(lean) - 1j * math.sin(lean))
        faces.append((inner, inner + across))
    apart = _apart(faces[0], faces[1])
    place = int(np.argmin(apart))
    where = float(angle[place]) if lean > 0.0 else math.nan
    return Gap(float(apart[place]), where, "inlet and exhaust valve")


def wall_gap(plain: PlainEngine, cylinder: int) -> Gap | None:
    """Least gap between a valve's head and the bore: as it leaves its seat; None: beside it.

    Valves that lean open away from the wall; upright ones keep their distance.
    """
    parts = plain.cylinders[cylinder]
    if parts.valves.placed == "side":
        return None
    gap = geometry(plain).cylinders[cylinder].valve_to_wall
    return Gap(gap, math.nan, "valves and bore")


Places = NDArray[np.complex128]
Face = tuple[Places, Places]


def _apart(one: Face, other: Face) -> Array:
    """Distance of two straight faces; negative by how far they reach past each other."""
    ends = [_to_face(p, other) for p in one] + [_to_face(p, one) for p in other]
    least: Array = np.min(ends, axis=0)
    return np.where(_cross(one, other), -least, least)


def _to_face(point: Places, face: Face) -> Array:
    along = face[1] - face[0]
    share = np.clip(((point - face[0]) * along.conjugate()).real / np.abs(along) ** 2, 0.0, 1.0)
    found: Array = np.abs(point - face[0] - share * along)
    return found


def _cross(one: Face, other: Face) -> NDArray[np.bool_]:
    """Whether two straight faces cut each other."""
    found: NDArray[np.bool_] = _parts(one, other) & _parts(other, one)
    return found


def _parts(line: Face, points: Face) -> NDArray[np.bool_]:
    along = line[1] - line[0]
    sides = [((p - line[0]) * along.conjugate()).imag for p in points]
    found: NDArray[np.bool_] = sides[0] * sides[1] < 0.0
    return found


def hung_gap(plain: PlainEngine, cylinder: int, made: Profile) -> Gap | None:
    """Room over the piston at the top for a valve that hangs open as far as it ever opens."""
    parts = plain.cylinders[cylinder]
    if parts.valves.placed == "side":
        return None
    shut, taken = room_over(parts, made.valve)
    return Gap(
        shut - taken * made.valve.lift, 2 * math.pi, f"{made.which} valve hung open, and piston"
    )


def float_speed_shown(made: Profile, top: float) -> float:
    """Crank speed at which a floating valve is looked at, rad/s: 15 % past where it floats.

    Where it floats already below `cam_forces.SURE` times the top speed, that speed.
    """
    return max(cam_forces.SURE * top, 1.15 * cam_forces.floats_at(made))
