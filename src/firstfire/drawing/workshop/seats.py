"""How a wheel's bore and its shaft are joined, in words and in the shape of the bore."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.drawing.model import Loop, Point
from firstfire.drawing.outlines import at, bulge, polygon
from firstfire.drawing.workshop.fitted import bare, fitted
from firstfire.drawing.workshop.view import Pointer
from firstfire.engine.joint_room import is_across
from firstfire.engine.sections.joint import Seat


def turns(joint: Seat) -> list[float]:
    """Where pins or keys stand round a joint, rad from straight up; those across at one place."""
    if joint.kind not in ("keyed", "pinned") or is_across(joint):
        return []
    return [2 * math.pi * n / joint.cross_pins for n in range(joint.cross_pins)]


def bore_loop(joint: Seat, radius: float) -> Loop:
    """A hole with its keyways, mm, half of each key in it, the first straight up; clockwise."""
    if joint.kind != "keyed" or joint.cross_pins < 1:
        return ((-radius, 0.0, 1.0), (radius, 0.0, 1.0))
    half = 500 * joint.cross_pin_diameter
    deep = radius + half
    lean = math.asin(min(half / radius, 1.0))
    between = 2 * math.pi / joint.cross_pins - 2 * lean
    found: list[tuple[float, float, float]] = []
    for turn in turns(joint):
        up = math.pi / 2 + turn
        right, left = up - lean, up + lean
        out = (math.cos(up), math.sin(up))
        side = (math.sin(up), -math.cos(up))
        found += [
            (*at((0.0, 0.0), radius, right), 0.0),
            (deep * out[0] + half * side[0], deep * out[1] + half * side[1], 0.0),
            (deep * out[0] - half * side[0], deep * out[1] - half * side[1], 0.0),
            (*at((0.0, 0.0), radius, left), bulge(between)),
        ]
    return tuple(found)


def polygon_loop(joint: Seat) -> Loop:
    """A polygon's flats about the axis, mm, one of them on top."""
    radius = 500 * joint.diameter / math.cos(math.pi / joint.flats)
    return polygon(
        *(at((0.0, 0.0), radius, math.pi / 2 + math.pi / joint.flats * (2 * k + 1))
          for k in range(joint.flats))
    )  # fmt: skip


def key_pointer(
    path: str, joint: Seat, radius: float, centre: Point = (0.0, 0.0), toward: float = 50.0
) -> Iterator[Pointer]:
    """Words at a keyway, or at the holes of pins that run lengthwise."""
    many = f"{joint.cross_pins} " if joint.cross_pins > 1 else ""
    size = joint.cross_pin_diameter
    if joint.kind == "keyed" and joint.cross_pins:
        made = fitted(size, "JS9", "")
        floor = bare(1e-3 * radius + size / 2)
        tip: Point = (centre[0] + 500 * size, centre[1] + radius + 250 * size)
        ways = "keyways" if joint.cross_pins > 1 else "keyway"
        yield Pointer(f"{many}{ways} {made.text} wide, floor {floor} from the axis", tip, toward,
                      f"{path}.cross_pin_diameter", size, made.limits)  # fmt: skip
    elif joint.kind == "pinned" and not is_across(joint):
        made = fitted(size, "H7")
        lean = math.radians(50)
        tip = (
            centre[0] + 500 * size * math.cos(lean),
            centre[1] + radius + 500 * size * math.sin(lean),
        )
        many = many and f"{many}× "
        yield Pointer(f"{many}{made.text}", tip, toward,
                      f"{path}.cross_pin_diameter", size, made.limits)  # fmt: skip


def seat_words(joint: Seat, hub: str) -> str:
    """How it is held, in a sentence; "" where both are one piece."""
    words = seat_phrase(joint)
    if not words:
        return ""
    more = {
        "keyed": f", {bare(joint.length)} long, half in the shaft, half in the {hub}",
        "pinned": ": drill under size, ream with both parts together",
    }.get(joint.kind, "")
    return f"Held by {words}{more}."


def seat_phrase(joint: Seat) -> str:
    """How it is held, in a few words; "" where both are one piece."""
    size, long = bare(joint.cross_pin_diameter), bare(joint.length)
    count = f"{joint.cross_pins} " if joint.cross_pins > 1 else "a "
    many = "s" if joint.cross_pins > 1 else ""
    way = "across" if is_across(joint) else "lengthwise on the joint's line, half in each"
    return {
        "solid": "",
        "plain_press": f"a press fit {long} long, {bare(joint.interference, 3)} tight",
        "bonded": f"adhesive on {long}",
        "clamped": f"a clamp on {long}, pulled by {joint.clamp_screw_force:.0f} N",
        "keyed": f"{count}square key{many} {size} × {size}",
        "pinned": f"{count}pin{many} of {size} {way}",
        "polygon": f"{joint.flats} flats, {long} engaged",
        "splined": f"a spline of {joint.flats} teeth, {long} engaged",
    }[joint.kind]


def open_of(joint: Seat) -> tuple[str, ...]:
    """What of a joint the file has no number for."""
    return {
        "splined": ("shape of the spline's teeth",),
        "polygon": ("corners of the polygon",),
        "clamped": ("slit, lug and size of the clamping screw",),
        "bonded": ("gap for the adhesive",),
    }.get(joint.kind, ())
