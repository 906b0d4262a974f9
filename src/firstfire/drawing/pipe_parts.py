"""Intake and exhaust pipes at the head, and what meters the fuel."""

from __future__ import annotations

from firstfire.drawing import conventions as by
from firstfire.drawing.drive_parts import broken
from firstfire.drawing.head_parts import outlet
from firstfire.drawing.making import made
from firstfire.drawing.model import Part, Region, Shape, Stroke
from firstfire.drawing.outlines import line, polygon, rectangle
from firstfire.drawing.sizes import CylinderSizes, ValveSizes
from firstfire.engine.resolve import PlainEngine


def pipes(plain: PlainEngine, s: CylinderSizes) -> list[Part]:
    """The pipe to the inlet and the one from the exhaust, broken off where they are long."""
    runner, stub = s.parts.runner, s.parts.stub
    inlet, ended = _pipe(s, s.inlet, 1e3 * runner.length)
    if plain.intake.kind in ("single", "separate"):
        inlet += _metering(plain, s, ended)
    exhaust, _ = _pipe(s, s.exhaust, 1e3 * stub.length)
    return [made(plain, "intake", None, *inlet), made(plain, "exhaust", None, *exhaust)]


def _pipe(s: CylinderSizes, v: ValveSizes, length: float) -> tuple[list[Shape], float]:
    """A pipe's walls in section from the head out, and where it ends."""
    start, low, high = outlet(s, v)
    side = 1.0 if start > s.x else -1.0
    inside_head = abs(start - v.x) + v.port_top
    free = max(length - inside_head, 4.0)
    past = max(500 * s.parts.head.diameter - s.block_half, 0.0)
    shown = min(free, past + by.PIPE_SHOWN)
    end = start + side * shown
    gas = "fresh" if v.which == "inlet" else "exhaust"
    wall = by.PIPE_WALL
    shapes: list[Shape] = [
        Region((polygon((start, low), (end, low), (end, high), (start, high)),), gas, None),  # type: ignore[arg-type]
        Region((_band(start, end, high, high + wall),), "solid", "thin"),
        Region((_band(start, end, low - wall, low),), "solid", "thin"),
    ]
    if shown < free - 0.5:
        shapes.append(broken((end, high + wall + 1), (end, low - wall - 1)))
    else:
        shapes.append(Stroke(line((end, high + wall), (end, low - wall)), "thin"))
    return shapes, end


def _band(
    start: float, end: float, low: float, high: float
) -> tuple[tuple[float, float, float], ...]:
    left, right = sorted((start, end))
    return rectangle(left, low, right, high)


def _metering(plain: PlainEngine, s: CylinderSizes, end: float) -> list[Shape]:
    """A body with its throttle bore and disc, beyond the break."""
    _, low, high = outlet(s, s.inlet)
    side = 1.0 if end > s.x else -1.0
    middle, bore = (low + high) / 2, 500 * plain.intake.throttle_diameter
    start = end + side * 2.0
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
