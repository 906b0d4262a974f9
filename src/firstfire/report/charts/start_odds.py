"""How many of the engines drawn start, against what a compression gauge shows on them."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.report.charts.plot import Axis, Chart, Plot, line, plot
from firstfire.runs.start.account import Account
from firstfire.verdict.start import captions

_BAR = 1e5
_TALL = 7.0
_FEW = 4
"""A share of fewer engines than so many is chance."""


def odds_chart(found: Account) -> Chart:
    """Share that starts of those that show at least so much; a stroke for each engine."""
    each = sorted((one.gauge / _BAR, one.started_at is not None) for one in found.odds.each)
    low, high = each[0][0], each[-1][0]
    room = max(0.08 * (high - low), 0.2)
    paper = plot(
        Axis(max(low - room, 0.0), high + room, "gauge shows, bar", "bar"),
        Axis(-8, 112, "% start", "%", ticks=(0, 25, 50, 75, 100)),
        left=44,
    )
    x, y = zip(*_steps(each), strict=True)
    paper = paper.curve(x, y, "strong", "of those that show as much")
    for reading, starts in each:
        paper = _stroke(paper, reading, 106.0 if starts else -3.0)
    needs = found.odds.needs_gauge
    if needs is not None:
        paper = paper.upright(needs / _BAR, "centre")
        spots = [(paper.x.at(needs / _BAR) + 6, paper.y.at(at)) for at in (12, 30, 60, 85)]
        paper = paper.words(spots, "start from here")
    said = captions.gauges(found)
    title = "Odds against the gauge"
    return Chart("odds-by-gauge", title, said, paper.svg("odds-by-gauge", title, said))


def _stroke(paper: Plot, reading: float, share: float) -> Plot:
    x, y = paper.x.at(reading), paper.y.at(share)
    return paper.add(line(x, y - _TALL / 2, x, y + _TALL / 2, "mark"))


def _steps(each: list[tuple[float, bool]]) -> Iterator[tuple[float, float]]:
    """Share in 100 that starts of an engine and all that show more, as a stair."""
    before = each[0][0]
    for place, (reading, _) in enumerate(each):
        rest = [starts for _, starts in each[place:]]
        if len(rest) < _FEW:
            break
        share = 100.0 * sum(rest) / len(rest)
        yield before, share
        yield reading, share
        before = reading
