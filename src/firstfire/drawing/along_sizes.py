"""Where things stand along the crank, mm from its middle, the flywheel to the left."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from firstfire.drawing.case_sizes import CaseSizes
from firstfire.drawing.crank_parts import cheek_loop, turned_loop
from firstfire.drawing.frame import Frame
from firstfire.drawing.outlines import flattened
from firstfire.drawing.sizes import CylinderSizes, bank
from firstfire.engine.resolve import PlainEngine
from firstfire.loads.crank_layout import cylinder_places, supports, throws


@dataclass(frozen=True)
class CheekSizes:
    """One cheek seen from the side: where along the crank, and how far up and down."""

    left: float
    right: float
    bottom: float
    top: float


@dataclass(frozen=True)
class PinSizes:
    """One crankpin: where along the crank, at which level, and whose joints it has."""

    left: float
    right: float
    level: float


@dataclass(frozen=True)
class AlongSizes:
    """All places along the crank.

    Attributes
    ----------
    frames
        Where each drawn cylinder stands.
    drawn
        The cylinders whose bore lies in the plane, about upright axes.
    places
        Of all cylinders' bores.
    pins, cheeks
        Of the crank.
    bearings
        Middles of the main bearings.
    wall_left, wall_right
        Inner and outer face of the case's end walls.
    room
        The case's radii.
    """

    frames: tuple[Frame, ...]
    drawn: tuple[CylinderSizes, ...]
    places: tuple[float, ...]
    pins: tuple[PinSizes, ...]
    cheeks: tuple[CheekSizes, ...]
    bearings: tuple[float, ...]
    wall_left: tuple[float, float]
    wall_right: tuple[float, float]
    room: CaseSizes


def along_sizes(plain: PlainEngine, sizes: Sequence[CylinderSizes], room: CaseSizes) -> AlongSizes:
    """Everything along the crank of an engine whose cylinders have these sizes."""
    places = tuple(1e3 * place for place in cylinder_places(plain))
    # only cylinder 1 of a V lies in the plane
    count = 1 if plain.layout.kind == "v_twin" else len(sizes)
    down = plain.layout.kind == "opposed_twin"
    frames = tuple(
        Frame(math.pi if down and c else 0.0, False, (places[c], 0.0)) for c in range(count)
    )
    pins, cheeks = _crank(plain, sizes, room)
    bearings = _bearings(plain)
    half = 500 * plain.crank.main_bearing_width + 0.5
    return AlongSizes(
        frames=frames,
        drawn=tuple(_upright(s) for s in sizes[:count]),
        places=places,
        pins=pins,
        cheeks=cheeks,
        bearings=bearings,
        wall_left=(max(_end(bearings, -1)) + half, min(bearings) - half),
        wall_right=(min(_end(bearings, 1)) - half, max(bearings) + half),
        room=room,
    )


def _end(bearings: Sequence[float], side: int) -> list[float]:
    """Bearings of one end, those beside each other included."""
    outer = min(bearings) if side < 0 else max(bearings)
    beside = [b for b in bearings if abs(b - outer) < 0.3 * (max(bearings) - min(bearings) + 1e-9)]
    return beside or [outer]


def _upright(s: CylinderSizes) -> CylinderSizes:
    """About its own axis: an offset bore is seen from the side."""
    inlet, exhaust = (replace(v, x=v.x - s.x) for v in s.valves)
    return replace(s, x=0.0, inlet=inlet, exhaust=exhaust)


def _crank(
    plain: PlainEngine, sizes: Sequence[CylinderSizes], room: CaseSizes
) -> tuple[tuple[PinSizes, ...], tuple[CheekSizes, ...]]:
    thick, half = 1e3 * plain.crank.cheek_thickness, 500 * plain.crank.crankpin_length
    pins, cheeks = [], []
    for throw in throws(plain):
        first = throw.cylinders[0]
        angle = sizes[first].angle + bank(plain, first) - bank(plain, 0)
        loop = turned_loop(cheek_loop(plain, sizes[first].throw, room.counterweight), angle)
        levels = [y for _, y in flattened(loop)]
        middle = 1e3 * throw.place
        pins.append(PinSizes(middle - half, middle + half, sizes[first].throw * math.cos(angle)))
        for left in (middle - half - thick, middle + half):
            cheeks.append(CheekSizes(left, left + thick, min(levels), max(levels)))
    return tuple(pins), tuple(_merged(cheeks))


def _merged(cheeks: Sequence[CheekSizes]) -> list[CheekSizes]:
    """Two cheeks in one place are one, from the one pin to the other."""
    found: list[CheekSizes] = []
    for cheek in cheeks:
        last = found[-1] if found else None
        if last is not None and cheek.left < last.right - 1e-6:
            found[-1] = CheekSizes(
                last.left, max(last.right, cheek.right), min(last.bottom, cheek.bottom),
                max(last.top, cheek.top),
            )  # fmt: skip
        else:
            found.append(cheek)
    return found


def _bearings(plain: PlainEngine) -> tuple[float, ...]:
    """Middles of all main bearings; those beside each other stand outwards from the span."""
    wide = 1e3 * plain.crank.main_bearing_width
    found = []
    for support in supports(plain):
        side = -1.0 if support.place < 0 else 1.0
        found += [1e3 * support.place + side * wide * n for n in range(support.bearings)]
    return tuple(sorted(found))
