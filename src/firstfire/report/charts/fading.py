"""Factors against seconds into a run."""

from __future__ import annotations

import numpy as np

from firstfire.engine.resolve import PlainEngine
from firstfire.report.charts.plot import Axis, Chart, plot, spaced
from firstfire.report.series import Held
from firstfire.verdict.facts.fading import Fading, fading
from firstfire.verdict.facts.margin import named
from firstfire.verdict.words import captions
from firstfire.verdict.words.ledger import two
from firstfire.verdict.words.sentences import lasting

_MOST = 8
_LOW, _HIGH = 0.1, 10.0
_KINDS = ("strong", "strong dashed", "strong dotted", "strong dashdot")
_NARROW = 12.0
_TICKS = (0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 60.0, 120.0, 300.0, 600.0)


def fading_chart(held: Held, plain: PlainEngine) -> Chart | None:
    """What heat weakens most while a point is held; None where nothing was judged over time."""
    found = fading(held.event, held.number, _MOST)
    if not found:
        return None
    seconds = found[0].seconds
    across = Axis(
        seconds[0], seconds[-1], "seconds held, from cold", "s", True,
        ticks=tuple(t for t in _TICKS if t <= seconds[-1]),
    )  # fmt: skip
    paper = plot(across, Axis(_LOW, _HIGH, "factor: capacity over demand", "", True), right=30)
    paper = paper.band(_LOW, 1.0, "beyond").level(1.0, "limit")
    ends = []
    for number, one in enumerate(found):
        inside = np.clip(one.factors, _LOW, _HIGH)
        paper = paper.curve(one.seconds, inside, _kind(number), named(plain, one.way))
        ends.append(paper.y.at(float(inside[-1])))
    places = spaced(ends, _NARROW, paper.y.end, paper.y.start)
    for number, place in enumerate(places, start=1):
        shift = (8.0, place - paper.y.at(1.0) + 4)
        paper = paper.text(seconds[-1], 1.0, f"{number}", shift=shift, kind="label strongly")
    along = np.arange(paper.x.start + 6, paper.x.end - 80, 12.0)
    spots = [(float(x), paper.y.at(1.0) + fall) for fall in (14.0, 26.0) for x in along]
    paper = paper.words(spots, "fails below", kind="label strongly")
    title = "What heat takes while full throttle is held"
    sinking = [named(plain, one.way) for one in found if one.crossing is not None]
    said = captions.fading(held.bout.point.name, seconds[-1], sinking)
    keys = tuple((_kind(number), _key(one, plain)) for number, one in enumerate(found))
    return Chart("fading", title, said, paper.svg("fading", title, said), keys, wide=True)


def _key(one: Fading, plain: PlainEngine) -> str:
    first, last = two(one.factors[0]), two(one.factors[-1])
    return f"{named(plain, one.way)}: {first} at first, {last} after {lasting(one.seconds[-1])}"


def _kind(number: int) -> str:
    """Dashes of a line by its number; the later ones in pencil."""
    return _KINDS[number % len(_KINDS)] + (" second" if number >= len(_KINDS) else "")
