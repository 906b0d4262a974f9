"""Pressure in one cylinder against crank angle, with valve events and burn below it."""

from __future__ import annotations

import math

import numpy as np

from firstfire.report.charts.plot import Axis, Chart, Plot, box, letters, line, plot
from firstfire.report.series import Span, open_spans
from firstfire.runs.bout import Bout
from firstfire.verdict.words import captions
from firstfire.verdict.words.made import bar

_TURNS = (-360.0, -180.0, 0.0, 180.0, 360.0)
_ROW = 11.0
_BAR = 1e5


def pressure_chart(bout: Bout, turned: Bout | None, cylinder: int, cylinders: int) -> Chart:
    """Pressure of a cylinder of a fired bout.

    Parameters
    ----------
    bout
        At full throttle.
    turned
        The same engine cranked without fuel, to compare with.
    cylinder, cylinders
        Which, from 0, and of how many.
    """
    gas, peaks = bout.gases[cylinder], bout.point.peaks[cylinder]
    high = max(peaks.rare, float(gas.pressure.max())) / _BAR * 1.06
    across = Axis(-360, 360, "crank angle, degrees after firing top", "°", ticks=_TURNS)
    paper = plot(
        across, Axis(0, high, "bar, absolute", "bar"), strip=3 * _ROW + 6, height=296, left=52
    )
    if turned is not None:
        cranked = turned.gases[cylinder]
        paper = paper.curve(
            np.degrees(cranked.angle), cranked.pressure / _BAR, "thin dashed", "cranked, no fuel"
        )
    paper = paper.upright(0, "centre")
    paper = paper.curve(np.degrees(gas.angle), gas.pressure / _BAR, "strong", "mean cycle")
    top = math.degrees(peaks.angle)
    for level, words in (
        (peaks.rare, "1 in 1000"),
        (peaks.strong, "1 in 20"),
        (peaks.mean, "mean"),
    ):
        paper = _peak(paper, top, level, words)
    paper = _strip(paper, bout, cylinder)
    title = "Pressure" if cylinders == 1 else f"Pressure, cylinder {cylinder + 1}"
    said = captions.pressure(bout.point, cylinder + 1, peaks)
    name = f"pressure-{cylinder + 1}"
    return Chart(name, title, said, paper.svg(name, title, said))


def _peak(paper: Plot, angle: float, pressure: float, words: str) -> Plot:
    x, y = paper.x.at(angle), paper.y.at(pressure / _BAR)
    spots = [(x + out, y + 4) for out in (17.0, 30.0, 45.0, 60.0)]
    return paper.add(line(x - 7, y, x + 13, y, "mark")).words(spots, f"{bar(pressure)}  {words}")


def _strip(paper: Plot, bout: Bout, cylinder: int) -> Plot:
    """Three rows below the curve: when inlet and exhaust are open, and when it burns."""
    rows: list[tuple[str, list[Span], str]] = [
        ("inlet", open_spans(bout, cylinder, True), "fresh"),
        ("burns", _burning(bout, cylinder), "burning"),
        ("exhaust", open_spans(bout, cylinder, False), "exhaust"),
    ]
    base = paper.y.start + 7
    for number, (words, spans, kind) in enumerate(rows):
        y = base + number * _ROW
        for low, high in spans:
            start, end = paper.x.at(math.degrees(low)), paper.x.at(math.degrees(high))
            paper = paper.add(box(start, y, end - start, _ROW - 3, kind))
        paper = paper.add(letters(paper.x.start - 6, y + 7.5, words, "end", "small"))
    if bout.point.spark is not None:
        spark = paper.x.at(math.degrees(bout.point.spark))
        paper = paper.add(line(spark, base + _ROW - 3, spark, base + 2 * _ROW, "spark"))
    return paper


def _burning(bout: Bout, cylinder: int) -> list[Span]:
    burn = bout.point.fired.burns[cylinder]
    if burn is None:
        return []
    return [(burn.spec.start, burn.spec.start + burn.spec.duration)]
