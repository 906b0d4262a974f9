"""Torque over two turns: of the gas, of friction, and what comes to the shaft."""

from __future__ import annotations

import numpy as np

from firstfire.drawing.model import Point
from firstfire.engine.resolve import PlainEngine
from firstfire.report.charts.key import key
from firstfire.report.charts.plot import Axis, Chart, Plot, plot
from firstfire.report.series import Floats, joint_curves, torque_curves
from firstfire.runs.bout import Bout
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.numbers import figures
from firstfire.verdict.words import captions

TURNS = (0.0, 180.0, 360.0, 540.0, 720.0)
ACROSS = Axis(0, 720, "degrees after cylinder 1 fires", "°", ticks=TURNS)


def torque_chart(bout: Bout, plain: PlainEngine) -> Chart:
    """Torque of the mean cycle of a bout."""
    curves = torque_curves(bout, plain)
    angle = np.degrees(curves.angle)
    everything = np.concatenate([curves.gas, curves.friction, curves.shaft, [0.0]])
    low, high = float(everything.min()), float(everything.max())
    room = 0.06 * (high - low)
    paper = plot(ACROSS, Axis(low - room, high + room, "N·m", "N·m"), height=296)
    paper = paper.level(0, "axis")
    paper = paper.curve(angle, curves.gas, "thin", "gas")
    paper = paper.curve(angle, curves.friction, "thin dashed", "friction")
    paper = paper.curve(angle, curves.shaft, "strong", "at the shaft")
    mean = bout.point.brake_torque
    paper = paper.level(mean, "mean")
    paper = paper.words(_along(paper, mean), f"mean {figures(mean)}", "end")
    paper = key(paper, (("thin", "gas"), ("thin dashed", "friction"), ("strong", "at the shaft")))
    title = "Torque over two turns"
    said = captions.torque(bout.point, float(curves.shaft.min()), float(curves.shaft.max()))
    return Chart("torque", title, said, paper.svg("torque", title, said))


def joint_chart(bout: Bout, plain: PlainEngine, margin: Margin) -> Chart:
    """Twist of the crank joints under the cycle that a margin was judged by, and what they hold."""
    curves = joint_curves(bout, plain, margin)
    angle = np.degrees(curves.angle)
    high = max(margin.way.capacity, margin.way.demand) * 1.15
    least = min(float(twist.min()) for twist in curves.twists.values())
    low = -high if least < -0.5 * margin.way.capacity else min(least * 1.25, -0.1 * high)
    paper = plot(ACROSS, Axis(low, high, "N·m", "N·m"), height=296)
    paper = _beyond(paper, margin.way.capacity, low).level(0, "axis")
    for name, twist in curves.twists.items():
        if name != curves.worst:
            paper = paper.curve(angle, twist, "thin dashed", f"joint {name}")
    worst = f"joint {curves.worst}"
    paper = paper.curve(angle, curves.twists[curves.worst], "strong", worst)
    paper = _holds(paper, margin.way.capacity)
    if len(curves.twists) > 1:
        paper = key(paper, (("strong", worst), ("thin dashed", "the others")))
    title = "The worst crank joint"
    said = captions.joint(curves.worst, margin.point, margin.way.demand, margin.way.capacity)
    return Chart("joint", title, said, paper.svg("joint", title, said))


def thrust_chart(angle: Floats, force: Floats, margin: Margin, cylinders: int) -> Chart:
    """Force in a rod against what buckles it, N over crank angle in degrees."""
    capacity = margin.way.capacity
    low, high = min(float(force.min()) * 1.1, 0.0), max(capacity, float(force.max())) * 1.12
    across = Axis(-360, 360, "crank angle, degrees after firing top", "°",
                  ticks=(-360, -180, 0, 180, 360))  # fmt: skip
    paper = plot(across, Axis(low / 1e3, high / 1e3, "kN", "kN"), height=296)
    paper = _beyond(paper, capacity / 1e3, low / 1e3).level(0, "axis")
    paper = _holds(paper.curve(angle, force / 1e3, "strong", "in the rod"), capacity / 1e3)
    title = "Force in the con rod"
    number = int(margin.way.id.partition("#")[2] or 1)
    said = captions.thrust(number, cylinders, margin.point, margin.way.demand, capacity)
    return Chart("thrust", title, said, paper.svg("thrust", title, said))


def _beyond(paper: Plot, capacity: float, low: float) -> Plot:
    """What is held: a line, hatched beyond."""
    paper = paper.band(capacity, paper.y.high, "beyond").level(capacity, "limit")
    if low <= -capacity:
        paper = paper.band(low, -capacity, "beyond").level(-capacity, "limit")
    return paper


def _holds(paper: Plot, capacity: float) -> Plot:
    words = f"holds {figures(capacity)}"
    return paper.words(_along(paper, capacity), words, "end", "label strongly")


def _along(paper: Plot, level: float) -> list[Point]:
    """Spots above a level from the right edge to the left, then below it."""
    y = paper.y.at(level)
    across = np.arange(paper.x.end - 2, paper.x.start + 80, -16.0)
    return [(float(x), y + fall) for fall in (-5.0, 14.0) for x in across]
