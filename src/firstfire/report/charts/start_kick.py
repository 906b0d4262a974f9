"""Which sparks throw the shaft back, and which is asked for."""

from __future__ import annotations

import math

from firstfire.report.charts.plot import Axis, Chart, Plot, box, letters, line, plot
from firstfire.runs.start.account import Account
from firstfire.verdict.start import captions

_EARLIEST = 70.0
_ROW, _BAR = 34.0, 16.0
_TOP = 40.0


def kick_chart(found: Account) -> Chart:
    """Two bars of sparks, for a mean and for a strong first combustion, with those asked for."""
    kick = found.kick
    marks = [
        (math.degrees(kick.asked), "asked"),
        (math.degrees(kick.true), "truly"),
        (math.degrees(found.advance.start), "advised"),
    ]
    known = [mark for mark in marks if math.isfinite(mark[0])]
    least = min(-10.0, *(angle for angle, _ in known))
    paper = plot(
        Axis(least, _EARLIEST, "spark, degrees before top", "°"),
        Axis(0, 1, "", bare=True),
        height=_TOP + 2 * _ROW + 20 * len(known) + 62, left=14, top=_TOP,
    )  # fmt: skip
    rows = (("mean combustion, its starter", kick.mean), ("strong, tired starter", kick.strong))
    for row, (words, safe) in enumerate(rows):
        paper = _bar(paper, _TOP + row * _ROW, words, math.degrees(safe))
    foot = _TOP + 2 * _ROW
    for row, (angle, words) in enumerate(known):
        x, y = paper.x.at(angle), foot + 12 + 20 * row
        kind = "centre" if words == "advised" else "mark"
        bars = [_TOP + row * _ROW for row in range(2)]
        paper = paper.add(
            *(line(x, top - 2, x, top + _BAR + 2, kind) for top in bars),
            line(x, bars[-1] + _BAR, x, y, kind),
            letters(x + 5, y, f"{words}, {angle:.0f}°".replace("-", "−"), "start", "label"),
        )
    said = captions.sparks(found)
    return Chart("kick", "Kick-back", said, paper.svg("kick", "Kick-back", said))


def _bar(paper: Plot, top: float, words: str, safe: float) -> Plot:
    """Open as far as no spark throws it back, hatched beyond."""
    start, end = paper.x.start, paper.x.end
    # infinite: none does, as early as it was tried
    upto = min(max(paper.x.at(safe), start), end)
    marks = [box(start, top, upto - start, _BAR, "bar holds")]
    if upto < end:
        marks.append(box(upto, top, end - upto, _BAR, "bar fails"))
    return paper.add(*marks, letters(start, top - 5, words, "start", "label"))
