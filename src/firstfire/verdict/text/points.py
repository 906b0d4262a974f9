"""Operating points on the terminal: what the engine makes, how it fills, a small curve."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.point import OperatingPoint
from firstfire.verdict.numbers import THIN, figures, shown
from firstfire.verdict.text.curve import text_curve
from firstfire.verdict.words import power

_BAR = 1e5


def _bar(value: float) -> str:
    return figures(value / _BAR)


def made_lines(points: Sequence[OperatingPoint]) -> Iterator[str]:
    """Power, torque, mean effective pressures and peaks in bar, a line a point."""
    yield (
        f"  {'':<18}{'power':>8} {'torque':>11} {'imep':>6} {'friction':>9}  peak (1/20, 1/1000)"
    )
    for point in points:
        cylinders = point.fired.cycle.cylinders
        imep = sum(c.imep_net for c in cylinders) / len(cylinders)
        worst = max(point.peaks, key=lambda p: p.rare)
        peak = _bar(worst.mean)
        if point.spark is not None:
            peak += f" ({_bar(worst.strong)}, {_bar(worst.rare)})"
        yield (
            f"  {_label(point):<18}{power(point.brake_power):>8} "
            f"{shown(point.brake_torque, 'N*m'):>11} {_bar(imep):>6} "
            f"{_bar(point.friction_mep):>9}  {peak}"
        )
    yield "  imep, friction and peak in bar; power and torque at the shaft"


def _label(point: OperatingPoint) -> str:
    words = {"cranking": "cranked", "first_fire": "first fire"}
    word = words.get(point.event, "full")
    return f"{word} {point.speed * 30 / math.pi:.0f}{THIN}rpm"


def filling_lines(points: Sequence[OperatingPoint]) -> Iterator[str]:
    """How each cylinder fills, burns, loses heat and leaks."""
    yield (
        f"  {'':<18}{'cylinder':>8} {'filling':>8} {'residual':>9} {'half burned':>12} "
        f"{'heat lost':>10} {'leaked':>6}"
    )
    for point in points:
        for number, c in enumerate(point.fired.cycle.cylinders, start=1):
            label = _label(point) if number == 1 else ""
            half = "–" if c.ca50 is None else _angle(c.ca50)
            lost = None if point.spark is None else c.heat_fraction
            heat = "–" if lost is None else f"{math.fsum(lost):.0%}"
            yield (
                f"  {label:<18}{number:>8} {c.volumetric_efficiency:>8.2f} "
                f"{c.residual_fraction:>9.1%} {half:>12} {heat:>10} {c.leaked_fraction:>6.0%}"
            )


def _angle(radians: float) -> str:
    degrees = math.degrees(radians)
    return f"{abs(degrees):.0f}° {'after' if degrees >= 0 else 'before'}"


def friction_line(point: OperatingPoint) -> str:
    """Where a point's friction goes."""
    total = max(point.friction.mean_torque, 1e-12)
    shares = sorted(point.friction.by_contact.items(), key=lambda item: -item[1])
    told = ", ".join(f"{name} {torque / total:.0%}" for name, torque in shares)
    return f"Friction at {point.speed * 30 / math.pi:.0f} rpm: {told}."


def pressure_curve(point: OperatingPoint, engine: PlainEngine) -> list[str]:
    """Pressure in cylinder 1 from 120° before to 120° after firing top centre, as letters."""
    curves = point.fired.cycle.curves
    phase = firing_angles(engine)[0]
    local = (curves.angle - phase + 2 * math.pi) % (4 * math.pi) - 2 * math.pi
    order = np.argsort(local)
    degrees, pressure = np.degrees(local[order]), curves.pressure[order, 0]
    near = np.abs(degrees) <= 120
    lines = text_curve(degrees[near].tolist(), pressure[near].tolist())
    top = f"{_bar(float(pressure[near].max()))} bar"
    drawn = [f"  {top if row == 0 else '':>9} {line}".rstrip() for row, line in enumerate(lines)]
    axis = f"  {'':>9} {'-120°':<28}{'0°':<28}{'120°':>5}"
    return [*drawn, axis]
