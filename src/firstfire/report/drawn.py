"""The drawing as the page has it: parts that something is said of lead to their ledger line."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from markupsafe import Markup, escape

from firstfire.drawing.forces import forces_at
from firstfire.drawing.format import DESK, NARROW, PICTURE, Format
from firstfire.drawing.model import Drawing
from firstfire.drawing.naming import slug_of
from firstfire.drawing.section import section
from firstfire.drawing.svg import to_svg
from firstfire.drawing.verdicts import part_words
from firstfire.engine.resolve import PlainEngine
from firstfire.report.turning import turning
from firstfire.runs.bout import Bout
from firstfire.runs.moments import loads_at
from firstfire.verdict.result import Result
from firstfire.verdict.words import captions

_PREFIX = "part-"
_PART = re.compile(
    rf'<g id="(?:narrow-)?{_PREFIX}([a-z0-9-]+)" class="ff-part[ "].*?</g>\n', re.DOTALL
)


@dataclass(frozen=True)
class Drawn:
    """The engine in section, laid out for a desk and for a phone or half a sheet of paper."""

    desk: Markup
    narrow: Markup
    turning: tuple[tuple[str, Markup], ...]
    """By the class each of the two stands in, how its outlines move through a cycle."""


def drawn(result: Result, lines: Mapping[str, tuple[str, str]], first: str) -> Drawn:
    """The engine in section as SVG.

    Parameters
    ----------
    result
        From `check`.
    lines
        By part of the drawing: address of its worst ledger line, and that line in words.
    first
        Id of the part that gives way first.
    """
    words = part_words(result.margins)

    def at(fitted: Format) -> Callable[[float], Drawing]:
        return lambda angle: section(
            result.plain, crank_angle=angle, verdicts=words, fitted=fitted, first=first
        )

    rest = math.radians(30)
    laid = (("desk", DESK, _PREFIX), ("narrow", NARROW, f"narrow-{_PREFIX}"))
    desk, narrow = (_linked(at(fitted)(rest), lines, prefix) for _, fitted, prefix in laid)
    moves = tuple(
        (f"for-{name}", Markup(turning(at(fitted), prefix))) for name, fitted, prefix in laid
    )
    return Drawn(desk, narrow, moves)


def _linked(drawing: Drawing, lines: Mapping[str, tuple[str, str]], prefix: str) -> Markup:
    """Parts that something is said of as links to where it stands."""

    def linked(found: re.Match[str]) -> str:
        line = lines.get(found[1])
        if line is None:
            return found[0]
        return f'<a href="#{escape(line[0])}" aria-label="{escape(line[1])}">{found[0]}</a>'

    # A picture's inside is not read out; one that has links in it is a group.
    svg = to_svg(drawing, prefix=prefix, size=False).replace('role="img"', 'role="group"', 1)
    return Markup(_PART.sub(linked, svg))


@dataclass(frozen=True)
class ForcesDrawn:
    """The engine in section with the forces of one moment: picture and words."""

    svg: Markup
    words: str


def forces_drawn(bout: Bout, plain: PlainEngine) -> ForcesDrawn:
    """The engine where the mean cycle of cylinder 1 presses most, with what pushes there."""
    peaks = bout.point.peaks
    angle = peaks[0].angle
    felt = loads_at(bout, plain, [one.mean for one in peaks])
    forces = forces_at(felt, plain, angle)
    own = forces.cylinders[0]
    svg = to_svg(
        section(plain, crank_angle=angle, forces=forces, fitted=PICTURE),
        prefix="forces-",
        size=False,
    )
    words = captions.pushing(bout.point, angle, own.gas, own.rod, own.side)
    return ForcesDrawn(Markup(svg), words)


def part_of(way: str) -> str:
    """The part of the drawing that a way to fail speaks of, "" where none is drawn for it."""
    try:
        return slug_of(way)
    except KeyError:
        return ""
