"""How high the pressure goes after each spark of a start."""

from __future__ import annotations

import math

from firstfire.report.charts.plot import Axis, Chart, plot
from firstfire.runs.start.account import Account
from firstfire.runs.start.cycles import per_cycle
from firstfire.verdict.start import captions

_BAR = 1e5


def peaks_chart(found: Account) -> Chart | None:
    """Peak of each cycle against time; None where there is no spark."""
    cycles = [one for one in per_cycle(found.lived) if math.isfinite(one.peak)]
    if not cycles:
        return None
    strong = found.strong.pressure
    high = max(strong, *(one.peak for one in cycles)) / _BAR * 1.08
    ends = float(found.lived.spun.time[-1])
    paper = plot(Axis(0, ends, "s", "s"), Axis(0, high, "bar, absolute", "bar"), left=44)
    paper = paper.level(strong / _BAR)
    paper = paper.text(ends, strong / _BAR, "strong", anchor="end", shift=(0, -5))
    for one in cycles:
        kind = "dot" if one.missed is None else "open"
        paper = paper.dot(one.seconds, one.peak / _BAR, kind, 2.6)
    said = captions.pressures(cycles)
    return Chart("peaks", "Pressure, cycle by cycle", said, paper.svg("peaks", "Pressure", said))
