"""The crankcase across the crank: a ring with a tower under each cylinder."""

from __future__ import annotations

import math
from collections.abc import Sequence

from firstfire.drawing.case_sizes import CaseSizes
from firstfire.drawing.frame import Frame
from firstfire.drawing.making import hatch, made
from firstfire.drawing.model import Disc, Loop, Part, Point, Region, Shape, Stroke
from firstfire.drawing.outlines import bulge, line
from firstfire.drawing.sizes import CylinderSizes
from firstfire.engine.resolve import PlainEngine


def case(
    plain: PlainEngine, sizes: Sequence[CylinderSizes], frames: Sequence[Frame], room: CaseSizes
) -> Part:
    """Walls between the towers, one after another around the crank.

    Parameters
    ----------
    plain, sizes, room
        The engine, its cylinders and the case's sizes.
    frames
        Where each cylinder stands; the crank's axis is their common origin.
    """
    # built as if the crank turned clockwise, about the origin, and put in its place at the end
    stands = Frame(0.0, frames[0].mirrored, frames[0].origin)
    sense = -1.0 if frames[0].mirrored else 1.0
    frames = [Frame(sense * frame.turned) for frame in frames]
    order = sorted(range(len(sizes)), key=lambda c: frames[c].turned)
    # its far wall hides what turns behind it
    shapes: list[Shape] = [Disc(frames[0].origin, room.outside - 0.5, "paper", None)]
    fill = hatch(plain.materials[plain.case.material])
    for place, here in enumerate(order):
        there = order[(place + 1) % len(order)]
        turn = frames[there].turned - frames[here].turned
        turn = turn if turn > 1e-9 else turn + 2 * math.pi
        shapes.append(Region((_wall(sizes, frames, room, here, there, turn),), fill))
    shapes += _breather(plain, room, frames)
    return made(plain, "case", None, *(stands.shape(shape) for shape in shapes))


def _wall(
    sizes: Sequence[CylinderSizes],
    frames: Sequence[Frame],
    room: CaseSizes,
    here: int,
    there: int,
    turn: float,
) -> Loop:
    """From one tower's right side clockwise to the next one's left side."""
    first, second = frames[here], frames[there]
    opening, after = (500 * sizes[c].parts.liner.outside_diameter for c in (here, there))
    start = [
        first.point((sizes[here].x + room.half[here], room.tops[here])),
        first.point((sizes[here].x + opening, room.tops[here])),
    ]
    finish = [
        second.point((sizes[there].x - after, room.tops[there])),
        second.point((sizes[there].x - room.half[there], room.tops[there])),
    ]
    inner = _way(first, second, sizes[here].x + opening, sizes[there].x - after, room.inside, turn)
    outer = _way(
        first, second, sizes[here].x + room.half[here], sizes[there].x - room.half[there],
        room.outside, turn,
    )  # fmt: skip
    back = _reversed(outer)
    ends = [(x, y, 0.0) for x, y in start], [(x, y, 0.0) for x, y in finish]
    return (*ends[0], *inner, *ends[1], *back)


def _way(
    first: Frame, second: Frame, right: float, left: float, radius: float, turn: float
) -> Loop:
    """Along a circle about the crank from one vertical line to another, or where they cross."""
    if turn < math.pi - 1e-6:
        crossing = _crossing(first, second, right, left)
        if math.dist(crossing, first.origin) > radius:
            return ((*crossing, 0.0),)
    low = _on(first, right, radius)
    high = _on(second, left, radius)
    start = math.atan2(low[1] - first.origin[1], low[0] - first.origin[0])
    end = math.atan2(high[1] - first.origin[1], high[0] - first.origin[0])
    clockwise = (start - end) % (2 * math.pi)
    return ((*low, bulge(-clockwise)), (*high, 0.0))


def _on(frame: Frame, x: float, radius: float) -> Point:
    """Where a line along a bore meets a circle about the crank; its foot where it doesn't."""
    return frame.point((x, math.sqrt(max(radius**2 - x**2, 0.0))))


def _crossing(first: Frame, second: Frame, right: float, left: float) -> Point:
    """Where the right side of one tower meets the left side of the next."""
    (ax, ay), (bx, by) = first.point((right, 0.0)), second.point((left, 0.0))
    (cx, cy), (dx, dy) = first.point((right, 1.0)), second.point((left, 1.0))
    ux, uy, vx, vy = cx - ax, cy - ay, dx - bx, dy - by
    cross = ux * vy - uy * vx
    t = ((bx - ax) * vy - (by - ay) * vx) / cross
    return ax + t * ux, ay + t * uy


def _reversed(loop: Loop) -> Loop:
    """The same way walked back."""
    points = list(reversed(loop))
    arcs = [-b for _, _, b in reversed(loop[:-1])]
    return tuple((x, y, b) for (x, y, _), b in zip(points, [*arcs, 0.0], strict=True))


def _breather(plain: PlainEngine, room: CaseSizes, frames: Sequence[Frame]) -> list[Shape]:
    """Its bore through the case's wall, level with the crank on the right, by two edges."""
    if plain.case.breather == "closed" or len(frames) > 1:
        return []
    half = min(500 * plain.case.breather_diameter, 0.5 * room.inside)
    ox, oy = frames[0].origin
    return [
        Stroke(
            line(
                (ox + math.sqrt(room.inside**2 - y**2), oy - y),
                (ox + math.sqrt(room.outside**2 - y**2), oy - y),
            ),
            "hidden",
        )
        for y in (0.3 * room.inside - half, 0.3 * room.inside + half)
    ]
