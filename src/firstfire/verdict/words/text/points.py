"""Operating points on the terminal: what the engine makes, how it fills, a small curve."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.point import OperatingPoint
from firstfire.runs.run import EventResult
from firstfire.verdict.words.made import bar, filling, made
from firstfire.verdict.words.text.curve import text_curve


def made_lines(events: Sequence[EventResult]) -> Iterator[str]:
    """Power and torque with low–high; below them mean effective pressures and peaks in bar."""
    lines = made(events)
    yield f"  {'':<20}{'power (5–95 %)':<24}torque (5–95 %)"
    for line in lines:
        power = f"{line.power} {line.power_span}"
        yield f"  {line.label:<20}{power:<24}{line.torque} {line.torque_span}".rstrip()
    yield "  at the shaft; low–high is where 90 of 100 engines like it lie"
    yield ""
    yield f"  {'':<20}{'imep':>6}{'friction':>10}  peak (1 in 20, 1 in 1000)"
    for line in lines:
        peak = line.peak + (f" ({line.strong}, {line.rare})" if line.strong else "")
        yield f"  {line.label:<20}{line.imep:>6}{line.friction:>10}  {peak}"
    yield "  in bar; imep: what the gas gives a cycle over the swept volume"


def filling_lines(points: Sequence[OperatingPoint]) -> Iterator[str]:
    """How each cylinder fills, burns, loses heat and leaks."""
    yield (
        f"  {'':<19}{'no.':>3} {'came in':>7} {'trapped':>7} {'back':>4} {'residual':>8} "
        f"{'half burned':>11} {'to walls':>8} {'leak':>4}"
    )
    for line in filling(points):
        label = line.label if line.cylinder == 1 else ""
        yield (
            f"  {label:<19}{line.cylinder:>3} {line.filling:>7} {line.trapped:>7} {line.back:>4} "
            f"{line.residual:>8} {line.half_burned:>11} {line.heat_lost:>8} {line.leaked:>4}"
        )
    yield "  came in, trapped: air over a swept volume of it; back: out by the inlet again"


def pressure_curve(point: OperatingPoint, engine: PlainEngine) -> list[str]:
    """Pressure in cylinder 1 from 120° before to 120° after firing top centre, as letters."""
    curves = point.fired.cycle.curves
    phase = firing_angles(engine)[0]
    local = (curves.angle - phase + 2 * math.pi) % (4 * math.pi) - 2 * math.pi
    order = np.argsort(local)
    degrees, pressure = np.degrees(local[order]), curves.pressure[order, 0]
    near = np.abs(degrees) <= 120
    lines = text_curve(degrees[near].tolist(), pressure[near].tolist())
    top = f"{bar(float(pressure[near].max()))} bar"
    drawn = [f"  {top if row == 0 else '':>9} {line}".rstrip() for row, line in enumerate(lines)]
    axis = f"  {'':>9} {'-120°':<28}{'0°':<28}{'120°':>5}"
    return [*drawn, axis]
