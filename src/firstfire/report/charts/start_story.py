"""The story of a start as a picture: speed in time, with sparks, combustions and what happens."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.report.charts.plot import WIDTH, Axis, Chart, Plot, letters, line, plot
from firstfire.runs.start.account import Account
from firstfire.verdict.start import captions
from firstfire.verdict.start.moment import Happened
from firstfire.verdict.start.words import story

_RPM = 30 / 3.141592653589793
_ROW = 12.0
_ABOVE = 1.12
_WIDE, _TALL = 880.0, 320.0


def story_charts(found: Account) -> tuple[Chart, Chart]:
    """The same picture for a desk and for a phone."""
    return _drawn(found, "story", _WIDE, _TALL), _drawn(found, "story-narrow", WIDTH, 290.0)


def _drawn(found: Account, id: str, width: float, height: float) -> Chart:
    spun, cylinders = found.lived.spun, len(found.plain.cylinders)
    high = max(float(spun.speed.max()) * _RPM, 100.0) * _ABOVE
    low = min(float(spun.speed.min()) * _RPM, 0.0)
    across = Axis(0.0, float(spun.time[-1]), "s", "s", most=int(width / 80))
    strip = cylinders * _ROW + 8
    paper = plot(
        across, Axis(low, high, "rpm", "rpm"), width=width, height=height, left=52, strip=strip
    )
    if low < 0:
        paper = paper.level(0.0, "axis")
    kind = "strong" if width > WIDTH else "thin"
    paper = paper.curve(spun.time, spun.speed * _RPM, kind, "speed")
    paper = _sparks(paper, found)
    if found.lived.let_go is not None:
        paper = paper.upright(found.lived.let_go, "centre")
    paper = _numbered(paper, story(found))
    said = captions.speed(found)
    title = "How it goes"
    return Chart(id, title, said, paper.svg(id, title, said))


def _sparks(paper: Plot, found: Account) -> Plot:
    """A row for each cylinder: upright strokes where a spark burns, crosses where none does."""
    base, count = paper.y.start + 5, len(found.plain.cylinders)
    for row in range(count):
        y = base + row * _ROW
        named = "sparks" if count == 1 else f"sparks {row + 1}"
        paper = paper.add(letters(paper.x.start - 6, y + 9, named, "end", "small"))
    for spark in found.lived.sparks:
        x, y = paper.x.at(spark.seconds), base + spark.cylinder * _ROW
        if spark.missed is None:
            paper = paper.add(line(x, y, x, y + _ROW - 3, "mark"))
        else:
            paper = paper.add(
                line(x - 2.5, y + 2, x + 2.5, y + 7, "limit"),
                line(x - 2.5, y + 7, x + 2.5, y + 2, "limit"),
            )
    return paper


def _within(paper: Plot, x: float, y: float) -> bool:
    """Whether a number there stands clear of both axes."""
    return paper.x.start + 5 < x < paper.x.end and paper.y.end < y < paper.y.start


def _numbered(paper: Plot, moments: Sequence[Happened]) -> Plot:
    """Numbers at the moments that are listed beside the picture."""
    for number, one in enumerate(moments, start=1):
        x, y = paper.x.at(one.seconds), paper.y.at(one.speed * _RPM)
        x = min(max(x, paper.x.start + 8), paper.x.end - 8)
        paper = paper.dot(one.seconds, one.speed * _RPM)
        spots = [(x + aside, y + up) for aside in (0, -10, 10) for up in (-8, 16, -20, 28, -34)]
        inside = [spot for spot in spots if _within(paper, *spot)] or spots
        paper = paper.words(inside, str(number), "middle", "label strongly")
    return paper
