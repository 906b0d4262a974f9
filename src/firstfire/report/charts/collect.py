"""All charts of a result, in the order of the page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from firstfire.cycle.figures import CylinderFigures
from firstfire.report.charts.fading import fading_chart
from firstfire.report.charts.lasting import lasting_chart
from firstfire.report.charts.loop import loop_chart
from firstfire.report.charts.plot import Chart
from firstfire.report.charts.pressure import pressure_chart
from firstfire.report.charts.speeds import speed_charts
from firstfire.report.charts.torque import joint_chart, thrust_chart, torque_chart
from firstfire.report.charts.walls import wall_charts
from firstfire.report.series import found_bout, strongest_held
from firstfire.runs.moments import judged_peak, loads_at
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.facts.shaft_span import shaft_spans
from firstfire.verdict.result import Result
from firstfire.verdict.words.ledger import base


@dataclass(frozen=True)
class Charts:
    """The charts of a page: of the gas and the shaft, of what heat takes, and of speeds."""

    cycle: tuple[Chart, ...]
    heat: tuple[Chart, ...]
    speeds: tuple[Chart, ...]


def charts(result: Result) -> Charts:
    """Every chart that a result has numbers for; empty where nothing was fired."""
    held = strongest_held(result)
    if held is None:
        return Charts((), (), ())
    bout, plain = held.bout, result.plain
    turned = next((e.bouts[0] for e in result.events if e.event == "cranking" and e.bouts), None)
    count = len(bout.gases)
    cycle = [pressure_chart(bout, turned, row, count) for row in range(count)]
    cycle += [loop_chart(bout), torque_chart(bout, plain)]
    force = _worst_joint(result)
    cycle += [force] if force else []
    faded = fading_chart(held, plain)
    hottest = _hottest(bout.point.fired.cycle.cylinders)
    lasts = lasting_chart(result.lasting)
    heat = [
        *([lasts] if lasts else []),
        *([faded] if faded else []),
        *wall_charts(bout, plain, hottest),
    ]
    full = [e for e in result.events if e.event == "full_throttle"]
    points = [bout.point for event in full for bout in event.bouts]
    runs = list(zip(points, shaft_spans(full), strict=True))
    return Charts(tuple(cycle), tuple(heat), tuple(speed_charts(runs)))


def _hottest(cylinders: Sequence[CylinderFigures]) -> int:
    """The cylinder that gives most heat to its walls, from 0."""
    heats = [sum(c.heat) for c in cylinders]
    return heats.index(max(heats))


def _worst_joint(result: Result) -> Chart | None:
    """The crank joint with least to spare; of a crank in one piece, the rod."""
    for way, draw in (("crank.joint.slip", _joint), ("rod.buckle", _thrust)):
        found = [m for m in result.margins if base(m.way) == way and m.factor is not None]
        if found:
            return draw(result, min(found, key=lambda m: m.least))
    return None


def _joint(result: Result, margin: Margin) -> Chart:
    return joint_chart(found_bout(result, margin), result.plain, margin)


def _thrust(result: Result, margin: Margin) -> Chart:
    bout = found_bout(result, margin)
    peaks = [judged_peak(bout, row, margin.at_seconds) for row in range(len(bout.gases))]
    cylinder = int(margin.way.id.partition("#")[2] or 1) - 1
    felt = loads_at(bout, result.plain, peaks).cylinders[cylinder]
    return thrust_chart(np.degrees(felt.angle), felt.rod, margin, len(peaks))
