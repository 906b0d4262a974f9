"""The engine across its crank, cut through the axes of its bores."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from firstfire.drawing import conventions as by
from firstfire.drawing.barrel import barrel, fasteners
from firstfire.drawing.case_parts import case
from firstfire.drawing.case_sizes import CaseSizes, case_sizes
from firstfire.drawing.crank_parts import crank
from firstfire.drawing.dimensions import dimensions
from firstfire.drawing.drive_parts import cam_drive, wheel
from firstfire.drawing.forces import Forces, arrows
from firstfire.drawing.format import A4, Format
from firstfire.drawing.frame import Frame
from firstfire.drawing.head_parts import head, plug
from firstfire.drawing.making import joined
from firstfire.drawing.model import Centreline, Dimension, Drawing, Part, Point
from firstfire.drawing.outlines import at
from firstfire.drawing.pipe_parts import pipes
from firstfire.drawing.piston_parts import piston, piston_pin
from firstfire.drawing.rod_parts import rod_across
from firstfire.drawing.sheet import Content, sheet
from firstfire.drawing.sizes import CylinderSizes, bank, cylinder_sizes
from firstfire.drawing.valve_parts import bracket, cam_reach, cams, valves
from firstfire.engine.resolve import PlainEngine

_REST = math.radians(30)
"""Crank angle that is drawn if none is said, and by which words find their places."""


def section(
    plain: PlainEngine,
    *,
    crank_angle: float = _REST,
    verdicts: Mapping[str, str] | None = None,
    forces: Forces | None = None,
    fitted: Format = A4,
    first: str = "",
) -> Drawing:
    """The engine seen from its flywheel, cut through the bores, to scale from its own numbers.

    Opposed and V cylinders stand as they are; two parallel ones, which hide each other, are two
    sections side by side. Valves are turned into the plane.

    Parameters
    ----------
    plain
        The engine.
    crank_angle
        After the firing top centre of cylinder 1, rad, any turn.
    verdicts
        What is said of parts, by their ids (`firstfire.drawing.verdicts.part_words`).
    forces
        To be laid over (`firstfire.drawing.forces.forces_at`).
    fitted
        What it is laid out for: the largest scale at which that holds it.
    first
        Id of the part that gives way first, to stand out.

    Raises
    ------
    OutsideValidity
        Where the rod can't follow the crank.
    """
    sizes = [
        cylinder_sizes(plain, index, crank_angle, inlet_side(plain, index))
        for index in range(len(plain.cylinders))
    ]
    groups = [[0], [1]] if plain.layout.kind == "parallel_twin" else [list(range(len(sizes)))]
    frames = _frames(plain, sizes, groups)
    rooms = [case_sizes(plain, [sizes[i] for i in group], _between(plain)) for group in groups]
    parts: list[Part] = []
    for group, room in zip(groups, rooms, strict=True):
        own = [sizes[i] for i in group], [frames[i] for i in group]
        parts += _group(plain, *own, room, crank_angle)
    content = Content(
        title="Section across the crank",
        parts=joined(parts),
        centrelines=tuple(_axes(sizes, frames, rooms, groups)),
        points=_points(sizes, frames),
        arrows=arrows(forces, sizes, frames) if forces else (),
        newtons_per_mm=forces.newtons_per_mm if forces else 0.0,
        notes=_notes(plain),
        level=plain.layout.kind == "opposed_twin",
        swept=tuple(point for s, f in zip(sizes, frames, strict=True) for point in _swept(s, f)),
    )

    side = _free_side(plain)

    def measured(unit: float) -> Sequence[Dimension]:
        return dimensions(plain, sizes[0], frames[0], unit, rooms[0].half[0], side)

    still = cylinder_sizes(plain, 0, _REST, inlet_side(plain, 0))

    def at_rest(unit: float) -> Sequence[Dimension]:
        return dimensions(plain, still, frames[0], unit, rooms[0].half[0], side)

    return sheet(plain, content, measured, crank_angle, verdicts, fitted, first, at_rest)


def inlet_side(plain: PlainEngine, index: int) -> float:
    """Inlets of a V lie in the valley, those of an opposed twin above, all others left."""
    if plain.layout.kind in ("v_twin", "opposed_twin"):
        side = 1.0 if index == 0 else -1.0
    else:
        side = -1.0
    # a crank that turns the other way is drawn mirrored
    if plain.layout.rotation == "anticlockwise" and len(plain.cylinders) == 1:
        return -side
    return side


def _free_side(plain: PlainEngine) -> float:
    """The side of cylinder 1, in its own coordinates, on which nothing else stands."""
    return 1.0 if plain.layout.kind == "single" else -1.0


def _between(plain: PlainEngine) -> float | None:
    return plain.layout.v_angle if plain.layout.kind == "v_twin" else None


def _frames(
    plain: PlainEngine, sizes: Sequence[CylinderSizes], groups: Sequence[Sequence[int]]
) -> list[Frame]:
    mirrored = plain.layout.rotation == "anticlockwise"
    # turned in the direction of rotation: clockwise, unless the engine turns the other way
    sense = -1.0 if mirrored else 1.0
    apart = 0.0
    if len(groups) > 1:
        s = sizes[0]
        reach_ = max(500 * s.parts.head.diameter, s.block_half) + by.PIPE_SHOWN
        apart = 2 * reach_ + 12.0
        apart = max(apart, 1e3 * plain.flywheel.diameter * 0.5 + reach_ + 8.0)
    frames = []
    for index in range(len(sizes)):
        shift = apart * (index - 0.5) if apart else 0.0
        frames.append(Frame(sense * bank(plain, index), mirrored, (shift, 0.0)))
    return frames


def _group(
    plain: PlainEngine,
    sizes: list[CylinderSizes],
    frames: list[Frame],
    room: CaseSizes,
    crank_angle: float,
) -> list[Part]:
    """All around one crank axis, from the back to the front."""
    parts = cam_drive(plain, sizes, frames)
    parts.append(case(plain, sizes, frames, room))
    for s, frame, top in zip(sizes, frames, room.tops, strict=True):
        still = [
            *barrel(plain, s, top),
            *bracket(plain, s),
            *head(plain, s),
            plug(plain, s),
        ]
        parts += [frame.part(part) for part in still]
    parts += crank(plain, sizes, frames, room)
    for s, frame, top in zip(sizes, frames, room.tops, strict=True):
        moving = [
            *piston(plain, s), piston_pin(plain, s), *rod_across(plain, s), *valves(plain, s),
            *cams(plain, s, crank_angle), *fasteners(plain, s, top), *pipes(plain, s),
        ]  # fmt: skip
        parts += [frame.part(part) for part in moving]
    # the flywheel stands before the plane
    return parts + (wheel(plain, frames[0].origin) if sizes[0].number == 1 else [])


def _axes(
    sizes: Sequence[CylinderSizes],
    frames: Sequence[Frame],
    rooms: Sequence[CaseSizes],
    groups: Sequence[Sequence[int]],
) -> list[Centreline]:
    """The bores' axes, the crank's, and the valves'."""
    found = []
    for group, room in zip(groups, rooms, strict=True):
        x, y = frames[group[0]].origin
        out = room.outside + 3.0
        found += [Centreline((x - out, y), (x + out, y)), Centreline((x, y - out), (x, y + out))]
    for s, frame in zip(sizes, frames, strict=True):
        found.append(Centreline(frame.point((s.x, 0.0)), frame.point((s.x, s.cam_level + 4.0))))
        for v in s.valves:
            place = Frame(v.lean, False, (v.x, v.y))
            ends = place.point((0.0, -0.7 * v.head)), place.point((0.0, v.tip + 3.0))
            found.append(Centreline(frame.point(ends[0]), frame.point(ends[1])))
    return found


def _swept(s: CylinderSizes, frame: Frame) -> list[Point]:
    """All around a cam shaft, where cams come by at other angles."""
    return [
        frame.point(at((s.x, s.cam_level), cam_reach(s), math.radians(turn)))
        for turn in range(0, 360, 10)
    ]


def _points(sizes: Sequence[CylinderSizes], frames: Sequence[Frame]) -> dict[str, Point]:
    found: dict[str, Point] = {}
    for s, frame in zip(sizes, frames, strict=True):
        found[f"crank-{s.number}"] = frame.origin
        found[f"crankpin-{s.number}"] = frame.point(s.crankpin)
        found[f"pin-{s.number}"] = frame.point((s.x, s.pin))
        found[f"crown-{s.number}"] = frame.point((s.x, s.crown))
        found[f"deck-{s.number}"] = frame.point((s.x, s.deck))
        for v in s.valves:
            place = Frame(v.lean, False, (v.x, v.y))
            found[f"{v.which}-valve-{s.number}"] = frame.point(place.point((0.0, -v.lift)))
            found[f"{v.which}-seat-{s.number}"] = frame.point((v.x, v.y))
    return found


def _notes(plain: PlainEngine) -> tuple[str, ...]:
    notes = ["Valves and screws turned into the plane; plug behind it"]
    if plain.cylinders[0].valves.placed == "side":
        notes.append("Its valves stand beside the bore: not drawn so, but over it")
    if plain.layout.kind == "parallel_twin":
        notes.append("Cylinder 1 on the left, cylinder 2 behind it drawn on the right")
    count = plain.cylinders[0].head.fasteners
    notes.append(f"{count.count} × {count.thread} on {1e3 * count.circle_diameter:.3g} mm a head")
    return tuple(notes)
