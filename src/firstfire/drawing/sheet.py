"""From parts and dimensions to a whole sheet: its scale, its words, its legend."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from firstfire.drawing import tokens
from firstfire.drawing.format import A4, Format
from firstfire.drawing.keyed import keyed, nameless, stacked
from firstfire.drawing.labels import covered, labels, moved
from firstfire.drawing.legend import NOT_TO_SCALE, angle_words, legend, scale_line
from firstfire.drawing.model import (
    Arrow,
    Box,
    Centreline,
    Dimension,
    Disc,
    Drawing,
    Part,
    Point,
)
from firstfire.drawing.outlines import box_of, reach
from firstfire.drawing.profile import Profile, profile
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity


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
    swept
        Points that parts reach at other crank angles, so that the scale is the same at each.
    """

    title: str
    parts: tuple[Part, ...]
    centrelines: tuple[Centreline, ...]
    points: Mapping[str, Point]
    arrows: tuple[Arrow, ...] = ()
    newtons_per_mm: float = 0.0
    notes: tuple[str, ...] = field(default_factory=tuple)
    level: bool = False
    swept: tuple[Point, ...] = ()


def sheet(
    plain: PlainEngine,
    content: Content,
    measured: Callable[[float], Sequence[Dimension]],
    crank_angle: float,
    verdicts: Mapping[str, str] | None,
    fitted: Format = A4,
    first: str = "",
    at_rest: Callable[[float], Sequence[Dimension]] | None = None,
) -> Drawing:
    """A sheet at the largest scale at which its format holds it.

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
    fitted
        What it is laid out for.
    first
        Id of the part that gives way first, to stand out.
    at_rest
        The same dimensions at one crank angle: by them words find their places, the same at
        every angle.

    Raises
    ------
    OutsideValidity
        Where no sheet holds it.
    """
    parts = marked(content.parts, verdicts)
    held = _held(content)
    edges = profile(
        [*(shape for part in parts if not _swept(part, content) for shape in part.shapes),
         *(Disc(point, 0.1) for point in content.swept)]
    )  # fmt: skip
    for unit in (step for step in fitted.steps if fitted.holds(held, step)):
        drawn = _drawn(plain, content, parts, held, edges, measured, crank_angle, unit, fitted,
                       at_rest or measured, first)  # fmt: skip
        if fitted.holds(drawn.box, unit):
            return drawn
    raise OutsideValidity(
        f"{plain.name} is {max(held.width, held.height):.3g} mm across: no sheet of A4 holds it at "
        f"1 : {fitted.steps[-1]:g}. Check the lengths along the crank."
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


def _swept(part: Part, content: Content) -> bool:
    """Whether what a part reaches at any angle stands among the swept points."""
    return bool(content.swept) and part.id == "cam"


def _held(content: Content) -> Box:
    still = (part for part in content.parts if not _swept(part, content))
    points = [point for part in still for point in reach(part.shapes)]
    points += [end for line in content.centrelines for end in (line.start, line.end)]
    points += [end for arrow in content.arrows for end in (arrow.start, arrow.end)]
    points += content.swept
    return box_of(points)


def _drawn(
    plain: PlainEngine,
    content: Content,
    parts: tuple[Part, ...],
    held: Box,
    edges: Profile,
    measured: Callable[[float], Sequence[Dimension]],
    crank_angle: float,
    unit: float,
    fitted: Format,
    at_rest: Callable[[float], Sequence[Dimension]],
    first: str,
) -> Drawing:
    dimensions = _shown(at_rest(unit), fitted)
    ends = [end for d in dimensions for end in d.line]
    inner = box_of([(held.left, held.bottom), (held.right, held.top), *ends])
    found = labels(dimensions, inner, unit, edges, level=content.level)
    words = covered(found, inner, unit)
    found = moved(found, _shown(measured(unit), fitted), level=content.level)
    said = [
        f"{content.title}, {angle_words(crank_angle)}",
        scale_line(unit) if fitted.ruled else NOT_TO_SCALE,
        *content.notes,
    ]
    standing = next((part for part in parts if part.id == first), None)
    if standing is not None:
        said.append(f"Drawn heavy, as it gives way first: {standing.title}")
    if any(not d.to_scale for d in dimensions):
        said.append("An underlined number leaves no room for the springs: drawn longer")
    arrows = ""
    if content.arrows:
        arrows = f"force: 10 mm on paper is {_newtons(10 * unit * content.newtons_per_mm)}"
    if fitted.keyed:
        named = {d.path: d for d in measured(unit)}
        found, keys = keyed(found, named)
        if content.arrows:
            bore = 1e3 * plain.cylinders[0].cylinder.bore
            said.append(f"An arrow as long as the bore: {_newtons(bore * content.newtons_per_mm)}")
        shapes, box = stacked(plain.name, said, parts, words, unit, keys, fitted.wide - 4.0)
    else:
        shapes, box = legend(plain.name, said, parts, words, unit, arrows)
    return Drawing(
        name=plain.name,
        title=f"{content.title}, {angle_words(crank_angle)}",
        description=_described(plain, content, measured(unit), crank_angle),
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
        first=first,
    )


def _shown(dimensions: Sequence[Dimension], fitted: Format) -> Sequence[Dimension]:
    """Those that are drawn, without their words where numbers stand for them."""
    if not fitted.measured:
        return []
    return [nameless(d) for d in dimensions] if fitted.keyed else dimensions


def _newtons(force: float) -> str:
    from firstfire.verdict.numbers import shown

    return shown(force, "N")


def _described(
    plain: PlainEngine, content: Content, found: Sequence[Dimension], crank_angle: float
) -> str:
    """For whoever can't see it: what is drawn, its numbers, and what is said of its parts."""
    count = {1: "one cylinder", 2: "two cylinders"}[len(plain.cylinders)]
    numbers = ", ".join(f"{d.label} {d.text}" for d in found)
    return (
        f"{content.title} of an engine of {count}, to scale, crank "
        f"{math.degrees(crank_angle):.0f}° after firing top: {numbers}."
    )
