"""Power and torque at the speeds that were run: a curve through them in its low-high band."""

from __future__ import annotations

import math
from collections.abc import Sequence

from firstfire.report.charts.plot import Axis, Chart, plot
from firstfire.runs.point import OperatingPoint
from firstfire.verdict.facts.shaft_span import ShaftSpan
from firstfire.verdict.words import captions

_RPM = math.pi / 30
Run = tuple[OperatingPoint, ShaftSpan | None]
"""A point, and where 90 of 100 engines like it lie; None where none were followed."""


def speed_charts(runs: Sequence[Run]) -> list[Chart]:
    """Power, and torque, of points at full throttle.

    Parameters
    ----------
    runs
        At least one.
    """
    runs = sorted(runs, key=lambda run: run[0].speed)
    ordered = [point for point, _ in runs]
    spans = [span for _, span in runs]
    power_ends = [(s.power_low, s.power_high) if s else None for s in spans]
    torque_ends = [(s.torque_low, s.torque_high) if s else None for s in spans]
    powers, torques = [p.brake_power for p in ordered], [p.brake_torque for p in ordered]
    return [
        _chart(
            "power", "Power where it was run", "W", ordered, powers,
            power_ends, captions.powers(ordered),
        ),
        _chart(
            "shaft-torque", "Torque where it was run", "N·m", ordered, torques,
            torque_ends, captions.torques(ordered),
        ),
    ]  # fmt: skip


def _chart(
    id: str,
    title: str,
    unit: str,
    points: Sequence[OperatingPoint],
    values: Sequence[float],
    ends: Sequence[tuple[float, float] | None],
    said: str,
) -> Chart:
    speeds = [p.speed / _RPM for p in points]
    reached = [*values, *(end for both in ends if both for end in both), 0.0]
    low, high = min(reached), max(reached)
    room = 0.08 * ((high - low) or 1.0)
    across = Axis(0, max(speeds) * 1.15, "rpm", "rpm")
    paper = plot(across, Axis(low - (room if low < 0 else 0), high + room, unit, unit), height=220)
    known = [(speed, both) for speed, both in zip(speeds, ends, strict=True) if both]
    paper = paper.between(
        [speed for speed, _ in known], [b[0] for _, b in known], [b[1] for _, b in known]
    )
    if low < 0:
        paper = paper.level(0, "axis")
    paper = paper.curve(speeds, values, "strong", title.split(maxsplit=1)[0].lower())
    for speed, value in zip(speeds, values, strict=True):
        paper = paper.dot(speed, value)
    if known:
        said += " Shaded: where 90 of 100 engines like it lie."
    return Chart(id, title, said, paper.svg(id, title, said))
