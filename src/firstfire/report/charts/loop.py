"""Pressure against volume, both as ratios."""

from __future__ import annotations

import numpy as np

from firstfire.report.charts.key import key
from firstfire.report.charts.plot import Axis, Chart, plot
from firstfire.runs.bout import Bout
from firstfire.verdict.words import captions

_KINDS = ("strong", "strong dashed", "strong dotted", "thin")


def loop_chart(bout: Bout) -> Chart:
    """The loops of all cylinders of a bout."""
    loops = [(gas.volume * 1e6, gas.pressure / 1e5) for gas in bout.gases]
    volumes = np.concatenate([volume for volume, _ in loops])
    pressures = np.concatenate([pressure for _, pressure in loops])
    paper = plot(
        Axis(volumes.min() * 0.9, volumes.max() * 1.1, "volume above the piston, cm³", "cm³", True),
        Axis(pressures.min() * 0.85, pressures.max() * 1.25, "bar, absolute", "bar", True),
        height=296,
    )
    named = [(_KINDS[n % len(_KINDS)], f"cylinder {n + 1}") for n in range(len(loops))]
    for (volume, pressure), (kind, name) in zip(loops, named, strict=True):
        paper = paper.curve(volume, pressure, kind, name)
    if len(loops) > 1:
        paper = key(paper, named)
    title, said = "Pressure and volume", captions.loop(bout.point)
    return Chart("loop", title, said, paper.svg("loop", title, said))
