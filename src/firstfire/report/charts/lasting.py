"""The chance that nothing has given way, against seconds: one curve an event."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from firstfire.report.charts.plot import Axis, Chart, Plot, plot
from firstfire.verdict.facts.lasting import Lasting
from firstfire.verdict.words.lasting_words import curve_words, taken
from firstfire.verdict.words.sentences import lasting

_KINDS = {"full_throttle": "strong", "idle": "strong dashed"}
_TICKS = (0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 60.0, 120.0, 300.0, 600.0, 1800.0, 3600.0)
_MOST = 4
_ABOUT = (
    (1.0, -6.0), (1.0, 14.0), (-2.0, -6.0), (-2.0, 14.0), (1.0, 4.0), (-2.0, 4.0), (1.0, -20.0),
)  # fmt: skip
"""Sides of a place that a number is tried at, best first: how far out, and how far down."""
_LEVELS = ((0.95, "19 in 20"), (0.5, "even"), (0.05, "1 in 20"))


def lasting_chart(curves: Sequence[Lasting]) -> Chart | None:
    """How long it lasts and what ends it; None where no engines were drawn."""
    if not curves:
        return None
    last = max(one.horizon for one in curves)
    first = min(one.seconds[1] for one in curves)
    across = Axis(
        first, last, "seconds held, from cold", "s", True,
        ticks=tuple(t for t in _TICKS if t <= last),
    )  # fmt: skip
    paper = plot(across, Axis(0.0, 1.0, "chance that nothing has given way", "", False), right=60)
    for level, words in _LEVELS:
        paper = paper.level(level).text(last, level, words, shift=(6, 4))
    keys: list[tuple[str, str]] = []
    for one in curves:
        paper = paper.curve(
            one.seconds[1:], one.chance[1:], _KINDS[one.event], one.event.replace("_", " ")
        )
    for one in curves:
        kind = _KINDS[one.event]
        keys.append((kind, curve_words(one)))
        if one.even is not None:
            paper = _even(paper, one, first, len(keys))
        for ender in [e for e in one.takes if e.seconds >= first][:_MOST]:
            keys.append((kind, f"{taken(ender)}, at about {lasting(ender.seconds)}"))
            at = float(np.interp(ender.seconds, one.seconds, one.chance))
            paper = _numbered(paper.dot(ender.seconds, at), ender.seconds, at, len(keys))
    title = "How long it lasts, and what ends it"
    said = " ".join(curve_words(one) for one in curves)
    return Chart("lasting", title, said, paper.svg("lasting", title, said), tuple(keys), wide=True)


def _even(paper: Plot, one: Lasting, first: float, number: int) -> Plot:
    """The curve's number where it crosses one half; at its start, if before that."""
    even = one.even or 0.0
    if even >= first:
        return _numbered(paper, even, 0.5, number)
    return _numbered(paper, first, float(np.interp(first, one.seconds, one.chance)), number)


def _numbered(paper: Plot, seconds: float, chance: float, number: int) -> Plot:
    """A number of the key beside a place of a curve, as near as there is room."""
    x, y = paper.x.at(seconds), paper.y.at(chance)
    near = [(x + out * side, y + up) for out in (6, 10, 14, 20, 28) for side, up in _ABOUT]
    left, right, high, low = paper.x.start + 2, paper.x.end, paper.y.end, paper.y.start
    inside = [(a, b) for a, b in near if left < a < right and high < b < low]
    return paper.words(inside, f"{number}", kind="label strongly")
