"""From parts and dimensions to a whole sheet: its scale, its words, its legend."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from firstfire.drawing import tokens
from firstfire.drawing.labels import covered, labels
from firstfire.drawing.legend import angle_words, legend, scale_line
from firstfire.drawing.model import (
    Arrow,
    Box,
    Centreline,
    Dimension,
    Drawing,
    Label,
    Part,
    Point,
)
from firstfire.drawing.outlines import box_of, reach
from firstfire.drawing.profile import Profile, profile
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity

# What A4 holds inside a margin of 4 mm, for words on both sides and the legend below, mm.
_A4 = (202.0, 289.0)
_STEPS = (0.5, 1.0, 2.0, 2.5, 5.0, 10.0, 20.0, 50.0)  # ISO 5455, and 1 : 2.5 of older practice


@dataclass(frozen=True)
class Content:
    """What a view draws.

    Attributes
    ----------
    title
        What is seen, in words.
    parts, centrelines, arrows, points
        As in `Drawing`.
    newtons_per_mm
        Scale of the arrows.
    notes
        Further lines of the title block.
    level
        Whether the bores lie level.
    """

    title: str
    parts: tuple[Part, ...]
    centrelines: tuple[Centreline, ...]
    points: Mapping[str, Point]
    arrows: tuple[Arrow, ...] = ()
    newtons_per_mm: float = 0.0
    notes: tuple[str, ...] = field(default_factory=tuple)
    level: bool = False


def sheet(
    plain: PlainEngine,
    content: Content,
    measured: Callable[[float], Sequence[Dimension]],
    crank_angle: float,
    verdicts: Mapping[str, str] | None,
) -> Drawing:
    """A sheet at the largest scale of ISO 5455 at which A4 holds it.

    Parameters
    ----------
    plain
        The engine.
    content
        What is drawn.
    measured
        Its dimensions, for the millimetres of the engine to one of paper.
    crank_angle
        rad after firing top of cylinder 1.
    verdicts
        What is said of parts, by id.

    Raises
    ------
    OutsideValidity
        Where no sheet holds it.
    """
    parts = marked(content.parts, verdicts)
    held = _held(content)
    edges = profile(shape for part in parts for shape in part.shapes)
    for unit in (step for step in _STEPS if _fits(held, step)):
        drawn = _drawn(plain, content, parts, held, edges, measured, crank_angle, unit)
        if _fits(drawn.box, unit):
            return drawn
    raise OutsideValidity(
        f"{plain.name} is {max(held.width, held.height):.3g} mm across: no sheet of A4 holds it at "
        f"1 : {_STEPS[-1]:g}. Check the lengths along the crank."
    )


def marked(parts: Sequence[Part], verdicts: Mapping[str, str] | None) -> tuple[Part, ...]:
    """Parts with the word that is said of each; any other word than the four is refused.

    Raises
    ------
    ValueError
        For an unknown word: a mistake of the caller, not of the engine.
    """
    for word in (verdicts or {}).values():
        if word not in tokens.WORDS:
            raise ValueError(f'"{word}" is none of {", ".join(tokens.WORDS)}.')
    said = verdicts or {}
    return tuple(replace(p, word=said[p.id]) if p.id in said else p for p in parts)


def _held(content: Content) -> Box:
    points = [point for part in content.parts for point in reach(part.shapes)]
    points += [end for line in content.centrelines for end in (line.start, line.end)]
    points += [end for arrow in content.arrows for end in (arrow.start, arrow.end)]
    return box_of(points)


def _fits(box: Box, unit: float) -> bool:
    wide, high = box.width / unit, box.height / unit
    short, long = _A4
    return (wide <= short and high <= long) or (wide <= long and high <= short)


def _drawn(
    plain: PlainEngine,
    content: Content,
    parts: tuple[Part, ...],
    held: Box,
    edges: Profile,
    measured: Callable[[float], Sequence[Dimension]],
    crank_angle: float,
    unit: float,
) -> Drawing:
    dimensions = measured(unit)
    ends = [end for d in dimensions for end in d.line]
    inner = box_of([(held.left, held.bottom), (held.right, held.top), *ends])
    found = labels(dimensions, inner, unit, edges, level=content.level)
    words = covered(found, inner, unit)
    said = [
        f"{content.title}, {angle_words(crank_angle)}",
        scale_line(unit),
        *content.notes,
    ]
    if any(not d.to_scale for d in dimensions):
        said.append("An underlined number leaves no room for the springs: drawn longer")
    arrows = ""
    if content.arrows:
        arrows = f"force: 10 mm on paper is {_newtons(10 * unit * content.newtons_per_mm)}"
    shapes, box = legend(plain.name, said, parts, words, unit, arrows)
    return Drawing(
        name=plain.name,
        title=f"{content.title}, {angle_words(crank_angle)}",
        description=_described(plain, content, found, crank_angle),
        parts=parts,
        labels=found,
        centrelines=content.centrelines,
        arrows=content.arrows,
        legend=shapes,
        box=box.grown(2.0 * unit),
        unit=unit,
        crank_angle=crank_angle,
        newtons_per_mm=content.newtons_per_mm,
        points=content.points,
    )


def _newtons(force: float) -> str:
    from firstfire.verdict.numbers import shown

    return shown(force, "N")


def _described(
    plain: PlainEngine, content: Content, found: Sequence[Label], crank_angle: float
) -> str:
    """For whoever can't see it: what is drawn, its numbers, and what is said of its parts."""
    count = {1: "one cylinder", 2: "two cylinders"}[len(plain.cylinders)]
    numbers = ", ".join(f"{x.words}" for x in found)
    return (
        f"{content.title} of an engine of {count}, to scale, crank "
        f"{math.degrees(crank_angle):.0f}° after firing top: {numbers}."
    )
