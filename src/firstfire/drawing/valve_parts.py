"""Valves in their seats, springs, followers and cams."""

from __future__ import annotations

import math

import numpy as np

from firstfire.drawing import conventions as by
from firstfire.drawing.frame import Frame
from firstfire.drawing.head_parts import valve_frame
from firstfire.drawing.lifts import lifts
from firstfire.drawing.making import made
from firstfire.drawing.model import Disc, Loop, Part, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import bulge, line, polygon, rectangle, shifted, slot
from firstfire.drawing.sizes import CylinderSizes, ValveSizes
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine


def valves(plain: PlainEngine, s: CylinderSizes) -> list[Part]:
    """Both valves at their lift, with their springs."""
    springs: list[Shape] = []
    for v in s.valves:
        springs += [valve_frame(v).shape(shape) for shape in _spring(v)]
    n = s.number
    return [
        made(plain, "inlet-valve", n, *_valve(s.inlet)),
        made(plain, "exhaust-valve", n, *_valve(s.exhaust)),
        made(plain, "springs", n, *springs),
    ]


def _valve(v: ValveSizes) -> list[Shape]:
    """Head, hollow and stem, and the retainer on it; never hatched."""
    rim, hollow = 2 * by.RIM * v.head, 2 * by.TULIP * v.head
    neck = v.cone + hollow
    lean = bulge(-math.radians(70))
    loop: Loop = (
        (-v.head, -rim, 0.0), (v.head, -rim, 0.0), (v.head, 0.0, 0.0),
        (v.throat * 0.97, v.cone, lean), (v.stem, neck, 0.0),
        (v.stem, v.tip, 0.0), (-v.stem, v.tip, 0.0), (-v.stem, neck, lean),
        (-v.throat * 0.97, v.cone, 0.0), (-v.head, 0.0, 0.0),
    )  # fmt: skip
    plate = v.tip - by.TIP
    out = v.spring_mean + v.wire
    retainer = polygon(
        (-out, plate - by.RETAINER), (out, plate - by.RETAINER), (out, plate - 0.4 * by.RETAINER),
        (v.stem + 0.8, plate), (-v.stem - 0.8, plate), (-out, plate - 0.4 * by.RETAINER),
    )  # fmt: skip
    place = valve_frame(v)
    return [
        place.shape(Region((shifted(loop, 0, -v.lift),))),
        place.shape(Region((shifted(retainer, 0, -v.lift),))),
    ]


def _spring(v: ValveSizes) -> list[Shape]:
    """The near halves of its coils, seen from outside."""
    half = v.wire / 2
    low, high = v.top + half, v.tip - by.TIP - by.RETAINER - v.lift - half
    coils = int(by.COILS) + 1
    pitch = (high - low) / (coils - 0.5)
    shapes: list[Shape] = []
    for turn in range(coils):
        start = low + turn * pitch
        rise = 0.5 * pitch
        shapes.append(
            Region(
                (slot((-v.spring_mean, start), (v.spring_mean, start + rise), half),),
                "paper",
                "thin",
            )
        )
    return shapes


def cams(plain: PlainEngine, s: CylinderSizes, crank_angle: float) -> list[Part]:
    """The one cam shaft with a cam for each valve that one works, and what rides on them.

    The valves are turned into the plane and the shaft is not: what rides on a cam reaches from
    under it to its valve.
    """
    own = crank_angle - firing_angles(plain)[s.number - 1]
    worked = [(row, v) for row, v in enumerate(s.valves) if v.valve.worked == "cam"]
    if not worked:
        return []
    shapes = [x for _, v in worked for x in _reaching(s, v)]
    shapes += [Region((polygon(*_about_shaft(s, v, row, own)),)) for row, v in worked]
    shaft, place = cam_shaft_radius(s), Frame(origin=(s.x, s.cam_level))
    cross = (((-1.2 * shaft, 0.0), (1.2 * shaft, 0.0)), ((0.0, -1.2 * shaft), (0.0, 1.2 * shaft)))
    shapes.append(place.shape(Disc((0.0, 0.0), shaft, "metal")))
    shapes += [place.shape(Stroke(line(*ends), "centre")) for ends in cross]
    return [made(plain, "cam", None, *shapes)]


def cam_shaft_radius(s: CylinderSizes) -> float:
    """Radius of the shaft that carries the cams: of the largest base circle's."""
    return max(
        by.CAM_SHAFT * 1e3 * v.valve.base_radius for v in s.valves if v.valve.worked == "cam"
    )


def cam_reach(s: CylinderSizes) -> float:
    """How far from its shaft the highest cam reaches, 0 without one."""
    return max(
        (1e3 * v.valve.base_radius + v.largest_lift / _ratio(v)
         for v in s.valves if v.valve.worked == "cam"), default=0.0,
    )  # fmt: skip


def _about_shaft(s: CylinderSizes, v: ValveSizes, row: int, own: float) -> list[Point]:
    middle = cam_centre(s, v)
    return [(s.x + x, s.cam_level + y - middle) for x, y in lobe_points(s, v, row, own)]


def _reaching(s: CylinderSizes, v: ValveSizes) -> list[Shape]:
    """What rides on a cam of the shaft in the middle, in the cylinder's own coordinates."""
    base, place = 1e3 * v.valve.base_radius, valve_frame(v)
    level = s.cam_level - base - v.lift / _ratio(v)
    if v.valve.rocker == "rocker":
        pad = rectangle(s.x - 1.5, level - 2.5, s.x + 1.5, level)
        return [*(place.shape(x) for x in follower(s, v, s.x)), Region((pad,))]
    wide, low = min(0.75 * base, v.spring_mean + v.wire), v.tip - v.lift
    side = 1.0 if v.x > s.x else -1.0
    outer, inner = place.point((side * wide, low)), place.point((-side * wide, low))
    edge = polygon(outer, inner, (s.x - side * 0.4 * base, level), (outer[0], level))
    return [Region((edge,))]


def bracket(plain: PlainEngine, s: CylinderSizes) -> list[Part]:
    """What carries the cam shaft over the head, behind the section."""
    worked = [v for v in s.valves if v.valve.worked == "cam"]
    if not worked:
        return []
    shaft = max(by.CAM_SHAFT * 1e3 * v.valve.base_radius for v in worked) + 2.5
    foot = max(shaft, 0.75 * s.block_half)
    loop = (
        (s.x - foot, s.block, 0.0), (s.x + foot, s.block, 0.0), (s.x + shaft, s.cam_level, 1.0),
        (s.x - shaft, s.cam_level, 0.0),
    )  # fmt: skip
    return [made(plain, "cam-bracket", None, Region((loop,), "paper", "thin"))]


def cam_centre(s: CylinderSizes, v: ValveSizes) -> float:
    """Level of a valve's cam over its seat, along the valve."""
    return (s.cam_level - v.y) / math.cos(v.lean)


def follower(s: CylinderSizes, v: ValveSizes, cam: float | None = None) -> list[Shape]:
    """What rides on a cam: a cup right under it, or a finger on a pin where there is a rocker.

    Parameters
    ----------
    s, v
        The cylinder and the valve, whose frame these are in.
    cam
        Where the cam shaft stands across the bore; None where the cam is right over the valve.
    """
    base = 1e3 * v.valve.base_radius
    low, high = v.tip - v.lift, cam_centre(s, v) - base - v.lift
    if v.valve.rocker == "rocker":
        out = max(s.block_half - abs(v.x - s.x) - 2.5, v.spring_mean + 3.0)
        out = out if v.x > s.x else -out
        thick = max((high - low) / 2, 0.8)
        pivot = v.tip - v.largest_lift / 2 + thick
        far = 0.0 if cam is None else cam - v.x
        rise = (low + thick - pivot) * (far - out) / -out
        arm = slot((out, pivot), (far, pivot + rise), 1.4 * thick, thick)
        post = rectangle(out - thick, v.top, out + thick, pivot - 1.4 * thick)
        return [Region((post,)), Region((arm,)), Disc((out, pivot), 0.7 * thick, "metal")]
    if v.valve.follower == "roller":
        radius = max((high - low) / 2, 1.0)
        return [Disc((0, (low + high) / 2), radius), Disc((0, (low + high) / 2), 0.35 * radius)]
    wide = min(0.75 * base, v.spring_mean + v.wire)
    return [Region((rectangle(-wide, low, wide, high),))]


def lobe_points(s: CylinderSizes, v: ValveSizes, row: int, own: float) -> list[Point]:
    """The cam's edge as it stands: towards the valve it is as high as the valve is open.

    Base circle plus lift in each direction; the true flank depends on what rides on it.
    """
    base = 1e3 * v.valve.base_radius
    middle = cam_centre(s, v)
    # on the cam, not on the sheet: turned, it is the same outline turned
    round_it = np.radians(np.arange(0, 360, 6))
    radius = base + 1e3 * lifts(s.parts, 2 * round_it)[row] / _ratio(v)
    ahead = round_it - own / 2
    across, along = radius * np.sin(ahead), middle - radius * np.cos(ahead)
    return list(zip(across.tolist(), along.tolist(), strict=True))


def _ratio(v: ValveSizes) -> float:
    return v.valve.rocker_ratio if v.valve.rocker == "rocker" else 1.0
