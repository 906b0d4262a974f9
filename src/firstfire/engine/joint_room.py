"""Whether pins and keys go into a joint beside each other: what a drill leaves standing."""

from __future__ import annotations

import math
from typing import NamedTuple

from firstfire.engine.quantity import write_quantity
from firstfire.engine.sections.joint import Seat

_THINNEST = 0.5e-3
_WALL = 1e-3


class NoRoom(NamedTuple):
    """Which field of the joint is wrong, what is wrong, and what would be right."""

    field: str
    fault: str
    cure: str


def bridge(size: float) -> float:
    """Least metal or print between two holes, or a hole and a face, m.

    A quarter of the hole, half a millimetre at least: a drill wanders out of less (common
    practice, no source).

    Examples
    --------
    >>> bridge(4e-3), bridge(1e-3)
    (0.001, 0.0005)
    """
    return max(_THINNEST, size / 4)


def is_across(joint: Seat) -> bool:
    """Whether pins run across the joint."""
    return joint.kind == "pinned" and joint.pins_run == "across"


def edge(joint: Seat, outside: float, size: float | None = None) -> float:
    """Hub left outside the joint, and outside pins or keys that stand half in it, m."""
    deep = 0.0 if is_across(joint) else (joint.cross_pin_diameter if size is None else size) / 2
    return (outside - joint.diameter) / 2 - deep


def no_room(
    joint: Seat, length: float, outside: float, count: int | None = None, size: float | None = None
) -> NoRoom | None:
    """Why the pins or keys of a joint can't be made; None where they can.

    Parameters
    ----------
    joint
        The joint.
    length
        Of it in its hub, m.
    outside
        Diameter of the hub, m.
    count, size
        Other than the joint's own.

    Examples
    --------
    Two 5 mm pins across a joint that is 4 mm long:

    >>> from types import SimpleNamespace as Like
    >>> joint = Like(kind="pinned", pins_run="across", diameter=12e-3, cross_pins=2,
    ...              cross_pin_diameter=5e-3)
    >>> no_room(joint, 4e-3, 33e-3).fault
    'is 5 mm: the hub is 4 mm thick there'
    """
    if joint.kind not in ("pinned", "keyed"):
        return None
    count = joint.cross_pins if count is None else count
    size = joint.cross_pin_diameter if size is None else size
    what = "key" if joint.kind == "keyed" else "pin"
    if count < 1:
        return NoRoom("cross_pins", f"is {count}: without a {what} nothing holds", "Write 1.")
    if size > joint.diameter / 2 + 1e-9:
        return NoRoom(
            "cross_pin_diameter",
            f"is {_mm(size)}: of {_mm(joint.diameter)} it leaves too little standing",
            f"A {what} is a quarter to a third of that, {_mm(joint.diameter / 4)} to "
            f"{_mm(joint.diameter / 3)}.",
        )
    if is_across(joint):
        return _across(count, size, length) or _wall(joint, outside, size)
    return _round(what, count, size, joint.diameter) or _wall(joint, outside, size)


def _across(count: int, size: float, length: float) -> NoRoom | None:
    """Pins that cross one axis stand one behind the other along it."""
    if count * size + (count + 1) * bridge(size) <= length + 1e-9:
        return None
    most = math.floor(2e3 * length / (count + (count + 1) / 4) + 1e-6) * 0.5e-3
    lengthwise = 'or let them run lengthwise (pins_run = "lengthwise")'
    if size + 2 * bridge(size) > length + 1e-9:
        return NoRoom(
            "cross_pin_diameter",
            f"is {_mm(size)}: the hub is {_mm(length)} thick there",
            f"A hole across it leaves {_mm(bridge(size))} at each face: make it thicker, "
            f"{lengthwise}.",
        )
    smaller = f"Pins of {_mm(most)} fit" if most >= 1e-3 else "Fewer fit"
    return NoRoom(
        "cross_pins",
        f"is {count}: so many pins of {_mm(size)} don't fit behind each other in {_mm(length)}, "
        "and two at one place would cross on the axis",
        f"{smaller}, {lengthwise}.",
    )


def _round(what: str, count: int, size: float, diameter: float) -> NoRoom | None:
    """Keys, or pins lengthwise, stand round the joint."""
    if count == 1 or diameter * math.sin(math.pi / count) >= size + bridge(size) - 1e-9:
        return None
    fit = max(
        n for n in range(1, count)
        if n == 1 or diameter * math.sin(math.pi / n) >= size + bridge(size)
    )  # fmt: skip
    return NoRoom(
        "cross_pins",
        f"is {count}: so many {what}s of {_mm(size)} run into each other round {_mm(diameter)}",
        f"At most {fit} fit.",
    )


def _wall(joint: Seat, outside: float, size: float) -> NoRoom | None:
    left = edge(joint, outside, size)
    if left >= _WALL - 1e-9:
        return None
    return NoRoom(
        "diameter",
        f"is {_mm(joint.diameter)}: a hub of {_mm(outside)} has {_mm(max(left, 0.0))} of wall left",
        f"Leave a wall of {_mm(_WALL)} at least: a thinner joint, smaller pins or a larger hub.",
    )


def _mm(value: float) -> str:
    return write_quantity(value, "length", digits=3)
