"""A chart's paper: its frame, axes, curves and letters as SVG text.

Colours and line weights are classes of the page's style sheet; every letter is escaped here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from markupsafe import Markup
from numpy.typing import ArrayLike

from firstfire.drawing.model import Point
from firstfire.drawing.workshop.taken import Taken
from firstfire.report.charts.clear import box_of, first_clear, pieces
from firstfire.report.charts.scale import Scale
from firstfire.report.charts.thin import thinned
from firstfire.report.charts.ticks import tick_text
from firstfire.report.clean import clean

WIDTH = 440.0


@dataclass(frozen=True)
class Axis:
    """What one axis shows.

    Attributes
    ----------
    low, high
        Numbers at its ends.
    title
        What it counts, with its unit.
    unit
        As a readout says it.
    logarithmic
        Whether equal ratios are equally far apart.
    ticks
        Where its ticks are; empty for round numbers.
    most
        So many ticks at most, where they are not given.
    bare
        Whether it is not drawn at all: what stands along it is said beside it.
    """

    low: float
    high: float
    title: str
    unit: str = ""
    logarithmic: bool = False
    ticks: tuple[float, ...] = ()
    most: int = 6
    bare: bool = False


@dataclass(frozen=True)
class Chart:
    """A finished chart.

    Attributes
    ----------
    id
        Unique on the page.
    title, description
        What it shows and, for those who don't see it, what there is to see.
    svg
        The picture.
    keys
        Kind and words of its numbered lines, in order; empty where labels stand at the lines.
    wide
        Whether it takes the whole width of the page.
    """

    id: str
    title: str
    description: str
    svg: Markup
    keys: tuple[tuple[str, str], ...] = ()
    wide: bool = False


@dataclass(frozen=True)
class Plot:
    """Paper with two axes on which marks are put; each mark gives a new plot.

    Attributes
    ----------
    x, y
        Scales.
    height, width
        Of the whole picture.
    marks
        SVG text so far, lowest first.
    readout
        ``data-`` attributes by which a script reads numbers off.
    taken
        Lines and words so far, which words keep off where they have a choice.
    """

    x: Scale
    y: Scale
    height: float
    width: float = WIDTH
    marks: tuple[Markup, ...] = field(default=())
    readout: Markup = field(default_factory=Markup)
    taken: Taken = field(default_factory=Taken)

    def add(self, *marks: Markup) -> Plot:
        """With more marks on top."""
        return replace(self, marks=(*self.marks, *marks))

    def curve(self, x: ArrayLike, y: ArrayLike, kind: str, name: str = "") -> Plot:
        """With a curve of a kind (a class of the style sheet); a named one can be read off."""
        flat_x, flat_y = thinned(self.x(x), self.y(y))
        points = " ".join(f"{a:.1f},{b:.1f}" for a, b in zip(flat_x, flat_y, strict=True))
        named = Markup(' data-name="{}"').format(name) if name else Markup("")
        paper = replace(self, taken=self.taken.plus(lines=pieces(flat_x, flat_y)))
        return paper.add(
            Markup('<polyline class="curve {}" points="{}"{}/>').format(kind, points, named)
        )

    def text(
        self, x: float, y: float, words: str, *, anchor: str = "start", kind: str = "label",
        shift: tuple[float, float] = (0.0, 0.0),
    ) -> Plot:  # fmt: skip
        """With letters at a point given in numbers, shifted on the paper."""
        return self.words([(self.x.at(x) + shift[0], self.y.at(y) + shift[1])], words, anchor, kind)

    def words(
        self, spots: Sequence[Point], words: str, anchor: str = "start", kind: str = "label"
    ) -> Plot:
        """With letters at the first of some spots on the paper where no line and no word is."""
        spot = first_clear(spots, words, anchor, self.taken)
        paper = replace(self, taken=self.taken.plus(words=[box_of(spot, words, anchor)]))
        return paper.add(letters(*spot, words, anchor, kind))

    def dot(self, x: float, y: float, kind: str = "dot", size: float = 3.2) -> Plot:
        """With a point."""
        return self.add(
            Markup('<circle class="{}" cx="{:.1f}" cy="{:.1f}" r="{:.1f}"/>').format(
                kind, self.x.at(x), self.y.at(y), size
            )
        )

    def level(self, y: float, kind: str = "level") -> Plot:
        """With a line across at one height."""
        ends = (self.x.start, self.y.at(y)), (self.x.end, self.y.at(y))
        paper = replace(self, taken=self.taken.plus(lines=[ends]))
        return paper.add(line(*ends[0], *ends[1], kind))

    def upright(self, x: float, kind: str = "level") -> Plot:
        """With a line from bottom to top at one place."""
        return self.add(line(self.x.at(x), self.y.start, self.x.at(x), self.y.end, kind))

    def band(self, low: float, high: float, kind: str) -> Plot:
        """With a band across between two heights."""
        top, bottom = self.y.at(high), self.y.at(low)
        return self.add(box(self.x.start, top, self.x.end - self.x.start, bottom - top, kind))

    def between(self, x: ArrayLike, low: ArrayLike, high: ArrayLike) -> Plot:
        """With the area between two curves, and an upright bar at each of its places."""
        across, bottom, top = self.x(x), self.y(low), self.y(high)
        there = [*zip(across, top, strict=True)]
        back = [*zip(across[::-1], bottom[::-1], strict=True)]
        corners = " ".join(f"{a:.1f},{b:.1f}" for a, b in (*there, *back))
        bars = (line(a, b, a, c, "level") for a, b, c in zip(across, bottom, top, strict=True))
        area = Markup('<polygon class="span" points="{}"/>').format(corners)
        return self.add(area, *bars) if there else self

    def svg(self, id: str, title: str, description: str) -> Markup:
        """The whole picture, named and described."""
        head = Markup(
            '<svg class="chart" role="img" viewBox="0 0 {:g} {:g}" '
            'aria-labelledby="{}-t {}-d" tabindex="0"{}>'
            '<title id="{}-t">{}</title><desc id="{}-d">{}</desc>'
        ).format(self.width, self.height, id, id, self.readout, id, title, id, description)
        return head + Markup("").join(self.marks) + Markup("</svg>")


def plot(
    across: Axis,
    up: Axis,
    *,
    height: float = 276.0,
    width: float = WIDTH,
    left: float = 40.0,
    right: float = 14.0,
    top: float = 30.0,
    bottom: float = 40.0,
    strip: float = 0.0,
) -> Plot:
    """Paper with its axes drawn.

    Parameters
    ----------
    across, up
        The two axes.
    height, width
        Of the picture.
    left, right, top, bottom
        Margins.
    strip
        Room kept free between the lowest value and the axis across.
    """
    floor = height - bottom
    x = Scale(across.low, across.high, left, width - right, across.logarithmic)
    y = Scale(up.low, up.high, floor - strip, top, up.logarithmic)
    readout = Markup(' data-x="{} {} {} {} {}" data-y="{} {} {} {} {}" data-ux="{}" data-uy="{}"')
    readout = readout.format(
        across.low, across.high, x.start, x.end, int(across.logarithmic),
        up.low, up.high, y.start, y.end, int(up.logarithmic), across.unit, up.unit,
    )  # fmt: skip
    paper = Plot(x, y, height, width, readout=readout)
    return paper.add(*_across(paper, across, floor), *_up(paper, up, floor))


def _across(paper: Plot, axis: Axis, floor: float) -> list[Markup]:
    found = [line(paper.x.start, floor, paper.x.end, floor, "axis")]
    for tick in axis.ticks or paper.x.ticks(axis.most):
        place = paper.x.at(tick)
        found.append(line(place, floor, place, floor + 4, "axis"))
        found.append(letters(place, floor + 16, tick_text(tick), "middle", "tick"))
    found.append(letters(paper.x.end, floor + 33, axis.title, "end", "title"))
    return found


def _up(paper: Plot, axis: Axis, floor: float) -> list[Markup]:
    if axis.bare:
        return []
    found = [line(paper.x.start, floor, paper.x.start, paper.y.end, "axis")]
    for tick in axis.ticks or paper.y.ticks(axis.most):
        place = paper.y.at(tick)
        found.append(line(paper.x.start, place, paper.x.end, place, "grid"))
        found.append(letters(paper.x.start - 6, place + 4, tick_text(tick), "end", "tick"))
    found.append(letters(0, paper.y.end - 16, axis.title, "start", "title"))
    return found


def line(x1: float, y1: float, x2: float, y2: float, kind: str) -> Markup:
    """A straight line between places."""
    return Markup('<line class="{}" x1="{:.1f}" y1="{:.1f}" x2="{:.1f}" y2="{:.1f}"/>').format(
        kind, x1, y1, x2, y2
    )


def box(x: float, y: float, width: float, height: float, kind: str) -> Markup:
    """A rectangle at a place."""
    return Markup('<rect class="{}" x="{:.1f}" y="{:.1f}" width="{:.1f}" height="{:.1f}"/>').format(
        kind, x, y, max(width, 0.0), max(height, 0.0)
    )


def letters(x: float, y: float, words: str, anchor: str, kind: str) -> Markup:
    """Words at a place; `anchor` is start, middle or end."""
    at = f' text-anchor="{anchor}"' if anchor != "start" else ""
    return Markup('<text class="{}" x="{:.1f}" y="{:.1f}"{}>{}</text>').format(
        kind, x, y, Markup(at), clean(words)
    )


def spaced(places: Sequence[float], apart: float, low: float, high: float) -> list[float]:
    """Places moved as little as need be so that labels at them stand `apart`, in their order.

    Examples
    --------
    >>> spaced([10.0, 11.0, 40.0], 10.0, 0.0, 100.0)
    [10.0, 20.0, 40.0]
    """
    order = np.argsort(places, kind="stable")
    found = [0.0] * len(places)
    before = low - apart
    for index in order:
        before = max(float(places[index]), before + apart)
        found[index] = before
    after = high + apart
    for index in reversed(order):
        after = min(found[index], after - apart)
        found[index] = after
    return found
