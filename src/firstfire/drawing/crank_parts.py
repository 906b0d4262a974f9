"""The crank across its axis: cheeks with counterweights, pins, joints, journal and bearing."""

from __future__ import annotations

import math
from collections.abc import Sequence

from firstfire.drawing import conventions as by
from firstfire.drawing.case_sizes import CaseSizes
from firstfire.drawing.frame import Frame
from firstfire.drawing.making import hatch, made
from firstfire.drawing.model import Disc, Loop, Part, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import at, bulge, line, polygon, slot
from firstfire.drawing.sizes import CylinderSizes
from firstfire.engine.joint_room import is_across
from firstfire.engine.resolve import PlainEngine


def cheek_loop(plain: PlainEngine, throw: float, weight: float) -> Loop:
    """A cheek with its counterweight, the pin straight up, the crank's axis at the origin.

    Both are one width at pin and shaft; the counterweight spreads to each side below.
    """
    half = 500 * plain.crank.cheek_width
    spread = math.radians(by.COUNTERWEIGHT_SPREAD)
    low = -math.pi / 2
    # from the web's side into the counterweight, hollow, and round its corner
    shoulder, flare, corner = 0.15 * throw, bulge(-math.radians(40)), math.radians(6)
    return (
        (half, throw, bulge(math.pi)),
        (-half, throw, 0.0),
        (-half, shoulder, flare),
        (*at((0.0, 0.0), weight - 1.2, low - spread - corner), -flare),
        (*at((0.0, 0.0), weight, low - spread), bulge(2 * spread)),
        (*at((0.0, 0.0), weight, low + spread), -flare),
        (*at((0.0, 0.0), weight - 1.2, low + spread + corner), flare),
        (half, shoulder, 0.0),
    )


def turned_loop(loop: Loop, angle: float) -> Loop:
    """Turned clockwise about the origin, rad: the way the crank turns on the sheet."""
    place = Frame(turned=angle)
    return place.loop(loop)


def crank(
    plain: PlainEngine, sizes: Sequence[CylinderSizes], frames: Sequence[Frame], room: CaseSizes
) -> list[Part]:
    """Everything of the crank behind the rods, from the back to the front."""
    cheeks: list[Shape] = []
    joints: list[Shape] = []
    plates: list[Shape] = []
    pins: list[Shape] = []
    rods: list[Shape] = []
    seen: list[Point] = []
    steel = hatch(plain.materials[plain.crank.crankpin_material], left=True)
    for s, frame in zip(sizes, frames, strict=True):
        centre = frame.point(s.crankpin)
        if any(math.dist(centre, other) < 1e-6 for other in seen):
            continue
        seen.append(centre)
        own = turned_loop(cheek_loop(plain, s.throw, room.counterweight), s.angle)
        cheeks.append(Region((frame.loop(own),), "paper"))
        joints += [frame.shape(x) for x in _joint(plain, s)]
        plates += [frame.shape(x) for x in _plate(plain, s)]
        pins.append(Disc(centre, 500 * plain.crank.crankpin_diameter, steel))
        if plain.crank.through_rod_diameter > 0:
            rods.append(Disc(centre, 500 * plain.crank.through_rod_diameter, "metal"))
    axis = frames[0].origin
    found = [made(plain, "cheek", None, *cheeks), made(plain, "shaft", None, _journal(plain, axis))]
    found += _bearing(plain, axis)
    if plates:
        found.append(made(plain, "joint-plate", None, *plates))
    found += [made(plain, "joint", None, *joints), made(plain, "crankpin", None, *pins)]
    if rods:
        found.append(made(plain, "through-rod", None, *rods))
    return found


def _journal(plain: PlainEngine, axis: Point) -> Disc:
    return Disc(axis, 500 * plain.crank.main_journal_diameter, "none", "hidden")


def _bearing(plain: PlainEngine, axis: Point) -> list[Part]:
    """Behind the cheek, dashed."""
    outside = 500 * plain.crank.main_bearing_outside
    seat = Disc(axis, outside + by.SEAT_RING, "none", "hidden")
    return [
        made(plain, "bearing-seat", None, seat),
        made(plain, "main-bearing", None, Disc(axis, outside, "none", "hidden")),
    ]


def _plate(plain: PlainEngine, s: CylinderSizes) -> list[Shape]:
    if not plain.crank.joint.plate or plain.crank.joint.plate_thickness <= 0:
        return []
    half = 500 * plain.crank.cheek_width - 2.0
    loop = slot((0.0, 0.0), s.crankpin, half)
    shapes: list[Shape] = [Region((loop,), "paper", "thin")]
    # two screws that hold it to the cheek
    for share in (-0.18, 0.45):
        shapes.append(Disc((s.crankpin[0] * share, s.crankpin[1] * share), 1.6, "paper", "thin"))
    return shapes


def _joint(plain: PlainEngine, s: CylinderSizes) -> list[Shape]:
    """How the pin is held in the cheek: seen behind the rod, around the pin."""
    joint = plain.crank.joint
    radius = 500 * joint.diameter
    place = Frame(turned=s.angle, origin=s.crankpin)
    if joint.kind == "solid":
        # no joint: the fillet between pin and cheek
        shapes: list[Shape] = [Disc((0.0, 0.0), radius * 1.12, "none", "thin")]
    elif joint.kind == "polygon":
        corners = [at((0.0, 0.0), radius / math.cos(math.pi / joint.flats),
                      math.pi / joint.flats * (2 * k + 1)) for k in range(joint.flats)]  # fmt: skip
        shapes = [Region((polygon(*corners),), "none", "hidden")]
    elif joint.kind == "splined":
        shapes = [Region((_teeth(radius, max(joint.flats, 6)),), "none", "outline")]
    elif joint.kind in ("pinned", "keyed"):
        shapes = [Disc((0.0, 0.0), radius, "none", "hidden"), *_across(plain, joint.kind)]
    elif joint.kind == "clamped":
        reach = 500 * plain.crank.cheek_width
        shapes = [Disc((0.0, 0.0), radius, "none", "outline")]
        shapes += [Stroke(line((x, radius), (x, reach)), "outline") for x in (-0.4, 0.4)]
        screw = (radius + reach) / 2
        shapes.append(Stroke(line((-reach * 0.7, screw), (reach * 0.7, screw)), "centre"))
    else:
        shapes = [Disc((0.0, 0.0), radius, "none", "outline"),
                  Disc((0.0, 0.0), radius + 0.4, "none", "thin")]  # fmt: skip
    return [place.shape(shape) for shape in shapes]


def _across(plain: PlainEngine, kind: str) -> list[Shape]:
    """Pins across pin and cheek or lengthwise between them, or keys."""
    joint = plain.crank.joint
    half, radius = 500 * joint.cross_pin_diameter, 500 * joint.diameter
    reach = 500 * plain.crank.cheek_width - 0.5
    shapes: list[Shape] = []
    for number in range(max(joint.cross_pins, 1)):
        turn = math.pi * number / max(joint.cross_pins, 1)
        place = Frame(turned=turn)
        if kind == "pinned" and not is_across(joint):
            place = Frame(turned=math.pi + 2 * math.pi * number / max(joint.cross_pins, 1))
            shapes.append(place.shape(Disc((0.0, radius), half, "none", "hidden")))
            continue
        if kind == "keyed":
            loop = polygon((-half, radius - half), (half, radius - half), (half, radius + half),
                           (-half, radius + half))  # fmt: skip
            shapes.append(place.shape(Region((loop,), "none", "hidden")))
            continue
        for side in (-half, half):
            shapes.append(place.shape(Stroke(line((-reach, side), (reach, side)), "hidden")))
    return shapes


def _teeth(radius: float, count: int) -> Loop:
    depth = 0.12 * radius
    points = []
    for tooth in range(count):
        for share, r in ((-0.3, radius), (-0.2, radius + depth), (0.2, radius + depth),
                         (0.3, radius)):  # fmt: skip
            points.append(at((0.0, 0.0), r, 2 * math.pi * (tooth + share) / count))
    return polygon(*points)
