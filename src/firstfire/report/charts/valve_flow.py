"""What flows through a cylinder's valves against crank angle."""

from __future__ import annotations

import numpy as np

from firstfire.report.charts.key import key
from firstfire.report.charts.plot import Axis, Chart, plot
from firstfire.report.charts.turned import ACROSS, on_its_angles
from firstfire.runs.bout import Bout
from firstfire.verdict.numbers import THIN, figures

_GRAMS = 1e3
_LIKE = 0.01
"""Flow of a valve that is told as flowing back, over its largest."""


def valve_flow_chart(bout: Bout, cylinder: int, cylinders: int) -> Chart:
    """Flow into a cylinder, counted from 0, of so many: by its inlet and by its exhaust valve.

    What leaves it is below the line.
    """
    curves, fired = bout.point.fired.cycle.curves, bout.point.fired
    names = [f"{valve} {cylinder + 1}" for valve in ("inlet", "exhaust")]
    flows = [curves.flow[:, fired.cycle.passages.index(name)] * _GRAMS for name in names]
    angle, (into, out) = on_its_angles(bout, cylinder, flows)
    everything = np.concatenate([into, out, [0.0]])
    low, high = float(everything.min()), float(everything.max())
    room = 0.06 * (high - low)
    paper = plot(ACROSS, Axis(low - room, high + room, "g/s into the cylinder", "g/s"), left=44)
    paper = paper.level(0.0, "axis")
    paper = paper.curve(angle, into, "strong", "inlet")
    paper = paper.curve(angle, out, "thin dashed", "exhaust")
    paper = key(paper, (("strong", "inlet"), ("thin dashed", "exhaust")))
    said = f"At most {figures(float(into.max()))}{THIN}g/s come in, "
    said += f"{figures(-float(out.min()))}{THIN}g/s go out."
    if float(into.min()) < -_LIKE * float(into.max()):
        said += " Where the inlet's curve is below the line, charge is pushed back."
    title = "Through its valves" + (f", cylinder {cylinder + 1}" if cylinders > 1 else "")
    name = f"valve-flow-{cylinder + 1}"
    return Chart(name, title, said, paper.svg(name, title, said))
