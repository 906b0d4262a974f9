"""The engine along its crank: everything on the shaft, and a bore through its middle."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from firstfire.drawing.along_case import case
from firstfire.drawing.along_measured import measured_along
from firstfire.drawing.along_shaft import bearings, cam_drive, cam_shaft, crank, shaft, wheel
from firstfire.drawing.along_sizes import AlongSizes, along_sizes
from firstfire.drawing.barrel import barrel, fasteners
from firstfire.drawing.case_sizes import case_sizes
from firstfire.drawing.clipped import beyond, clipped
from firstfire.drawing.frame import Frame
from firstfire.drawing.head_parts import head, plug, port_mouths
from firstfire.drawing.making import joined
from firstfire.drawing.model import Centreline, Dimension, Drawing, Part, Point
from firstfire.drawing.piston_parts import piston, piston_pin
from firstfire.drawing.rod_parts import rod_along
from firstfire.drawing.sheet import Content, sheet
from firstfire.drawing.sizes import CylinderSizes, cylinder_sizes
from firstfire.drawing.valve_parts import valves
from firstfire.engine.resolve import PlainEngine
from firstfire.loads.crank_layout import throws


def along_crank(
    plain: PlainEngine,
    *,
    crank_angle: float = math.radians(30),
    verdicts: Mapping[str, str] | None = None,
) -> Drawing:
    """The engine seen from the side, cut through crank and bores, the flywheel to the left.

    Cheeks and pins stand as the crank angle has them. Of a V only cylinder 1 lies in the plane;
    the rod of cylinder 2 is seen on its pin.

    Parameters
    ----------
    plain
        The engine.
    crank_angle
        After the firing top centre of cylinder 1, rad, any turn.
    verdicts
        What is said of parts, by their ids (`firstfire.drawing.verdicts.part_words`).

    Raises
    ------
    OutsideValidity
        Where the rod can't follow the crank.
    """
    sizes = [cylinder_sizes(plain, c, crank_angle) for c in range(len(plain.cylinders))]
    between = plain.layout.v_angle if plain.layout.kind == "v_twin" else None
    z = along_sizes(plain, sizes, case_sizes(plain, sizes, between))
    content = Content(
        title="Section along the crank",
        parts=joined(_parts(plain, z, sizes, crank_angle)),
        centrelines=tuple(_axes(plain, z)),
        points=_points(z),
        notes=_notes(plain),
    )

    def measured(unit: float) -> Sequence[Dimension]:
        return measured_along(plain, z, unit)

    return sheet(plain, content, measured, crank_angle, verdicts)


def _parts(
    plain: PlainEngine, z: AlongSizes, sizes: Sequence[CylinderSizes], crank_angle: float
) -> list[Part]:
    parts = [*cam_drive(plain, z), case(plain, z)]
    for c, (s, frame) in enumerate(zip(z.drawn, z.frames, strict=True)):
        still = [
            *barrel(plain, s, z.room.tops[c]), *head(plain, s, along=True),
            *port_mouths(plain, s), plug(plain, s),
        ]  # fmt: skip
        parts += [_beside(plain, frame.part(part), c) for part in still]
    parts += [*bearings(plain, z), *crank(plain, z), shaft(plain, z), *wheel(plain, z)]
    for c, (s, frame) in enumerate(zip(z.drawn, z.frames, strict=True)):
        level = frame.point((0.0, s.crankpin[1]))[1] * (-1.0 if frame.turned else 1.0)
        moving = [
            *piston(plain, s, along=True), *rod_along(plain, s, 0.0, level),
            piston_pin(plain, s, along=True), *valves(plain, s),
        ]  # fmt: skip
        parts += [frame.part(part) for part in moving]
        held = [_beside(plain, frame.part(p), c) for p in fasteners(plain, s, z.room.tops[c])]
        parts += held
    parts += _other_rod(plain, z, sizes)
    return parts + cam_shaft(plain, z, crank_angle)


def _beside(plain: PlainEngine, part: Part, c: int) -> Part:
    """Two parallel cylinders meet in the middle: what of one reaches over it is cut there."""
    if plain.layout.kind != "parallel_twin":
        return part
    side = -1.0 if c == 0 else 1.0
    if part.id.startswith(("fasteners", "washers")):
        return beyond(part, side)
    return clipped(part, side)


def _other_rod(plain: PlainEngine, z: AlongSizes, sizes: Sequence[CylinderSizes]) -> list[Part]:
    """Big end of a V's second rod; its shank leans towards the reader or away."""
    if len(z.drawn) == len(sizes):
        return []
    pin = next(p for p, t in zip(z.pins, throws(plain), strict=True) if 1 in t.cylinders)
    s = replace(sizes[1], pin=pin.level + 1.0, x=0.0)
    seen = [part for part in rod_along(plain, s, 0.0, pin.level) if part.id.startswith("big-end")]
    place = Frame(origin=(z.places[1], 0.0))
    return [place.part(part) for part in seen]


def _axes(plain: PlainEngine, z: AlongSizes) -> list[Centreline]:
    from firstfire.drawing.along_shaft import drives, pulley_place, wheel_place

    left = wheel_place(plain, z)[0] - 14.0
    right = pulley_place(plain, z, drives(z) - 1)[1] + 8.0
    found = [Centreline((left, 0.0), (right, 0.0))]
    for s, frame in zip(z.drawn, z.frames, strict=True):
        found.append(Centreline(frame.point((0.0, 0.0)), frame.point((0.0, s.block + 4.0))))
        for v in s.valves:
            place = Frame(v.lean, False, (v.x, v.y))
            ends = place.point((0.0, -0.7 * v.head)), place.point((0.0, v.tip + 3.0))
            found.append(Centreline(frame.point(ends[0]), frame.point(ends[1])))
    return found


def _points(z: AlongSizes) -> dict[str, Point]:
    found: dict[str, Point] = {"crank-1": (0.0, 0.0)}
    for s, frame in zip(z.drawn, z.frames, strict=True):
        found[f"pin-{s.number}"] = frame.point((0.0, s.pin))
        found[f"crown-{s.number}"] = frame.point((0.0, s.crown))
        found[f"deck-{s.number}"] = frame.point((0.0, s.deck))
    return found


def _notes(plain: PlainEngine) -> tuple[str, ...]:
    notes = [
        "Valves and screws turned into the plane; flywheel to the left, cam drive to the right"
    ]
    if plain.layout.kind == "v_twin":
        notes.append("Through cylinder 1; of cylinder 2 its rod's big end is seen")
    return tuple(notes)
