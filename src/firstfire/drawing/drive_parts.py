"""What turns with the crank outside the case, seen along it: cam drive, flywheel, load."""

from __future__ import annotations

import math
from collections.abc import Sequence

from firstfire.drawing import conventions as by
from firstfire.drawing.frame import Frame
from firstfire.drawing.making import made
from firstfire.drawing.model import Disc, Loop, Part, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import at, bulge, line
from firstfire.drawing.sizes import CylinderSizes
from firstfire.engine.resolve import PlainEngine


def pitch_radius(plain: PlainEngine, teeth: int) -> float:
    """Radius of a wheel's pitch circle, mm."""
    return 1e3 * plain.cam_drive.pitch * teeth / (2 * math.pi)


def cam_drive(
    plain: PlainEngine, sizes: Sequence[CylinderSizes], frames: Sequence[Frame]
) -> list[Part]:
    """Wheels on crank and cams and what runs over them, behind the section: thin lines."""
    small = pitch_radius(plain, plain.cam_drive.teeth_crank)
    large = pitch_radius(plain, plain.cam_drive.teeth_cam)
    wheels: list[Shape] = [Disc(frames[0].origin, small, "none", "thin")]
    drives: list[Shape] = []
    done: list[Point] = []
    for s, frame in zip(sizes, frames, strict=True):
        centre = frame.point((s.x, s.cam_level))
        if any(math.dist(centre, other) < 1e-6 for other in done):
            continue
        done.append(centre)
        wheels += [Disc(centre, large, "none", "thin"), Disc(centre, 0.18 * large, "none", "thin")]
        drives += _drive(plain, frame.origin, centre, small, large)
    return [made(plain, "cam-pulleys", None, *wheels), made(plain, "cam-drive", None, *drives)]


def _drive(plain: PlainEngine, crank: Point, cam: Point, small: float, large: float) -> list[Shape]:
    if plain.cam_drive.kind == "gear":
        return _idlers(crank, cam, small, large)
    thick = max(0.8e3 * plain.cam_drive.pitch, 1.5)
    if plain.cam_drive.kind == "chain":
        half, middle = thick / 2, belt_loop(crank, cam, small, large)
        outside = belt_loop(crank, cam, small + half, large + half)
        inside = belt_loop(crank, cam, small - half, large - half)
        return [Region((middle,), "none", "centre"), Region((outside,), "none", "thin"),
                Region((inside,), "none", "thin")]  # fmt: skip
    outside = belt_loop(crank, cam, small + 0.7 * thick, large + 0.7 * thick)
    inside = belt_loop(crank, cam, small - 0.3 * thick, large - 0.3 * thick)
    return [Region((outside, inside), "none", "thin")]


def belt_loop(crank: Point, cam: Point, small: float, large: float) -> Loop:
    """A belt's line around both wheels, by their outer tangents, mm."""
    direction = math.atan2(cam[1] - crank[1], cam[0] - crank[0])
    lean = math.asin(max(-1.0, min(1.0, (large - small) / math.dist(crank, cam))))
    side = math.pi / 2 + lean
    return (
        (*at(crank, small, direction + side), bulge(2 * math.pi - 2 * side)),
        (*at(crank, small, direction - side), 0.0),
        (*at(cam, large, direction - side), bulge(2 * side)),
        (*at(cam, large, direction + side), 0.0),
    )


def _idlers(crank: Point, cam: Point, small: float, large: float) -> list[Shape]:
    """An even number of wheels between, so many that none is larger than the cam's."""
    room = math.dist(crank, cam) - small - large
    if room <= 1.0:
        return [Disc(crank, small, "none", "centre"), Disc(cam, large, "none", "centre")]
    count = 2 * max(1, math.ceil(room / (4 * large)))
    radius = room / (2 * count)
    ux, uy = ((cam[k] - crank[k]) / math.dist(crank, cam) for k in (0, 1))
    shapes: list[Shape] = [Disc(crank, small, "none", "centre"), Disc(cam, large, "none", "centre")]
    for number in range(count):
        away = small + radius * (2 * number + 1)
        middle = (crank[0] + ux * away, crank[1] + uy * away)
        shapes += [
            Disc(middle, radius, "none", "centre"),
            Disc(middle, 0.2 * radius, "none", "thin"),
        ]
    return shapes


def wheel(plain: PlainEngine, axis: Point) -> list[Part]:
    """Flywheel and propeller in front of the section: chain lines with two dots (ISO 128-3)."""
    found = []
    if plain.flywheel.thickness > 0:
        rim = Disc(axis, 500 * plain.flywheel.diameter, "none", "phantom")
        found.append(made(plain, "flywheel", None, rim))
    if plain.load.kind in ("propeller", "fan"):
        found.append(made(plain, "load", None, *_blades(plain, axis)))
    return found


def _blades(plain: PlainEngine, axis: Point) -> list[Shape]:
    """Hub and the roots of two blades, broken off, crossing level."""
    length = 500 * plain.load.diameter * by.BLADE_SHOWN
    hub, root = 0.16 * length + 5.0, 0.22 * length
    shapes: list[Shape] = [Disc(axis, hub, "none", "phantom")]
    for side in (-1.0, 1.0):
        x0, y0 = axis
        start = x0 + side * math.sqrt(max(hub**2 - 16.0, 0.0))
        end = x0 + side * (length + hub)
        shapes.append(Stroke(line((start, y0 + 4), (end - side * 4, y0 + root / 2)), "phantom"))
        shapes.append(Stroke(line((start, y0 - 4), (end - side * 4, y0 - root / 2)), "phantom"))
        shapes.append(broken((end - side * 4, y0 + root / 2), (end - side * 4, y0 - root / 2)))
    return shapes


def broken(start: Point, end: Point) -> Stroke:
    """A thin wavy line where something is broken off (ISO 128-2, type 01.1)."""
    (x0, y0), (x1, y1) = start, end
    return Stroke(((x0, y0, 0.35), ((x0 + x1) / 2, (y0 + y1) / 2, -0.35), (x1, y1, 0.0)), "thin")
