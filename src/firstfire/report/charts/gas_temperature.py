"""Temperature of a cylinder's gas against crank angle: fresh, burned, and the mean of both."""

from __future__ import annotations

import numpy as np

from firstfire.report.charts.key import key
from firstfire.report.charts.plot import Axis, Chart, plot
from firstfire.report.charts.turned import ACROSS, on_its_angles
from firstfire.runs.bout import Bout
from firstfire.verdict.numbers import THIN, figures

_ZERO = 273.15
_KINDS = (("strong", "mean"), ("thin", "not burned"), ("thin dashed", "burned"))


def gas_temperature_chart(bout: Bout, cylinder: int, cylinders: int) -> Chart:
    """Temperatures of the gas of a cylinder, counted from 0, of so many.

    Once it burns the cylinder holds two zones, which are told beside their mean by mass.
    """
    curves = bout.point.fired.cycle.curves
    zones = (curves.temperature, curves.unburned_temperature, curves.burned_temperature)
    angle, (mean, fresh, burned) = on_its_angles(bout, cylinder, [z[:, cylinder] for z in zones])
    two = np.isfinite(burned)
    high = float(np.nanmax([mean.max(), np.nanmax(burned) if two.any() else 0.0])) - _ZERO
    low = min(float(mean.min()) - _ZERO, 0.0)
    paper = plot(ACROSS, Axis(low, 1.06 * high, "°C", "°C"), height=276, left=52)
    paper = paper.upright(0, "centre")
    if two.any():
        paper = paper.curve(angle[two], fresh[two] - _ZERO, "thin", "not burned")
        paper = paper.curve(angle[two], burned[two] - _ZERO, "thin dashed", "burned")
        paper = key(paper, _KINDS)
    paper = paper.curve(angle, mean - _ZERO, "strong", "mean")
    said = f"Hottest on the mean: {figures(float(mean.max()) - _ZERO)}{THIN}°C. "
    said += "Fresh and burned gas have their own from spark to exhaust." if two.any() else ""
    title = "Temperature of its gas" + (f", cylinder {cylinder + 1}" if cylinders > 1 else "")
    name = f"gas-temperature-{cylinder + 1}"
    return Chart(name, title, said.strip(), paper.svg(name, title, said.strip()))
