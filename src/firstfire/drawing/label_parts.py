"""What a dimension consists of: lines, arrowheads, a dot, words. The same for every writer."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.drawing import tokens
from firstfire.drawing.model import Label, Lettering, Point

HEAD = 2.5
"""Length of an arrowhead, mm of paper."""
TAIL = 5.0
"""Length of a line behind an arrow that points inwards, mm of paper."""
_SHORT = 1e-6


@dataclass(frozen=True)
class LabelParts:
    """Of one label, mm of the engine.

    Attributes
    ----------
    lines
        Thin lines, from point to point.
    heads
        Arrowheads: where each comes from, and where its tip is.
    dot
        Where a dimension without a line is pointed at; None where an arrow does it.
    words
        What is written.
    """

    lines: tuple[tuple[Point, ...], ...]
    heads: tuple[tuple[Point, Point], ...]
    dot: Point | None
    words: Lettering


def label_parts(label: Label, unit: float) -> LabelParts:
    """All of a dimension; `unit` is mm of the engine to one of paper."""
    start, end = label.dimension.line
    leader = (label.leader,) if label.leader else ()
    if math.dist(start, end) > _SHORT:
        lines, heads = _measured(label, unit)
        return LabelParts((*leader, *lines), heads, None, _words(label, unit))
    if label.pointed and len(label.leader) > 1:
        return LabelParts(leader, ((label.leader[1], label.leader[0]),), None, _words(label, unit))
    return LabelParts(leader, (), start, _words(label, unit))


def _measured(
    label: Label, unit: float
) -> tuple[tuple[tuple[Point, ...], ...], tuple[tuple[Point, Point], ...]]:
    """Its own line, its arrows, and the lines from what is measured."""
    d = label.dimension
    start, end = d.line
    lines: list[tuple[Point, ...]] = [(start, end)]
    heads = [(end, start), (start, end)]
    if label.outside:
        far = [beyond(a, b, TAIL * unit) for a, b in ((end, start), (start, end))]
        lines += [(tail, tip) for tail, tip in zip(far, (start, end), strict=True)]
        heads = list(zip(far, (start, end), strict=True))
    for measured, foot in ((d.first, start), (d.second, end)):
        if math.dist(measured, foot) > _SHORT:
            lines.append((measured, beyond(measured, foot, label.overshoot * unit)))
    return tuple(lines), tuple(heads)


def beyond(start: Point, end: Point, further: float) -> Point:
    """The end of a line made longer."""
    apart = math.dist(start, end)
    share = further / apart
    return end[0] + share * (end[0] - start[0]), end[1] + share * (end[1] - start[1])


def arrowhead(start: Point, tip: Point, long: float, slim: float) -> tuple[Point, Point, Point]:
    """Corners of an arrow's head, its tip first; `slim` is its length over half its width."""
    apart = math.dist(start, tip)
    ux, uy = (tip[0] - start[0]) / apart, (tip[1] - start[1]) / apart
    back, half = (tip[0] - long * ux, tip[1] - long * uy), long / slim
    return tip, (back[0] - half * uy, back[1] + half * ux), (back[0] + half * uy,
                                                             back[1] - half * ux)  # fmt: skip


def _words(label: Label, unit: float) -> Lettering:
    """Their middle height is where the label says."""
    low = 0.5 * tokens.LETTERING * unit
    at = label.at[0] + low * math.sin(label.turn), label.at[1] - low * math.cos(label.turn)
    return Lettering(at, label.words, tokens.LETTERING, label.anchor, label.turn)
