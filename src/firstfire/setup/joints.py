"""The joints along the shaft, as a list of parts counts them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.engine.joint_room import is_across
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections import joint as said
from firstfire.errors import OutsideValidity
from firstfire.loads.crank_layout import journals, throws
from firstfire.parts.crank_joint import is_plated


@dataclass(frozen=True)
class Place:
    """One kind of joint in an engine.

    Attributes
    ----------
    path
        In the engine file.
    joint
        How it is held.
    count
        How many of them.
    pin, hub
        What is joined, in words.
    wide, long
        Hub across the pins, and along the shaft, m.
    """

    path: str
    joint: said.Seat
    count: int
    pin: str
    hub: str
    wide: float
    long: float

    @property
    def pinned(self) -> bool:
        """Whether pins or keys hold it."""
        return self.joint.kind in ("pinned", "keyed") and self.joint.cross_pins > 0

    @property
    def pin_length(self) -> float:
        """How long each pin or key is, m."""
        return self.wide if is_across(self.joint) else self.long


def joints(plain: PlainEngine) -> Iterator[Place]:
    """Every joint that is not of one piece, from the crankpin outwards."""
    crank, wheel, drive = plain.crank, plain.flywheel, plain.cam_drive
    pins = 2 * len(throws(plain))
    found = [
        Place("crank.joint", crank.joint, pins, "crankpin", "cheek", crank.cheek_width,
              engaged(crank.joint)),
        Place("crank.journal.joint", crank.journal.joint, journal_ends(plain), "main journal",
              "cheek", crank.cheek_width, engaged(crank.journal.joint)),
        Place("cam_drive.joint", drive.joint, 1, "shaft", "cam drive's wheel",
              drive.joint.diameter + 2 * drive.pitch, drive.joint.length),
    ]  # fmt: skip
    if wheel.thickness > 0:
        found.append(Place("flywheel.joint", wheel.joint, 1, "shaft", "flywheel", wheel.diameter,
                           wheel.joint.length))  # fmt: skip
    return (place for place in found if place.joint.kind != "solid")


def engaged(joint: said.Joint) -> float:
    """Length in plate or cheek, m."""
    return min(joint.length, joint.plate_thickness) if is_plated(joint) else joint.length


def journal_ends(plain: PlainEngine) -> int:
    """Ends of journals that sit in a cheek: two, and two for each journal between throws."""
    try:
        return sum(len(one.roots) for one in journals(plain))
    except OutsideValidity:
        return 2


def stub_length(plain: PlainEngine) -> float:
    """A loose journal from the cheek's inner face to past what sits on it, m; the longer end's."""
    crank = plain.crank
    try:
        arm = journals(plain)[0].length
    except OutsideValidity:
        arm = crank.main_bearing_width / 2
    beside = (crank.main_bearings + 1) // 2 * crank.main_bearing_width
    ends = max(plain.flywheel.thickness, plain.cam_drive.joint.length)
    return crank.cheek_thickness + arm + beside + plain.case.wall + ends + _NUT


_NUT = 15e-3
"""For a nut and washer at the end, m (common practice)."""
