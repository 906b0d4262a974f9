"""Where a crank's cheeks, pins and journals lie: along the shaft from its middle, mm."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

from firstfire.drawing.model import Point
from firstfire.drawing.sizes import bank, cylinder_sizes
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.joint import Joint
from firstfire.errors import OutsideValidity
from firstfire.loads.crank_layout import journals, supports, throws
from firstfire.parts.crank_joint import is_plated


@dataclass(frozen=True)
class PinPlace:
    """One crankpin.

    Attributes
    ----------
    left, right
        Its free length between cheeks.
    turn
        From the first pin, clockwise as seen from the flywheel, rad.
    throw
        Crank radius.
    cylinders
        Whose rods it carries, counted from 0.
    """

    left: float
    right: float
    turn: float
    throw: float
    cylinders: tuple[int, ...]

    @property
    def level(self) -> float:
        """Height over the shaft's axis in the front view, the first pin straight up."""
        return self.throw * math.cos(self.turn)

    @property
    def centre(self) -> Point:
        """Where it stands as seen from the flywheel."""
        return self.throw * math.sin(self.turn), self.level


@dataclass(frozen=True)
class CheekPlace:
    """One cheek: where along the shaft, and the pins it carries."""

    left: float
    right: float
    pins: tuple[PinPlace, ...]


@dataclass(frozen=True)
class CrankPlaces:
    """All of a crank.

    Attributes
    ----------
    pins, cheeks
        From the flywheel on.
    between
        Journals between two throws, as their two ends.
    ends
        Where the shaft's two ends begin, at the outer cheeks.
    bearings
        Middles of the main bearings.
    """

    pins: tuple[PinPlace, ...]
    cheeks: tuple[CheekPlace, ...]
    between: tuple[tuple[float, float], ...]
    ends: tuple[float, float]
    bearings: tuple[float, ...]


def crank_places(plain: PlainEngine) -> CrankPlaces:
    """Of an engine."""
    pins = _pins(plain)
    cheeks = _cheeks(pins, 1e3 * plain.crank.cheek_thickness)
    return CrankPlaces(
        pins=pins,
        cheeks=cheeks,
        between=tuple(
            (near.right, far.left)
            for near, far in itertools.pairwise(cheeks)
            if not any(pin in near.pins for pin in far.pins)
        ),
        ends=(cheeks[0].left, cheeks[-1].right),
        bearings=_bearings(plain),
    )


def _pins(plain: PlainEngine) -> tuple[PinPlace, ...]:
    half, found, zero = 500 * plain.crank.crankpin_length, [], None
    sense = -1.0 if plain.layout.rotation == "anticlockwise" else 1.0
    for throw in throws(plain):
        first = throw.cylinders[0]
        s = cylinder_sizes(plain, first, 0.0)
        angle = s.angle + bank(plain, first) - bank(plain, 0)
        zero = angle if zero is None else zero
        middle = 1e3 * throw.place
        turn = sense * math.remainder(angle - zero, 2 * math.pi)
        found.append(PinPlace(middle - half, middle + half, turn, s.throw, throw.cylinders))
    return tuple(found)


def _cheeks(pins: tuple[PinPlace, ...], thick: float) -> tuple[CheekPlace, ...]:
    """Two a pin; two in one place are one."""
    found: list[CheekPlace] = []
    for pin in pins:
        for left in (pin.left - thick, pin.right):
            last = found[-1] if found else None
            if last is not None and left < last.right - 1e-6:
                found[-1] = CheekPlace(last.left, max(last.right, left + thick), (*last.pins, pin))
            else:
                found.append(CheekPlace(left, left + thick, (pin,)))
    return tuple(found)


def _bearings(plain: PlainEngine) -> tuple[float, ...]:
    """Those side by side stand outwards from the span."""
    wide, found = 1e3 * plain.crank.main_bearing_width, []
    for support in supports(plain):
        side = -1.0 if support.place < 0 else 1.0
        found += [1e3 * support.place + side * wide * n for n in range(support.bearings)]
    return tuple(sorted(found))


def held(joint: Joint, thick: float) -> float:
    """How deep a pin or journal sits in one cheek, mm; nothing where both are one piece."""
    if joint.kind == "solid":
        return 0.0
    deep = min(joint.length, joint.plate_thickness) if is_plated(joint) else joint.length
    return min(1e3 * deep, thick)


def fits_its_bearings(plain: PlainEngine) -> bool:
    """Whether pins and cheeks go between the bearings as the file has them."""
    try:
        journals(plain)
    except OutsideValidity:
        return False
    return True
