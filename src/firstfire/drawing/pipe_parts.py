"""Intake and exhaust pipes at the head, and what meters the fuel."""

from __future__ import annotations

from firstfire.drawing import conventions as by
from firstfire.drawing.drive_parts import broken
from firstfire.drawing.head_parts import outlet
from firstfire.drawing.making import made
from firstfire.drawing.model import Part, Region, Shape, Stroke
from firstfire.drawing.outlines import line, rectangle
from firstfire.drawing.sizes import CylinderSizes, ValveSizes
from firstfire.engine.resolve import PlainEngine

_GAP = 1.5  # mm left open where a pipe is broken off
_NECK = 3.5  # mm of a broken pipe that are seen beyond the break, under what it carries


def pipes(plain: PlainEngine, s: CylinderSizes) -> list[Part]:
    """The pipe to the inlet and the one from the exhaust, broken off where they are long."""
    metered = plain.intake.kind in ("single", "separate")
    inlet, ended = _pipe(s, s.inlet, 1e3 * s.parts.runner.length, carries=metered)
    if metered:
        inlet += _metering(plain, s, ended)
    exhaust, _ = _pipe(s, s.exhaust, 1e3 * s.parts.stub.length, carries=False)
    return [made(plain, "intake", None, *inlet), made(plain, "exhaust", None, *exhaust)]


def _pipe(
    s: CylinderSizes, v: ValveSizes, length: float, *, carries: bool
) -> tuple[list[Shape], float]:
    """A pipe's walls in section from the head out, and where it ends.

    A broken one that carries something is taken up again beyond the break.
    """
    start, low, high = outlet(s, v)
    side = 1.0 if start > s.x else -1.0
    inside_head = abs(start - v.x) + v.port_top
    free = max(length - inside_head, 4.0)
    past = max(500 * s.parts.head.diameter - s.block_half, 0.0)
    shown = min(free, past + by.PIPE_SHOWN)
    end = start + side * shown
    if shown >= free - 0.5:
        close = Stroke(line((end, high + by.PIPE_WALL), (end, low - by.PIPE_WALL)), "thin")
        return [*_walls(v, start, end, low, high), close], end
    over, under = high + by.PIPE_WALL + 1, low - by.PIPE_WALL - 1
    if not carries:
        return [*_walls(v, start, end, low, high), broken((end, over), (end, under))], end
    again = end - side * _NECK
    off = again - side * _GAP
    pieces = [*_walls(v, start, off, low, high), *_walls(v, again, end, low, high)]
    return [*pieces, *(broken((x, over), (x, under)) for x in (off, again))], end


def _walls(v: ValveSizes, start: float, end: float, low: float, high: float) -> list[Shape]:
    """A stretch of pipe with what flows in it."""
    gas = "fresh" if v.which == "inlet" else "exhaust"
    wall = by.PIPE_WALL
    return [
        Region((_band(start, end, low, high),), gas, None),  # type: ignore[arg-type]
        Region((_band(start, end, high, high + wall),), "solid", "thin"),
        Region((_band(start, end, low - wall, low),), "solid", "thin"),
    ]


def _band(
    start: float, end: float, low: float, high: float
) -> tuple[tuple[float, float, float], ...]:
    left, right = sorted((start, end))
    return rectangle(left, low, right, high)


def _metering(plain: PlainEngine, s: CylinderSizes, end: float) -> list[Shape]:
    """A body with its throttle bore and disc, on the runner's end."""
    _, low, high = outlet(s, s.inlet)
    side = 1.0 if end > s.x else -1.0
    middle, bore = (low + high) / 2, 500 * plain.intake.throttle_diameter
    start = end
    far = start + side * max(2 * bore * by.CARBURETTOR, 8.0)
    wall = 3.0
    disc = (start + far) / 2
    lean = 0.55 * bore
    return [
        Region((_band(start, far, middle - bore, middle + bore),), "fresh", None),
        Region((_band(start, far, middle + bore, middle + bore + wall),), "metal", "outline"),
        Region((_band(start, far, middle - bore - wall, middle - bore),), "metal", "outline"),
        Stroke(line((disc - lean, middle - 0.8 * bore), (disc + lean, middle + 0.8 * bore))),
    ]
