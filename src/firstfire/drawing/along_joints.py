"""Joints of the crank seen from the side: ends of pins and journals in their cheeks."""

from __future__ import annotations

from firstfire.drawing.along_sizes import AlongSizes, PinSizes
from firstfire.drawing.model import Disc, Region, Shape, Stroke
from firstfire.drawing.outlines import line, rectangle
from firstfire.engine.joint_room import is_across
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.joint import Seat


def pin_joints(plain: PlainEngine, pin: PinSizes) -> list[Shape]:
    """The pin's ends in the cheeks, dashed, with what crosses or keys them."""
    joint = plain.crank.joint
    long = min(1e3 * joint.length, 1e3 * plain.crank.cheek_thickness)
    shapes: list[Shape] = []
    for edge, side in ((pin.left, -1.0), (pin.right, 1.0)):
        shapes += _held(joint, edge, side, pin.level, long)
    return shapes


def journal_joints(plain: PlainEngine, z: AlongSizes) -> list[Shape]:
    """The journals' ends in the outer cheeks: through them where they are pieces of their own."""
    joint = plain.crank.journal.joint
    if joint.kind == "solid":
        return []
    thick = 1e3 * plain.crank.cheek_thickness
    long = min(1e3 * joint.length, thick)
    shapes: list[Shape] = []
    for inner, outer, side in ((z.pins[0].left, z.cheeks[0].left, -1.0),
                               (z.pins[-1].right, z.cheeks[-1].right, 1.0)):  # fmt: skip
        plated = joint.plate is not None and joint.plate_thickness > 0
        # a plate lies at the cheek's inner face; without one the joint begins outside
        shapes += _held(joint, inner if plated else outer, side if plated else -side, 0.0, long)
        if plated:
            low, high = sorted((inner, outer))
            radius = 500 * joint.diameter
            shapes.append(Region((rectangle(low, -radius, high, radius),), "none", "hidden"))
    return shapes


def _held(joint: Seat, edge: float, side: float, level: float, long: float) -> list[Shape]:
    """One end in its hub, from its face inwards, with what holds it."""
    radius = 500 * joint.diameter
    if joint.kind == "solid":
        inner = edge - side * 0.15 * radius
        return [
            Stroke(line((edge, level + 1.15 * y), (inner, level + y)), "thin")
            for y in (-radius, radius)
        ]
    left, right = sorted((edge, edge + side * long))
    box = rectangle(left, level - radius, right, level + radius)
    shapes: list[Shape] = [Region((box,), "none", "hidden")]
    half = 500 * joint.cross_pin_diameter
    if joint.kind == "pinned" and is_across(joint):
        pitch = long / max(joint.cross_pins, 1)
        shapes += [
            Disc((left + (number + 0.5) * pitch, level), half, "paper", "thin")
            for number in range(joint.cross_pins)
        ]
    elif joint.kind in ("pinned", "keyed"):
        bar = rectangle(left, level + radius - half, right, level + radius + half)
        shapes.append(Region((bar,), "paper", "thin"))
    elif joint.kind == "clamped":
        shapes.append(Disc(((left + right) / 2, level + radius + 3.0), 2.0, "paper", "thin"))
    elif joint.kind in ("splined", "polygon"):
        for share in (-0.6, -0.2, 0.2, 0.6):
            y = level + share * radius
            shapes.append(Stroke(line((left, y), (right, y)), "hidden"))
    return shapes
