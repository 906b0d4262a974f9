"""Power and torque at the speeds that were run: points, and no more than that."""

from __future__ import annotations

import math
from collections.abc import Sequence

from firstfire.report.charts.plot import Axis, Chart, plot
from firstfire.runs.point import OperatingPoint
from firstfire.verdict import captions
from firstfire.verdict.numbers import shown
from firstfire.verdict.words import power

_RPM = math.pi / 30
_ENOUGH = 3
"""From so many points on a fine line leads the eye from one to the next."""


def speed_charts(points: Sequence[OperatingPoint]) -> list[Chart]:
    """Power, and torque, of points at full throttle.

    Parameters
    ----------
    points
        At least one.
    """
    ordered = sorted(points, key=lambda p: p.speed)
    powers, torques = [p.brake_power for p in ordered], [p.brake_torque for p in ordered]
    return [
        _chart(
            "power", "Power where it was run", "W", ordered, powers,
            list(map(power, powers)), captions.powers(ordered),
        ),
        _chart(
            "shaft-torque", "Torque where it was run", "N·m", ordered, torques,
            [shown(t, "N*m") for t in torques], captions.torques(ordered),
        ),
    ]  # fmt: skip


def _chart(
    id: str,
    title: str,
    unit: str,
    points: Sequence[OperatingPoint],
    values: Sequence[float],
    words: Sequence[str],
    said: str,
) -> Chart:
    speeds = [p.speed / _RPM for p in points]
    low, high = min(0.0, *values, 0.0), max(*values, 0.0)
    room = 0.18 * ((high - low) or 1.0)
    across = Axis(0, max(speeds) * 1.15, "rpm", "rpm")
    paper = plot(across, Axis(low - (room if low < 0 else 0), high + room, unit, unit), height=220)
    if low < 0:
        paper = paper.level(0, "axis")
    if len(points) >= _ENOUGH:
        paper = paper.curve(speeds, values, "thin dotted")
    for speed, value, told in zip(speeds, values, words, strict=True):
        paper = paper.dot(speed, value)
        paper = paper.text(speed, value, told, anchor="middle", shift=(0, -9))
    return Chart(id, title, said, paper.svg(id, title, said))
