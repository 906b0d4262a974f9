"""What sits where along the crank: cylinders, throws, main bearings, joints.

Counted from the flywheel end. That end takes the torque: flywheel and load sit there. The cam
drive sits on the far end. Cylinder 1 is next to the flywheel, as ISO 1204 counts (from memory).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity


@dataclass(frozen=True)
class Throw:
    """One crankpin between its two cheeks.

    Attributes
    ----------
    cylinders
        Whose rods it carries, counted from 0.
    place
        From the middle of the crank, m, positive away from the flywheel.
    joints
        Names of the joints of pin and cheek, the one next to the flywheel first.
    """

    cylinders: tuple[int, ...]
    place: float
    joints: tuple[str, str]


@dataclass(frozen=True)
class Support:
    """One place where the case holds the crank.

    Attributes
    ----------
    place
        From the middle of the crank, m.
    bearings
        Main bearings side by side there, sharing evenly.
    throws_before
        Throws between it and the flywheel.
    """

    place: float
    bearings: int
    throws_before: int


@dataclass(frozen=True)
class Journal:
    """One main journal.

    Attributes
    ----------
    name
        In words.
    length
        From cheek to the middle of its bearing, or from cheek to cheek, m.
    roots
        Places where it meets a cheek, m from the middle of the crank.
    joint
        Name of the joint of pin and cheek that passes the same torque.
    """

    name: str
    length: float
    roots: tuple[float, ...]
    joint: str


def journals(engine: PlainEngine) -> tuple[Journal, ...]:
    """Main journals from the flywheel on: its end, between two throws, the far end.

    Raises
    ------
    OutsideValidity
        If pins and cheeks don't go between the bearings.
    """
    crank, pins = engine.crank, throws(engine)
    half = crank.crankpin_length / 2 + crank.cheek_thickness
    first, last = pins[0].place - half, pins[-1].place + half
    arm = to_bearing(engine)
    found = [Journal("flywheel end", arm, (first,), pins[0].joints[0])]
    for near, far in pairwise(pins):
        between = far.place - near.place - 2 * half
        if between > 0:
            roots = (near.place + half, far.place - half)
            found.append(Journal("between the throws", between, roots, far.joints[0]))
    return (*found, Journal("far end", arm, (last,), pins[-1].joints[1]))


def to_bearing(engine: PlainEngine) -> float:
    """From the outer face of the outermost cheek to the middle of its bearing, m.

    Raises
    ------
    OutsideValidity
        If pins and cheeks don't go between the bearings.
    """
    crank, pins = engine.crank, throws(engine)
    across = pins[-1].place - pins[0].place + crank.crankpin_length + 2 * crank.cheek_thickness
    if crank.bearing_span < across:
        raise OutsideValidity(
            f"crank.bearing_span is {1e3 * crank.bearing_span:.4g} mm, but pins and cheeks take "
            f"{1e3 * across:.4g} mm: how the crank is stepped can't be told. Say more span, or "
            "shorter pins, thinner cheeks or less layout.cylinder_spacing."
        )
    return (crank.bearing_span - across) / 2


def cylinder_places(engine: PlainEngine) -> tuple[float, ...]:
    """Each bore's place along the crank from its middle, m."""
    count = len(engine.cylinders)
    spacing = engine.layout.cylinder_spacing
    return tuple(spacing * (c - (count - 1) / 2) for c in range(count))


def throws(engine: PlainEngine) -> tuple[Throw, ...]:
    """Crankpins from the flywheel on.

    A V-twin or opposed twin with `layout.crank_offset` 0 has both rods on one pin. A parallel
    twin always has two: its bores are a liner's width apart.
    """
    places = cylinder_places(engine)
    if len(places) > 1 and has_common_pin(engine):
        return (Throw(tuple(range(len(places))), sum(places) / len(places), ("1", "2")),)
    return tuple(
        Throw((c,), place, (f"{2 * c + 1}", f"{2 * c + 2}")) for c, place in enumerate(places)
    )


def has_common_pin(engine: PlainEngine) -> bool:
    """Whether two rods share one crankpin."""
    turned = math.remainder(engine.layout.crank_offset, 2 * math.pi)
    return engine.layout.kind in ("v_twin", "opposed_twin") and abs(turned) < 1e-9


def supports(engine: PlainEngine) -> tuple[Support, ...]:
    """Where main bearings hold the crank, from the flywheel on.

    Two ends, `crank.bearing_span` apart. With two throws and three bearings or more one stands
    in the middle between the throws. Whatever is left stands beside the ends, the flywheel's
    end first. A single bearing stands at the flywheel end.
    """
    count, span, pins = engine.crank.main_bearings, engine.crank.bearing_span, len(throws(engine))
    if count == 1:
        return (Support(-span / 2, 1, 0),)
    middle = (Support(0.0, 1, 1),) if pins == 2 and count >= 3 else ()
    ends = count - len(middle)
    return (
        Support(-span / 2, ends - ends // 2, 0),
        *middle,
        Support(span / 2, ends // 2, pins),
    )
