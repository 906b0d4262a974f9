"""Lines of one temperature in the walls about the fire, laid over the section."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from firstfire.drawing.frame import Frame
from firstfire.drawing.model import Part, Stroke
from firstfire.drawing.outlines import line
from firstfire.drawing.sizes import CylinderSizes

Wall = Literal["crown", "head", "liner"]


@dataclass(frozen=True)
class Isotherm:
    """Where a wall has one temperature.

    Attributes
    ----------
    wall
        Which: it lies even with that wall's face, as heat is reckoned through it.
    celsius
        Its temperature.
    depth
        Below the face that gas touches, m.
    top, bottom
        Of a bore's wall, from one depth below its top to another, m.
    """

    wall: Wall
    celsius: float
    depth: float
    top: float = 0.0
    bottom: float = 0.0


def isotherms(
    sizes: Sequence[CylinderSizes], frames: Sequence[Frame], found: Sequence[Sequence[Isotherm]]
) -> tuple[Part, ...]:
    """A part of lines for each cylinder, which ones in its title.

    Parameters
    ----------
    sizes, frames
        Of each cylinder, as the section has them.
    found
        Of each cylinder, as many as there are.
    """
    parts = []
    for s, frame, own in zip(sizes, frames, found, strict=True):
        shapes = tuple(shape for one in own for shape in _shapes(s, one))
        if shapes:
            title = f"lines of one temperature: {isotherm_words(own)}"
            part = Part(f"isotherms-{s.number}", title, "warmth", shapes)
            parts.append(frame.part(part))
    return tuple(parts)


def _shapes(s: CylinderSizes, one: Isotherm) -> Iterator[Stroke]:
    """Lines both sides of the bore's axis, or across it."""
    depth = 1e3 * one.depth
    if one.wall == "liner":
        x, top, low = s.bore + depth, s.deck - 1e3 * one.top, s.deck - 1e3 * one.bottom
        for side in (-1, 1):
            yield Stroke(line((s.x + side * x, low), (s.x + side * x, top)), "thin")
        return
    y = s.face + depth if one.wall == "head" else s.crown - depth
    yield Stroke(line((s.x - s.bore, y), (s.x + s.bore, y)), "thin")


def isotherm_words(found: Sequence[Isotherm]) -> str:
    """Which lines there are, from the fire outwards: too near each other to be lettered.

    Examples
    --------
    >>> isotherm_words([Isotherm("crown", 100.0, 2e-3), Isotherm("crown", 200.0, 1e-3),
    ...     Isotherm("liner", 50.0, 1e-3)])
    'crown 200, 100 °C; bore 50 °C'
    """
    walls: dict[str, set[float]] = {}
    for one in found:
        walls.setdefault(_CALLED[one.wall], set()).add(one.celsius)
    told = [
        f"{wall} {', '.join(f'{level:.0f}' for level in sorted(own, reverse=True))} °C"
        for wall, own in walls.items()
    ]
    return "; ".join(told)


_CALLED = {"crown": "crown", "head": "head", "liner": "bore"}
